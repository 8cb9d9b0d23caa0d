package job

import (
	"fmt"
	"math"

	"routwright/templates/design"
	"routwright/templates/wood"
)

// Wood is what the season does to the keys of a job, and what their glue lines
// carry. Lengths in mm; a number that cannot be told is 0.
type Wood struct {
	Change float64 // of moisture, per cent
	// Along is how far the slab moves under the length of a key, whose own grain
	// hardly moves; Across how far the ends of a key move over the slab.
	Along, Across float64
	GlueArea      float64 // of the walls of one key on one side of the crack, mm²
	Shear         float64 // kPa, of the weaker of the two woods; 0 when not known
}

// Moves returns the greater of the two mismatches, mm.
func (w Wood) Moves() float64 { return math.Max(w.Along, w.Across) }

// wood works out movement and glue lines by the Wood Handbook's numbers.
func (s *solver) wood() {
	d := s.d
	w := &s.Keys.Wood
	m := d.Slab.Moisture
	if m.Now.Set() != m.InUse.Set() {
		s.fail(m.At, "slab.moisture", "one of now and in_use", "both: {now = 8, in_use = 11}", "add the other, or leave moisture out")
		return
	}
	w.GlueArea = s.glueArea()
	slab, isSlab := s.species(d.Slab.Wood, "slab.wood", m.Present || d.Keys.Wood.Set())
	own, isOwn := s.species(d.Keys.Wood, "keys.wood", false)
	if m.Now.Set() {
		w.Change = math.Abs(m.InUse.V - m.Now.V)
		words := fmt.Sprintf("moisture changes by %s %%; %s", design.MM(w.Change), wood.Source)
		if isSlab {
			w.Along = slab.Movement(s.Keys.Fit.Spec.Length, w.Change)
			s.solved("keys movement along", design.MM(w.Along)+" mm", "slab of "+slab.Name+" under a key; "+words)
		}
		if isOwn {
			w.Across = own.Movement(s.Keys.Fit.Spec.Ends, w.Change)
			s.solved("keys movement across", design.MM(w.Across)+" mm", "ends of a key of "+own.Name+"; "+words)
		}
	}
	if isSlab && isOwn {
		w.Shear = math.Min(slab.Shear, own.Shear)
	}
	s.tellGlue(*w)
}

// tellGlue reports the glue lines of one key. kPa · mm² = mN.
func (s *solver) tellGlue(w Wood) {
	s.solved("keys glue area", fmt.Sprintf("%.0f mm² a key", w.GlueArea), "walls of the key on one side of the crack, floor not counted")
	if w.Shear > 0 {
		s.solved("keys glue shear", fmt.Sprintf("about %s kN a key", design.MM(w.Shear*w.GlueArea*1e-6)),
			fmt.Sprintf("glue area × %s kPa, the shear along the grain of the weaker wood; an average of clear wood without any safety, no value to build on; %s", design.MM(w.Shear), wood.Source))
	}
}

// glueArea returns the area of the walls of half a key.
func (s *solver) glueArea() float64 {
	var edge float64
	for _, loop := range s.Keys.Fit.Key {
		edge += loop.Length()
	}
	return edge / 2 * s.Keys.Depth
}

// species looks a wood up in the tables. A name that is missing there is an
// error where must is set or the name is not only a label.
func (s *solver) species(v design.Val[string], key string, must bool) (wood.Species, bool) {
	if !v.Set() {
		if must {
			s.fail(s.d.Slab.At, key, "no wood", "the name of a wood in the tables, such as \"Walnut, black\"", "moisture and keys.wood need to know what moves")
		}
		return wood.Species{}, false
	}
	w, err := wood.Lookup(v.V)
	if err == nil {
		return w, true
	}
	if must || key == "keys.wood" {
		s.fail(v.At, key, fmt.Sprintf("%q", v.V), err.Error(), "write the name as the tables have it")
	}
	return wood.Species{}, false
}
