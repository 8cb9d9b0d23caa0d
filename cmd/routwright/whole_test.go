package main

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/holes"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

// fullSet makes the set of the test body with every sort of part.
func fullSet(t testing.TB) *set {
	j := jobtest.Full(t)
	s := newSet(nil)
	if _, err := s.fill(j, check.Run(j), options{papers: []string{"A4"}}); err != nil {
		t.Fatal(err)
	}
	return s
}

// The drill maps' cutter files hold every hole that is drilled from their face
// and both pins as circles on the layer DRILL, and nothing else that is cut.
func TestDrillMapsAsDXF(t *testing.T) {
	j := jobtest.Full(t)
	s := fullSet(t)
	l := holes.Of(j)
	for _, f := range []part.Face{part.Front, part.Back} {
		want := map[string]int{}
		for _, i := range l.OnFace(f) {
			if h := l.Holes[i]; h.Enters(f) {
				x := h.Bore.From.X
				if f == part.Back {
					x = -x
				}
				want[fmt.Sprintf("%.3f %.3f %.3f", x+0, h.Bore.From.Y+0, h.D/2)]++
			}
		}
		for _, p := range j.Pins {
			x := p.At.X
			if f == part.Back {
				x = -x
			}
			want[fmt.Sprintf("%.3f %.3f %.3f", x+0, p.At.Y+0, p.D/2)]++
		}
		text, ok := s.files["cut/drill-"+f.String()+"_mm.dxf"]
		if !ok {
			t.Fatalf("no cutter file for the %s", f)
		}
		got := map[string]int{}
		for _, c := range entities(t, string(text)) {
			if c["8"] != "DRILL" || c["0"] != "CIRCLE" {
				t.Errorf("%s: %s on layer %s", f, c["0"], c["8"])
				continue
			}
			var x, y, r float64
			fmt.Sscan(c["10"], &x)
			fmt.Sscan(c["20"], &y)
			fmt.Sscan(c["40"], &r)
			got[fmt.Sprintf("%.3f %.3f %.3f", x+0, y+0, r)]++
		}
		for k, n := range want {
			if got[k] != n {
				t.Errorf("%s: %d holes at %s, want %d", f, got[k], k, n)
			}
		}
		if len(got) != len(want) {
			t.Errorf("%s: %d holes, want %d", f, len(got), len(want))
		}
	}
}

// entities reads the entities of a DXF file as pairs of group code and value,
// the first value of each code.
func entities(t *testing.T, s string) []map[string]string {
	t.Helper()
	lines := strings.Split(strings.ReplaceAll(s, "\r", ""), "\n")
	var out []map[string]string
	in := false
	for i := 0; i+1 < len(lines); i += 2 {
		code, v := strings.TrimSpace(lines[i]), lines[i+1]
		switch {
		case code == "2" && v == "ENTITIES":
			in = true
		case code == "0" && v == "ENDSEC":
			in = false
		case in && code == "0":
			out = append(out, map[string]string{"0": v})
		case in && len(out) > 0:
			if e := out[len(out)-1]; e[code] == "" {
				e[code] = v
			}
		}
	}
	return out
}

// The pictures are sound PNG files at two pixels to the millimetre: as large as
// the body with its margin.
func TestPictures(t *testing.T) {
	j := jobtest.Full(t)
	b := j.Outline.Bounds()
	for _, name := range []string{"pictures/front.png", "pictures/back.png"} {
		img, err := png.Decode(bytes.NewReader(fullSet(t).files[name]))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		w, h := float64(img.Bounds().Dx())/pixelsPerMM, float64(img.Bounds().Dy())/pixelsPerMM
		if w < b.W() || w > b.W()+10 || h < b.H() || h > b.H()+10 {
			t.Errorf("%s: %g × %g mm for a body of %g × %g", name, w, h, b.W(), b.H())
		}
	}
}

// BenchmarkFullSet makes the set of a body with every sort of part, in memory.
func BenchmarkFullSet(b *testing.B) {
	for b.Loop() {
		fullSet(b)
	}
}
