package geom

// Winding returns how often the closed path p turns round q counter-clockwise.
// On the path itself it is that of one of the two sides. O(n).
func (p Path) Winding(q Point) int {
	w := 0
	for i := range p {
		w += p[i].windingOf(q)
	}
	return w
}

// windingOf returns the share of s in the winding number about q: the crossings
// of its chord with the ray from q to +X, counted half open, and one turn more
// when q lies between the arc and the chord.
func (s *Seg) windingOf(q Point) int {
	w := 0
	side := s.B.Sub(s.A).Cross(q.Sub(s.A)) // > 0: q left of the chord
	right := side < 0                      // on the chord: the side that the half-open rule puts q on
	switch {
	case s.A.Y <= q.Y && s.B.Y > q.Y:
		right = side <= 0
		if !right {
			w = 1
		}
	case s.B.Y <= q.Y && s.A.Y > q.Y:
		if right {
			w = -1
		}
	case side == 0:
		right = s.B.X < s.A.X // q on a level chord counts as just above it
	}
	// Between chord and arc is right of the chord when the arc turns left.
	if s.Turn != 0 && right == (s.Turn > 0) {
		d := q.Sub(s.Center)
		if d.Dot(d) < s.Radius*s.Radius {
			w += int(s.Turn)
		}
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
