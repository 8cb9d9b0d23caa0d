package peers

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// readDXF reads the closed LWPOLYLINEs and circles of a DXF file as polygons. It
// knows of the program's writer only what the format says: pairs of lines, group
// codes 10, 20, 40, 42 and 70, a bulge of tan(angle/4).
func readDXF(t *testing.T, file string) loops {
	t.Helper()
	lines := strings.Split(strings.ReplaceAll(file, "\r\n", "\n"), "\n")
	type vertex struct{ x, y, bulge float64 }
	var out loops
	var kind string
	var vs []vertex
	var radius float64
	inEntities := false
	end := func() {
		switch {
		case !inEntities || len(vs) == 0:
		case kind == "CIRCLE":
			out = append(out, arc(nil, vs[0].x, vs[0].y, radius, 0, 2*math.Pi))
		case kind == "LWPOLYLINE":
			var l [][2]float64
			for i, a := range vs {
				b := vs[(i+1)%len(vs)]
				l = append(l, [2]float64{a.x, a.y})
				if a.bulge != 0 { // centre left of the chord by (1 − b²)/4b of it
					k := (1 - a.bulge*a.bulge) / (4 * a.bulge)
					dx, dy := b.x-a.x, b.y-a.y
					cx, cy := (a.x+b.x)/2-k*dy, (a.y+b.y)/2+k*dx
					l = arc(l, cx, cy, math.Hypot(a.x-cx, a.y-cy), math.Atan2(a.y-cy, a.x-cx), 4*math.Atan(a.bulge))
				}
			}
			out = append(out, l)
		}
		vs = nil
	}
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			t.Fatalf("line %d: %q is no group code", i+1, lines[i])
		}
		v := strings.TrimSpace(lines[i+1])
		num := func() float64 {
			x, err := strconv.ParseFloat(v, 64)
			if err != nil {
				t.Fatalf("line %d: %q is no number", i+2, v)
			}
			return x
		}
		switch {
		case code == 0:
			end()
			kind = v
		case code == 2 && kind == "SECTION":
			inEntities = v == "ENTITIES"
		case !inEntities:
		case code == 10:
			vs = append(vs, vertex{x: num()})
		case code == 20 && len(vs) > 0:
			vs[len(vs)-1].y = num()
		case code == 42 && len(vs) > 0:
			vs[len(vs)-1].bulge = num()
		case code == 40:
			radius = num()
		case code == 70 && kind == "LWPOLYLINE" && num() != 1:
			t.Fatalf("line %d: an open outline", i+2)
		}
	}
	end()
	return out
}

// arc appends points along an arc, without its end, within chord mm.
func arc(l [][2]float64, x, y, r, start, sweep float64) [][2]float64 {
	n := int(math.Ceil(math.Abs(sweep)/(2*math.Acos(1-chord/r)))) + 1
	for i := range n {
		if i == 0 && l != nil {
			continue
		}
		s, c := math.Sincos(start + sweep*float64(i)/float64(n))
		l = append(l, [2]float64{x + r*c, y + r*s})
	}
	return l
}
