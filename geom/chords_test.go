package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Points along random lines through random regions lie in a stretch if and only
// if the winding number says that they lie in the region.
func TestChordsAgreeWithContains(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 4))
	f := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	for n := range 400 {
		var c Calc
		r := c.Subtract(c.Union(
			Region{RoundedRect(Pt(f(-9, 9), f(-9, 9)), f(8, 40), f(8, 40), f(0, 12))},
			Region{Stadium(Pt(f(-20, 20), f(-20, 20)), Pt(f(-20, 20), f(-20, 20)), f(1, 9))}),
			Region{Circle(Pt(f(-9, 9), f(-9, 9)), f(1, 8))})
		r = Rotate(Angle(f(0, 6))).Region(r)
		if c.Err() != nil {
			t.Fatal(c.Err())
		}
		a, b := Pt(f(-30, 30), f(-30, 30)), Pt(f(-30, 30), f(-30, 30))
		if n%4 == 0 { // through vertices
			v := r[0].Vertices()
			a, b = v[rnd.IntN(len(v))], v[rnd.IntN(len(v))]
			if a.Dist(b) < 1 {
				continue
			}
		}
		cs, u, edge := r.Chords(a, b), b.Sub(a).Unit(), IndexOf(r)
		for range 60 {
			d := f(-60, 60)
			p := a.Add(u.Mul(d))
			if _, away := edge.Closest(p); away < 1e-6 {
				continue
			}
			in := false
			for _, iv := range cs {
				in = in || d >= iv[0] && d <= iv[1]
			}
			if in != r.Contains(p) {
				t.Fatalf("case %d: %v at %g on %v–%v: chord says %v", n, p, d, a, b, in)
			}
		}
	}
}

func TestChordsOfACircle(t *testing.T) {
	got := Region{Circle(Pt(3, 4), 5)}.Chords(Pt(-10, 1), Pt(20, 1))
	if len(got) != 1 || math.Abs(got[0][0]-9) > 1e-12 || math.Abs(got[0][1]-17) > 1e-12 { // 3 ∓ 4 by Pythagoras
		t.Errorf("%v", got)
	}
	if c := (Region{Circle(Pt(0, 0), 5)}).Chords(Pt(0, 0), Pt(0, 0)); c != nil {
		t.Errorf("a line of no direction: %v", c)
	}
	if c := (Region{Rect(Pt(0, 0), 4, 4)}).Chords(Pt(-9, 7), Pt(9, 7)); c != nil {
		t.Errorf("a line that misses: %v", c)
	}
}
