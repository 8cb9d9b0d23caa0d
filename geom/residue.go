package geom

import (
	"cmp"
	"math"
	"slices"
)

// Open returns the part of r that a disc of the given radius (mm) covers while
// it stays inside r: what a round cutter clears of a pocket. It lies in r, and
// opening again changes nothing. A width of exactly one diameter counts as
// passable (RollInside). A radius of 0 or less returns r. Cost of three offsets.
func (c *Calc) Open(r Region, radius float64) Region {
	return c.RollInside(r, radius, radius)
}

// Close returns r with everything filled that a disc of the given radius (mm)
// cannot reach from outside: the complement of the opening of the complement. A
// gap of exactly one diameter counts as passable and stays. A radius of 0 or
// less returns r. Cost of three offsets.
func (c *Calc) Close(r Region, radius float64) Region {
	return c.RollOutside(r, radius, radius)
}

// Nook is a piece of a region that a disc leaves uncleared.
//
//	Corner
//	   •─────────┐      Depth     from the corner to the disc
//	   │  Depth ╱│      Tangents  from the corner to where the disc
//	   │      .' │                touches either side
//	   │    .'
//	   └───´  disc
type Nook struct {
	Region Region
	Area   float64 // mm²
	Corner Point   // the place on the nook's edge farthest from what is cleared
	Depth  float64 // its distance from there in mm, +Inf when nothing is cleared
	// Tangents are the lengths in mm along the boundary before and after the
	// corner up to the disc, for a plain corner: one sharp vertex, one arc of the
	// disc. Otherwise 0.
	Tangents [2]float64
}

// Plain reports whether n is a plain corner with tangent lengths.
func (n Nook) Plain() bool { return n.Tangents[0] > 0 }

// Residue returns what a disc of the given radius (mm) leaves of r, deepest
// first: r less its opening, piece by piece. In a corner of angle θ between
// straight sides it leaves
//
//	depth r·(1/sin(θ/2) − 1), tangent r/tan(θ/2),
//	area r²·(cot(θ/2) − (π − θ)/2).
//
// Slivers thinner than Coincident are none. Cost of Open and a Subtract.
func (c *Calc) Residue(r Region, radius float64) []Nook {
	open := c.Open(r, radius)
	left := c.Subtract(r, open)
	if c.err != nil {
		return nil
	}
	cleared := IndexOf(open)
	var out []Nook
	for _, piece := range left.Components() {
		a := piece.Area()
		if a <= Coincident*piece.Perimeter() {
			continue
		}
		n := Nook{Region: piece, Area: a, Depth: math.Inf(1)}
		n.tangents(cleared, radius)
		n.deepest(cleared, radius)
		out = append(out, n)
	}
	slices.SortFunc(out, func(a, b Nook) int {
		return cmp.Or(-cmp.Compare(a.Depth, b.Depth), cmp.Compare(a.Corner.X, b.Corner.X), cmp.Compare(a.Corner.Y, b.Corner.Y))
	})
	return out
}

// deepest finds the corner: the best of the vertices and of a search along every
// segment that is not the disc's own. Straight sides of a plain corner need none:
// away from one arc of the disc the distance has no maximum on a line.
func (n *Nook) deepest(cleared *Index, radius float64) {
	if cleared.empty() {
		n.Corner = n.Region[0][0].A
		return
	}
	n.Depth = -1
	try := func(p Point) float64 {
		_, d := cleared.Closest(p)
		if d > n.Depth {
			n.Corner, n.Depth = p, d
		}
		return d
	}
	for _, p := range n.Region {
		for i := range p {
			s := &p[i]
			try(s.A)
			if (!n.Plain() || s.Turn != 0) && !s.ofDisc(cleared, radius) {
				s.highest(try)
			}
		}
	}
}

// highest calls f along s and closes in on its maximum: the best of 16 even
// steps, then golden sections about it, to 1e-9 of the length.
func (s *Seg) highest(f func(Point) float64) {
	const steps, golden = 16, 0.6180339887498949 // (√5 − 1)/2
	best, at := -1.0, 0.0
	for i := 1; i < steps; i++ {
		t := float64(i) / steps
		if d := f(s.At(t)); d > best {
			best, at = d, t
		}
	}
	lo, hi := at-1.0/steps, at+1.0/steps
	for hi-lo > 1e-9 {
		t, u := hi-golden*(hi-lo), lo+golden*(hi-lo)
		if f(s.At(t)) > f(s.At(u)) {
			hi = u
		} else {
			lo = t
		}
	}
}

// ofDisc reports whether a segment of a nook is an arc of the disc: of its
// radius and on the edge of what is cleared.
func (s *Seg) ofDisc(cleared *Index, radius float64) bool {
	if s.Turn >= 0 || math.Abs(s.Radius-radius) > 2*RollSlack {
		return false
	}
	_, d := cleared.Closest(s.At(0.5))
	return d <= 2*RollSlack
}

// tangents fills in the tangent lengths of a plain corner.
func (n *Nook) tangents(cleared *Index, radius float64) {
	if len(n.Region) != 1 {
		return
	}
	p := n.Region[0]
	at := -1
	for i := range p {
		if p[i].ofDisc(cleared, radius) {
			if at >= 0 {
				return
			}
			at = i
		}
	}
	if at < 0 {
		return
	}
	p = p.From(at + 1) // the sides, then the arc
	var sum [2]float64
	corners := 0
	for i := range p[:len(p)-1] {
		if i > 0 {
			u, v := p[i-1].Tangent(1), p[i].Tangent(0)
			if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > float64(smoothTurn) {
				corners++
			}
		}
		if corners > 1 {
			return
		}
		sum[corners] += p[i].Length()
	}
	if corners == 1 {
		n.Tangents = sum
	}
}
