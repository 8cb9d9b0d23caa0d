package part

import "routwright/geom"

// Bounds returns the least box that holds the part seen from the front: its
// plans, or its bores where it has nothing else.
func (p Part) Bounds() geom.Box {
	var box geom.Box
	for _, s := range p.Solids {
		box = box.Union(s.Plan.Bounds())
	}
	if len(p.Solids) == 0 {
		for _, b := range p.Bores {
			box = box.Union(geom.BoxOf(b.From.Flat(), b.To.Flat()).Grow(b.D / 2))
		}
	}
	return box
}
