package check

import (
	"fmt"

	"routwright/templates/job"
)

// baseClear measures from whatever stands out of a template to the router's base.
func baseClear(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, t := range j.Templates {
		if t.Free() || t.Male && !j.ByHand {
			continue
		}
		for _, p := range j.Proud(t) {
			d := j.Sweeps[i].Clear(p)
			if l, want, bad := r.below(d); bad {
				out = append(out, r.finding(l, d, want, fmt.Sprintf("%s: %s stands out of the template %s mm inside the sweep of the router's base of %s mm: the base runs into it", t.For, p.Words, mm(-d), mm(j.Sweeps[i].Base)), "cut it flush with the template, or put it further out", t.For.At, Place{p.At, p.Words}))
			}
		}
	}
	return out
}

// baseCarried measures the share of the base that hangs over at the worst place of
// the path. The measure is a share of its area, 0 to 1.
func baseCarried(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, t := range j.Templates {
		if t.Free() || t.Male && !j.ByHand {
			continue
		}
		w := j.Sweeps[i].Worst()
		if w.Share <= r.Warn {
			continue
		}
		cure := "screw a wider plate under the base and give its diameter as router.outrigger"
		if o := j.Jigs.Outrigger; o != nil && !o.Given {
			cure += fmt.Sprintf(": one of %s mm carries it", mm(o.D))
		}
		if t.Male {
			cure = "trim it on a router table, or screw an outrigger under the base"
		}
		out = append(out, r.finding(Warn, w.Share, r.Warn, fmt.Sprintf("%s: %.1f %% of the router's base of %s mm hangs over where the bit stands at x %s, y %s, more than %.0f %%: it tips", t.For, 100*w.Share, mm(j.Sweeps[i].Base), mm(w.At.X), mm(w.At.Y), 100*r.Warn), cure, t.For.At, Place{w.At, "most of the base hangs over"}))
	}
	return out
}
