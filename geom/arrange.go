package geom

import (
	"errors"
	"math"
	"sort"
)

// An arrangement is what a set of closed curves makes of the plane: nodes where
// they meet, edges between, and for each edge the winding numbers on its left
// and right. Booleans and offsets are both read off one.
//
// Each curve belongs to one of two sets; windings are counted for each set.
type arrangement struct {
	tol   float64
	nodes *nodeSet
	segs  []Seg   // pieces of the input, monotone in x and y
	src   []int32 // input segment of each piece
	set   []uint8 // set of each piece
	edges []edge
	star  [][]int32 // node → edges that end there
	tree  tree      // over edges
}

// winding counts turns round a point, for each set of curves.
type winding [2]int16

// edge is a piece of curve between two nodes. Curves that share it are counted
// in turns: left = right + turns.
type edge struct {
	seg         Seg
	src         int32
	u, v        int32
	turns       winding
	right, left winding
}

var errTopology = errors.New("the curves meet in a way that could not be resolved")

// arrange builds the arrangement of closed curves. O(n log n) for n segments
// with O(n) crossings.
func arrange(curves []Seg, set []uint8, tol float64) (*arrangement, error) {
	a := &arrangement{tol: tol}
	for i, s := range curves {
		k := uint8(0)
		if set != nil {
			k = set[i]
		}
		a.addMonotone(s, int32(i), k)
	}
	a.findNodes()
	if err := a.wind(); err != nil {
		return nil, err
	}
	return a, nil
}

// addMonotone cuts a segment at the extremes of its circle.
func (a *arrangement) addMonotone(s Seg, src int32, set uint8) {
	add := func(s Seg) {
		a.segs, a.src, a.set = append(a.segs, s), append(a.src, src), append(a.set, set)
	}
	if s.Turn == 0 {
		add(s)
		return
	}
	turn := float64(s.Turn)
	start := float64(s.A.Sub(s.Center).Angle())
	sweep := math.Abs(float64(s.Sweep()))
	// Quarter turns from the start on, in the direction of travel.
	const quarter = math.Pi / 2
	first := math.Ceil(start*turn/quarter+1e-9) * quarter // next extreme, in travelled angle
	from := s.A
	for g := first; g-start*turn < sweep-1e-9; g += quarter {
		q := math.Mod(math.Round(g/quarter)*turn, 4)
		if q < 0 {
			q += 4
		}
		v := [4]Vec{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}[int(q)%4]
		p := s.Center.Add(v.Mul(s.Radius))
		if p.Dist(from) <= a.tol || p.Dist(s.B) <= a.tol {
			continue
		}
		piece := s
		piece.A, piece.B = from, p
		add(piece)
		from = p
	}
	piece := s
	piece.A = from
	add(piece)
}

// findNodes finds where the pieces meet and cuts them there.
func (a *arrangement) findNodes() {
	n := len(a.segs)
	a.nodes = newNodeSet(a.tol, n+n/4)
	ends := make([][2]int32, n)
	for i, s := range a.segs {
		ends[i] = [2]int32{a.nodes.id(s.A), a.nodes.id(s.B)}
	}
	on := make([][]int32, n) // further nodes on each piece
	t := newTree(n, func(i int) bounds { return a.segs[i].bounds().grow(a.tol) })
	var buf []Point
	t.pairs(func(i, j int) {
		if a.plainJoint(i, j, ends) {
			return
		}
		buf = meet(a.segs[i], a.segs[j], a.tol, buf[:0])
		for _, p := range buf {
			k := a.nodes.id(p)
			if k != ends[i][0] && k != ends[i][1] {
				on[i] = append(on[i], k)
			}
			if k != ends[j][0] && k != ends[j][1] {
				on[j] = append(on[j], k)
			}
		}
	})
	a.cutEdges(ends, on)
}

// plainJoint reports that two pieces share an end and surely nothing else: they
// leave it by more than a right angle apart, or one carries on where the other
// stopped, each being monotone.
func (a *arrangement) plainJoint(i, j int, ends [][2]int32) bool {
	s, t := &a.segs[i], &a.segs[j]
	if s.Turn != 0 || t.Turn != 0 {
		return false
	}
	var u, v Vec // away from the shared end
	switch {
	case s.B == t.A:
		u, v = s.A.Sub(s.B), t.B.Sub(t.A)
	case s.A == t.B:
		u, v = s.B.Sub(s.A), t.A.Sub(t.B)
	default:
		return false
	}
	return u.Dot(v) <= 0 && ends[i][0] != ends[i][1] && ends[j][0] != ends[j][1]
}

// cutEdges cuts every piece at its nodes and merges the edges that coincide.
func (a *arrangement) cutEdges(ends [][2]int32, on [][]int32) {
	n := len(a.segs)
	a.edges = make([]edge, 0, n+n/4)
	type along struct {
		k int32
		t float64
	}
	var cuts []along
	for i, s := range a.segs {
		u, v := ends[i][0], ends[i][1]
		if len(on[i]) == 0 {
			a.addEdge(i, u, v)
			continue
		}
		cuts = cuts[:0]
		for _, k := range on[i] {
			cuts = append(cuts, along{k, s.param(a.nodes.at[k])})
		}
		sort.Slice(cuts, func(x, y int) bool { return cuts[x].t < cuts[y].t })
		at := u
		for _, c := range cuts {
			if c.k != at && c.k != v {
				a.addEdge(i, at, c.k)
				at = c.k
			}
		}
		a.addEdge(i, at, v)
	}
	a.star = make([][]int32, len(a.nodes.at))
	a.mergeEdges()
}

// param returns a number that grows along s from 0 at A.
func (s Seg) param(p Point) float64 {
	if s.Turn == 0 {
		return p.Sub(s.A).Dot(s.B.Sub(s.A))
	}
	u, v := s.A.Sub(s.Center), p.Sub(s.Center)
	w := math.Atan2(u.Cross(v), u.Dot(v)) * float64(s.Turn)
	if w < -math.Pi/2 { // pieces turn at most a quarter
		w += 2 * math.Pi
	}
	return w
}

func (a *arrangement) addEdge(i int, u, v int32) {
	if u == v {
		return
	}
	s := a.segs[i]
	s.A, s.B = a.nodes.at[u], a.nodes.at[v]
	if s.Turn != 0 {
		s = s.onEnds()
	}
	e := edge{seg: s, src: a.src[i], u: u, v: v}
	e.turns[a.set[i]] = 1
	a.edges = append(a.edges, e)
}

// onEnds returns s with its centre moved so that the ends lie on the circle of
// its radius: they may have been drawn to a node. An arc too flat to tell from
// its chord becomes the chord.
func (s Seg) onEnds() Seg {
	ch := s.B.Sub(s.A)
	l := ch.Len()
	h := s.Radius*s.Radius - l*l/4
	if h < 0 || l*l < 8*s.Radius*1e-11 { // sagitta below 1e-11 mm, under the rounding of 2 m
		return Line(s.A, s.B)
	}
	side := float64(s.Turn)
	if sw := s.Sweep(); math.Abs(float64(sw)) > math.Pi {
		side = -side
	}
	s.Center = s.A.Lerp(s.B, 0.5).Add(ch.Left().Mul(side * math.Sqrt(h) / l))
	return s
}

// mergeEdges makes one edge of those that run between the same nodes along the
// same curve, and drops those that cancel.
func (a *arrangement) mergeEdges() {
	order := make([]int32, len(a.edges))
	for i := range order {
		order[i] = int32(i)
	}
	key := func(e *edge) (int32, int32) {
		if e.u < e.v {
			return e.u, e.v
		}
		return e.v, e.u
	}
	sort.SliceStable(order, func(x, y int) bool {
		a1, b1 := key(&a.edges[order[x]])
		a2, b2 := key(&a.edges[order[y]])
		return a1 < a2 || a1 == a2 && b1 < b2
	})
	dead := make([]bool, len(a.edges))
	for x := 0; x < len(order); {
		y := x + 1
		u, v := key(&a.edges[order[x]])
		for y < len(order) {
			if p, q := key(&a.edges[order[y]]); p != u || q != v {
				break
			}
			y++
		}
		for i := x; i < y; i++ {
			if dead[order[i]] {
				continue
			}
			e := &a.edges[order[i]]
			for k := i + 1; k < y; k++ {
				f := &a.edges[order[k]]
				if dead[order[k]] || e.seg.At(0.5).Dist(f.seg.At(0.5)) > 4*a.tol {
					continue
				}
				sign := int16(1)
				if f.u != e.u {
					sign = -1
				}
				e.turns[0] += sign * f.turns[0]
				e.turns[1] += sign * f.turns[1]
				dead[order[k]] = true
			}
		}
		x = y
	}
	keep := a.edges[:0]
	for i, e := range a.edges {
		if !dead[i] && e.turns != (winding{}) {
			keep = append(keep, e)
		}
	}
	a.edges = keep
	for i, e := range a.edges {
		a.star[e.u] = append(a.star[e.u], int32(i))
		a.star[e.v] = append(a.star[e.v], int32(i))
	}
}
