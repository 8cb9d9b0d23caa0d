package render

import (
	"math"

	"routwright/geom"
)

// TextBox is the rectangle that words cover, turned with them.
type TextBox struct {
	O      geom.Point // where the base line starts
	U      geom.Vec   // unit, along the base line
	W      float64    // along U
	Lo, Hi float64    // below and above the base line, Lo ≤ 0
}

// Box returns the rectangle that t's letters cover, measured in the embedded
// font.
func (t Text) Box() TextBox {
	f := face(t.Bold)
	k := t.Size / f.cap
	b := TextBox{O: t.At, U: t.Angle.Unit()}
	if t.Angle == 0 {
		b.U = geom.Vec{X: 1} // exact
	}
	for _, r := range t.S {
		g, ok := f.glyph(r)
		if !ok {
			g = f.box
		}
		b.W += g.advance * k
		b.Lo, b.Hi = min(b.Lo, g.low*k), max(b.Hi, g.high*k)
	}
	switch t.Anchor {
	case Middle:
		b.O = b.O.Add(b.U.Mul(-b.W / 2))
	case End:
		b.O = b.O.Add(b.U.Mul(-b.W))
	}
	return b
}

// Grow returns b with every side moved outward by d mm.
func (b TextBox) Grow(d float64) TextBox {
	b.O = b.O.Add(b.U.Mul(-d))
	b.W += 2 * d
	b.Lo -= d
	b.Hi += d
	return b
}

// Corners returns the corners counter-clockwise from the lower start.
func (b TextBox) Corners() [4]geom.Point {
	n := b.U.Left()
	s := b.O.Add(n.Mul(b.Lo))
	e := s.Add(b.U.Mul(b.W))
	h := n.Mul(b.Hi - b.Lo)
	return [4]geom.Point{s, e, e.Add(h), s.Add(h)}
}

// Bounds returns the least upright box that holds b.
func (b TextBox) Bounds() geom.Box {
	c := b.Corners()
	return geom.BoxOf(c[:]...)
}

// Center returns the middle of b.
func (b TextBox) Center() geom.Point {
	c := b.Corners()
	return c[0].Lerp(c[2], 0.5)
}

// local returns p in b's own frame: along and above the base line.
func (b TextBox) local(p geom.Point) geom.Point {
	v := p.Sub(b.O)
	return geom.Pt(v.Dot(b.U), b.U.Cross(v))
}

// Overlaps reports whether b and c share more than an edge (separating axes).
func (b TextBox) Overlaps(c TextBox) bool { return !b.parted(c) && !c.parted(b) }

func (b TextBox) parted(c TextBox) bool {
	q := c.Corners()
	l := geom.BoxOf(b.local(q[0]), b.local(q[1]), b.local(q[2]), b.local(q[3]))
	const touch = 1e-9 // mm, rounding only
	return l.Max.X <= touch || l.Min.X >= b.W-touch || l.Max.Y <= b.Lo+touch || l.Min.Y >= b.Hi-touch
}

// Hits reports whether s passes through b.
func (b TextBox) Hits(s geom.Seg) bool {
	m := geom.Seg{A: b.local(s.A), B: b.local(s.B), Turn: s.Turn}
	if s.Turn != 0 {
		m.Center, m.Radius = b.local(s.Center), s.Radius
	} else if b.beyond(m.A, m.B) {
		return false // most lines that are asked about
	}
	return segInBox(m, geom.BoxOf(geom.Pt(0, b.Lo), geom.Pt(b.W, b.Hi)))
}

// beyond reports whether two points in b's own frame lie beyond the same side of
// it, clearly enough that rounding cannot say otherwise.
func (b TextBox) beyond(p, q geom.Point) bool {
	const clear = 1e-6 // mm
	return max(p.X, q.X) < -clear || min(p.X, q.X) > b.W+clear || max(p.Y, q.Y) < b.Lo-clear || min(p.Y, q.Y) > b.Hi+clear
}

// segInBox reports whether a part of s lies in the box. Exact for arcs: an end
// lies inside, or the segment crosses one of the four edges.
func segInBox(s geom.Seg, b geom.Box) bool {
	if b.Contains(s.A) || b.Contains(s.B) {
		return true
	}
	if s.Turn == 0 {
		return lineInBox(s.A, s.B, b)
	}
	if !b.Overlaps(s.Bounds()) {
		return false
	}
	c := [4]geom.Point{b.Min, geom.Pt(b.Max.X, b.Min.Y), b.Max, geom.Pt(b.Min.X, b.Max.Y)}
	for i := range c {
		a, d := c[i], c[(i+1)%4]
		for _, t := range crossings(a, d.Sub(a), s) {
			if t >= 0 && t <= 1 {
				return true
			}
		}
	}
	return false
}

// lineInBox clips the straight line a–b against b (Liang and Barsky, "A New
// Concept and Method for Line Clipping", 1984).
func lineInBox(p, q geom.Point, b geom.Box) bool {
	t0, t1 := 0.0, 1.0
	clip := func(d, lo, hi float64) bool { // lo ≤ d·t ≤ hi
		switch {
		case d == 0:
			return lo <= 0 && hi >= 0
		case d < 0:
			lo, hi = hi, lo
		}
		t0, t1 = max(t0, lo/d), min(t1, hi/d)
		return t0 <= t1
	}
	return clip(q.X-p.X, b.Min.X-p.X, b.Max.X-p.X) && clip(q.Y-p.Y, b.Min.Y-p.Y, b.Max.Y-p.Y)
}

// crossings returns where the endless line o + t·d meets s, as values of t. A
// line that touches an arc or runs along a segment does not cross it.
func crossings(o geom.Point, d geom.Vec, s geom.Seg) []float64 {
	if s.Turn == 0 {
		// Half open, so that a line through a shared vertex is counted once, as in
		// the usual even-odd rule.
		a, b := d.Cross(s.A.Sub(o)), d.Cross(s.B.Sub(o))
		if (a >= 0) == (b >= 0) {
			return nil
		}
		p := s.A.Lerp(s.B, a/(a-b))
		return []float64{p.Sub(o).Dot(d) / d.Dot(d)}
	}
	l := d.Len()
	u := d.Mul(1 / l)
	h := u.Cross(s.Center.Sub(o)) // the centre's height over the line
	w := s.Radius*s.Radius - h*h
	if w <= 0 {
		return nil
	}
	w = math.Sqrt(w)
	m := s.Center.Sub(o).Dot(u)
	var ts []float64
	for _, t := range [2]float64{m - w, m + w} {
		if onArc(s, o.Add(u.Mul(t)), o, d) {
			ts = append(ts, t/l)
		}
	}
	return ts
}

// onArc reports whether the crossing p of the line o + t·d with s's circle lies
// on s. Near an end of the arc it is the end's side of the line that decides,
// by the same rule as for straight segments, so that a crossing at a joint is
// counted once and not lost to rounding.
func onArc(s geom.Seg, p, o geom.Point, d geom.Vec) bool {
	sweep := float64(s.Sweep()) * float64(s.Turn)
	u, v := s.A.Sub(s.Center), p.Sub(s.Center)
	a := math.Atan2(u.Cross(v), u.Dot(v)) * float64(s.Turn)
	if a < 0 {
		a += 2 * math.Pi
	}
	const near = 1e-7 // radians
	atA := min(a, 2*math.Pi-a)
	atB := math.Abs(a - sweep)
	if atA > near && atB > near {
		return a < sweep
	}
	// The arc leaves A, or reaches B, on one side of the line: the joint counts
	// here when the end lies on the upper side and the arc comes from below, or
	// the other way round.
	end, in := s.A, s.Tangent(0)
	if atB < atA {
		end, in = s.B, s.Tangent(1).Neg()
	}
	up := d.Cross(end.Sub(o)) >= 0
	rising := d.Cross(in) > 0
	return up != rising
}
