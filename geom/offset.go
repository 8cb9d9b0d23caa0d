package geom

import "math"

// Offset returns r grown by d mm on every side, or shrunk for negative d: arcs
// stay arcs, and with round joins every point of the result's edge lies |d| from
// r's edge. A neck of a width of exactly 2|d| does not survive shrinking.
//
// The method: each segment is moved by d, outside corners are joined, inside
// corners trimmed or led back over the vertex, and an arc that would turn inside
// out goes over its centre. Every strip between a segment and its image is then
// positively wound, so the result is where the winding number is positive.
// After Chen & McMains, "Polygon Offsetting by Computing Winding Numbers", ASME
// DETC2005-85513, extended to arcs. O(n log n) with O(n) crossings.
func (c *Calc) Offset(r Region, d float64, j Join) Region {
	if c.err != nil || len(r) == 0 {
		return nil
	}
	if d == 0 {
		return r
	}
	var curves []Seg
	for _, p := range r {
		curves = appendRaw(curves, p, d, j)
	}
	return c.solve(curves, nil, func(w winding) bool { return w[0] > 0 })
}

// OffsetPath returns the region within d > 0 mm of an open or closed path, as a
// round tool of diameter 2d following it would cut.
func (c *Calc) OffsetPath(p Path, d float64) Region {
	if c.err != nil || len(p) == 0 || !(d > 0) {
		return nil
	}
	if p.Closed() {
		curves := appendRaw(appendRaw(nil, p, d, Round), p.Reversed(), d, Round)
		// The inside of the path counts +1 and −1; only the strips remain.
		return c.solve(curves, nil, func(w winding) bool { return w[0] > 0 })
	}
	there := append(append(Path{}, p...), p.Reversed()...)
	return c.solve(appendRaw(nil, there, d, Round), nil, func(w winding) bool { return w[0] > 0 })
}

// moved is a segment's image at the offset, before joining.
type moved struct {
	seg       Seg
	collapsed bool  // the arc's radius would not be positive: over the centre
	via       Point // its centre
}

// appendRaw appends the raw offset curve of a closed path, d to its right.
func appendRaw(out []Seg, p Path, d float64, j Join) []Seg {
	n := len(p)
	imgs := make([]moved, n)
	for i, s := range p {
		imgs[i] = s.moved(d)
	}
	trims := trimInside(p, imgs, d)
	for i := range p {
		k := (i + 1) % n
		out = appendImage(out, imgs[i])
		a, b := imgs[i].seg.B, imgs[k].seg.A
		if trims[i] || a == b {
			continue
		}
		out = appendJoin(out, p[i], p[k], a, b, d, j)
	}
	return out
}

// moved returns s shifted by d to its right.
func (s Seg) moved(d float64) moved {
	if s.Turn == 0 {
		n := s.Tangent(0).Left().Mul(-d)
		return moved{seg: Line(s.A.Add(n), s.B.Add(n))}
	}
	r := s.Radius + d*float64(s.Turn)
	ua, ub := s.A.Sub(s.Center).Unit(), s.B.Sub(s.Center).Unit()
	if r <= Coincident {
		return moved{seg: Seg{A: s.Center.Add(ua.Mul(r)), B: s.Center.Add(ub.Mul(r))}, collapsed: true, via: s.Center}
	}
	m := s
	m.Radius = r
	m.A, m.B = s.Center.Add(ua.Mul(r)), s.Center.Add(ub.Mul(r))
	return moved{seg: m}
}

func appendImage(out []Seg, m moved) []Seg {
	if m.collapsed {
		return appendLine(appendLine(out, m.seg.A, m.via), m.via, m.seg.B)
	}
	if m.seg.A.Dist(m.seg.B) < Coincident && m.seg.Length() < Coincident {
		return appendLine(out, m.seg.A, m.seg.B)
	}
	return append(out, m.seg)
}

func appendLine(out []Seg, a, b Point) []Seg {
	if a == b {
		return out
	}
	return append(out, Line(a, b))
}

// appendJoin joins the images a and b of the vertex between s and t.
func appendJoin(out []Seg, s, t Seg, a, b Point, d float64, j Join) []Seg {
	if a.Dist(b) <= Coincident {
		return appendLine(out, a, b)
	}
	v := t.A
	u, w := s.Tangent(1), t.Tangent(0)
	turn := math.Atan2(u.Cross(w), u.Dot(w))
	outside := turn > 0 == (d > 0)
	if math.Abs(turn) > math.Pi-1e-9 { // a cusp: all round it, on the offset's side
		outside, turn = true, math.Copysign(math.Pi, d)
	}
	if !outside {
		return appendLine(appendLine(out, a, v), v, b)
	}
	if j.MitreLimit > 0 {
		// The mitre's point lies d/cos(turn/2) from the vertex.
		if c := math.Cos(turn / 2); c > 0 && 1/c <= j.MitreLimit {
			m := a.Sub(v).Add(b.Sub(v)).Unit()
			tip := v.Add(m.Mul(math.Abs(d) / c))
			return appendLine(appendLine(out, a, tip), tip, b)
		}
	}
	arc := Seg{A: a, B: b, Center: v, Radius: math.Abs(d), Turn: 1}
	if d < 0 {
		arc.Turn = -1
	}
	return append(out, arc)
}

// trimInside shortens the images on both sides of an inside corner to the point
// where they cross, if they do, and reports for each vertex (the one after
// segment i) whether it did. The kite that this cuts off is covered by both
// strips, so no positive winding is lost.
func trimInside(p Path, imgs []moved, d float64) []bool {
	n := len(p)
	at := make([]Point, n)
	ok := make([]bool, n)
	for i := range p {
		k := (i + 1) % n
		if n < 3 || imgs[i].collapsed || imgs[k].collapsed || imgs[i].seg.B.Dist(imgs[k].seg.A) <= Coincident {
			continue
		}
		u, w := p[i].Tangent(1), p[k].Tangent(0)
		cr := u.Cross(w)
		if cr == 0 || cr > 0 == (d > 0) || u.Dot(w) < -0.9 {
			continue
		}
		at[i], ok[i] = crossing(imgs[i].seg, imgs[k].seg, p[k].A)
	}
	// A segment trimmed past itself from both ends keeps neither trim.
	for i := range p {
		h := (i + n - 1) % n
		if ok[h] && ok[i] && !imgs[i].seg.ordered(at[h], at[i]) {
			ok[h], ok[i] = false, false
		}
	}
	for i := range p {
		if ok[i] {
			imgs[i].seg.B, imgs[(i+1)%n].seg.A = at[i], at[i]
		}
	}
	return ok
}

// ordered reports whether p comes clearly before q along s.
func (s Seg) ordered(p, q Point) bool {
	if p.Dist(q) < 10*Coincident {
		return false
	}
	if s.Turn == 0 {
		return q.Sub(p).Dot(s.B.Sub(s.A)) > 0
	}
	a := s
	a.B = p
	b := s
	b.B = q
	return math.Abs(float64(a.Sweep())) < math.Abs(float64(b.Sweep()))
}

// crossing returns the crossing of two images nearest to the vertex they share,
// if it lies clearly inside both.
func crossing(s, t Seg, v Point) (Point, bool) {
	var raw [2]Point
	n := 0
	switch {
	case s.Turn == 0 && t.Turn == 0:
		n = lineLine(s, t, &raw)
	case s.Turn == 0:
		n = lineCircle(s, t.Center, t.Radius, 0, &raw)
	case t.Turn == 0:
		n = lineCircle(t, s.Center, s.Radius, 0, &raw)
	default:
		n = circleCircle(s.Center, s.Radius, t.Center, t.Radius, 0, &raw)
	}
	best, found := Point{}, false
	for _, p := range raw[:n] {
		const inside = 10 * Coincident
		if s.Closest(p).Dist(p) > 1e-9 || t.Closest(p).Dist(p) > 1e-9 ||
			p.Dist(s.A) < inside || p.Dist(s.B) < inside || p.Dist(t.A) < inside || p.Dist(t.B) < inside {
			continue
		}
		if !found || p.Dist(v) < best.Dist(v) {
			best, found = p, true
		}
	}
	return best, found
}
