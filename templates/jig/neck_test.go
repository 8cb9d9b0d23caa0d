package jig_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/fretboard"
	"routwright/templates/jig"
)

// Sagittas worked by hand from R − √(R² − W²/4); the first is common practice's own
// example.
func TestSagitta(t *testing.T) {
	for _, c := range []struct{ r, w, want float64 }{
		{305, 56, 1.29}, // √(93025 − 784) = 303.712
		{254, 56, 1.55}, // √(64516 − 784) = 252.452
		{184, 43, 1.26}, // √(33856 − 462.25) = 182.740
		{28, 56, 28},
		{math.Inf(1), 56, 0},
	} {
		if got := fretboard.Sagitta(c.r, c.w/2); math.Abs(got-c.want) > 0.005 {
			t.Errorf("R %v, W %v: %.4f, want %v", c.r, c.w, got, c.want)
		}
	}
}

func board(t *testing.T, nut, end float64) *fretboard.Board {
	t.Helper()
	twelve, err := fretboard.Equal(12)
	if err != nil {
		t.Fatal(err)
	}
	b, err := fretboard.New(fretboard.Spec{
		Scale: 628.65, Frets: 22, Tuning: twelve,
		Strings: fretboard.Spacing{Count: 6, Nut: 36, Bridge: 51},
		Edges:   fretboard.Edges{NutWidth: 43, EndWidth: 56},
		End:     fretboard.End{Overhang: 8},
		Slot:    fretboard.Saw{Kerf: 0.58, Depth: 2},
		Radius:  fretboard.Radius{Nut: nut, End: end},
	})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

var spec = jig.NeckSpec{From: 249.48, To: 169, Fret: 1.1, Cork: 3, Sheet: 18, Tall: 30, Tilt: 2.045 * geom.Degree}

// On a cylinder every slice has the board's radius, the fret and the cork, and fits
// without a gap; the caul is taller towards the nut by the neck angle.
func TestNeckOnACylinder(t *testing.T) {
	n, ok := jig.NewNeck(board(t, 305, 305), spec)
	if !ok || len(n.Slices) != 4 {
		t.Fatalf("%d slices, %v", len(n.Slices), ok)
	}
	if n.Off != 0 {
		t.Errorf("off by %v", n.Off)
	}
	if math.Abs(n.From-n.To-72) > 1e-9 || math.Abs(n.From+n.To-spec.From-spec.To) > 1e-9 {
		t.Errorf("from %v to %v", n.From, n.To)
	}
	for i, s := range n.Slices {
		if s.Radius != 309.1 {
			t.Errorf("slice %d: R %v, want 309.1", i+1, s.Radius)
		}
		if want := 30 + (72-18*float64(i))*math.Tan(2.045*math.Pi/180); math.Abs(s.Tall-want) > 1e-9 {
			t.Errorf("slice %d: %v tall, want %v", i+1, s.Tall, want)
		}
		p := s.Path(n.Width)
		if err := p.Check(); err != nil || p.Area() <= 0 {
			t.Errorf("slice %d: %v, area %v", i+1, err, p.Area())
		}
		if b := p.Bounds(); math.Abs(b.W()-n.Width) > 1e-9 || math.Abs(b.H()-s.Tall-s.Sagitta) > 1e-9 {
			t.Errorf("slice %d: %v × %v", i+1, b.W(), b.H())
		}
	}
}

// On a cone the gap that is told is the greatest between hollow and the cork on the
// frets, sampled over the whole face; a leaning forward neck is taller at the bridge.
func TestNeckOnACone(t *testing.T) {
	b := board(t, 184, 406)
	s := spec
	s.Tilt = -s.Tilt
	n, ok := jig.NewNeck(b, s)
	if !ok {
		t.Fatal("no caul")
	}
	worst := 0.0
	for i, q := range n.Slices {
		if want := b.RadiusAt((q.From+q.To)/2) + 4.1; math.Abs(q.Radius-want) > 1e-9 {
			t.Errorf("slice %d: R %v, of its middle %v", i+1, q.Radius, want)
		}
		for y := q.To; y <= q.From+1e-9; y += 0.5 {
			for x := -n.Width / 2; x <= n.Width/2+1e-9; x += n.Width / 40 {
				r := b.RadiusAt(y) + 1.1 + 3
				surface := r - math.Sqrt(r*r-x*x)
				hollow := q.Radius - math.Sqrt(q.Radius*q.Radius-x*x)
				worst = math.Max(worst, math.Abs(surface-hollow))
			}
		}
	}
	if n.Off <= 0 || math.Abs(worst-n.Off) > 1e-9 {
		t.Errorf("told %v, sampled %v", n.Off, worst)
	}
	if !(n.Slices[0].Tall < n.Slices[3].Tall) || n.Slices[3].Tall <= 30 {
		t.Errorf("tall %v and %v", n.Slices[0].Tall, n.Slices[3].Tall)
	}
	if w := n.Width; w > b.Outline.Bounds().W() || w < 50 {
		t.Errorf("%v wide", w)
	}
}

// A flat board has a flat caul; a stretch shorter than a slice none.
func TestNeckFlatAndShort(t *testing.T) {
	b := board(t, 0, 0)
	n, ok := jig.NewNeck(b, spec)
	if !ok || !math.IsInf(n.Slices[0].Radius, 1) || n.Off != 0 || n.Slices[0].Path(n.Width).Check() != nil {
		t.Errorf("%+v %v", n, ok)
	}
	s := spec
	s.To = s.From - 17.9
	if _, ok := jig.NewNeck(b, s); ok {
		t.Error("a caul shorter than a slice")
	}
}
