package geom

import (
	"fmt"
	"math"
)

// Fillet returns the closed path p with the corner at vertex i (the start of
// segment i) rounded by an arc of radius r that is tangent to both sides. A
// corner that is smooth already, and a radius of 0, leave it as it is. The error
// names the vertex and the largest radius that fits where a side is too short.
// The vertices before i keep their numbers.
func (p Path) Fillet(i int, r float64) (Path, error) {
	n := len(p)
	if n < 2 || !p.Closed() || i < 0 || i >= n {
		return nil, fmt.Errorf("vertex %d: no corner of a closed path of %d segments", i, n)
	}
	if !(r >= 0) || math.IsInf(r, 1) {
		return nil, fmt.Errorf("vertex %d: a radius of %g mm; allowed: 0 or more", i, r)
	}
	h := (i + n - 1) % n
	a, b := p[h], p[i]
	turn := a.Tangent(1).Cross(b.Tangent(0))
	if math.Abs(turn) < 1e-9 || r == 0 {
		return p, nil
	}
	side := math.Copysign(1, turn) // the arc's centre lies on the inside of the turn
	c, ok := filletCentre(a, b, r*side)
	if !ok {
		return nil, fmt.Errorf("vertex %d at (%.3f, %.3f): the sides are too short for a radius of %.4g mm; the largest that fits is %.4g mm", i, b.A.X, b.A.Y, r, largestFillet(a, b, r, side))
	}
	s := Seg{A: a.foot(c), B: b.foot(c), Center: c, Radius: r, Turn: int8(side)}
	q := append(Path{}, p...)
	q[h].B, q[i].A = s.A, s.B
	out := make(Path, 0, n+1)
	for k, e := range q {
		if k == i {
			out = append(out, s)
		}
		if e.A.Dist(e.B) > Coincident {
			out = append(out, e)
			continue
		}
		// A side used up whole: the neighbours meet.
		if len(out) > 0 {
			out[len(out)-1].B = e.B
		}
	}
	if n := len(out); n > 0 && out[n-1].B != out[0].A {
		out[0].A = out[n-1].B
	}
	return out, nil
}

// FilletAll returns p with every corner rounded by r.
func (p Path) FilletAll(r float64) (Path, error) {
	q := p
	for i := len(p) - 1; i >= 0; i-- {
		next, err := q.Fillet(i, r)
		if err != nil {
			return nil, err
		}
		q = next
	}
	return q, nil
}

// largestFillet returns the largest radius below r that fits between a and b, to
// 1e-4 of it rounded down, by halving.
func largestFillet(a, b Seg, r, side float64) float64 {
	lo, hi := 0.0, r
	for hi-lo > 1e-5*hi && hi > Coincident {
		m := (lo + hi) / 2
		if _, ok := filletCentre(a, b, m*side); ok {
			lo = m
		} else {
			hi = m
		}
	}
	if lo == 0 {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(lo))-3)
	return math.Floor(lo/unit) * unit
}

// filletCentre returns the point at signed distance r to the left of both
// segments, with its feet on them, nearest to their shared end.
func filletCentre(a, b Seg, r float64) (Point, bool) {
	ma, mb := a.moved(-r), b.moved(-r)
	if ma.collapsed || mb.collapsed {
		return Point{}, false
	}
	var raw [2]Point
	n := carriers(ma.seg, mb.seg, 0, &raw)
	best, found := Point{}, false
	for _, c := range raw[:n] {
		const slack = 1e-9
		fa, fb := a.foot(c), b.foot(c)
		if a.Closest(fa).Dist(fa) > slack || b.Closest(fb).Dist(fb) > slack {
			continue
		}
		if !found || c.Dist(b.A) < best.Dist(b.A) {
			best, found = c, true
		}
	}
	return best, found
}

// foot returns the foot of the perpendicular from p on the line or circle of s.
func (s Seg) foot(p Point) Point {
	if s.Turn == 0 {
		u := s.B.Sub(s.A).Unit()
		return s.A.Add(u.Mul(p.Sub(s.A).Dot(u)))
	}
	return s.Center.Add(p.Sub(s.Center).Unit().Mul(s.Radius))
}
