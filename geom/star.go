package geom

import (
	"cmp"
	"math"
	"slices"
)

// spoke is an end of a chain as seen from its node.
type spoke struct {
	chain int32
	out   bool // the chain starts here
	angle float64
}

// star lists the chain ends at each node.
type star struct {
	first  []int32 // node → its first spoke; one more than there are nodes
	spokes []spoke
}

// gatherStars fills the star of the arrangement with the chains that count.
func (a *arrangement) gatherStars() {
	n := len(a.nodes.at)
	s := &a.star
	s.first = grown(s.first, n+1)
	clear(s.first)
	live := func(f func(node int32, sp spoke)) {
		for i := range a.chains {
			if c := &a.chains[i]; c.from >= 0 && c.turns != (winding{}) {
				f(c.from, spoke{chain: int32(i), out: true})
				f(c.to, spoke{chain: int32(i)})
			}
		}
	}
	total := int32(0)
	live(func(node int32, _ spoke) { s.first[node]++; total++ })
	at := int32(0)
	for i := range s.first {
		s.first[i], at = at, at+s.first[i]
	}
	s.spokes = grown(s.spokes, int(total))
	next := slices.Clone(s.first)
	live(func(node int32, sp spoke) {
		s.spokes[next[node]] = sp
		next[node]++
	})
}

// spokesAt returns the spokes of a node in counter-clockwise order. They are
// compared where they are a common distance away, the given share of the
// shortest: that tells tangent chains apart by their curvature.
func (a *arrangement) spokesAt(node int32, share float64) []spoke {
	s := a.star.spokes[a.star.first[node]:a.star.first[node+1]]
	near := math.Inf(1)
	end := func(sp spoke) Seg {
		return a.endOf(&half{chain: sp.chain, back: !sp.out}, true)
	}
	for _, sp := range s {
		e := end(sp)
		near = min(near, e.A.Dist(e.B))
	}
	o := a.nodes.at[node]
	for i := range s {
		s[i].angle = float64(end(s[i]).away(share * near).Sub(o).Angle())
	}
	slices.SortFunc(s, func(x, y spoke) int { return cmp.Compare(x.angle, y.angle) })
	return s
}

// side returns the winding numbers left and right of a spoke, looking outward.
func (a *arrangement) side(s spoke) (left, right winding) {
	c := &a.chains[s.chain]
	if s.out {
		return c.left, c.right
	}
	return c.right, c.left
}

// spread carries windings from chain to chain round the nodes, one ray for each
// connected set, and casts rays again where they do not agree round a node. With
// very many crossings that is faster than a ray a chain.
func (a *arrangement) spread() {
	a.gatherStars()
	known := make([]bool, len(a.chains))
	var queue []int32
	for i := range a.chains {
		if known[i] || a.chains[i].turns == (winding{}) {
			continue
		}
		a.castChain(int32(i))
		known[i] = true
		queue = append(queue[:0], int32(i))
		for len(queue) > 0 {
			c := &a.chains[queue[len(queue)-1]]
			queue = queue[:len(queue)-1]
			if c.from < 0 {
				continue
			}
			queue = a.spreadAt(c.from, known, queue)
			queue = a.spreadAt(c.to, known, queue)
		}
	}
	for n := range a.nodes.at {
		s := a.star.spokes[a.star.first[n]:a.star.first[n+1]]
		for k := range s {
			left, _ := a.side(s[k])
			if _, right := a.side(s[(k+1)%len(s)]); left != right {
				for _, sp := range s {
					a.castChain(sp.chain)
				}
				break
			}
		}
	}
}

// spreadAt gives the unknown chains at a node their windings, from a known one.
func (a *arrangement) spreadAt(node int32, known []bool, queue []int32) []int32 {
	lo, hi := a.star.first[node], a.star.first[node+1]
	unknown := false
	for _, sp := range a.star.spokes[lo:hi] {
		unknown = unknown || !known[sp.chain]
	}
	if !unknown {
		return queue
	}
	s := a.spokesAt(node, 0.5)
	from := slices.IndexFunc(s, func(sp spoke) bool { return known[sp.chain] })
	for k := 1; k < len(s); k++ {
		prev, sp := s[(from+k-1)%len(s)], s[(from+k)%len(s)]
		if known[sp.chain] {
			continue
		}
		known[sp.chain] = true
		queue = append(queue, sp.chain)
		left, _ := a.side(prev)
		c := &a.chains[sp.chain]
		if sp.out {
			c.right = left
			c.left = winding{left[0] + c.turns[0], left[1] + c.turns[1]}
		} else {
			c.left = left
			c.right = winding{left[0] - c.turns[0], left[1] - c.turns[1]}
		}
	}
	return queue
}
