package ingest

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// The body in testdata/outlines, by closed forms over its Bézier curves and
// arcs, computed outside this project's code (see the README there).
const (
	bodyArea   = 92142.367232 // mm²
	bodyLength = 1390.995745  // mm
	bodyW      = 320.73342
	bodyH      = 426.57116
)

const outlines = "../../testdata/outlines/"

// open opens a file of testdata for the time of the test.
func open(t testing.TB, name string) *os.File {
	t.Helper()
	f, err := os.Open(outlines + name)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func readFile(t testing.TB, name string, opt Options) Result {
	t.Helper()
	r, err := Read(filepath.Base(name), open(t, name), opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestBody reads the same body from six files.
func TestBody(t *testing.T) {
	// tol is how far the file's own numbers lie from the curves, in mm: decimals
	// of the file, and the chords between the points of a trace.
	for _, tt := range []struct {
		name string
		opt  Options
		tol  float64
		most int // lines and arcs
	}{
		{"body.svg", Options{}, 1e-3, 400},
		{"body_r12.dxf", Options{Unit: MM}, 1e-3, 311},
		{"body_r12_loose_inches.dxf", Options{Unit: Inch}, 2e-3, 311},
		{"body_r2000.dxf", Options{}, 1e-3, 311},
		{"body_r2000_splines.dxf", Options{}, 1e-3, 400},
		{"body_trace.csv", Options{}, 3e-3, 900},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := readFile(t, tt.name, tt.opt)
			p, err := Outline(r, tt.opt)
			if err != nil {
				t.Fatal(err)
			}
			b := p.Bounds()
			near(t, "area", p.Area(), bodyArea, tt.tol*bodyLength/4)
			near(t, "length", p.Length(), bodyLength, 20*tt.tol)
			near(t, "width", b.W(), bodyW, 2*tt.tol)
			near(t, "height", b.H(), bodyH, 2*tt.tol)
			if len(p) > tt.most {
				t.Errorf("%d lines and arcs, at most %d are needed", len(p), tt.most)
			}
			arcs := map[float64]bool{}
			for _, s := range p {
				if s.Turn < 0 {
					arcs[math.Round(s.Radius*100)/100] = true
				}
			}
			if tt.name != "body_trace.csv" && (!arcs[24] || !arcs[18]) {
				t.Errorf("the two arcs of the neck's end, radius 24 and 18, are not arcs of the path")
			}
			t.Logf("%d lines and arcs, area off by %.4f mm²; notes %q", len(p), p.Area()-bodyArea, r.Notes)
		})
	}
}

func BenchmarkBody(b *testing.B) {
	for _, name := range []string{"body.svg", "body_r12_loose_inches.dxf", "body_r2000_splines.dxf", "body_trace.csv"} {
		b.Run(name, func(b *testing.B) {
			text, err := os.ReadFile(outlines + name)
			if err != nil {
				b.Fatal(err)
			}
			opt := Options{Unit: Inch}
			for b.Loop() {
				r, err := Read(name, bytes.NewReader(text), opt)
				if err == nil {
					_, err = Outline(r, opt)
				}
				if err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
