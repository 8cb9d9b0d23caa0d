package part

import (
	"math"

	"routwright/geom"
)

// Extremes returns the place of the solid nearest to the front and the place
// nearest to the back: exact over sloped surfaces and round plans.
func (s Solid) Extremes() (top, floor Point) {
	p := lowest(s.Plan, geom.Vec{X: s.Top.DX, Y: s.Top.DY})
	q := lowest(s.Plan, geom.Vec{X: -s.Floor.DX, Y: -s.Floor.DY})
	return Point{p.X, p.Y, s.Top.At(p)}, Point{q.X, q.Y, s.Floor.At(q)}
}

// lowest returns the point of a region that lies furthest against v: a corner, or
// the place of an arc that faces that way. The middle for no direction.
func lowest(r geom.Region, v geom.Vec) geom.Point {
	if v == (geom.Vec{}) {
		return r.Bounds().Center()
	}
	best, least := geom.Point{}, math.Inf(1)
	try := func(p geom.Point) {
		if d := v.X*p.X + v.Y*p.Y; d < least {
			best, least = p, d
		}
	}
	back := v.Unit().Neg()
	for _, loop := range r {
		for _, e := range loop {
			try(e.A)
			if e.IsArc() {
				// The place of the whole circle that faces back, kept to the arc.
				try(e.Closest(e.Center.Add(back.Mul(2 * e.Radius))))
			}
		}
	}
	return best
}
