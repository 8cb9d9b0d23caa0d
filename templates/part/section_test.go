package part

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
)

// A section agrees with points in space: a place of the plane lies in the cut
// face if and only if it lies in the solid or in the bore, by their definitions.
func TestSectionAgreesWithSampling(t *testing.T) {
	rnd := rand.New(rand.NewPCG(21, 8))
	f := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	in := 0
	for n := range 500 {
		c := Section{geom.Pt(f(-30, 50), f(-30, 50)), geom.Pt(f(-30, 50), f(-30, 50))}
		var cut geom.Region
		var holds func(Point) bool
		if n%2 == 0 {
			s := Solid{Plan: randomPlan(rnd), Top: Plane{f(0, 5), f(-0.1, 0.1), f(-0.1, 0.1)}, Floor: Plane{f(5, 20), f(-0.3, 0.3), f(-0.3, 0.3)}}
			cut = c.Solid(s)
			holds = func(q Point) bool {
				p := q.Flat()
				return s.Plan.Contains(p) && q.Z >= s.Top.At(p) && q.Z <= s.Floor.At(p)
			}
		} else {
			b := randomBore(rnd)
			switch n % 8 {
			case 1: // along the plane
				c.A, c.B = b.From.Flat(), b.To.Flat().Add(geom.Vec{X: 1e-9})
				c.A = c.A.Add(c.B.Sub(c.A).Unit().Left().Mul(f(-8, 8)))
			case 3: // square to it
				d := b.To.Flat().Sub(b.From.Flat())
				b.To.Z = b.From.Z
				c.A = b.From.Flat().Lerp(b.To.Flat(), f(-0.2, 1.2))
				c.B = c.A.Add(d.Left())
			}
			if c.A.Dist(c.B) < 1e-3 {
				continue
			}
			var err error
			if cut, err = c.Bore(b); err != nil {
				t.Fatal(err)
			}
			holds = func(q Point) bool { return holdsPoint(b, q) }
		}
		if err := cut.Check(); err != nil {
			t.Fatalf("case %d: %v", n, err)
		}
		edge := geom.IndexOf(cut)
		for range 200 {
			p := geom.Pt(f(-60, 90), f(-50, 15))
			if !cut.Empty() && rnd.IntN(2) == 0 {
				b := cut.Bounds().Grow(1)
				p = geom.Pt(f(b.Min.X, b.Max.X), f(b.Min.Y, b.Max.Y))
			}
			got := !cut.Empty() && cut.Contains(p)
			if got {
				in++
			}
			if got == holds(c.At(p)) {
				continue
			}
			if cut.Empty() {
				t.Fatalf("case %d: %v lies inside, the section is empty", n, p)
			}
			// The edge of an ellipse is out by CurveToArc at most.
			if _, d := edge.Closest(p); d > 2*geom.CurveToArc {
				t.Fatalf("case %d: %v: in the section %v, %g mm from its edge", n, p, got, d)
			}
		}
	}
	if in < 5000 {
		t.Errorf("only %d points lay inside", in)
	}
}

// The area of a bore cut by a plane that leans by φ to its axis: π·r²/sin φ.
func TestSectionOfABoreHasTheAreaOfAnEllipse(t *testing.T) {
	b := Bore{From: Point{0, 0, -100}, To: Point{40, 0, 100}, D: 10} // leans by atan(0.2) from upright
	got, err := (Section{geom.Pt(20, -50), geom.Pt(20, 50)}).Bore(b) // plane x = 20
	if err != nil {
		t.Fatal(err)
	}
	sin := 40 / math.Hypot(40, 200) // between axis and plane
	if want := math.Pi * 25 / sin; math.Abs(got.Area()-want) > 1e-3*want {
		t.Errorf("%.3f mm², want %.3f", got.Area(), want)
	}
}
