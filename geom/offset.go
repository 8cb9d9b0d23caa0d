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
	if d == 0 && c.err == nil {
		return r
	}
	return c.solve([2][]Region{{r}}, func(w winding) bool { return w[0] > 0 },
		func(a *arrangement, _ uint8, p Path) { c.raw.load(a, p, d, j) })
}

// OffsetPath returns the region within d > 0 mm of an open or closed path, as a
// round tool of diameter 2d following it would cut. It is empty for d ≤ 0.
func (c *Calc) OffsetPath(p Path, d float64) Region {
	if c.err != nil || len(p) == 0 || !(d > 0) {
		return nil
	}
	loops := Region{p, p.Reversed()} // the inside counts +1 and −1; the strips remain
	if !p.Closed() {
		loops = Region{append(append(Path{}, p...), p.Reversed()...)}
	}
	return c.solve([2][]Region{{loops}}, func(w winding) bool { return w[0] > 0 },
		func(a *arrangement, _ uint8, p Path) { c.raw.load(a, p, d, Round) })
}

// rawCurve is scratch memory for the images of one path.
type rawCurve struct {
	imgs  []image
	trims []trim
}

// image is a segment's image at the offset, before joining.
type image struct {
	seg       Seg
	from, to  Vec  // directions of travel at the ends of the source
	collapsed bool // the arc's radius would not be positive: over its centre
}

// trim is what becomes of the images on both sides of the vertex after a
// segment.
type trim struct {
	at   Point
	kind trimKind
}

type trimKind uint8

const (
	untrimmed trimKind = iota
	welded             // the images meet already
	trimmed            // cut where they cross
)

// load adds the raw offset curve of a closed path, d to its right.
func (w *rawCurve) load(a *arrangement, p Path, d float64, j Join) {
	n := len(p)
	if n == 0 {
		return
	}
	w.imgs, w.trims = grown(w.imgs, n), grown(w.trims, n)
	for i := range p {
		p[i].moveInto(&w.imgs[i], d)
	}
	w.trim(p, d)
	a.open(0)
	for i := range p {
		k := i + 1
		if k == n {
			k = 0
		}
		m := &w.imgs[i]
		if m.collapsed {
			a.addLine(m.seg.A, m.seg.Center)
			a.addLine(m.seg.Center, m.seg.B)
		} else {
			a.add(m.seg)
		}
		if w.trims[i].kind == untrimmed {
			a.addJoin(m, &w.imgs[k], p[k].A, d, j)
		}
	}
	a.close()
}

// moveInto makes m the image of s, shifted by d to its right.
func (s *Seg) moveInto(m *image, d float64) {
	m.collapsed = false
	m.seg = *s
	if s.Turn == 0 {
		v := s.B.Sub(s.A)
		v = v.Mul(1 / math.Sqrt(v.Dot(v)))
		m.from, m.to = v, v
		n := Vec{v.Y * d, -v.X * d}
		m.seg.A, m.seg.B = s.A.Add(n), s.B.Add(n)
		return
	}
	turn := float64(s.Turn)
	ua, ub := s.A.Sub(s.Center), s.B.Sub(s.Center)
	ua, ub = ua.Mul(1/math.Sqrt(ua.Dot(ua))), ub.Mul(1/math.Sqrt(ub.Dot(ub)))
	m.from, m.to = Vec{-ua.Y * turn, ua.X * turn}, Vec{-ub.Y * turn, ub.X * turn}
	// From the ends, not from the centre: they rule.
	k := d * turn
	m.seg.A, m.seg.B = s.A.Add(ua.Mul(k)), s.B.Add(ub.Mul(k))
	m.seg.Radius = s.Radius + k
	m.collapsed = m.seg.Radius <= Coincident
}

func (a *arrangement) addLine(p, q Point) {
	if p == q {
		a.given++
		return
	}
	a.add(Line(p, q))
}

// addJoin joins the images m and k of the segments on both sides of the vertex v.
func (a *arrangement) addJoin(m, k *image, v Point, d float64, j Join) {
	p, q := m.seg.B, k.seg.A
	cr, dot := m.to.Cross(k.from), m.to.Dot(k.from)
	outside := cr > 0 == (d > 0)
	if dot < 0 && math.Abs(cr) < 1e-9 { // a cusp: all round it, on the offset's side
		outside = true
	}
	if !outside {
		a.addLine(p, v)
		a.addLine(v, q)
		return
	}
	if j.MitreLimit > 0 {
		// The mitre's point lies d/cos(turn/2) from the vertex.
		if c := math.Sqrt(math.Max(0, (1+dot)/2)); c > 0 && 1/c <= j.MitreLimit {
			dir := p.Sub(v).Add(q.Sub(v)).Unit()
			tip := v.Add(dir.Mul(math.Abs(d) / c))
			a.addLine(p, tip)
			a.addLine(tip, q)
			return
		}
	}
	arc := Seg{A: p, B: q, Center: v, Radius: math.Abs(d), Turn: 1}
	if d < 0 {
		arc.Turn = -1
	}
	a.add(arc)
}

// trim shortens the images on both sides of an inside corner to the point where
// they cross, if they do. The kite that this cuts off is covered by both
// strips, so no positive winding is lost.
func (w *rawCurve) trim(p Path, d float64) {
	n := len(p)
	for i := range p {
		k := i + 1
		if k == n {
			k = 0
		}
		w.trims[i] = w.corner(p, i, k, d)
	}
	// A segment trimmed past itself from both ends keeps neither trim.
	for i := range p {
		h := i - 1
		if h < 0 {
			h = n - 1
		}
		t, u := &w.trims[h], &w.trims[i]
		if t.kind == trimmed && u.kind == trimmed && !w.imgs[i].seg.ordered(t.at, u.at) {
			t.kind, u.kind = untrimmed, untrimmed
		}
	}
	for i := range p {
		k := i + 1
		if k == n {
			k = 0
		}
		if w.trims[i].kind != untrimmed {
			w.imgs[i].seg.B, w.imgs[k].seg.A = w.trims[i].at, w.trims[i].at
		}
	}
}

// weldGap is how far apart the images of a smooth joint may lie and still be
// one point: a tenth of Coincident moves no result past its tolerance.
const weldGap = Coincident / 10

// corner settles the joint between the images of segments i and k.
func (w *rawCurve) corner(p Path, i, k int, d float64) trim {
	m, q := &w.imgs[i], &w.imgs[k]
	gap := q.seg.A.Sub(m.seg.B)
	if gap.Dot(gap) <= weldGap*weldGap {
		return trim{at: m.seg.B, kind: welded}
	}
	cr, dot := m.to.Cross(q.from), m.to.Dot(q.from)
	if len(p) < 3 || m.collapsed || q.collapsed || cr == 0 || cr > 0 == (d > 0) || dot < -0.9 {
		return trim{}
	}
	if m.seg.Turn == 0 && q.seg.Turn == 0 {
		// Both lose |d|·tan(turn/2).
		h := math.Abs(d * cr / (1 + dot))
		const spare = 10 * Coincident
		if l, r := p[i].B.Sub(p[i].A).Dot(m.to), p[k].B.Sub(p[k].A).Dot(q.from); h > l-spare || h > r-spare {
			return trim{}
		}
		return trim{at: m.seg.B.Add(m.to.Mul(-h)), kind: trimmed}
	}
	if at, ok := crossing(m.seg, q.seg, p[k].A); ok {
		return trim{at: at, kind: trimmed}
	}
	return trim{}
}

// ordered reports whether p comes clearly before q along s.
func (s *Seg) ordered(p, q Point) bool {
	v := q.Sub(p)
	if v.Dot(v) < 100*Coincident*Coincident {
		return false
	}
	if s.Turn == 0 {
		return v.Dot(s.B.Sub(s.A)) > 0
	}
	a := *s
	a.B = p
	b := *s
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

// moved returns s shifted by d to its right.
func (s Seg) moved(d float64) image {
	var m image
	s.moveInto(&m, d)
	return m
}
