package geom

import (
	"errors"
	"math"
)

// FitCubics returns the lines and arcs that follow a chain of cubics within tol
// mm: tangent arcs where the chain is smooth, corners kept, closed if the chain
// closes. Each cubic starts where the one before it ends, to within Weld.
func FitCubics(cs []Cubic, tol float64) (Path, error) {
	var p Path
	for _, c := range cs {
		if c[0] == c[3] && c[1] == c[0] && c[2] == c[0] {
			continue
		}
		q, err := FitCurve(c, tol)
		if err != nil {
			return nil, err
		}
		if n := len(p); n > 0 && len(q) > 0 {
			if p[n-1].B.Dist(q[0].A) > Weld {
				return nil, errors.New("a curve does not start where the one before it ends")
			}
			q[0].A = p[n-1].B
		}
		p = append(p, q...)
	}
	if n := len(p); n > 0 && p[n-1].B.Dist(p[0].A) <= Weld {
		p[n-1].B = p[0].A
	}
	return p, nil
}

// FitCurve returns the lines and tangent arcs that follow a smooth curve within
// tol mm, from its first point to its last: the longest biarcs with equal tangent
// lengths (Bolton, "Biarc curves", Computer-Aided Design 7, 1975) that hold the
// tolerance, found by halving. The deviation is measured along the radius at 16
// places a biarc.
func FitCurve(c Curve, tol float64) (Path, error) {
	if !(tol > 0) {
		return nil, errors.New("the tolerance of a curve must be greater than 0")
	}
	var p Path
	for t := 0.0; t < 1; {
		u, q, ok := longest(c, t, tol)
		if !ok {
			return nil, errors.New("a curve cannot be followed: it has a cusp or a number that is not finite")
		}
		if n := len(p); n > 0 {
			q[0].A = p[n-1].B
		}
		p = append(p, q...)
		t = u
	}
	return p, nil
}

// longest returns the biarc from t that reaches furthest within tol.
func longest(c Curve, t, tol float64) (float64, Path, bool) {
	if q, ok := follow(c, t, 1, tol); ok {
		return 1, q, true
	}
	lo, hi := t, 1.0
	var best Path
	for i := 0; i < 40 && (best == nil || hi-lo > 0.01*(hi-t)); i++ {
		mid := (lo + hi) / 2
		if q, ok := follow(c, t, mid, tol); ok {
			lo, best = mid, q
		} else {
			hi = mid
		}
	}
	return lo, best, best != nil
}

// follow returns the biarc over t…u, and whether it stays within tol.
func follow(c Curve, t, u, tol float64) (Path, bool) {
	a, b := c.At(t), c.At(u)
	q, ok := biarc(a, c.Deriv(t).Unit(), b, c.Deriv(u).Unit())
	if !ok {
		return nil, false
	}
	const places = 16
	for i := 1; i < places; i++ {
		p := c.At(t + (u-t)*float64(i)/places)
		d := math.Inf(1)
		for _, s := range q {
			d = math.Min(d, s.Closest(p).Dist(p))
		}
		if !(d <= 0.9*tol) { // a tenth for what lies between the places
			return nil, false
		}
	}
	return q, true
}

// biarc returns one line, or two tangent arcs, from a in direction u to b in
// direction v.
func biarc(a Point, u Vec, b Point, v Vec) (Path, bool) {
	w := b.Sub(a)
	l := w.Len()
	if !(l > 0) || u == (Vec{}) || v == (Vec{}) {
		return nil, false
	}
	if math.Abs(u.Cross(w)) < 1e-10*l && math.Abs(v.Cross(w)) < 1e-10*l && u.Dot(w) > 0 && v.Dot(w) > 0 {
		return Path{Line(a, b)}, true
	}
	// |w − d(u + v)| = 2d for the tangent length d.
	s := u.Add(v)
	k := 4 - s.Dot(s)
	ws := w.Dot(s)
	var d float64
	if k < 1e-12 {
		d = l * l / (2 * ws)
	} else {
		d = (-ws + math.Sqrt(ws*ws+k*l*l)) / k
	}
	if !(d > 0) || d > 4*l {
		return nil, false
	}
	m := a.Add(u.Mul(d)).Lerp(b.Add(v.Mul(-d)), 0.5)
	p := tangentArc(a, u, m)
	q := tangentArc(b, v.Neg(), m).Reversed()
	for _, e := range [2]Seg{p, q} {
		if !(e.A.Dist(e.B) > Coincident) || math.Abs(float64(e.Sweep())) > math.Pi {
			return nil, false
		}
	}
	return Path{p, q}, true
}

// tangentArc returns the arc from a in direction u to b, a line if b lies ahead.
func tangentArc(a Point, u Vec, b Point) Seg {
	v := b.Sub(a)
	n := u.Left()
	h := n.Dot(v)
	if math.Abs(h) < 1e-11*math.Max(1, v.Len()) {
		return Line(a, b)
	}
	r := v.Dot(v) / (2 * h)
	c := a.Add(n.Mul(r))
	s := Seg{A: a, B: b, Center: c, Radius: math.Abs(r), Turn: 1}
	if r < 0 {
		s.Turn = -1
	}
	return s
}
