package rendertest

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// Golden compares what was made with a file that is kept for review; with update
// it writes the file anew. Each package that keeps such files has a flag -update.
func Golden(t testing.TB, file string, got []byte, update bool) {
	t.Helper()
	if update {
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
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
		t.Errorf("%s differs from what is made now from byte %d on; look at both, then run go test -update", file, differ(got, want))
	}
}

// differ returns the index of the first byte that is not the same.
func differ(a, b []byte) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	return min(len(a), len(b))
}

// OnPaper lays white paper under an SVG drawing, for readers with a dark page.
func OnPaper(svg []byte) []byte {
	return bytes.Replace(svg, []byte("</title>\n"), []byte("</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\" />\n"), 1)
}
