package render_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"
)

func rows(t *testing.T, file string) [][]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all[1:]
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// boxDrawing is a bare rectangle of w × h mm.
func boxDrawing(w, h float64) render.Drawing {
	p := geom.Rect(geom.Pt(w/2-7, h/2+3), w, h)
	return render.Drawing{ID: "box", Title: "box", Bounds: p.Bounds(),
		Groups: []render.Group{{Shapes: []render.Shape{{Path: p, Kind: render.Cut}}}}}
}

// Sizes by ISO 216 and ASME Y14.1, from the sources named in the file.
func TestPaperSizes(t *testing.T) {
	want := map[string][2]float64{}
	for _, r := range rows(t, "testdata/reference/paper_sizes.csv") {
		name := strings.TrimSpace(strings.Split(r[0], "/")[0])
		want[strings.ToLower(name)] = [2]float64{num(t, r[2]), num(t, r[3])}
	}
	seen := 0
	for _, p := range render.Papers() {
		w, ok := want[strings.ToLower(strings.ReplaceAll(p.Name, "-", " "))]
		if !ok {
			if !p.Roll() {
				t.Errorf("%s is in no reference", p.Name)
			}
			continue
		}
		seen++
		if math.Abs(p.W-w[0]) > 1e-9 || math.Abs(p.H-w[1]) > 1e-9 {
			t.Errorf("%s is %v × %v, want %v", p.Name, p.W, p.H, w)
		}
	}
	if seen != 11 {
		t.Errorf("%d sizes were compared, want 11", seen)
	}
}

func TestParsePaper(t *testing.T) {
	for in, want := range map[string]render.Paper{
		"a4": {Name: "A4", W: 210, H: 297}, "letter": {Name: "Letter", W: 215.9, H: 279.4}, "ANSI C": {Name: "ANSI-C", W: 431.8, H: 558.8},
		"C": {Name: "ANSI-C", W: 431.8, H: 558.8}, "roll 610": {Name: "roll-610", W: 610}, "450 x 300 mm": {Name: "300x450", W: 300, H: 450}, "11 × 15 in": {Name: "279.4x381", W: 279.4, H: 381},
	} {
		got, err := render.ParsePaper(in)
		if err != nil || got.Name != want.Name || math.Abs(got.W-want.W) > 1e-9 || math.Abs(got.H-want.H) > 1e-9 {
			t.Errorf("ParsePaper(%q) = %v, %v; want %v", in, got, err, want)
		}
	}
	for _, in := range []string{"", "A9x", "10 x 20 mm", "nan x 300", "-200 x 300", "300 x inf", "300x400x500", "9000 x 9000 mm", "200 x"} {
		if p, err := render.ParsePaper(in); err == nil {
			t.Errorf("ParsePaper(%q) = %v, no error", in, p)
		}
	}
}

// Page counts of the reference cases: margins and overlap, no strips.
func TestTilingCases(t *testing.T) {
	for _, r := range rows(t, "testdata/reference/tiling_cases.csv") {
		w, h := num(t, r[0]), num(t, r[1])
		var pw, ph float64
		if _, err := fmt.Sscanf(r[2], "%fx%f", &pw, &ph); err != nil {
			t.Fatal(err)
		}
		n := int(num(t, r[9]))
		pages, err := render.Tile(boxDrawing(w, h), render.Paper{Name: r[2], W: pw, H: ph},
			render.TileOptions{MarginMM: num(t, r[3]), OverlapMM: num(t, r[4]), NoCover: true, NoRulers: true})
		if err != nil {
			t.Fatal(err)
		}
		// The cases lie the paper upright; the other way may need fewer pages.
		if len(pages) > n || pages[0].W < pages[0].H && gridOf(pages) != r[7]+"x"+r[8] {
			t.Errorf("%v × %v on %s: %d pages, %s upright, want %d (%sx%s)", w, h, r[2], len(pages), gridOf(pages), n, r[7], r[8])
		}
	}
	// The two ways to lay A4 for 700 × 400, margins 10, overlap 15, with and
	// without strips of 16 mm: computed by n = ceil((L − o)/(u − o)).
	for _, tt := range []struct {
		bare bool
		want int
	}{{true, 8}, {false, 9}} {
		pages, err := render.Tile(boxDrawing(700, 400), render.Paper{Name: "A4", W: 210, H: 297}, render.TileOptions{NoCover: true, NoRulers: tt.bare})
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) > tt.want {
			t.Errorf("700 × 400 on A4, bare %v: %d pages, want at most %d", tt.bare, len(pages), tt.want)
		}
	}
}

func gridOf(pages []render.Page) string {
	cols, rows := map[string]bool{}, map[string]bool{}
	for _, p := range pages {
		rows[strings.TrimRight(p.Name, "0123456789")] = true
		cols[strings.TrimLeft(p.Name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")] = true
	}
	return fmt.Sprintf("%dx%d", len(cols), len(rows))
}

// offset returns what moves drawing coordinates onto the page.
func offset(t testing.TB, p render.Page, d render.Drawing) (geom.Vec, bool) {
	t.Helper()
	first := map[string]geom.Point{}
	walk(d.Groups, func(g render.Group) {
		for _, s := range g.Shapes {
			if s.ID != "" {
				first[s.ID] = s.Path[0].A
			}
		}
	})
	var v geom.Vec
	found := false
	walk(p.Tile, func(g render.Group) {
		for _, s := range g.Shapes {
			if at, ok := first[s.ID]; ok && !found {
				v, found = s.Path[0].A.Sub(at), true
			}
		}
	})
	return v, found
}

// crossesOf returns the crosses of a page as titled, with their place in the
// drawing.
func crossesOf(p render.Page, v geom.Vec) map[string]geom.Point {
	out := map[string]geom.Point{}
	walk(p.Furniture, func(g render.Group) {
		for _, s := range g.Shapes {
			if strings.HasPrefix(s.Title, "cross at") {
				out[s.Title] = s.Path.Bounds().Center().Add(v.Neg())
			}
		}
	})
	return out
}

// randomDrawing is a frame with an arc and a slot somewhere in it.
func randomDrawing(t *rapid.T) render.Drawing {
	w, h := rapid.Float64Range(60, 900).Draw(t, "w"), rapid.Float64Range(60, 900).Draw(t, "h")
	x, y := rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")
	frame := geom.Rect(geom.Pt(x+w/2, y+h/2), w, h)
	r := rapid.Float64Range(5, 25).Draw(t, "r")
	c := geom.Pt(x+rapid.Float64Range(30, w-30).Draw(t, "cx"), y+rapid.Float64Range(30, h-30).Draw(t, "cy"))
	return render.Drawing{ID: "random", Title: "random", Bounds: frame.Bounds(), Groups: []render.Group{{Shapes: []render.Shape{
		{ID: "frame", Path: frame, Kind: render.Frame},
		{ID: "circle", Path: geom.Circle(c, r), Kind: render.Cut},
		{ID: "diagonal", Path: geom.Polyline(geom.Pt(x, y), geom.Pt(x+w, y+h)), Kind: render.Mark},
	}}}}
}

// Every point of every line lies on at least one page, inside its window, and on
// no page outside of the paper; crosses of neighbours coincide.
func TestPagesCoverTheDrawing(t *testing.T) {
	papers := render.Papers()
	rapid.Check(t, func(rt *rapid.T) {
		d := randomDrawing(rt)
		paper := papers[rapid.IntRange(0, 10).Draw(rt, "paper")]
		opt := render.TileOptions{MarginMM: rapid.Float64Range(3, 20).Draw(rt, "margin"), OverlapMM: rapid.Float64Range(8, 30).Draw(rt, "overlap"), NoCover: true,
			Measured: geom.Vec{X: rapid.Float64Range(97, 103).Draw(rt, "mx"), Y: rapid.Float64Range(97, 103).Draw(rt, "my")}}
		pages, err := render.Tile(d, paper, opt)
		if err != nil {
			rt.Fatal(err)
		}
		type view struct {
			win geom.Box
			v   geom.Vec
		}
		var views []view
		seams := map[string][]geom.Point{}
		for _, p := range pages {
			v, ok := offset(t, p, d)
			if !ok {
				rt.Fatalf("page %s shows nothing", p.Name)
			}
			win := p.Window
			views = append(views, view{geom.BoxOf(win.Min.Add(v.Neg()), win.Max.Add(v.Neg())), v})
			right, top := win.Max.X*p.Factor.X, win.Max.Y*p.Factor.Y
			if right > p.W-opt.MarginMM+1e-6 || top > p.H-opt.MarginMM+1e-6 || win.Min.X*p.Factor.X < opt.MarginMM-1e-6 || win.Min.Y*p.Factor.Y < opt.MarginMM-1e-6 {
				rt.Fatalf("page %s: window %v leaves the printable area of %v × %v", p.Name, win, p.W, p.H)
			}
			cs := crossesOf(p, v)
			if n := len(cs); len(pages) > 1 && n < 2 {
				rt.Fatalf("page %s has %d crosses", p.Name, n)
			}
			for title, at := range cs {
				seams[title] = append(seams[title], at)
			}
		}
		for _, s := range d.Groups[0].Shapes {
			for _, seg := range s.Path {
				n := int(seg.Length()) + 1
			points:
				for i := 0; i <= n; i++ {
					q := seg.At(float64(i) / float64(n))
					for _, v := range views {
						if v.win.Grow(1e-9).Contains(q) {
							continue points
						}
					}
					rt.Fatalf("%v of %s is on no page", q, s.ID)
				}
			}
		}
		for title, at := range seams {
			if len(at) != 2 || at[0].Dist(at[1]) > 1e-9 {
				rt.Fatalf("%s: on %d pages, at %v", title, len(at), at)
			}
			var x, y float64
			if _, err := fmt.Sscanf(strings.ReplaceAll(title, "−", "-"), "cross at x %f y %f", &x, &y); err != nil {
				rt.Fatal(err)
			}
			if at[0].Dist(geom.Pt(x, y)) > 0.0072 {
				rt.Fatalf("%s lies at %v", title, at[0])
			}
		}
	})
}

// Nothing that a page says lies on another word, on a line, or outside of what
// the printer reaches.
func TestPageFurniture(t *testing.T) {
	for _, name := range []string{"A4", "Letter", "Tabloid", "roll 914", "100 x 150 mm"} {
		paper, err := render.ParsePaper(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range rendertest.Sheets() {
			d := layout(t, s)
			pages, err := render.Tile(d, paper, render.TileOptions{})
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range pages {
				room := geom.BoxOf(geom.Pt(10, 10), geom.Pt(p.W-10, p.H-10)).Grow(1e-6)
				name := s.ID + " on " + paper.Name + " " + p.Name
				checkWords(t, name, p.Furniture, room)
				checkFlaps(t, name, p)
			}
		}
	}
}

// checkFlaps reports words of a page's own that lie on the drawing.
func checkFlaps(t *testing.T, name string, p render.Page) {
	t.Helper()
	own, _ := inkOf(p.Furniture)
	words, lines := inkOf(p.Tile)
	for _, a := range own {
		box := a.Box()
		if !box.Bounds().Overlaps(p.Window) {
			continue
		}
		for _, l := range lines {
			if l.Path.Bounds().Overlaps(box.Bounds()) && hitsFlat(box, l.Path) {
				t.Errorf("%s: %q lies on %q of the drawing", name, a.S, l.Title)
			}
		}
		for _, w := range words {
			if box.Overlaps(w.Box()) {
				t.Errorf("%s: %q lies on %q of the drawing", name, a.S, w.S)
			}
		}
	}
}

// A seam goes round a pocket when it can.
func TestSeamsAvoidPockets(t *testing.T) {
	d := boxDrawing(320, 150)
	// The middle, where an even cut would go, is a pocket; 60 mm of it.
	c := geom.Pt(320/2-7, 78)
	d.Groups[0].Shapes = append(d.Groups[0].Shapes, render.Shape{ID: "pocket", Kind: render.Cut, Path: geom.RoundedRect(c, 60, 40, 6)})
	pages, err := render.Tile(d, render.Paper{Name: "A4", W: 210, H: 297}, render.TileOptions{NoCover: true})
	if err != nil {
		t.Fatal(err)
	}
	whole := 0
	for _, p := range pages {
		walk(p.Tile, func(g render.Group) {
			for _, s := range g.Shapes {
				if s.ID == "pocket" && p.Window.Holds(s.Path.Bounds()) {
					whole++
				}
			}
		})
	}
	if len(pages) != 2 || whole == 0 {
		t.Errorf("%d pages, the pocket is whole on %d", len(pages), whole)
	}
}

func TestNoBlankPages(t *testing.T) {
	// A large ring: the pages inside of it would be blank.
	p := geom.Circle(geom.Pt(0, 0), 450)
	d := render.Drawing{ID: "ring", Bounds: p.Bounds(), Groups: []render.Group{{Shapes: []render.Shape{{ID: "ring", Path: p, Kind: render.Cut}}}}}
	pages, err := render.Tile(d, render.Paper{Name: "A4", W: 210, H: 297}, render.TileOptions{NoCover: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		if texts, lines := inkOf(p.Tile); len(texts)+len(lines) == 0 {
			t.Errorf("page %s is blank", p.Name)
		}
	}
	if n := len(pages); n >= 6*4 {
		t.Errorf("%d pages: those in the middle were not left out", n)
	}
}

func TestTileRefuses(t *testing.T) {
	a4 := render.Paper{Name: "A4", W: 210, H: 297}
	inf := math.Inf(1)
	for _, tt := range []struct {
		paper render.Paper
		opt   render.TileOptions
		want  string
	}{
		{a4, render.TileOptions{MarginMM: 100}, "no room"},
		{a4, render.TileOptions{MarginMM: 300}, "no room"},
		{a4, render.TileOptions{OverlapMM: 250}, "no room"},
		{a4, render.TileOptions{MarginMM: -3}, "margin"},
		{a4, render.TileOptions{OverlapMM: inf}, "overlap"},
		{a4, render.TileOptions{MarginMM: math.NaN()}, "margin"},
		{a4, render.TileOptions{Measured: geom.Vec{X: 80}}, "100 %"},
		{a4, render.TileOptions{Measured: geom.Vec{Y: 120}}, "100 %"},
		{a4, render.TileOptions{Measured: geom.Vec{Y: math.NaN()}}, "100 %"},
		{a4, render.TileOptions{Measured: geom.Vec{X: -100}}, "100 %"},
		{render.Paper{Name: "roll-610", W: 610}, render.TileOptions{}, "too wide"},
	} {
		_, err := render.Tile(boxDrawing(700, 800), tt.paper, tt.opt)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v %+v: error %v, want one with %q", tt.paper, tt.opt, err, tt.want)
		}
	}
	if _, err := render.Tile(boxDrawing(15000, 15000), a4, render.TileOptions{}); err == nil || !strings.Contains(err.Error(), "larger paper") {
		t.Errorf("15 m square on A4: error %v", err)
	}
	if _, err := render.Tile(render.Drawing{ID: "x"}, a4, render.TileOptions{}); err == nil {
		t.Error("an empty drawing was tiled")
	}
}

// The factor is nominal / measured, and the window shrinks by it.
func TestCorrection(t *testing.T) {
	a4 := render.Paper{Name: "A4", W: 210, H: 297}
	pages, err := render.Tile(boxDrawing(500, 100), a4, render.TileOptions{Measured: geom.Vec{X: 179.1, Y: 251}, Nominal: geom.Vec{X: 180, Y: 250}})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		if math.Abs(p.Factor.X-180/179.1) > 1e-12 || math.Abs(p.Factor.Y-250.0/251) > 1e-12 {
			t.Errorf("page %s: factor %v", p.Name, p.Factor)
		}
		texts, _ := inkOf(p.Furniture)
		said := false
		for _, x := range texts {
			said = said || strings.Contains(x.S, "1.0050") && strings.Contains(x.S, "0.9960")
		}
		if !said {
			t.Errorf("page %s does not say both factors", p.Name)
		}
	}
}
