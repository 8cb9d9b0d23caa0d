package cut

import (
	"cmp"
	"math"
	"slices"

	"routwright/geom"
	"routwright/templates/tool"
)

// How waste is drilled out. Common practice: stay clear of the line by more than
// a drill wanders, leave the floor to the router, change the drill seldom, and stop
// when more holes no longer save the router a pass.
const (
	DrillMargin = 1.5 // from the rim of a hole to the line, mm
	DrillEnough = 0.6 // least share of the waste that makes a bite light
	DrillFloor  = 0.5 // from the point of the drill to the floor, mm
	// DrillGoal is the share of the area at which more holes are left to the router.
	DrillGoal = 0.8
	// DrillSeat is the wood round the middle of every hole: the point of a Forstner
	// drill is some 3 mm thick, and wanders where it stands in a hole.
	DrillSeat = 1.5
	// DrillRim is the share of a drill's rim that runs in wood when its turn comes: the
	// rim guides a Forstner drill through the holes beside it while about half of it is
	// held.
	DrillRim = 0.45

	drillChange  = 2.0   // what another drill with its own stop costs, in holes
	drillReach   = 3.0   // holes that it is worth to reach DrillGoal
	drillWorth   = 40.0  // mm² that one more hole is worth: a hole of 7 mm
	drillLeast   = 6.0   // smallest drill for waste, mm
	drillShallow = 3.0   // a hole less deep saves nothing, mm
	drillRule    = 0.5   // holes are placed to the half millimetre, as a rule is read
	drillFine    = 0.1   // or finer, where that would cost DrillGoal, or does not fit
	drillSpare   = 0.003 // of the area, that placing them so may cost
)

// drillSeats are the distances that are tried, mm: a wider one, where with the
// narrower less than DrillRim of a rim is held.
var drillSeats = []float64{DrillSeat, 3, 5}

// Waste is what a router would have to take out of a void.
type Waste struct {
	Plan  geom.Region // where wood still is, seen from the front
	Depth float64     // of the cut below the face, mm
	// Floor tells the least depth of the floor under a hole, mm below the face, where
	// it is not level; nil where it is as deep as the cut.
	Floor func(geom.Disc) float64
	// Start is how far below the face the wood lies that the drill enters, mm: in a
	// rebate that is cut first.
	Start float64
}

// DrillHole is one hole that takes waste.
type DrillHole struct {
	At    geom.Point // seen from the front
	Drill tool.Drill
	// Stop is how deep the rim of the drill goes below the face, mm: its point then
	// stays above the floor.
	Stop float64
	Rim  float64 // share of its rim that runs in wood when its turn comes
}

// DrillOut is the plan by which the waste of a cavity is drilled out before the
// router goes in. The zero DrillOut has no holes.
type DrillOut struct {
	Holes  []DrillHole // in the order in which to bore them, drill by drill
	Share  float64     // of the area of the waste that the holes take, 0 to 1
	Volume float64     // of the wood that they take, 0 to 1: they end above the floor
	Margin float64     // from the rim of a hole to the line, mm
	Start  float64     // how far below the face the wood lies that they enter, mm
}

// drillDepth is the least depth of wood that is worth a drill, mm: the point, what
// stays over the floor, and a hole worth boring; common practice.
const drillDepth = 8.0

// Drillable reports whether a cut leaves enough depth between the wood that a drill
// enters, start mm below the face, and its floor for any drill to be worth it.
func Drillable(start, depth float64) bool { return depth-start >= drillDepth }

// DrillWaste plans the holes that take waste, with the Forstner drills at hand: a
// twist drill has no rim that leads it past the hole beside it. They are the fewest
// that take DrillGoal of its area, where a further drill counts as two holes; where
// so much takes many holes more, as many as each takes a hole's worth. None comes
// nearer to the line than DrillMargin; the middle of each lies DrillSeat or more
// outside every hole that is bored before it, so that the point stands in wood. There
// are none where it is too shallow or too narrow for the drills, or where no drill is
// long enough.
func DrillWaste(w Waste, drills []tool.Drill) DrillOut {
	byD := map[float64]tool.Drill{}
	var ds []float64
	for _, d := range drills {
		if _, twice := byD[d.D]; twice || d.Kind != tool.Forstner || d.D < drillLeast || stopFor(w, d, nil)-w.Start < drillShallow || d.Length > 0 && d.Length < stopFor(w, d, nil) {
			continue
		}
		byD[d.D], ds = d, append(ds, d.D)
	}
	var best DrillOut
	for _, seat := range drillSeats {
		d := drillWaste(w, byD, ds, seat)
		if len(d.Holes) > 0 && (len(best.Holes) == 0 || d.leastRim() > best.leastRim()+1e-9) {
			best = d
		}
		if best.leastRim() >= DrillRim {
			break
		}
	}
	return best
}

// drillWaste plans the holes with the drills of the given diameters, each with so much
// wood round its middle.
func drillWaste(w Waste, byD map[float64]tool.Drill, ds []float64, seat float64) DrillOut {
	discs, _ := geom.Cover(w.Plan, geom.CoverRules{Diameters: ds, Margin: DrillMargin, Share: DrillGoal + drillSpare,
		Seat: seat, Change: drillChange, Least: drillWorth, Reach: drillReach})
	if len(discs) == 0 {
		return DrillOut{}
	}
	exact := slices.Clone(discs)
	ruled(discs, w.Plan, drillRule)
	if goal := DrillGoal * w.Plan.Area(); geom.UnionArea(exact) >= goal && geom.UnionArea(discs) < goal {
		discs = exact
		ruled(discs, w.Plan, drillFine)
	}
	out := DrillOut{Margin: DrillMargin, Start: w.Start}
	for _, d := range inTurn(discs, geom.MainDirection(w.Plan)) {
		h := DrillHole{At: d.Center, Drill: byD[nearest(ds, 2*d.Radius)], Rim: d.rim}
		h.Stop = stopFor(w, h.Drill, &d.Disc)
		if h.Stop-w.Start < drillShallow { // a floor that rises here
			continue
		}
		out.Holes = append(out.Holes, h)
	}
	out.measure(w)
	return out
}

// leastRim returns the least share of a rim that runs in wood; 1 without holes.
func (d DrillOut) leastRim() float64 {
	least := 1.0
	for _, h := range d.Holes {
		least = math.Min(least, h.Rim)
	}
	return least
}

// stopFor returns how deep the rim of a drill may go below the face, as a depth stop
// is read: its point stays above the floor everywhere under the hole.
func stopFor(w Waste, d tool.Drill, at *geom.Disc) float64 {
	depth := w.Depth
	if at != nil && w.Floor != nil {
		depth = math.Min(depth, w.Floor(*at))
	}
	return math.Floor((depth-d.Point-DrillFloor)*10+1e-9) / 10
}

// measure works out what the holes take of the area and of the wood.
func (d *DrillOut) measure(w Waste) {
	holes := slices.Clone(d.Holes) // the deepest first: what they share is as deep as the deeper
	slices.SortStableFunc(holes, func(a, b DrillHole) int { return -cmp.Compare(a.Stop, b.Stop) })
	var discs []geom.Disc
	var area, taken float64
	for _, h := range holes {
		discs = append(discs, h.disc())
		next := geom.UnionArea(discs)
		taken += (next - area) * (h.Stop - w.Start)
		area = next
	}
	if all := w.Plan.Area(); all > 0 && len(holes) > 0 {
		d.Share = area / all
		d.Volume = taken / (all * (w.Depth - w.Start))
	}
}

func (h DrillHole) disc() geom.Disc { return geom.Disc{Center: h.At, Radius: h.Drill.D / 2} }

// ruled moves the discs to whole divisions of a rule from the datums, each to the
// place close by that costs least of the area, where the margin and the seats allow
// it.
func ruled(discs []geom.Disc, plan geom.Region, rule float64) {
	edge := geom.IndexOf(plan)
	fits := func(d geom.Disc, i int) bool {
		if _, e := edge.Closest(d.Center); !edge.Contains(d.Center) || e < d.Radius+DrillMargin-geom.OffsetSlack {
			return false
		}
		for k, o := range discs {
			if k != i && d.Center.Dist(o.Center) < math.Min(d.Radius, o.Radius)+DrillSeat-geom.Coincident {
				return false
			}
		}
		return true
	}
	place := func(i int, rule float64) bool {
		d := discs[i]
		best, most, moved := d, -1.0, 0.0
		x, y := math.Round(d.Center.X/rule), math.Round(d.Center.Y/rule)
		for dy := -1.0; dy <= 1; dy++ {
			for dx := -1.0; dx <= 1; dx++ {
				c := geom.Disc{Center: geom.Pt((x+dx)*rule, (y+dy)*rule), Radius: d.Radius}
				if !fits(c, i) {
					continue
				}
				discs[i] = c
				// Of places as good the nearest, and of those the nearer to the datums.
				far := c.Center.Dist(d.Center) + 1e-3*(math.Abs(c.Center.X)+math.Abs(c.Center.Y))/rule
				if a := geom.UnionArea(discs); a > most+geom.Coincident || a > most-geom.Coincident && far < moved {
					best, most, moved = c, a, far
				}
			}
		}
		discs[i] = best
		return most >= 0
	}
	for range 2 { // a neighbour that moved may have made room
		for i := range discs {
			if !place(i, rule) {
				place(i, drillFine)
			}
		}
	}
}

// nearest returns the value of vs that is nearest to v.
func nearest(vs []float64, v float64) float64 {
	best := vs[0]
	for _, x := range vs {
		if math.Abs(x-v) < math.Abs(best-v) {
			best = x
		}
	}
	return best
}

// Pieces groups the holes of a plan by drill, in order: how many of each.
func (d DrillOut) Pieces() (drills []tool.Drill, count []int) {
	for _, h := range d.Holes {
		found := false
		for i := range drills {
			if drills[i].D == h.Drill.D {
				count[i]++
				found = true
			}
		}
		if !found {
			drills, count = append(drills, h.Drill), append(count, 1)
		}
	}
	return drills, count
}

// manyPasses is the number of passes from which drilling the waste saves work.
// Common practice.
const manyPasses = 3

// WantsDrill reports whether drilling the waste first helps a cut: its first bite
// is more than half the bit's diameter, or it takes three passes or more.
func (r Routing) WantsDrill(t tool.Tool) bool {
	return len(r.Passes) >= manyPasses || len(r.Passes) > 0 && r.Passes[0].Bite > t.Cutter/2+1e-9
}
