package geom

import "math"

// half is a chain that bounds the result, travelled with the result on its left.
type half struct {
	chain    int32
	back     bool // travelled against its direction
	from, to int32
	next     int32 // the next half that starts at the same node + 1
	used     bool
}

// region reads off the region in which the winding numbers fulfil in.
func (a *arrangement) region(in func(winding) bool) (Region, error) {
	a.kept, a.dropped, a.made, a.folded = a.kept[:0], a.dropped[:0], 0, false
	a.starts = grown(a.starts, len(a.nodes.at))
	clear(a.starts)
	var out Region
	for i := range a.chains {
		c := &a.chains[i]
		if c.turns == (winding{}) {
			continue
		}
		l, r := in(c.left), in(c.right)
		if l == r {
			continue
		}
		h := half{chain: int32(i), back: r, from: c.from, to: c.to}
		if r {
			h.from, h.to = c.to, c.from
		}
		if c.from < 0 {
			out = a.appendLoop(out, []half{h})
			continue
		}
		h.next = a.starts[h.from]
		a.kept = append(a.kept, h)
		a.starts[h.from] = int32(len(a.kept))
	}
	if len(a.kept) > 0 {
		var err error
		if out, err = a.stitch(out); err != nil {
			return nil, err
		}
	}
	if a.strayed {
		return nil, errShortcut
	}
	return out, nil
}

// stitch walks the kept halves from node to node. At a node where several leave,
// the next clockwise from the way back follows the face on the left; a walk that
// returns to a node on its way has closed a loop, which is taken off it, so
// loops touch at nodes but pass through none twice.
func (a *arrangement) stitch(out Region) (Region, error) {
	place := make([]int32, len(a.nodes.at)) // node → place in walk where it was left + 1
	var walk []half
	for first := range a.kept {
		if a.kept[first].used {
			continue
		}
		walk = walk[:0]
		h := int32(first)
		for {
			k := &a.kept[h]
			k.used = true
			place[k.from] = int32(len(walk)) + 1
			walk = append(walk, *k)
			at := k.to
			if p := place[at]; p > 0 {
				out = a.appendLoop(out, walk[p-1:])
				for _, w := range walk[p-1:] {
					place[w.from] = 0
				}
				if walk = walk[:p-1]; len(walk) == 0 {
					break
				}
			}
			if h = a.choose(&walk[len(walk)-1], at); h < 0 {
				return nil, topologyError{a.nodes.at[at], unresolved} // a loop that does not close
			}
		}
	}
	return out, nil
}

// choose returns the half to leave node at by.
func (a *arrangement) choose(came *half, at int32) int32 {
	best, most := int32(-1), 0.0
	h := a.starts[at] - 1
	// The usual node has one way on.
	for ; h >= 0; h = a.kept[h].next - 1 {
		if a.kept[h].used {
			continue
		}
		if best < 0 {
			best, most = h, -1
			continue
		}
		if most < 0 {
			most = a.leaves(came, &a.kept[best])
		}
		if l := a.leaves(came, &a.kept[h]); l > most {
			best, most = h, l
		}
	}
	return best
}

// leaves returns how far h leaves counter-clockwise from the way back along
// came, in (0, 2π]. Both are looked at a common distance from the node, which
// tells tangent chains apart by their curvature.
func (a *arrangement) leaves(came, h *half) float64 {
	s, t := a.endOf(came, false), a.endOf(h, true)
	o := t.A
	d := 0.5 * min(s.A.Dist(s.B), t.A.Dist(t.B))
	back := s.Reversed().away(d).Sub(o)
	v := t.away(d).Sub(o)
	w := math.Atan2(back.Cross(v), back.Dot(v))
	if w <= 0 {
		w += 2 * math.Pi
	}
	return w
}

// away returns a point about d mm along s.
func (s Seg) away(d float64) Point {
	return s.onto(d / s.A.Dist(s.B))
}

// endOf returns the first or last segment of a half, in its direction.
func (a *arrangement) endOf(h *half, first bool) Seg {
	c := &a.chains[h.chain]
	k := int32(0)
	if first == h.back {
		k = c.n - 1
	}
	s, _ := a.piece(c, k)
	if h.back {
		return s.Reversed()
	}
	return *s
}

// appendLoop appends the path along halves, but for slivers: loops of a mean
// width below ten tolerances, which is Weld.
func (a *arrangement) appendLoop(out Region, loop []half) Region {
	n := int32(0)
	for _, h := range loop {
		n += a.chains[h.chain].n
	}
	var p Path
	last := int32(-1)
	var joined bool
	var sources []int32
	for _, h := range loop {
		c := &a.chains[h.chain]
		for k := int32(0); k < c.n; k++ {
			if !h.back && !a.flatten {
				lo, m := a.run(c, k, last)
				if m == n { // without clearing the memory first
					p = append(Path(nil), a.segs[lo:lo+m]...)
				} else if m > 0 {
					p = append(p.room(n), a.segs[lo:lo+m]...)
				}
				if m > 0 {
					last = a.src[lo+m-1]
					k += m - 1
					continue
				}
			}
			i := k
			if h.back {
				i = c.n - 1 - k
			}
			g, src := a.piece(c, i)
			s := *g
			if h.back {
				s = s.Reversed()
			}
			if src < 0 && s.A.Dist(s.B) > 2*a.tol {
				a.strayed = true
			}
			if len(p) > 0 && src == last && p[len(p)-1].extend(s) {
				joined = true
				continue
			}
			p = append(p.room(n), s)
			last = src
			if a.flatten {
				sources = append(sources, src)
			}
		}
	}
	if first := loop[0]; len(p) > 2 && a.source(first, true) == last && p[len(p)-1].extend(p[0]) {
		p[0] = p[len(p)-1]
		p = p[:len(p)-1]
	}
	if joined && len(p) == 1 { // a whole circle takes two
		s, t := p[0].Split(0.5)
		p = Path{s, t}
	}
	if len(p) < 2 {
		return out
	}
	if a.sliver(p) {
		a.dropped = append(a.dropped, p)
		return out
	}
	for i := range loop {
		if h := &loop[i]; h.from >= 0 && a.folds(h, &loop[(i+1)%len(loop)]) {
			a.folded = true
		}
	}
	if a.flatten {
		a.sources = append(a.sources, sources)
	}
	a.made += len(p)
	return append(out, p)
}

// room returns p, or an empty path with room for n segments for none.
func (p Path) room(n int32) Path {
	if p == nil {
		return make(Path, 0, n)
	}
	return p
}

// run returns the number of the kth segment of a chain and how many of its pieces
// from there on are whole segments that follow one another in memory, each of
// another source than the one before; last is the source before the first.
func (a *arrangement) run(c *chain, k, last int32) (lo, n int32) {
	i := c.at(k)
	most := min(c.n-k, c.hi-i)
	if lo = i; len(a.pieces) > 0 {
		lo = a.pieces[i].seg
		for n = 0; n < most && a.pieces[i+n].seg == lo+n && lo >= 0; n++ {
		}
		most = n
	}
	for n = 0; n < most && a.src[lo+n] != last && a.src[lo+n] >= 0; n++ {
		last = a.src[lo+n]
	}
	return lo, n
}

// marks appends to out the nodes on the result's edge and a point within each
// chain between them: the places where an error would show.
func (a *arrangement) marks(out []Point) []Point {
	for i := range a.kept {
		c := &a.chains[a.kept[i].chain]
		s, _ := a.piece(c, c.n/2)
		out = append(out, a.nodes.at[c.from], s.middle())
	}
	return out
}

// folds reports whether the half h goes back the way that g, before it, came.
func (a *arrangement) folds(g, h *half) bool {
	s, t := a.endOf(g, false).Reversed(), a.endOf(h, true)
	u, v := s.B.Sub(s.A), t.B.Sub(t.A)
	if u.Dot(v) <= 0 {
		return false
	}
	d := min(u.Len(), v.Len())
	return s.away(d).Dist(t.away(d)) <= 2*a.tol
}

// droppedAt reports whether p lies in a loop that was left out as a sliver.
func (a *arrangement) droppedAt(p Point) bool {
	for _, l := range a.dropped {
		if l.Winding(p) != 0 {
			return true
		}
	}
	return false
}

// source returns the source of the first piece of a half.
func (a *arrangement) source(h half, first bool) int32 {
	c := &a.chains[h.chain]
	k := int32(0)
	if first == h.back {
		k = c.n - 1
	}
	_, src := a.piece(c, k)
	return src
}

// extend lengthens s by t, the next piece of the same source, and reports
// whether it could: in the same direction, the whole of an arc short of a turn.
func (s *Seg) extend(t Seg) bool {
	if s.B != t.A || s.Turn != t.Turn {
		return false
	}
	if s.Turn == 0 {
		u, v := s.B.Sub(s.A), t.B.Sub(t.A)
		if u.Dot(v) <= 0 {
			return false
		}
		// A node may have drawn the joint off the line.
		if math.Abs(u.Cross(v)) > 1e-9*(u.Len()+v.Len()) {
			return false
		}
		s.B = t.B
		return true
	}
	if math.Abs(float64(s.Sweep()))+math.Abs(float64(t.Sweep())) > 2*math.Pi-0.1 {
		return false
	}
	if s.Center != t.Center {
		if s.Center.Dist(t.Center) > 1e-9 {
			return false
		}
	}
	s.B = t.B
	return true
}

// sliver reports whether p is one. The lengths of its sides are only measured
// where the cheap bound of them does not settle it.
func (a *arrangement) sliver(p Path) bool {
	area, reach := 0.0, 0.0
	o := p[0].A
	for i := range p {
		s := &p[i]
		v := s.B.Sub(s.A)
		area += s.A.Sub(o).Cross(v)
		reach += math.Abs(v.X) + math.Abs(v.Y)
		if s.Turn != 0 {
			w := float64(s.Sweep())
			area += s.Radius * s.Radius * (w - math.Sin(w))
		}
	}
	if area = math.Abs(area) / 2; area > 5*a.tol*reach {
		return false
	}
	perimeter := 0.0
	for i := range p {
		perimeter += p[i].A.Dist(p[i].B)
	}
	return area <= 5*a.tol*perimeter
}
