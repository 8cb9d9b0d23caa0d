package job

import (
	"fmt"

	"routwright/templates/design"
)

// Edges says how far the datum edges of the squared slab lie from the centre line
// and the bridge line, mm.
type Edges struct {
	Long float64 // from the long edge on the bass side to the centre line
	End  float64 // from the tail end to the bridge line
}

// Edges returns the distances of the datums from the slab's edges; ok is false
// without a slab.
func (j *Job) Edges() (e Edges, ok bool) {
	if j.Blank.Empty() {
		return e, false
	}
	b := j.Blank.Bounds()
	e = Edges{Long: -b.Min.X, End: -b.Min.Y}
	if j.Design.Hand.V == "left" { // its bass side lies at +X
		e.Long = b.Max.X
	}
	return e, true
}

// Words returns the distances in words, for layout and steps.
func (e Edges) Words() string {
	return fmt.Sprintf("centre line %s mm from the long edge on the bass side; bridge line %s mm from the tail end", design.MM(e.Long), design.MM(e.End))
}
