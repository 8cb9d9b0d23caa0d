package geom

import "math"

// Distance returns the least distance in mm between two regions, each with its
// inside, and a point of each where it is taken. Where they share a point d is
// 0 and pa = pb is a common point: a crossing of the boundaries, or a vertex of
// one inside the other. With an empty region d is +Inf and the points are zero.
//
// Branch and bound over two bounding-volume trees with exact leaf distances:
// O(n + m) to build them, then about O(log n) unless much of the two boundaries
// is equally far apart.
func Distance(a, b Region) (d float64, pa, pb Point) {
	return IndexOf(a).distance(IndexOf(b), math.Inf(1))
}

// PathDistance returns the least distance in mm between two curves, open or
// closed (a closed one without its inside), and a point of each where it is
// taken; 0 and the same point twice when they cross. Cost as Distance.
func PathDistance(a, b Path) (d float64, pa, pb Point) {
	g := IndexOf(Region{a}).curveGap(IndexOf(Region{b}), math.Inf(1))
	return math.Sqrt(g.d2), g.a, g.b
}

// distance returns the distance between the regions of two trees if it is below
// limit, else +Inf.
func (t *Index) distance(u *Index, limit float64) (d float64, pa, pb Point) {
	if p, ok := t.commonVertex(u); ok {
		return 0, p, p
	}
	if p, ok := u.commonVertex(t); ok {
		return 0, p, p
	}
	g := t.curveGap(u, limit*limit)
	if !(g.d2 < limit*limit) {
		return math.Inf(1), Point{}, Point{}
	}
	return math.Sqrt(g.d2), g.a, g.b
}

// commonVertex looks for a loop of t that starts inside u. Loops of holes count
// too: what bounds a hole is part of the region.
func (t *Index) commonVertex(u *Index) (Point, bool) {
	if t.empty() || u.empty() || t.boxes[1].gap2(&u.boxes[1]) > 0 {
		return Point{}, false
	}
	for i := range t.runs {
		if t.runs[i].at == 0 {
			if p := t.runs[i].segs[0].A; u.boxes[1].dist2(p) == 0 && u.Contains(p) {
				return p, true
			}
		}
	}
	return Point{}, false
}

// curveGap returns the least distance between the boundaries and its witnesses,
// or the limit if nothing is nearer.
func (t *Index) curveGap(u *Index, limit2 float64) gap {
	g := gap{d2: limit2}
	if t.empty() || u.empty() {
		return g
	}
	var room [128]twig
	stack := append(room[:0], twig{t.boxes[1].gap2(&u.boxes[1]), 1, 1})
	for len(stack) > 0 && g.d2 > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if n.d2 >= g.d2 {
			continue
		}
		i, j := int(n.i), int(n.j)
		ti, uj := t.isLeaf(i), u.isLeaf(j)
		switch {
		case ti && uj:
			g.runs(&t.runs[i-t.leaves], &u.runs[j-u.leaves], &u.boxes[j])
		case uj || !ti && t.boxes[i].size() >= u.boxes[j].size():
			stack = g.push(stack, t, u, 2*i, j, 2*i+1, j)
		default:
			stack = g.push(stack, t, u, i, 2*j, i, 2*j+1)
		}
	}
	return g
}

// push adds two pairs of nodes, the nearer one on top.
func (g *gap) push(stack []twig, t, u *Index, i, j, k, l int) []twig {
	a := twig{t.boxes[i].gap2(&u.boxes[j]), int32(i), int32(j)}
	b := twig{t.boxes[k].gap2(&u.boxes[l]), int32(k), int32(l)}
	if a.d2 < b.d2 {
		a, b = b, a
	}
	if a.d2 < g.d2 {
		stack = append(stack, a)
	}
	return append(stack, b)
}

// runs tests the segments of two leaves, those of a first against the box of b
// as a whole.
func (g *gap) runs(a, b *run, box *bounds) {
	var fs [runSegs]bounds
	for k := range b.segs {
		fs[k] = noBounds
		fs[k].addSeg(&b.segs[k])
	}
	for i := range a.segs {
		f := noBounds
		f.addSeg(&a.segs[i])
		if f.gap2(box) >= g.d2 {
			continue
		}
		for k := range b.segs {
			if f.gap2(&fs[k]) < g.d2 {
				g.segs(&a.segs[i], &b.segs[k])
			}
		}
	}
}
