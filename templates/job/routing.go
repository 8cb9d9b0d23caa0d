package job

import (
	"fmt"

	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/part"
)

// Routing returns the passes of the template with index i: of a cut with a floor to
// the depth that is cut before the slab is planed, of a part that is trimmed on its
// outside through its thickness.
func (j *Job) Routing(i int) cut.Routing {
	t := j.Templates[i]
	return cut.Plan(t.Tool, j.CutDepth(t), t.Sheet)
}

// Trim returns the passes of a male template with index i through the piece under
// it, as thick as it is when it is trimmed.
func (j *Job) Trim(i int) cut.Routing {
	t := j.Templates[i]
	return cut.Trim(t.Tool, j.TrimThick(t), t.Sheet)
}

// TrimThick returns how thick a piece is when it is trimmed to its template, mm.
func (j *Job) TrimThick(t cut.Template) float64 {
	switch t.For.Kind {
	case part.Key:
		return j.KeyStock().Thick
	case part.Cover:
		top, floor := t.For.Range()
		return floor - top
	}
	return t.For.Depth(j.Thickness)
}

// SettingWords says how far the tip of the bit stands below the router's base at the
// full depth of a template's cut, and what that is made of.
func (j *Job) SettingWords(i int) string {
	t := j.Templates[i]
	r := j.Routing(i)
	depth, what := r.Wanted, "in the wood"
	if t.Male {
		r = j.Trim(i)
		depth, what = j.TrimThick(t), "through the piece"
		if n := len(r.Passes); n > 0 {
			depth = r.Passes[n-1].Depth
			what = "through the piece and past it"
		}
	}
	if r.Template == 0 {
		return fmt.Sprintf("%s mm from the face of the work to the tip of the bit: no template lies between", design.MM(depth))
	}
	return fmt.Sprintf("%s mm from the template's upper face to the tip of the bit: %s of template and %s %s", design.MM(r.Setting(depth)), design.MM(r.Template), design.MM(depth), what)
}

// Plate returns how thick the plate is that is glued over a part after its cut, mm;
// 0 for a part that lies open.
func (j *Job) Plate(p part.Part) float64 {
	if p.Kind != part.Chamber {
		return 0
	}
	top, floor := p.Range()
	if p.Face == part.Back {
		return j.Thickness - floor
	}
	return top
}

// PlateOn returns how thick the plate is that is glued on a face, the thickest where
// the design gives several, mm; 0 without one.
func (j *Job) PlateOn(f part.Face) float64 {
	thick := 0.0
	for _, p := range j.OfKind(part.Chamber) {
		if p.Face == f {
			thick = max(thick, j.Plate(p))
		}
	}
	return thick
}

// CutDepth returns how deep the router goes with a template, mm: for a recess
// what still comes off the face is counted, for a neck pocket the level cut, for a
// chamber the wood below the seat of its plate.
func (j *Job) CutDepth(t cut.Template) float64 {
	depth := t.For.Depth(j.Thickness) - j.Plate(t.For)
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
