package job

import (
	"routwright/templates/cut"
	"routwright/templates/part"
)

// Routing returns the passes of the template with index i, to the depth that is
// cut before the slab is planed.
func (j *Job) Routing(i int) cut.Routing {
	t := j.Templates[i]
	return cut.Plan(t.Tool, j.CutDepth(t), t.Sheet)
}

// CutDepth returns how deep the router goes with a template, mm: for a recess
// what still comes off the face is counted, for a neck pocket the level cut.
func (j *Job) CutDepth(t cut.Template) float64 {
	depth := t.For.Depth(j.Thickness)
	if t.For.Kind == part.Recess && t.Pinned() {
		return j.RecessDepth(t.For.Face)
	}
	if t.For.Kind == part.Pocket && j.Neck != nil { // level first; wedges give the floor its slope
		return min(j.Neck.Pocket.DepthEnd, j.Neck.Pocket.DepthJoint)
	}
	if t.For.Kind == part.Recess && j.Keys != nil {
		for _, f := range j.Keys.Faces() {
			depth = max(depth, j.RecessDepth(f))
		}
	}
	return depth
}
