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

// TestFitPolylineSlot traces a rounded and a sharp rectangle, clean and noisy:
// the sides must come out as four lines, the sharp corners as they were.
func TestFitPolylineSlot(t *testing.T) {
	const tol = 0.02
	for _, tt := range []struct {
		name    string
		path    Path
		noise   float64
		most    int
		corners int
	}{
		{"rounded", RoundedRect(Pt(0, 0), 92, 40, 6), 0, 28, 0},
		{"rounded, noisy", RoundedRect(Pt(0, 0), 92, 40, 6), 0.004, 40, 0},
		{"sharp", Rect(Pt(0, 0), 92, 40), 0, 4, 4},
		{"sharp, noisy", Rect(Pt(0, 0), 92, 40), 0.004, 8, 4},
	} {
		r := rand.New(rand.NewSource(1))
		var ps []Point
		for _, s := range tt.path {
			n := int(s.Length() / 0.05)
			for i := 0; i < n; i++ {
				ps = append(ps, s.At(float64(i)/float64(n)).Add(Vec{2*r.Float64() - 1, 2*r.Float64() - 1}.Mul(tt.noise)))
			}
		}
		for _, from := range []int{0, 333, 2000} {
			q := append(append([]Point{}, ps[from:]...), ps[:from]...)
			p, err := FitPolyline(q, true, tol, 0)
			if err != nil {
				t.Fatal(err)
			}
			lines := 0
			for _, s := range p {
				if !s.IsArc() && s.Length() > 20 {
					lines++
				}
			}
			k, c := kinks(p)
			e := polylineError(p, q, true)
			if len(p) > tt.most || lines != 4 || c != tt.corners || k > 1e-3 || e > tol || !p.Closed() || p.Check() != nil {
				t.Errorf("%s from %d: %d segments, %d lines, %d corners, kink %g, error %g, %v", tt.name, from, len(p), lines, c, k, e, p.Check())
			}
		}
	}
}

func TestFitPolylineSparse(t *testing.T) {
	// Few points are what was drawn: nothing is bent away from them.
	hexagon := []Point{{60, 0}, {30, 52}, {-30, 52}, {-60, 0}, {-30, -52}, {30, -52}}
	for _, corner := range []Angle{0, 90 * Degree} {
		p, err := FitPolyline(hexagon, true, 0.01, corner)
		if err != nil || len(p) != 6 || polylineError(p, hexagon, true) > 1e-9 {
			t.Errorf("hexagon, corner %g: %v, %v", corner.Degrees(), p, err)
		}
	}
	open := []Point{{0, 0}, {50, 0}, {50, 30}}
	p, err := FitPolyline(open, false, 0, 0)
	if err != nil || len(p) != 2 || p[0].A != open[0] || p[1].A != open[1] || p[1].B != open[2] {
		t.Errorf("open: %v, %v", p, err)
	}
	for _, tt := range []struct {
		name   string
		ps     []Point
		closed bool
		tol    float64
	}{
		{"none", nil, false, 0}, {"one", open[:1], false, 0}, {"two closed", open[:2], true, 0},
		{"one place", []Point{{1, 1}, {1, 1}, {1, 1}}, true, 0}, {"NaN", []Point{{0, 0}, {math.NaN(), 1}}, false, 0},
		{"tolerance", open, false, -1},
	} {
		if _, err := FitPolyline(tt.ps, tt.closed, tt.tol, 0); err == nil {
			t.Errorf("%s: no error", tt.name)
		}
	}
}

func FuzzFitPolyline(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, true, 0.01)
	f.Add([]byte{0, 0, 1, 1, 2, 4, 3, 9, 4, 16, 5, 25, 6, 36}, false, 0.5)
	f.Fuzz(func(t *testing.T, b []byte, closed bool, tol float64) {
		var ps []Point
		for i := 0; i+1 < len(b); i += 2 {
			ps = append(ps, Pt(float64(int8(b[i])), float64(int8(b[i+1]))))
		}
		p, err := FitPolyline(ps, closed, tol, 0)
		if err != nil {
			return
		}
		for k, s := range p {
			if !s.A.IsFinite() || !s.B.IsFinite() || !s.Center.IsFinite() || k > 0 && p[k-1].B != s.A {
				t.Fatalf("segment %d of %v", k, p)
			}
		}
		if closed && !p.Closed() {
			t.Fatalf("open: %v", p)
		}
	})
}
