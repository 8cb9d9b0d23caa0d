package space

import (
	"container/heap"
	"math"
	"sync"

	"routwright/geom"
	"routwright/templates/part"
)

// Slack is how far a distance may be off, mm: as far as a finished template.
const Slack = geom.Budget

// Gap is the least distance between two bodies in mm and a point of each where
// it is taken. D is 0 where they share a point, and A and B are such a point; it
// is +Inf, and the points are zero, where nothing is within the limit asked for.
type Gap struct {
	D    float64
	A, B part.Point
}

// Depth returns the depth below the finished front where the gap is taken: in
// the middle between its two points.
func (g Gap) Depth() float64 { return (g.A.Z + g.B.Z) / 2 }

// Over reports whether the bodies lie one over the other there: the gap runs
// more in depth than across. Bodies that meet do not.
func (g Gap) Over() bool {
	return math.Abs(g.A.Z-g.B.Z) > g.A.Flat().Dist(g.B.Flat())
}

var none = Gap{D: math.Inf(1)}

// Distance returns the least distance between two parts, each with its inside.
// Level prisms and bores square to the faces: exact. Others: to Slack.
func Distance(a, b part.Part) Gap { return Of(a).Distance(Of(b)) }

// Body is a part made ready for many questions. It keeps the part's plans, which
// must not change meanwhile. Any number of goroutines may ask.
type Body struct {
	Part  part.Part
	units []unit
	box   box
}

// unit is one solid or bore of a part.
type unit struct {
	box    box
	level  bool        // between two level surfaces, top and floor
	plan   *geom.Index // of a level unit
	region geom.Region // the same
	solid  *part.Solid // nil for a bore
	bore   part.Bore
	pieces func() []piece // convex ones, built when first asked for
}

// Of returns the body of a part: its solids and its bores.
func Of(p part.Part) *Body {
	b := &Body{Part: p, box: noBox}
	for i := range p.Solids {
		s := &b.Part.Solids[i]
		if s.Plan.Empty() {
			continue
		}
		u := unit{solid: s, region: s.Plan, level: s.Top.Level() && s.Floor.Level()}
		u.plan = geom.IndexOf(u.region)
		u.pieces = sync.OnceValue(func() []piece { return prisms(s) })
		top, floor := s.Extremes()
		at := s.Plan.Bounds()
		u.box = box{part.Point{X: at.Min.X, Y: at.Min.Y, Z: top.Z}, part.Point{X: at.Max.X, Y: at.Max.Y, Z: floor.Z}}
		b.units = append(b.units, u)
	}
	for _, h := range p.Bores {
		c := bored(h)
		only := []piece{c}
		u := unit{bore: h, box: c.box, pieces: func() []piece { return only }}
		if h.Square() && h.D > 0 {
			u.level = true
			u.region = geom.Region{geom.Circle(h.From.Flat(), h.D/2)}
			u.plan = geom.IndexOf(u.region)
		}
		b.units = append(b.units, u)
	}
	for _, u := range b.units {
		b.box = b.box.with(u.box.lo).with(u.box.hi)
	}
	return b
}

// Distance returns the least distance between two bodies.
func (b *Body) Distance(c *Body) Gap { return b.Within(c, math.Inf(1)) }

// Within returns the least distance between two bodies if it is below limit mm,
// else a gap of +Inf: quicker where only what is near is of interest.
func (b *Body) Within(c *Body, limit float64) Gap {
	best := Gap{D: limit}
	if len(b.units) == 0 || len(c.units) == 0 || b.box.gap(&c.box) >= limit {
		return none
	}
	for i := range b.units {
		for k := range c.units {
			u, v := &b.units[i], &c.units[k]
			if u.box.gap(&v.box) >= best.D {
				continue
			}
			var g Gap
			if u.level && v.level {
				g = levels(u, v)
			} else {
				g = searched(u, v, best.D)
			}
			if g.D < best.D {
				best = g
			}
		}
	}
	if !(best.D < limit) {
		return none
	}
	return best
}

// levels returns the gap of two level units: the leg of the plans and the leg of
// the depths stand square to each other.
func levels(u, v *unit) Gap {
	d, pa, pb := u.plan.Distance(v.plan)
	za, zb := u.box.hi.Z, v.box.lo.Z // u above v
	switch {
	case u.box.lo.Z > v.box.hi.Z:
		za, zb = u.box.lo.Z, v.box.hi.Z
	case za >= zb: // they share depths
		za = (max(u.box.lo.Z, v.box.lo.Z) + min(u.box.hi.Z, v.box.hi.Z)) / 2
		zb = za
	}
	return Gap{math.Hypot(d, zb-za), part.Point{X: pa.X, Y: pa.Y, Z: za}, part.Point{X: pb.X, Y: pb.Y, Z: zb}}
}

// couple is two pieces and a bound from below of their distance.
type couple struct {
	a, b  *piece
	lower float64
	known bool // lower comes from the pieces, not from their boxes
}

// couples is a heap, the nearest first.
type couples []couple

func (c couples) Len() int           { return len(c) }
func (c couples) Less(i, j int) bool { return c[i].lower < c[j].lower }
func (c couples) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *couples) Push(x any)        { *c = append(*c, x.(couple)) }
func (c *couples) Pop() any {
	n := len(*c) - 1
	x := (*c)[n]
	*c = (*c)[:n]
	return x
}

// searched returns the gap of two units by branch and bound over their pieces,
// if it is below limit.
func searched(u, v *unit, limit float64) Gap {
	best := Gap{D: limit}
	var open couples
	us, vs := u.pieces(), v.pieces()
	for i := range us {
		for k := range vs {
			if d := us[i].box.gap(&vs[k].box); d < limit {
				open = append(open, couple{&us[i], &vs[k], d, false})
			}
		}
	}
	heap.Init(&open)
	for len(open) > 0 {
		c := heap.Pop(&open).(couple)
		if c.lower >= best.D-Slack/2 {
			break
		}
		if !c.known {
			lower, _, pa, pb := apart(c.a, c.b)
			pa, pb = c.a.inside(pa), c.b.inside(pb)
			if d := pa.Dist(pb); d < best.D {
				best = Gap{d, pa, pb}
			}
			c.known = true
			c.lower = max(c.lower, lower-c.a.out-c.b.out)
			if c.lower < best.D-Slack/2 && c.a.out+c.b.out > 0 {
				heap.Push(&open, c)
			}
			continue
		}
		if c.a.out >= c.b.out {
			x, y := c.a.halves()
			open.take(&x, c.b, c.lower, best.D)
			open.take(&y, c.b, c.lower, best.D)
		} else {
			x, y := c.b.halves()
			open.take(c.a, &x, c.lower, best.D)
			open.take(c.a, &y, c.lower, best.D)
		}
	}
	if best.D <= Slack {
		best = Gap{0, best.A, best.A}
	}
	return best
}

// take adds a couple whose bound from below is at least lower.
func (c *couples) take(a, b *piece, lower, limit float64) {
	if d := max(lower, a.box.gap(&b.box)); d < limit-Slack/2 {
		heap.Push(c, couple{a, b, d, false})
	}
}
