package geom

import "math"

// leafSegs is how many neighbouring segments share a leaf: fewer make the tree
// larger, more make the leaves dearer to test (measured: 4 to 8 are alike).
const leafSegs = 6

// fence is an axis-parallel rectangle without the care for emptiness of Box.
type fence struct{ x0, y0, x1, y1 float64 }

var noFence = fence{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

func (f *fence) add(p Point) {
	f.x0, f.x1 = min(f.x0, p.X), max(f.x1, p.X)
	f.y0, f.y1 = min(f.y0, p.Y), max(f.y1, p.Y)
}

func (f *fence) join(g *fence) {
	f.x0, f.x1 = min(f.x0, g.x0), max(f.x1, g.x1)
	f.y0, f.y1 = min(f.y0, g.y0), max(f.y1, g.y1)
}

func (f *fence) addSeg(s *Seg) {
	f.add(s.A)
	f.add(s.B)
	if s.Turn != 0 {
		b := s.Bounds()
		f.add(b.Min)
		f.add(b.Max)
	}
}

// gap2 returns the squared distance between two rectangles, 0 when they meet.
func (f *fence) gap2(g *fence) float64 {
	dx := max(0, f.x0-g.x1, g.x0-f.x1)
	dy := max(0, f.y0-g.y1, g.y0-f.y1)
	return dx*dx + dy*dy
}

// dist2 returns the squared distance from p, 0 inside.
func (f *fence) dist2(p Point) float64 {
	dx := max(0, f.x0-p.X, p.X-f.x1)
	dy := max(0, f.y0-p.Y, p.Y-f.y1)
	return dx*dx + dy*dy
}

func (f *fence) size() float64 { return f.x1 - f.x0 + f.y1 - f.y0 }

// tree is a bounding-volume tree over the segments of a region in the order of
// its loops; neighbours along a curve are neighbours in the plane, so nothing is
// sorted. Node 1 is the root, node i has the children 2i and 2i+1, the leaves
// are the nodes from first on. Two allocations, O(n).
type tree struct {
	boxes  []fence
	leaves []leaf
	first  int
}

// leaf is a run of segments of one loop.
type leaf struct {
	segs     Path
	loop, at int // the loop and the index in it of segs[0]
}

func treeOf(r Region) *tree {
	n := 0
	for _, p := range r {
		n += (len(p) + leafSegs - 1) / leafSegs
	}
	t := &tree{leaves: make([]leaf, 0, n), first: 1}
	for t.first < n {
		t.first *= 2
	}
	t.boxes = make([]fence, t.first+n, t.first+n+1)
	for l, p := range r {
		for i := 0; i < len(p); i += leafSegs {
			run := p[i:min(i+leafSegs, len(p))]
			f := noFence
			for k := range run {
				f.addSeg(&run[k])
			}
			t.boxes[t.first+len(t.leaves)] = f
			t.leaves = append(t.leaves, leaf{run, l, i})
		}
	}
	for i := t.first - 1; i > 0; i-- {
		f := noFence
		for c := 2 * i; c <= 2*i+1 && c < len(t.boxes); c++ {
			f.join(&t.boxes[c])
		}
		t.boxes[i] = f
	}
	return t
}

func (t *tree) empty() bool       { return len(t.leaves) == 0 }
func (t *tree) has(i int) bool    { return i < len(t.boxes) }
func (t *tree) isLeaf(i int) bool { return i >= t.first }

// twig is a node, or a pair of nodes of two trees, with a lower bound of the
// squared distance there.
type twig struct {
	d2   float64
	i, j int32
}

// nearest returns the boundary point nearest to p and the squared distance, if
// it is below limit2, else limit2.
func (t *tree) nearest(p Point, limit2 float64) (q Point, d2 float64) {
	q, d2, _, _ = t.nearestSeg(p, limit2)
	return q, d2
}

// nearestSeg is nearest that also tells the leaf and the index of the segment
// in it; the leaf is −1 when nothing is nearer than the limit.
func (t *tree) nearestSeg(p Point, limit2 float64) (q Point, d2 float64, li, si int) {
	d2, li = limit2, -1
	if t.empty() {
		return
	}
	var room [64]twig
	stack := append(room[:0], twig{t.boxes[1].dist2(p), 1, 0})
	for len(stack) > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if n.d2 >= d2 {
			continue
		}
		i := int(n.i)
		if t.isLeaf(i) {
			for k := range t.leaves[i-t.first].segs {
				s := &t.leaves[i-t.first].segs[k]
				var c Point
				if s.Turn == 0 {
					c = s.lineClosest(p)
				} else {
					c = s.Closest(p)
				}
				dx, dy := c.X-p.X, c.Y-p.Y
				if e := dx*dx + dy*dy; e < d2 {
					q, d2, li, si = c, e, i-t.first, k
				}
			}
			continue
		}
		a := twig{t.boxes[2*i].dist2(p), int32(2 * i), 0}
		if !t.has(2*i + 1) {
			stack = append(stack, a)
			continue
		}
		b := twig{t.boxes[2*i+1].dist2(p), int32(2*i + 1), 0}
		if a.d2 < b.d2 {
			a, b = b, a
		}
		stack = append(stack, a, b)
	}
	return
}

// winding returns how often the loops go round p counter-clockwise. On the
// boundary it is that of one of the two sides. O(log n) on common outlines.
func (t *tree) winding(p Point) int {
	if t.empty() {
		return 0
	}
	w := 0
	var room [64]int
	stack := append(room[:0], 1)
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		f := &t.boxes[i]
		if p.Y < f.y0 || p.Y > f.y1 || p.X > f.x1 {
			continue
		}
		if !t.isLeaf(i) {
			stack = append(stack, 2*i)
			if t.has(2*i + 1) {
				stack = append(stack, 2*i+1)
			}
			continue
		}
		for k := range t.leaves[i-t.first].segs {
			w += t.leaves[i-t.first].segs[k].winding(p)
		}
	}
	return w
}

// winding returns the share of s in the winding number about p: the crossings
// of its chord with the ray from p to +X, counted half open, and one turn more
// when p lies between the arc and the chord.
func (s *Seg) winding(p Point) int {
	w := 0
	side := s.B.Sub(s.A).Cross(p.Sub(s.A)) // > 0: p left of the chord
	right := side < 0                      // on the chord: the side that the half-open rule puts p on
	switch {
	case s.A.Y <= p.Y && s.B.Y > p.Y:
		right = side <= 0
		if !right {
			w = 1
		}
	case s.B.Y <= p.Y && s.A.Y > p.Y:
		if right {
			w = -1
		}
	case side == 0:
		right = s.B.X < s.A.X // p on a level chord counts as just above it
	}
	if s.Turn != 0 && right == (s.Turn > 0) {
		d := p.Sub(s.Center)
		if d.Dot(d) < s.Radius*s.Radius {
			w += int(s.Turn)
		}
	}
	return w
}

// within reports whether p lies in the region (winding number above 0).
func (t *tree) within(p Point) bool { return t.winding(p) > 0 }
