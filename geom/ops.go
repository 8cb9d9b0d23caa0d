package geom

import "errors"

var errUnbuilt = errors.New("geom: operation not built yet")

// Offset returns r grown by d mm on every side, or shrunk for negative d.
func (c *Calc) Offset(r Region, d float64, j Join) Region { return c.unbuilt() }

// OffsetPath returns the region within d > 0 mm of an open or closed path, as a
// round tool of diameter 2d following it would cut.
func (c *Calc) OffsetPath(p Path, d float64) Region { return c.unbuilt() }

// Union returns the points in any of rs, solved in one pass.
func (c *Calc) Union(rs ...Region) Region { return c.unbuilt() }

// Intersect returns the points in every one of rs.
func (c *Calc) Intersect(rs ...Region) Region { return c.unbuilt() }

// Subtract returns the points of r in none of cut.
func (c *Calc) Subtract(r Region, cut ...Region) Region { return c.unbuilt() }

// Xor returns the points in an odd number of rs.
func (c *Calc) Xor(rs ...Region) Region { return c.unbuilt() }

func (c *Calc) unbuilt() Region {
	if c.err == nil {
		c.err = errUnbuilt
	}
	return nil
}
