package geom

import "math"

// Point is a place in the plane, in millimetres, +X right, +Y up.
type Point struct{ X, Y float64 }

// Pt returns the point (x, y).
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p moved by v.
func (p Point) Add(v Vec) Point { return Point{p.X + v.X, p.Y + v.Y} }

// Sub returns the vector from q to p.
func (p Point) Sub(q Point) Vec { return Vec{p.X - q.X, p.Y - q.Y} }

// Dist returns the distance from p to q in millimetres.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Len() }

// Lerp returns the point that divides p–q at t: p at 0, q at 1.
func (p Point) Lerp(q Point, t float64) Point {
	return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)}
}

// IsFinite reports whether neither coordinate is NaN or infinite.
func (p Point) IsFinite() bool { return isFinite(p.X) && isFinite(p.Y) }

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Vec is a displacement in millimetres.
type Vec struct{ X, Y float64 }

// Unit vector at angle a, counter-clockwise from +X.
func (a Angle) Unit() Vec { s, c := math.Sincos(float64(a)); return Vec{c, s} }

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y} }

// Sub returns v − w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y} }

// Mul returns v scaled by k.
func (v Vec) Mul(k float64) Vec { return Vec{v.X * k, v.Y * k} }

// Neg returns −v.
func (v Vec) Neg() Vec { return Vec{-v.X, -v.Y} }

// Dot returns the scalar product.
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y }

// Cross returns the z component of the vector product, positive when w lies to
// the left of v.
func (v Vec) Cross(w Vec) float64 { return v.X*w.Y - v.Y*w.X }

// Len returns the length in millimetres. The squares neither overflow nor vanish
// for what is measured here, so the care of math.Hypot, which costs four times as
// much, is not needed.
func (v Vec) Len() float64 { return math.Sqrt(v.X*v.X + v.Y*v.Y) }

// Unit returns v with length 1, or the zero vector for the zero vector.
func (v Vec) Unit() Vec {
	l := v.Len()
	if l == 0 {
		return Vec{}
	}
	return Vec{v.X / l, v.Y / l}
}

// Left returns v turned by a quarter turn counter-clockwise.
func (v Vec) Left() Vec { return Vec{-v.Y, v.X} }

// Rotate returns v turned counter-clockwise by a.
func (v Vec) Rotate(a Angle) Vec {
	s, c := math.Sincos(float64(a))
	return Vec{c*v.X - s*v.Y, s*v.X + c*v.Y}
}

// Angle returns the direction of v in (−π, π], counter-clockwise from +X.
func (v Vec) Angle() Angle { return Angle(math.Atan2(v.Y, v.X)) }

// Angle is an angle in radians, counter-clockwise positive.
type Angle float64

// Degree is one degree: 1.5 * Degree is an Angle of one and a half degrees.
const Degree Angle = math.Pi / 180

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }
