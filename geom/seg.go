package geom

import "math"

// Seg is one piece of a path: the straight line from A to B, or the circular
// arc from A to B about Center. The end points rule: Center and Radius follow
// from them and may be off by rounding, the ends never are, so neighbours in a
// path share theirs bit for bit.
//
// An arc sweeps more than 0 and less than a whole turn; a full circle is two
// arcs.
type Seg struct {
	A, B   Point
	Center Point   // of the arc; zero for a line
	Radius float64 // of the arc; zero for a line
	Turn   int8    // +1 arc counter-clockwise, −1 arc clockwise, 0 straight line
}

// Line returns the straight segment from a to b.
func Line(a, b Point) Seg { return Seg{A: a, B: b} }

// ArcAbout returns the arc about c from a to b, counter-clockwise for turn +1,
// clockwise for −1. The radius is the mean of the two distances.
func ArcAbout(c, a, b Point, turn int8) Seg {
	return Seg{A: a, B: b, Center: c, Radius: (c.Dist(a) + c.Dist(b)) / 2, Turn: turn}
}

// ArcSweep returns the arc of radius r about c that starts at angle start and
// turns by sweep (negative: clockwise), |sweep| < 2π.
func ArcSweep(c Point, r float64, start, sweep Angle) Seg {
	s := Seg{Center: c, Radius: r, Turn: 1}
	if sweep < 0 {
		s.Turn = -1
	}
	s.A = c.Add(start.Unit().Mul(r))
	s.B = c.Add((start + sweep).Unit().Mul(r))
	return s
}

// ArcBulge returns the arc from a to b with the given bulge, tan(sweep/4),
// positive counter-clockwise; a bulge of 0 is the straight line. Used at the
// DXF edge, where arcs are stored so.
func ArcBulge(a, b Point, bulge float64) Seg {
	if bulge == 0 {
		return Line(a, b)
	}
	ch := b.Sub(a)
	// The centre lies on the chord's perpendicular bisector, at
	// chord·(1 − bulge²)/(4·bulge) to the left.
	h := (1 - bulge*bulge) / (4 * bulge)
	c := a.Lerp(b, 0.5).Add(ch.Left().Mul(h))
	s := ArcAbout(c, a, b, 1)
	if bulge < 0 {
		s.Turn = -1
	}
	return s
}

// ArcThrough returns the arc from a through m to b, or the line a–b when the
// three are collinear within Coincident.
func ArcThrough(a, m, b Point) Seg {
	u, v := m.Sub(a), b.Sub(a)
	cr := u.Cross(v)
	if math.Abs(cr) <= Coincident*v.Len() {
		return Line(a, b)
	}
	uu, vv := u.Dot(u), v.Dot(v)
	c := a.Add(Vec{v.Y*uu - u.Y*vv, u.X*vv - v.X*uu}.Mul(1 / (2 * cr)))
	s := ArcAbout(c, a, b, 1)
	if cr < 0 {
		s.Turn = -1
	}
	return s
}

// IsArc reports whether s is an arc.
func (s Seg) IsArc() bool { return s.Turn != 0 }

// Sweep returns the signed angle that s turns through: 0 for a line, else in
// (0, 2π) with the sign of Turn.
func (s Seg) Sweep() Angle {
	if s.Turn == 0 {
		return 0
	}
	u, v := s.A.Sub(s.Center), s.B.Sub(s.Center)
	a := math.Atan2(u.Cross(v), u.Dot(v)) * float64(s.Turn)
	if a < 0 {
		a += 2 * math.Pi
	}
	return Angle(a * float64(s.Turn))
}

// Bulge returns tan(sweep/4), 0 for a line.
func (s Seg) Bulge() float64 { return math.Tan(float64(s.Sweep()) / 4) }

// Length returns the length in millimetres.
func (s Seg) Length() float64 {
	if s.Turn == 0 {
		return s.A.Dist(s.B)
	}
	return s.Radius * math.Abs(float64(s.Sweep()))
}

// At returns the point at t of the length, A at 0, B at 1.
func (s Seg) At(t float64) Point {
	switch {
	case t == 0:
		return s.A
	case t == 1:
		return s.B
	case s.Turn == 0:
		return s.A.Lerp(s.B, t)
	}
	return s.Center.Add(s.A.Sub(s.Center).Rotate(Angle(t) * s.Sweep()))
}

// Tangent returns the unit direction of travel at t of the length.
func (s Seg) Tangent(t float64) Vec {
	if s.Turn == 0 {
		return s.B.Sub(s.A).Unit()
	}
	return s.At(t).Sub(s.Center).Left().Mul(float64(s.Turn)).Unit()
}

// Curvature returns Turn/Radius in 1/mm, 0 for a line, positive to the left.
func (s Seg) Curvature() float64 {
	if s.Turn == 0 {
		return 0
	}
	return float64(s.Turn) / s.Radius
}

// Reversed returns s travelled from B to A.
func (s Seg) Reversed() Seg {
	s.A, s.B, s.Turn = s.B, s.A, -s.Turn
	return s
}

// onSweep reports whether the direction v from the centre lies on the arc.
func (s Seg) onSweep(v Vec) bool {
	a, b := s.A.Sub(s.Center), s.B.Sub(s.Center)
	if s.Turn < 0 {
		a, b = b, a
	}
	if a.Cross(b) > 0 || a.Cross(b) == 0 && a.Dot(b) > 0 { // less than half a turn
		return a.Cross(v) >= 0 && v.Cross(b) >= 0
	}
	return a.Cross(v) >= 0 || v.Cross(b) >= 0
}

// Bounds returns the least box that holds s.
func (s Seg) Bounds() Box {
	b := BoxOf(s.A, s.B)
	if s.Turn != 0 {
		for _, v := range [4]Vec{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			if s.onSweep(v) {
				b = b.Extend(s.Center.Add(v.Mul(s.Radius)))
			}
		}
	}
	return b
}

// Closest returns the point of s nearest to p.
func (s Seg) Closest(p Point) Point {
	if s.Turn == 0 {
		d := s.B.Sub(s.A)
		l := d.Dot(d)
		if l == 0 {
			return s.A
		}
		t := p.Sub(s.A).Dot(d) / l
		switch {
		case t <= 0:
			return s.A
		case t >= 1:
			return s.B
		}
		return s.A.Lerp(s.B, t)
	}
	v := p.Sub(s.Center)
	if v != (Vec{}) && s.onSweep(v) {
		return s.Center.Add(v.Unit().Mul(s.Radius))
	}
	if p.Dist(s.A) <= p.Dist(s.B) {
		return s.A
	}
	return s.B
}

// Split returns the two pieces of s on either side of t, 0 < t < 1.
func (s Seg) Split(t float64) (Seg, Seg) {
	m := s.At(t)
	u, v := s, s
	u.B, v.A = m, m
	return u, v
}

// area2 returns twice the signed area between the origin o, A and B along s.
func (s Seg) area2(o Point) float64 {
	a := s.A.Sub(o).Cross(s.B.Sub(o))
	if s.Turn != 0 {
		w := float64(s.Sweep())
		a += s.Radius * s.Radius * (w - math.Sin(w))
	}
	return a
}
