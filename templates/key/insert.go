package key

import (
	"math"

	"routwright/geom"
	"routwright/templates/cut"
)

// Insertion is a key pressed straight down: the gap a side at the face of the
// slab, at the floor, and where its lower edge enters. mm.
type Insertion struct{ Face, Floor, Entry cut.Range }

// Insert works out the insertion of a proved key that narrows towards its bottom
// by beta a side and has a lead-in chamfer on its lower edge. Its outline is
// true at the face of the slab; over the depth h its width changes by 2h·tan β,
// half of it a side. The least gap on the way down is that at the face.
func (p Proof) Insert(depth float64, beta geom.Angle, leadIn float64) Insertion {
	wider := func(r cut.Range, by float64) cut.Range {
		r.Min, r.Max, r.Mean = r.Min+by, r.Max+by, r.Mean+by
		return r
	}
	floor := wider(p.Gap, depth*math.Tan(float64(beta)))
	return Insertion{Face: p.Gap, Floor: floor, Entry: wider(floor, leadIn)}
}

// Corner is the wood that the cutter leaves in one end corner of a chiselled
// recess: a curved triangle from A over the Tip to B, Length along each side.
type Corner struct {
	Tip, A, B geom.Point
	Length    float64
}

// Corners returns what a chisel takes out of each end corner; nil unless the
// corners are chiselled.
func (f Fit) Corners() []Corner {
	if f.Spec.Corners != Chiselled {
		return nil
	}
	n := CornerTangent(f.cornerRadius(), f.Spec.End())
	p := f.Spec.Recess()
	var out []Corner
	for _, i := range endCorners {
		before := p[(i+len(p)-1)%len(p)]
		out = append(out, Corner{
			Tip: p[i].A, Length: n,
			A: p[i].A.Add(before.Tangent(1).Neg().Mul(n)), B: p[i].A.Add(p[i].Tangent(0).Mul(n)),
		})
	}
	return out
}

// endCorners are the vertices of Spec.Recess that are end corners.
var endCorners = []int{0, 2, 3, 5}

// cornerRadius is what cutter and template leave in an end corner, mm.
func (f Fit) cornerRadius() float64 {
	return f.Tool.LeastCorner(f.Spec.Template)
}
