package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// faceDepth returns how deep a part goes from its own face.
func faceDepth(j *job.Job, p part.Part) float64 { return p.Depth(j.Thickness) }

// bodies makes parts ready to be measured in space.
func bodies(ps []part.Part) []*space.Body {
	out := make([]*space.Body, len(ps))
	for i, p := range ps {
		out[i] = space.Of(p)
	}
	return out
}

// across returns the contours on the faces that p does not open: they lie over or
// under it. Where p opens on their own face the two are cut into each other.
func across(j *job.Job, p part.Part) []part.Part {
	var out []part.Part
	for _, c := range j.OfKind(part.Contour) {
		if !opensOn(j, p, c.Face) {
			out = append(out, c)
		}
	}
	return out
}

// where lists the middle of each plan that two parts share, or else the place
// where they come nearest.
func where(a, b part.Part, g space.Gap, what string) []Place {
	if both := overlap(a, b); !both.Empty() {
		return spots(both, what)
	}
	return []Place{{g.A.Flat(), what}}
}

// overlap returns the plan that two parts share.
func overlap(a, b part.Part) geom.Region {
	var c geom.Calc
	both := c.Intersect(a.Plan(), b.Plan())
	if c.Err() != nil || both.Area() < geom.Budget {
		return nil
	}
	return both
}

func keyToVoid(r Rule, j *job.Job) []Finding {
	var out []Finding
	vs := bodies(j.Voids())
	for i, k := range bodies(j.OfKind(part.Recess)) {
		for _, v := range vs {
			if j.Keys.Poses[i].Meets {
				continue
			}
			g := k.Within(v, r.Most())
			if g.Over() {
				continue // key-over-void's
			}
			if l, want, bad := r.below(g.D); bad {
				msg := fmt.Sprintf("%s lies %s mm from %s, less than %s", k.Part, mm(g.D), v.Part, mm(want))
				if g.D == 0 {
					msg = fmt.Sprintf("%s runs into %s", k.Part, v.Part)
				}
				out = append(out, r.finding(l, g.D, want, msg, "move the key, or shorten it", k.Part.At, Place{g.A.Flat(), "key to void"}))
			}
		}
	}
	return out
}

func keyOverVoid(r Rule, j *job.Job) []Finding {
	var out []Finding
	vs := bodies(j.Voids())
	for _, k := range bodies(j.OfKind(part.Recess)) {
		for _, v := range append(vs[:len(vs):len(vs)], bodies(across(j, k.Part))...) {
			g := k.Within(v, r.Most())
			if !g.Over() && v.Part.Kind != part.Contour { // beside a void: key-to-void's
				continue
			}
			if l, want, bad := r.below(g.D); bad {
				k, v := k.Part, v.Part
				out = append(out, r.finding(l, g.D, want, fmt.Sprintf("only %s mm of wood between %s, %s deep, and %s, %s deep from the %s", mm(g.D), k, mm(faceDepth(j, k)), v, mm(faceDepth(j, v)), v.Face), "move the key, or make one of them shallower", k.At, where(k, v, g, "key over void")...))
			}
		}
	}
	return out
}

// keyBehindKey measures the wood between keys that lie over each other.
func keyBehindKey(r Rule, j *job.Job) []Finding {
	var out []Finding
	ks := bodies(j.OfKind(part.Recess))
	for i, a := range ks {
		for _, b := range ks[i+1:] {
			if a.Part.SharesDepth(b.Part) {
				continue // keys that share depths are key-to-key's
			}
			g := a.Within(b, r.Most())
			if l, want, bad := r.below(g.D); bad {
				a, b := a.Part, b.Part
				out = append(out, r.finding(l, g.D, want, fmt.Sprintf("only %s mm of wood between %s on the %s and %s on the %s, less than %s", mm(g.D), a, a.Face, b, b.Face, mm(want)), "move one of them along the crack, or make the keys shallower", b.At, where(a, b, g, "keys over each other")...))
			}
		}
	}
	return out
}

// keyMet notes the cavities that are cut through the wood of a glued key which
// the design lets them meet.
func keyMet(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, k := range j.OfKind(part.Key) {
		for _, v := range j.Voids() {
			if !j.Keys.Poses[i].Meets || !k.SharesDepth(v) {
				continue
			}
			if both := overlap(k, v); !both.Empty() {
				out = append(out, r.finding(Note, both.Area(), 0, fmt.Sprintf("%s is cut through %s mm² of %s: the key is wood there, and holds the less for it", v, mm(both.Area()), k), "let the glue cure fully before that cut", k.At, spots(both, "key met")...))
			}
		}
	}
	return out
}

// edgesApart returns the least distance between the edges of two regions, of
// which one may lie in the other, and where on a.
func edgesApart(a, b geom.Region) (d float64, at geom.Point) {
	d = math.Inf(1)
	for _, p := range a {
		for _, q := range b {
			if e, pa, _ := geom.PathDistance(p, q); e < d {
				d, at = e, pa
			}
		}
	}
	return d, at
}

// inOutline measures how far parts stay inside the outline, after its edge is
// treated.
func inOutline(r Rule, j *job.Job, parts []part.Part, cure string) []Finding {
	var out []Finding
	for _, p := range parts {
		var c geom.Calc
		outside := c.Subtract(p.Plan(), j.Outline)
		if c.Err() == nil && outside.Area() > geom.Budget {
			out = append(out, r.finding(Stop, -reach(outside, j.Outline), r.Stop, fmt.Sprintf("%s lies outside the body: %s mm² of it", p, mm(outside.Area())), cure, p.At, spots(outside, "outside the body")...))
			continue
		}
		g := space.Of(p).ToEdge(j.Edge)
		if l, want, bad := r.below(g.D); bad {
			edge := "the finished outline"
			if j.EdgeBit != nil {
				edge += " after its edge is treated"
			}
			out = append(out, r.finding(l, g.D, want, fmt.Sprintf("%s comes within %s mm of %s, less than %s", p, mm(g.D), edge, mm(want)), cure, p.At, Place{g.A.Flat(), "thin wall"}))
		}
	}
	return out
}

// reach returns how far the corners of a lie from the edge of b.
func reach(a, b geom.Region) float64 {
	edge := geom.IndexOf(b)
	var most float64
	for _, loop := range a {
		for _, v := range loop.Vertices() {
			if _, d := edge.Closest(v); d > most {
				most = d
			}
		}
	}
	return most
}

func keyInOutline(r Rule, j *job.Job) []Finding {
	return inOutline(r, j, j.OfKind(part.Recess), "move the key inward, or turn it")
}

func voidToOutline(r Rule, j *job.Job) []Finding {
	var closed []part.Part
	for _, v := range j.Voids() {
		if v.Kind != part.Pocket { // which opens there
			closed = append(closed, v)
		}
	}
	return inOutline(r, j, closed, "move the cavity inward, or make it smaller")
}

func voidToVoid(r Rule, j *job.Job) []Finding {
	var out []Finding
	vs := bodies(j.Voids())
	for i, a := range vs {
		for _, b := range vs[i+1:] {
			if a.Part.Group == b.Part.Group {
				continue
			}
			g := a.Within(b, r.Most())
			if g.Over() {
				continue // web-between-faces'
			}
			if l, want, bad := r.below(g.D); bad {
				msg := fmt.Sprintf("%s and %s have %s mm of wood between them, %s mm below the front, less than %s", a.Part, b.Part, mm(g.D), mm(g.Depth()), mm(want))
				if g.D == 0 {
					msg = fmt.Sprintf("%s runs into %s", a.Part, b.Part)
				}
				out = append(out, r.finding(l, g.D, want, msg, "move one of them", b.Part.At, Place{g.A.Flat(), "void to void"}))
			}
		}
	}
	return out
}

// webBetween measures the wood between voids that lie over each other, and
// between a void and a contour of the other face.
func webBetween(r Rule, j *job.Job) []Finding {
	var out []Finding
	between := func(a, b *space.Body, contour bool) {
		g := a.Within(b, r.Most())
		if !g.Over() && !contour {
			return // voids beside each other are void-to-void's
		}
		if l, want, bad := r.below(g.D); bad {
			msg := fmt.Sprintf("%s and %s lie over each other with %s mm of wood between, less than %s", a.Part, b.Part, mm(g.D), mm(want))
			if g.D == 0 {
				msg = fmt.Sprintf("%s opens %s", b.Part, a.Part)
			}
			out = append(out, r.finding(l, g.D, want, msg, "make one of them shallower, or move it", b.Part.At, where(a.Part, b.Part, g, "thin web")...))
		}
	}
	vs := bodies(j.Voids())
	for i, a := range vs {
		for _, b := range vs[i+1:] {
			if a.Part.Group != b.Part.Group {
				between(a, b, false)
			}
		}
		for _, c := range bodies(across(j, a.Part)) {
			between(a, c, true)
		}
	}
	cs := bodies(j.OfKind(part.Contour))
	for i, a := range cs {
		for _, b := range cs[i+1:] {
			if a.Part.Face != b.Part.Face {
				between(a, b, true)
			}
		}
	}
	return out
}

func floor(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, v := range j.OfKind(part.Chamber) {
		if opensOn(j, v, v.Face) {
			continue
		}
		g := space.Of(v).ToFace(v.Face, j.Thickness)
		if l, want, bad := r.below(g.D); bad {
			out = append(out, r.finding(l, g.D, want, fmt.Sprintf("the plate over %s is %s mm thick, less than %s", v, mm(g.D), mm(want)), "use a thicker plate", v.At, Place{g.A.Flat(), "thin plate"}))
		}
	}
	for _, v := range append(j.Voids(), j.OfKind(part.Recess)...) {
		g := space.Of(v).ToFace(1-v.Face, j.Thickness)
		left := g.D
		if l, want, bad := r.below(left); bad {
			msg := fmt.Sprintf("%s, %s deep, leaves %s mm of wood under it, less than %s", v, mm(faceDepth(j, v)), mm(left), mm(want))
			if left <= 0 {
				msg = fmt.Sprintf("%s, %s deep, comes out of the other face of a body of %s mm", v, mm(faceDepth(j, v)), mm(j.Thickness))
			}
			out = append(out, r.finding(l, left, want, msg, "make it shallower", v.At, Place{g.A.Flat(), "thin floor"}))
		}
	}
	return out
}

// coverSeat looks at each cavity with a rebate: the cover reaches over the
// cavity, and the ledge is wide enough all round.
func coverSeat(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, v := range j.OfKind(part.Cavity) {
		for _, lid := range j.Mates(v, part.Cover) {
			var c geom.Calc
			if open := c.Subtract(v.Plan(), lid.Plan()); open.Area() > geom.Budget {
				out = append(out, r.finding(Stop, 0, r.Stop, fmt.Sprintf("%s is not wholly under its cover", v), "widen the rebate, or narrow the gap round the cover", lid.At, spots(open, "uncovered")...))
			}
		}
		for _, e := range j.Mates(v, part.Rebate) {
			d, at := edgesApart(v.Plan(), e.Plan())
			if l, want, bad := r.below(d + geom.Coincident); bad {
				out = append(out, r.finding(l, d, want, fmt.Sprintf("the ledge of %s is %s mm wide, less than %s", e, mm(d), mm(want)), "widen the rebate", e.At, Place{at, "narrow ledge"}))
			}
		}
	}
	return out
}
