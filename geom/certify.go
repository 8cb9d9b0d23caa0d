package geom

import (
	"fmt"
	"math"
)

// Check returns nil for a sound region, else an error that names the loop and
// the vertex: a path that is not closed or not sound, two segments that cross or
// run together, or a loop that goes round the wrong way (solid counter-clockwise,
// holes clockwise). Loops may touch at points. O(n log n).
func (r Region) Check() error {
	var segs []Seg
	var loop, vertex []int
	for i, p := range r {
		if err := p.Check(); err != nil {
			return fmt.Errorf("loop %d: %w", i, err)
		}
		if !p.Closed() {
			return fmt.Errorf("loop %d: vertex %d: the path is open by %.6g mm", i, len(p)-1, p[len(p)-1].B.Dist(p[0].A))
		}
		for k, s := range p {
			segs, loop, vertex = append(segs, s), append(loop, i), append(vertex, k)
		}
	}
	if err := checkCrossings(segs, loop, vertex); err != nil {
		return err
	}
	for i, p := range r {
		if err := r.checkTurn(i, p); err != nil {
			return err
		}
	}
	return nil
}

func checkCrossings(segs []Seg, loop, vertex []int) error {
	t := newTree(len(segs), func(i int) bounds { return segs[i].bounds() })
	var err error
	var buf []Point
	t.pairs(func(i, j int) {
		if err != nil {
			return
		}
		buf = meet(segs[i], segs[j], Coincident, buf[:0])
		a, b := segs[i], segs[j]
		for _, p := range buf {
			if nearEnd(a, p) && nearEnd(b, p) {
				continue // a shared vertex
			}
			if touches(a, b, p) {
				continue
			}
			err = fmt.Errorf("loop %d: vertex %d: the segment from (%.3f, %.3f) crosses the one from (%.3f, %.3f) of loop %d, vertex %d, at (%.3f, %.3f)",
				loop[i], vertex[i], a.A.X, a.A.Y, b.A.X, b.A.Y, loop[j], vertex[j], p.X, p.Y)
			return
		}
	})
	return err
}

func nearEnd(s Seg, p Point) bool {
	const near = 1e-4 // a crossing this close to both ends is the vertex itself
	return p.Dist(s.A) < near || p.Dist(s.B) < near
}

// touches reports that a and b meet at p without crossing: nearby, b stays on
// one side of a.
func touches(a, b Seg, p Point) bool {
	const off = 1e-3
	side := func(q Point) float64 {
		c := a.Closest(q)
		d := q.Sub(c)
		t := a.tangentAt(c)
		s := t.Cross(d)
		if math.Abs(s) < 2*Coincident {
			return 0
		}
		return s
	}
	var before, after float64
	if l := b.Length(); l > 0 {
		t := b.share(p)
		before, after = side(b.At(math.Max(0, t-off/l))), side(b.At(math.Min(1, t+off/l)))
	}
	return before*after >= 0
}

// share returns the t of the length at which p lies on s.
func (s Seg) share(p Point) float64 {
	if s.Turn == 0 {
		return s.A.Dist(p) / s.A.Dist(s.B)
	}
	h := s
	h.B = p
	return math.Min(1, float64(h.Sweep()/s.Sweep()))
}

// tangentAt returns the direction of travel of s at the point p on it.
func (s Seg) tangentAt(p Point) Vec {
	if s.Turn == 0 {
		return s.Tangent(0)
	}
	return p.Sub(s.Center).Left().Mul(float64(s.Turn)).Unit()
}

// checkTurn verifies the direction of loop i: the winding just inside it is 1,
// just outside 0.
func (r Region) checkTurn(i int, p Path) error {
	depth := 0
	q := p.insidePoint()
	for k, o := range r {
		if k != i {
			depth += o.Winding(q)
		}
	}
	turn := 1
	if p.Area() < 0 {
		turn = -1
	}
	if w := depth + turn; turn > 0 && w != 1 || turn < 0 && w != 0 {
		return fmt.Errorf("loop %d: vertex 0: goes round %s, but lies %d deep in other loops", i, map[int]string{1: "counter-clockwise", -1: "clockwise"}[turn], depth)
	}
	return nil
}
