package table

import (
	"strconv"

	"routwright/templates/job"
)

// passes lists the passes of every cut with a floor, and what the follower of
// each runs on.
func passes(j *job.Job) Table {
	t := Table{Name: "passes", Head: []string{"template", "bit", "pass", "depth", "bite", "runs_on", "problem"}}
	for i, e := range j.Templates {
		if e.Male {
			continue
		}
		r := j.Routing(i)
		if r.Problem != "" && len(r.Passes) == 0 {
			t.Rows = append(t.Rows, []string{e.ID, e.Tool.Bit, "", "", "", "", r.Problem})
		}
		for k, p := range r.Passes {
			t.Rows = append(t.Rows, []string{e.ID, e.Tool.Bit, strconv.Itoa(k + 1), num(p.Depth), num(p.Bite), p.On.String(), r.Problem})
		}
	}
	return t
}

// drillOut lists the holes that take waste before the router goes in, in the order
// in which to bore them. depth_stop is that of the drill's rim, from the face that
// it enters; x and y are seen from the front, of a key's recess from its middle.
// share is what all holes of the template take of its area, of_the_wood of its wood;
// starts_below is how far below the face they begin, rim_in_wood the share of the
// drill's rim that is held when its turn comes.
func drillOut(j *job.Job) Table {
	t := Table{Name: "drill-out", Head: []string{"template", "hole", "drill", "d", "x", "y", "depth_stop", "point", "margin", "share", "of_the_wood", "starts_below", "rim_in_wood"}}
	for i, e := range j.Templates {
		d := j.DrillOut(i)
		for k, h := range d.Holes {
			t.Rows = append(t.Rows, []string{e.ID, strconv.Itoa(k + 1), string(h.Drill.Kind), num(h.Drill.D), num(h.At.X), num(h.At.Y), num(h.Stop), num(h.Drill.Point), num(d.Margin), num(d.Share), num(d.Volume), num(d.Start), num(h.Rim)})
		}
	}
	return t
}
