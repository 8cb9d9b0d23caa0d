package geom

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
	if c.err != nil {
		return nil
	}
	var curves []Seg
	var set []uint8
	for k, rs := range [2][]Region{a, b} {
		for _, r := range rs {
			for _, p := range r {
				for _, s := range p {
					curves, set = append(curves, s), append(set, uint8(k))
				}
			}
		}
	}
	return c.solve(curves, set, in)
}

// retries are the ways to look at curves that the first try could not resolve:
// turned by an odd angle, and with the nodes caught in a wider net.
var retries = []struct {
	turn Angle
	tol  float64
}{{0, Coincident}, {0.3711, Coincident}, {0.3711, 4 * Coincident}, {-0.7123, 16 * Coincident}}

// solve arranges curves and reads off a region. A first try that fails its
// check is repeated from another angle and counted.
func (c *Calc) solve(curves []Seg, set []uint8, in func(winding) bool) Region {
	if len(curves) == 0 {
		return nil
	}
	var err error
	for i, try := range retries {
		work := curves
		if try.turn != 0 {
			work = make([]Seg, len(curves))
			for k, s := range curves {
				work[k] = Rotate(try.turn).Seg(s)
			}
		}
		var r Region
		if r, err = solveOnce(work, set, in, try.tol); err == nil {
			if i > 0 {
				c.Fallbacks++
				r = Rotate(-try.turn).Region(r)
			}
			return r
		}
	}
	c.err = err
	return nil
}

func solveOnce(curves []Seg, set []uint8, in func(winding) bool, tol float64) (Region, error) {
	a, err := arrange(curves, set, tol)
	if err != nil {
		return nil, err
	}
	return a.region(in)
}
