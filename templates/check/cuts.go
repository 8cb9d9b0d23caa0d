package check

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/limit"
)

func mm(v float64) string { return design.MM(v) }

// woodLeft reports wood left or lost by the simulated cut of each template.
func woodLeft(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, p := range j.Proofs {
		t := j.Templates[i]
		if !p.Left.Empty() {
			out = append(out, r.findingOn(t, Stop, p.LeftReach, 0,
				fmt.Sprintf("%s: bit %q of %s mm leaves %s mm² of wood in %d places, up to %s mm from the line", t.For, t.Tool.Bit, mm(t.Tool.Cutter), mm(p.Left.Area()), len(p.Left), mm(p.LeftReach)),
				"give the corners a larger radius, name a smaller bit, or declare hand work", t.For.At, spots(p.Left, "wood left")...))
		}
		if !p.Lost.Empty() {
			out = append(out, r.findingOn(t, Stop, p.LostDepth, 0,
				fmt.Sprintf("%s: the follower of %s mm blunts the template, and the cut takes %s mm² that should stay, up to %s mm over the line", t.For, mm(t.Tool.Follower), mm(p.Lost.Area()), mm(p.LostDepth)),
				fmt.Sprintf("round the corners that point into the cut by %s mm or more, or use a bearing of the bit's own size", mm(t.Tool.Offset())), t.For.At, spots(p.Lost, "wood lost")...))
		}
	}
	return out
}

// spots returns the middle of each piece of a region.
func spots(r geom.Region, what string) []Place {
	var ps []Place
	for _, c := range r.Components() {
		ps = append(ps, Place{c.Bounds().Center(), what})
	}
	return ps
}

// followerPasses tests the necks of the template for the follower, and those of
// the recess for the cutter.
func followerPasses(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, p := range j.Proofs {
		t := j.Templates[i]
		for _, m := range []struct {
			who, where string
			d, neck    float64
			passes     bool
			cure       string
		}{
			{"follower", "template's neck", t.Tool.Follower, p.Neck, p.Passes, "widen the neck, or use a smaller follower"},
			{"cutter", "neck of the recess", t.Tool.Cutter, p.Room, p.Enters, "widen the neck, or use a smaller bit"},
		} {
			if m.d == 0 { // nothing follows a free path
				continue
			}
			if !m.passes {
				out = append(out, r.finding(Stop, 0, r.Stop, fmt.Sprintf("%s: the %s of %s mm does not pass the %s", t.For, m.who, mm(m.d), m.where), m.cure, t.For.At))
			} else if l, want, bad := r.below(m.neck); bad {
				out = append(out, r.finding(l, m.neck, want, fmt.Sprintf("%s: the %s is less than %s mm wider than the %s of %s mm", t.For, m.where, mm(want), m.who, mm(m.d)), m.cure, t.For.At))
			}
			if t.Tool.Follower == t.Tool.Cutter && (!m.passes || m.neck < r.Warn) {
				break // the same neck, told once
			}
		}
	}
	return out
}

// ofSizes runs a rule over each size of the keys; name tells a size apart where
// there are several.
func ofSizes(j *job.Job, find func(z job.KeySize, name string) []Finding) []Finding {
	if j.Keys == nil {
		return nil
	}
	var out []Finding
	for _, z := range j.Keys.Sizes {
		name := "the key"
		if z.Words != "" {
			name = "the key " + z.Words
		}
		out = append(out, find(z, name)...)
	}
	return out
}

func keyInside(r Rule, j *job.Job) []Finding {
	return ofSizes(j, func(z job.KeySize, name string) []Finding {
		g := z.Gap
		if g.Min >= r.Stop-geom.Coincident { // a gap of 0 comes out a rounding under it
			return nil
		}
		return []Finding{r.finding(Stop, g.Min, r.Stop, fmt.Sprintf("%s as cut stands %s mm outside the recess as cut", name, mm(-g.Min)), "give the key a gap, or cut both with the same bit", j.Design.Keys.At, Place{g.AtMin, "key outside its recess"})}
	})
}

func glueGap(r Rule, j *job.Job) []Finding {
	return ofSizes(j, func(z job.KeySize, name string) []Finding {
		g := z.Gap
		var out []Finding
		if g.Min >= 0 && g.Min < r.Warn-geom.Budget {
			out = append(out, r.finding(Warn, g.Min, r.Warn, fmt.Sprintf("the gap round %s comes down to %s mm, less than %s", name, mm(g.Min), mm(r.Warn)), "glue needs room: give a larger gap", j.Design.Keys.At, Place{g.AtMin, "smallest gap"}))
		}
		if floor := z.Proof.Insert(j.Keys.Depth, j.Keys.Taper, 0).Floor; j.Keys.Taper > 0 && floor.Max > limit.GapMost+geom.Budget {
			out = append(out, r.finding(Warn, floor.Max, limit.GapMost, fmt.Sprintf("the taper of %s opens the gap to %s mm at the floor, more than %s", name, mm(floor.Max), mm(limit.GapMost)), "give less taper; a lead-in chamfer helps the key in as well", j.Design.Keys.At))
		}
		if g.Max > limit.GapMost+geom.Budget {
			out = append(out, r.finding(Warn, g.Max, limit.GapMost, fmt.Sprintf("the gap round %s opens to %s mm, more than %s", name, mm(g.Max), mm(limit.GapMost)), "give a smaller gap, or round the corners of key and recess alike", j.Design.Keys.At, Place{g.AtMax, "widest gap"}))
		}
		return out
	})
}

// templateWeb measures the least wood between the opening, the pins and the
// edge of each female template.
func templateWeb(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, t := range j.Templates {
		if t.Male || t.Free() {
			continue
		}
		edges := append(append(geom.Region{}, t.Shape...), t.Blank...)
		for _, p := range t.Pins {
			edges = append(edges, geom.Circle(p.At, p.D/2))
		}
		for a := range edges {
			for b := a + 1; b < len(edges); b++ {
				d, pa, _ := geom.PathDistance(edges[a], edges[b])
				if l, want, bad := r.below(d); bad {
					out = append(out, r.findingOn(t, l, d, want, fmt.Sprintf("%s: the template keeps only %s mm of wood between two edges", t.For, mm(d)), "use a larger sheet, or move what lies there", t.For.At, Place{pa, "thin web"}))
				}
			}
		}
	}
	return out
}

func maleWaist(r Rule, j *job.Job) []Finding {
	return ofSizes(j, func(z job.KeySize, name string) []Finding {
		if z.Fit.Inlay != nil || z.Fit.Tool.Free() {
			return nil
		}
		w := z.Fit.MaleWaist()
		l, want, bad := r.below(w)
		if w <= 0 {
			l, want, bad = Stop, r.Warn, true
		}
		if !bad {
			return nil
		}
		return []Finding{r.finding(l, w, want, fmt.Sprintf("the male template of %s has a waist of %s mm, less than %s", name, mm(w), mm(want)), "cut the key with a bearing of the bit's own size, or widen its waist", j.Design.Keys.At)}
	})
}
