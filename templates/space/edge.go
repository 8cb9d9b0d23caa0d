package space

import (
	"math"

	"routwright/geom"
	"routwright/templates/part"
)

// Profile is what is taken off the edge of a face: a quarter round or a chamfer
// at 45°, mm; neither leaves the edge square.
type Profile struct{ Roundover, Chamfer float64 }

// Size returns how far the profile reaches in from the outline, and down from
// the face, mm.
func (p Profile) Size() float64 { return max(p.Roundover, p.Chamfer) }

// Edge is the outline of a body with its edges treated.
type Edge struct {
	Outline   geom.Region
	Thickness float64
	Faces     [2]Profile // of the front and of the back

	outside *geom.Index // all round the outline
	inside  *geom.Index
	profile geom.Path // section: X is how far in from the outline, Y the depth
}

// beyond is how far round an outline its outside is taken, mm: further than any
// distance that is asked for.
const beyond = 1000

// NewEdge returns the edge of a body of the given thickness. The profiles must
// have room in it one over the other.
func NewEdge(outline geom.Region, thickness float64, front, back Profile) *Edge {
	e := &Edge{Outline: outline, Thickness: thickness, Faces: [2]Profile{front, back}}
	at := outline.Bounds()
	round := geom.Region{geom.Rect(at.Center(), at.W()+2*beyond, at.H()+2*beyond)}
	for _, p := range outline {
		round = append(round, p.Reversed())
	}
	e.outside, e.inside = geom.IndexOf(round), geom.IndexOf(outline)
	f, b := front.Size(), back.Size()
	e.profile = section(front, geom.Pt(f, 0), geom.Pt(0, f))
	e.profile = append(e.profile, geom.Line(geom.Pt(0, f), geom.Pt(0, thickness-b)))
	e.profile = append(e.profile, section(back, geom.Pt(0, thickness-b), geom.Pt(b, thickness))...)
	return e
}

// section returns the profile of one edge from a to b, both on it.
func section(p Profile, a, b geom.Point) geom.Path {
	switch {
	case p.Roundover > 0:
		c := geom.Pt(max(a.X, b.X), a.Y)
		if a.X > b.X {
			c = geom.Pt(a.X, b.Y)
		}
		return geom.Path{geom.ArcAbout(c, a, b, -turn(c, a, b))}
	case p.Chamfer > 0:
		return geom.Path{geom.Line(a, b)}
	}
	return nil
}

// turn returns on which side of c–a the point b lies; −1 for the left.
func turn(c, a, b geom.Point) int8 {
	if a.Sub(c).Cross(b.Sub(c)) > 0 {
		return -1
	}
	return 1
}

// Inset returns how far in from the outline the wood begins at depth z, mm.
func (e *Edge) Inset(z float64) float64 {
	in := func(p Profile, z float64) float64 {
		switch h := p.Size() - z; {
		case h <= 0:
			return 0
		case p.Chamfer >= p.Roundover:
			return h
		default:
			r := p.Roundover
			h = min(h, r)
			return h * h / (r + math.Sqrt((r-h)*(r+h))) // r − √(r² − h²)
		}
	}
	return max(in(e.Faces[part.Front], z), in(e.Faces[part.Back], e.Thickness-z))
}

// In returns how far in from the outline p lies, negative outside, and the point
// of the outline nearest to it.
func (e *Edge) In(p geom.Point) (float64, geom.Point) {
	q, d := e.inside.Closest(p)
	if !e.inside.Contains(p) {
		d = -d
	}
	return d, q
}

// Far reports whether the straight line between two places surely keeps d mm from
// the treated edge at every depth: a quick no where it does not surely.
func (e *Edge) Far(a, b geom.Point, d float64) bool {
	in, _ := e.In(a)
	// Along the line the way in falls no faster than one walks.
	out, _ := e.In(b)
	return (in+out-a.Dist(b))/2 >= d+max(e.Faces[0].Size(), e.Faces[1].Size())
}

// Wood returns how much wood lies between a point and the treated edge, mm: 0 at
// the edge and outside. The faces do not count.
func (e *Edge) Wood(p part.Point) float64 {
	in, _ := e.In(p.Flat())
	d, _, _ := e.wall(in, p.Z, p.Z)
	return d
}

// wall returns the distance in the section from the edge to a part that reaches
// from in to the middle of the body, between two depths, with the nearest point
// of the part and of the edge.
func (e *Edge) wall(in, top, floor float64) (d float64, a, b geom.Point) {
	d = math.Inf(1)
	far := max(in, e.Faces[0].Size()+e.Faces[1].Size()) + beyond
	for _, s := range e.profile {
		for _, v := range [2]geom.Point{s.A, s.B} {
			if v.X >= in && v.Y >= top && v.Y <= floor {
				return 0, v, v
			}
		}
		for _, side := range [3]geom.Seg{
			geom.Line(geom.Pt(in, top), geom.Pt(in, floor)),
			geom.Line(geom.Pt(in, top), geom.Pt(far, top)),
			geom.Line(geom.Pt(in, floor), geom.Pt(far, floor)),
		} {
			if x, p, q := geom.SegDistance(side, s); x < d {
				d, a, b = x, p, q
			}
		}
	}
	if in < 0 || in <= e.Inset(top) && top == floor {
		return 0, geom.Pt(in, top), geom.Pt(in, top)
	}
	return d, a, b
}

// ToEdge returns the wood between a body and the edge after its treatment: 0
// where the body comes out of it. The faces do not count: what opens on a face
// is measured from there sideways. Level prisms and bores square to the faces
// are exact where the outline is smooth or has corners that point outward; a
// slanting bore is measured with round ends, near which it may come out too short
// by as much as its radius, never too long.
func (b *Body) ToEdge(e *Edge) Gap {
	best := none
	for i := range b.units {
		u := &b.units[i]
		var g Gap
		switch {
		case u.level:
			g = e.gap(u.plan, u.box.lo.Z, u.box.hi.Z)
		case u.solid != nil:
			g = e.sloped(u.solid, best.D)
		default:
			g = e.slanting(u.bore, best.D)
		}
		if g.D < best.D {
			best = g
		}
	}
	return best
}

// gap returns the gap of a level unit.
func (e *Edge) gap(plan *geom.Index, top, floor float64) Gap {
	s, pa, po := plan.Distance(e.outside)
	if s <= 0 {
		at := part.Point{X: pa.X, Y: pa.Y, Z: (top + floor) / 2}
		return Gap{0, at, at}
	}
	return e.lift(s, pa, po, top, floor)
}

// lift returns the gap in space of a part s mm in from the outline between two
// depths, from the nearest points of the two in plan.
func (e *Edge) lift(s float64, pa, po geom.Point, top, floor float64) Gap {
	d, a, b := e.wall(s, top, floor)
	in := pa.Sub(po).Mul(1 / s)
	at := func(q geom.Point) part.Point {
		p := po.Add(in.Mul(q.X))
		return part.Point{X: p.X, Y: p.Y, Z: q.Y}
	}
	return Gap{d, at(a), at(b)}
}

// strip is a piece of a plan's edge, or of a bore's axis, that stands between two
// depths.
type strip struct {
	line     geom.Seg
	z        func(geom.Point) (top, floor float64)
	lower    float64
	top, low float64
}

// nearestStrip halves strips until the nearest one is as good as level, and
// returns its gap, if it is below limit.
func (e *Edge) nearestStrip(open []strip, limit float64) Gap {
	best := Gap{D: limit}
	for i := range open {
		best = e.measure(&open[i], best)
	}
	for len(open) > 0 {
		s := open[len(open)-1]
		open = open[:len(open)-1]
		if s.lower >= best.D-Slack/2 || s.line.Length() < Slack {
			continue
		}
		l, r := s.line.Split(0.5)
		for _, h := range [2]geom.Seg{l, r} {
			n := strip{line: h, z: s.z}
			best = e.measure(&n, best)
			if n.lower < best.D-Slack/2 {
				open = append(open, n)
			}
		}
	}
	if !(best.D < limit) {
		return none
	}
	return best
}

// measure sets the bound of a strip by the depths between which all of it lies,
// and returns the better of best and the gap in its middle.
func (e *Edge) measure(s *strip, best Gap) Gap {
	t0, f0 := s.z(s.line.A)
	t1, f1 := s.z(s.line.B)
	s.top, s.low = min(t0, t1), max(f0, f1)
	if s.line.IsArc() { // a surface may bulge over an arc as far as over its box
		b := s.line.Bounds()
		for _, c := range [4]geom.Point{b.Min, b.Max, geom.Pt(b.Min.X, b.Max.Y), geom.Pt(b.Max.X, b.Min.Y)} {
			t, f := s.z(c)
			s.top, s.low = min(s.top, t), max(s.low, f)
		}
	}
	d, pa, _ := geom.IndexOf(geom.Region{{s.line}}).Distance(e.outside)
	if d <= 0 {
		s.lower = 0
		at := part.Point{X: pa.X, Y: pa.Y, Z: (s.top + s.low) / 2}
		if best.D > 0 {
			return Gap{0, at, at}
		}
		return best
	}
	s.lower, _, _ = e.wall(d, s.top, s.low)
	for _, p := range [2]geom.Point{pa, s.line.At(0.5)} {
		in, q := e.In(p)
		t, f := s.z(p)
		if g := e.lift(in, p, q, t, f); in > 0 && g.D < best.D {
			best = g
		}
	}
	return best
}

func (e *Edge) sloped(s *part.Solid, limit float64) Gap {
	z := func(p geom.Point) (float64, float64) { return s.Top.At(p), s.Floor.At(p) }
	var open []strip
	for _, loop := range s.Plan {
		for _, side := range loop {
			open = append(open, strip{line: side, z: z})
		}
	}
	return e.nearestStrip(open, limit)
}

func (e *Edge) slanting(b part.Bore, limit float64) Gap {
	line := geom.Line(b.From.Flat(), b.To.Flat())
	run := b.To.Flat().Sub(b.From.Flat())
	z := func(p geom.Point) (float64, float64) {
		d := b.From.Z + (b.To.Z-b.From.Z)*p.Sub(b.From.Flat()).Dot(run)/run.Dot(run)
		return d, d
	}
	r := b.D / 2
	g := e.nearestStrip([]strip{{line: line, z: z}}, limit+r)
	if math.IsInf(g.D, 1) {
		return none
	}
	if g.D <= r {
		return Gap{0, g.B, g.B}
	}
	return Gap{g.D - r, g.A.Lerp(g.B, r/g.D), g.B}
}
