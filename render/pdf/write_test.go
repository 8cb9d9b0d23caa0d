package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/pdf/pdftest"
)

func drawing() render.Drawing {
	return render.Drawing{ID: "d", Title: "Größe Ж <&> (a\\b", Bounds: geom.BoxOf(geom.Pt(-20, -10), geom.Pt(230, 170)), Groups: []render.Group{{Shapes: []render.Shape{
		{ID: "square", Path: geom.Rect(geom.Pt(80, 70), 100, 100), Kind: render.Cut},
		{ID: "circle", Path: geom.Circle(geom.Pt(180, 70), 30), Kind: render.Hidden},
		{ID: "axis", Path: geom.Polyline(geom.Pt(0, 0), geom.Pt(200, 0)), Kind: render.Centre},
		{ID: "head", Path: geom.Polygon(geom.Pt(0, 0), geom.Pt(5, 1), geom.Pt(5, -1)), Kind: render.Mark, Fill: true},
	}, Texts: []render.Text{
		{S: "control cavity, Größe Ж Ω (a\\b)", At: geom.Pt(30, 130), Size: 4, Bold: true},
		{S: "up", At: geom.Pt(10, 60), Size: 3, Angle: 90 * geom.Degree, Anchor: render.Middle},
		{S: "漢\n0", At: geom.Pt(10, 20), Size: 3},
	}}}}
}

func pageOf(name string, w, h, factor float64) render.Page {
	g := drawing().Groups
	return render.Page{
		Name: name, Title: "Template, page " + name, W: w, H: h, Factor: geom.Vec{X: factor, Y: 1 / factor},
		Window: geom.BoxOf(geom.Pt(10, 10), geom.Pt(w-10, h-10)), Tile: g,
		Furniture: []render.Group{{Shapes: []render.Shape{
			{Path: geom.Polyline(geom.Pt(5, 5), geom.Pt(155, 5)), Kind: render.Frame},
			{Path: geom.Polyline(geom.Pt(5, 5), geom.Pt(5, 105)), Kind: render.Frame},
		}, Texts: []render.Text{{S: "ruler", At: geom.Pt(5, 7), Size: 2.2}}}},
	}
}

func whole(t *testing.T, ds ...render.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if notes, err := Whole(&b, "Größe Ж", ds); err != nil || notes != nil {
		t.Fatal(notes, err)
	}
	return b.Bytes()
}

func tiled(t *testing.T, ss ...Section) []byte {
	t.Helper()
	var b bytes.Buffer
	if notes, err := Tiled(&b, "Tiles", ss); err != nil || notes != nil {
		t.Fatal(notes, err)
	}
	return b.Bytes()
}

func pages(t *testing.T, b []byte) []pdftest.Page {
	t.Helper()
	ps, err := pdftest.Pages(b)
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

func sections() []Section {
	return []Section{
		{Title: "One", Pages: []render.Page{pageOf("A1", 210, 297, 1), pageOf("A2", 297, 210, 1), pageOf("A3", 420, 297, 1.004)}},
		{Title: "Two Ж", Pages: []render.Page{pageOf("A1", 210, 297, 0.996)}},
		{Title: "Three", Pages: []render.Page{pageOf("A1", 210, 298, 1), pageOf("A2", 210, 297, 1)}},
	}
}

func TestSameBytes(t *testing.T) {
	a, b := whole(t, drawing(), drawing()), tiled(t, sections()...)
	for i := 0; i < 5; i++ {
		if !bytes.Equal(a, whole(t, drawing(), drawing())) || !bytes.Equal(b, tiled(t, sections()...)) {
			t.Fatal("written again, not the same bytes")
		}
	}
}

func TestPreferences(t *testing.T) {
	for _, b := range [][]byte{whole(t, drawing()), tiled(t, sections()...)} {
		if !bytes.HasPrefix(b, []byte("%PDF-1.7")) {
			t.Error("header")
		}
		catalog := pdftest.Catalog(b)
		for _, want := range []string{"/PrintScaling /None", "/Duplex /Simplex", "/PickTrayByPDFSize true", "/Type /Catalog", "/Outlines "} {
			if !strings.Contains(catalog, want) {
				t.Errorf("no %s in the catalog %s", want, catalog)
			}
		}
		// A link annotation would fail a strict reader.
		for _, not := range []string{"/Subtype /Link", "/JavaScript", "/URI"} {
			if bytes.Contains(b, []byte(not)) {
				t.Errorf("holds %s", not)
			}
		}
		for _, font := range []string{"/FontFile2"} {
			if bytes.Count(b, []byte(font)) != 2 {
				t.Errorf("%d embedded fonts, want regular and bold", bytes.Count(b, []byte(font)))
			}
		}
	}
}

// Each page is as large as its drawing or paper, mixed sizes included.
func TestPageSizes(t *testing.T) {
	small := drawing()
	small.Bounds = geom.BoxOf(geom.Pt(0, 0), geom.Pt(60, 40))
	ps := pages(t, whole(t, drawing(), small, drawing()))
	want := [][2]float64{{250, 180}, {60, 40}, {250, 180}}
	for _, s := range sections() {
		for _, p := range s.Pages {
			want = append(want, [2]float64{p.W, p.H})
		}
	}
	ps = append(ps, pages(t, tiled(t, sections()...))...)
	if len(ps) != len(want) {
		t.Fatalf("%d pages, want %d", len(ps), len(want))
	}
	for i, p := range ps {
		// Half of the second decimal of a point is 0.002 mm.
		if math.Abs(p.W-want[i][0]) > 0.002 || math.Abs(p.H-want[i][1]) > 0.002 {
			t.Errorf("page %d: %.4f × %.4f, want %v", i, p.W, p.H, want[i])
		}
	}
}

// What is drawn lies where the drawing says, to 1e-4 mm.
func TestPlaces(t *testing.T) {
	fs := pages(t, whole(t, drawing()))[0].Figures()
	if len(fs) != 4 {
		t.Fatalf("%d figures, want 4", len(fs))
	}
	near := func(name string, p, q geom.Point) {
		if p.Dist(q) > 1e-5 {
			t.Errorf("%s at %v, want %v", name, p, q)
		}
	}
	sq := geom.BoxOf(fs[0].At...)
	near("square", sq.Min, geom.Pt(50, 30))
	near("square", sq.Max, geom.Pt(150, 130))
	for _, p := range fs[1].At {
		if e := math.Abs(p.Dist(geom.Pt(200, 80)) - 30); e > 1e-4 {
			t.Errorf("circle: radius off by %g", e)
		}
	}
	for i, op := range []string{"s", "s", "S", "f"} {
		if fs[i].Op != op {
			t.Errorf("figure %d painted by %s, want %s", i, fs[i].Op, op)
		}
	}
}

// The correction scales lines and rulers about the paper's lower left corner,
// and the tile is clipped to its window, also corrected.
func TestCorrection(t *testing.T) {
	p := pageOf("A1", 210, 297, 1.004)
	fs := pages(t, tiled(t, Section{Title: "One", Pages: []render.Page{p}}))[0].Figures()
	fx, fy := 1.004, 1/1.004
	sq := geom.BoxOf(fs[0].At...)
	if math.Abs(sq.W()-100*fx) > 1e-3 || math.Abs(sq.H()-100*fy) > 1e-3 {
		t.Errorf("square %g × %g", sq.W(), sq.H())
	}
	if c := fs[0].Clip; c.Min.Dist(geom.Pt(10*fx, 10*fy)) > 1e-3 || c.Max.Dist(geom.Pt(200*fx, 287*fy)) > 1e-3 {
		t.Errorf("clipped to %v", c)
	}
	across := fs[4]
	if !across.Clip.Empty() || math.Abs(across.At[1].X-across.At[0].X-150*fx) > 1e-3 {
		t.Errorf("ruler %v", across)
	}
}

// Bookmarks: one a sheet, one a page below it where there are several, each at
// the top of its page.
func TestBookmarks(t *testing.T) {
	b := tiled(t, sections()...)
	ps := pages(t, b)
	index := map[string]int{}
	for i, p := range ps {
		index[fmt.Sprint(p.Object)] = i
	}
	var got []string
	objs := pdftest.Objects(b)
	dest := regexp.MustCompile(`/Dest \[(\d+) 0 R /XYZ 0 ([-\d.]+) null\]`)
	for n := 0; n < 1000; n++ {
		m := dest.FindStringSubmatch(objs[n])
		if m == nil {
			continue
		}
		i := index[m[1]]
		got = append(got, fmt.Sprint(i))
		var y float64
		fmt.Sscan(m[2], &y)
		if math.Abs(y/pt-ps[i].H) > 0.01 {
			t.Errorf("a bookmark of page %d at height %.3f of %.3f mm", i, y/pt, ps[i].H)
		}
	}
	if s := strings.Join(got, " "); s != "0 0 1 2 3 4 4 5" {
		t.Errorf("bookmarks to pages %s", s)
	}
}

func TestLargePageIsReported(t *testing.T) {
	d := drawing()
	d.Bounds = geom.BoxOf(geom.Pt(0, 0), geom.Pt(6000, 200))
	notes, err := Whole(&bytes.Buffer{}, "Test", []render.Drawing{d})
	if err != nil || len(notes) != 1 || !strings.Contains(notes[0], "5080") {
		t.Errorf("notes %q, %v", notes, err)
	}
}

func TestRefuses(t *testing.T) {
	nan := drawing()
	nan.Groups[0].Shapes[0].Path = geom.Polyline(geom.Pt(0, math.NaN()), geom.Pt(1, 1))
	arc := drawing()
	arc.Groups[0].Shapes[0].Path = geom.Path{{A: geom.Pt(0, 0), B: geom.Pt(1, 1), Center: geom.Pt(math.NaN(), 0), Radius: 1, Turn: 1}}
	word := drawing()
	word.Groups[0].Texts[0].At = geom.Pt(math.Inf(1), 0)
	flat := drawing()
	flat.Bounds = geom.Box{}
	for name, d := range map[string]render.Drawing{"line": nan, "arc": arc, "text": word, "no size": flat} {
		var b bytes.Buffer
		if _, err := Whole(&b, "Test", []render.Drawing{d}); err == nil || b.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes", name, err, b.Len())
		}
	}
	if _, err := Tiled(&bytes.Buffer{}, "Test", nil); err == nil {
		t.Error("a file without a page")
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestWriterErrorIsReturned(t *testing.T) {
	if _, err := Whole(full{}, "Test", []render.Drawing{drawing()}); err == nil {
		t.Error("a full disk was not reported")
	}
}

// The Bézier curves of an arc stay within 0.0001 mm of it.
func TestBeziers(t *testing.T) {
	for _, s := range []geom.Seg{
		geom.ArcSweep(geom.Pt(3, 4), 140, 0.3, 5.9),
		geom.ArcSweep(geom.Pt(3, 4), 140, 0.3, -0.4),
		geom.ArcSweep(geom.Pt(0, 0), 3, 1, math.Pi),
	} {
		for _, c := range beziers(s) {
			for i := 0; i <= 20; i++ {
				p := c.At(float64(i) / 20)
				if e := math.Abs(p.Dist(s.Center) - s.Radius); e > 1e-4 {
					t.Errorf("radius %g: off by %g", s.Radius, e)
				}
			}
		}
	}
}

func BenchmarkWhole(b *testing.B) {
	d := drawing()
	for b.Loop() {
		if _, err := Whole(&bytes.Buffer{}, "Test", []render.Drawing{d}); err != nil {
			b.Fatal(err)
		}
	}
}
