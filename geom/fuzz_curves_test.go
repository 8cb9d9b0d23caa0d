package geom

import (
	"math"
	"testing"
)

// FuzzCurves fits splines, ellipses and Hobby's chains of whatever the bytes
// make: a fit is end to end, of finite numbers, and starts and ends where the
// curve does.
func FuzzCurves(f *testing.F) {
	f.Add([]byte("0123456789abcdefghijklmnop"))
	f.Add([]byte{0, 0, 100, 0, 100, 100, 0, 100})
	f.Fuzz(func(t *testing.T, data []byte) {
		var ps []Point
		for ; len(data) >= 2 && len(ps) < 12; data = data[2:] {
			ps = append(ps, Pt(float64(int8(data[0])), float64(int8(data[1]))))
		}
		if len(ps) < 4 {
			return
		}
		check := func(what string, p Path, err error, a, b Point) {
			if err != nil {
				return
			}
			for k, s := range p {
				if !s.A.IsFinite() || !s.B.IsFinite() || !s.Center.IsFinite() || k > 0 && p[k-1].B != s.A {
					t.Fatalf("%s: segment %d of %v", what, k, p)
				}
			}
			if p[0].A.Dist(a) > Weld || p[len(p)-1].B.Dist(b) > Weld {
				t.Fatalf("%s: from %v to %v, want %v to %v", what, p[0].A, p[len(p)-1].B, a, b)
			}
		}
		n := NURBS{Degree: 3, Points: ps}
		for i := 0; i < len(ps)+4; i++ { // clamped at both ends
			n.Knots = append(n.Knots, float64(min(max(i, 3), len(ps))-3))
		}
		p, err := FitCurve(n, 1e-2)
		check("spline", p, err, ps[0], ps[len(ps)-1])
		e := EllipticArc(ps[0], 1+math.Abs(ps[1].X), 1+math.Abs(ps[1].Y), Angle(ps[2].X/40), Angle(ps[2].Y/20), Angle(ps[3].X/21))
		p, err = FitCurve(e, 1e-2)
		check("ellipse", p, err, e.At(0), e.At(1))
		knots := make([]Knot, len(ps))
		for i := range ps {
			knots[i].At = ps[i]
		}
		if cs, err := Hobby(knots, false); err == nil {
			p, err = FitCubics(cs, 1e-2)
			check("Hobby", p, err, ps[0], ps[len(ps)-1])
		}
	})
}

// FuzzFillet rounds the corners of sound loops: the result is sound, and nowhere
// bends tighter than the radius unless the loop did.
func FuzzFillet(f *testing.F) {
	f.Add([]byte{0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0}, uint8(8))
	f.Fuzz(func(t *testing.T, data []byte, k uint8) {
		p := drawn(data)
		if len(p) < 3 || k == 0 || (Region{p}).Check() != nil {
			return
		}
		r := float64(k) / 16
		for i := range p {
			q, err := p.Fillet(i, r)
			if err != nil {
				continue
			}
			if err := q.Check(); err != nil || !q.Closed() {
				t.Fatalf("vertex %d of %v rounded by %g: %v", i, p, r, err)
			}
		}
		if q, err := p.FilletAll(r); err == nil && (q.Check() != nil || !q.Closed()) {
			t.Fatalf("%v rounded by %g: %v", p, r, q.Check())
		}
	})
}

// FuzzRoll checks the laws of closing and of rolling outside on sound loops.
func FuzzRoll(f *testing.F) {
	f.Add([]byte{0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0}, uint8(8), uint8(4))
	f.Fuzz(func(t *testing.T, data []byte, g, k uint8) {
		p := drawn(data)
		if len(p) < 2 || k == 0 || g == 0 {
			return
		}
		r := Region{p}
		if r.Check() != nil || r.Area() < 1e-3 {
			return
		}
		guide, cut := float64(g)/16, float64(k)/16
		var c Calc
		closed := c.Close(r, cut)
		in, out := c.RollInside(r, guide, cut), c.RollOutside(r, guide, cut)
		if c.Err() != nil {
			t.Fatal(c.Err())
		}
		slack := 2e-5 * (1 + r.Perimeter() + out.Perimeter())
		if a := c.Subtract(r, closed).Area(); a > slack {
			t.Errorf("%.3g mm² lost by closing", a)
		}
		for _, o := range []Region{closed, in, out} {
			if err := o.Check(); err != nil {
				t.Error(err)
			}
		}
		if guide >= cut {
			if a := c.Subtract(in, r).Area(); a > slack {
				t.Errorf("a cutter behind a larger guide cleared %.3g mm² outside", a)
			}
			if a := c.Subtract(r, out).Area(); a > slack {
				t.Errorf("a cutter behind a larger guide took %.3g mm² of what it runs round", a)
			}
		}
		if rad, _ := LargestClearing(r); math.IsNaN(rad) || rad < 0 {
			t.Errorf("largest clearing radius %g", rad)
		}
	})
}
