package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestFarthestClosedForms(t *testing.T) {
	square := func(c Point, side float64) Region { return Region{Rect(c, side, side)} }
	line := func(a, b Point) Region { return Region{Path{Line(a, b)}} }
	for _, tt := range []struct {
		name string
		a, b Region
		want float64
	}{
		{"nothing from something", nil, square(Pt(0, 0), 2), 0},
		{"something from nothing", square(Pt(0, 0), 2), nil, math.Inf(1)},
		{"itself", Region{RoundedRect(Pt(3, 4), 40, 20, 6)}, Region{RoundedRect(Pt(3, 4), 40, 20, 6)}, 0},
		{"squares, one in the other", square(Pt(0, 0), 10), square(Pt(0, 0), 4), 3 * math.Sqrt2},
		{"squares, the inner from the outer", square(Pt(0, 0), 4), square(Pt(0, 0), 10), 3},
		{"circles about one centre", Region{Circle(Pt(1, 2), 7)}, Region{Circle(Pt(1, 2), 5)}, 2},
		{"circles beside one another", Region{Circle(Pt(0, 0), 5)}, Region{Circle(Pt(3, 0), 5)}, 3},
		{"circle in a circle, off centre", Region{Circle(Pt(1, 0), 2)}, Region{Circle(Pt(0, 0), 5)}, 4},
		{"line over half of another", line(Pt(0, 0), Pt(5, 0)), line(Pt(0, 0), Pt(9, 0)), 0},
		{"line over another, the longer one", line(Pt(0, 0), Pt(9, 0)), line(Pt(0, 0), Pt(5, 0)), 4},
		{"between two lines", line(Pt(0, -2), Pt(0, 2)), append(line(Pt(-1, -2), Pt(-1, 2)), line(Pt(1, -2), Pt(1, 2))...), 1},
		// Farthest in the middle of a segment, where what is nearest changes.
		{"across two points", line(Pt(-4, 3), Pt(4, 3)), append(line(Pt(-4, 0), Pt(-4, -1)), line(Pt(4, 0), Pt(4, -1))...), 5},
		{"half circle from its chord", Region{Path{ArcAbout(Pt(0, 0), Pt(5, 0), Pt(-5, 0), 1)}}, line(Pt(5, 0), Pt(-5, 0)), 5},
		{"chord from its half circle", line(Pt(5, 0), Pt(-5, 0)), Region{Path{ArcAbout(Pt(0, 0), Pt(5, 0), Pt(-5, 0), 1)}}, 5},
	} {
		for _, s := range reachPoses() {
			k := s.t.Factor()
			a, b := s.t.Region(tt.a), s.t.Region(tt.b)
			d, p, q := Farthest(a, b)
			if math.IsInf(tt.want, 1) {
				if !math.IsInf(d, 1) {
					t.Errorf("%s, %s: %g", tt.name, s.name, d)
				}
				continue
			}
			if d > tt.want*k+1e-9*max(1, k) || d < tt.want*k-FarSlack {
				t.Errorf("%s, %s: %.9g, want %.9g", tt.name, s.name, d, tt.want*k)
			}
			if len(tt.a) > 0 {
				sameLength(t, tt.name+": witnesses", p.Dist(q), d, 1e-9*max(1, k))
			}
		}
	}
}

// farthestBySampling is never above the truth, and below it by no more than half
// a step, since the distance to a set changes by no more than one goes.
func farthestBySampling(a, b Region, step float64) float64 {
	var most float64
	for _, loop := range a {
		for _, s := range loop {
			n := int(math.Ceil(s.Length() / step))
			for i := 0; i <= n; i++ {
				p := s.At(float64(i) / float64(n))
				least := math.Inf(1)
				for _, l := range b {
					for _, u := range l {
						least = math.Min(least, u.Closest(p).Dist(p))
					}
				}
				most = math.Max(most, least)
			}
		}
	}
	return most
}

func randomCurves(rng *rand.Rand) Region {
	var r Region
	for range 1 + rng.IntN(3) {
		if rng.IntN(2) == 0 {
			r = append(r, starOf(rng, Pt(20*rng.Float64(), 20*rng.Float64()), 10, 3+rng.IntN(12)))
			continue
		}
		r = append(r, Path{randomSeg(rng)})
	}
	return r
}

func TestFarthestAgainstSampling(t *testing.T) {
	rng := seeded(t, 23)
	const step = 0.05
	for i := range 300 {
		a, b := randomCurves(rng), randomCurves(rng)
		d, p, q := Farthest(a, b)
		want := farthestBySampling(a, b, step)
		if d < want-FarSlack-1e-9 || d > want+step/2+1e-9 {
			t.Fatalf("case %d: %.9g, sampled %.9g", i, d, want)
		}
		// The witnesses lie on the curves, and nothing of b is nearer to p.
		if _, e := IndexOf(a).Closest(p); e > 1e-9 {
			t.Fatalf("case %d: %v is %.3g mm off the first curves", i, p, e)
		}
		near, e := IndexOf(b).Closest(p)
		if math.Abs(e-d) > 1e-9 || math.Abs(q.Dist(p)-d) > 1e-9 {
			t.Fatalf("case %d: %v is %.9g from the other curves at %v, told %.9g at %v", i, p, e, near, d, q)
		}
	}
}

// Laws of the Hausdorff distance: direction of travel and order of the loops do
// not matter, a union of loops is as far as the farthest of them, and the
// triangle holds.
func TestFarthestLaws(t *testing.T) {
	rng := seeded(t, 29)
	far := func(a, b Region) float64 { d, _, _ := Farthest(a, b); return d }
	for i := range 300 {
		a, b, c := randomCurves(rng), randomCurves(rng), randomCurves(rng)
		ab := far(a, b)
		back := Region{}
		for k := len(a) - 1; k >= 0; k-- {
			back = append(back, a[k].Reversed())
		}
		sameLength(t, label(i, "reversed"), far(back, b), ab, FarSlack)
		both := append(append(Region{}, a...), c...)
		sameLength(t, label(i, "union"), far(both, b), math.Max(ab, far(c, b)), FarSlack)
		if far(a, both) > 1e-9 {
			t.Fatalf("case %d: a is %g from itself with more", i, far(a, both))
		}
		if sum := ab + far(b, c); far(a, c) > sum+2*FarSlack {
			t.Fatalf("case %d: triangle: %g > %g", i, far(a, c), sum)
		}
		sameLength(t, label(i, "index"), func() float64 { d, _, _ := IndexOf(b).Farthest(a); return d }(), ab, 0)
	}
}

// What is moved by v is |v| away, both ways: the point that lies foremost along v
// goes on to where nothing is nearer.
func TestFarthestShifted(t *testing.T) {
	rng := seeded(t, 31)
	for i := range 300 {
		a := randomCurves(rng)
		v := Angle(rng.Float64() * 2 * math.Pi).Unit().Mul(math.Pow(10, 3*rng.Float64()-2))
		b := Translate(v).Region(a)
		there, _, _ := Farthest(a, b)
		back, _, _ := Farthest(b, a)
		d := math.Max(there, back)
		if d > v.Len()+1e-9 {
			t.Fatalf("case %d: moved by %.9g, found %.9g", i, v.Len(), d)
		}
		if d < v.Len()-FarSlack {
			t.Fatalf("case %d: moved by %.9g, found only %.9g", i, v.Len(), d)
		}
	}
}

func BenchmarkFarthest(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	r := Region{starOf(rng, Pt(0, 0), 200, 1000)}
	moved := Translate(Vec{X: 0.3}).Region(r)
	for b.Loop() {
		Farthest(r, moved)
	}
}
