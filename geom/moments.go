package geom

import "math"

// Moments are the plane moments of a region: its area in mm², its centroid, and
// its second moments about the centroid in mm⁴,
//
//	Ixx = ∫ y² dA,  Iyy = ∫ x² dA,  Ixy = ∫ x·y dA.
//
// The moments of a clockwise path are those of a hole: area and second moments
// negative, the centroid where it is.
type Moments struct {
	Area          float64
	Centroid      Point
	Ixx, Iyy, Ixy float64
}

// Centroid returns the centre of area, the middle of the bounds when r has no
// area.
func (r Region) Centroid() Point { return r.Moments().Centroid }

// Centroid returns the centre of the area that the closed path p bounds, the
// middle of its bounds when it has none.
func (p Path) Centroid() Point { return Region{p}.Centroid() }

// Moments returns the moments of the area that the closed path p bounds.
func (p Path) Moments() Moments { return Region{p}.Moments() }

// Moments returns area, centroid and second moments about the centroid by
// Green's theorem: the sums for a polygon over the chords, and for each arc the
// closed form of its circular segment. No flattening; rounding only. O(n).
func (r Region) Moments() Moments {
	if r.Segs() == 0 {
		return Moments{}
	}
	// Twice: about some point of r, then about the centroid, so that parts far
	// from the origin lose no digits.
	var o Point
	for _, p := range r {
		if len(p) > 0 {
			o = p[0].A
			break
		}
	}
	g := r.integrals(o)
	if g.a == 0 {
		return Moments{Centroid: r.Bounds().Center()}
	}
	area := g.a
	c := o.Add(Vec{g.x / g.a, g.y / g.a})
	g = r.integrals(c)
	d := Vec{g.x / g.a, g.y / g.a} // what rounding left
	return Moments{
		Area:     area, // a loop that crosses itself may have its centroid far off
		Centroid: c.Add(d),
		Ixx:      g.yy - g.a*d.Y*d.Y,
		Iyy:      g.xx - g.a*d.X*d.X,
		Ixy:      g.xy - g.a*d.X*d.Y,
	}
}

// integrals are ∫ 1, x, y, x², y², xy over an area, about a stated origin.
type integrals struct{ a, x, y, xx, yy, xy float64 }

func (r Region) integrals(o Point) integrals {
	var g integrals
	for _, p := range r {
		for _, s := range p {
			g.addTriangle(s.A.Sub(o), s.B.Sub(o))
			if s.Turn != 0 {
				g.addSegment(s, o)
			}
		}
	}
	return g
}

// addTriangle adds the signed triangle 0, a, b: the usual polygon formulas.
func (g *integrals) addTriangle(a, b Vec) {
	k := a.Cross(b)
	g.a += k / 2
	g.x += k * (a.X + b.X) / 6
	g.y += k * (a.Y + b.Y) / 6
	g.xx += k * (a.X*a.X + a.X*b.X + b.X*b.X) / 12
	g.yy += k * (a.Y*a.Y + a.Y*b.Y + b.Y*b.Y) / 12
	g.xy += k * (2*a.X*a.Y + a.X*b.Y + b.X*a.Y + 2*b.X*b.Y) / 24
}

// addSegment adds the signed circular segment between the arc s and its chord.
//
//	  ___        n away from the centre, t along the chord, m its middle.
//	 / n \       By symmetry the product moment and the first moment along t
//	/__|__\ t    vanish in this frame.
//	   m
func (g *integrals) addSegment(s Seg, o Point) {
	w := math.Abs(float64(s.Sweep()))
	a, q, uu, vv := circularSegment(w / 2)
	r := s.Radius
	sign := float64(s.Turn)
	a, q = sign*a*r*r, sign*q*r*r*r
	uu, vv = sign*uu*r*r*r*r, sign*vv*r*r*r*r
	t := s.B.Sub(s.A).Unit()
	n := t.Left().Mul(-sign) // the arc bulges right of its chord when counter-clockwise
	m := s.A.Lerp(s.B, 0.5).Sub(o)
	g.a += a
	g.x += a*m.X + q*n.X
	g.y += a*m.Y + q*n.Y
	g.xx += uu*t.X*t.X + vv*n.X*n.X + 2*m.X*q*n.X + a*m.X*m.X
	g.yy += uu*t.Y*t.Y + vv*n.Y*n.Y + 2*m.Y*q*n.Y + a*m.Y*m.Y
	g.xy += uu*t.X*t.Y + vv*n.X*n.Y + q*(m.X*n.Y+m.Y*n.X) + a*m.X*m.Y
}

// circularSegment returns, for the segment of half angle h on the unit circle
// and in the frame (u along the chord, v away from the centre, origin the
// middle of the chord), the area, ∫ v, ∫ u² and ∫ v²:
//
//	a  = h − sin(2h)/2
//	q  = 3/4·sin h + sin(3h)/12 − h·cos h
//	uu = h/4 − sin(2h)/6 + sin(4h)/48
//	vv = 3/4·h + h·cos(2h)/2 − 7/12·sin(2h) − sin(4h)/48
//
// These follow from the textbook integrals about the centre (2/3·sin³h and so
// on) by moving to the chord. Flat arcs lose all digits in them, so below half a
// radian their power series are summed instead.
func circularSegment(h float64) (a, q, uu, vv float64) {
	if h > 0.5 {
		s2, s4 := math.Sin(2*h), math.Sin(4*h)
		a = h - s2/2
		q = 0.75*math.Sin(h) + math.Sin(3*h)/12 - h*math.Cos(h)
		uu = h/4 - s2/6 + s4/48
		vv = 0.75*h + h*math.Cos(2*h)/2 - 7.0/12*s2 - s4/48
		return
	}
	// The term of h^(2k+1)/(2k+1)! with the sign (−1)^k; lower ones cancel.
	// At h = 1/2 the eleventh is below 1e-17 of the first.
	term, p2, p3, p4 := h, 2.0, 3.0, 4.0 // h^(2k+1)/(2k+1)!, 2^, 3^, 4^(2k+1)
	for k := 1; k <= 12; k++ {
		n := float64(2*k + 1)
		term *= -h * h / (n * (n - 1))
		p2, p3, p4 = p2*4, p3*9, p4*16
		a -= term * p2 / 2
		if k >= 2 {
			q += term * (0.75 + p3/12 - n)
			uu += term * (p4/48 - p2/6)
		}
		if k >= 3 {
			vv += term * (n*p2/4 - 7.0/12*p2 - p4/48)
		}
	}
	return
}
