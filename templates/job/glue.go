package job

import (
	"fmt"
	"math"

	"routwright/templates/part"
)

// GlueJoint is one joint that is glued: what must be spread, and what presses it.
type GlueJoint struct {
	Name   string
	Count  int     // of joints alike
	Area   float64 // of one joint, mm²
	Ml     float64 // of glue for all of them
	Clamps int     // for one of them
	Rule   string  // how the clamps were counted
}

// Names of joints.
const (
	BoardJoint = "fretboard on the neck"
	NeckJoint  = "neck in its pocket, floor, sides and end"
)

// GlueFilm is the thickness in mm of the glue that is spread before clamping.
// Common practice: 150 to 200 g/m² of white glue, about 0.15 mm.
const GlueFilm = 0.15

// Clamps of a joint, common practice: one a key, pressed by a bar across it; one
// about every 75 mm along a fretboard on a caul; four on a neck in its pocket.
const (
	clampEvery  = 75.0 // mm
	clampsNeck  = 4
	glueMlPerMM = GlueFilm / 1000
)

// GlueJoints returns the joints of the job that are glued, in the order of the work.
func (j *Job) GlueJoints() []GlueJoint {
	var out []GlueJoint
	add := func(g GlueJoint) {
		g.Ml = float64(g.Count) * g.Area * glueMlPerMM
		out = append(out, g)
	}
	if j.Keys != nil {
		for i, z := range j.Keys.Sizes {
			n := j.Keys.Count(i)
			if n == 0 {
				continue
			}
			edge := 0.0
			for _, loop := range z.Fit.Recess {
				edge += loop.Length()
			}
			depth := 0.0
			for _, f := range j.Keys.Faces() {
				depth = math.Max(depth, j.RecessDepth(f))
			}
			name := "key in its recess, walls and floor"
			if z.Words != "" {
				name += ", " + z.Words
			}
			add(GlueJoint{Name: name, Count: n, Area: edge*depth + z.Fit.Recess.Area(), Clamps: 1, Rule: "one over each key, on a bar across the slab"})
		}
	}
	if j.Board != nil && j.Design.Neck.Present {
		b := j.Board.Outline
		box := b.Bounds()
		add(GlueJoint{Name: BoardJoint, Count: 1, Area: math.Abs(b.Area()), Clamps: int(math.Ceil(box.H()/clampEvery)) + 1, Rule: fmt.Sprintf("one at each end and about every %g mm between, on a caul", clampEvery)})
	}
	if n := j.Neck; n != nil && n.Glued && n.Pocket.ID != "" {
		if p, ok := j.PartByID(n.Pocket.ID); ok && p.Kind == part.Pocket {
			deep := (n.Pocket.DepthEnd + n.Pocket.DepthJoint) / 2
			area := n.Heel.End*n.Pocket.Length + (2*n.Pocket.Length+n.Heel.End)*deep
			add(GlueJoint{Name: NeckJoint, Count: 1, Area: area, Clamps: clampsNeck, Rule: "four over the pocket, on cauls with 3 mm of cork"})
		}
	}
	return out
}
