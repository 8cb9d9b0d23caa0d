package check

import (
	"fmt"

	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// passes reports what stands in the way of a blind cut.
func passes(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, t := range j.Templates {
		if t.Male {
			out = append(out, offTemplate(r, j, i)...)
			continue
		}
		if p := j.Routing(i); p.Problem != "" {
			out = append(out, r.finding(Stop, p.FirstBite, t.For.Depth(j.Thickness), fmt.Sprintf("%s: %s", t.For, p.Problem), p.Cure, t.For.At))
		} else if len(p.Passes) > 0 && p.Passes[0].On == cut.NotKnown {
			out = append(out, r.finding(Note, 0, 0, fmt.Sprintf("%s: nothing tells what the bearing of bit %q runs on: its cutting length or the bearing's height is not given", t.For, t.Tool.Bit), "measure both, and write cut = … and bearing = {…, height = …} under its [[bit]]", t.For.At))
		}
	}
	return out
}

// offTemplate reports a part that is trimmed on its outside deeper than the cutter
// is long, with a bearing of another size: below that depth the bearing runs on the
// part, and the offset is added again.
func offTemplate(r Rule, j *job.Job, i int) []Finding {
	t := j.Templates[i]
	depth := t.For.Depth(j.Thickness)
	if t.For.Kind == part.Cover {
		top, floor := t.For.Range()
		depth = floor - top
	}
	if t.Tool.Guide != tool.Bearing || t.Tool.OwnSize() || t.Tool.Length <= 0 || t.Tool.Length >= depth {
		return nil
	}
	return []Finding{r.finding(Stop, t.Tool.Length, depth, fmt.Sprintf("%s: the cutter of %s mm is shorter than the part is thick, %s mm: the bearing of %s mm leaves the template and runs on the part, which would add the offset of %s mm again", t.For, mm(t.Tool.Length), mm(depth), mm(t.Tool.Follower), mm(t.Tool.Offset())), fmt.Sprintf("use a cutter of at least %s mm, or a bearing of the cutter's own size", mm(depth)), t.For.At)}
}

// biteCure is what helps against a first bite that is too deep.
const biteCure = "drill the waste out first (cut = {…, drill = true}), or use a thicker template or a shorter cutter"

// firstBite measures the first cut that keeps the bearing on the template. Where
// the waste is drilled out first the bit takes only what the drills leave: then a
// bite deeper than the bit's diameter is no stop, but a warning that names it.
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
		bite, d := p.Passes[0].Bite, t.Tool.Cutter
		var share float64
		if t.Tool.Drill {
			share = j.DrillOut(i).Share
		}
		switch {
		case bite > d && share >= cut.DrillEnough:
			out = append(out, r.finding(Warn, bite, d, fmt.Sprintf("%s: the first bite is %s mm, more than the bit's %s mm; the drills take %.0f %% of the waste before it", t.For, mm(bite), mm(d), 100*share), "feed slowly where the drills left wood, or use a thicker template or a shorter cutter", t.For.At))
		case bite > d:
			out = append(out, r.finding(Stop, bite, d, fmt.Sprintf("%s: the first bite is %s mm, more than the bit's %s mm", t.For, mm(bite), mm(d)), biteCure, t.For.At))
		case bite > d/2+1e-9 && share < cut.DrillEnough:
			out = append(out, r.finding(Warn, bite, d/2, fmt.Sprintf("%s: the first bite is %s mm, more than half the bit's %s mm", t.For, mm(bite), mm(d)), biteCure, t.For.At))
		}
	}
	return out
}
