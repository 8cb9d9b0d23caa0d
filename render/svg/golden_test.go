package svg_test

import (
	"bytes"
	"flag"
	"path/filepath"
	"testing"

	"routwright/render"
	"routwright/render/rendertest"
	"routwright/render/svg"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	rendertest.Golden(t, filepath.Join("testdata", name+".svg"), got, *update)
}

func TestGoldenSheets(t *testing.T) {
	for i, s := range rendertest.Sheets() {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := svg.Write(&b, d); err != nil {
			t.Fatal(err)
		}
		golden(t, []string{"template", "template-back", "board", "hostile", "crowded", "small", "outline"}[i], b.Bytes())
	}
}
