package geom

import (
	"math"
	"sort"
)

// spoke is an edge as seen from a node, going out.
type spoke struct {
	edge        int32
	out         bool // the edge starts at the node
	angle       float64
	left, right winding
}

// spokes returns the edges at a node in counter-clockwise order. They are
// compared where they are a common distance away, the given share of the
// shortest: that tells tangent edges apart by their curvature.
func (a *arrangement) spokes(node int32, share float64, out []spoke) []spoke {
	near := math.Inf(1)
	for _, k := range a.star[node] {
		near = math.Min(near, a.edges[k].seg.A.Dist(a.edges[k].seg.B))
	}
	near *= share
	o := a.nodes.at[node]
	for _, k := range a.star[node] {
		e := &a.edges[k]
		sp := spoke{edge: k, out: e.u == node, left: e.left, right: e.right}
		t := math.Min(1, near/e.seg.Length())
		if !sp.out {
			t = 1 - t
			sp.left, sp.right = e.right, e.left
		}
		sp.angle = float64(e.seg.At(t).Sub(o).Angle())
		out = append(out, sp)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].angle < out[j].angle })
	return out
}

// checkStars verifies at every node where more than two edges meet that the
// windings agree going round: the left of each is the right of the next.
func (a *arrangement) checkStars() error {
	var buf []spoke
	for n, s := range a.star {
		if len(s) <= 2 {
			continue
		}
		ok := false
		for _, share := range [3]float64{0.5, 0.99, 0.1} {
			buf = a.spokes(int32(n), share, buf[:0])
			if ok = agree(buf); ok {
				break
			}
		}
		if !ok {
			return errTopology
		}
	}
	return nil
}

func agree(s []spoke) bool {
	for i := range s {
		if s[i].left != s[(i+1)%len(s)].right {
			return false
		}
	}
	return true
}

// region reads off the region in which the winding numbers fulfil in.
func (a *arrangement) region(in func(winding) bool) (Region, error) {
	// Half-edges with the region on their left, by their start.
	type half struct {
		seg      Seg
		src      int32
		from, to int32
		used     bool
	}
	var halves []half
	starts := make([][]int32, len(a.nodes.at))
	for i := range a.edges {
		e := &a.edges[i]
		l, r := in(e.left), in(e.right)
		if l == r {
			continue
		}
		h := half{seg: e.seg, src: e.src, from: e.u, to: e.v}
		if r {
			h.seg, h.from, h.to = e.seg.Reversed(), e.v, e.u
		}
		starts[h.from] = append(starts[h.from], int32(len(halves)))
		halves = append(halves, h)
	}
	var out Region
	var walk []int32             // half-edges of the loop being walked
	where := map[int32]int{}     // node → place in walk where it was left
	emit := func(loop []int32) { // a closed run of half-edges
		p := make(Path, 0, len(loop))
		src := make([]int32, 0, len(loop))
		for _, h := range loop {
			p, src = append(p, halves[h].seg), append(src, halves[h].src)
		}
		if p = p.joined(src); len(p) > 0 && math.Abs(p.Area()) > 2*a.tol*p.Length() {
			out = append(out, p)
		}
	}
	for first := range halves {
		if halves[first].used {
			continue
		}
		walk = walk[:0]
		clear(where)
		h, at := int32(first), halves[first].from
		for {
			where[at] = len(walk)
			halves[h].used = true
			walk = append(walk, h)
			at = halves[h].to
			if k, ok := where[at]; ok { // a loop closed: take it off the walk
				emit(walk[k:])
				for _, x := range walk[k:] {
					delete(where, halves[x].from)
				}
				if walk = walk[:k]; k == 0 {
					break
				}
			}
			back := halves[walk[len(walk)-1]].seg.Tangent(1).Neg()
			h = -1
			for _, c := range starts[at] {
				if !halves[c].used && (h < 0 || leaves(back, halves[c].seg) > leaves(back, halves[h].seg)) {
					h = c
				}
			}
			if h < 0 {
				return nil, errTopology // a loop that does not close
			}
		}
	}
	return out, nil
}

// leaves returns how far s leaves counter-clockwise from the way back, in
// (0, 2π]: the largest is next clockwise, which follows the face on the left.
func leaves(back Vec, s Seg) float64 {
	v := s.Tangent(0)
	a := math.Atan2(back.Cross(v), back.Dot(v))
	if a <= 0 {
		a += 2 * math.Pi
	}
	return a
}

// joined returns the closed path with neighbouring pieces of one source segment
// put together again, and with the start moved to a real vertex.
func (p Path) joined(src []int32) Path {
	n := len(p)
	same := func(i, j int) bool {
		s, t := p[i], p[j]
		if s.Turn != t.Turn || s.B == t.A && s.A == t.B {
			return false
		}
		if src[i] != src[j] {
			return false
		}
		return s.Turn == 0 || math.Abs(float64(s.Sweep()+t.Sweep())) <= math.Pi+1e-9
	}
	first := 0
	for first < n && same((first+n-1)%n, first) {
		first++
	}
	if first == n {
		first = 0
	}
	out := make(Path, 0, n)
	for k := 0; k < n; {
		i := (first + k) % n
		s := p[i]
		k++
		for k < n && same(i, (first+k)%n) {
			t := p[(first+k)%n]
			if s.Turn != 0 && math.Abs(float64(s.Sweep()+t.Sweep())) > math.Pi+1e-9 {
				break
			}
			s.B = t.B
			i = (first + k) % n
			k++
		}
		if s.Turn != 0 && math.Abs(float64(s.Sweep())) < 3 { // short of a half circle the ends settle the centre
			s = s.onEnds()
		}
		out = append(out, s)
	}
	return out
}
