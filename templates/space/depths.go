package space

import (
	"math"

	"routwright/geom"
	"routwright/templates/part"
)

// Depths returns the place nearest to the front and the place nearest to the
// back, in mm below the finished front: exact, over sloped surfaces and slanting
// bores too. For an empty part they are zero.
func (b *Body) Depths() (top, floor part.Point) {
	for i := range b.units {
		u := &b.units[i]
		var t, f part.Point
		if u.solid != nil {
			t, f = depths(u.solid)
		} else {
			up := part.Point{Z: -1}
			t, f = u.pieces[0].support(up), u.pieces[0].support(mul(up, -1))
		}
		if i == 0 || t.Z < top.Z {
			top = t
		}
		if i == 0 || f.Z > floor.Z {
			floor = f
		}
	}
	return top, floor
}

// ToFace returns the least distance to a face of a body of the given thickness;
// negative, as deep as it reaches beyond, where the part comes out of it.
func (b *Body) ToFace(f part.Face, thickness float64) Gap {
	top, floor := b.Depths()
	if f == part.Back {
		return Gap{thickness - floor.Z, floor, part.Point{X: floor.X, Y: floor.Y, Z: thickness}}
	}
	return Gap{top.Z, top, part.Point{X: top.X, Y: top.Y}}
}

// depths returns the least and greatest depth of a solid and where.
func depths(s *part.Solid) (top, floor part.Point) {
	p, q := lowest(s.Plan, geom.Vec{X: s.Top.DX, Y: s.Top.DY}), lowest(s.Plan, geom.Vec{X: -s.Floor.DX, Y: -s.Floor.DY})
	return part.Point{X: p.X, Y: p.Y, Z: s.Top.At(p)}, part.Point{X: q.X, Y: q.Y, Z: s.Floor.At(q)}
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
