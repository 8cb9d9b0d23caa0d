package job

import (
	"fmt"
	"math"

	"routwright/templates/design"
	"routwright/templates/neck"
)

// NeckStock is the blank that a neck is sawn from, mm.
type NeckStock struct{ Long, Wide, Deep float64 }

// Left on the blank of a neck, mm. Common practice.
const (
	neckLong = 20.0
	neckWide = 6.0
)

// NeckStock returns the blank of the neck; ok is false where none is laid out. Of a
// head that is glued on at a scarf it is the blank of the whole length laid straight.
func (j *Job) NeckStock() (s NeckStock, ok bool) {
	sh := j.Shape
	if sh == nil {
		return s, false
	}
	b := sh.Plan.Bounds()
	return NeckStock{Long: math.Ceil(b.H() + neckLong), Wide: math.Ceil(b.W() + neckWide), Deep: math.Ceil(sh.Side.Blank)}, true
}

// RodWords says how the channel of the rod is cut; empty without one.
func (j *Job) RodWords() string {
	if j.Shape == nil || j.Shape.Rod == nil || j.Shape.Spec.Rod == nil {
		return ""
	}
	mm := design.MM
	r, c := j.Shape.Spec.Rod, j.Shape.Rod
	from := "the nut's string edge"
	if r.Access == neck.AtHeel {
		from = "the heel's end"
	}
	w := fmt.Sprintf("%s mm wide, %s deep below the face of the board, from %s %s mm to its blind end", mm(r.Width), mm(r.Depth), from, mm(c.Length))
	if r.Bow > 0 {
		w += fmt.Sprintf(", %s deeper in the middle, along an arc", mm(r.Bow))
	}
	return w + fmt.Sprintf("; opening for the key at the %s, %s long and %s wide; least wood under it %s", r.Access, mm(r.AccessLength), mm(r.AccessWidth), mm(c.Wood.MM))
}
