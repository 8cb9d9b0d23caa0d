package check

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// threadLength measures by how much each thread is longer than the wood over its
// control.
func threadLength(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, c := range j.Controls {
		if c.Thread == 0 {
			continue
		}
		over := c.Thread - c.Wood
		if l, want, bad := r.below(over + geom.Coincident); bad {
			out = append(out, r.finding(l, over, want,
				fmt.Sprintf("%s: its thread of %s mm under %s mm of wood stands out by %s mm, less than %s", c,
					mm(c.Thread), mm(c.Wood), mm(over), mm(want)),
				fmt.Sprintf("leave at most %s mm of wood over it, or use a longer thread", mm(c.Thread-want)), c.Pos,
				Place{c.At, "short thread"}))
		}
	}
	return out
}

// controlsApart measures between the bodies and between the knobs of any two
// controls.
func controlsApart(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, a := range j.Controls {
		for _, b := range j.Controls[i+1:] {
			for _, m := range []struct {
				what string
				a, b geom.Region
				cure string
			}{{"bodies", a.Body, b.Body, "move one of them"}, {"knobs", a.Knob, b.Knob, "move one of them, or use smaller knobs"}} {
				d, pa, pb := geom.Distance(m.a, m.b)
				l, want, bad := r.below(d + geom.Coincident)
				if !bad {
					continue
				}
				msg := fmt.Sprintf("the %s of %s and %s have %s mm between them, less than %s", m.what, a, b, mm(d),
					mm(want))
				if d == 0 {
					msg = fmt.Sprintf("the %s of %s and %s run into one another", m.what, a, b)
				}
				out = append(out, r.finding(l, d, want, msg, m.cure, b.Pos,
					Place{pa.Lerp(pb, 0.5), m.what + " too near"}))
			}
		}
	}
	return out
}

// controlInside measures from the body of each control to the wall of its cavity,
// the seat that is bored for it counted in.
func controlInside(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, c := range j.Controls {
		var calc geom.Calc
		var room []geom.Region
		for _, v := range j.Voids() {
			if v.Group == c.Group && (v.Kind == part.Cavity || v.Kind == part.Seat) {
				room = append(room, v.Plan())
			}
		}
		all := calc.Union(room...)
		over := calc.Subtract(c.Body, all)
		if calc.Err() != nil {
			continue
		}
		cure := "move it, or draw the cavity larger"
		if over.Area() > geom.Budget {
			d := reach(over, all)
			out = append(out, r.finding(Stop, -d, r.Stop,
				fmt.Sprintf("%s stands up to %s mm outside its cavity", c, mm(d)), cure, c.Pos,
				spots(over, "outside the cavity")...))
			continue
		}
		d, at := edgesApart(c.Body, all)
		if l, want, bad := r.below(d + geom.Coincident); bad {
			out = append(out, r.finding(l, d, want,
				fmt.Sprintf("%s has %s mm of room to the wall of its cavity, less than %s", c, mm(d), mm(want)), cure,
				c.Pos, Place{at, "little room"}))
		}
	}
	return out
}

// controlUnder measures from the underside of each control to its cover, or to
// the back where it has none.
func controlUnder(r Rule, j *job.Job) []Finding {
	lids := map[string]float64{}
	for _, lid := range j.OfKind(part.Cover) {
		lids[lid.Group], _ = lid.Range()
	}
	var out []Finding
	for _, c := range j.Controls {
		if c.Deep == 0 {
			continue
		}
		end, words := j.Thickness, "the back"
		if top, ok := lids[c.Group]; ok {
			end, words = top, "the cover"
		}
		left := end - c.Wood - c.Deep
		l, want, bad := r.below(left + geom.Coincident)
		if !bad {
			continue
		}
		msg := fmt.Sprintf("%s, %s mm deep under %s mm of wood, has %s mm to %s, less than %s", c, mm(c.Deep), mm(c.Wood),
			mm(left), words, mm(want))
		if left < 0 {
			msg = fmt.Sprintf("%s, %s mm deep under %s mm of wood, stands %s mm over %s", c, mm(c.Deep), mm(c.Wood),
				mm(-left), words)
		}
		out = append(out, r.finding(l, left, want, msg, "leave less wood over it, or use a shallower one", c.Pos,
			Place{c.At, "little depth"}))
	}
	return out
}

// floorOrSeat measures the floors of all voids. A seat is thin on purpose, under a
// washer and a nut: it stops as any other, and does not warn.
func floorOrSeat(r Rule, j *job.Job) []Finding {
	seats := map[design.Pos]bool{}
	for _, p := range j.OfKind(part.Seat) {
		seats[p.At] = true
	}
	var out []Finding
	for _, f := range floor(r, j) {
		if f.Level == Stop || !seats[f.At] {
			out = append(out, f)
		}
	}
	return out
}
