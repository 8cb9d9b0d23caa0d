package space

import (
	"math"

	"routwright/templates/part"
)

// Points of part serve as vectors here too: the methods below are theirs.

func sub(a, b part.Point) part.Point { return part.Point{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z} }

func add(a, b part.Point) part.Point { return part.Point{X: a.X + b.X, Y: a.Y + b.Y, Z: a.Z + b.Z} }

func mul(a part.Point, k float64) part.Point { return part.Point{X: k * a.X, Y: k * a.Y, Z: k * a.Z} }

func dot(a, b part.Point) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

func cross(a, b part.Point) part.Point {
	return part.Point{X: a.Y*b.Z - a.Z*b.Y, Y: a.Z*b.X - a.X*b.Z, Z: a.X*b.Y - a.Y*b.X}
}

func length(a part.Point) float64 { return math.Sqrt(dot(a, a)) }

// squareTo returns two unit vectors square to the unit vector u and to each
// other.
func squareTo(u part.Point) (e, f part.Point) {
	least := part.Point{X: 1}
	if math.Abs(u.X) > 0.6 { // too near to u
		least = part.Point{Y: 1}
	}
	e = cross(u, least)
	e = mul(e, 1/length(e))
	return e, cross(u, e)
}

// box is an axis-parallel box in space.
type box struct{ lo, hi part.Point }

var noBox = box{
	part.Point{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)},
	part.Point{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)},
}

func (b box) with(p part.Point) box {
	return box{
		part.Point{X: min(b.lo.X, p.X), Y: min(b.lo.Y, p.Y), Z: min(b.lo.Z, p.Z)},
		part.Point{X: max(b.hi.X, p.X), Y: max(b.hi.Y, p.Y), Z: max(b.hi.Z, p.Z)},
	}
}

func (b box) grow(d part.Point) box { return box{sub(b.lo, d), add(b.hi, d)} }

// gap returns the distance between two boxes, 0 when they meet.
func (b *box) gap(c *box) float64 {
	dx := max(0, b.lo.X-c.hi.X, c.lo.X-b.hi.X)
	dy := max(0, b.lo.Y-c.hi.Y, c.lo.Y-b.hi.Y)
	dz := max(0, b.lo.Z-c.hi.Z, c.lo.Z-b.hi.Z)
	return math.Sqrt(dx*dx + dy*dy + dz*dz)
}
