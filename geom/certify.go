package geom

import "fmt"

// Check returns nil for a sound region, else an error that names the loop and
// the vertex: a path that is not closed or not sound, two segments that cross or
// run together, or a loop that goes round the wrong way (solid counter-clockwise,
// holes clockwise). Loops may touch at points. O(n log n).
//
// Loops that neither cross nor turn the wrong way have the winding number 1 on
// the left of every segment and 0 on its right; where two cross, some segment
// has another. So the check is that of an arrangement's windings.
func (r Region) Check() error {
	var a arrangement
	a.reset(checkTol)
	for i, p := range r {
		if err := p.Check(); err != nil {
			return fmt.Errorf("loop %d: %w", i, err)
		}
		if !p.Closed() {
			return fmt.Errorf("loop %d: vertex %d: the path is open by %.6g mm", i, len(p)-1, p[len(p)-1].B.Dist(p[0].A))
		}
		a.addPath(0, p)
	}
	if len(a.segs) == 0 {
		return nil
	}
	a.solve(0)
	for i := range a.chains {
		c := &a.chains[i]
		s, src := a.piece(c, 0)
		at := s.middle()
		switch {
		case c.merged && (c.turns != winding{1}) && s.A.Dist(s.B) > touch:
			return fmt.Errorf("%s: runs together with another segment near (%.3f, %.3f)", r.place(src), at.X, at.Y)
		case c.turns == winding{1} && (c.right != winding{} || c.left != winding{1}):
			return fmt.Errorf("%s: crosses another segment or goes round the wrong way near (%.3f, %.3f): winding %d on the left, %d on the right",
				r.place(src), at.X, at.Y, c.left[0], c.right[0])
		}
	}
	return nil
}

// checkTol is how close segments may run in a sound region: results keep what is
// apart by more than Coincident, but their nodes may move by that much.
const checkTol = Coincident / 10

// touch is the longest piece, in mm, that two loops may share and still be said
// to touch at a point: circles of 1 mm and more radius that touch keep within
// Coincident for 4√(radius × Coincident/2) and less than this up to 300 mm.
const touch = 0.05

// place names the loop and vertex of the nth segment, counted from 1.
func (r Region) place(n int32) string {
	k := int(n) - 1
	for i, p := range r {
		if k < len(p) {
			return fmt.Sprintf("loop %d: vertex %d", i, k)
		}
		k -= len(p)
	}
	return "past the last loop"
}
