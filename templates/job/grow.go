package job

import (
	"math"

	"routwright/geom"
)

// A back cavity grown round its controls is the union of the rooms that their
// bodies need, closed by a disc: every hollow that a disc of that radius does
// not reach from outside is filled. The larger the disc, the more of the wood
// between two bodies goes; the smallest disc that leaves one cavity, nowhere
// narrower than the bit and the wires want, gives the smallest cavity of the
// kind. Its edge is arcs of the rooms joined by arcs of the disc, tangent to one
// another, so that a router and a band saw follow it.

const (
	// growStep is the fineness in mm of the radius that joins the bodies.
	growStep = 0.1
	// growMost is the largest radius in mm that is tried: with bodies at the two
	// ends of the longest body it is enough.
	growMost = 20000.0
)

// roundRoom returns the room of a round body of diameter d: wall mm more on
// every side, and no tighter than the radius least.
func roundRoom(at geom.Point, d, wall, least float64) geom.Region {
	return geom.Region{geom.Circle(at, math.Max(d/2+wall, least))}
}

// boxRoom returns the room of a body l × w mm with corners of radius c: at least
// wall mm away from it everywhere, its own corners of radius corner or more, and
// nowhere narrower than 2·least.
//
// With sides moved out by g, a corner of radius r keeps the distance
// r − c − √2·(r − g − c) from the body's corner; that is wall or more for
// g ≥ r − c − (r − c − wall)/√2.
func boxRoom(place geom.Transform, l, w, c, wall, corner, least float64) geom.Region {
	g, r := wall, c+wall
	if corner > r {
		r = corner
		g = r - c - (r-c-wall)/math.Sqrt2
	}
	g = math.Max(g, math.Max(least, r)-math.Min(l, w)/2)
	return geom.Region{place.Path(geom.RoundedRect(geom.Pt(0, 0), l+2*g, w+2*g, r))}
}

// grow joins the rooms to one region, nowhere narrower than neck mm, whose
// hollows have at least the radius hollow. It returns the radius that joins
// them. ok is false where none up to growMost does, or where the geometry
// fails, which c.Err tells.
func grow(c *geom.Calc, rooms []geom.Region, hollow, neck float64) (r geom.Region, radius float64, ok bool) {
	all := c.Union(rooms...)
	joined := func(n int) (geom.Region, bool) {
		closed := solid(c.Close(all, float64(n)*growStep))
		return closed, len(c.Offset(closed, -neck/2, geom.Round).Components()) == 1
	}
	lo := int(math.Ceil(hollow/growStep - 1e-9))
	if r, ok = joined(lo); ok || c.Err() != nil {
		return r, float64(lo) * growStep, ok
	}
	hi := lo
	for !ok {
		if lo, hi = hi, 2*hi+1; float64(lo)*growStep > growMost || c.Err() != nil {
			return nil, 0, false
		}
		r, ok = joined(hi)
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if q, good := joined(mid); good {
			hi, r = mid, q
		} else {
			lo = mid
		}
	}
	return r, float64(hi) * growStep, c.Err() == nil
}

// solid returns a region without its holes: an island of wood inside a cavity
// would stand loose on a thin floor.
func solid(r geom.Region) geom.Region {
	var out geom.Region
	for _, p := range r {
		if p.Area() > 0 {
			out = append(out, p)
		}
	}
	return out
}
