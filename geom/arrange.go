package geom

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// An arrangement is what a set of closed curves makes of the plane: nodes where
// they meet, chains of segments between, and for each chain the winding numbers
// on its left and right. Booleans and offsets are both read off one. Curves
// that meet nothing stay whole, one chain without nodes.
//
// Each curve belongs to one of two sets; windings are counted for each set. The
// memory is kept for the next use.
type arrangement struct {
	tol   float64
	segs  []Seg   // the curves, end to end; none turns more than arcLimit
	src   []int32 // segment → number of the segment given
	heads []bool  // segment → it starts a curve
	loops []loop
	tree  curveTree

	nodes   nodeSet
	vertex  []int32 // segment → node at its start + 1
	cuts    []cut
	pieces  []piece
	cutOff  []cutOff // what cutting made of segments
	first   []int32  // segment → its first piece; nil when pieces are segments
	chains  []chain
	star    star
	kept    []half
	dropped Region  // slivers left out of the result
	made    int     // segments put into it
	starts  []int32 // node → first kept half that starts there + 1
	given   int32

	spareSegs []Seg // memory that segs and src take turns with
	spareSrc  []int32

	flatten bool          // take arcs for chords
	arcs    map[int32]Seg // the arcs so taken, by source
	sources [][]int32     // of the segments of the result, when flattened

	strayed bool // a segment of negative src, which may not, bounds the result
	folded  bool // the result's edge goes back along itself
}

// loop is a run of segments that close on themselves, and its set.
type loop struct {
	lo, hi            int32
	pieces, piecesEnd int32
	set               uint8
}

// cut is a node inside a segment, at t of its chord.
type cut struct {
	seg, node int32
	t         float64
}

// piece is a segment between two places; u and v are nodes or −1. Most are
// segments that no other meets: those are not copied.
type piece struct {
	seg   int32 // a segment; one less than −n for what was cut off as number n
	u, v  int32
	chain int32
}

// cutOff is a part of a segment, or a segment with an end drawn to a node.
type cutOff struct {
	seg Seg
	src int32
}

// winding counts turns round a point, for each set of curves.
type winding [2]int16

// chain is a run of n pieces from piece lo on, wrapping at hi to base: from a
// node to a node with none between, or a whole curve without any (−1). Curves
// that share it are counted in turns: left = right + turns.
type chain struct {
	lo, n, base, hi int32
	from, to        int32
	turns           winding
	right, left     winding
	merged          bool // with another along the same curve
}

// errShortcut asks for the offset to be made without short cuts.
var errShortcut = errors.New("a short cut of the offset curve lies on its result")

// topologyError says where an arrangement does not hold together, or its result
// does not pass the certificate.
type topologyError struct {
	at   Point
	what string
}

func (e topologyError) Error() string { return e.what }

// unresolved is what is wrong when the curves do not make loops.
const unresolved = "the curves meet in a way that could not be resolved"

// arcLimit is the most that an arc turns within an arrangement: at most one
// extreme in x and one in y lie on it, and the chord orders its points.
const arcLimit = 100 * Degree

func (a *arrangement) reset(tol float64) {
	a.tol, a.given, a.strayed = tol, 0, false
	a.flatten, a.arcs, a.sources = false, nil, nil
	a.segs, a.src, a.heads = a.segs[:0], a.src[:0], a.heads[:0]
	a.loops, a.cuts, a.chains = a.loops[:0], a.cuts[:0], a.chains[:0]
	a.pieces, a.cutOff, a.first = a.pieces[:0], a.cutOff[:0], a.first[:0]
}

// open starts a curve, close ends it.
func (a *arrangement) open(set uint8) {
	a.loops = append(a.loops, loop{lo: int32(len(a.segs)), set: set})
}

// addPath appends a closed path as a curve.
func (a *arrangement) addPath(set uint8, p Path) {
	a.open(set)
	lo := len(a.segs)
	a.segs = slices.Grow(a.segs, len(p))
	a.src = slices.Grow(a.src, len(p))
	a.heads = slices.Grow(a.heads, len(p))
	for i := range p {
		// Lines longer than nothing that start where the last one ended: most.
		s := &p[i]
		n := len(a.segs)
		if s.Turn != 0 || n == lo || a.segs[n-1].B != s.A || a.dot(s) {
			a.add(*s)
			continue
		}
		a.given++
		a.segs = append(a.segs, *s)
		a.src = append(a.src, a.given)
		a.heads = append(a.heads, false)
	}
	a.close()
}

// dot reports whether s is too short for a segment.
func (a *arrangement) dot(s *Seg) bool {
	return math.Abs(s.B.X-s.A.X) <= a.tol && math.Abs(s.B.Y-s.A.Y) <= a.tol
}

// add appends a segment to the open curve. Arcs are split to arcLimit, and what
// is shorter than the tolerance is drawn into its neighbour.
func (a *arrangement) add(s Seg) {
	a.given++
	if s.Turn == 0 {
		a.push(s)
		return
	}
	if a.flatten {
		a.addChords(s)
		return
	}
	u, v := s.A.Sub(s.Center), s.B.Sub(s.Center)
	if u.Cross(v)*float64(s.Turn) > 0 && u.Dot(v) > -0.17*s.Radius*s.Radius { // within 99.8°
		a.push(s)
		return
	}
	n := math.Ceil(math.Abs(float64(s.Sweep()))/float64(arcLimit) - 1e-9)
	whole := s
	for k := 1.0; k <= n; k++ {
		if s.B = whole.At(k / n); s.A != s.B {
			a.push(s)
		}
		s.A = s.B
	}
}

func (a *arrangement) push(s Seg) {
	l := &a.loops[len(a.loops)-1]
	n := int32(len(a.segs))
	if n > l.lo && a.segs[n-1].B != s.A {
		s.A = a.segs[n-1].B
		s = s.onEnds()
	}
	if a.dot(&s) {
		return
	}
	a.segs = append(a.segs, s)
	a.src = append(a.src, a.given)
	a.heads = append(a.heads, n == l.lo)
}

func (a *arrangement) close() {
	k := len(a.loops) - 1
	l := &a.loops[k]
	n := int32(len(a.segs))
	if n > l.lo {
		if end, start := &a.segs[n-1], a.segs[l.lo].A; end.B != start {
			end.B = start
			*end = end.onEnds()
		}
	}
	if l.hi = n; n-l.lo < 2 {
		a.segs, a.src, a.heads = a.segs[:l.lo], a.src[:l.lo], a.heads[:l.lo]
		a.loops = a.loops[:k]
	}
}

// solve finds the nodes, the chains and their windings. O(n log n) for n
// segments with O(n) crossings.
//
// Pieces are drawn to their nodes, which may bring them across others. Where
// nodes were made one, or when asked for several rounds, the pieces are searched
// for meetings again, until there are none that are new.
func (a *arrangement) solve(rounds int) {
	for k := 0; ; k++ {
		a.tree.build(a.segs, a.heads, a.tol)
		a.findNodes()
		moved := false
		for n := 0; a.cutPieces() && n < 8; n++ { // each time fewer nodes
			moved = true
		}
		if moved {
			rounds = max(rounds, 3)
		}
		if k >= rounds || len(a.cuts) == 0 && !moved {
			break
		}
		a.renode()
	}
	a.mergeChains()
	a.wind()
}

// renode takes the pieces for segments.
func (a *arrangement) renode() {
	segs, src := a.spareSegs[:0], a.spareSrc[:0]
	a.heads = a.heads[:0]
	loops := a.loops
	a.loops = a.loops[:0]
	for _, l := range loops {
		lo := int32(len(segs))
		for i := l.pieces; i < l.piecesEnd; i++ {
			s, from := a.pieceSeg(i)
			if p := &a.pieces[i]; p.u >= 0 && p.u == p.v || s.A == s.B {
				continue
			}
			a.heads = append(a.heads, int32(len(segs)) == lo)
			segs, src = append(segs, *s), append(src, from)
		}
		if l.lo, l.hi = lo, int32(len(segs)); l.hi > lo {
			a.loops = append(a.loops, l)
		}
	}
	a.spareSegs, a.spareSrc = a.segs, a.src
	a.segs, a.src = segs, src
}

// findNodes finds where the segments meet.
func (a *arrangement) findNodes() {
	a.nodes.reset(a.tol)
	a.cuts = a.cuts[:0]
	a.vertex = grown(a.vertex, len(a.segs))
	clear(a.vertex)
	var room [16]Point
	buf := room[:0]
	a.tree.meetings(func(i, j int) {
		buf = meet(a.segs[i], a.segs[j], a.tol, buf[:0])
		for _, p := range buf {
			a.node(i, j, p)
		}
	})
}

// next returns the segment after i on its curve.
func (a *arrangement) next(i int) int {
	if i+1 < len(a.segs) && !a.heads[i+1] {
		return i + 1
	}
	k, _ := slices.BinarySearchFunc(a.loops, int32(i), func(l loop, i int32) int { return cmp.Compare(l.hi, i+1) })
	return int(a.loops[k].lo)
}

// node records that segments i and j meet at p.
func (a *arrangement) node(i, j int, p Point) {
	u, v := a.vertexAt(i, p), a.vertexAt(j, p)
	switch {
	case u >= 0 && v >= 0:
		a.nodes.merge(a.vertexNode(u), a.vertexNode(v))
	case u >= 0:
		a.cut(j, a.vertexNode(u), a.segs[u].A)
	case v >= 0:
		a.cut(i, a.vertexNode(v), a.segs[v].A)
	default:
		k := a.nodes.id(p)
		a.cut(i, k, p)
		a.cut(j, k, p)
	}
}

// vertexAt returns the segment that starts at p, if i or the one after it does.
func (a *arrangement) vertexAt(i int, p Point) int {
	s := &a.segs[i]
	da, db := s.A.Sub(p), s.B.Sub(p)
	if da.Dot(da) <= a.tol*a.tol {
		return i
	}
	if db.Dot(db) <= a.tol*a.tol {
		return a.next(i)
	}
	return -1
}

func (a *arrangement) vertexNode(i int) int32 {
	if a.vertex[i] == 0 {
		a.vertex[i] = a.nodes.id(a.segs[i].A) + 1
	}
	return a.vertex[i] - 1
}

func (a *arrangement) cut(i int, node int32, p Point) {
	s := &a.segs[i]
	ch := s.B.Sub(s.A)
	a.cuts = append(a.cuts, cut{int32(i), node, p.Sub(s.A).Dot(ch) / ch.Dot(ch)})
}

// shortest is the number of tolerances below which a piece between two nodes is
// no piece but one node: nodes that lie this close were found from different
// curves, and their order along a third means nothing.
const shortest = 3

// cutPieces cuts the segments at the nodes and gathers them into chains. It
// reports whether it had to make one node of two, and is to be done again.
func (a *arrangement) cutPieces() (again bool) {
	a.chains, a.pieces, a.cutOff = a.chains[:0], a.pieces[:0], a.cutOff[:0]
	if len(a.nodes.at) == 0 {
		for _, l := range a.loops {
			c := chain{lo: l.lo, n: l.hi - l.lo, base: l.lo, hi: l.hi, from: -1, to: -1}
			c.turns[l.set] = 1
			a.chains = append(a.chains, c)
		}
		return false
	}
	slices.SortFunc(a.cuts, func(x, y cut) int {
		if x.seg != y.seg {
			return int(x.seg - y.seg)
		}
		return cmp.Compare(x.t, y.t)
	})
	a.pieces = slices.Grow(a.pieces, len(a.segs)+len(a.cuts))
	a.first = grown(a.first, len(a.segs)+1)
	k := 0
	for n, l := range a.loops {
		base := int32(len(a.pieces))
		for i := l.lo; i < l.hi; i++ {
			a.first[i] = int32(len(a.pieces))
			j := i + 1
			if j == l.hi {
				j = l.lo
			}
			k = a.cutSeg(i, j, k)
		}
		for i := base; i < int32(len(a.pieces)); i++ {
			p := &a.pieces[i]
			if p.u < 0 || p.v < 0 || p.u == p.v {
				continue
			}
			if s, _ := a.pieceSeg(i); s.A.Dist(s.B) <= shortest*a.tol {
				a.nodes.merge(p.u, p.v)
				again = true
			}
		}
		a.loops[n].pieces, a.loops[n].piecesEnd = base, int32(len(a.pieces))
		a.gather(base, l.set)
	}
	a.first[len(a.segs)] = int32(len(a.pieces))
	return again
}

// cutSeg appends the pieces of segment i, whose follower is j; its cuts begin at k.
func (a *arrangement) cutSeg(i, j int32, k int) int {
	u, end := a.nodeOf(i), a.nodeOf(j)
	if u < 0 && end < 0 && (k == len(a.cuts) || a.cuts[k].seg != i) {
		a.pieces = append(a.pieces, piece{seg: i, u: -1, v: -1})
		return k
	}
	s := a.segs[i]
	for ; k < len(a.cuts) && a.cuts[k].seg == i; k++ {
		v := a.nodes.find(a.cuts[k].node)
		if v == u || v == end {
			continue
		}
		a.addPiece(s, i, u, v)
		s.A, u = a.nodes.at[v], v
	}
	if u < 0 || u != end {
		a.addPiece(s, i, u, end)
	}
	return k
}

func (a *arrangement) nodeOf(i int32) int32 {
	if a.vertex[i] == 0 {
		return -1
	}
	return a.nodes.find(a.vertex[i] - 1)
}

func (a *arrangement) addPiece(s Seg, i, u, v int32) {
	A, B := s.A, s.B
	if u >= 0 {
		A = a.nodes.at[u]
	}
	if v >= 0 {
		B = a.nodes.at[v]
	}
	p := piece{seg: i, u: u, v: v}
	if g := &a.segs[i]; A != g.A || B != g.B {
		s.A, s.B = A, B
		p.seg = int32(-1 - len(a.cutOff))
		a.cutOff = append(a.cutOff, cutOff{s.onEnds(), a.src[i]})
	}
	a.pieces = append(a.pieces, p)
}

// pieceSeg returns the segment of a piece and its source.
func (a *arrangement) pieceSeg(i int32) (*Seg, int32) {
	k := a.pieces[i].seg
	if k >= 0 {
		return &a.segs[k], a.src[k]
	}
	c := &a.cutOff[-1-k]
	return &c.seg, c.src
}

// gather makes chains of the pieces of one curve, from base on.
func (a *arrangement) gather(base int32, set uint8) {
	hi := int32(len(a.pieces))
	start := base
	for start < hi && a.pieces[start].u < 0 {
		start++
	}
	if hi == base {
		return
	}
	c := chain{base: base, hi: hi, from: -1, to: -1}
	c.turns[set] = 1
	if start == hi { // meets nothing
		c.lo, c.n = base, hi-base
		a.addChain(c)
		return
	}
	c.lo, c.from = start, a.pieces[start].u
	for k := int32(0); k < hi-base; k++ {
		i := start + k
		if i >= hi {
			i -= hi - base
		}
		c.n++
		if v := a.pieces[i].v; v >= 0 {
			c.to = v
			a.addChain(c)
			c.lo, c.n, c.from = i+1, 0, v
			if c.lo == hi {
				c.lo = base
			}
		}
	}
}

func (a *arrangement) addChain(c chain) {
	for k := int32(0); k < c.n; k++ {
		a.pieces[c.at(k)].chain = int32(len(a.chains))
	}
	a.chains = append(a.chains, c)
}

// at returns the number of the kth piece of the chain.
func (c *chain) at(k int32) int32 {
	if k += c.lo; k >= c.hi {
		k -= c.hi - c.base
	}
	return k
}

// piece returns the kth segment of a chain and its source.
func (a *arrangement) piece(c *chain, k int32) (*Seg, int32) {
	i := c.at(k)
	if len(a.pieces) == 0 {
		return &a.segs[i], a.src[i]
	}
	return a.pieceSeg(i)
}

// mergeChains makes one chain of those that run between the same nodes along
// the same curve: single pieces, for each vertex on another curve is a node.
func (a *arrangement) mergeChains() {
	var single []int32
	for i := range a.chains {
		if c := &a.chains[i]; c.n == 1 && c.from >= 0 {
			single = append(single, int32(i))
		}
	}
	key := func(i int32) int64 {
		c := &a.chains[i]
		return int64(min(c.from, c.to))<<32 | int64(max(c.from, c.to))
	}
	slices.SortFunc(single, func(x, y int32) int {
		return cmp.Or(cmp.Compare(key(x), key(y)), cmp.Compare(x, y))
	})
	for x := 0; x < len(single); x++ {
		c := &a.chains[single[x]]
		if c.turns == (winding{}) {
			continue
		}
		s, _ := a.piece(c, 0)
		for y := x + 1; y < len(single) && key(single[y]) == key(single[x]); y++ {
			d := &a.chains[single[y]]
			t, _ := a.piece(d, 0)
			if d.turns == (winding{}) || s.middle().Dist(t.middle()) > 4*a.tol {
				continue
			}
			sign := int16(1)
			if d.from != c.from {
				sign = -1
			}
			c.merged = true
			c.turns[0] += sign * d.turns[0]
			c.turns[1] += sign * d.turns[1]
			d.turns = winding{}
		}
	}
}

// middle returns the point half-way along s, which turns less than a half turn.
func (s *Seg) middle() Point {
	m := s.A.Lerp(s.B, 0.5)
	if s.Turn == 0 {
		return m
	}
	return s.Center.Add(s.B.Sub(s.A).Left().Unit().Mul(-float64(s.Turn) * s.Radius))
}

// onEnds returns s with its centre moved so that the ends lie on the circle: they
// may have been drawn to a node. The radius is kept, but near a half turn and
// beyond, where the centre would run away, the centre moves the least way
// instead. An arc too flat to tell from its chord becomes the chord.
func (s Seg) onEnds() Seg {
	if s.Turn == 0 {
		return s
	}
	ch := s.B.Sub(s.A)
	l := ch.Len()
	m := s.A.Lerp(s.B, 0.5)
	n := ch.Left().Mul(1 / l)
	h := s.Center.Sub(m).Dot(n) // along the bisector
	switch side := float64(s.Turn); {
	case l == 0:
		return s
	case h*side > s.Radius/2: // less than a third of a turn
		if l*l < 8*s.Radius*1e-11 { // sagitta below 1e-11 mm, under the rounding of 2 m
			return Line(s.A, s.B)
		}
		h = side * math.Sqrt(s.Radius*s.Radius-l*l/4)
		s.Center = m.Add(n.Mul(h))
	default:
		s.Center = m.Add(n.Mul(h))
		s.Radius = s.Center.Dist(s.A)
	}
	return s
}
