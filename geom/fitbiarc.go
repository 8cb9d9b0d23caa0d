package geom

import "math"

// flattest is the radius in mm beyond which an arc is drawn as a line: over
// 100 mm the two differ by 1e-5 mm and 1e-6 rad.
const flattest = 1e8

// biarc returns the two tangent arcs whose tangent lengths have a ratio, 1 for equal
// ones, from a in
// direction u to b in direction v (Bolton, "Biarc curves", Computer-Aided Design
// 7, 1975), or one line if both directions are along the chord. It reports false
// when an arc would turn more than a right angle or have no length.
func biarc(a Point, u Vec, b Point, v Vec, ratio float64) (p, q Seg, one, ok bool) {
	w := b.Sub(a)
	l := w.Len()
	if !(l > Coincident) {
		return p, q, false, false
	}
	if math.Abs(u.Cross(w)) < 1e-10*l && math.Abs(v.Cross(w)) < 1e-10*l && u.Dot(w) > 0 && v.Dot(w) > 0 {
		return Line(a, b), q, true, true
	}
	// |w − d(ratio·u + v)| = (ratio + 1)d for the second tangent length d; the form
	// below stays exact when u and v are nearly alike.
	s := u.Mul(ratio).Add(v)
	k := ratio * (2 - 2*u.Dot(v))
	ws := w.Dot(s)
	d := l * l / (ws + math.Sqrt(ws*ws+k*l*l))
	if !(d > 0) || d > 2*l {
		return p, q, false, false
	}
	m := a.Add(u.Mul(ratio*d)).Lerp(b.Add(v.Mul(-d)), ratio/(ratio+1))
	p, q = tangentArc(a, u, m), tangentArc(b, v.Neg(), m).Reversed()
	for _, e := range [2]Seg{p, q} {
		c := e.A.Dist(e.B)
		if !(c > 2*Coincident) || e.Turn != 0 && c > math.Sqrt2*e.Radius {
			return p, q, false, false
		}
	}
	if u.Dot(p.B.Sub(p.A)) <= 0 || v.Dot(q.B.Sub(q.A)) <= 0 {
		return p, q, false, false
	}
	return p, q, false, true
}

// tangentArc returns the arc from a in direction u to b, a line if b lies ahead
// to within flattest.
func tangentArc(a Point, u Vec, b Point) Seg {
	v := b.Sub(a)
	n := u.Left()
	h := n.Dot(v)
	vv := v.Dot(v)
	if vv >= 2*flattest*math.Abs(h) {
		return Line(a, b)
	}
	r := vv / (2 * h)
	s := Seg{A: a, B: b, Center: a.Add(n.Mul(r)), Radius: math.Abs(r), Turn: 1}
	if r < 0 {
		s.Turn = -1
	}
	return s
}

// deviation returns how far p lies to the left of s, signed and measured along
// the radius, and the sine of the angle from s to the direction dir there. Exact
// near the ends even for very large radii.
func (s Seg) deviation(p Point, dir Vec) (e, slope float64) {
	if s.Turn == 0 {
		u := s.B.Sub(s.A).Unit()
		return u.Cross(p.Sub(s.A)), u.Cross(dir)
	}
	o := s.A.Sub(s.Center)
	w := p.Sub(s.A)
	v := o.Add(w)
	l := v.Len()
	// |o + w| − |o| without cancellation; the centre lies to the left of a
	// counter-clockwise arc.
	e = (w.Dot(w) + 2*w.Dot(o)) / (l + s.Radius)
	k := float64(s.Turn)
	return -k * e, k * v.Left().Cross(dir) / l
}
