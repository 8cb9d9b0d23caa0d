package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/drill"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// channel judges every drilled channel: the wood between it and all that must
// stay, and whether it opens the two that it joins.
func channel(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, c := range j.Channels {
		if !c.Found {
			if !c.Ground { // ground-wire's
				out = append(out, r.finding(Stop, 0, r.Stop, fmt.Sprintf("no straight hole of %s mm joins %s and %s and keeps clear of everything", mm(c.D), c.Join[0], c.Join[1]), "use a thinner or longer drill, join them by way of a third cavity, or move what lies between", c.At, Place{c.Ends[0].Plan.Bounds().Center(), c.Join[0]}, Place{c.Ends[1].Plan.Bounds().Center(), c.Join[1]}))
			}
			continue
		}
		rules := j.DrillRules(c)
		rules.Warn = max(rules.Warn, r.Warn) // the builder may ask for more
		for i := range rules.Obstacles {
			rules.Obstacles[i].Warn = max(rules.Obstacles[i].Warn, r.Warn)
		}
		for _, n := range rules.Judge(c.Path, c.From(), c.To()) {
			lim := Rule{Limits: Limits{Stop: n.Stop, Warn: n.Warn}}
			if l, want, bad := lim.below(n.D); bad {
				msg := fmt.Sprintf("the channel %s leaves %s mm of wood to %s, %s mm below the front, less than %s", c.Name, mm(n.D), n.What, mm(n.At.Z), mm(want))
				if n.D <= 0 {
					msg = fmt.Sprintf("the channel %s comes out in %s, %s mm below the front", c.Name, n.What, mm(n.At.Z))
				}
				out = append(out, r.finding(l, n.D, want, msg, "let the program find the path, use a thinner drill, or move what is in the way", c.At, Place{n.At.Flat(), "thin wood"}))
			}
		}
		out = append(out, r.opens(c)...)
	}
	return out
}

// opens checks that a channel opens the walls of its two ends, and of what it
// passes, with its whole width.
func (r Rule) opens(c job.Channel) []Finding {
	var out []Finding
	half := c.D / (2 * math.Cos(float64(c.Path.Fall())))
	wall := func(v drill.Void, s float64) {
		z := c.Path.DepthAt(s)
		over := math.Max(v.Top-(z-half), z+half-v.Floor)
		if over <= geom.Budget || v.Plate {
			return
		}
		at := c.Path.From.Flat().Add(c.Path.Heading().Mul(s))
		out = append(out, r.finding(Stop, -over, 0, fmt.Sprintf("the channel %s meets %s %s mm below the front, where its wall stands from %s to %s: %s mm of the hole miss it", c.Name, v.Name, mm(z), mm(v.Top), mm(v.Floor), mm(over)), "enter at another depth or angle", c.At, Place{at, "misses the cavity"}))
	}
	wall(c.From(), 0)
	wall(c.To(), c.Path.Run())
	for _, v := range c.Pass {
		near, far, ok := c.Path.Crosses(v)
		if !ok {
			out = append(out, r.finding(Stop, 0, 0, fmt.Sprintf("the channel %s does not pass through %s", c.Name, v.Name), "turn the path, or leave it out of through", c.At, Place{v.Plan.Bounds().Center(), "passed by"}))
			continue
		}
		wall(v, near)
		wall(v, far)
	}
	return out
}

// channelSkew measures how far from square a drill meets the wall that it enters.
func channelSkew(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, c := range j.Channels {
		if !c.Found {
			continue
		}
		if a := c.Path.Skewed(c.From()).Degrees(); a > r.Warn+1e-6 {
			out = append(out, r.finding(Warn, a, r.Warn, fmt.Sprintf("the channel %s meets the wall of %s %s° from square, more than %s: the drill skids", c.Name, c.From().Name, mm(a), mm(r.Warn)), "enter where the wall faces the drill", c.At, Place{c.Path.From.Flat(), "skids"}))
		}
	}
	return out
}

// channelRim checks that drill and chuck clear the rim of the cavity that the
// drill comes from: ℓ·tan φ ≥ d + q/(2·cos φ).
func channelRim(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, c := range j.Channels {
		if !c.Found {
			continue
		}
		from := c.From()
		at := Place{c.Path.From.Flat(), "rim"}
		angle := mm(c.Path.Angle(from).Degrees())
		if d := c.Path.RimClear(from, c.D); d < -geom.Budget {
			out = append(out, r.finding(Stop, d, 0, fmt.Sprintf("drilling from %s at %s°, the drill of %s mm hits the rim, %s mm behind: it lies %s mm too low there", from.Name, angle, mm(c.D), mm(c.Path.Rim), mm(-d)), "enter nearer the face, drill more steeply or along the cavity, or use a thinner drill", c.At, at))
		}
		if d := c.Path.ChuckClear(from, j.DrillRules(c)); d < -geom.Budget {
			out = append(out, r.finding(Stop, d, 0, fmt.Sprintf("drilling from %s at %s°, the chuck of %s mm comes %s mm below the face before the hole of %s mm is through", from.Name, angle, mm(c.Chuck), mm(-d), mm(c.Path.Length())), "use a longer drill or an extension, or drill more steeply", c.At, at))
		}
	}
	return out
}

// groundWire warns of a bridge whose ground wire has no way.
func groundWire(r Rule, j *job.Job) []Finding {
	if !j.Design.Bridge.Present {
		return nil
	}
	for _, c := range j.Channels {
		if c.Ground && c.Found {
			return nil
		}
	}
	return []Finding{r.finding(Warn, 0, 0, "no straight hole leads the bridge's ground wire to a cavity", "add a [[channel]] that joins \"bridge\" with a cavity nearer to it, or lay the wire in a groove under the plate", j.Design.Bridge.Table.At)}
}

// jackWall measures the wood round the bore of the jack: to the faces after the
// edge is treated, and to every void, key and contour but the one it opens.
func jackWall(r Rule, j *job.Job) []Finding {
	var out []Finding
	if j.Jack == nil {
		return nil
	}
	p, ok := j.PartByID(j.Jack.ID)
	if !ok {
		return nil
	}
	b := space.Of(p)
	speak := func(d float64, what string, at Place) {
		if l, want, bad := r.below(d); bad {
			out = append(out, r.finding(l, d, want, fmt.Sprintf("the bore of the jack, %s mm, leaves a wall of %s mm to %s, less than %s", mm(j.Jack.D), mm(d), what, mm(want)), "use a smaller jack or edge, or move it", p.At, at))
		}
	}
	if j.Jack.Front() {
		g := b.ToEdge(j.Edge)
		speak(g.D, "the edge of the body", Place{g.A.Flat(), "thin wall"})
	} else {
		for _, f := range []part.Face{part.Front, part.Back} {
			// At the mouth the profile takes its size off the side of the body.
			g := b.ToFace(f, j.Thickness)
			speak(g.D-j.Edge.Faces[f].Size(), "the "+f.String()+", after its edge is treated", Place{j.Jack.At, "thin wall"})
		}
	}
	into := ""
	if v := j.Jack.Into; v != "" {
		for _, p := range j.Voids() {
			if p.Name == v {
				into = p.Group
			}
		}
	}
	for _, v := range j.Parts {
		switch v.Kind {
		case part.Pickup, part.Cavity, part.Rebate, part.Chamber, part.Pocket, part.Recess, part.Contour, part.Post, part.StringHole, part.Screw:
		default:
			continue
		}
		if v.Kind != part.Screw && v.Group == into && into != "" || j.Jack.Front() && v.Kind == part.Contour && v.Face == part.Front {
			continue
		}
		if g := b.Within(space.Of(v), r.Most()); !math.IsInf(g.D, 1) {
			speak(g.D, v.String(), Place{g.A.Flat(), "thin wall"})
		}
	}
	return out
}
