package steps

import (
	"routwright/render"
	"routwright/templates/key"
	"routwright/templates/part"
)

// already marks the steps whose parts are all cut, as the design says.
func (b *builder) already() {
	if b.bare || len(b.j.Locked) == 0 {
		return
	}
	for i := range b.ss {
		s := &b.ss[i]
		parts := s.Parts
		if s.Template == key.RecessID { // one template for all recesses
			parts = nil
			for _, p := range b.j.OfKind(part.Recess) {
				parts = append(parts, p.ID)
			}
		}
		done := len(parts) > 0
		for _, id := range parts {
			done = done && b.j.Cut(id)
		}
		if done {
			s.Facts = append([]render.Field{{Name: "Already cut", Value: "as the design says: nothing to do, and its place and depth stay"}}, s.Facts...)
		}
	}
}
