package job

import (
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/part"
)

// waste returns what the router has to take out with the template with index i. What
// an earlier cut of the same face has taken is no waste any more: the legs of a
// pickup go deeper where the pickup's cavity is, and a rebate is cut before the
// cavity in it.
func (j *Job) waste(i int) cut.Waste {
	t := j.Templates[i]
	w := cut.Waste{Plan: t.For.Plan(), Depth: j.CutDepth(t)}
	var c geom.Calc
	for k := range j.Templates {
		e := j.Templates[k]
		if !j.cutBefore(k, i) || !e.For.Plan().Bounds().Overlaps(w.Plan.Bounds()) {
			continue
		}
		left := c.Subtract(w.Plan, e.For.Plan())
		if c.Err() != nil {
			continue
		}
		if depth := j.CutDepth(e); left.Empty() && cut.Drillable(depth, w.Depth) {
			w.Start = math.Max(w.Start, depth) // all of it from that floor
		} else {
			w.Plan = left
		}
	}
	more := math.Max(0, w.Depth-t.For.Depth(j.Thickness)) // that still comes off the face
	sloped := false
	for _, s := range t.For.Solids {
		sloped = sloped || !s.Floor.Level() || !s.Top.Level()
	}
	if sloped || len(t.For.Solids) > 1 {
		w.Floor = func(d geom.Disc) float64 { return floorUnder(t.For, d, j.Thickness) + more }
	}
	return w
}

// cutBefore reports whether the template with index k leaves a void in the face that
// the template with index i is cut in, before it: in the order of the steps.
func (j *Job) cutBefore(k, i int) bool {
	a, b := j.Templates[k], j.Templates[i]
	if k == i || !a.Pinned() || !b.Pinned() || a.For.Face != b.For.Face || a.For.Kind == part.Recess || b.For.Kind == part.Recess {
		return false // recesses are filled by their keys
	}
	switch pocket := part.Pocket; {
	case a.For.Kind == pocket || b.For.Kind == pocket:
		return a.For.Kind == pocket
	case a.For.Group == b.For.Group && (a.For.Kind == part.Rebate) != (b.For.Kind == part.Rebate):
		return a.For.Kind == part.Rebate
	}
	return k < i
}

// floorUnder returns the least depth of a part's floor under a disc, mm from its own
// face of a body of the given thickness.
func floorUnder(p part.Part, d geom.Disc, thickness float64) float64 {
	least := math.Inf(1)
	for _, s := range p.Solids {
		edge := geom.IndexOf(s.Plan)
		if _, e := edge.Closest(d.Center); !edge.Contains(d.Center) && e > d.Radius {
			continue
		}
		f := s.Floor
		at := f.At(d.Center) - d.Radius*math.Hypot(f.DX, f.DY)
		if p.Face == part.Back {
			f = s.Top
			at = thickness - f.At(d.Center) - d.Radius*math.Hypot(f.DX, f.DY)
		}
		least = math.Min(least, at)
	}
	return least
}
