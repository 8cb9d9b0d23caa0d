package check

import (
	"fmt"

	"routwright/templates/job"
)

// passes reports what stands in the way of a blind cut.
func passes(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, t := range j.Templates {
		if t.Male {
			continue
		}
		if p := j.Routing(i); p.Problem != "" {
			out = append(out, r.finding(Stop, p.FirstBite, t.For.Depth(j.Thickness), fmt.Sprintf("%s: %s", t.For, p.Problem), p.Cure+", or drill the waste out first", t.For.At))
		}
	}
	return out
}

// firstBite measures the first cut that keeps the bearing on the template.
func firstBite(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, t := range j.Templates {
		if t.Male {
			continue
		}
		p := j.Routing(i)
		if p.Problem != "" || len(p.Passes) == 0 {
			continue
		}
		bite := p.Passes[0].Bite
		switch {
		case bite > t.Tool.Cutter:
			out = append(out, r.finding(Stop, bite, t.Tool.Cutter, fmt.Sprintf("%s: the first bite is %s mm, more than the bit's %s mm", t.For, mm(bite), mm(t.Tool.Cutter)), "drill the waste out first, or use a thicker template or a shorter cutter", t.For.At))
		case bite > t.Tool.Cutter/2+1e-9:
			out = append(out, r.finding(Warn, bite, t.Tool.Cutter/2, fmt.Sprintf("%s: the first bite is %s mm, more than half the bit's %s mm", t.For, mm(bite), mm(t.Tool.Cutter)), "drill the waste out first, or use a thicker template or a shorter cutter", t.For.At))
		}
	}
	return out
}
