package geom

import "math"

// nodeSet gives every point an identity: points within tol of a node are that
// node. Results are stitched by node, never by the distance between points.
type nodeSet struct {
	tol   float64
	at    []Point
	cells map[[2]int64]int32 // cell → first node in it + 1
	next  []int32            // node → next node of its cell + 1
}

func newNodeSet(tol float64, n int) *nodeSet {
	return &nodeSet{tol: tol, at: make([]Point, 0, n), next: make([]int32, 0, n), cells: make(map[[2]int64]int32, n)}
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
		return best
	}
	n := int32(len(s.at))
	key := [2]int64{int64(cx), int64(cy)}
	s.at = append(s.at, p)
	s.next = append(s.next, s.cells[key])
	s.cells[key] = n + 1
	return n
}
