package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
)

// corner is a place where an outline turns outward, with its radius; 0 when
// sharp.
type corner struct {
	at     geom.Point
	radius float64
}

// corners returns the outward corners of a region: its convex arcs and its sharp
// convex vertices.
func corners(r geom.Region) []corner {
	const sharp = 0.001 // radian, as geom.TightestRadius
	var out []corner
	for _, loop := range r {
		for i, e := range loop {
			if e.Turn > 0 {
				out = append(out, corner{e.At(0.5), e.Radius})
			}
			next := loop[(i+1)%len(loop)]
			in, to := e.Tangent(1), next.Tangent(0)
			if in.Cross(to) > sharp {
				out = append(out, corner{e.B, 0})
			}
		}
	}
	return out
}

// coverCorner compares each corner of a cover with the corner of its rebate that
// lies outward of it.
func coverCorner(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, lid := range j.OfKind(part.Cover) {
		for _, e := range j.Mates(lid, part.Rebate) {
			gap := j.CoverGap(lid.Group)
			worst := Finding{Got: math.Inf(1)}
			var places []Place
			for _, c := range corners(lid.Plan()) {
				k, ok := nearCorner(e.Plan(), c)
				want := k - gap
				if !ok || c.radius >= want-geom.Budget {
					continue
				}
				places = append(places, Place{c.at, "tight corner"})
				if c.radius-want < worst.Got-worst.Want {
					worst = r.finding(Warn, c.radius, want,
						fmt.Sprintf(
							"%s has corners of radius %s mm in %s of radius %s mm with a gap of %s mm: less than %s, it binds there",
							lid, mm(c.radius), e, mm(k), mm(gap), mm(want)),
						"round the cover's corners, or use a smaller bit for the rebate", lid.At)
				}
			}
			if len(places) > 0 {
				worst.Places = places
				out = append(out, worst)
			}
		}
	}
	return out
}

// nearCorner returns the radius of an outline where it is nearest to a corner
// that lies inside it; ok is false where it does not turn outward there.
func nearCorner(r geom.Region, c corner) (radius float64, ok bool) {
	best := math.Inf(1)
	for _, loop := range r {
		for _, e := range loop {
			q := e.Closest(c.at)
			if d := q.Dist(c.at); d < best-geom.Coincident {
				best = d
				radius, ok = e.Radius, e.Turn > 0
			}
		}
	}
	return radius, ok
}

// coverScrews returns the pilot holes of the screws that hold covers.
func coverScrews(j *job.Job) []part.Part {
	lids := map[string]bool{}
	for _, p := range j.OfKind(part.Cover) {
		lids[p.Group] = true
	}
	var out []part.Part
	for _, p := range j.OfKind(part.Screw) {
		if lids[p.Group] {
			out = append(out, p)
		}
	}
	return out
}

// woodRound is how near a void may come to the wall of a pilot hole before it
// ends the wood that the screw holds in, mm; common practice.
const woodRound = 2

// under returns the wood under the head of a screw, and what ends it.
func under(j *job.Job, p part.Part, b part.Bore) (float64, string) {
	left, by := j.WoodUnder(b.From.Flat(), b.From.Z, b.D/2+woodRound, p.Group)
	if by != nil {
		return left, by.String()
	}
	return left, "the front"
}

// screwWood measures the wood that each screw of a cover holds in.
func screwWood(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, p := range coverScrews(j) {
		for i, b := range p.Bores {
			left, by := under(j, p, b)
			got := math.Min(left, b.Length())
			l, want, bad := r.below(got + geom.Coincident)
			if !bad {
				continue
			}
			msg, cure := fmt.Sprintf("screw %d of cover %q holds in %s mm of wood, less than %s", i+1, p.Name, mm(got),
				mm(want)), "use longer screws"
			if left < b.Length() {
				msg, cure = fmt.Sprintf("screw %d of cover %q has %s mm of wood over %s, less than %s", i+1, p.Name,
					mm(left), by, mm(want)), "move the screw, or make that cavity shallower"
			}
			out = append(out, r.finding(l, got, want, msg, cure, p.At,
				Place{b.From.Flat(), fmt.Sprintf("screw %d", i+1)}))
		}
	}
	return out
}

// screwTip measures the wood beyond the tip of each screw of a cover.
func screwTip(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, p := range coverScrews(j) {
		for i, b := range p.Bores {
			left, by := under(j, p, b)
			got := left - b.Length()
			if l, want, bad := r.below(got + geom.Coincident); bad {
				msg := fmt.Sprintf(
					"the tip of screw %d of cover %q, %s mm in the wood, stands %s mm from %s, less than %s", i+1,
					p.Name, mm(b.Length()), mm(got), by, mm(want))
				if got < 0 {
					msg = fmt.Sprintf("screw %d of cover %q goes %s mm into wood of %s mm and comes out in %s", i+1,
						p.Name, mm(b.Length()), mm(left), by)
				}
				out = append(out, r.finding(l, got, want, msg, "use shorter screws, or move this one", p.At,
					Place{b.From.Flat(), fmt.Sprintf("screw %d", i+1)}))
			}
		}
	}
	return out
}

// screwToKey measures from each screw of a cover to the wall and the floor of
// every key's recess.
func screwToKey(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, p := range coverScrews(j) {
		for i, b := range p.Bores {
			at := b.From.Flat()
			lo, hi := math.Min(b.From.Z, b.To.Z), math.Max(b.From.Z, b.To.Z)
			for _, k := range j.OfKind(part.Recess) {
				top, floor := k.Range()
				apart := math.Max(0, math.Max(top-hi, lo-floor)) // in depth
				_, d := geom.IndexOf(k.Plan()).Closest(at)
				if k.Plan().Contains(at) && apart > 0 {
					d = 0
				}
				d = math.Hypot(d, apart)
				if l, want, bad := r.below(d + geom.Coincident); bad {
					out = append(out, r.finding(l, d, want,
						fmt.Sprintf("screw %d of cover %q stands %s mm from the line of %s, less than %s", i+1, p.Name,
							mm(d), k, mm(want)),
						"move the screw away from the joint", p.At, Place{at, fmt.Sprintf("screw %d", i+1)}))
				}
			}
		}
	}
	return out
}
