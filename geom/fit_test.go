package geom

import (
	"math"
	"math/rand"
	"testing"
)

// fitErrors returns the largest distance from points of the curves to p, and of
// points of p to the curves, by dense sampling.
func fitErrors(p Path, cs []Curve) (there, back float64) {
	const places = 800
	var pts []Point
	for _, c := range cs {
		for i := 0; i <= places; i++ {
			pts = append(pts, c.At(float64(i)/places))
		}
	}
	near := func(q Point, from, to int, dist func(i int) float64) (float64, int) {
		best, at := math.Inf(1), from
		for i := from; i < to; i++ {
			if d := dist(i); d < best {
				best, at = d, i
			}
		}
		return best, at
	}
	for _, q := range pts {
		d, _ := near(q, 0, len(p), func(i int) float64 { return p[i].Closest(q).Dist(q) })
		there = math.Max(there, d)
	}
	for _, s := range p {
		for t := 0.0; t <= 1; t += 0.125 {
			q := s.At(t)
			d, at := near(q, 0, len(pts), func(i int) float64 { return pts[i].Dist(q) })
			for i := max(0, at-1); i <= at+1 && i+1 < len(pts); i++ {
				d = math.Min(d, Line(pts[i], pts[i+1]).Closest(q).Dist(q))
			}
			if d > 2e-3 { // the nearest place of a curve that crosses itself may be of its other branch
				for i := 0; i+1 < len(pts); i++ {
					d = math.Min(d, Line(pts[i], pts[i+1]).Closest(q).Dist(q))
				}
			}
			back = math.Max(back, d)
		}
	}
	return there, back
}

// kinks returns the largest turn between neighbours below and the number above
// 0.001 rad.
func kinks(p Path) (most float64, corners int) {
	for i, s := range p {
		if i == 0 && !p.Closed() {
			continue
		}
		a := p[(i+len(p)-1)%len(p)].Tangent(1)
		k := math.Abs(turn(a, s.Tangent(0)))
		if k > 1e-3 {
			corners++
		} else {
			most = math.Max(most, k)
		}
	}
	return most, corners
}

// smoothChain is a closed chain of n cubics, tangent at the joints.
func smoothChain(r *rand.Rand, n int) []Cubic {
	knots := make([]Knot, n)
	for i := range knots {
		a := Angle(2 * math.Pi * float64(i) / float64(n))
		knots[i].At = Pt(0, 0).Add(a.Unit().Mul(120 + 80*r.Float64()))
	}
	cs, err := Hobby(knots, true)
	if err != nil {
		panic(err)
	}
	return cs
}

func curvesOf(cs []Cubic) []Curve {
	out := make([]Curve, len(cs))
	for i := range cs {
		out[i] = cs[i]
	}
	return out
}

func TestFitSmoothChain(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for i := 0; i < 6; i++ {
		cs := smoothChain(r, 5+i)
		for _, tol := range []float64{1e-2, 1e-3} {
			p, err := FitCubics(cs, tol)
			if err != nil {
				t.Fatal(err)
			}
			if err := p.Check(); err != nil {
				t.Error(err)
			}
			there, back := fitErrors(p, curvesOf(cs))
			k, c := kinks(p)
			t.Logf("%d knots, tol %g: length %.0f, %d segments, errors %.3g, %.3g, kink %.3g", 5+i, tol, p.Length(), len(p), there, back, k)
			if there > tol || back > tol+6e-5 || k > 1e-6 || c > 0 || !p.Closed() {
				t.Errorf("seed 3 blob %d tol %g: errors %g %g kink %g corners %d closed %v", i, tol, there, back, k, c, p.Closed())
			}
		}
	}
}

func BenchmarkFitCubics(b *testing.B) {
	cs := smoothChain(rand.New(rand.NewSource(3)), 10)
	b.ReportAllocs()
	for b.Loop() {
		p, err := FitCubics(cs, 1e-3)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(p)), "segments")
	}
}
