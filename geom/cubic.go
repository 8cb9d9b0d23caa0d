package geom

import "math"

// Cubic is a cubic Bézier curve by its four control points.
type Cubic [4]Point

// Curve is a smooth curve with parameters from 0 to 1.
type Curve interface {
	At(t float64) Point
	Deriv(t float64) Vec
}

// QuadraticCubic returns the cubic that equals a quadratic Bézier curve.
func QuadraticCubic(a, b, c Point) Cubic {
	return Cubic{a, a.Lerp(b, 2.0/3), c.Lerp(b, 2.0/3), c}
}

// At returns the point at t.
func (c Cubic) At(t float64) Point {
	u := 1 - t
	a, b, d, e := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{a*c[0].X + b*c[1].X + d*c[2].X + e*c[3].X, a*c[0].Y + b*c[1].Y + d*c[2].Y + e*c[3].Y}
}

// Deriv returns the first derivative at t. Where it vanishes at an end, because
// control points coincide, the direction of the nearest other control point is
// returned instead.
func (c Cubic) Deriv(t float64) Vec {
	u := 1 - t
	v := c[1].Sub(c[0]).Mul(3 * u * u).Add(c[2].Sub(c[1]).Mul(6 * u * t)).Add(c[3].Sub(c[2]).Mul(3 * t * t))
	if v.Len() > 1e-12*(c[3].Dist(c[0])+c[1].Dist(c[2])) {
		return v
	}
	if t < 0.5 {
		for _, p := range c[1:] {
			if p != c[0] {
				return p.Sub(c[0])
			}
		}
	}
	for _, p := range []Point{c[2], c[1], c[0]} {
		if p != c[3] {
			return c[3].Sub(p)
		}
	}
	return Vec{}
}

// Split returns the two halves of c on either side of t (de Casteljau).
func (c Cubic) Split(t float64) (Cubic, Cubic) {
	ab, bc, cd := c[0].Lerp(c[1], t), c[1].Lerp(c[2], t), c[2].Lerp(c[3], t)
	abc, bcd := ab.Lerp(bc, t), bc.Lerp(cd, t)
	m := abc.Lerp(bcd, t)
	return Cubic{c[0], ab, abc, m}, Cubic{m, bcd, cd, c[3]}
}

// Reversed returns c travelled the other way.
func (c Cubic) Reversed() Cubic { return Cubic{c[3], c[2], c[1], c[0]} }

// Affine is a general affine map, in the order of an SVG matrix:
// x' = a·x + c·y + e, y' = b·x + d·y + f.
type Affine [6]float64

// Identity is the affine map that changes nothing.
var Identity = Affine{1, 0, 0, 1, 0, 0}

// Point returns the image of p.
func (m Affine) Point(p Point) Point {
	return Point{m[0]*p.X + m[2]*p.Y + m[4], m[1]*p.X + m[3]*p.Y + m[5]}
}

// Vec returns the image of a displacement.
func (m Affine) Vec(v Vec) Vec { return Vec{m[0]*v.X + m[2]*v.Y, m[1]*v.X + m[3]*v.Y} }

// Cubic returns the image of a curve.
func (m Affine) Cubic(c Cubic) Cubic {
	return Cubic{m.Point(c[0]), m.Point(c[1]), m.Point(c[2]), m.Point(c[3])}
}

// Then returns the map that does m first and n after it.
func (m Affine) Then(n Affine) Affine {
	o := n.Point(Point{m[4], m[5]})
	return Affine{
		n[0]*m[0] + n[2]*m[1], n[1]*m[0] + n[3]*m[1],
		n[0]*m[2] + n[2]*m[3], n[1]*m[2] + n[3]*m[3], o.X, o.Y,
	}
}

// Similar reports whether m keeps circles, to a relative 1e-9, with its scale
// and whether it mirrors.
func (m Affine) Similar() (scale float64, mirrored, ok bool) {
	u, v := Vec{m[0], m[1]}, Vec{m[2], m[3]}
	scale = u.Len()
	if scale == 0 || math.Abs(v.Len()-scale) > 1e-9*scale || math.Abs(u.Dot(v)) > 1e-9*scale*scale {
		return 0, false, false
	}
	return scale, u.Cross(v) < 0, true
}
