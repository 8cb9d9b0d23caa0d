package geom

import "math"

// tidy returns p without segments shorter than Coincident, whose ends move to
// the neighbours', and with neighbours joined that lie on one line or circle.
func tidy(p Path) Path {
	out := p[:0:0]
	for _, s := range p {
		n := len(out)
		if n > 0 && s.A != out[n-1].B {
			s = s.movedEnds(out[n-1].B, s.B)
		}
		if s.A.Dist(s.B) <= Coincident {
			if n > 0 {
				out[n-1] = out[n-1].movedEnds(out[n-1].A, s.B)
			}
			continue
		}
		if n > 0 {
			if m, ok := joined(out[n-1], s); ok {
				out[n-1] = m
				continue
			}
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return p
	}
	return out
}

// movedEnds returns s from a to b. An arc keeps its sweep.
func (s Seg) movedEnds(a, b Point) Seg {
	switch {
	case s.A == a && s.B == b:
		return s
	case s.Turn == 0:
		return Line(a, b)
	}
	return ArcBulge(a, b, s.Bulge())
}

// joined returns s and t as one segment, if they lie on one line or one circle
// to a tenth of Coincident and turn no more than half round together.
func joined(s, t Seg) (Seg, bool) {
	const slack = Coincident / 10
	if s.Turn != t.Turn {
		return Seg{}, false
	}
	if s.Turn == 0 {
		u := t.B.Sub(s.A).Unit()
		d := s.B.Sub(s.A)
		return Line(s.A, t.B), math.Abs(u.Cross(d)) < slack && math.Abs(s.B.Sub(s.A).Unit().Cross(u)) < 1e-9 && u.Dot(d) > 0
	}
	if s.Center.Dist(t.Center) > slack || math.Abs(s.Radius-t.Radius) > slack {
		return Seg{}, false
	}
	sweep := float64(s.Sweep() + t.Sweep())
	if math.Abs(sweep) > math.Pi {
		return Seg{}, false
	}
	return ArcBulge(s.A, t.B, math.Tan(sweep/4)), true
}
