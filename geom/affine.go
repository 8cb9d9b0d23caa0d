package geom

import "math"

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

// Cubic returns the image of c, exactly: Bézier curves are affine invariant.
func (m Affine) Cubic(c Cubic) Cubic { return c.Transform(m) }

// Ellipse returns the image of an elliptic arc, exactly.
func (m Affine) Ellipse(e Ellipse) Ellipse {
	return Ellipse{m.Point(e.Center), m.Vec(e.U), m.Vec(e.V), e.Start, e.Sweep}
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
