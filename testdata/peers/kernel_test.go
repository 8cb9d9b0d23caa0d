//go:build native

package peers

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"routwright/geom"
	"routwright/testdata/peers/native"
)

// budget is the whole geometric error that a template may carry, mm: an area may
// be off by it times the edge.
const budget = 1e-3

// part is a random outline, now and then with a hole, or one of the exact cases:
// a circle, a slot, a ring, a rectangle on whole millimetres.
func part(r *rand.Rand, size float64) geom.Region {
	switch r.IntN(6) {
	case 0:
		return geom.Region{geom.Circle(geom.Pt(0, 0), float64(5+r.IntN(20)))}
	case 1:
		return geom.Region{geom.Stadium(geom.Pt(-20, 0), geom.Pt(20, 0), float64(4+r.IntN(8)))}
	case 2:
		return geom.Region{geom.RoundedRect(geom.Pt(0, 0), float64(20+r.IntN(30)), float64(15+r.IntN(20)), float64(r.IntN(6)))}
	case 3:
		return geom.Region{geom.Circle(geom.Pt(0, 0), 25), geom.Circle(geom.Pt(0, 0), float64(6+r.IntN(12))).Reversed()}
	}
	return geom.Region{star(r, size, 5)}
}

// Offsets of random and of exact cases against Clipper's.
func TestOffsetAgainstClipper(t *testing.T) {
	rnd, n := random(t, 300)
	var c geom.Calc
	var worst float64
	for i := range n {
		r := part(rnd, 35)
		d := between(rnd, -8, 8)
		if rnd.IntN(2) == 0 {
			d = math.Round(d) + 0.5 // no slot vanishes at exactly its width: there the two rules differ
		}
		got := c.Offset(r, d, geom.Round)
		want := loops(native.Paths(flatten(r)).Flatten().Offset(d, chord, 0))
		worst = max(worst, agree(t, fmt.Sprintf("seed %d, case %d, by %.4f", *seed, i, d), got, want, 2*budget))
	}
	report(t, &c, worst)
}

// The four booleans against simplefeatures and Clipper; half of the cases lie on
// whole millimetres or share a wall.
func TestBooleansAgainstPeers(t *testing.T) {
	rnd, n := random(t, 40)
	var c geom.Calc
	var worst float64
	failed := 0
	for i := range n {
		a, b := part(rnd, 35), part(rnd, 35)
		move := geom.Vec{X: between(rnd, -30, 30), Y: between(rnd, -30, 30)}
		tips := 2 * budget // of slivers between a part and its own copy: chords end them elsewhere
		switch rnd.IntN(4) {
		case 0:
			move = geom.Vec{X: math.Round(move.X), Y: 0}
		case 1:
			b, move = a, geom.Vec{X: math.Pow(10, -float64(rnd.IntN(5)))}
			tips = 0.02
		}
		b = geom.Translate(move).Region(b)
		fa, fb := native.Paths(flatten(a)).Flatten(), native.Paths(flatten(b)).Flatten()
		ga, gb := polygon(a), polygon(b)
		for _, op := range []struct {
			name string
			ours geom.Region
			clip native.Op
			sf   func(a, b sf.Geometry) (sf.Geometry, error)
		}{
			{"union", c.Union(a, b), native.Union, sf.Union},
			{"intersection", c.Intersect(a, b), native.Intersection, sf.Intersection},
			{"difference", c.Subtract(a, b), native.Difference, sf.Difference},
			{"exclusive-or", c.Xor(a, b), native.Xor, sf.SymmetricDifference},
		} {
			name := fmt.Sprintf("seed %d, case %d, %s, moved by %v", *seed, i, op.name, move)
			worst = max(worst, agree(t, name+", Clipper", op.ours, loops(fa.Boolean(op.clip, fb)), tips))
			g, err := op.sf(ga, gb)
			if err != nil {
				failed++
				continue
			}
			if d := math.Abs(op.ours.Area() - g.Area()); d > budget*max(1, op.ours.Perimeter()) {
				t.Errorf("%s, simplefeatures: area %.6f, theirs %.6f", name, op.ours.Area(), g.Area())
			}
		}
	}
	t.Logf("simplefeatures gave an error %d times", failed)
	report(t, &c, worst)
}

// agree compares areas, and edges by the places 2 mm apart on both. Slivers under
// the budget may be there or not. It returns how far the areas differ over the
// length of the edge.
func agree(t *testing.T, name string, got geom.Region, want loops, apart float64) float64 {
	t.Helper()
	d := math.Abs(got.Area()-want.area()) / max(1, got.Perimeter())
	if d > budget {
		t.Errorf("%s: area %.6f, theirs %.6f", name, got.Area(), want.area())
	}
	if err := got.Check(); err != nil {
		t.Errorf("%s: %v", name, err)
	}
	var solid loops
	for _, l := range want {
		if math.Abs(loops{l}.area()) > budget*(loops{l}).length() {
			solid = append(solid, l)
		}
	}
	var edges geom.Region
	for _, p := range got {
		if math.Abs(p.Area()) > budget*p.Length() {
			edges = append(edges, p)
		}
	}
	// The same place may be one loop or two that touch, so loops are not counted.
	all := geom.IndexOf(got)
	solid.walk(2, func(p [2]float64) {
		if _, far := all.Closest(geom.Pt(p[0], p[1])); far > apart {
			t.Errorf("%s: their edge at %.4f lies %.5f mm off ours", name, p, far)
		}
	})
	for _, p := range edges {
		for _, e := range p {
			q := e.At(0.37)
			if far := math.Abs(want.signed([2]float64{q.X, q.Y})); far > apart {
				t.Errorf("%s: our edge at %.4f lies %.5f mm off theirs", name, q, far)
			}
		}
	}
	return d
}

func report(t *testing.T, c *geom.Calc, worst float64) {
	t.Logf("%d fallbacks; worst area off by %.2g mm² a mm of edge", c.Fallbacks, worst)
	if c.Err() != nil {
		t.Error(c.Err())
	}
}

// Least distances between random parts agree with dense sampling.
func TestDistancesAgainstSampling(t *testing.T) {
	rnd, n := random(t, 1000)
	var worst float64
	for i := range n {
		a := part(rnd, 35)
		b := geom.Pose(geom.Pt(between(rnd, -120, 120), between(rnd, -120, 120)), geom.Angle(between(rnd, 0, 6))).Region(part(rnd, 35))
		d, _, _ := geom.Distance(a, b)
		fa, fb := within(a, 1e-3), within(b, 1e-3)
		want := math.Inf(1)
		for _, ab := range [2][2]loops{{fa, fb}, {fb, fa}} {
			ab[0].walk(0.5, func(p [2]float64) { want = min(want, max(0, -ab[1].signed(p))) })
		}
		worst = max(worst, math.Abs(d-want))
		if math.Abs(d-want) > 0.02 {
			t.Errorf("seed %d, pair %d: %.5f mm, sampled %.5f", *seed, i, d, want)
		}
	}
	t.Logf("worst difference %.5f mm", worst)
}
