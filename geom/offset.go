package geom

import (
	"fmt"
	"math"
)

// Offset returns r grown by d mm on every side, or shrunk for negative d: arcs
// stay arcs, and with round joins every point of the result's edge lies |d| from
// r's edge, to 1e-9 mm where nothing degenerate meets and to 5e-6 mm always.
//
// Widths that are exactly used up: what is left of a neck, slot or disc narrower
// than Coincident is nothing, so a neck of exactly 2|d| separates, a slot of
// exactly 2d closes, and a disc of radius |d| vanishes. Loops of a mean width
// below Weld are dropped, and segments shorter than three times Coincident are
// drawn into their neighbours.
//
// The method: each segment is moved by d, outside corners are joined, inside
// corners trimmed or led back over the vertex, and an arc that would turn inside
// out ends in its centre. Every strip between a segment and its image is then
// positively wound, so the result is where the winding number is positive.
// After Chen & McMains, "Polygon Offsetting by Computing Winding Numbers", ASME
// DETC2005-85513, extended to arcs. O(n log n) with O(n) crossings. An outline with
// noise much coarser than its spacing, moved past its hollows, has more; with round
// joins it is moved in several steps, which is the same.
func (c *Calc) Offset(r Region, d float64, j Join) Region {
	if d == 0 && c.err == nil {
		return r
	}
	return c.offset(r, d, j)
}

func (c *Calc) offset(r Region, d float64, j Join) Region {
	if c.err == nil && !isFinite(d) {
		c.err = fmt.Errorf("offset by %g mm: the distance must be a finite number", d)
	}
	t := c.offsetTask(r, d, j)
	if j.MitreLimit == 0 {
		t.steps = func() (Region, bool) { return c.inSteps(r, d) }
		t.tangled = func() bool { return c.raw.tangle.tooMuch(d, len(c.arr.segs)) }
	}
	return c.solve(t)
}

func (c *Calc) offsetTask(r Region, d float64, j Join) task {
	return task{
		groups:      [2][]Region{{r}},
		in:          func(w winding) bool { return w[0] > 0 },
		load:        func(a *arrangement, _ uint8, p Path) { c.raw.load(a, p, d, j) },
		certificate: func(o Region, try attempt) error { return c.keepsDistance(r, o, d, j, try) },
	}
}

// OffsetPath returns the region within d > 0 mm of an open or closed path, as a
// round tool of diameter 2d following it would cut. It is empty for d ≤ 0.
func (c *Calc) OffsetPath(p Path, d float64) Region {
	if c.err != nil || len(p) == 0 || d <= 0 {
		return nil
	}
	if q := p.withoutDots(); len(q) == 0 && p[0].A.IsFinite() {
		return Region{Circle(p[0].A, d)}
	}
	loops := Region{p, p.Reversed()} // the inside counts +1 and −1; the strips remain
	if !p.Closed() {
		loops = Region{append(append(Path{}, p...), p.Reversed()...)}
	}
	return c.offset(loops, d, Round)
}

// rawCurve is scratch memory for the images of one path.
type rawCurve struct {
	imgs    []image
	corners []corner
	source  []Seg
	spurs   bool // no short cuts: lead every inside corner that is too tight back over its vertex
	tangle  tangle
}

// image is a segment's image at the offset, before joining.
type image struct {
	seg       Seg
	from, to  Vec // directions of travel at the ends of the source
	length    float64
	collapsed bool  // nothing of the image is left at this distance,
	apex      Point // and the strip ends in a point: an arc's centre
}

// corner is what becomes of the images on both sides of the vertex after a
// segment.
type corner struct {
	at   Point
	half float64 // tan(turn/2) between two lines
	kind cornerKind
}

type cornerKind uint8

const (
	outside  cornerKind = iota // joined
	welded                     // the images meet already
	bisected                   // two lines: both strips end at the bisector
	trimmed                    // cut where the images cross, one an arc
	inside                     // led back over the vertex
	mitred                     // both lead to a point
)

// load adds the raw offset curve of a closed path, d to its right.
func (w *rawCurve) load(a *arrangement, p Path, d float64, j Join) {
	p = p.withoutDots()
	n := len(p)
	if n == 0 {
		return
	}
	w.imgs, w.corners = grown(w.imgs, n), grown(w.corners, n)
	for i := range p {
		p[i].moveInto(&w.imgs[i], d)
	}
	w.settle(p, d, j)
	a.open(0)
	for i := range p {
		k := i + 1
		if k == n {
			k = 0
		}
		m, q, c := &w.imgs[i], &w.imgs[k], &w.corners[i]
		w.tangle.length += m.length
		if c.kind == inside || m.collapsed && m.seg.Turn == 0 && (c.kind == outside || w.corners[(i+n-1)%n].kind == outside) {
			w.tangle.spurs++
		}
		end, start := m.seg.B, q.seg.A
		if m.collapsed {
			end = m.apex
		} else {
			a.add(m.seg)
		}
		if q.collapsed {
			start = q.apex
		}
		switch c.kind {
		case outside:
			a.addLine(end, m.seg.B)
			a.addJoin(m, q, p[k].A, d)
			a.addLine(q.seg.A, start)
		case mitred:
			a.addLine(end, m.seg.B)
			a.addLine(m.seg.B, c.at)
			a.addLine(c.at, q.seg.A)
			a.addLine(q.seg.A, start)
		case inside:
			a.addLine(end, p[k].A)
			a.addLine(p[k].A, start)
		case bisected:
			a.addShortcut(end, start)
		default:
			a.addLine(end, start)
		}
	}
	a.close()
}

// withoutDots returns the closed path p less its segments so short that their
// directions mean nothing: p itself if it has none. The neighbours are drawn
// together, by dot at most.
func (p Path) withoutDots() Path {
	dots := false
	for i := range p {
		if p[i].isDot() {
			dots = true
			break
		}
	}
	if !dots {
		return p
	}
	var out Path
	for _, s := range p {
		if s.isDot() {
			continue
		}
		if n := len(out); n > 0 && s.A != out[n-1].B {
			s.A = out[n-1].B
			s = s.onEnds()
		}
		out = append(out, s)
	}
	if n := len(out); n > 0 && out[n-1].B != out[0].A {
		out[n-1].B = out[0].A
		out[n-1] = out[n-1].onEnds()
	}
	return out
}

// dot is the length of a segment, in mm, that is none: below it two nodes at its
// ends would be made one.
const dot = shortest * Coincident

func (s *Seg) isDot() bool {
	v := s.B.Sub(s.A)
	return v.Dot(v) < dot*dot && (s.Turn == 0 || s.Length() < 2*dot)
}

// moveInto makes m the image of s, shifted by d to its right.
func (s *Seg) moveInto(m *image, d float64) {
	m.collapsed = false
	m.seg = *s
	if s.Turn == 0 {
		v := s.B.Sub(s.A)
		m.length = math.Sqrt(v.Dot(v))
		v = v.Mul(1 / m.length)
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
	if m.seg.Radius <= Coincident {
		m.collapsed, m.apex = true, s.Center
	}
}

func (a *arrangement) addLine(p, q Point) {
	if p == q {
		a.given++
		return
	}
	a.add(Line(p, q))
}

// addShortcut adds a line that may never bound the result.
func (a *arrangement) addShortcut(p, q Point) {
	if p != q {
		a.add(Line(p, q))
		if n := len(a.src); n > 0 && a.src[n-1] == a.given {
			a.src[n-1] = -a.given
		}
	}
}

// addJoin joins the images m and k of the segments on both sides of the vertex v
// by an arc.
func (a *arrangement) addJoin(m, k *image, v Point, d float64) {
	p, q := m.seg.B, k.seg.A
	arc := Seg{A: p, B: q, Center: v, Radius: math.Abs(d), Turn: 1}
	if d < 0 {
		arc.Turn = -1
	}
	a.add(arc)
}

// settle decides what becomes of the corners and shortens the images at inside
// ones. Where both images are long enough they end where they cross: what that
// cuts off is covered by both strips, so no positive winding is lost. In the
// hollow of a dense outline they are not; there the strip of each segment ends
// in the point where its two bisectors meet, and these points follow the
// outline's evolute. The short cut is right between segments of like length,
// and what it adds is marked: should it ever bound the result, the curve is
// made again without.
func (w *rawCurve) settle(p Path, d float64, j Join) {
	n := len(p)
	for i := range p {
		k := i + 1
		if k == n {
			k = 0
		}
		if w.corners[i] = w.corner(p, i, k, d); w.corners[i].kind == outside && j.MitreLimit > 0 {
			w.corners[i].mitre(&w.imgs[i], &w.imgs[k], p[k].A, d, j)
		}
	}
	for h, i := n-1, 0; i < n; h, i = i, i+1 {
		w.keepOrder(p, h, i, d)
	}
	for h, i := n-1, 0; i < n; h, i = i, i+1 {
		m, t, u := &w.imgs[i], &w.corners[h], &w.corners[i]
		if m.seg.Turn != 0 {
			if t.kind == trimmed || t.kind == welded {
				m.seg.A = t.at
			}
			if u.kind == trimmed || u.kind == welded {
				m.seg.B = u.at
			}
			continue
		}
		switch tl, tr := t.share(), u.share(); {
		case (tl+tr)*math.Abs(d) > m.length:
			level := math.Copysign(min(m.length/(tl+tr), math.Abs(d)), d)
			m.collapsed = true
			m.apex = p[i].A.Add(m.to.Mul(tl * math.Abs(level))).Add(Vec{m.to.Y * level, -m.to.X * level})
		default:
			if t.kind != outside && t.kind != inside {
				m.seg.A = t.at
			}
			if u.kind != outside && u.kind != inside {
				m.seg.B = u.at
			}
		}
	}
}

// mitre makes c a mitred corner if its point, d/cos(turn/2) from the vertex v,
// lies within the limit.
func (c *corner) mitre(m, q *image, v Point, d float64, j Join) {
	cos := math.Sqrt(max(0, (1+m.to.Dot(q.from))/2))
	if cos == 0 || 1/cos > j.MitreLimit {
		return
	}
	dir := m.seg.B.Sub(v).Add(q.seg.A.Sub(v)).Unit()
	c.at, c.kind = v.Add(dir.Mul(math.Abs(d)/cos)), mitred
}

// share returns how much of a line one millimetre of distance takes at c.
func (c *corner) share() float64 {
	if c.kind == bisected {
		return c.half
	}
	return 0
}

// spare is the least length of an image that is left: ten times the tolerance
// keeps its two ends apart.
const spare = 10 * Coincident

// weldGap is how far apart the images of a smooth joint may lie and still be
// one point: a tenth of Coincident moves no result past its tolerance.
const weldGap = Coincident / 10

// inDoubt reports whether the turn between two segments, of the given sine and
// cosine, is so near to a half turn that its side is in doubt: two curves that
// leave a vertex at an angle φ and come back together by a relative curvature κ
// part by φ²/(2κ) at most, which may be less than Coincident, and then the region
// is sound although they cross. Three times that angle counts, and never less than
// a hundredth. Going all round the vertex is right on either side, for all that it
// adds lies within the distance.
func inDoubt(sin, cos float64, from, to *Seg) bool {
	if cos >= 0 {
		return false
	}
	if sin = math.Abs(sin); sin < 0.01 {
		return true
	}
	return sin*sin < 9*2*Coincident*math.Abs(from.Curvature()+to.Curvature())
}

// corner settles the joint between the images of segments i and k, each taken
// alone.
func (w *rawCurve) corner(p Path, i, k int, d float64) corner {
	m, q := &w.imgs[i], &w.imgs[k]
	gap := q.seg.A.Sub(m.seg.B)
	if gap.Dot(gap) <= weldGap*weldGap {
		return corner{at: m.seg.B, kind: welded}
	}
	cr, dot := m.to.Cross(q.from), m.to.Dot(q.from)
	switch {
	case cr > 0 == (d > 0), inDoubt(cr, dot, &p[i], &p[k]):
		return corner{}
	case len(p) < 3 || m.collapsed || q.collapsed || dot < -0.9:
		return corner{kind: inside}
	}
	if m.seg.Turn == 0 && q.seg.Turn == 0 {
		t := math.Abs(cr / (1 + dot))
		return corner{at: m.seg.B.Add(m.to.Mul(-t * math.Abs(d))), half: t, kind: bisected}
	}
	if at, ok := crossing(m.seg, q.seg, p[k].A); ok {
		return corner{at: at, kind: trimmed}
	}
	return corner{kind: inside}
}

// keepOrder gives up corners at the ends of segment i, the one after h, that
// would take more than there is of it.
func (w *rawCurve) keepOrder(p Path, h, i int, d float64) {
	m, t, u := &w.imgs[i], &w.corners[h], &w.corners[i]
	if t.kind == trimmed || u.kind == trimmed {
		a, b := m.seg.A, m.seg.B
		if t.kind >= welded && t.kind <= trimmed {
			a = t.at
		}
		if u.kind >= welded && u.kind <= trimmed {
			b = u.at
		}
		if !m.seg.ordered(a, b) {
			t.giveUp()
			u.giveUp()
		}
	}
	if m.seg.Turn != 0 || (t.share()+u.share())*math.Abs(d) <= m.length {
		return
	}
	k := i + 1
	if k == len(p) {
		k = 0
	}
	if t.kind == bisected && !w.dense(h, i) {
		t.kind = inside
	}
	if u.kind == bisected && !w.dense(i, k) {
		u.kind = inside
	}
}

func (c *corner) giveUp() {
	if c.kind == trimmed {
		c.kind = inside
	}
}

// dense reports whether two neighbours look like chords of one curve: of like
// length and at a small angle.
func (w *rawCurve) dense(i, k int) bool {
	a, b := w.imgs[i].length, w.imgs[k].length
	return !w.spurs && a < 2*b && b < 2*a && w.imgs[i].to.Dot(w.imgs[k].from) > 0.95
}

// ordered reports whether p comes clearly before q along s.
func (s *Seg) ordered(p, q Point) bool {
	v := q.Sub(p)
	if v.Dot(v) < spare*spare {
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
	n := carriers(s, t, 0, &raw)
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
