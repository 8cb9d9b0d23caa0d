package cut

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Seen is the depth in mm from which wood left or lost counts: below it the
// wood's own movement and the bit's runout are larger. Common practice.
const Seen = 0.02

// Proof is what the simulated cut from a template leaves.
type Proof struct {
	Template string
	Part     string
	Cut      geom.Region // recess cut, or part left
	Left     geom.Region // wood left that should go, beyond the declared hand work
	Lost     geom.Region // wood gone that should stay
	ByHand   geom.Region // wood left that the declared hand work removes
	Finished geom.Region // recess, or part, after the declared hand work
	// LeftReach and LostDepth are the greatest distances in mm from the part's
	// edge that Left with ByHand, and Lost, reach.
	LeftReach, LostDepth float64

	// Passes says that the follower gets everywhere: false when the template
	// falls apart under it. Neck is the tightest passage beyond the follower's
	// diameter that was tested, mm: at least this wide.
	Passes bool
	Neck   float64
	// Enters and Room say the same of the cutter in the recess.
	Enters bool
	Room   float64

	Fallbacks int
}

// necks are the passages beyond the follower's diameter that check 2 tells
// apart, in mm, the widest first.
var necks = []float64{0.5, 0.2, 0}

// Prove simulates the cut of t, as its maker makes it, and compares it with the
// part.
func Prove(t Template) (Proof, error) {
	var c geom.Calc
	p := Proof{Template: t.ID, Part: t.For.ID}
	want := t.For.Plan()
	made := AsMade(&c, t.Shape, t.Male, t.Settled().InsideRadius)
	if t.Male {
		p.Cut = Outside(&c, made, t.Tool)
		p.Left, p.Lost = differ(&c, p.Cut, want)
	} else {
		p.Cut = Inside(&c, made, t.Tool)
		p.Left, p.Lost = differ(&c, want, p.Cut)
	}
	p.LeftReach, p.LostDepth = reach(want, p.Left), reach(want, p.Lost)
	var zones []geom.Region
	for _, h := range t.Hand {
		zones = append(zones, h.Zone)
	}
	p.Finished = p.Cut
	if len(zones) > 0 {
		hand := c.Union(zones...)
		p.ByHand = c.Intersect(p.Left, hand)
		p.Left = c.Subtract(p.Left, hand)
		if t.Male { // pared to the line where it stands over it
			p.Finished = c.Subtract(p.Cut, c.Subtract(hand, want))
		} else { // chiselled to the line where it falls short
			p.Finished = c.Union(p.Cut, c.Intersect(want, hand))
		}
	}
	p.Neck, p.Passes, p.Room, p.Enters = necks[0], true, necks[0], true
	if !t.Male {
		pieces := len(want.Components())
		p.Neck, p.Passes = passage(&c, made, t.Tool.GuideRadius(), pieces)
		p.Room, p.Enters = passage(&c, want, t.Tool.CutRadius(), pieces)
	}
	p.Fallbacks = c.Fallbacks
	if err := c.Err(); err != nil {
		return Proof{}, fmt.Errorf("simulating the cut of template %q: %w", t.ID, err)
	}
	return p, nil
}

// differ returns the parts of a outside b, and of b outside a, that are deeper
// than Seen. Each is grown back to the edge it starts from.
func differ(c *geom.Calc, a, b geom.Region) (aOnly, bOnly geom.Region) {
	deep := func(x, y geom.Region) geom.Region {
		core := c.Subtract(x, c.Offset(y, Seen, geom.Round))
		if core.Empty() {
			return nil
		}
		// Only the places with a core count, but there the whole of the wood,
		// down to the edge of y, is shown.
		return c.Intersect(c.Subtract(x, y), c.Offset(core, 2*Seen, geom.Round))
	}
	return deep(a, b), deep(b, a)
}

// reach returns how far the points of d lie from the edge of r, taken at the
// vertices and the middles of its segments. mm.
func reach(r, d geom.Region) float64 {
	if r.Empty() {
		return 0
	}
	edge := geom.IndexOf(r)
	var most float64
	for _, loop := range d {
		for _, s := range loop {
			for _, p := range [2]geom.Point{s.A, s.At(0.5)} {
				_, least := edge.Closest(p)
				most = math.Max(most, least)
			}
		}
	}
	return most
}

// passage returns the widest of necks that a disc of radius r passes everywhere
// in a region, beyond its own diameter, and whether it passes at all: the room for
// its middle stays in as many pieces as the part has.
func passage(c *geom.Calc, in geom.Region, r float64, pieces int) (float64, bool) {
	for _, n := range necks {
		room := c.Offset(in, -(r + n/2), geom.Round)
		if len(room.Components()) == pieces {
			return n, true
		}
	}
	return 0, false
}
