package dxf

import (
	"bytes"
	"math"
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
)

// sample is a drawing with every kind of thing.
func sample() render.Drawing {
	return render.Drawing{ID: "sample", Title: "Sample", Bounds: geom.BoxOf(geom.Pt(0, 0), geom.Pt(250, 180)), Groups: []render.Group{{
		ID: "g", Shapes: []render.Shape{
			{ID: "opening", Path: geom.RoundedRect(geom.Pt(120, 90), 92, 45, 6), Kind: render.Cut, Layer: "CUT_INSIDE"},
			{ID: "again", Path: geom.RoundedRect(geom.Pt(120, 90), 92, 45, 6), Kind: render.Cut, Layer: "CUT_INSIDE"},
			{ID: "pin", Path: geom.Circle(geom.Pt(20, 20), 4), Kind: render.Cut, Layer: "DRILL"},
			{ID: "axis", Path: geom.Polyline(geom.Pt(120, 0), geom.Pt(120, 180)), Kind: render.Centre},
			{ID: "back", Path: geom.Polyline(geom.Pt(10, 0), geom.Pt(10, 180)), Kind: render.Hidden, Layer: "hidden lines of the back, a name too long"},
		},
		Texts: []render.Text{{S: "Größe <&> \"q\" Ж 漢\n0\nCIRCLE", At: geom.Pt(30, 30), Size: 3, Angle: 90 * geom.Degree, Anchor: render.Middle}},
	}}}
}

// pairs reads a file back as group codes and values: a reader of our own, of a
// dozen lines, that shares nothing with the writer.
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

// loops reads the closed polylines back and returns their areas.
func areas(ps [][2]string) []float64 {
	var out []float64
	var x, y, bulge []float64
	in, head := false, false // head: of a POLYLINE, whose own place is no vertex
	flush := func() {
		if n := len(x); in && n > 1 {
			var a float64
			for i := range x {
				k := (i + 1) % n
				a += (x[i]*y[k] - x[k]*y[i]) / 2
				if b := bulge[i]; b != 0 {
					// A circular segment by its chord and bulge: sweep 4·atan b.
					th := 4 * math.Atan(b)
					c := math.Hypot(x[k]-x[i], y[k]-y[i])
					r := c / (2 * math.Sin(th/2))
					a += r * r / 2 * (th - math.Sin(th))
				}
			}
			out = append(out, a)
		}
		x, y, bulge, in = nil, nil, nil, false
	}
	for _, p := range ps {
		v, _ := strconv.ParseFloat(p[1], 64)
		switch p[0] {
		case "0":
			if p[1] != "VERTEX" {
				flush()
			}
			in = in || p[1] == "LWPOLYLINE" || p[1] == "POLYLINE"
			head = p[1] == "POLYLINE"
		case "10":
			if in && !head {
				x, bulge = append(x, v), append(bulge, 0)
			}
		case "20":
			if in && !head {
				y = append(y, v)
			}
		case "42":
			if in {
				bulge[len(bulge)-1] = v
			}
		}
	}
	return out
}

func write(t *testing.T, d render.Drawing, o Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestStructure(t *testing.T) {
	for _, v := range []Version{R2000, R12} {
		b := write(t, sample(), Options{Version: v})
		s := string(b)
		if strings.IndexFunc(s, func(r rune) bool { return r > 126 }) >= 0 {
			t.Error("not ASCII")
		}
		if !strings.HasSuffix(s, "  0\nEOF\n") {
			t.Error("does not end with EOF")
		}
		if strings.Contains(s, "\nCIRCLE\n") {
			t.Error("a line break in a text became an entity")
		}
		for _, p := range pairs(t, b) {
			if p[0] == "8" && p[1] != LayerName(p[1]) {
				t.Errorf("layer %q", p[1])
			}
			if strings.Contains(p[1], "NaN") || strings.Contains(p[1], "-0.000000") {
				t.Errorf("value %q", p[1])
			}
		}
		if !bytes.Equal(b, write(t, sample(), Options{Version: v})) {
			t.Error("twice, not the same bytes")
		}
	}
}

// A cut file holds the cut lines alone, each once.
func TestCutOnly(t *testing.T) {
	b := string(write(t, sample(), Options{CutOnly: true}))
	if n := strings.Count(b, "\nLWPOLYLINE\n"); n != 2 {
		t.Errorf("%d polylines, want the opening once and the pin", n)
	}
	for _, not := range []string{"\nTEXT\n", "SCALE_CHECK", "CENTRE\n100\nAcDbPolyline"} {
		if strings.Contains(b, not) {
			t.Errorf("holds %q", not)
		}
	}
}

// Random loops come back with their area: arcs kept, and flattened.
func TestAreaComesBack(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for i := 0; i < 200; i++ {
		n := 3 + rng.Intn(8)
		var p geom.Path
		var v []geom.Point
		for k := 0; k < n; k++ {
			a := geom.Angle(2 * math.Pi * float64(k) / float64(n))
			v = append(v, geom.Pt(300, -40).Add(a.Unit().Mul(20+80*rng.Float64())))
		}
		for k := range v {
			p = append(p, geom.ArcBulge(v[k], v[(k+1)%n], (rng.Float64()-0.5)*float64(rng.Intn(3))))
		}
		d := render.Drawing{Groups: []render.Group{{Shapes: []render.Shape{{Path: p, Kind: render.Cut}}}}}
		for _, o := range []Options{{CutOnly: true}, {CutOnly: true, Version: R12}, {CutOnly: true, FlattenMM: 0.01}} {
			got := areas(pairs(t, write(t, d, o)))
			tol := 1e-6 * p.Length() // half of the last decimal along the outline
			if o.FlattenMM > 0 {
				tol = o.FlattenMM * p.Length()
			}
			if len(got) != 1 || math.Abs(got[0]-p.Area()) > tol {
				t.Fatalf("case %d %+v: area %v, want %g", i, o, got, p.Area())
			}
		}
	}
}

func TestRefusesNaN(t *testing.T) {
	d := render.Drawing{Groups: []render.Group{{Shapes: []render.Shape{{ID: "bad", Path: geom.Polyline(geom.Pt(0, 0), geom.Pt(math.NaN(), 1))}}}}}
	if err := Write(&bytes.Buffer{}, d, Options{}); err == nil {
		t.Error("a NaN was written")
	}
}

func TestEscape(t *testing.T) {
	for in, want := range map[string]string{
		"plain":   "plain",
		"Größe":   `Gr\U+00F6\U+00DFe`,
		"a\nb\tc": "a b c",
		`C:\new`:  `C:\U+005Cnew`,
		"100%%d":  "100% %d",
	} {
		if got := Escape(in); got != want {
			t.Errorf("Escape(%q) = %q, want %q", in, got, want)
		}
	}
}
