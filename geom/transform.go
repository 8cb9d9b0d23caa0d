package geom

import "math"

// Transform is a similarity: rotation, one scale, an optional mirror, then a
// translation. Circles stay circles, so arcs stay arcs. The zero Transform is
// the identity. (Skewed and stretched outlines are dealt with in geom/ingest,
// on their curves, before they become arcs.)
type Transform struct {
	// x' = (1+a)x − σ·b·y + e, y' = b·x + σ(1+a)y + f, σ = −1 when mirrored
	a, b, e, f float64
	mirrored   bool
}

// Translate returns the displacement by v.
func Translate(v Vec) Transform { return Transform{e: v.X, f: v.Y} }

// Rotate returns the counter-clockwise rotation by a about the origin.
func Rotate(a Angle) Transform {
	s, c := math.Sincos(float64(a))
	return Transform{a: c - 1, b: s}
}

// Scale returns the scaling by k > 0 about the origin.
func Scale(k float64) Transform { return Transform{a: k - 1} }

// MirrorX returns the mirror image across the Y axis: x becomes −x.
func MirrorX() Transform { return Transform{a: -2, mirrored: true} }

// Pose returns the placement that turns by a about the origin and then moves
// the origin to p.
func Pose(p Point, a Angle) Transform {
	t := Rotate(a)
	t.e, t.f = p.X, p.Y
	return t
}

// Then returns the transform that does t first and u after it.
func (t Transform) Then(u Transform) Transform {
	tc, uc := 1+t.a, 1+u.a
	su := 1.0
	if u.mirrored {
		su = -1
	}
	o := u.Point(Point{t.e, t.f})
	return Transform{
		a: uc*tc - su*u.b*t.b - 1, b: u.b*tc + su*uc*t.b,
		e: o.X, f: o.Y, mirrored: t.mirrored != u.mirrored,
	}
}

// Mirrored reports whether t reverses orientation.
func (t Transform) Mirrored() bool { return t.mirrored }

// Factor returns the scale of t.
func (t Transform) Factor() float64 { return math.Hypot(1+t.a, t.b) }

// Vec returns the image of a displacement.
func (t Transform) Vec(v Vec) Vec {
	c, y := 1+t.a, v.Y
	if t.mirrored {
		y = -y
	}
	return Vec{c*v.X - t.b*y, t.b*v.X + c*y}
}

// Point returns the image of p.
func (t Transform) Point(p Point) Point {
	v := t.Vec(Vec{p.X, p.Y})
	return Point{v.X + t.e, v.Y + t.f}
}

// Seg returns the image of s.
func (t Transform) Seg(s Seg) Seg {
	r := Seg{A: t.Point(s.A), B: t.Point(s.B), Turn: s.Turn}
	if s.Turn != 0 {
		r.Center, r.Radius = t.Point(s.Center), s.Radius*t.Factor()
		if t.mirrored {
			r.Turn = -r.Turn
		}
	}
	return r
}

// Path returns the image of p, end to end in the same order.
func (t Transform) Path(p Path) Path {
	if p == nil {
		return nil
	}
	q := make(Path, len(p))
	for i, s := range p {
		q[i] = t.Seg(s)
	}
	return q
}

// Region returns the image of r. A mirror reverses every loop, so that solid
// stays counter-clockwise.
func (t Transform) Region(r Region) Region {
	if r == nil {
		return nil
	}
	q := make(Region, len(r))
	for i, p := range r {
		q[i] = t.Path(p)
		if t.mirrored {
			q[i] = q[i].Reversed()
		}
	}
	return q
}
