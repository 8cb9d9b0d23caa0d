package geom

import (
	"math"
	"testing"
)

// drawn makes a closed path from bytes: two for a place on a grid of a quarter
// millimetre, one for a bulge in 64ths (0: straight). Degenerate on purpose:
// exact coordinates make parallels, tangencies and equal radii likely.
func drawn(data []byte) Path {
	var ps []Point
	var bulges []float64
	for len(data) >= 3 && len(ps) < 24 {
		ps = append(ps, Pt(float64(int8(data[0]))/4, float64(int8(data[1]))/4))
		b := 0.0
		if data[2]&1 != 0 {
			b = float64(int8(data[2])) / 64
		}
		bulges = append(bulges, b)
		data = data[3:]
	}
	var p Path
	for i := range ps {
		a, b := ps[i], ps[(i+1)%len(ps)]
		if a.Dist(b) < 0.1 {
			return nil
		}
		p = append(p, ArcBulge(a, b, bulges[i]))
	}
	if p.Area() < 0 {
		p = p.Reversed()
	}
	return p
}

// FuzzMeasures feeds arbitrary loops, sound or not, to everything that measures:
// nothing may panic or hang, and what must agree agrees.
func FuzzMeasures(f *testing.F) {
	f.Add([]byte{0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0})
	f.Add([]byte{0, 0, 0, 40, 0, 65, 40, 40, 0, 0, 40, 3})
	f.Add([]byte{200, 200, 0, 40, 200, 1, 40, 40, 255, 200, 40, 129, 10, 10, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		p := drawn(data)
		if len(p) < 2 {
			return
		}
		r := Region{p}
		m := r.Moments()
		if math.Abs(m.Area-r.Area()) > 1e-6 {
			t.Errorf("area %g and %g", m.Area, r.Area())
		}
		e := EnclosingCircle(p)
		for _, q := range p.Flatten(1e-3) {
			if q.Dist(e.Center) > e.Radius+1e-9 {
				t.Errorf("%v lies outside %v", q, e)
			}
		}
		in := InscribedCircle(r)
		if in.Radius > e.Radius+1e-9 {
			t.Errorf("inscribed %v, enclosing %v", in, e)
		}
		w, a, b := LeastWall(r)
		if !math.IsInf(w, 1) && math.Abs(a.Dist(b)-w) > 1e-9 {
			t.Errorf("wall of %g between %v and %v", w, a, b)
		}
		TightestRadius(r)
		half := len(data) / 6 * 3
		q := drawn(data[half:])
		if len(q) < 2 {
			return
		}
		d, pa, pb := Distance(r, Region{q})
		d2, _, _ := Distance(Region{q}, r)
		if math.Abs(d-d2) > 1e-9 || math.Abs(pa.Dist(pb)-d) > 1e-9 {
			t.Errorf("distance %g, exchanged %g, witnesses %g apart", d, d2, pa.Dist(pb))
		}
		if n := len(ClosePairs([]Region{r, {q}}, d)); n != 1 {
			t.Errorf("%d pairs within their own distance %g", n, d)
		}
	})
}

// FuzzReach checks the laws of opening on sound loops, and Cover's promises.
func FuzzReach(f *testing.F) {
	f.Add([]byte{0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0}, uint8(8))
	f.Add([]byte{216, 216, 0, 40, 216, 1, 40, 40, 0, 216, 40, 33}, uint8(20))
	f.Fuzz(func(t *testing.T, data []byte, k uint8) {
		p := drawn(data)
		if len(p) < 2 || k == 0 {
			return
		}
		r := Region{p}
		if r.Check() != nil || r.Area() < 1e-3 {
			return
		}
		radius := float64(k) / 16
		var c Calc
		o := c.Open(r, radius)
		nooks := c.Residue(r, radius)
		if c.Err() != nil {
			t.Fatal(c.Err())
		}
		slack := 1e-5 * (1 + r.Perimeter())
		var sum float64
		for _, n := range nooks {
			sum += n.Area
		}
		if math.Abs(sum-(r.Area()-o.Area())) > slack {
			t.Errorf("nooks of %.9g mm², region %.9g, opened %.9g", sum, r.Area(), o.Area())
		}
		if a := c.Subtract(o, r).Area(); a > slack {
			t.Errorf("%.3g mm² of the opening lie outside", a)
		}
		// Shrinking by the radius leaves something exactly if the widest circle
		// is wider.
		if in := InscribedCircle(r); math.Abs(in.Radius-radius) > 1e-4 && (in.Radius > radius) == o.Empty() {
			t.Errorf("widest circle %.9g, opened by %.9g: empty %v", in.Radius, radius, o.Empty())
		}
		discs, removed := Cover(r, CoverRules{Diameters: []float64{2 * radius, radius}, Share: 0.7})
		checkCover(t, "fuzz", r, []float64{2 * radius, radius}, 0, discs, removed)
		if removed > 1+1e-6 {
			t.Errorf("removed %g", removed)
		}
	})
}
