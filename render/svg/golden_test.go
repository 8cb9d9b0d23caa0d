package svg_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"routwright/render"
	"routwright/render/rendertest"
	"routwright/render/svg"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name+".svg")
	if *update {
		if err := os.WriteFile(file, got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v (run go test -update)", err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs from what is drawn now; look at both, then run go test -update", file)
	}
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
