package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"
	"routwright/render/svg"
)

func drawn(t testing.TB, s render.Sheet) (render.Drawing, string) {
	t.Helper()
	d, err := render.Layout(s, render.LayoutOptions{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := svg.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return d, b.String()
}

// elements parses s as XML, strictly, and calls f for each element.
func elements(t *testing.T, s string, f func(xml.StartElement)) {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(s))
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			f(e)
		}
	}
}

func TestWellFormedAndHarmless(t *testing.T) {
	allowed := map[string]bool{"svg": true, "g": true, "path": true, "circle": true, "text": true, "title": true, "clipPath": true, "rect": true}
	for _, s := range rendertest.Sheets() {
		d, out := drawn(t, s)
		files := []string{out}
		pages, err := render.Tile(d, render.Paper{Name: "A4", W: 210, H: 297}, render.TileOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pages {
			var b bytes.Buffer
			if err := svg.WritePage(&b, p); err != nil {
				t.Fatal(err)
			}
			files = append(files, b.String())
		}
		for _, out := range files {
			ids := map[string]bool{}
			elements(t, out, func(e xml.StartElement) {
				if !allowed[e.Name.Local] {
					t.Errorf("%s: element <%s>", s.ID, e.Name.Local)
				}
				for _, a := range e.Attr {
					switch n := a.Name.Local; {
					case n == "style", strings.HasPrefix(n, "on"), n == "href":
						t.Errorf("%s: attribute %s=%q", s.ID, n, a.Value)
					case n == "id":
						if ids[a.Value] || strings.ContainsAny(a.Value, " \"<>&'") {
							t.Errorf("%s: id %q", s.ID, a.Value)
						}
						ids[a.Value] = true
					}
				}
			})
			for _, bad := range []string{"NaN", "Inf", "-0.0000", `"-0"`} {
				if strings.Contains(out, bad) {
					t.Errorf("%s: the file holds %q", s.ID, bad)
				}
			}
			if regexp.MustCompile(`[ML ]-0[ ALZ"]`).MatchString(out) {
				t.Errorf("%s: the file holds −0", s.ID)
			}
		}
	}
}

func TestSizeIsInMillimetres(t *testing.T) {
	d, out := drawn(t, rendertest.Small())
	elements(t, out, func(e xml.StartElement) {
		if e.Name.Local != "svg" {
			return
		}
		a := map[string]string{}
		for _, x := range e.Attr {
			a[x.Name.Local] = x.Value
		}
		w, _ := strconv.ParseFloat(strings.TrimSuffix(a["width"], "mm"), 64)
		box := strings.Fields(a["viewBox"])
		if !strings.HasSuffix(a["width"], "mm") || math.Abs(w-d.Bounds.W()) > 1e-4 || len(box) != 4 || box[2]+"mm" != a["width"] || box[3]+"mm" != a["height"] {
			t.Errorf("width %s, height %s, viewBox %s for %v", a["width"], a["height"], a["viewBox"], d.Bounds)
		}
	})
}

func one(p geom.Path) render.Drawing {
	return render.Drawing{Bounds: geom.BoxOf(geom.Pt(-200, -200), geom.Pt(200, 200)),
		Groups: []render.Group{{ID: "g", Shapes: []render.Shape{{ID: "p", Path: p}}}}}
}

// Arcs come back from their file as what they were: the ends and radius of each
// A command give a centre (SVG 1.1, appendix F.6.5), and the middle of the arc
// about it lies within 2e-4 mm of the true circle, for every sweep.
func TestArcsKeepTheirShape(t *testing.T) {
	re := regexp.MustCompile(`A([\d.]+) [\d.]+ 0 0 ([01]) ([\d.-]+) ([\d.-]+)`)
	for deg := -355.0; deg <= 355; deg += 5 {
		if deg == 0 {
			continue
		}
		c := geom.Pt(12.34567, -23.45678)
		arc := geom.ArcSweep(c, 101.23456, 0.7, geom.Angle(deg)*geom.Degree)
		var b bytes.Buffer
		if err := svg.Write(&b, one(geom.Path{arc})); err != nil {
			t.Fatal(err)
		}
		out := b.String()
		m := regexp.MustCompile(`d="M([\d.-]+) ([\d.-]+)A`).FindStringSubmatch(out)
		f := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
		at := geom.Pt(f(m[1])-200, 200-f(m[2]))
		for _, a := range re.FindAllStringSubmatch(out, -1) {
			r, end := f(a[1]), geom.Pt(f(a[3])-200, 200-f(a[4]))
			ch := end.Sub(at)
			h := math.Sqrt(r*r - ch.Dot(ch)/4)
			side := ch.Left().Unit() // counter-clockwise: the centre lies left of the chord
			if a[2] == "1" {
				side = side.Neg()
			}
			mid := at.Lerp(end, 0.5).Add(side.Mul(h - r))
			if e := math.Abs(mid.Dist(c) - arc.Radius); e > 2e-4 {
				t.Errorf("sweep %v: the middle of the arc lies %.5f mm off its circle", deg, e)
			}
			at = end
		}
		if at.Dist(arc.B) > 1e-4 {
			t.Errorf("sweep %v: ends at %v, want %v", deg, at, arc.B)
		}
	}
}

func TestRefusesBeforeWriting(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	bad := []render.Drawing{
		{},
		one(geom.Polyline(geom.Pt(0, 0), geom.Pt(nan, 0))),
		one(geom.Polyline(geom.Pt(0, inf), geom.Pt(1, 0))),
		one(geom.Path{{A: geom.Pt(1, 0), B: geom.Pt(0, 1), Turn: 1, Radius: nan}}),
		{Bounds: geom.BoxOf(geom.Pt(0, 0), geom.Pt(inf, 1))},
		{Bounds: geom.BoxOf(geom.Pt(0, 0), geom.Pt(1, 1)), Groups: []render.Group{{Texts: []render.Text{{S: "x", Size: nan}}}}},
	}
	for i, d := range bad {
		var b bytes.Buffer
		if err := svg.Write(&b, d); err == nil || b.Len() > 0 {
			t.Errorf("drawing %d: error %v, %d bytes written", i, err, b.Len())
		}
	}
	var b bytes.Buffer
	if err := svg.WritePage(&b, render.Page{W: 210, H: 297, Factor: geom.Vec{X: nan, Y: 1}}); err == nil || b.Len() > 0 {
		t.Error("a page with a correction of NaN was written")
	}
}

type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

var errFull = errors.New("disk full")

func TestReportsWriteErrors(t *testing.T) {
	d, err := render.Layout(rendertest.Template(false), render.LayoutOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, left := range []int{0, 100, 33000} {
		if err := svg.Write(&full{left}, d); !errors.Is(err, errFull) {
			t.Errorf("room for %d bytes: error %v", left, err)
		}
	}
}

// 40 sheets, laid out and written.
func BenchmarkSet(b *testing.B) {
	sheets := rendertest.Sheets()[:3]
	for b.Loop() {
		for i := 0; i < 40; i++ {
			d, err := render.Layout(sheets[i%len(sheets)], render.LayoutOptions{})
			if err != nil {
				b.Fatal(err)
			}
			if err := svg.Write(io.Discard, d); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A bass neck of 2 m, on A4.
func BenchmarkLongNeck(b *testing.B) {
	board := geom.Rect(geom.Pt(1000, 0), 2000, 100)
	s := render.Sheet{ID: "neck", Title: "Neck", Groups: []render.Group{{Shapes: []render.Shape{{ID: "edge", Path: board, Kind: render.Cut}}}}}
	for i := 1; i < 24; i++ {
		x := 2000 * math.Pow(2, -float64(i)/12)
		s.Groups[0].Shapes = append(s.Groups[0].Shapes, render.Shape{Kind: render.Cut, Path: geom.Polyline(geom.Pt(x, -50), geom.Pt(x, 50))})
	}
	for b.Loop() {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			b.Fatal(err)
		}
		pages, err := render.Tile(d, render.Paper{Name: "A4", W: 210, H: 297}, render.TileOptions{})
		if err != nil {
			b.Fatal(err)
		}
		for _, p := range pages {
			if err := svg.WritePage(io.Discard, p); err != nil {
				b.Fatal(err)
			}
		}
	}
}
