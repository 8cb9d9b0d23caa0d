package check

import (
	"fmt"
	"math"

	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/key"
	"routwright/templates/tool"
)

// bitReach compares what stands out of the router with template and depth, and the
// plunge of the router with the depth of a cut that starts inside the wood.
func bitReach(r Rule, j *job.Job) []Finding {
	var out []Finding
	plunge := float64(j.Design.Router.Plunge.V)
	for i, t := range j.Templates {
		if depth := j.Routing(i).Wanted; plunge > 0 && !t.Male && !t.Free() && plunge < depth {
			out = append(out, r.finding(Stop, plunge, depth, fmt.Sprintf("%s: the router plunges %s mm, and the cut is %s mm deep", t.For, mm(plunge), mm(depth)), "drill a hole to the full depth to start in and set the bit deeper by hand, or use a router that plunges further", t.For.At))
		}
		depth := j.Routing(i).Wanted
		if t.Tool.ShankRubs(depth) {
			out = append(out, r.finding(Stop, t.Tool.Length, depth, fmt.Sprintf("%s: bit %q cuts %s mm, and the cut is %s mm deep: its shank of %s mm, thicker than the cutter of %s, rubs on the wall", t.For, t.Tool.Bit, mm(t.Tool.Length), mm(depth), mm(t.Tool.Shank), mm(t.Tool.Cutter)), "use a bit with longer edges, or one whose shank is no thicker than its cutter", t.For.At))
		}
		if t.Tool.Reach == 0 {
			continue
		}
		if need := depth + t.Sheet; t.Tool.Reach < need {
			out = append(out, r.finding(Stop, t.Tool.Reach, need, fmt.Sprintf("%s: bit %q reaches %s mm below the base, and template and cut need %s", t.For, t.Tool.Bit, mm(t.Tool.Reach), mm(need)), bitCure(t, depth), t.For.At))
		}
	}
	return out
}

// bitCure says what helps a bit that is too short.
func bitCure(t cut.Template, depth float64) string {
	if t.Tool.Reach >= depth && t.Tool.Guide == tool.Bearing && t.Tool.Offset() == 0 {
		return "use a longer bit or a thinner template; or take the template off once the wall is as deep as the bearing is high, and let the bearing run on it"
	}
	return "use a longer bit or a thinner template"
}

func bushReach(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, t := range j.Templates {
		if t.Tool.Guide == tool.Bush && t.Tool.Stands > t.Sheet {
			out = append(out, r.finding(Stop, t.Tool.Stands, t.Sheet, fmt.Sprintf("%s: bush %q stands %s mm out of the base, over a template of %s mm: it would ride on the work", t.For, t.Tool.GuideOf, mm(t.Tool.Stands), mm(t.Sheet)), "use a thicker template, or shorten the bush", t.For.At))
		}
	}
	return out
}

// inlayCollar compares the gap that a collar makes with the one asked for. The
// measure is the collar's diameter: abs(B1 − (B0 + 2d − 2g)).
func inlayCollar(r Rule, j *job.Job) []Finding {
	if j.Keys == nil || j.Keys.Fit.Inlay == nil {
		return nil
	}
	in, d := j.Keys.Fit.Inlay, j.Keys.Fit.Tool.Cutter
	want := in.Bush + 2*d - 2*j.Keys.Wanted
	off := math.Abs(in.Collar - want)
	if off <= r.Stop+1e-9 {
		return nil
	}
	return []Finding{r.finding(Stop, off, r.Stop, fmt.Sprintf("the collar of %s mm over a bush of %s mm leaves a gap of %s mm a side, not the %s mm asked for", mm(in.Collar), mm(in.Bush), mm(in.Gap(d)), mm(j.Keys.Wanted)), fmt.Sprintf("use a collar of %s mm, or ask for the gap that this one makes", mm(want)), j.Design.Keys.At)}
}

func borderEven(r Rule, j *job.Job) []Finding {
	return ofSizes(j, func(z job.KeySize, name string) []Finding {
		g := z.Gap
		if z.Fit.Spec.Border <= 0 || g.Max-g.Min <= r.Warn {
			return nil
		}
		return []Finding{r.finding(Warn, g.Max-g.Min, r.Warn, fmt.Sprintf("the room for the border varies by %s mm round %s, more than %s", mm(g.Max-g.Min), name, mm(r.Warn)), "cut key and recess with a bearing of the bit's own size, or round the corners", j.Design.Keys.At, Place{g.AtMin, "narrowest"}, Place{g.AtMax, "widest"})}
	})
}

// borderBends measures the bend of strips in thicknesses.
func borderBends(r Rule, j *job.Job) []Finding {
	return ofSizes(j, func(z job.KeySize, name string) []Finding {
		t, radius := z.Fit.Spec.Border, z.Fit.BendRadius()
		if math.IsInf(radius, 1) || radius >= r.Warn*t {
			return nil
		}
		cure := "bend it over heat, or use thinner veneer"
		if radius < key.BendHot*t {
			cure = "it breaks even over heat: use thinner veneer or a larger bit, or mitre it (corners = \"chiselled\")"
		}
		return []Finding{r.finding(Warn, radius/t, r.Warn, fmt.Sprintf("the border of %s mm round %s bends to a radius of %s mm, less than %s dry (%g thicknesses); over heat it bears %s (%g)", mm(t), name, mm(radius), mm(r.Warn*t), r.Warn, mm(key.BendHot*t), float64(key.BendHot)), cure, j.Design.Keys.At)}
	})
}

func keyLength(r Rule, j *job.Job) []Finding {
	if j.Keys == nil || j.Keys.Fit.Spec.Length <= r.Warn {
		return nil
	}
	l := j.Keys.Fit.Spec.Length
	return []Finding{r.finding(Warn, l, r.Warn, fmt.Sprintf("the keys are %s mm long, more than %s", mm(l), mm(r.Warn)), "use several shorter keys", j.Design.Keys.At)}
}

func woodMovement(r Rule, j *job.Job) []Finding {
	if j.Keys == nil {
		return nil
	}
	w := j.Keys.Wood
	if w.Moves() <= r.Warn {
		return nil
	}
	what := "the slab moves under the length of a key"
	if w.Across > w.Along {
		what = "the ends of a key move over the slab"
	}
	return []Finding{r.finding(Warn, w.Moves(), r.Warn, fmt.Sprintf("%s by %s mm when the moisture changes by %s %%, more than %s", what, mm(w.Moves()), mm(w.Change), mm(r.Warn)), "use shorter keys, let the slab dry first, or keep the instrument at an even moisture", j.Design.Keys.At)}
}
