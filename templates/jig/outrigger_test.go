package jig_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/jig"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// Over a round opening wide enough to lie under the plate whole, the share that hangs
// over is the ratio of the areas: at most 40 % wants a plate of the opening's diameter
// over √0.4. Opening 120: 189.7, so 190. A small opening is ruled by its margins.
func TestPlateOverACircle(t *testing.T) {
	for _, c := range []struct{ opening, base, want, share float64 }{
		{120, 150, 190, 0.39889}, // (120/190)²
		{100, 90, 160, 0.39063},  // (100/160)²
		{40, 60, 90, 0.19753},    // 40 and twice 25; (40/90)²
		{90, 152, 160, 0.31641},  // the next step over the base
		{120, 190, 200, 0.36},    // larger than the base
	} {
		open := geom.Region{geom.Circle(geom.Pt(7, -4), c.opening/2)}
		if w := jig.WidestCircle(open); math.Abs(w-c.opening) > 1e-3 {
			t.Errorf("widest circle %v, want %v", w, c.opening)
		}
		tmpl := cut.Template{ID: "round", Shape: open, Sheet: 18, For: part.Part{Solids: []part.Solid{{Plan: open, Floor: part.Level(10)}}},
			Tool: tool.Tool{Cutter: 12, Follower: 12}}
		over := []jig.Over{{Wide: jig.WidestCircle(open)}}
		var on cut.Template
		d, err := jig.Carrying(c.base, over, func(_ jig.Over, d float64) (ok bool, err error) {
			on, ok, err = cut.Carried(tmpl, d, 40, func(web float64) geom.Region { return cut.SheetRound(open.Bounds(), web) })
			return ok, err
		})
		if err != nil || d != c.want {
			t.Errorf("opening %v, base %v: plate %v, want %v (%v)", c.opening, c.base, d, c.want, err)
			continue
		}
		s, err := cut.NewSweep(on, d)
		if err != nil {
			t.Fatal(err)
		}
		// The sheet may be narrower than the plate and let some of it hang over, too.
		if got := s.Worst().Share; got > 0.4 || got < c.share-1e-4 {
			t.Errorf("opening %v: %.5f hangs over a plate of %v, at least %.5f", c.opening, got, d, c.share)
		}
	}
}

func TestPlateThatNothingCarries(t *testing.T) {
	d, err := jig.Carrying(150, []jig.Over{{Wide: 100}}, func(jig.Over, float64) (bool, error) { return false, nil })
	if d != 0 || err != nil {
		t.Errorf("plate %v, %v", d, err)
	}
	if d, _ := jig.Carrying(150, []jig.Over{{Wide: 560}}, func(jig.Over, float64) (bool, error) { return true, nil }); d != 0 {
		t.Errorf("a plate of %v for an opening of 560 and its margins", d)
	}
}

func TestPlateHole(t *testing.T) {
	if got := jig.PlateHole(17); got != 23 {
		t.Errorf("hole %v, want 17 and twice 3", got)
	}
}
