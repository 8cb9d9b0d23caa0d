package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
)

// faceDepth returns how deep a part goes from its own face.
func faceDepth(j *job.Job, p part.Part) float64 { return p.Depth(j.Thickness) }

// overlapDepth reports whether two parts share depths.
func overlapDepth(a, b part.Part) bool {
	at, af := a.Range()
	bt, bf := b.Range()
	return at < bf && bt < af
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
	for i, k := range j.OfKind(part.Recess) {
		for _, v := range j.Voids() {
			if !overlapDepth(k, v) || j.Keys.Poses[i].Meets {
				continue
			}
			d, pk, _ := geom.Distance(k.Plan(), v.Plan())
			if l, want, bad := r.below(d); bad {
				msg := fmt.Sprintf("%s lies %s mm from %s, less than %s", k, mm(d), v, mm(want))
				if d == 0 {
					msg = fmt.Sprintf("%s runs into %s", k, v)
				}
				out = append(out, r.finding(l, d, want, msg, "move the key, or shorten it", k.At, Place{pk, "key to void"}))
			}
		}
	}
	return out
}

func keyOverVoid(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, k := range j.OfKind(part.Recess) {
		for _, v := range j.Voids() {
			if k.Face == v.Face || overlapDepth(k, v) {
				continue
			}
			both := overlap(k, v)
			if both.Empty() {
				continue
			}
			left := j.Thickness - faceDepth(j, k) - faceDepth(j, v)
			if l, want, bad := r.below(left); bad {
				out = append(out, r.finding(l, left, want, fmt.Sprintf("only %s mm of wood between %s, %s deep, and %s, %s deep from the %s", mm(left), k, mm(faceDepth(j, k)), v, mm(faceDepth(j, v)), v.Face), "move the key, or make one of them shallower", k.At, spots(both, "key over void")...))
			}
		}
	}
	return out
}

// keyBehindKey measures the wood between keys that lie over each other.
func keyBehindKey(r Rule, j *job.Job) []Finding {
	var out []Finding
	ks := j.OfKind(part.Recess)
	for i, a := range ks {
		for _, b := range ks[i+1:] {
			if a.Face == b.Face || overlapDepth(a, b) {
				continue // keys that share depths are key-to-key's
			}
			both := overlap(a, b)
			left := j.Thickness - faceDepth(j, a) - faceDepth(j, b)
			if l, want, bad := r.below(left); bad && !both.Empty() {
				out = append(out, r.finding(l, left, want, fmt.Sprintf("only %s mm of wood between %s on the %s and %s on the %s, less than %s", mm(left), a, a.Face, b, b.Face, mm(want)), "move one of them along the crack, or make the keys shallower", b.At, spots(both, "keys over each other")...))
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
			if !j.Keys.Poses[i].Meets || !overlapDepth(k, v) {
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

// inOutline measures how far parts stay inside the outline.
func inOutline(r Rule, j *job.Job, parts []part.Part, cure string) []Finding {
	var out []Finding
	for _, p := range parts {
		var c geom.Calc
		outside := c.Subtract(p.Plan(), j.Outline)
		if c.Err() == nil && outside.Area() > geom.Budget {
			out = append(out, r.finding(Stop, -reach(outside, j.Outline), r.Stop, fmt.Sprintf("%s lies outside the body: %s mm² of it", p, mm(outside.Area())), cure, p.At, spots(outside, "outside the body")...))
			continue
		}
		d, at := edgesApart(p.Plan(), j.Outline)
		if l, want, bad := r.below(d); bad {
			out = append(out, r.finding(l, d, want, fmt.Sprintf("%s comes within %s mm of the finished outline, less than %s", p, mm(d), mm(want)), cure, p.At, Place{at, "thin wall"}))
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
	return inOutline(r, j, j.Voids(), "move the cavity inward, or make it smaller")
}

func voidToVoid(r Rule, j *job.Job) []Finding {
	var out []Finding
	vs := j.Voids()
	for i, a := range vs {
		for _, b := range vs[i+1:] {
			if a.Group == b.Group || !overlapDepth(a, b) {
				continue
			}
			d, pa, _ := geom.Distance(a.Plan(), b.Plan())
			if l, want, bad := r.below(d); bad {
				msg := fmt.Sprintf("%s and %s have %s mm of wood between them, less than %s", a, b, mm(d), mm(want))
				if d == 0 {
					msg = fmt.Sprintf("%s runs into %s", a, b)
				}
				out = append(out, r.finding(l, d, want, msg, "move one of them", b.At, Place{pa, "void to void"}))
			}
		}
	}
	return out
}

func webBetween(r Rule, j *job.Job) []Finding {
	var out []Finding
	vs := j.Voids()
	for i, a := range vs {
		for _, b := range vs[i+1:] {
			if a.Face == b.Face || overlapDepth(a, b) {
				continue // voids that share depths are void-to-void's
			}
			both := overlap(a, b)
			if both.Empty() {
				continue
			}
			left := j.Thickness - faceDepth(j, a) - faceDepth(j, b)
			if l, want, bad := r.below(left); bad {
				out = append(out, r.finding(l, left, want, fmt.Sprintf("%s and %s lie over each other with %s mm of wood between, less than %s", a, b, mm(left), mm(want)), "make one of them shallower, or move it", b.At, spots(both, "thin web")...))
			}
		}
	}
	return out
}

func floor(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, v := range append(j.Voids(), j.OfKind(part.Recess)...) {
		left := j.Thickness - faceDepth(j, v)
		if l, want, bad := r.below(left); bad {
			msg := fmt.Sprintf("%s, %s deep, leaves %s mm of wood under it, less than %s", v, mm(faceDepth(j, v)), mm(left), mm(want))
			if left <= 0 {
				msg = fmt.Sprintf("%s, %s deep, comes out of the other face of a body of %s mm", v, mm(faceDepth(j, v)), mm(j.Thickness))
			}
			out = append(out, r.finding(l, left, want, msg, "make it shallower", v.At, Place{v.Plan().Bounds().Center(), "thin floor"}))
		}
	}
	return out
}

// coverSeat looks at each cavity with a rebate: the cover reaches over the
// cavity, and the ledge is wide enough all round.
func coverSeat(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, v := range j.OfKind(part.Cavity) {
		for _, lid := range j.OfKind(part.Cover) {
			if lid.Group != v.Group {
				continue
			}
			var c geom.Calc
			if open := c.Subtract(v.Plan(), lid.Plan()); open.Area() > geom.Budget {
				out = append(out, r.finding(Stop, 0, r.Stop, fmt.Sprintf("%s is not wholly under its cover", v), "widen the rebate, or narrow the gap round the cover", lid.At, spots(open, "uncovered")...))
			}
		}
		for _, e := range j.OfKind(part.Rebate) {
			if e.Group != v.Group {
				continue
			}
			d, at := edgesApart(v.Plan(), e.Plan())
			if l, want, bad := r.below(d + geom.Coincident); bad {
				out = append(out, r.finding(l, d, want, fmt.Sprintf("the ledge of %s is %s mm wide, less than %s", e, mm(d), mm(want)), "widen the rebate", e.At, Place{at, "narrow ledge"}))
			}
		}
	}
	return out
}
