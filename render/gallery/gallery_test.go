package gallery

import (
	"bytes"
	"flag"
	"fmt"
	"path/filepath"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"
	"routwright/render/svg"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

// Size of a cell, mm: three beside each other are as wide as a column of text.
const (
	cellW   = 64.0
	cellH   = 62.0
	columns = 3
)

// figure is one picture: what it is called and how it is drawn about (0, 0),
// within 54 × 38 mm.
type figure struct {
	name string
	draw func(f *cell)
}

// cell gathers what one figure shows.
type cell struct {
	t     *testing.T
	sheet *render.Sheet
	group render.Group
	move  geom.Transform
	geom.Calc
}

// shape draws paths; title says in words what they are.
func (f *cell) shape(title string, k render.Kind, ps ...geom.Path) {
	for _, p := range ps {
		f.group.Shapes = append(f.group.Shapes, render.Shape{Title: title, Kind: k, Path: f.move.Path(p)})
	}
}

// result draws a region with wide lines and hatches its inside.
func (f *cell) result(title string, r geom.Region) {
	f.shape(title, render.Cut, r...)
	f.sheet.Waste = append(f.sheet.Waste, render.Waste{Region: f.move.Region(r)})
}

// place marks a point.
func (f *cell) place(title string, ps ...geom.Point) {
	for _, p := range ps {
		f.group.Shapes = append(f.group.Shapes, render.Shape{Title: title, Kind: render.Cut, Fill: true, Path: f.move.Path(geom.Circle(p, 0.6))})
	}
}

// measure draws a dimension between two points.
func (f *cell) measure(a, b geom.Point, format string, v ...any) {
	f.sheet.Dims = append(f.sheet.Dims, render.Dim{A: f.move.Point(a), B: f.move.Point(b), Text: fmt.Sprintf(format, v...)})
}

// say writes the line under the figure.
func (f *cell) say(format string, v ...any) { f.words(fmt.Sprintf(format, v...), -25, 2.2, false) }

func (f *cell) words(s string, y, size float64, bold bool) {
	f.group.Texts = append(f.group.Texts, render.Text{S: s, At: f.move.Point(geom.Pt(0, y)), Size: size, Anchor: render.Middle, Bold: bold})
}

// picture sets the figures in rows of three and compares the drawing with the
// golden file.
func picture(t *testing.T, id, title string, figures []figure) {
	t.Helper()
	s := render.Sheet{ID: id, Title: title}
	for i, g := range figures {
		at := geom.Vec{X: cellW * float64(i%columns), Y: -cellH * float64(i/columns)}
		f := cell{t: t, sheet: &s, move: geom.Translate(at), group: render.Group{ID: fmt.Sprintf("figure-%d", i+1), Title: g.name}}
		f.words(g.name, 25, 2.5, true)
		g.draw(&f)
		if f.Err() != nil || f.Fallbacks > 0 {
			t.Errorf("%s: %v, %d fallbacks", g.name, f.Err(), f.Fallbacks)
		}
		s.Groups = append(s.Groups, f.group)
	}
	d, err := render.Layout(s, render.LayoutOptions{Bare: true})
	if err != nil {
		t.Fatal(err)
	}
	d.Bounds = d.Bounds.Grow(4)
	var b bytes.Buffer
	if err := svg.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	rendertest.Golden(t, filepath.Join("..", "..", "testdata", "pictures", id+".svg"), rendertest.OnPaper(b.Bytes()), *update)
}
