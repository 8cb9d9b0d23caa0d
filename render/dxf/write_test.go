package dxf

import (
	"bytes"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"
)

// nasty is a name with everything that may break a file of text pairs.
const nasty = "Größe <&> \"q\" Ж Ω 漢 \\P ^J %%d\r\n  0\nCIRCLE\n  8\nX\u0085\u2028end"

// sample is a drawing with every kind of thing.
func sample() render.Drawing {
	opening := geom.RoundedRect(geom.Pt(120, 90), 92, 45, 6)
	return drawing(render.Group{
		ID: "g", Shapes: []render.Shape{
			{ID: "opening", Path: opening, Kind: render.Cut, Layer: "CUT_INSIDE"},
			{ID: "again", Path: opening.From(3).Reversed(), Kind: render.Cut, Layer: "CUT_INSIDE"},
			{ID: "pin", Path: geom.Circle(geom.Pt(20, 20), 4), Kind: render.Cut, Layer: "DRILL"},
			{ID: "axis", Path: geom.Polyline(geom.Pt(120, 0), geom.Pt(120, 180)), Kind: render.Centre},
			{ID: "axis-again", Path: geom.Polyline(geom.Pt(120, 180), geom.Pt(120, 0)), Kind: render.Centre},
			{ID: "back", Path: geom.Polyline(geom.Pt(10, 0), geom.Pt(10, 180)), Kind: render.Hidden, Layer: "hidden lines of the back, a name too long"},
			{ID: "other", Path: geom.Polyline(geom.Pt(11, 0), geom.Pt(11, 180)), Kind: render.Mark, Layer: "hidden lines of the back, a name too long too"},
		},
		Texts: []render.Text{{S: nasty, At: geom.Pt(30, 30), Size: 3, Angle: 90 * geom.Degree, Anchor: render.Middle}},
	})
}

func drawing(gs ...render.Group) render.Drawing {
	return render.Drawing{ID: "sample", Title: "Sample", Bounds: geom.BoxOf(geom.Pt(0, 0), geom.Pt(250, 180)), Groups: gs}
}

func cutOnly(p ...geom.Path) render.Drawing {
	var g render.Group
	for _, q := range p {
		g.Shapes = append(g.Shapes, render.Shape{Path: q, Kind: render.Cut})
	}
	return drawing(g)
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
		if strings.IndexFunc(s, func(r rune) bool { return r > 126 || r < ' ' && r != '\n' }) >= 0 {
			t.Error("not plain ASCII")
		}
		if !strings.HasSuffix(s, "  0\nEOF\n") {
			t.Error("does not end with EOF")
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
		// One opening, one axis, one circle, two other lines, the scale square; the
		// second opening and axis are the same lines again.
		if cs := contours(t, b); len(cs) != 6 {
			t.Errorf("%d lines, want 6", len(cs))
		}
	}
}

// A handle names one object, the seed lies above all, and every pointer finds
// its object (DXF reference: groups 5, 105, 330–369, 390).
func TestHandles(t *testing.T) {
	own, seed := map[int64]bool{0: true}, int64(0)
	var pointers []string
	inHeader, seedNext := true, false
	for _, p := range pairs(t, write(t, sample(), Options{})) {
		switch {
		case p[0] == "9":
			seedNext = p[1] == "$HANDSEED"
		case seedNext && p[0] == "5":
			seed, _ = strconv.ParseInt(p[1], 16, 64)
			seedNext = false
		case p[1] == "TABLES":
			inHeader = false
		case !inHeader && (p[0] == "5" || p[0] == "105"):
			h, err := strconv.ParseInt(p[1], 16, 64)
			if err != nil || own[h] || h >= seed {
				t.Errorf("handle %s: used twice, or not under the seed %X", p[1], seed)
			}
			own[h] = true
		case p[0] == "330", p[0] == "340", p[0] == "350", p[0] == "390":
			pointers = append(pointers, p[1])
		}
	}
	for _, p := range pointers {
		if h, err := strconv.ParseInt(p, 16, 64); err != nil || !own[h] {
			t.Errorf("a pointer to %s finds nothing", p)
		}
	}
}

// R12 knows no subclasses, no handles to owners, no light polylines and none of
// the later header variables.
func TestR12IsStrict(t *testing.T) {
	for _, p := range pairs(t, write(t, sample(), Options{Version: R12})) {
		switch p[0] {
		case "100", "330", "340", "350", "370", "390", "102", "281", "90":
			t.Errorf("group %s %q", p[0], p[1])
		case "9":
			if p[1] != "$ACADVER" && p[1] != "$EXTMIN" && p[1] != "$EXTMAX" {
				t.Errorf("header variable %s", p[1])
			}
		}
		if p[1] == "LWPOLYLINE" {
			t.Error("LWPOLYLINE")
		}
	}
}

func TestUnits(t *testing.T) {
	s := string(write(t, sample(), Options{}))
	for _, want := range []string{"$INSUNITS\n 70\n4\n", "$MEASUREMENT\n 70\n1\n"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %q", want)
		}
	}
}

// A cut file holds the cut lines alone, each once.
func TestCutOnly(t *testing.T) {
	b := write(t, sample(), Options{CutOnly: true})
	cs := contours(t, b)
	if len(cs) != 2 || cs[0].layer != "CUT_INSIDE" || cs[1].layer != "DRILL" || cs[1].radius != 4 {
		t.Errorf("%+v, want the opening once and the pin", cs)
	}
	for _, not := range []string{"\nTEXT\n", "SCALE_CHECK"} {
		if strings.Contains(string(b), not) {
			t.Errorf("holds %q", not)
		}
	}
	// The sample of a cut line in the list of lines is not cut.
	legend := drawing(render.Group{Shapes: []render.Shape{{Path: geom.Polyline(geom.Pt(0, 0), geom.Pt(14, 0)), Kind: render.Cut, Layer: render.LegendLayer}}})
	if cs := contours(t, write(t, legend, Options{CutOnly: true})); len(cs) != 0 {
		t.Errorf("a sample is cut: %+v", cs)
	}
	if cs := contours(t, write(t, render.Drawing{}, Options{CutOnly: true})); len(cs) != 0 {
		t.Errorf("nothing to cut, yet %+v", cs)
	}
}

// The square measures 100 mm and lies clear of the drawing.
func TestScaleSquare(t *testing.T) {
	for _, c := range contours(t, write(t, sample(), Options{})) {
		if c.layer != scaleLayer {
			continue
		}
		if len(c.v) != 4 || math.Abs(c.area()-ScaleSquare*ScaleSquare) > 1e-9 || !c.closed {
			t.Errorf("%+v", c)
		}
		for _, v := range c.v {
			if v.x > 0 {
				t.Errorf("%+v reaches into the drawing", c)
			}
		}
		return
	}
	t.Error("no scale square")
}

// loop draws a closed loop round a point: star-shaped, with bulges.
func loop(t *rapid.T) geom.Path {
	n := rapid.IntRange(2, 12).Draw(t, "n")
	at := geom.Pt(rapid.Float64Range(-1000, 1000).Draw(t, "x"), rapid.Float64Range(-1000, 1000).Draw(t, "y"))
	var v []geom.Point
	for k := 0; k < n; k++ {
		a := geom.Angle(2 * math.Pi * float64(k) / float64(n))
		v = append(v, at.Add(a.Unit().Mul(rapid.Float64Range(10, 300).Draw(t, "r"))))
	}
	var p geom.Path
	for k := range v {
		bulge := rapid.SampledFrom([]float64{0, 1, -1, 0.4142, 1e-3, 2.5}).Draw(t, "b") * rapid.Float64Range(0.1, 1).Draw(t, "f")
		p = append(p, geom.ArcBulge(v[k], v[(k+1)%n], bulge))
	}
	return p
}

// Random loops come back with their area, arcs kept and flattened, in both
// versions, whichever way they run.
func TestAreaComesBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := loop(rt)
		for _, q := range []geom.Path{p, p.Reversed(), p.From(1)} {
			for _, o := range []Options{{}, {Version: R12}, {FlattenMM: 0.01}, {FlattenMM: 0.2, Version: R12}} {
				o.CutOnly = true
				cs := contours(t, write(t, cutOnly(q), o))
				// Each vertex is off by up to half of the sixth decimal, each bulge by half
				// of the ninth: 1e-6 along the outline holds both.
				tol := 1e-6 * q.Length()
				if o.FlattenMM > 0 {
					tol += o.FlattenMM * q.Length()
				}
				if len(cs) == 0 && math.Abs(q.Area()) < tol {
					continue
				}
				want := q.Area()
				if len(cs) == 1 && cs[0].radius > 0 {
					want = math.Abs(want) // a CIRCLE has no direction
				}
				if len(cs) != 1 || math.Abs(cs[0].area()-want) > tol {
					rt.Fatalf("%+v: %+v, want area %g", o, cs, want)
				}
				if s := cs[0].shortest(); s < least-2e-6 {
					rt.Fatalf("a segment of %g mm", s)
				}
			}
		}
	})
}

// Flattened arcs stay within what was asked: the chord's sagitta, r(1 − cos(a/2)).
func TestFlattenTolerance(t *testing.T) {
	for _, tol := range []float64{0.001, 0.01, 0.1} {
		for _, r := range []float64{0.5, 3, 42, 500} {
			c := contours(t, write(t, cutOnly(geom.Circle(geom.Pt(7, -3), r)), Options{CutOnly: true, FlattenMM: tol}))[0]
			for i, p := range c.v {
				q := c.v[(i+1)%len(c.v)]
				if e := r - math.Hypot((p.x+q.x)/2-7, (p.y+q.y)/2+3); e > tol+1e-6 {
					t.Errorf("radius %g, asked %g: off by %g", r, tol, e)
				}
			}
		}
	}
}

// What a cutter stumbles over is left out; what only looks short is not.
func TestShortPieces(t *testing.T) {
	a, b, c, d := geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 5), geom.Pt(0, 5)
	near := func(p geom.Point) geom.Point { return geom.Pt(p.X+3e-5, p.Y) }
	nearlyWhole := geom.ArcSweep(geom.Pt(0, 0), 5, 0, 2*math.Pi-1e-6) // its chord is 5e-6 mm
	gap := geom.Line(nearlyWhole.B, nearlyWhole.A)
	for _, tt := range []struct {
		name   string
		p      geom.Path
		vertex int
		closed bool
		area   float64
	}{
		{"tiny piece inside", geom.Polygon(a, b, near(b), c, d), 4, true, 50},
		{"tiny piece last", geom.Polygon(a, b, c, d, near(a)), 4, true, 50},
		{"open, tiny piece last", geom.Polyline(a, b, near(b)), 2, false, 0},
		{"a loop of 2 lines is one line", geom.Polygon(a, b), 2, false, 0},
		{"nearly a whole turn", geom.Path{nearlyWhole, gap}, 2, true, 25 * math.Pi},
		{"nothing but tiny", geom.Polygon(a, near(a)), 0, false, 0},
	} {
		cs := contours(t, write(t, cutOnly(tt.p), Options{CutOnly: true}))
		if tt.vertex == 0 {
			if len(cs) != 0 {
				t.Errorf("%s: %+v", tt.name, cs)
			}
			continue
		}
		if len(cs) != 1 || len(cs[0].v) != tt.vertex || cs[0].closed != tt.closed || tt.closed && math.Abs(cs[0].area()-tt.area) > 1e-3 {
			t.Errorf("%s: %+v, area %g", tt.name, cs, cs[0].area())
		}
	}
}

// Every sheet of the test set comes out sound in both versions.
func TestSheets(t *testing.T) {
	for _, s := range rendertest.Sheets() {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		var work geom.Box // what the sheet was asked to show, less what Layout adds
		for _, g := range d.Groups {
			for _, sh := range g.Shapes {
				if sh.Kind == render.Cut && sh.Layer != render.LegendLayer {
					work = work.Union(sh.Path.Bounds())
				}
			}
		}
		for _, c := range contours(t, write(t, d, Options{CutOnly: true})) {
			for _, v := range c.v {
				if !work.Grow(1e-5).Contains(geom.Pt(v.x, v.y)) {
					t.Errorf("%s: a cut at %v, outside of all cut lines %v", s.ID, v, work)
				}
			}
		}
		for _, o := range []Options{{}, {Version: R12}, {CutOnly: true}, {FlattenMM: 0.01}} {
			for _, c := range contours(t, write(t, d, o)) {
				if c.radius == 0 && (len(c.v) < 2 || c.shortest() < least/2) {
					t.Errorf("%s: %+v", s.ID, c)
				}
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	bad := map[string]render.Drawing{
		"NaN":       cutOnly(geom.Polyline(geom.Pt(0, 0), geom.Pt(math.NaN(), 1))),
		"radius":    cutOnly(geom.Path{{A: geom.Pt(0, 0), B: geom.Pt(1, 0), Radius: math.Inf(1), Turn: 1}}),
		"gap":       cutOnly(geom.Path{geom.Line(geom.Pt(0, 0), geom.Pt(1, 0)), geom.Line(geom.Pt(2, 0), geom.Pt(3, 0))}),
		"text":      drawing(render.Group{Texts: []render.Text{{S: "x", At: geom.Pt(math.Inf(1), 0), Size: 3}}}),
		"text size": drawing(render.Group{Texts: []render.Text{{S: "x"}}}),
	}
	for name, d := range bad {
		var b bytes.Buffer
		if err := Write(&b, d, Options{}); err == nil || b.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes", name, err, b.Len())
		}
	}
	if err := Write(&bytes.Buffer{}, sample(), Options{FlattenMM: math.NaN()}); err == nil {
		t.Error("a tolerance of NaN was taken")
	}
}

type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.room {
		return 0, errors.New("no space left")
	}
	f.room -= len(p)
	return len(p), nil
}

func TestWriterErrorIsReturned(t *testing.T) {
	if err := Write(&full{100}, sample(), Options{}); err == nil {
		t.Error("a full disk was not reported")
	}
}

func TestEscape(t *testing.T) {
	for in, want := range map[string]string{
		"plain":          "plain",
		"Größe":          `Gr\U+00F6\U+00DFe`,
		"a\nb\tc\x00d":   "a b c d",
		"a\u0085b\u2029": "a b",
		`C:\new`:         `C:\U+005Cnew`,
		"^J":             `\U+005EJ`,
		"100%%d":         "100% %d",
		"😀":              `\U+D83D\U+DE00`,
	} {
		if got := Escape(in, 255); got != want {
			t.Errorf("Escape(%q) = %q, want %q", in, got, want)
		}
	}
	long := strings.Repeat("漢", 100)
	if got := Escape(long, 255); len(got) > 255 || !strings.HasSuffix(got, `\U+6F22...`) {
		t.Errorf("%d bytes: %q", len(got), got)
	}
}

func TestLayerNames(t *testing.T) {
	f := &file{}
	for _, tt := range [][2]string{
		{"CUT_INSIDE", "CUT_INSIDE"}, {"cut_inside", "CUT_INSIDE"}, {"Ж", "_"}, {"Ω", "__2"}, {"0", "0_2"},
		{"ABCDEFGHIJKLMNOPQRSTUVWXYZ01234", "ABCDEFGHIJKLMNOPQRSTUVWXYZ01234"},
		{"ABCDEFGHIJKLMNOPQRSTUVWXYZ012345", "ABCDEFGHIJKLMNOPQRSTUVWXYZ012_2"},
	} {
		if got := f.layer(tt[0], render.Cut); got != tt[1] {
			t.Errorf("layer(%q) = %q, want %q", tt[0], got, tt[1])
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	d, err := render.Layout(rendertest.Template(false), render.LayoutOptions{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := Write(&bytes.Buffer{}, d, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// A line that a cutter is led along goes into the cutter file with its direction:
// never as a circle, and run the way that it was given.
func TestLedLines(t *testing.T) {
	for _, turned := range []bool{false, true} {
		p := geom.Circle(geom.Pt(10, 20), 8)
		if turned {
			p = p.Reversed()
		}
		d := render.Drawing{ID: "led", Bounds: p.Bounds(), Groups: []render.Group{{ID: "g", Shapes: []render.Shape{
			{ID: "a", Path: p, Kind: render.Mark, Layer: "PATH", Led: true},
			{ID: "b", Path: geom.Circle(geom.Pt(10, 20), 5), Kind: render.Mark, Layer: "MARK"},
		}}}}
		var b bytes.Buffer
		if err := Write(&b, d, Options{CutOnly: true}); err != nil {
			t.Fatal(err)
		}
		s := b.String()
		if strings.Contains(s, "CIRCLE") || strings.Contains(s, "MARK") || !strings.Contains(s, "PATH") {
			t.Errorf("turned %v: a circle, a mark, or no path in the cutter file", turned)
		}
		want := "\n 42\n1.000000000\n"
		if turned {
			want = "\n 42\n-1.000000000\n"
		}
		if n := strings.Count(s, want); n != 2 {
			t.Errorf("turned %v: %d half turns of the right sense, want 2", turned, n)
		}
	}
}
