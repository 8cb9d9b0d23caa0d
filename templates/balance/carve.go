package balance

import (
	"routwright/geom"
	"routwright/templates/part"
)

// Carve returns solids that fill what the given ones fill together, none over
// another, so that their bulks add. The pieces' surfaces are those of the
// solids; plans are parted along the lines where two surfaces cross.
func Carve(solids []part.Solid) ([]part.Solid, error) {
	var c geom.Calc
	var done []part.Solid
	for _, s := range solids {
		done = append(done, less(&c, s, done)...)
	}
	return done, c.Err()
}

// Less returns what is left of a solid without others.
func Less(s part.Solid, others []part.Solid) ([]part.Solid, error) {
	var c geom.Calc
	left := less(&c, s, others)
	return left, c.Err()
}

func less(c *geom.Calc, s part.Solid, others []part.Solid) []part.Solid {
	left := []part.Solid{s}
	for _, o := range others {
		var next []part.Solid
		for _, q := range left {
			next = append(next, minus(c, q, o)...)
		}
		left = next
	}
	return left
}

// minus returns what is left of q without o: beside it, over it and under it.
func minus(c *geom.Calc, q, o part.Solid) []part.Solid {
	if !q.Plan.Bounds().Overlaps(o.Plan.Bounds()) {
		return []part.Solid{q}
	}
	both := c.Intersect(q.Plan, o.Plan)
	if both.Area() < sliver {
		return []part.Solid{q}
	}
	var out []part.Solid
	keep := func(plan geom.Region, top, floor part.Plane) {
		if plan.Area() >= sliver {
			out = append(out, part.Solid{Plan: plan, Top: top, Floor: floor})
		}
	}
	keep(c.Subtract(q.Plan, o.Plan), q.Top, q.Floor)
	// Over o: down to its top, or to q's own floor where that comes first.
	keep(where(c, where(c, both, diff(q.Floor, o.Top)), diff(o.Top, q.Top)), q.Top, o.Top)
	keep(where(c, both, diff(o.Top, q.Floor)), q.Top, q.Floor)
	// Under o.
	keep(where(c, where(c, both, diff(o.Floor, q.Top)), diff(q.Floor, o.Floor)), o.Floor, q.Floor)
	keep(where(c, both, diff(q.Top, o.Floor)), q.Top, q.Floor)
	return out
}

// sliver is the area in mm² below which a piece is dropped: times the thickness
// of a body it is a millionth of it.
const sliver = 1e-4

func diff(a, b part.Plane) part.Plane {
	return part.Plane{Z: a.Z - b.Z, DX: a.DX - b.DX, DY: a.DY - b.DY}
}

// where returns the part of a plan over which h is positive.
func where(c *geom.Calc, plan geom.Region, h part.Plane) geom.Region {
	if plan.Empty() {
		return nil
	}
	slope := geom.Vec{X: h.DX, Y: h.DY}
	k := slope.Len()
	if k < 1e-12 {
		if h.Z > geom.Coincident {
			return plan
		}
		return nil
	}
	b := plan.Bounds()
	size := b.W() + b.H()
	// The line of height 0, from the middle of the plan.
	on := b.Center().Add(slope.Mul(-h.At(b.Center()) / (k * k)))
	if off := on.Dist(b.Center()); off > size {
		if h.At(b.Center()) > 0 {
			return plan
		}
		return nil
	}
	u := slope.Mul(1 / k)
	half := geom.Pose(on.Add(u.Mul(2*size)), u.Angle()).Region(geom.Region{geom.Rect(geom.Pt(0, 0), 4*size, 8*size)})
	return c.Intersect(plan, half)
}
