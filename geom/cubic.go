package geom

// Cubic is a cubic Bézier curve by its four control points.
type Cubic [4]Point

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

// Transform returns the image of c under any affine map.
func (c Cubic) Transform(m Affine) Cubic {
	return Cubic{m.Point(c[0]), m.Point(c[1]), m.Point(c[2]), m.Point(c[3])}
}
