package outline_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"routwright/geom"
	"routwright/geom/ingest"
	"routwright/render"
	"routwright/render/rendertest"
	"routwright/render/svg"
	"routwright/templates/outline"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

// TestPicture draws the three ways to an outline beside each other, the picture
// of the README: a family with its own measures, testdata/outlines/body.svg, and
// the readings of testdata/outlines/ruler.csv with the curve through them.
func TestPicture(t *testing.T) {
	data := filepath.Join("..", "..", "testdata")
	family := outline.Families()[0]
	made, _, err := outline.Build(family.Name, nil)
	if err != nil {
		t.Fatal(err)
	}
	res, err := ingest.Read("body.svg", open(t, filepath.Join(data, "outlines", "body.svg")), ingest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := ingest.Outline(res, ingest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	read, err := ingest.HalfWidths("ruler.csv", open(t, filepath.Join(data, "outlines", "ruler.csv")), ingest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var rows [][3]float64
	for _, h := range read {
		rows = append(rows, [3]float64{h.Y, h.Bass, h.Treble})
	}
	ruled, err := outline.HalfWidths(rows)
	if err != nil {
		t.Fatal(err)
	}
	s := render.Sheet{ID: "outlines", Title: "The outline, three ways"}
	add := func(x float64, name, caption string, p geom.Path) *render.Group {
		b := p.Bounds()
		m := geom.Translate(geom.Vec{X: x - b.Center().X, Y: -b.Min.Y})
		s.Groups = append(s.Groups, render.Group{ID: fmt.Sprintf("way-%d", len(s.Groups)+1), Title: name,
			Shapes: []render.Shape{{Title: "outline", Kind: render.Cut, Path: m.Path(p)}},
			Texts: []render.Text{
				{S: name, At: geom.Pt(x, -28), Size: 13, Anchor: render.Middle, Bold: true},
				{S: caption, At: geom.Pt(x, -52), Size: 11, Anchor: render.Middle}}})
		return &s.Groups[len(s.Groups)-1]
	}
	add(0, "body.family", fmt.Sprintf("%q, %d measures", family.Name, len(family.Measures)), made)
	add(370, "body.file", fmt.Sprintf("body.svg: %d lines and arcs", len(drawn)), drawn)
	g := add(740, "body.half_widths", fmt.Sprintf("ruler.csv: %d rows", len(rows)), ruled)
	c := ruled.Bounds()
	m := geom.Translate(geom.Vec{X: 740 - c.Center().X, Y: -c.Min.Y})
	for _, r := range rows {
		a, b := m.Point(geom.Pt(-r[1], r[0])), m.Point(geom.Pt(r[2], r[0]))
		if a != b {
			g.Shapes = append(g.Shapes, render.Shape{Title: "reading", Kind: render.Mark, Path: geom.Polyline(a, b)})
		}
		for _, p := range []geom.Point{a, b} {
			g.Shapes = append(g.Shapes, render.Shape{Title: "reading", Kind: render.Cut, Fill: true, Path: geom.Circle(p, 2)})
		}
	}
	g.Shapes = append(g.Shapes, render.Shape{Title: "centre line", Kind: render.Centre,
		Path: geom.Polyline(m.Point(geom.Pt(0, c.Min.Y-8)), m.Point(geom.Pt(0, c.Max.Y+8)))})
	d, err := render.Layout(s, render.LayoutOptions{Bare: true})
	if err != nil {
		t.Fatal(err)
	}
	d.Bounds = d.Bounds.Grow(10)
	var b bytes.Buffer
	if err := svg.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	// White paper, for readers with a dark page, and wider lines: shown at a quarter.
	got := rendertest.OnPaper(b.Bytes())
	for from, to := range map[string]string{`stroke-width="0.25"`: `stroke-width="1.50"`, `stroke-width="0.13"`: `stroke-width="0.80"`} {
		got = bytes.ReplaceAll(got, []byte(from), []byte(to))
	}
	rendertest.Golden(t, filepath.Join(data, "pictures", "outlines.svg"), got, *update)
}

func open(t *testing.T, file string) *os.File {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}
