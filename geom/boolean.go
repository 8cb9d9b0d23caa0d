package geom

import (
	"fmt"
	"math"
)

// Union returns the points in any of rs, solved in one pass. Regions that share
// a wall, or lie within Coincident of one another, become one; like all the
// operations it drops loops of a mean width below Weld. O(n log n).
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
	t := task{groups: [2][]Region{a, b}, in: in, load: (*arrangement).addPath}
	t.certificate = func(o Region, try attempt) error { return c.agrees(&t, o, try) }
	return c.solve(t)
}

// task is an operation: the region in which the windings of the curves that load
// makes of the loops of two groups of regions fulfil in, and the certificate that
// a result must pass.
type task struct {
	groups      [2][]Region
	in          func(winding) bool
	load        func(*arrangement, uint8, Path)
	certificate func(Region, attempt) error

	// Offsets may be done in steps instead, where their curve is tangled.
	tangled func() bool
	steps   func() (Region, bool)
}

// attempt is a way to look at the curves of a task.
type attempt struct {
	turn    Angle
	tol     float64
	spurs   bool // offsets without short cuts
	rounds  int  // how often pieces are searched again for meetings
	flatten bool
}

// attempts are made in order until one passes its check: as the curves are; for
// offsets without short cuts; with the pieces searched again; turned by an odd
// angle; with the nodes caught in a wider net; and at last as chords.
var attempts = []attempt{
	{tol: Coincident},
	{tol: Coincident, spurs: true},
	{tol: Coincident, spurs: true, rounds: 6},
	{tol: Coincident, spurs: true, rounds: 6, turn: 0.3711},
	{tol: 2 * Coincident, spurs: true, rounds: 6, turn: -0.7123},
	{tol: 2 * Coincident, spurs: true, rounds: 8, turn: 0.3711, flatten: true},
	{tol: 8 * Coincident, spurs: true, rounds: 8, turn: 1.1731, flatten: true},
}

// fallback reports whether what try finds is to be counted as such.
func (try attempt) fallback() bool { return try.turn != 0 || try.flatten }

// solve does a task. What only a fallback could resolve is counted.
func (c *Calc) solve(t task) Region {
	if c.err != nil {
		return nil
	}
	if c.err = checkLoops(t.groups); c.err != nil {
		return nil
	}
	var r Region
	var first, err error
	for i, try := range attempts {
		if i == 1 && err != errShortcut {
			continue // the same again
		}
		r, err = c.attempt(t, try)
		if err == errTangled {
			if r, ok := t.steps(); ok {
				return r
			}
			t.steps = nil
			r, err = c.attempt(t, try)
		}
		if err == nil && try.fallback() {
			err = r.Check()
		}
		if err == nil {
			if try.fallback() {
				c.Fallbacks++
			}
			return r
		}
		if first == nil || first == errShortcut {
			first = err
		}
	}
	c.err = t.blame(first)
	return nil
}

// attempt does a task in turned coordinates.
func (c *Calc) attempt(t task, try attempt) (Region, error) {
	turn, back := Rotate(try.turn), Rotate(-try.turn)
	a := &c.arr
	a.reset(try.tol)
	c.raw.spurs, c.raw.tangle = try.spurs, tangle{}
	a.flatten = try.flatten
	for set, g := range t.groups {
		for _, r := range g {
			if try.turn != 0 {
				r = turn.Region(r)
			}
			for _, p := range r {
				t.load(a, uint8(set), p)
			}
		}
	}
	if t.steps != nil && t.tangled() {
		return nil, errTangled
	}
	r, err := a.solved(t.in, try.rounds)
	if err != nil {
		if e, ok := err.(topologyError); ok {
			err = topologyError{back.Point(e.at), e.what}
		}
		return nil, err
	}
	if try.flatten {
		r = a.refitted(r)
	}
	if try.turn != 0 {
		r = back.Region(r)
	}
	if c.spoil != nil {
		r = c.spoil(r)
	}
	return r, t.certificate(r, try)
}

// blame returns an error that names the loop and vertex of what was given: the
// first that is not sound, else the one nearest to where err arose.
func (t task) blame(err error) error {
	for _, g := range t.groups {
		for _, r := range g {
			if e := r.Check(); e != nil {
				return fmt.Errorf("the region given is not sound: %w", e)
			}
		}
	}
	e, ok := err.(topologyError)
	if !ok {
		return err
	}
	least, loop, vertex := math.Inf(1), 0, 0
	for _, g := range t.groups {
		for _, r := range g {
			for i, p := range r {
				for k, s := range p {
					if d := s.A.Dist(e.at); d < least {
						least, loop, vertex = d, i, k
					}
				}
			}
		}
	}
	return fmt.Errorf("loop %d: vertex %d: %w near (%.3f, %.3f)", loop, vertex, err, e.at.X, e.at.Y)
}

func (a *arrangement) solved(in func(winding) bool, rounds int) (Region, error) {
	a.kept, a.dropped, a.made = a.kept[:0], a.dropped[:0], 0
	if len(a.segs) == 0 {
		return nil, nil
	}
	a.solve(rounds)
	r, err := a.region(in)
	if a.folded && rounds == 0 && err == nil {
		// A node that two curves made lies on a third that runs along one of them.
		a.renode()
		a.solve(foldRounds)
		return a.region(in)
	}
	return r, err
}

// foldRounds is how often the pieces are searched again where an edge folds: once
// finds the node that was missing, the others what it moved.
const foldRounds = 6

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
