package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Closed forms: a half disc, a circular segment r²/2 (θ − sin θ), a lens of two
// discs (Weisstein, "Circle-Circle Intersection", from memory), whole and none.
func TestDiscArea(t *testing.T) {
	const r = 7.0
	d := Disc{Pt(3, -2), r}
	segment := func(h float64) float64 { // beyond a chord at h from the centre
		a := 2 * math.Acos(h/r)
		return r * r / 2 * (a - math.Sin(a))
	}
	lens := func(l, r, s float64) float64 {
		return r*r*math.Acos((l*l+r*r-s*s)/(2*l*r)) + s*s*math.Acos((l*l+s*s-r*r)/(2*l*s)) -
			math.Sqrt((-l+r+s)*(l+r-s)*(l-r+s)*(l+r+s))/2
	}
	hole := Circle(d.Center, 2).Reversed()
	for _, tt := range []struct {
		name string
		r    Region
		want float64
	}{
		{"whole", Region{Rect(Pt(0, 0), 100, 100)}, math.Pi * r * r},
		{"none", Region{Rect(Pt(60, 0), 50, 50)}, 0},
		{"small square inside", Region{Rect(Pt(3, -1), 4, 3)}, 12},
		{"half", Region{Rect(Pt(3+50, -2), 100, 100)}, math.Pi * r * r / 2},
		{"segment", Region{Rect(Pt(3+5+50, -2), 100, 100)}, segment(5)},
		{"strip", Region{Rect(Pt(3, -2), 8, 100)}, math.Pi*r*r - 2*segment(4)},
		{"lens", Region{Circle(Pt(9, -2), 5)}, lens(6, r, 5)},
		{"ring", Region{Rect(Pt(0, 0), 100, 100), hole}, math.Pi * (r*r - 4)},
		{"its own rim", Region{Circle(d.Center, r)}, math.Pi * r * r},
		{"a hole along its rim", Region{Rect(Pt(0, 0), 100, 100), Circle(d.Center, r).Reversed()}, 0},
		{"nothing", nil, 0},
	} {
		if got := DiscArea(d, tt.r); math.Abs(got-tt.want) > 2e-5*r {
			t.Errorf("%s: %.9f, want %.9f", tt.name, got, tt.want)
		}
	}
	if got := DiscArea(Disc{Pt(0, 0), -1}, Region{Circle(Pt(0, 0), 5)}); got != 0 {
		t.Errorf("a disc without radius shares %g", got)
	}
}

// Random discs and regions against the booleans of the kernel.
func TestDiscAreaAgainstIntersect(t *testing.T) {
	const seed = 5
	rng := rand.New(rand.NewPCG(seed, 0))
	var c Calc
	for i := range 400 {
		r := Region{starOf(rng, Pt(0, 0), 40, 5+rng.IntN(30))}
		d := Disc{Pt(60*rng.Float64()-30, 60*rng.Float64()-30), 1 + 50*rng.Float64()}
		want := c.Intersect(Region{Circle(d.Center, d.Radius)}, r).Area()
		if c.Err() != nil {
			t.Fatalf("seed %d, case %d: %v", seed, i, c.Err())
		}
		if got := DiscArea(d, r); math.Abs(got-want) > 1e-4 {
			t.Errorf("seed %d, case %d: %.6f, the boolean says %.6f", seed, i, got, want)
		}
	}
}

func BenchmarkDiscArea(b *testing.B) {
	r := Region{RoundedRect(Pt(0, 0), 200, 100, 8), RoundedRect(Pt(0, 0), 80, 40, 6).Reversed()}
	for b.Loop() {
		DiscArea(Disc{Pt(40, 10), 75}, r)
	}
}
