package geom

import (
	"math"
	"math/rand"
	"testing"
)

// randomPolygon returns a star-shaped loop with lines and arcs.
func randomLoop(rng *rand.Rand, c Point, size float64) Path {
	n := 3 + rng.Intn(12)
	ps := make([]Point, n)
	for i := range ps {
		a := Angle(2 * math.Pi * (float64(i) + 0.7*rng.Float64()) / float64(n))
		ps[i] = c.Add(a.Unit().Mul(size * (0.3 + 0.7*rng.Float64())))
	}
	p := make(Path, n)
	for i := range ps {
		a, b := ps[i], ps[(i+1)%n]
		if rng.Intn(2) == 0 {
			p[i] = Line(a, b)
		} else {
			p[i] = ArcBulge(a, b, 0.3*(rng.Float64()-0.5))
		}
	}
	return p
}

func TestOffsetRandom(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	bad := 0
	var c Calc
	for i := 0; i < 3000; i++ {
		r := Region{randomLoop(rng, Pt(0, 0), 50)}
		if r.Check() != nil {
			continue
		}
		d := (rng.Float64() - 0.6) * 30
		c.err = nil
		o := c.Offset(r, d, Round)
		if c.Err() != nil {
			t.Errorf("case %d d %.3f: %v", i, d, c.Err())
			bad++
			continue
		}
		if err := o.Check(); err != nil {
			t.Errorf("case %d d %.3f: %v", i, d, err)
			bad++
		}
		// Points at random: inside exactly when near enough.
		for k := 0; k < 20; k++ {
			q := Pt((rng.Float64()-0.5)*150, (rng.Float64()-0.5)*150)
			dist := math.Inf(1)
			for _, s := range r[0] {
				dist = math.Min(dist, s.Closest(q).Dist(q))
			}
			if r.Contains(q) {
				dist = -dist
			}
			if math.Abs(dist-d) < 1e-5 {
				continue
			}
			if want := dist < d; o.Contains(q) != want {
				t.Errorf("case %d d %.3f: %v at %.5f inside=%v", i, d, q, dist, !want)
				bad++
				break
			}
		}
		if bad > 10 {
			t.FailNow()
		}
	}
	t.Logf("fallbacks %d", c.Fallbacks)
}

func TestBooleanRandom(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	bad := 0
	var c Calc
	for i := 0; i < 3000; i++ {
		a, b := Region{randomLoop(rng, Pt(0, 0), 50)}, Region{randomLoop(rng, Pt(30*rng.Float64(), 10), 50)}
		if i%3 == 1 {
			b = Translate(Vec{math.Pow(10, -12+9*rng.Float64()), 0}).Region(a)
		}
		if a.Check() != nil || b.Check() != nil {
			continue
		}
		c.err = nil
		u, n, s, x := c.Union(a, b), c.Intersect(a, b), c.Subtract(a, b), c.Xor(a, b)
		if c.Err() != nil {
			t.Errorf("case %d: %v", i, c.Err())
			bad++
		}
		for k, r := range []Region{u, n, s, x} {
			if err := r.Check(); err != nil {
				t.Errorf("case %d op %d: %v", i, k, err)
				bad++
			}
		}
		if e := u.Area() + n.Area() - a.Area() - b.Area(); math.Abs(e) > 1e-2 {
			t.Errorf("case %d: union + intersection off by %g", i, e)
			bad++
		}
		if e := s.Area() + n.Area() - a.Area(); math.Abs(e) > 1e-2 {
			t.Errorf("case %d: difference + intersection off by %g", i, e)
			bad++
		}
		if bad > 10 {
			t.FailNow()
		}
	}
	t.Logf("fallbacks %d", c.Fallbacks)
}

func BenchmarkOffset5k(b *testing.B) {
	var ps []Point
	for i := 0; i < 5000; i++ {
		a := 2 * math.Pi * float64(i) / 5000
		r := 150 + 30*math.Cos(2*a) + 12*math.Sin(5*a)
		ps = append(ps, Pt(r*math.Cos(a), r*math.Sin(a)))
	}
	reg := Region{Polygon(ps...)}
	var c Calc
	b.ReportAllocs()
	for b.Loop() {
		c.Offset(reg, -8, Round)
	}
	if c.Err() != nil {
		b.Fatal(c.Err())
	}
}
