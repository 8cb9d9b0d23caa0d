package ingest

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"testing"

	"routwright/geom"
)

// holdTo checks what every reader promises for any bytes: an *Error, or sound
// paths; and an outline that is one is closed, simple and counter-clockwise.
func holdTo(t *testing.T, r Result, err error, opt Options) {
	if err != nil {
		var e *Error
		if !errors.As(err, &e) {
			t.Fatalf("%T is not an *Error: %v", err, err)
		}
		return
	}
	if len(r.Paths) != len(r.Names) || len(r.Open) != len(r.Loose) {
		t.Fatal("paths and names differ in number")
	}
	for i, p := range r.Paths {
		if !p.Closed() {
			t.Fatalf("path %d is not closed", i)
		}
		if err := p.Check(); err != nil {
			t.Fatalf("path %d: %v", i, err)
		}
	}
	for i, p := range r.Open {
		if err := p.Check(); err != nil {
			t.Fatalf("open path %d: %v", i, err)
		}
	}
	p, err := Outline(r, opt)
	if err != nil {
		return
	}
	if err := (geom.Region{p}).Check(); err != nil || !(p.Area() > 0) {
		t.Fatalf("outline of area %g: %v", p.Area(), err)
	}
}

// seed adds the drawings of testdata that end so and are small: go's fuzzer
// shortens what it finds, which takes it long for large ones.
func seed(f *testing.F, ending string) {
	names, err := os.ReadDir(outlines)
	if err != nil {
		f.Fatal(err)
	}
	for _, n := range names {
		if strings.HasSuffix(n.Name(), ending) {
			b, err := os.ReadFile(outlines + n.Name())
			if err != nil {
				f.Fatal(err)
			}
			if len(b) < 5000 {
				f.Add(b)
			}
		}
	}
}

func FuzzPathData(f *testing.F) {
	for _, s := range []string{"M0 0L10 0 10 10z", "m10 10c1 2 3 4 5 6s7 8 9 0q1 2 3 4t5 6a7 8 9 0110 11h1v2z", "M0 0C30 30 0 30 30 0z", "M0 0A5 3 30 1 0 9 9z"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, d string) {
		if strings.ContainsAny(d, `"<&`) {
			return
		}
		r, err := SVG("f.svg", strings.NewReader(mm(`<path d="`+d+`"/>`)), Options{})
		holdTo(t, r, err, Options{Pick: "largest"})
	})
}

func FuzzSVG(f *testing.F) {
	seed(f, ".svg")
	f.Add([]byte(mm(`<g transform="rotate(3 4 5)scale(2 3)"><rect rx="3" width="30%" height="1cm"/></g><use href="#a"/><ellipse id="a" rx="3" ry="4"/>`)))
	f.Fuzz(func(t *testing.T, b []byte) {
		r, err := SVG("f.svg", bytes.NewReader(b), Options{})
		holdTo(t, r, err, Options{Pick: "largest"})
	})
}

func FuzzDXF(f *testing.F) {
	seed(f, ".dxf")
	f.Add([]byte(dxfOf("4", "0|ELLIPSE|10|0|20|0|11|30|21|0|40|0.5|41|0|42|6.28|0|ARC|10|0|20|0|40|5|50|90|51|270|0|SPLINE|70|1|71|3|11|0|21|0|11|5|21|0|11|5|21|5")))
	f.Fuzz(func(t *testing.T, b []byte) {
		r, err := DXF("f.dxf", bytes.NewReader(b), Options{Unit: 1})
		holdTo(t, r, err, Options{Pick: "largest"})
	})
}

func FuzzCSV(f *testing.F) {
	for _, s := range []string{"x (mm),y (mm)\n0,0\n10,0\n10,10\n", "0;0\n1,5;2\n3;4,5\n", "0 0\n1/2 1\n1-3/4 9\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		r, err := CSV("f.csv", bytes.NewReader(b), Options{Unit: 1})
		holdTo(t, r, err, Options{})
		h, err := HalfWidths("f.csv", bytes.NewReader(b), Options{Unit: 1})
		holdTo(t, Result{}, err, Options{})
		for _, w := range h {
			if !(w.Bass >= 0 && w.Treble >= 0) {
				t.Fatal("a negative half width")
			}
		}
	})
}
