package geom

import "math"

// meet appends to out the points where the segments a and b meet, to within
// tol: the ends of either that lie on the other, which are also the ends of any
// shared length, and the crossings and tangent points between. Tangency is
// decided by the gap along the normal, never by the distance between points.
func meet(a, b Seg, tol float64, out []Point) []Point {
	for _, p := range [2]Point{a.A, a.B} {
		if b.Closest(p).Dist(p) <= tol {
			out = append(out, p)
		}
	}
	for _, p := range [2]Point{b.A, b.B} {
		if a.Closest(p).Dist(p) <= tol {
			out = append(out, p)
		}
	}
	var raw [2]Point
	n := carriers(a, b, tol, &raw)
	for _, p := range raw[:n] {
		if max(a.Radius, b.Radius) > flat {
			p = polish(polish(p, &a, &b), &a, &b)
		}
		if a.Closest(p).Dist(p) <= tol && b.Closest(p).Dist(p) <= tol {
			out = append(out, p)
		}
	}
	return out
}

// carriers finds where the whole lines or circles of a and b meet; tangents are
// decided by tol. It returns how many of out it set.
func carriers(a, b Seg, tol float64, out *[2]Point) int {
	switch {
	case a.Turn == 0 && b.Turn == 0:
		return lineLine(a, b, out)
	case a.Turn == 0:
		return lineCircle(a, b.Center, b.Radius, tol, out)
	case b.Turn == 0:
		return lineCircle(b, a.Center, a.Radius, tol, out)
	}
	return circleCircle(a.Center, a.Radius, b.Center, b.Radius, tol, out)
}

// flat is the radius, in mm, from which the closed forms lose digits that count:
// the height over the line of centres comes from a difference of squares, which
// at 1e3 mm is off by 1e-10 mm² and more beyond.
const flat = 1e3

// polish takes one of Newton's steps towards the crossing of a and b.
func polish(p Point, a, b *Seg) Point {
	na, fa := a.normalAt(p)
	nb, fb := b.normalAt(p)
	det := na.Cross(nb)
	if math.Abs(det) < 1e-7 {
		return p
	}
	return p.Add(Vec{fb*na.Y - fa*nb.Y, fa*nb.X - fb*na.X}.Mul(1 / det))
}

// normalAt returns the normal of the line or circle of s nearest to p, and how
// far along it p lies.
func (s *Seg) normalAt(p Point) (Vec, float64) {
	if s.Turn == 0 {
		n := s.B.Sub(s.A).Unit().Left()
		return n, n.Dot(p.Sub(s.A))
	}
	v := p.Sub(s.Center)
	l := v.Len()
	return v.Mul(1 / l), l - s.Radius
}

// lineLine finds where the lines through a and b cross; none when parallel.
func lineLine(a, b Seg, out *[2]Point) int {
	u, v := a.B.Sub(a.A), b.B.Sub(b.A)
	cr := u.Cross(v)
	if math.Abs(cr) <= 1e-14*u.Len()*v.Len() { // below the rounding of the product
		return 0
	}
	t := b.A.Sub(a.A).Cross(v) / cr
	out[0] = a.A.Add(u.Mul(t))
	return 1
}

// lineCircle finds where the line through a meets a circle.
func lineCircle(a Seg, c Point, r, tol float64, out *[2]Point) int {
	u := a.B.Sub(a.A).Unit()
	w := c.Sub(a.A)
	foot := a.A.Add(u.Mul(w.Dot(u)))
	h := math.Abs(u.Cross(w))
	if math.Abs(h-r) <= tol { // tangent: the middle of the two crossings, if any
		out[0] = foot
		if h < r {
			// Two crossings this shallow may still lie far apart along the curve.
			if l := math.Sqrt((r - h) * (r + h)); l > 2*tol {
				out[0], out[1] = foot.Add(u.Mul(l)), foot.Add(u.Mul(-l))
				return 2
			}
		}
		return 1
	}
	if h > r {
		return 0
	}
	l := math.Sqrt((r - h) * (r + h))
	out[0], out[1] = foot.Add(u.Mul(l)), foot.Add(u.Mul(-l))
	return 2
}

// circleCircle finds where two circles meet; none when they are one circle.
func circleCircle(c Point, r float64, d Point, s, tol float64, out *[2]Point) int {
	v := d.Sub(c)
	l := v.Len()
	if l+math.Abs(r-s) <= tol {
		return 0 // one circle, nowhere further apart: shared lengths are found by their ends
	}
	if l == 0 || l > r+s+tol || l < math.Abs(r-s)-tol {
		return 0
	}
	if r > s { // measured from the smaller circle, which loses fewer digits
		c, r, s, v = d, s, r, v.Neg()
	}
	u := v.Mul(1 / l)
	// a = (l² + r² − s²)/2l, written so that a large circle keeps digits.
	a := ((l-s)*(l+s) + r*r) / (2 * l)
	hh := (r - a) * (r + a)
	if hh <= 4*tol*tol {
		if a > r {
			a = r
		} else if a < -r {
			a = -r
		}
		out[0] = c.Add(u.Mul(a))
		return 1
	}
	h := u.Left().Mul(math.Sqrt(hh))
	m := c.Add(u.Mul(a))
	out[0], out[1] = m.Add(h), m.Add(h.Neg())
	return 2
}
