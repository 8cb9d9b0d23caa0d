package geom

import "math"

// runSegs is how many neighbouring segments share a leaf of an Index: fewer
// make the tree larger, more make the leaves dearer to test (measured: 4 to 8
// are alike).
const runSegs = 6

// Index answers questions about one region quickly: what is inside, what is
// near. Build it once where many questions are asked; it keeps the region's
// segments, which must not change meanwhile, and serves any number of
// goroutines. Building is O(n), with two allocations.
type Index struct {
	tree
	r    Region
	runs []run
}

// run is a leaf: some neighbouring segments of one loop.
type run struct {
	segs     Path
	loop, at int // the loop and the index in it of segs[0]
}

// IndexOf returns the index of r. Neighbours along a curve are neighbours in
// the plane, so the runs stay in the order of the loops and nothing is sorted.
func IndexOf(r Region) *Index {
	n := 0
	for _, p := range r {
		n += (len(p) + runSegs - 1) / runSegs
	}
	t := &Index{r: r, runs: make([]run, 0, n)}
	for l, p := range r {
		for i := 0; i < len(p); i += runSegs {
			t.runs = append(t.runs, run{p[i:min(i+runSegs, len(p))], l, i})
		}
	}
	t.tree = newTree(n, func(i int) bounds {
		b := noBounds
		segs := t.runs[i].segs
		for k := range segs { // each ends where the next one starts
			b.add(segs[k].A)
			if segs[k].Turn != 0 {
				b.addSeg(&segs[k])
			}
		}
		b.add(segs[len(segs)-1].B)
		return b
	})
	return t
}

// Contains reports whether p lies in the region. On the boundary it may say
// either. O(log n) on common outlines, no allocation.
func (t *Index) Contains(p Point) bool { return t.windingAt(p) > 0 }

// Closest returns the boundary point nearest to p and its distance in mm, +Inf
// for an empty region. O(log n), no allocation.
func (t *Index) Closest(p Point) (q Point, d float64) {
	q, d2 := t.closest(p, math.Inf(1))
	return q, math.Sqrt(d2)
}

// Distance returns the least distance between the two regions as the function
// Distance does.
func (t *Index) Distance(u *Index) (d float64, pa, pb Point) {
	return t.distance(u, math.Inf(1))
}

func (t *Index) empty() bool       { return len(t.runs) == 0 }
func (t *Index) isLeaf(i int) bool { return i >= t.leaves }
func (t *Index) run(i int) *run    { return &t.runs[i-t.leaves] }

func (b *bounds) add(p Point) {
	// Comparisons predict well along a curve and cost less than min and max.
	if p.X < b.x0 {
		b.x0 = p.X
	}
	if p.X > b.x1 {
		b.x1 = p.X
	}
	if p.Y < b.y0 {
		b.y0 = p.Y
	}
	if p.Y > b.y1 {
		b.y1 = p.Y
	}
}

func (b *bounds) addSeg(s *Seg) {
	b.add(s.A)
	b.add(s.B)
	if s.Turn != 0 {
		c := s.Bounds()
		b.add(c.Min)
		b.add(c.Max)
	}
}

// gap2 returns the squared distance between two boxes, 0 when they meet, +Inf
// when one is empty.
func (b *bounds) gap2(c *bounds) float64 {
	dx := max(0, b.x0-c.x1, c.x0-b.x1)
	dy := max(0, b.y0-c.y1, c.y0-b.y1)
	return dx*dx + dy*dy
}

// dist2 returns the squared distance from p, 0 inside.
func (b *bounds) dist2(p Point) float64 {
	dx := max(0, b.x0-p.X, p.X-b.x1)
	dy := max(0, b.y0-p.Y, p.Y-b.y1)
	return dx*dx + dy*dy
}

func (b *bounds) size() float64 { return b.x1 - b.x0 + b.y1 - b.y0 }

// twig is a node, or a pair of nodes of two trees, with a lower bound of the
// squared distance there.
type twig struct {
	d2   float64
	i, j int32
}

// closest returns the boundary point nearest to p and the squared distance, if
// it is below limit2, else limit2.
func (t *Index) closest(p Point, limit2 float64) (q Point, d2 float64) {
	_, q, d2 = t.closestSeg(p, limit2)
	return q, d2
}

// closestSeg is closest with the segment that the point lies on; nil if none is
// below the limit.
func (t *Index) closestSeg(p Point, limit2 float64) (on *Seg, q Point, d2 float64) {
	d2 = limit2
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
			segs := t.run(i).segs
			for k := range segs {
				s := &segs[k]
				var c Point
				if s.Turn == 0 {
					c = s.lineClosest(p)
				} else {
					c = s.Closest(p)
				}
				dx, dy := c.X-p.X, c.Y-p.Y
				if e := dx*dx + dy*dy; e < d2 {
					on, q, d2 = s, c, e
				}
			}
			continue
		}
		a := twig{t.boxes[2*i].dist2(p), int32(2 * i), 0}
		b := twig{t.boxes[2*i+1].dist2(p), int32(2*i + 1), 0}
		if a.d2 < b.d2 {
			a, b = b, a
		}
		stack = append(stack, a, b) // the nearer one is taken first
	}
	return
}

// windingAt returns how often the loops go round p counter-clockwise. On the
// boundary it is that of one of the two sides.
func (t *Index) windingAt(p Point) int {
	w := 0
	var room [64]int
	stack := append(room[:0], 1)
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		b := &t.boxes[i]
		if p.Y < b.y0 || p.Y > b.y1 || p.X > b.x1 {
			continue
		}
		if !t.isLeaf(i) {
			stack = append(stack, 2*i, 2*i+1)
			continue
		}
		segs := t.run(i).segs
		for k := range segs {
			w += segs[k].windingOf(p)
		}
	}
	return w
}
