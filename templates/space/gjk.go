package space

import (
	"routwright/templates/part"
)

// convex is a convex body known by its support: its point furthest along d.
type convex interface{ support(d part.Point) part.Point }

// gjkSlack is where the search for the distance of two convex bodies stops: the
// bounds from above and below are that close, mm.
const gjkSlack = 1e-6

// gjkSteps bounds the search. Polyhedra end after some ten steps; cylinders come
// nearer by a factor with each and need some thirty.
const gjkSteps = 200

// corner is a point of the difference of two bodies, and where it comes from.
type corner struct{ w, a, b part.Point }

// simplex is the hull of up to four corners.
type simplex struct {
	c [4]corner
	k [4]float64 // weights of the point nearest to the origin
	n int
}

// apart returns the distance of two convex bodies, as a bound from below and the
// distance of two points, one of each. Both are 0 when they share a point.
//
// Gilbert, Johnson, Keerthi: the point of the difference a − b nearest to the
// origin is sought on simplices of its corners; a support plane through the
// newest corner bounds the distance from below.
func apart(a, b convex) (lower, upper float64, pa, pb part.Point) {
	var s simplex
	dir := part.Point{X: 1}
	c := newCorner(a, b, dir)
	s.c[0], s.k[0], s.n = c, 1, 1
	v := c.w
	for range gjkSteps {
		d := length(v)
		if d < 1e-12 {
			break
		}
		c = newCorner(a, b, v)
		lower = max(lower, dot(v, c.w)/d)
		if d-lower <= gjkSlack || s.has(c.w) {
			break
		}
		next := s
		next.c[next.n], next.n = c, next.n+1
		w := next.nearest()
		if length(w) >= d { // no digits left to gain
			break
		}
		s, v = next, w
		if s.n == 4 {
			return 0, 0, s.on(corner.ofA), s.on(corner.ofA)
		}
	}
	pa, pb = s.on(corner.ofA), s.on(corner.ofB)
	return lower, pa.Dist(pb), pa, pb
}

func newCorner(a, b convex, v part.Point) corner {
	p, q := a.support(mul(v, -1)), b.support(v)
	return corner{sub(p, q), p, q}
}

func (c corner) ofA() part.Point { return c.a }
func (c corner) ofB() part.Point { return c.b }
func (c corner) of() part.Point  { return c.w }

// on returns the weighted mean of what f gives for the corners.
func (s *simplex) on(f func(corner) part.Point) part.Point {
	var p part.Point
	for i := range s.n {
		p = add(p, mul(f(s.c[i]), s.k[i]))
	}
	return p
}

func (s *simplex) has(w part.Point) bool {
	for i := range s.n {
		if s.c[i].w == w {
			return true
		}
	}
	return false
}

// nearest finds the point of the simplex nearest to the origin and drops the
// corners that do not carry it. Four are left only round the origin.
func (s *simplex) nearest() part.Point {
	switch s.n {
	case 2:
		*s = s.edge(0, 1)
	case 3:
		*s = s.triangle(0, 1, 2)
	case 4:
		*s = s.tetrahedron()
	}
	return s.on(corner.of)
}

// pick returns the simplex of the named corners with their weights.
func (s *simplex) pick(at []int, k ...float64) simplex {
	var o simplex
	for i, j := range at {
		if k[i] > 0 {
			o.c[o.n], o.k[o.n], o.n = s.c[j], k[i], o.n+1
		}
	}
	return o
}

func (s *simplex) edge(i, j int) simplex {
	a, ab := s.c[i].w, sub(s.c[j].w, s.c[i].w)
	t, l := -dot(a, ab), dot(ab, ab)
	switch {
	case t <= 0 || l == 0:
		return s.pick([]int{i}, 1)
	case t >= l:
		return s.pick([]int{j}, 1)
	}
	return s.pick([]int{i, j}, 1-t/l, t/l)
}

func (s *simplex) triangle(i, j, k int) simplex {
	a, b, c := s.c[i].w, s.c[j].w, s.c[k].w
	n := cross(sub(b, a), sub(c, a))
	if nn := dot(n, n); nn > 0 {
		// Weights of the foot of the origin, by areas.
		u := dot(cross(b, c), n) / nn
		v := dot(cross(c, a), n) / nn
		if w := 1 - u - v; u >= 0 && v >= 0 && w >= 0 {
			return s.pick([]int{i, j, k}, u, v, w)
		}
	}
	return nearer(nearer(s.edge(i, j), s.edge(j, k)), s.edge(k, i))
}

func (s *simplex) tetrahedron() simplex {
	a, b, c, d := s.c[0].w, s.c[1].w, s.c[2].w, s.c[3].w
	vol := det(sub(b, a), sub(c, a), sub(d, a))
	if vol != 0 {
		u := det(b, c, d) / vol // of a: the origin's tetrahedron over its face
		v := -det(a, c, d) / vol
		w := det(a, b, d) / vol
		if x := 1 - u - v - w; u > 0 && v > 0 && w > 0 && x > 0 {
			return s.pick([]int{0, 1, 2, 3}, u, v, w, x)
		}
	}
	return nearer(nearer(s.triangle(0, 1, 2), s.triangle(0, 1, 3)), nearer(s.triangle(0, 2, 3), s.triangle(1, 2, 3)))
}

func det(a, b, c part.Point) float64 { return dot(a, cross(b, c)) }

func nearer(s, t simplex) simplex {
	p, q := s.on(corner.of), t.on(corner.of)
	if dot(q, q) < dot(p, p) {
		return t
	}
	return s
}
