package fretboard

import (
	"math"
	"testing"

	"routwright/geom"

	"pgregory.net/rapid"
)

// Sagitta of a chord, worked by hand in the trade's own table: radius 305,
// width 56, 1.29 mm (closed form R − √(R² − W²/4)); a semicircle's is its radius.
func TestSagitta(t *testing.T) {
	if got := Sagitta(305, 28); math.Abs(got-1.29) > 0.005 {
		t.Errorf("radius 305, width 56: %.4f, want 1.29", got)
	}
	for _, c := range [][2]float64{{5, 5}, {5, 3}, {13, 12}} { // 3-4-5 and 5-12-13 triangles
		want := c[0] - math.Sqrt(c[0]*c[0]-c[1]*c[1])
		if got := Sagitta(c[0], c[1]); math.Abs(got-want) > 1e-12 {
			t.Errorf("Sagitta(%v) = %v, want %v", c, got, want)
		}
	}
	if got := Sagitta(math.Inf(1), 20); got != 0 {
		t.Errorf("flat board: %v", got)
	}
}

// A cone whose radius grows as the strings spread: the surface is straight under
// every string to 1e-6 mm, and so it stays on a fan.
func TestConeIsStraightUnderStrings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Common(rapid.Float64Range(400, 800).Draw(t, "scale"), rapid.IntRange(12, 24).Draw(t, "frets"), rapid.IntRange(2, 9).Draw(t, "strings"))
		s.Strings.Nut = rapid.Float64Range(25, 50).Draw(t, "nut")
		s.Strings.Bridge = s.Strings.Nut * rapid.Float64Range(1, 2).Draw(t, "spread")
		b, err := New(s)
		if err != nil {
			t.Skip(err)
		}
		nut := rapid.Float64Range(150, 500).Draw(t, "radius")
		s.Radius = Radius{nut, b.StraightEnd(nut)}
		if b, err = New(s); err != nil {
			t.Skip(err)
		}
		for i := range b.Strings {
			if h := b.Hollow(i + 1); h > 1e-6 {
				t.Fatalf("string %d: the surface under it is %g mm off straight", i+1, h)
			}
		}
	})
}

// On any cone, lines through its apex lie in the surface: the place where the
// radius would be 0.
func TestConeRulings(t *testing.T) {
	s := Common(648, 22, 6)
	s.Radius = Radius{254, 406}
	b, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	y0, y1 := b.mid(0), b.mid(22)
	apex := y0 + 254*(y0-y1)/(406-254)
	if r := b.RadiusAt(apex); math.Abs(r) > 1e-9 {
		t.Fatalf("radius at the apex %g", r)
	}
	for _, x := range []float64{-20, -7, 3, 25} { // at the nut
		at := func(f float64) geom.Point { return geom.Pt(x*(1+(y0-y1)*f/(apex-y0)), y0-(y0-y1)*f) }
		z0, z1 := b.Drop(at(0)), b.Drop(at(1))
		for f := 0.0; f <= 1; f += 0.1 {
			if d := b.Drop(at(f)) - (z0 + f*(z1-z0)); math.Abs(d) > 1e-9 {
				t.Errorf("ruling at %g: %g mm off straight at %.1f", x, d, f)
			}
		}
	}
	if h := b.Hollow(1); h <= 1e-6 {
		t.Errorf("strings that miss the apex lie %g mm off: expected to be seen", h)
	}
}

// The depth of the floor: the same under the surface everywhere.
func TestDepths(t *testing.T) {
	b, err := New(plain())
	if err != nil {
		t.Fatal(err)
	}
	for i, d := range b.Depths() {
		s := b.Slots[i]
		w := s.Edge.Length()
		if want := d.Radius - math.Sqrt(d.Radius*d.Radius-w*w/4); math.Abs(d.Bass-want) > 1e-9 || math.Abs(d.Treble-want) > 1e-9 {
			t.Errorf("slot %s: sagittas %g, %g, want %g", s.Name(), d.Bass, d.Treble, want)
		}
		if math.Abs(d.AtBass-d.Bass-2.2) > 1e-12 || math.Abs(d.Crown-2.2) > 1e-12 {
			t.Errorf("slot %s: %+v", s.Name(), d)
		}
	}
}
