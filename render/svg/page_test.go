package svg_test

import (
	"bytes"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"
	"routwright/render/svg"
)

func TestGoldenPages(t *testing.T) {
	d, err := render.Layout(rendertest.Outline(), render.LayoutOptions{})
	if err != nil {
		t.Fatal(err)
	}
	paper, err := render.ParsePaper("A4")
	if err != nil {
		t.Fatal(err)
	}
	pages, err := render.Tile(d, paper, render.TileOptions{Measured: geom.Vec{X: 99.8, Y: 100.1}})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		var b bytes.Buffer
		if err := svg.WritePage(&b, p); err != nil {
			t.Fatal(err)
		}
		if p.Name == "cover" || p.Name == "A1" || p.Name == "B2" {
			golden(t, "page-"+p.Name, b.Bytes())
		}
	}
}
