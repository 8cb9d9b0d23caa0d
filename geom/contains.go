package geom

// Winding returns how often the closed path p turns round q counter-clockwise.
// On the path itself it is that of one of the two sides. O(n).
func (p Path) Winding(q Point) int {
	w := 0
	for _, s := range p {
		w += s.windingOf(q)
	}
	return w
}

// windingOf returns the signed crossings of s with the ray from q along +X.
func (s Seg) windingOf(q Point) int {
	if s.Turn == 0 {
		switch {
		case s.A.Y <= q.Y && s.B.Y > q.Y:
			if s.B.Sub(s.A).Cross(q.Sub(s.A)) > 0 {
				return 1
			}
		case s.B.Y <= q.Y && s.A.Y > q.Y:
			if s.B.Sub(s.A).Cross(q.Sub(s.A)) < 0 {
				return -1
			}
		}
		return 0
	}
	// The chord's crossings, and a turn more or less where q lies between chord
	// and arc.
	w := Line(s.A, s.B).windingOf(q)
	if q.Dist(s.Center) >= s.Radius {
		return w
	}
	side := s.B.Sub(s.A).Cross(q.Sub(s.A)) * float64(s.Turn)
	// Between chord and arc is right of the chord when the arc turns left.
	if side < 0 || side == 0 && s.A == s.B {
		w += int(s.Turn)
	}
	return w
}

// Contains reports whether q lies in r. On the edge it may say either. O(n).
func (r Region) Contains(q Point) bool {
	w := 0
	for _, p := range r {
		w += p.Winding(q)
	}
	return w > 0
}

// Components returns the pieces of r: each outer loop with the holes in it.
func (r Region) Components() []Region {
	var out []Region
	var outer []Path
	for _, p := range r {
		if p.Area() > 0 {
			outer = append(outer, p)
			out = append(out, Region{p})
		}
	}
	for _, p := range r {
		if len(p) == 0 || p.Area() > 0 {
			continue
		}
		// A hole belongs to the smallest loop round it.
		best, least := -1, 0.0
		for i, o := range outer {
			if a := o.Area(); o.Winding(p.insidePoint()) > 0 && (best < 0 || a < least) {
				best, least = i, a
			}
		}
		if best >= 0 {
			out[best] = append(out[best], p)
		}
	}
	return out
}

// insidePoint returns a point on the side that p encloses, close to the middle
// of its longest segment.
func (p Path) insidePoint() Point {
	var s Seg
	for _, t := range p {
		if t.A.Dist(t.B) >= s.A.Dist(s.B) {
			s = t
		}
	}
	n := s.Tangent(0.5).Left()
	if p.Area() < 0 {
		n = n.Neg()
	}
	return s.At(0.5).Add(n.Mul(1e-3 * s.A.Dist(s.B)))
}
