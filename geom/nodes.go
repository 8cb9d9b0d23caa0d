package geom

import "math"

// nodeSet gives every point an identity: points within tol of a node are that
// node. Results are stitched by node, never by the distance between points.
type nodeSet struct {
	tol   float64
	at    []Point
	up    []int32            // node → the node it was merged into, or itself
	cells map[[2]int64]int32 // cell → first node in it + 1
	next  []int32            // node → next node of its cell + 1
}

func (s *nodeSet) reset(tol float64) {
	s.tol = tol
	s.at, s.up, s.next = s.at[:0], s.up[:0], s.next[:0]
	if s.cells == nil {
		s.cells = map[[2]int64]int32{}
	}
	clear(s.cells)
}

// id returns the node of p, a new one if none is near.
func (s *nodeSet) id(p Point) int32 {
	size := 4 * s.tol
	fx, fy := p.X/size, p.Y/size
	cx, cy := math.Floor(fx), math.Floor(fy)
	// Only the cells that a disc of radius tol round p can reach are looked at:
	// with cells of 4 tol mostly one.
	x0, x1 := int64(math.Floor(fx-0.25)), int64(math.Floor(fx+0.25))
	y0, y1 := int64(math.Floor(fy-0.25)), int64(math.Floor(fy+0.25))
	best, least := int32(-1), s.tol
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			for k := s.cells[[2]int64{x, y}]; k > 0; k = s.next[k-1] {
				if d := s.at[k-1].Dist(p); d <= least {
					best, least = k-1, d
				}
			}
		}
	}
	if best >= 0 {
		return s.find(best)
	}
	n := int32(len(s.at))
	key := [2]int64{int64(cx), int64(cy)}
	s.at, s.up = append(s.at, p), append(s.up, n)
	s.next = append(s.next, s.cells[key])
	s.cells[key] = n + 1
	return n
}

// find returns the node that k stands for after mergers.
func (s *nodeSet) find(k int32) int32 {
	for s.up[k] != k {
		s.up[k] = s.up[s.up[k]]
		k = s.up[k]
	}
	return k
}

// merge makes one node of two: what lies within tol of either is one place.
func (s *nodeSet) merge(j, k int32) {
	j, k = s.find(j), s.find(k)
	s.up[max(j, k)] = min(j, k)
}
