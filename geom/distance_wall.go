package geom

import "math"

const (
	// bluntTurn is the largest turn of a convex vertex that still counts as a
	// curve drawn in chords, not as a corner: 24 chords to the circle.
	bluntTurn = 15 * Degree
	// wallClear is how much of its radius the disc over a wall must keep free of
	// boundary: cos(bluntTurn/2) = 0.9914, what chords take from it.
	wallClear = 0.99
	// normalSlack is how far, in radians, a wall may be from square where a line
	// and an arc join smoothly: Coincident over an arc of 10 mm.
	normalSlack = 1e-7
)

// LeastWall returns the thickness in mm of the thinnest wall of r and the two
// boundary places it stands between; +Inf and zero points if r has no wall.
//
// A wall is a straight connection of two boundary places
//   - that meets the boundary squarely at both (at a reflex vertex: between the
//     normals of its two sides; so too at a convex vertex that turns by at most
//     15°, as between the chords of a curve), and
//   - whose circle, the one with the wall as diameter, lies in r (to 1 % of its
//     radius).
//
// These are the places where a disc rolled through the material is held from two
// opposite sides: necks, webs between holes, the waist of a key. Beside a convex
// corner no wall is counted: thin as material gets there, that is the corner's
// doing (TightestRadius). The free end of a tapering strip counts, though, where
// its sides taper towards it by at most 15° each and end in a corner or in a
// rounding narrower than the strip.
//
// Branch and bound of a tree against itself, over pairs of nodes whose headings
// can be opposite: O(n log n) on common outlines.
func LeastWall(r Region) (w float64, a, b Point) {
	t := IndexOf(r)
	s := wallSearch{Index: t, best: gap{d2: math.Inf(1)}, heads: t.headings()}
	s.search()
	return math.Sqrt(s.best.d2), s.best.a, s.best.b
}

type wallSearch struct {
	*Index
	heads []heading
	best  gap
}

// heading is the range of directions of travel in a node, the joints with the
// segments before included, and the tapers that count at the ends of strips:
// mid ± half.
type heading struct{ mid, half float64 }

func (t *Index) headings() []heading {
	hs := make([]heading, len(t.boxes))
	for k := range t.runs {
		l := &t.runs[k]
		v := vertexAt(t.r, l, 0)
		h := heading{mid: float64(v.prev.Tangent(1).Angle())}
		taper := false
		for i := range l.segs {
			s := &l.segs[i]
			sweep := float64(s.Sweep())
			h = h.join(heading{float64(s.Tangent(0).Angle()) + sweep/2, math.Abs(sweep) / 2})
			v := vertexAt(t.r, l, i)
			for _, e := range v.ends() {
				taper = taper || v.closes(e, math.Inf(1))
			}
		}
		if taper {
			h.half += float64(bluntTurn)
		}
		hs[t.leaves+k] = h
	}
	for i := t.leaves - 1; i > 0; i-- {
		// Runs fill the leaves from the left.
		hs[i] = hs[2*i]
		if b := &t.boxes[2*i+1]; b.x0 <= b.x1 {
			hs[i] = hs[i].join(hs[2*i+1])
		}
	}
	return hs
}

// join returns the least range that holds both.
func (h heading) join(g heading) heading {
	d := math.Remainder(g.mid-h.mid, 2*math.Pi)
	lo, hi := min(-h.half, d-g.half), max(h.half, d+g.half)
	if hi-lo >= 2*math.Pi {
		return heading{h.mid, math.Pi}
	}
	return heading{h.mid + (lo+hi)/2, (hi - lo) / 2}
}

// opposes reports whether a direction of h and one of g can be opposite.
func (h heading) opposes(g heading) bool {
	d := math.Abs(math.Remainder(g.mid-h.mid+math.Pi, 2*math.Pi))
	return d <= h.half+g.half+1e-5
}

func (s *wallSearch) search() {
	if s.empty() {
		return
	}
	stack := []twig{{0, 1, 1}}
	push := func(i, j int) {
		if !s.heads[i].opposes(s.heads[j]) {
			return
		}
		if d := s.boxes[i].gap2(&s.boxes[j]); d < s.best.d2 {
			stack = append(stack, twig{d, int32(i), int32(j)})
		}
	}
	for len(stack) > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if n.d2 >= s.best.d2 {
			continue
		}
		i, j := int(n.i), int(n.j)
		switch {
		case s.isLeaf(i) && s.isLeaf(j):
			s.runPair(s.run(i), s.run(j), i == j)
		case i == j:
			push(2*i, 2*i)
			push(2*i+1, 2*i+1)
			push(2*i, 2*i+1)
		case s.isLeaf(j) || !s.isLeaf(i) && s.boxes[i].size() >= s.boxes[j].size():
			push(2*i, j)
			push(2*i+1, j)
		default:
			push(i, 2*j)
			push(i, 2*j+1)
		}
	}
}

func (s *wallSearch) runPair(a, b *run, same bool) {
	for i := range a.segs {
		from := 0
		if same {
			from = i
		}
		fa := noBounds
		fa.addSeg(&a.segs[i])
		va := vertexAt(s.r, a, i)
		for j := from; j < len(b.segs); j++ {
			fb := noBounds
			fb.addSeg(&b.segs[j])
			if fa.gap2(&fb) >= s.best.d2 {
				continue
			}
			vb := vertexAt(s.r, b, j)
			s.sides(va.next, vb.next)
			s.corner(va, vb.next)
			s.corner(vb, va.next)
			s.corners(va, vb)
		}
	}
}

// vertex is the start of a segment with the one before it, and the inward
// normals of the two there.
type vertex struct {
	p          Point
	prev, next *Seg
	n0, n1     Vec
}

func vertexAt(r Region, l *run, i int) vertex {
	loop := r[l.loop]
	prev := &loop[(l.at+i+len(loop)-1)%len(loop)]
	next := &l.segs[i]
	return vertex{next.A, prev, next, prev.Tangent(1).Left(), next.Tangent(0).Left()}
}

// facing reports whether the unit vector u lies between the two normals of a
// reflex or blunt vertex.
func (v *vertex) facing(u Vec) bool {
	turn := v.n0.Cross(v.n1)
	if turn > math.Sin(float64(bluntTurn)) || turn > 0 && v.n0.Dot(v.n1) < 0 {
		return false
	}
	a, b := v.n0, v.n1
	if turn < 0 {
		a, b = b, a
	}
	if v.n0.Dot(v.n1) < -1+1e-12 { // a hairpin: the half plane ahead of the tip
		return u.Dot(v.prev.Tangent(1)) > 0
	}
	return a.Cross(u) >= -normalSlack && u.Cross(b) >= -normalSlack && u.Dot(a.Add(b)) > 0
}

// sides tries the walls between the insides of two segments.
func (s *wallSearch) sides(a, b *Seg) {
	switch {
	case a.Turn == 0 && b.Turn == 0:
		s.parallel(a, b)
	case a.Turn == 0:
		s.lineArc(a, b)
	case b.Turn == 0:
		s.lineArc(b, a)
	default:
		s.arcs(a, b)
	}
}

// parallel tries two lines: they carry a wall where they run opposite ways and
// their gap over the shared span is the same to Coincident.
func (s *wallSearch) parallel(a, b *Seg) {
	u, v := a.B.Sub(a.A), b.B.Sub(b.A)
	l := u.Len()
	if l == 0 || u.Dot(v) >= 0 {
		return
	}
	u = u.Mul(1 / l)
	lo, hi := max(0, b.B.Sub(a.A).Dot(u)), min(l, b.A.Sub(a.A).Dot(u))
	if hi-lo < Coincident {
		return
	}
	slope := math.Abs(u.Cross(v) / u.Dot(v))
	p := a.A.Add(u.Mul((lo + hi) / 2))
	if slope*(hi-lo) > Coincident {
		return
	}
	if q := b.lineClosest(p); u.Cross(q.Sub(p)) > 0 {
		s.try(p, q)
	}
}

func (s *wallSearch) lineArc(a, b *Seg) {
	p := a.lineClosest(b.Center)
	if p == a.A || p == a.B {
		return // a vertex has its own turn
	}
	n := a.Tangent(0).Left()
	for _, k := range [2]float64{1, -1} {
		q := b.Center.Add(n.Mul(k * b.Radius))
		// Inward normal at q: towards the centre on a left turn.
		if n.Dot(q.Sub(p)) > 0 && k*float64(b.Turn) > 0 && b.onSweep(n.Mul(k)) {
			s.try(p, q)
		}
	}
}

func (s *wallSearch) arcs(a, b *Seg) {
	w := b.Center.Sub(a.Center)
	if w.Len() < Coincident {
		s.concentric(a, b)
		return
	}
	u := w.Unit()
	for _, j := range [2]float64{1, -1} {
		if !a.onSweep(u.Mul(j)) {
			continue
		}
		p := a.Center.Add(u.Mul(j * a.Radius))
		np := u.Mul(-j * float64(a.Turn))
		for _, k := range [2]float64{1, -1} {
			q := b.Center.Add(u.Mul(k * b.Radius))
			nq := u.Mul(-k * float64(b.Turn))
			if d := q.Sub(p); np.Dot(d) > 0 && nq.Dot(d) < 0 && b.onSweep(u.Mul(k)) {
				s.try(p, q)
			}
		}
	}
}

// concentric tries arcs about one centre: of two left turns opposite places (a
// diameter), of a left and a right turn places in the same direction (a ring).
func (s *wallSearch) concentric(a, b *Seg) {
	k := -1.0
	if a.Turn != b.Turn {
		k = 1
	} else if a.Turn < 0 {
		return
	}
	// The shared directions begin or end where one of the arcs does; else, at an
	// end of both, the vertices have their own turn.
	var us [4]Vec
	for i, p := range [4]Point{a.A, a.B, a.At(0.5), b.At(0.5)} {
		us[i] = p.Sub(a.Center)
		if i == 3 {
			us[i] = us[i].Mul(k)
		}
	}
	for _, u := range us {
		u = u.Unit()
		if a.onSweep(u) && b.onSweep(u.Mul(k)) {
			p, q := a.Center.Add(u.Mul(a.Radius)), b.Center.Add(u.Mul(k*b.Radius))
			if u.Mul(-float64(a.Turn)).Dot(q.Sub(p)) > 0 {
				s.try(p, q)
			}
		}
	}
}

// corner tries the walls from a vertex to the inside of a segment.
func (s *wallSearch) corner(v vertex, b *Seg) {
	if v.next == b || v.prev == b {
		return
	}
	var feet [2]Point
	n := 0
	if b.Turn == 0 {
		if q := b.lineClosest(v.p); q != b.A && q != b.B {
			feet[0], n = q, 1
		}
	} else if d := v.p.Sub(b.Center).Unit(); d != (Vec{}) {
		for _, k := range [2]float64{1, -1} {
			if b.onSweep(d.Mul(k)) {
				feet[n] = b.Center.Add(d.Mul(k * b.Radius))
				n++
			}
		}
	}
	for _, q := range feet[:n] {
		u := q.Sub(v.p)
		w := u.Len()
		if w == 0 || w*w >= s.best.d2 {
			continue
		}
		u = u.Mul(1 / w)
		nq := b.inwardAt(q)
		if nq.Dot(u) > -0.5 {
			continue
		}
		if v.facing(u) {
			s.try(v.p, q)
		}
		s.end(v, q, u, w, func(t Vec) bool { return nq.Dot(t) >= 0 })
	}
}

// inwardAt returns the normal to the left of s at a point on it.
func (s *Seg) inwardAt(q Point) Vec {
	if s.Turn == 0 {
		return s.Tangent(0).Left()
	}
	return q.Sub(s.Center).Mul(-float64(s.Turn)).Unit()
}

// corners tries the walls between two vertices.
func (s *wallSearch) corners(v, x vertex) {
	u := x.p.Sub(v.p)
	w := u.Len()
	if w < Coincident || w*w >= s.best.d2 {
		return
	}
	u = u.Mul(1 / w)
	if v.facing(u) && x.facing(u.Neg()) {
		s.try(v.p, x.p)
	}
	s.end(v, x.p, u, w, func(t Vec) bool {
		for _, e := range x.ends() {
			if e.n.Dot(u) < -cosBlunt && e.t.Dot(t) > 0 && e.n.Dot(t) >= 0 {
				return x.closes(e, w)
			}
		}
		return false
	})
}

var cosBlunt = math.Cos(float64(bluntTurn))

// side is one of the two segments at a vertex: the direction into it, its
// inward normal, and the other segment.
type side struct {
	t, n  Vec
	other *Seg
}

func (v *vertex) ends() [2]side {
	return [2]side{
		{v.next.Tangent(0), v.n1, v.prev},
		{v.prev.Tangent(1).Neg(), v.n0, v.next},
	}
}

// closes reports whether the strip along side e ends at v: in a corner, or in a
// rounding of at least an eighth of a turn and a radius under half the width.
func (v *vertex) closes(e side, w float64) bool {
	turn := v.n0.Cross(v.n1)
	if turn > math.Sin(float64(bluntTurn)) || turn > 0 && v.n0.Dot(v.n1) < 0 {
		return true
	}
	return e.other.Turn > 0 && e.other.Radius < w/2 && e.other.Sweep() >= 45*Degree
}

// end tries the free end of a strip: from vertex v across to q, direction u,
// width w; opens tells whether the far side runs away from it along t.
func (s *wallSearch) end(v vertex, q Point, u Vec, w float64, opens func(t Vec) bool) {
	for _, e := range v.ends() {
		if e.n.Dot(u) < cosBlunt || !v.closes(e, w) || !opens(e.t) {
			continue
		}
		// The disc as wide as the strip, moved in until it touches the end.
		m := v.p.Lerp(q, 0.5).Add(e.t.Mul(w / 2))
		if s.clear(m, 0.95*w/2) {
			s.keep(v.p, q)
		}
	}
}

// try keeps the wall p–q if it is thinner than the best and its circle is clear.
func (s *wallSearch) try(p, q Point) {
	dx, dy := p.X-q.X, p.Y-q.Y
	if d2 := dx*dx + dy*dy; d2 < s.best.d2 && s.clear(p.Lerp(q, 0.5), wallClear*math.Sqrt(d2)/2) {
		s.keep(p, q)
	}
}

func (s *wallSearch) keep(p, q Point) { s.best.try(p, q) }

// clear reports whether no boundary is nearer to m than d.
func (s *wallSearch) clear(m Point, d float64) bool {
	_, d2 := s.closest(m, d*d)
	return d2 >= d*d
}
