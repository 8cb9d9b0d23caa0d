package neck

import (
	"math/rand/v2"
	"testing"

	"routwright/geom"
)

// Whatever the keys of a design allow, a neck is either refused with a reason or
// sound: no panic, no outline that crosses itself, no hole outside the head.
func TestWildNecks(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 9))
	u := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	maybe := func() bool { return rng.IntN(2) == 0 }
	made := 0
	for i := 0; i < 3000; i++ {
		s := common(u(300, 1200), 1+rng.IntN(14), Kind(rng.IntN(3)))
		h := &s.Head
		h.Behind, h.Thickness, h.Crown = u(2, 30), u(8, 25), u(0, 60)
		h.Tilt, h.Step, h.Sweep = geom.Angle(u(0, 25))*geom.Degree, 0, u(0, 100)
		if maybe() {
			h.Tilt, h.Step = 0, u(0, 20)
		}
		h.First, h.Pitch, h.Hole, h.Post, h.Edge = u(15, 150), u(5, 80), u(3, 20), u(2, 20), u(1, 40)
		h.Along, h.Inward = u(3, 60), u(3, 60)
		if maybe() {
			a := geom.Angle(u(-10, 20)) * geom.Degree
			h.Deflection = &a
		}
		if maybe() {
			h.Widths = &[2]float64{u(20, 250), u(20, 250)}
		}
		if maybe() {
			h.Length, h.Shoulder = u(40, 400), u(10, 200)
		}
		for _, r := range []*Radius{&h.NeckRadius, &h.ShoulderRadius, &h.TipRadius} {
			*r = Radius{u(0, 200), rng.IntN(4) == 0}
		}
		s.Rod = &Rod{Access: Access(rng.IntN(2)), Width: u(3, 15), Depth: u(4, 20), Bow: u(0, 3), AccessLength: u(0, 80), AccessWidth: u(0, 80)}
		s.Back = Back{Thickness: [2]float64{u(10, 45), u(10, 45)}, Shoulder: [2]float64{u(0.05, 0.95), u(0.05, 0.95)},
			Foot: u(0, 80), Sweep: u(1, 200), Throat: u(0, 200), Scarf: u(0, 60)}
		s.Heel.Thickness, s.Heel.Corner = u(5, 40), u(0, 30)
		s.Heel.WidthEnd, s.Heel.WidthJoint = u(20, 120), u(20, 120)
		sh, err := New(s)
		if err != nil {
			if err.Error() == "" {
				t.Fatalf("neck %d: refused without a reason", i)
			}
			continue
		}
		made++
		for _, p := range []geom.Path{sh.Plan, sh.Shaft, sh.Head, sh.Side.Outline} {
			if err := (geom.Region{p}).Check(); err != nil || !p.Closed() || p.Area() <= 0 {
				t.Fatalf("neck %d: %v, area %g", i, err, p.Area())
			}
		}
		for _, tn := range sh.Tuners {
			if tn.Wall <= 0 {
				t.Fatalf("neck %d: a hole outside the head", i)
			}
		}
		if err := sh.Rod.Plan.Check(); err != nil || sh.Rod.Wood.MM <= 0 {
			t.Fatalf("neck %d: rod: %v, wood %g", i, err, sh.Rod.Wood.MM)
		}
		if sc := sh.Side.Scarf; (sc != nil) != (h.Tilt > 0) {
			t.Fatalf("neck %d: scarf %v at %v°", i, sc, h.Tilt.Degrees())
		}
	}
	t.Logf("%d of 3000 could be made", made)
	if made < 30 {
		t.Errorf("only %d of 3000 could be made: the test says nothing", made)
	}
}
