package geom

import "fmt"

// Union returns the points in any of rs, solved in one pass.
func (c *Calc) Union(rs ...Region) Region {
	return c.combine(rs, nil, func(w winding) bool { return w[0] > 0 })
}

// Intersect returns the points in every one of rs.
func (c *Calc) Intersect(rs ...Region) Region {
	n := int16(len(rs))
	return c.combine(rs, nil, func(w winding) bool { return w[0] >= n && n > 0 })
}

// Subtract returns the points of r in none of cut.
func (c *Calc) Subtract(r Region, cut ...Region) Region {
	return c.combine([]Region{r}, cut, func(w winding) bool { return w[0] > 0 && w[1] <= 0 })
}

// Xor returns the points in an odd number of rs.
func (c *Calc) Xor(rs ...Region) Region {
	return c.combine(rs, nil, func(w winding) bool { return w[0]&1 != 0 })
}

// combine solves a boolean operation over two groups of regions. O(n log n).
func (c *Calc) combine(a, b []Region, in func(winding) bool) Region {
	return c.solve(task{groups: [2][]Region{a, b}, in: in, load: func(arr *arrangement, set uint8, p Path) {
		arr.open(set)
		for i := range p {
			arr.add(p[i])
		}
		arr.close()
	}})
}

// task is an operation: the region in which the windings of the curves that load
// makes of the loops of two groups of regions fulfil in. The certificate, if any,
// is asked about places on the result's edge.
type task struct {
	groups      [2][]Region
	in          func(winding) bool
	load        func(*arrangement, uint8, Path)
	certificate func([]Point) error
}

// retries are the ways to look at curves that the first try could not resolve:
// turned by an odd angle, and with the nodes caught in a wider net.
var retries = []struct {
	turn  Angle
	tol   float64
	spurs bool
}{
	{0, Coincident, false},
	{0, Coincident, true}, // for offsets only
	{0.3711, Coincident, true},
	{0.3711, 4 * Coincident, true},
	{-0.7123, 16 * Coincident, true},
}

// solve does a task. A first try that fails its check is repeated from another
// angle and counted.
func (c *Calc) solve(t task) Region {
	if c.err != nil {
		return nil
	}
	if c.err = checkLoops(t.groups); c.err != nil {
		return nil
	}
	var err error
	for i, try := range retries {
		if i == 1 && err != errShortcut {
			continue // the same again
		}
		c.raw.spurs = try.spurs
		var r Region
		if r, err = c.try(t, Rotate(try.turn), Rotate(-try.turn), try.tol); err == nil {
			if i > 1 {
				c.Fallbacks++
			}
			return r
		}
	}
	c.err = err
	return nil
}

// try does a task in turned coordinates.
func (c *Calc) try(t task, turn, back Transform, tol float64) (Region, error) {
	a := &c.arr
	a.reset(tol)
	for set, g := range t.groups {
		for _, r := range g {
			if turn != (Transform{}) {
				r = turn.Region(r)
			}
			for _, p := range r {
				t.load(a, uint8(set), p)
			}
		}
	}
	r, err := a.solved(t.in)
	if err != nil {
		return nil, err
	}
	if len(a.kept) > 0 && t.certificate != nil {
		c.marks = a.marks(c.marks[:0])
		for i, p := range c.marks {
			c.marks[i] = back.Point(p)
		}
		if err := t.certificate(c.marks); err != nil {
			return nil, err
		}
	}
	if turn != (Transform{}) {
		r = back.Region(r)
	}
	return r, nil
}

func (a *arrangement) solved(in func(winding) bool) (Region, error) {
	a.kept = a.kept[:0]
	if len(a.segs) == 0 {
		return nil, nil
	}
	a.solve()
	return a.region(in)
}

// checkLoops returns an error for a loop that is open or not of finite numbers.
func checkLoops(groups [2][]Region) error {
	for _, g := range groups {
		for _, r := range g {
			for i, p := range r {
				if len(p) > 0 && !p.Closed() {
					return fmt.Errorf("loop %d: vertex %d: the path is open by %.6g mm", i, len(p)-1, p[len(p)-1].B.Dist(p[0].A))
				}
				for k := range p {
					s := &p[k]
					// A sum with NaN or an infinity less itself is not 0.
					sum := s.A.X + s.A.Y + s.B.X + s.B.Y + s.Center.X + s.Center.Y + s.Radius
					if sum-sum != 0 {
						return fmt.Errorf("loop %d: vertex %d: a coordinate is not a finite number", i, k)
					}
				}
			}
		}
	}
	return nil
}
