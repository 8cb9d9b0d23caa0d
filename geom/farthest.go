package geom

import "math"

// Farthest returns how far the curves of a lie from those of b at most, in mm:
// the directed Hausdorff distance max over p on a of min over q on b of |p − q|,
// with the points p and q where it is taken. Only the curves count, open or
// closed, not what they bound. The true value is d or at most FarSlack more,
// never less. Nothing is far from anything: with an empty a it is 0, with an
// empty b alone +Inf, and the points are zero.
//
// It is not symmetric: a short piece of b lies on b, but b goes on without it.
// How far two sets of curves are apart is the larger of both directions.
//
// Branch and bound over a: the distance to b changes along a curve by no more
// than one goes, and over a piece that stays in front of one segment of b it is
// known in closed form. O(n + m) to build the index of b, then O(log m) for each
// piece; a segment of a falls into a few pieces, and into about log(length ÷
// FarSlack) more where what is nearest changes beside the farthest place.
func Farthest(a, b Region) (d float64, p, q Point) { return IndexOf(b).Farthest(a) }

// Farthest returns how far curves lie from the boundary of the region at most, as
// the function Farthest does.
func (t *Index) Farthest(a Region) (d float64, p, q Point) {
	if a.Segs() == 0 {
		return 0, Point{}, Point{}
	}
	if t.empty() {
		return math.Inf(1), Point{}, Point{}
	}
	f := far{to: t, d: -1}
	// Every vertex first: the farther the first finds, the fewer pieces are cut.
	for _, loop := range a {
		for i := range loop {
			f.look(loop[i].A)
		}
		if n := len(loop); n > 0 {
			f.look(loop[n-1].B)
		}
	}
	for _, loop := range a {
		for _, s := range loop {
			f.seg(s)
		}
	}
	return f.d, f.p, f.q
}

// far is the farthest place found so far.
type far struct {
	to    *Index
	d     float64
	p, q  Point
	stack []farPiece
}

// farPiece is a piece of a curve, with the segments that its ends are nearest to.
type farPiece struct {
	Seg
	na, nb *Seg
}

// look measures one point and returns the segment nearest to it, and how near.
func (f *far) look(p Point) (*Seg, float64) {
	s, q, d2 := f.to.closestSeg(p, math.Inf(1))
	d := math.Sqrt(d2)
	if d > f.d {
		f.d, f.p, f.q = d, p, q
	}
	return s, d
}

// seg finds the farthest place of one segment, where it beats what is found.
func (f *far) seg(s Seg) {
	na, _ := f.look(s.A)
	nb, _ := f.look(s.B)
	if n := int(math.Ceil(math.Abs(float64(s.Sweep())) / (math.Pi / 2))); n > 1 {
		// Pieces of a quarter turn or less lie in the triangle of their tangents.
		at, rest := s.A, na
		for i := 1; i <= n; i++ {
			e := s
			e.A, e.B = at, s.At(float64(i)/float64(n))
			nearest := nb
			if i < n {
				nearest, _ = f.look(e.B)
			}
			f.stack = append(f.stack, farPiece{e, rest, nearest})
			at, rest = e.B, nearest
		}
	} else {
		f.stack = append(f.stack, farPiece{s, na, nb})
	}
	for len(f.stack) > 0 {
		n := len(f.stack) - 1
		e := f.stack[n]
		f.stack = f.stack[:n]
		if f.bound(&e.Seg, e.na) <= f.d+FarSlack || e.nb != e.na && f.bound(&e.Seg, e.nb) <= f.d+FarSlack {
			continue
		}
		u, v := e.Split(0.5)
		nm, d := f.look(u.B)
		if !(d+e.Length()/2 > f.d+FarSlack) || nm != e.na && nm != e.nb && f.bound(&e.Seg, nm) <= f.d+FarSlack {
			continue
		}
		f.stack = append(f.stack, farPiece{u, e.na, nm}, farPiece{v, nm, e.nb})
	}
}

// bound returns a length in mm that no point of the piece s is farther from the
// segment q than.
func (f *far) bound(s, q *Seg) float64 {
	hull := [3]Point{s.A, s.B, s.B}
	if s.Turn != 0 {
		hull[2] = s.tangentsMeet()
	}
	// The distance to a convex set is a convex function: over a triangle it is
	// greatest at a corner. A straight segment is convex, and so is an end point.
	most := func(to func(p Point) Point) float64 {
		var d float64
		for _, p := range hull {
			d = math.Max(d, to(p).Dist(p))
		}
		return d
	}
	if q.Turn == 0 {
		return most(q.lineClosest)
	}
	if q.faces(hull) {
		// In front of the arc the distance is | |p − c| − r |.
		lo, hi := s.rangeFrom(q.Center)
		return math.Max(math.Abs(lo-q.Radius), math.Abs(hi-q.Radius))
	}
	return math.Min(most(func(Point) Point { return q.A }), most(func(Point) Point { return q.B }))
}

// tangentsMeet returns where the tangents at the ends of an arc of less than half
// a turn meet: with the ends it makes a triangle that the arc lies in.
func (s *Seg) tangentsMeet() Point {
	m := s.A.Lerp(s.B, 0.5)
	v := m.Sub(s.Center)
	l := v.Dot(v)
	if l == 0 {
		return m
	}
	return s.Center.Add(v.Mul(s.Radius * s.Radius / l))
}

// faces reports whether every point of a triangle lies in the sector that the arc s
// spans about its centre.
func (s *Seg) faces(hull [3]Point) bool {
	var v [3]Vec
	for i, p := range hull {
		v[i] = p.Sub(s.Center)
		if !s.onSweep(v[i]) {
			return false
		}
	}
	// The corners lie in it; no side may pass over an end of the arc, on the way
	// round the centre that the side takes, which is less than half a turn.
	for i := range v {
		a, b := v[i], v[(i+1)%3]
		if a.Cross(b) < 0 {
			a, b = b, a
		}
		for _, e := range [2]Vec{s.A.Sub(s.Center), s.B.Sub(s.Center)} {
			if a.Cross(e) > 0 && e.Cross(b) > 0 {
				return false
			}
		}
	}
	return true
}

// rangeFrom returns the least and greatest distance of the segment from c.
func (s *Seg) rangeFrom(c Point) (lo, hi float64) {
	a, b := s.A.Dist(c), s.B.Dist(c)
	lo, hi = math.Min(a, b), math.Max(a, b)
	if s.Turn == 0 {
		return s.lineClosest(c).Dist(c), hi
	}
	w := s.Center.Sub(c)
	if d := w.Len(); d > 0 {
		if s.onSweep(w) {
			hi = math.Max(hi, d+s.Radius)
		}
		if s.onSweep(w.Neg()) {
			lo = math.Min(lo, math.Abs(d-s.Radius))
		}
	}
	return lo, hi
}
