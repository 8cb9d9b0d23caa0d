package geom

import "math"

// wind finds the winding numbers on both sides of every edge: by a ray from one
// edge of each chain, carried along the chain through nodes where nothing else
// meets.
func (a *arrangement) wind() error {
	n := len(a.edges)
	a.tree = newTree(n, func(i int) bounds { return a.edges[i].seg.bounds() })
	done := make([]bool, n)
	for i := range a.edges {
		if done[i] {
			continue
		}
		chain := a.chain(int32(i), done)
		best, long := chain[0], 0.0
		for _, k := range chain {
			if l := a.edges[k].seg.A.Dist(a.edges[k].seg.B); l > long {
				best, long = k, l
			}
		}
		w := a.rayRight(best)
		// The edges of a chain may be stored in either direction.
		base := a.edges[best]
		for _, k := range chain {
			e := &a.edges[k]
			if k == best || a.sameWay(chain, best, k) {
				e.right = w
			} else {
				e.right = winding{w[0] + base.turns[0], w[1] + base.turns[1]}
			}
			e.left = winding{e.right[0] + e.turns[0], e.right[1] + e.turns[1]}
		}
	}
	return a.checkStars()
}

// chain collects the edges connected to i through nodes of two edges.
func (a *arrangement) chain(i int32, done []bool) []int32 {
	out := []int32{i}
	done[i] = true
	for _, start := range [2]int32{a.edges[i].v, a.edges[i].u} {
		at, k := start, i
		for len(a.star[at]) == 2 {
			next := a.star[at][0]
			if next == k {
				next = a.star[at][1]
			}
			if done[next] {
				break
			}
			done[next] = true
			out = append(out, next)
			k = next
			if a.edges[k].u == at {
				at = a.edges[k].v
			} else {
				at = a.edges[k].u
			}
		}
	}
	return out
}

// sameWay reports whether edge k of a chain has the turns of edge b: along a
// chain nothing joins or leaves, so turns are equal, or opposite when an edge is
// stored against the chain.
func (a *arrangement) sameWay(_ []int32, b, k int32) bool {
	return a.edges[k].turns == a.edges[b].turns
}

// rayRight returns the winding number just right of edge i, by a ray from a
// place on it across the other edges. The place is the one of three where no
// other edge comes near.
func (a *arrangement) rayRight(i int32) winding {
	e := &a.edges[i]
	var best winding
	clear := -1.0
	for _, t := range [3]float64{0.5, 0.31, 0.73} { // no even division of an edge
		p := e.seg.At(t)
		w, c := a.ray(i, p)
		if c > clear {
			best, clear = w, c
		}
		if clear > 1e-3 { // far more than any tolerance
			break
		}
	}
	return best
}

// ray casts a ray from p on edge i, along the axis that crosses the edge more
// squarely, and returns the winding number right of the edge and the distance
// along the ray to the nearest other crossing, on either side of p.
func (a *arrangement) ray(i int32, p Point) (winding, float64) {
	e := &a.edges[i]
	dir := e.seg.B.Sub(e.seg.A)
	upright := math.Abs(dir.Y) >= math.Abs(dir.X)
	q := bounds{p.X, p.Y, math.Inf(1), p.Y}
	back := bounds{math.Inf(-1), p.Y, p.X, p.Y}
	if !upright {
		q, back = bounds{p.X, p.Y, p.X, math.Inf(1)}, bounds{p.X, math.Inf(-1), p.X, p.Y}
	}
	var w winding
	clear := math.Inf(1)
	a.tree.query(q, func(k int) bool {
		f := &a.edges[k]
		if int32(k) == i {
			return true
		}
		sign, at, ok := f.seg.crosses(p, upright)
		if !ok {
			return true
		}
		d := at - p.X
		if !upright {
			d = at - p.Y
		}
		clear = math.Min(clear, math.Abs(d))
		if d > 0 {
			w[0] += sign * f.turns[0]
			w[1] += sign * f.turns[1]
		}
		return true
	})
	// Edges just behind count for the clearance only.
	a.tree.query(back.grow(0), func(k int) bool {
		if int32(k) == i {
			return true
		}
		if _, at, ok := a.edges[k].seg.crosses(p, upright); ok {
			d := p.X - at
			if !upright {
				d = p.Y - at
			}
			if d > 0 {
				clear = math.Min(clear, d)
			}
		}
		return clear > 1e-9
	})
	// The ray leaves on the right of an edge that goes up (or, along Y, of one
	// that goes left); on its left the winding is known instead.
	right := dir.Y > 0
	if !upright {
		right = dir.X < 0
	}
	if !right {
		w[0] -= e.turns[0]
		w[1] -= e.turns[1]
	}
	return w, clear
}

// crosses reports whether the axis-parallel line through p crosses s, a segment
// monotone in x and y: the crossing's coordinate along the line, and +1 when s
// passes with the ray's origin on its left.
func (s *Seg) crosses(p Point, upright bool) (sign int16, at float64, ok bool) {
	if upright { // a horizontal ray
		up := s.A.Y <= p.Y && s.B.Y > p.Y
		if !up && !(s.B.Y <= p.Y && s.A.Y > p.Y) {
			return 0, 0, false
		}
		sign = 1
		if !up {
			sign = -1
		}
		return sign, s.xAt(p.Y), true
	}
	left := s.B.X <= p.X && s.A.X > p.X
	if !left && !(s.A.X <= p.X && s.B.X > p.X) {
		return 0, 0, false
	}
	sign = 1
	if !left {
		sign = -1
	}
	return sign, s.yAt(p.X), true
}

// xAt returns the x at which the monotone segment s has the given y.
func (s *Seg) xAt(y float64) float64 {
	if s.Turn != 0 {
		dy := y - s.Center.Y
		dx := math.Sqrt(math.Max(0, (s.Radius-dy)*(s.Radius+dy)))
		if s.A.X+s.B.X < 2*s.Center.X {
			dx = -dx
		}
		lo, hi := math.Min(s.A.X, s.B.X), math.Max(s.A.X, s.B.X)
		return math.Min(hi, math.Max(lo, s.Center.X+dx))
	}
	return s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
}

// yAt returns the y at which the monotone segment s has the given x.
func (s *Seg) yAt(x float64) float64 {
	if s.Turn != 0 {
		dx := x - s.Center.X
		dy := math.Sqrt(math.Max(0, (s.Radius-dx)*(s.Radius+dx)))
		if s.A.Y+s.B.Y < 2*s.Center.Y {
			dy = -dy
		}
		lo, hi := math.Min(s.A.Y, s.B.Y), math.Max(s.A.Y, s.B.Y)
		return math.Min(hi, math.Max(lo, s.Center.Y+dy))
	}
	return s.A.Y + (x-s.A.X)/(s.B.X-s.A.X)*(s.B.Y-s.A.Y)
}
