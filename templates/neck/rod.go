package neck

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Channel is the truss rod's channel.
type Channel struct {
	Plan     geom.Region // seen from the front, its opening with it
	From, To float64     // y of its ends, heel and nut
	Floor    geom.Path   // in the frame of Side, from the heel's end to the nut's
	Length   float64     // mm
	Wood     Wood        // the least wood under it
}

// Wood is the least wood under the channel and where it lies.
type Wood struct {
	MM float64
	Y  float64 // along the board
	By string  // "under its floor, against the profile"
}

// Room that New leaves in front of the heel's end and behind the nut, mm; common
// practice.
const (
	rodFromHeel = 20
	rodFromNut  = 12
	leastEnd    = 5 // of wood beyond the channel's blind end
)

// layRod lays the channel and measures the wood under it.
func (sh *Shape) layRod(ps *Problems) {
	s, r := &sh.Spec, sh.Spec.Rod
	nut, fold := cross(s.Board.Nut, geom.Line(geom.Pt(0, 0), geom.Pt(0, 1))).Y, sh.Side.Fold.Y
	end := s.Heel.End
	c := &Channel{From: end, To: fold + r.AccessLength, Length: r.Length}
	room := nut - end
	if r.Length == 0 {
		c.Length = room - rodFromHeel
		if r.Access == AtHeel {
			c.Length = room - rodFromNut
		}
	}
	if c.Length > room-leastEnd {
		ps.add("rod.length", mm(c.Length), fmt.Sprintf("at most %s in a neck of %s from nut to heel", mm(math.Floor(10*(room-leastEnd))/10), mm(room)), "use a shorter rod")
		return
	}
	if c.Length <= 2*r.Width {
		ps.add("rod.length", mm(c.Length), "longer than wide", "use a longer rod")
		return
	}
	if w := s.width(nut); r.Width > w/2 || r.AccessWidth > w-2*leastEnd {
		ps.add("rod.width", mm(math.Max(r.Width, r.AccessWidth)), fmt.Sprintf("less than fits a neck %s wide at the nut", mm(w)), "measure the rod again")
		return
	}
	half := r.Width / 2
	var opening geom.Path
	if r.Access == AtHead {
		c.From = nut - c.Length
		opening = geom.RoundedRect(geom.Pt(0, (fold+c.To)/2), r.AccessWidth, r.AccessLength, math.Min(half, r.AccessLength/2))
	} else {
		c.To = end + c.Length
		opening = geom.Rect(geom.Pt(0, end+r.AccessLength/2), r.AccessWidth, r.AccessLength)
	}
	lo, hi := c.From+half, c.To-half
	if r.Access == AtHeel {
		lo = end // runs out of the end
	}
	slot := geom.Region{geom.Stadium(geom.Pt(0, lo), geom.Pt(0, hi), half)}
	var k geom.Calc
	if r.Access == AtHeel { // what lies beyond the heel is no wood
		slot = k.Intersect(slot, geom.Region{sh.Plan})
	}
	c.Plan = slot
	if r.AccessLength > 0 {
		c.Plan = k.Union(slot, geom.Region{opening})
	}
	if err := k.Err(); err != nil {
		ps.add("rod", err.Error(), "a channel that can be drawn", "change its measures")
		return
	}
	sh.Rod = c
	sh.floor()
	sh.woodUnder()
	if c.Wood.MM <= 0 {
		ps.add("rod.depth", mm(r.Depth+r.Bow), fmt.Sprintf("a channel that stays inside the neck; it breaks through %s at y %s", c.Wood.By, mm(c.Wood.Y)), "use a shallower rod or a thicker neck")
	}
}

// floor draws the floor of the channel from end to end: level, or an arc that
// lies Bow deeper in its middle. Where the head's face falls below it, it ends.
func (sh *Shape) floor() {
	r, c := sh.Spec.Rod, sh.Rod
	a, b := geom.Pt(r.Depth, c.From), geom.Pt(r.Depth, c.To)
	if r.Access == AtHead {
		if t := sh.Spec.Head.Tilt; t > 0 {
			b.Y = math.Min(b.Y, sh.Side.Fold.Y+r.Depth/math.Tan(float64(t)))
		} else if step := sh.Spec.Head.Step; r.Depth <= step {
			b.Y = sh.Side.Fold.Y
		}
	}
	c.Floor = geom.Path{geom.Line(a, b)}
	if r.Bow > 0 {
		c.Floor = geom.Path{geom.ArcThrough(a, geom.Pt(r.Depth+r.Bow, (a.Y+b.Y)/2), b)}
	}
}

// floorAt returns the depth of the floor at height y.
func (c *Channel) floorAt(y float64) float64 {
	s := c.Floor[0]
	if !s.IsArc() {
		return s.A.X
	}
	dy := y - s.Center.Y
	return s.Center.X + math.Sqrt(math.Max(0, s.Radius*s.Radius-dy*dy))
}

// rodStep is the distance in mm between the sections that the wood under the rod
// is measured in: depths and widths change by less than 0.1 mm between two.
const rodStep = 2.0

// woodUnder measures the least wood between the channel and the back: in
// sections across the neck against its profile, and along the centre line
// against heel, hollows and head.
func (sh *Shape) woodUnder() {
	c, half := sh.Rod, sh.Spec.Rod.Width/2
	c.Wood = Wood{MM: math.Inf(1)}
	take := func(d, y float64, by string) {
		if d < c.Wood.MM {
			c.Wood = Wood{d, y, by}
		}
	}
	lo, hi := math.Max(c.From, sh.Side.From), math.Min(c.Floor[0].B.Y, sh.Side.To)
	if n := int(math.Ceil((hi - lo) / rodStep)); hi > lo {
		for i := 0; i <= n; i++ {
			y := lo + (hi-lo)*float64(i)/float64(n)
			take(sh.ProfileAt(y).Under(half, c.floorAt(y)), y, "against the profile of the back")
		}
	}
	d, p, _ := geom.PathDistance(c.Floor, sh.Side.Back)
	inside := geom.Region{sh.Side.Outline}
	for _, s := range c.Floor {
		for _, t := range []float64{0.001, 0.25, 0.5, 0.75} {
			if q := s.At(t); !inside.Contains(q) && q.X > sh.WoodAt(q.Y) {
				d, p = -1e-3, q
			}
		}
	}
	take(d, p.Y, "along the centre line")
}

// Under returns the least wood in mm between a channel of the given half width
// and depth, square in section, and the profile; negative where a corner of it
// stands outside.
func (p Profile) Under(half, depth float64) float64 {
	curve := p.Path()
	d, _, _ := geom.PathDistance(geom.Path{
		geom.Line(geom.Pt(-half, 0), geom.Pt(-half, -depth)),
		geom.Line(geom.Pt(-half, -depth), geom.Pt(half, -depth)),
		geom.Line(geom.Pt(half, -depth), geom.Pt(half, 0)),
	}, curve)
	wood := p.Region()
	if half >= p.Half || !wood.Contains(geom.Pt(half*(1-1e-9), -depth)) || depth >= p.Depth {
		_, d := geom.IndexOf(wood).Closest(geom.Pt(half, -depth))
		return -math.Max(d, 1e-3)
	}
	return d
}
