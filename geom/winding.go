package geom

import "math"

// manyChains is the number from which windings are carried from chain to chain.
const manyChains = 512

// wind finds the winding numbers on both sides of every chain by a ray from its
// longest piece. No chain depends on another, so one bad ray cannot spread.
func (a *arrangement) wind() {
	if len(a.chains) > manyChains {
		a.spread()
		return
	}
	for i := range a.chains {
		if a.chains[i].turns != (winding{}) {
			a.castChain(int32(i))
		}
	}
}

// castChain settles the windings of a chain by a ray.
func (a *arrangement) castChain(i int32) {
	c := &a.chains[i]
	c.right = a.rightOf(c)
	c.left = winding{c.right[0] + c.turns[0], c.right[1] + c.turns[1]}
}

// rightOf returns the winding number just right of a chain, by a ray from a
// place on its longest piece, the one of several where no other curve comes
// near.
func (a *arrangement) rightOf(c *chain) winding {
	k, long := int32(0), 0.0
	for i := int32(0); i < c.n; i++ {
		s, _ := a.piece(c, i)
		v := s.B.Sub(s.A)
		if l := v.Dot(v); l > long {
			k, long = i, l
		}
	}
	s, _ := a.piece(c, k)
	var best winding
	clear := -1.0
	for _, t := range [5]float64{0.5, 0.31, 0.73, 0.13, 0.91} { // no even division
		w, room := a.ray(c, c.at(k), s, t)
		if room > clear {
			best, clear = w, room
		}
		if clear > 20*Coincident { // more than a node may have moved a curve
			break
		}
	}
	return best
}

// ray casts a ray from the place t of the chord's way along s, which is piece i
// of c, along the axis that crosses it more squarely. It returns the winding
// number right of s and the distance along the axis, on either side, to the
// nearest other curve.
func (a *arrangement) ray(c *chain, i int32, s *Seg, t float64) (winding, float64) {
	p := s.onto(t)
	dir := s.B.Sub(s.A)
	if s.Turn != 0 {
		dir = p.Sub(s.Center).Left().Mul(float64(s.Turn))
	}
	r := ray{a: a, p: p, swap: math.Abs(dir.Y) < math.Abs(dir.X), clear: math.Inf(1)}
	if r.swap { // in mirrored coordinates a vertical ray is a horizontal one
		r.p = Point{p.Y, p.X}
	}
	r.cast(1, i)
	w := r.w
	if r.swap {
		w[0], w[1] = -w[0], -w[1]
	}
	// The ray counts what lies beyond p: the winding on the side it leaves from.
	// That is the right of a curve that goes up, or under a vertical ray of one
	// that goes left.
	right := dir.Y > 0
	if r.swap {
		right = dir.X < 0
	}
	if !right {
		w[0] -= c.turns[0]
		w[1] -= c.turns[1]
	}
	return w, r.clear
}

// onto returns the point of s, which turns less than a half turn, over the place
// t of its chord.
func (s *Seg) onto(t float64) Point {
	p := s.A.Lerp(s.B, t)
	if s.Turn == 0 {
		return p
	}
	m := s.A.Lerp(s.B, 0.5)
	ch := p.Sub(m)
	h2 := (s.Radius*s.Radius - ch.Dot(ch))
	foot := s.B.Sub(s.A)
	n := foot.Left().Mul(-float64(s.Turn) / foot.Len())
	up := s.Center.Sub(m).Dot(n)
	return p.Add(n.Mul(up + math.Sqrt(max(0, h2))))
}

// ray gathers what a horizontal ray meets.
type ray struct {
	a     *arrangement
	p     Point
	swap  bool
	w     winding
	clear float64
}

// cast walks the tree along the line through p. Boxes left of p count for the
// clearance only, and are passed over when too far off to matter.
func (r *ray) cast(n int, own int32) {
	t := &r.a.tree
	b := &t.boxes[n]
	lo, hi, far := b.y0, b.y1, b.x1
	if r.swap {
		lo, hi, far = b.x0, b.x1, b.y1
	}
	if !(lo <= r.p.Y && r.p.Y <= hi) || far < r.p.X-min(r.clear, 2e-3) {
		return
	}
	if n < t.leaves {
		r.cast(2*n, own)
		r.cast(2*n+1, own)
		return
	}
	first := int32((n - t.leaves) * leafSize)
	last := min(first+leafSize, int32(len(t.segs)))
	if len(r.a.pieces) == 0 {
		for i := first; i < last; i++ {
			r.seg(&t.segs[i], r.a.loopTurns(i), i == own)
		}
		return
	}
	for i := r.a.first[first]; i < r.a.first[last]; i++ {
		if q := &r.a.pieces[i]; r.a.chains[q.chain].turns != (winding{}) {
			s, _ := r.a.pieceSeg(i)
			r.seg(s, r.a.chains[q.chain].turns, i == own)
		}
	}
}

// loopTurns returns the turns of the whole curve that segment i is of.
func (a *arrangement) loopTurns(i int32) winding {
	if len(a.chains) == 1 {
		return a.chains[0].turns
	}
	lo, hi := 0, len(a.chains)
	for hi-lo > 1 {
		if m := (lo + hi) / 2; a.chains[m].lo <= i {
			lo = m
		} else {
			hi = m
		}
	}
	return a.chains[lo].turns
}

// seg counts a segment, which has at most one extreme in y: cut there, each half
// crosses the line at most once, and whether it does is settled by comparing
// coordinates only.
func (r *ray) seg(s *Seg, turns winding, own bool) {
	g := *s
	if r.swap {
		g.A.X, g.A.Y, g.B.X, g.B.Y = g.A.Y, g.A.X, g.B.Y, g.B.X
		g.Center.X, g.Center.Y, g.Turn = g.Center.Y, g.Center.X, -g.Turn
	}
	if g.Turn == 0 {
		if !own {
			r.half(&g, 0, g.A.Y, g.B.Y, turns)
		}
		return
	}
	right := func(p Point) bool { return p.X >= g.Center.X }
	side := func(right bool) float64 {
		if right {
			return 1
		}
		return -1
	}
	ra, rb := right(g.A), right(g.B)
	mine := own && (r.p.X >= g.Center.X) == ra
	if ra == rb {
		if !own {
			r.half(&g, side(ra), g.A.Y, g.B.Y, turns)
		}
		return
	}
	// Counter-clockwise from right to left passes the top.
	top := g.Center.Y + g.Radius
	if ra != (g.Turn > 0) {
		top = g.Center.Y - g.Radius
	}
	if !own || !mine {
		r.half(&g, side(ra), g.A.Y, top, turns)
	}
	if !own || mine {
		r.half(&g, side(rb), top, g.B.Y, turns)
	}
}

// half counts the part of s between two heights, on one side of its centre.
func (r *ray) half(s *Seg, side, from, to float64, turns winding) {
	y := r.p.Y
	up := from <= y && to > y
	if !up && !(to <= y && from > y) {
		return
	}
	x := 0.0
	if side == 0 {
		x = s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
	} else {
		dy := y - s.Center.Y
		x = s.Center.X + side*math.Sqrt(max(0, (s.Radius-dy)*(s.Radius+dy)))
	}
	d := x - r.p.X
	if d > 0 {
		sign := int16(1)
		if !up {
			sign = -1
		}
		r.w[0] += sign * turns[0]
		r.w[1] += sign * turns[1]
	} else {
		d = -d
	}
	if d < r.clear {
		r.clear = d
	}
}
