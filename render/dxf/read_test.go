package dxf

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// The reader of these tests is ours, but shares nothing with the writer: pairs
// of group code and value, cut at code 0, areas by its own formula.

// entity is one object of a file.
type entity struct {
	kind   string
	groups [][2]string
}

// get returns the first value of a group code, "" if none.
func (e entity) get(code string) string {
	for _, g := range e.groups {
		if g[0] == code {
			return g[1]
		}
	}
	return ""
}

func (e entity) num(t *testing.T, code string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(e.get(code), 64)
	if err != nil {
		t.Fatalf("%s: group %s: %v", e.kind, code, err)
	}
	return v
}

// pairs reads a file as group codes and values.
func pairs(t *testing.T, b []byte) [][2]string {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(b), "\n"), "\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines: a pair is missing", len(lines))
	}
	var out [][2]string
	for i := 0; i < len(lines); i += 2 {
		c := strings.TrimSpace(lines[i])
		if _, err := strconv.Atoi(c); err != nil {
			t.Fatalf("line %d: %q is no group code", i+1, c)
		}
		out = append(out, [2]string{c, lines[i+1]})
	}
	return out
}

// objects cuts a file into objects; sections, tables and their ends are objects.
func objects(t *testing.T, b []byte) []entity {
	t.Helper()
	var out []entity
	for _, p := range pairs(t, b) {
		if p[0] == "0" {
			out = append(out, entity{kind: p[1]})
			continue
		}
		if len(out) == 0 {
			t.Fatal("a file starts with group 0")
		}
		e := &out[len(out)-1]
		e.groups = append(e.groups, p)
	}
	return out
}

// entities returns what the section ENTITIES holds.
func entities(t *testing.T, b []byte) []entity {
	t.Helper()
	os := objects(t, b)
	for i, o := range os {
		if o.kind != "SECTION" || o.get("2") != "ENTITIES" {
			continue
		}
		for k := i + 1; k < len(os); k++ {
			if os[k].kind == "ENDSEC" {
				return os[i+1 : k]
			}
		}
	}
	t.Fatal("no section ENTITIES")
	return nil
}

// vertex as read.
type vertex struct{ x, y, bulge float64 }

// contour is a line as read: a polyline or a circle.
type contour struct {
	layer  string
	closed bool
	v      []vertex
	radius float64 // of a circle
}

// contours reads lines back; POLYLINE takes up its VERTEX objects.
func contours(t *testing.T, b []byte) []contour {
	t.Helper()
	var out []contour
	for _, e := range entities(t, b) {
		switch e.kind {
		case "CIRCLE":
			out = append(out, contour{layer: e.get("8"), closed: true, radius: e.num(t, "40")})
		case "POLYLINE", "LWPOLYLINE":
			out = append(out, contour{layer: e.get("8"), closed: e.get("70") == "1"})
			if e.kind == "POLYLINE" {
				continue
			}
			c := &out[len(out)-1]
			for _, g := range e.groups {
				v, _ := strconv.ParseFloat(g[1], 64)
				switch g[0] {
				case "10":
					c.v = append(c.v, vertex{x: v})
				case "20":
					c.v[len(c.v)-1].y = v
				case "42":
					c.v[len(c.v)-1].bulge = v
				}
			}
			if n := e.get("90"); n != strconv.Itoa(len(c.v)) {
				t.Errorf("group 90 says %s vertices of %d", n, len(c.v))
			}
		case "VERTEX":
			c := &out[len(out)-1]
			v := vertex{x: e.num(t, "10"), y: e.num(t, "20")}
			if e.get("42") != "" {
				v.bulge = e.num(t, "42")
			}
			c.v = append(c.v, v)
		}
	}
	return out
}

// area by chords and circular segments: a bulge b stands for a sweep of
// 4·atan b, whose segment holds r²/2·(sweep − sin sweep).
func (c contour) area() float64 {
	if c.radius > 0 {
		return math.Pi * c.radius * c.radius
	}
	var a float64
	for i, p := range c.v {
		q := c.v[(i+1)%len(c.v)]
		a += ((p.x-c.v[0].x)*(q.y-c.v[0].y) - (q.x-c.v[0].x)*(p.y-c.v[0].y)) / 2
		if p.bulge != 0 {
			sweep := 4 * math.Atan(p.bulge)
			r := math.Hypot(q.x-p.x, q.y-p.y) / (2 * math.Sin(sweep/2))
			a += r * r / 2 * (sweep - math.Sin(sweep))
		}
	}
	return a
}

// shortest returns the least distance between neighbours of a contour.
func (c contour) shortest() float64 {
	least := math.Inf(1)
	for i, p := range c.v {
		if i == len(c.v)-1 && !c.closed {
			break
		}
		q := c.v[(i+1)%len(c.v)]
		least = math.Min(least, math.Hypot(q.x-p.x, q.y-p.y))
	}
	return least
}
