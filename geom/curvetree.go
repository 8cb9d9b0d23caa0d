package geom

import (
	"math"
	"math/bits"
)

// curveTree is a tree over the segments of closed curves laid end to end in
// their own order, a few neighbours to a leaf. Each node also knows the
// directions its segments travel in: a run of connected segments that keeps
// within a half turn cannot meet itself, so whole subtrees are passed over in
// the search for crossings. Building is O(n).
type curveTree struct {
	tree
	turn  []sectors // node → headings, allSectors when the node is not one run
	segs  []Seg
	heads []bool // segment → it starts a curve
	tol   float64
}

// leafSize is the number of segments in a leaf: four boxes cost less to test
// than two more levels of tree.
const leafSize = 4

// sectors is a set of headings, one bit for each 64th of a turn, measured along
// the square |x| + |y| = 1 so that opposite headings lie 32 bits apart.
type sectors uint64

const allSectors = ^sectors(0)

// sector returns the number of the 64th of a turn that v points into.
func sector(v Vec) uint {
	s := math.Abs(v.X) + math.Abs(v.Y)
	if s == 0 {
		return 0
	}
	d := v.Y / s
	if v.X < 0 {
		d = 2 - d
	} else if d < 0 {
		d += 4
	}
	return uint(d*16) & 63
}

// sectors returns the headings of s, which turns less than a half turn.
func (s *Seg) sectors() sectors {
	if s.Turn == 0 {
		return 1 << sector(s.B.Sub(s.A))
	}
	lo, hi := sector(s.A.Sub(s.Center).Left()), sector(s.B.Sub(s.Center).Left())
	if s.Turn < 0 { // travelling backward over the same tangents
		lo, hi = (hi+32)&63, (lo+32)&63
	}
	n := (hi - lo) & 63
	return sectors(bits.RotateLeft64(^uint64(0)>>(63-n), int(lo)))
}

// narrow reports whether the headings keep well within a half turn: a run of 36
// free sectors leaves at most 28 of 32.
func (s sectors) narrow() bool {
	z := ^uint64(s)
	z &= bits.RotateLeft64(z, 1)
	z &= bits.RotateLeft64(z, 2)
	z &= bits.RotateLeft64(z, 4)
	z &= bits.RotateLeft64(z, 8)
	z &= bits.RotateLeft64(z, 16)
	return z&bits.RotateLeft64(z, 4) != 0
}

// quickBounds returns the box of s, which turns less than a half turn.
func (s *Seg) quickBounds() bounds {
	b := bounds{s.A.X, s.A.Y, s.B.X, s.B.Y}
	if b.x0 > b.x1 {
		b.x0, b.x1 = b.x1, b.x0
	}
	if b.y0 > b.y1 {
		b.y0, b.y1 = b.y1, b.y0
	}
	if s.Turn == 0 {
		return b
	}
	qa, qb := s.quadrant(s.A), s.quadrant(s.B)
	if s.Turn < 0 {
		qa, qb = qb, qa
	}
	for ; qa != qb; qa = (qa + 1) & 3 {
		switch qa { // counter-clockwise out of quadrant qa over its far extreme
		case 0:
			b.y1 = max(b.y1, s.Center.Y+s.Radius)
		case 1:
			b.x0 = min(b.x0, s.Center.X-s.Radius)
		case 2:
			b.y0 = min(b.y0, s.Center.Y-s.Radius)
		case 3:
			b.x1 = max(b.x1, s.Center.X+s.Radius)
		}
	}
	return b
}

func (s *Seg) quadrant(p Point) int {
	switch right, up := p.X >= s.Center.X, p.Y >= s.Center.Y; {
	case right && up:
		return 0
	case up:
		return 1
	case right:
		return 3
	}
	return 2
}

// build makes the tree over segs with every box grown by tol, reusing memory.
// No segment may turn by a half turn or more.
func (t *curveTree) build(segs []Seg, heads []bool, tol float64) {
	t.segs, t.heads, t.tol = segs, heads, tol
	n := (len(segs) + leafSize - 1) / leafSize
	t.leaves = 1
	for t.leaves < n {
		t.leaves *= 2
	}
	t.boxes = grown(t.boxes, 2*t.leaves)
	t.turn = grown(t.turn, 2*t.leaves)
	for k := 0; k < n; k++ {
		b, turn := noBounds, sectors(0)
		for i := k * leafSize; i < min(len(segs), (k+1)*leafSize); i++ {
			b = b.with(segs[i].quickBounds())
			turn |= segs[i].sectors()
			if heads[i] && i > k*leafSize {
				turn = allSectors
			}
		}
		t.boxes[t.leaves+k], t.turn[t.leaves+k] = b.grow(tol), turn
	}
	for k := t.leaves + n; k < 2*t.leaves; k++ {
		t.boxes[k], t.turn[k] = noBounds, 0
	}
	first, span := t.leaves, leafSize // of the level below: its first node, segments to a node
	for i := t.leaves - 1; i > 0; i-- {
		if i < first/2 {
			first, span = first/2, 2*span
		}
		t.boxes[i] = t.boxes[2*i].with(t.boxes[2*i+1])
		t.turn[i] = t.turn[2*i] | t.turn[2*i+1]
		if s := (2*i + 1 - first) * span; s < len(segs) && heads[s] {
			t.turn[i] = allSectors
		}
	}
}

// with is union without the care for NaN that math.Min takes.
func (a bounds) with(b bounds) bounds {
	if b.x0 < a.x0 {
		a.x0 = b.x0
	}
	if b.y0 < a.y0 {
		a.y0 = b.y0
	}
	if b.x1 > a.x1 {
		a.x1 = b.x1
	}
	if b.y1 > a.y1 {
		a.y1 = b.y1
	}
	return a
}

// grown returns a slice of length n, using the memory of s if it suffices. Its
// contents are not cleared.
func grown[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/8)
	}
	return s[:n]
}

// meetings calls f for every pair i < j of segments whose boxes meet, but for
// those that surely meet only at the vertices between them.
func (t *curveTree) meetings(f func(i, j int)) {
	if len(t.segs) > 0 {
		t.inside(1, f)
	}
}

func (t *curveTree) inside(n int, f func(i, j int)) {
	if t.turn[n].narrow() {
		return
	}
	if n < t.leaves {
		t.inside(2*n, f)
		t.inside(2*n+1, f)
		t.across(2*n, 2*n+1, f)
		return
	}
	lo := (n - t.leaves) * leafSize
	hi := min(lo+leafSize, len(t.segs))
	for i := lo; i < hi; i++ {
		for j := i + 1; j < hi; j++ {
			t.leafPair(i, j, f)
		}
	}
}

func (t *curveTree) across(a, b int, f func(i, j int)) {
	if !t.boxes[a].meets(t.boxes[b]) {
		return
	}
	if b == a+1 && (t.turn[a] | t.turn[b]).narrow() && !t.heads[t.firstSeg(b)] {
		return
	}
	if a < t.leaves { // both lie on one level
		t.across(2*a, 2*b, f)
		t.across(2*a, 2*b+1, f)
		t.across(2*a+1, 2*b, f)
		t.across(2*a+1, 2*b+1, f)
		return
	}
	lo, to := (a-t.leaves)*leafSize, (b-t.leaves)*leafSize
	for i := lo; i < lo+leafSize; i++ {
		for j := to; j < min(to+leafSize, len(t.segs)); j++ {
			t.leafPair(i, j, f)
		}
	}
}

// firstSeg returns the first segment under a node that is not empty.
func (t *curveTree) firstSeg(n int) int {
	for n < t.leaves {
		n *= 2
	}
	return (n - t.leaves) * leafSize
}

func (t *curveTree) leafPair(i, j int, f func(i, j int)) {
	s, u := &t.segs[i], &t.segs[j]
	if s.B == u.A || u.B == s.A { // neighbours, or as good as
		if (s.sectors() | u.sectors()).narrow() {
			return
		}
	}
	if s.quickBounds().grow(2 * t.tol).meets(u.quickBounds()) {
		f(i, j)
	}
}
