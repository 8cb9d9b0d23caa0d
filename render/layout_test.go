package render_test

import (
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"
)

func layout(t testing.TB, s render.Sheet) render.Drawing {
	t.Helper()
	d, err := render.Layout(s, render.LayoutOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func walk(gs []render.Group, f func(render.Group)) {
	for _, g := range gs {
		f(g)
		walk(g.Groups, f)
	}
}

// inkOf returns all words, and all lines but hatching.
func inkOf(gs []render.Group) (texts []render.Text, lines []render.Shape) {
	walk(gs, func(g render.Group) {
		texts = append(texts, g.Texts...)
		lines = append(lines, g.Shapes...)
	})
	return texts, lines
}

// checkWords reports words that lie on words or on lines, words outside of room,
// and words that are too small.
func checkWords(t *testing.T, name string, gs []render.Group, room geom.Box) {
	t.Helper()
	texts, lines := inkOf(gs)
	bounds := make([]geom.Box, len(lines))
	for i, l := range lines {
		bounds[i] = l.Path.Bounds()
	}
	for i, a := range texts {
		box := a.Box()
		around := box.Bounds()
		if a.Size < render.MinText {
			t.Errorf("%s: %q is %.2f mm high", name, a.S, a.Size)
		}
		if !room.Holds(box.Bounds()) {
			t.Errorf("%s: %q lies outside of the printable area: %v in %v", name, a.S, box.Bounds(), room)
		}
		for _, b := range texts[:i] {
			if box.Overlaps(b.Box()) {
				t.Errorf("%s: %q lies on %q", name, a.S, b.S)
			}
		}
		for j, l := range lines {
			if bounds[j].Overlaps(around) && hitsFlat(box, l.Path) {
				t.Errorf("%s: %q at %v lies on the line %q", name, a.S, a.At, l.Title)
			}
		}
	}
	for _, l := range lines {
		if !room.Holds(l.Path.Bounds()) {
			t.Errorf("%s: line %q lies outside of the printable area: %v in %v", name, l.Title, l.Path.Bounds(), room)
		}
	}
}

// hitsFlat is a second way to ask whether a path passes through a text's box:
// points every 0.2 mm.
func hitsFlat(b render.TextBox, p geom.Path) bool {
	c := b.Corners()
	inside := func(q geom.Point) bool {
		for i := range c {
			if c[(i+1)%4].Sub(c[i]).Cross(q.Sub(c[i])) < 1e-6 {
				return false
			}
		}
		return true
	}
	for _, s := range p {
		n := int(s.Length()/0.2) + 1
		for i := 0; i <= n; i++ {
			if inside(s.At(float64(i) / float64(n))) {
				return true
			}
		}
	}
	return false
}

func TestNoWordLiesOnAnything(t *testing.T) {
	for _, s := range rendertest.Sheets() {
		d := layout(t, s)
		checkWords(t, s.ID, d.Groups, d.Bounds)
	}
}

func TestEveryLabelIsThere(t *testing.T) {
	for _, s := range rendertest.Sheets() {
		d := layout(t, s)
		texts, _ := inkOf(d.Groups)
		var all strings.Builder
		for _, x := range texts {
			all.WriteString(x.S + " ")
		}
		for _, l := range s.Labels {
			w, _ := render.Written(l.S)
			if !strings.Contains(all.String(), w) {
				t.Errorf("%s: label %q is missing", s.ID, l.S)
			}
		}
	}
}

func TestLayoutIsTheSameEachTime(t *testing.T) {
	a, b := layout(t, rendertest.Crowded()), layout(t, rendertest.Crowded())
	ta, _ := inkOf(a.Groups)
	tb, _ := inkOf(b.Groups)
	if len(ta) != len(tb) {
		t.Fatal("two layouts of one sheet differ")
	}
	for i := range ta {
		if ta[i] != tb[i] {
			t.Errorf("%v and %v", ta[i], tb[i])
		}
	}
}

// The widths agree with x/image/font/opentype's own measuring (which rounds each
// advance to 1/64 pixel), kerning left out.
func TestTextWidth(t *testing.T) {
	for _, f := range []struct {
		ttf  []byte
		bold bool
	}{{goregular.TTF, false}, {gobold.TTF, true}} {
		font1, err := opentype.Parse(f.ttf)
		if err != nil {
			t.Fatal(err)
		}
		face, err := opentype.NewFace(font1, &opentype.FaceOptions{Size: 2048, DPI: 72})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range []string{"Template", "0123456789 mm", "Ø 9 × 2 ± 0.1°", "Ωμέγα Жук ąęß –"} {
			var want float64
			for _, r := range s {
				want += float64(font.MeasureString(face, string(r))) / 64
			}
			want *= render.FontSize(2.5, f.bold) / 2048
			if got := render.TextWidth(s, 2.5, f.bold); got < want-0.01 || got > want+0.01 {
				t.Errorf("width of %q = %.4f, want %.4f", s, got, want)
			}
		}
	}
}

func TestWritten(t *testing.T) {
	for _, tt := range []struct{ in, want, lacking string }{
		{"Ünïcode Ω Ж", "Ünïcode Ω Ж", ""},
		{"木", "U+6728", "木"},
		{"a\nb\tc\x00", "a b c ", ""},
		{"\xff", "U+FFFD", "\ufffd"},
		{"🎸", "U+1F3B8", "🎸"},
		{"", "", ""},
	} {
		got, lacking := render.Written(tt.in)
		if got != tt.want || string(lacking) != tt.lacking {
			t.Errorf("Written(%q) = %q, %q; want %q, %q", tt.in, got, string(lacking), tt.want, tt.lacking)
		}
	}
	d := layout(t, rendertest.Hostile())
	if len(d.Remarks) == 0 {
		t.Error("letters that the font lacks are not reported")
	}
}

// A back sheet is the mirror image of the front sheet, point by point.
func TestFromBackMirrorsOnce(t *testing.T) {
	find := func(d render.Drawing, id string) geom.Box {
		var b geom.Box
		walk(d.Groups, func(g render.Group) {
			for _, s := range g.Shapes {
				if s.ID == id {
					b = s.Path.Bounds()
				}
			}
		})
		return b
	}
	f, b := layout(t, rendertest.Template(false)), layout(t, rendertest.Template(true))
	for _, id := range []string{"opening", "pin-a", "pin-b", "crack"} {
		x, y := find(f, id), find(b, id)
		if x.Empty() || x.Min.X != -y.Max.X || x.Max.X != -y.Min.X || x.Min.Y != y.Min.Y || x.Max.Y != y.Max.Y {
			t.Errorf("%s: front %v, back %v", id, x, y)
		}
	}
}

func TestLayoutRefuses(t *testing.T) {
	nan := geom.Pt(0, 0)
	nan.X /= nan.Y
	for name, s := range map[string]render.Sheet{
		"label at NaN":  {Labels: []render.Label{{S: "x", At: nan}}},
		"hole of 0":     {Holes: []render.Hole{{ID: "h"}}},
		"hole below 0":  {Holes: []render.Hole{{ID: "h", D: -3}}},
		"broken path":   {Groups: []render.Group{{Shapes: []render.Shape{{Path: geom.Path{geom.Line(geom.Pt(0, 0), geom.Pt(1, 0)), geom.Line(geom.Pt(2, 0), geom.Pt(3, 0))}}}}}},
		"path with NaN": {Groups: []render.Group{{Groups: []render.Group{{Shapes: []render.Shape{{Path: geom.Path{geom.Line(nan, geom.Pt(1, 0))}}}}}}}},
		"open waste":    {Waste: []render.Waste{{Region: geom.Region{geom.Polyline(geom.Pt(0, 0), geom.Pt(9, 0))}}}},
		"dim at NaN":    {Dims: []render.Dim{{A: nan}}},
		"a kilometre":   {Groups: []render.Group{{Shapes: []render.Shape{{Path: geom.Polyline(geom.Pt(0, 0), geom.Pt(1e6, 0))}}}}},
		"text at NaN":   {Groups: []render.Group{{Texts: []render.Text{{S: "x", At: nan}}}}},
	} {
		if _, err := render.Layout(s, render.LayoutOptions{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := render.Layout(render.Sheet{ID: "empty"}, render.LayoutOptions{}); err != nil {
		t.Errorf("a sheet of words only: %v", err)
	}
}
