package geom

import "math"

// tree is an implicit bounding-volume tree over segments in the order given:
// node 1 is the root, node i has the children 2i and 2i+1, the leaves start at
// index leaves. Segments of a path in their own order keep neighbours together,
// so no sorting is needed. Building is O(n).
type tree struct {
	leaves int // a power of two
	boxes  []bounds
}

// bounds is a box without the emptiness flag: empty when lo > hi.
type bounds struct{ x0, y0, x1, y1 float64 }

var noBounds = bounds{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

func (a bounds) union(b bounds) bounds {
	return bounds{min(a.x0, b.x0), min(a.y0, b.y0), max(a.x1, b.x1), max(a.y1, b.y1)}
}

func (a bounds) meets(b bounds) bool {
	return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

func (a bounds) grow(d float64) bounds { return bounds{a.x0 - d, a.y0 - d, a.x1 + d, a.y1 + d} }

// gap returns the distance between two boxes.
func (a bounds) gap(b bounds) float64 {
	dx := max(0, max(a.x0-b.x1, b.x0-a.x1))
	dy := max(0, max(a.y0-b.y1, b.y0-a.y1))
	return math.Sqrt(dx*dx + dy*dy)
}

func (a bounds) gapTo(p Point) float64 {
	return a.gap(bounds{p.X, p.Y, p.X, p.Y})
}

func (s Seg) bounds() bounds {
	b := s.Bounds()
	return bounds{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}
}

// newTree returns a tree over n boxes.
func newTree(n int, box func(i int) bounds) tree {
	t := tree{leaves: 1}
	for t.leaves < n {
		t.leaves *= 2
	}
	t.boxes = make([]bounds, 2*t.leaves)
	for i := range t.boxes[t.leaves:] {
		if i < n {
			t.boxes[t.leaves+i] = box(i)
		} else {
			t.boxes[t.leaves+i] = noBounds
		}
	}
	for i := t.leaves - 1; i > 0; i-- {
		t.boxes[i] = t.boxes[2*i].union(t.boxes[2*i+1])
	}
	return t
}

// nearest returns the leaf for which dist is least among those nearer than
// within, and that distance; -1 if there is none.
func (t tree) nearest(p Point, within float64, dist func(i int) float64) (int, float64) {
	best := -1
	if len(t.boxes) < 2 {
		return best, within
	}
	var stack [64]int
	stack[0] = 1
	for n := 1; n > 0; {
		n--
		k := stack[n]
		if t.boxes[k].gapTo(p) >= within {
			continue
		}
		if k >= t.leaves {
			if d := dist(k - t.leaves); d < within {
				best, within = k-t.leaves, d
			}
			continue
		}
		a, b := 2*k, 2*k+1
		if t.boxes[a].gapTo(p) < t.boxes[b].gapTo(p) {
			a, b = b, a
		}
		stack[n], stack[n+1] = a, b // the nearer one is taken first
		n += 2
	}
	return best, within
}
