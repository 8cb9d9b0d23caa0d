package cut

import (
	"math"

	"routwright/geom"
	"routwright/templates/tool"
)

// How waste is drilled out. Common practice: stay clear of the line by more than
// a drill wanders, leave the floor to the router, and stop when more holes no
// longer save the router a pass.
const (
	DrillMargin  = 1.5 // from the rim of a hole to the line, mm
	DrillEnough  = 0.6 // least share of the waste that makes a bite light
	drillFloor   = 0.5 // from the point of the drill to the floor, mm
	drillShare   = 0.85
	drillGain    = 0.03 // least share of the area that one more hole is worth
	drillLeast   = 6.0  // smallest drill for waste, mm
	drillShallow = 3.0  // a hole less deep saves nothing, mm
)

// DrillHole is one hole that takes waste.
type DrillHole struct {
	At    geom.Point // seen from the front
	Drill tool.Drill
	// Stop is how deep the rim of the drill goes below the face that it enters,
	// mm: its point then stays above the floor.
	Stop float64
}

// DrillOut is the plan by which the waste of a cavity is drilled out before the
// router goes in. The zero DrillOut has no holes.
type DrillOut struct {
	Holes  []DrillHole // in the order in which to bore them
	Share  float64     // of the cavity's area that the holes take, 0 to 1
	Margin float64     // from the rim of a hole to the line, mm
}

// DrillWaste plans the holes for a cavity of the given plan and depth below the
// face that the drill enters, with the drills at hand. There are none where it is
// too shallow or too narrow for them, or where no drill is long enough.
func DrillWaste(plan geom.Region, depth float64, drills []tool.Drill) DrillOut {
	byD := map[float64]DrillHole{}
	var ds []float64
	for _, d := range drills {
		stop := depth - d.Point - drillFloor
		if _, twice := byD[d.D]; twice || d.D < drillLeast || stop < drillShallow || d.Length > 0 && d.Length < stop {
			continue
		}
		byD[d.D] = DrillHole{Drill: d, Stop: math.Floor(stop*10) / 10} // as a depth stop is read
		ds = append(ds, d.D)
	}
	discs, _ := geom.Cover(plan, ds, DrillMargin, drillShare)
	discs, share := worthwhile(discs, plan.Area())
	if len(discs) == 0 {
		return DrillOut{}
	}
	out := DrillOut{Share: share, Margin: DrillMargin}
	for _, d := range discs {
		h := byD[nearest(ds, 2*d.Radius)]
		h.At = d.Center
		out.Holes = append(out.Holes, h)
	}
	return out
}

// worthwhile returns the discs up to the first that adds too little to bore it,
// and the share of the area that they take. The discs come largest gain first.
func worthwhile(discs []geom.Disc, area float64) ([]geom.Disc, float64) {
	var c geom.Calc
	var taken geom.Region
	share := 0.0
	for i, d := range discs {
		taken = c.Union(taken, geom.Region{geom.Circle(d.Center, d.Radius)})
		next := taken.Area() / area
		if c.Err() != nil || next-share < drillGain {
			return discs[:i], share
		}
		share = next
	}
	return discs, share
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
