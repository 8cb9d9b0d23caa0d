package geom

import "math"

// Curve is a plane curve with parameters from 0 to 1. Deriv is the first
// derivative by the parameter; its direction is the direction of travel. A
// corner or a cusp inside is allowed: FitCurve finds it, and calls both from several
// goroutines at once.
type Curve interface {
	At(t float64) Point
	Deriv(t float64) Vec
}

// Ellipse is an arc of an ellipse, exactly: Center + cos(a)·U + sin(a)·V for a
// from Start to Start + Sweep. U and V are conjugate half diameters: any affine
// image of a circle is of this kind (see Affine.Ellipse).
type Ellipse struct {
	Center       Point
	U, V         Vec
	Start, Sweep Angle
}

// EllipticArc returns the arc of the ellipse about center with half axes rx and
// ry mm, the rx axis turned by rotation from +X, from the parameter angle start
// on, through sweep (negative: clockwise). Parameter angles are those of SVG and
// DXF: the angle on the circle that the ellipse is a squeezed image of.
func EllipticArc(center Point, rx, ry float64, rotation, start, sweep Angle) Ellipse {
	u := rotation.Unit()
	return Ellipse{center, u.Mul(rx), u.Left().Mul(ry), start, sweep}
}

// At returns the point at t, 0 at Start, 1 at Start + Sweep.
func (e Ellipse) At(t float64) Point {
	s, c := math.Sincos(float64(e.Start) + t*float64(e.Sweep))
	return e.Center.Add(e.U.Mul(c)).Add(e.V.Mul(s))
}

// Deriv returns the derivative by t.
func (e Ellipse) Deriv(t float64) Vec {
	s, c := math.Sincos(float64(e.Start) + t*float64(e.Sweep))
	return e.V.Mul(c).Sub(e.U.Mul(s)).Mul(float64(e.Sweep))
}

// knotted is a curve that knows the parameters, between 0 and 1, at which it may
// bend less smoothly than elsewhere.
type knotted interface{ breaks() []float64 }
