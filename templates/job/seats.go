package job

import (
	"routwright/templates/part"
)

// Seats returns the voids of the front that carry the plugs of the outline template,
// at most two: of pickup cavities and neck pocket the two that lie furthest apart, so
// that the template cannot turn. Without any, a cavity of the back does not serve: the
// template lies on the front.
func (j *Job) Seats() []part.Part {
	var all []part.Part
	for _, p := range j.Parts {
		if p.Face == part.Front && (p.Kind == part.Pickup || p.Kind == part.Pocket) && len(p.Solids) > 0 {
			all = append(all, p)
		}
	}
	if len(all) < 2 {
		return all
	}
	var best [2]int
	far := -1.0
	for i := range all {
		for k := i + 1; k < len(all); k++ {
			if d := all[i].Bounds().Center().Dist(all[k].Bounds().Center()); d > far {
				far, best = d, [2]int{i, k}
			}
		}
	}
	return []part.Part{all[best[0]], all[best[1]]}
}
