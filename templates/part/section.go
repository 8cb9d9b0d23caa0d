package part

import (
	"math"

	"routwright/geom"
)

// Section is the upright plane through A and B, looked at so that A lies left of
// B and the front is up. In it X counts from A towards B, mm, and Y upward from
// the finished front, so that Y is −z.
type Section struct{ A, B geom.Point }

// At returns the place in space of a point of the section.
func (c Section) At(p geom.Point) Point {
	q := c.A.Add(c.B.Sub(c.A).Unit().Mul(p.X))
	return Point{q.X, q.Y, -p.Y}
}

// Solid returns where the plane cuts the solid: a quadrangle for each stretch of
// the line in the plan, a triangle where top and floor meet. Exact.
func (c Section) Solid(s Solid) geom.Region {
	var out geom.Region
	u := c.B.Sub(c.A).Unit()
	for _, iv := range s.Plan.Chords(c.A, c.B) {
		p, q := c.A.Add(u.Mul(iv[0])), c.A.Add(u.Mul(iv[1]))
		t0, f0, t1, f1 := s.Top.At(p), s.Floor.At(p), s.Top.At(q), s.Floor.At(q)
		h0, h1 := f0-t0, f1-t1
		if h0 <= 0 && h1 <= 0 {
			continue
		}
		// Where one end lies upside down, the solid begins where the two meet.
		if h0 < 0 || h1 < 0 {
			k := h0 / (h0 - h1)
			x, z := iv[0]+k*(iv[1]-iv[0]), t0+k*(t1-t0)
			if h0 < 0 {
				iv[0], t0, f0 = x, z, z
			} else {
				iv[1], t1, f1 = x, z, z
			}
		}
		out = append(out, tidy(geom.Pt(iv[0], -f0), geom.Pt(iv[1], -f1), geom.Pt(iv[1], -t1), geom.Pt(iv[0], -t0))...)
	}
	return out
}

// tidy returns the polygon through the points without those that fall together,
// nothing when it has no area.
func tidy(ps ...geom.Point) geom.Region {
	var keep []geom.Point
	for i, p := range ps {
		if p.Dist(ps[(i+1)%len(ps)]) >= geom.Coincident {
			keep = append(keep, p)
		}
	}
	if len(keep) < 3 {
		return nil
	}
	return geom.Region{geom.Polygon(keep...)}
}

// along is how small the part of a bore's axis square to the plane may be before
// the axis counts as lying in it: beyond, the ellipse is longer than any body.
const along = 1e-3

// Bore returns where the plane cuts the bore: a circle or an ellipse, cut off by
// the bore's square ends, or a strip when the bore runs along the plane. Ellipses
// come as arcs within geom.CurveToArc. The error is that of the kernel.
func (c Section) Bore(b Bore) (geom.Region, error) {
	l := b.Length()
	if l == 0 || c.A == c.B {
		return nil, nil
	}
	d := c.B.Sub(c.A).Unit()
	n := d.Left()
	// The axis in the frame of the section: along X, Y and square to it.
	kx, ky, kn := d.Dot(b.To.Flat().Sub(b.From.Flat()))/l, -(b.To.Z-b.From.Z)/l, n.Dot(b.To.Flat().Sub(b.From.Flat()))/l
	w := b.From.Flat().Sub(c.A)
	from, off := geom.Pt(w.Dot(d), -b.From.Z), w.Dot(n)
	r := b.D / 2
	k := geom.Vec{X: kx, Y: ky}
	if math.Abs(kn) < along {
		if math.Abs(off) >= r {
			return nil, nil
		}
		half := math.Sqrt(r*r - off*off)
		u := k.Unit()
		e := u.Left().Mul(half)
		to := from.Add(u.Mul(l))
		return geom.Region{geom.Polygon(from.Add(e.Neg()), to.Add(e.Neg()), to.Add(e), from.Add(e))}, nil
	}
	// The axis meets the plane s from where it starts.
	s := -off / kn
	center := from.Add(k.Mul(s))
	if k.Len() < along { // square to the plane: a whole circle or nothing
		if s < 0 || s > l {
			return nil, nil
		}
		return geom.Region{geom.Circle(center, r)}, nil
	}
	long := k.Unit()
	// The ellipse reaches r·|k|/|kn| along the axis from where that meets the plane:
	// so far beyond the square ends nothing is left of it.
	if reach := r * k.Len() / math.Abs(kn); s+reach < 0 || s-reach > l {
		return nil, nil
	}
	loop, err := Ellipse(center, long.Mul(r/math.Abs(kn)), long.Left().Mul(r))
	if err != nil {
		return nil, err
	}
	// Between the square ends: 0 ≤ s + (p − center)·k ≤ l.
	lo, hi := -s/k.Len(), (l-s)/k.Len()
	wide := 2*r + 1
	band := geom.Polygon(
		center.Add(long.Mul(lo)).Add(long.Left().Mul(-wide)), center.Add(long.Mul(hi)).Add(long.Left().Mul(-wide)),
		center.Add(long.Mul(hi)).Add(long.Left().Mul(wide)), center.Add(long.Mul(lo)).Add(long.Left().Mul(wide)))
	var calc geom.Calc
	out := calc.Intersect(geom.Region{loop}, geom.Region{band})
	return out, calc.Err()
}

// Ellipse returns the closed path of an ellipse with the given half axes, v to the
// left of u: arcs within geom.CurveToArc of it.
func Ellipse(c geom.Point, u, v geom.Vec) (geom.Path, error) {
	var out geom.Path
	for k := range 4 {
		quarter := geom.Ellipse{Center: c, U: u, V: v, Start: geom.Angle(k) * math.Pi / 2, Sweep: math.Pi / 2}
		q, err := geom.FitCurve(quarter, geom.CurveToArc)
		if err != nil {
			return nil, err
		}
		if len(out) > 0 {
			q[0].A = out[len(out)-1].B
		}
		out = append(out, q...)
	}
	out[len(out)-1].B = out[0].A
	return out, nil
}
