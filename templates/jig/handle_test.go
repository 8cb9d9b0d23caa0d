package jig_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/jig"
)

// A round part of 40 mm, followed at 3 mm by a cutter of 6: by hand, the middle of the
// cutter runs at 23, a knob's middle stands at 23 + 3 + 75 + 20, the block reaches
// 20 + 15 beyond it, and 60 beyond the part.
func TestHandleOfACircle(t *testing.T) {
	part := geom.Region{geom.Circle(geom.Pt(80, -30), 20)}
	path := geom.Region{geom.Circle(geom.Pt(80, -30), 23)}
	h, err := jig.NewHandle(part, part, path, 3)
	if err != nil {
		t.Fatal(err)
	}
	if h.Knobs[1].Dist(geom.Pt(121, 0)) > 1.01 || h.Knobs[0].Dist(geom.Pt(-h.Knobs[1].X, 0)) > 1e-9 {
		t.Errorf("knobs at %v", h.Knobs)
	}
	x := h.Knobs[1].X
	if b := h.Block.Bounds(); math.Abs(b.W()-2*(x+35)) > 1e-9 || math.Abs(b.H()-160) > 1e-9 {
		t.Errorf("block %v × %v", b.W(), b.H())
	}
	if math.Abs(h.HandClear-(x-23-3-20)) > 1e-6 || h.HandClear < 75 || h.HandClear > 76.01 {
		t.Errorf("hand %v", h.HandClear)
	}
	if math.Abs(h.RimClear-(80-26)) > 1e-6 {
		t.Errorf("rim %v", h.RimClear)
	}
	at, room, err := h.Hold()
	if err != nil || math.Abs(room-10) > 1e-3 || at[0].Dist(geom.Pt(-10, 0)) > 0.1 || at[1].Dist(geom.Pt(10, 0)) > 0.1 {
		t.Errorf("held at %v, room %v, %v", at, room, err)
	}
	if got := jig.HoldRoom(3.5); got != 4.75 {
		t.Errorf("room for a screw of 3.5: %v", got)
	}
}

// Wherever a part lies and however it is turned in right angles, its block is the
// same; a sampled cutter is nowhere nearer to a knob than told, and nowhere beyond the
// block.
func TestHandleProperties(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	for range 30 {
		l, w := 40+60*rnd.Float64(), 15+25*rnd.Float64()
		bent := geom.Region{geom.Polygon(geom.Pt(0, 0), geom.Pt(l, -w*rnd.Float64()/3), geom.Pt(l, w), geom.Pt(l*rnd.Float64(), w*1.1), geom.Pt(0, w))}
		r, cut := 3+6*rnd.Float64(), 3.0
		var c geom.Calc
		path := c.Offset(bent, r, geom.Round)
		h, err := jig.NewHandle(bent, bent, path, cut)
		if err != nil || c.Err() != nil {
			t.Fatal(err, c.Err())
		}
		b := h.Block.Bounds()
		if h.HandClear < 75 || !b.Holds(h.Sweep.Bounds()) || h.RimClear < 60-r-cut-1e-9 {
			t.Errorf("hand %v, rim %v", h.HandClear, h.RimClear)
		}
		work := h.Work.Bounds()
		for _, d := range []float64{b.Max.X - work.Max.X, b.Max.Y - work.Max.Y, work.Min.X - b.Min.X, work.Min.Y - b.Min.Y} {
			if d < 60 {
				t.Errorf("only %v of block beyond the part", d)
			}
		}
		for _, e := range h.Move.Region(path)[0] {
			for k := range 20 {
				for _, q := range h.Knobs {
					if d := e.At(float64(k)/20).Dist(q) - cut - jig.KnobD/2; d < h.HandClear-1e-6 {
						t.Fatalf("the cutter comes within %v of a knob, told %v", d, h.HandClear)
					}
				}
			}
		}
		m := geom.Pose(geom.Pt(300*rnd.Float64(), -200), 180*geom.Degree)
		g, err := jig.NewHandle(m.Region(bent), m.Region(bent), m.Region(path), cut)
		if err != nil || g.Block.Bounds().W() != b.W() || g.Block.Bounds().H() != b.H() {
			t.Errorf("turned: %v, %v", g.Block.Bounds(), err)
		}
		m = geom.Rotate(90 * geom.Degree)
		g, err = jig.NewHandle(m.Region(bent), m.Region(bent), m.Region(path), cut)
		if err != nil || xor(t, g.Work, h.Work) > 1e-6 {
			t.Errorf("turned by a quarter: another part under the block, %v", err)
		}
		m = geom.MirrorX()
		g, err = jig.NewHandle(m.Region(bent), m.Region(bent), m.Region(path), cut)
		if err != nil || xor(t, m.Region(g.Work), h.Work) > 1e-6 || math.Abs(g.HandClear-h.HandClear) > 1e-6 {
			t.Errorf("mirrored: another part under the block, %v", err)
		}
	}
}
