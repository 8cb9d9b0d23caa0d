package geom

import (
	"math"
	"math/rand"
	"testing"
)

// tracing returns about n points along a blob, moved by up to noise mm.
func tracing(r *rand.Rand, n int, noise float64) []Point {
	cs := smoothChain(r, 8)
	var ps []Point
	for _, c := range cs {
		for i := 0; i < n/len(cs); i++ {
			p := c.At(float64(i) / float64(n/len(cs)))
			ps = append(ps, p.Add(Vec{noise * (2*r.Float64() - 1), noise * (2*r.Float64() - 1)}.Mul(math.Sqrt2/2)))
		}
	}
	return ps
}

// polylineError returns the largest distance from points and mid-points of the
// polyline to p.
func polylineError(p Path, ps []Point, closed bool) float64 {
	var most float64
	for i := range ps {
		if i+1 == len(ps) && !closed {
			break
		}
		a, b := ps[i], ps[(i+1)%len(ps)]
		for _, q := range [2]Point{a, a.Lerp(b, 0.5)} {
			d := math.Inf(1)
			for _, s := range p {
				d = math.Min(d, s.Closest(q).Dist(q))
			}
			most = math.Max(most, d)
		}
	}
	return most
}

func TestFitPolyline(t *testing.T) {
	for _, tt := range []struct {
		n          int
		noise, tol float64
		segs       int
	}{
		{4000, 0, 5e-3, 150},
		{20000, 0, 1e-3, 250},
		{20000, 0.02, 0.05, 150},
		{4000, 0.05, 0.1, 150},
	} {
		ps := tracing(rand.New(rand.NewSource(7)), tt.n, tt.noise)
		p, err := FitPolyline(ps, true, tt.tol, 30*Degree)
		if err != nil {
			t.Fatal(err)
		}
		if err := p.Check(); err != nil {
			t.Error(err)
		}
		k, c := kinks(p)
		e := polylineError(p, ps, true)
		t.Logf("%+v: %d segments, error %.4g, kink %.2g, corners %d", tt, len(p), e, k, c)
		if !p.Closed() || c > 0 || k > 1e-6 || e > tt.tol || len(p) > tt.segs {
			t.Errorf("%+v: closed %v, corners %d, kink %g, error %g, segments %d", tt, p.Closed(), c, k, e, len(p))
		}
	}
}

func BenchmarkFitPolyline200k(b *testing.B) {
	ps := tracing(rand.New(rand.NewSource(7)), 200000, 0.01)
	b.ReportAllocs()
	for b.Loop() {
		p, err := FitPolyline(ps, true, 0.05, 30*Degree)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(p)), "segments")
	}
}
