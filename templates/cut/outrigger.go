package cut

import (
	"math"

	"routwright/geom"
	"routwright/templates/limit"
)

// Steps of the search for a plate. Common practice: plates are sawn to whole
// 5 mm, and one of more than half a metre is no longer led by hand.
const (
	outriggerStep = 5.0
	outriggerMost = 500.0
)

// Outrigger is a round plate that is screwed under a router's base, its middle
// under the bit, so that it reaches over an opening which the base alone would
// tip into. The zero Outrigger is none.
type Outrigger struct {
	D     float64  // diameter, mm: the least in whole 5 mm that is carried all along the path
	Worst Overhang // with the plate, on the sheet below
	// Sheet is the outline of the template that carries it: it may have to be wider
	// than the one for the base alone.
	Sheet geom.Region
}

// OutriggerFor returns the least plate under a base of the given diameter with
// which at most limit.BaseOverhang of it hangs over anywhere on the path of t; sheet
// tells the outline of the template for a width of wood round the opening, least
// the narrowest that is tried. It is none, with ok true, where the base itself is
// carried. ok is false where no plate up to 500 mm helps: round a male template,
// at whose corners three quarters of any plate hang over, and on a very large
// opening.
//
// A plate that is carried so far cannot tip. If its middle lay outside the hull of
// what carries it, all of that would lie beyond a line through the middle, so at
// most half of the plate would be carried; with 60 % the middle lies at least
// 0.079 diameters inside the hull, where a chord cuts off 60 % of a disc.
func OutriggerFor(t Template, base, least float64, sheet func(web float64) geom.Region) (o Outrigger, ok bool, err error) {
	if t.Free() || !(base > 0) {
		return Outrigger{}, true, nil
	}
	if t.Male {
		return Outrigger{}, false, nil
	}
	if _, ok, err := Carried(t, base, least, sheet); ok || err != nil {
		return Outrigger{}, ok, err
	}
	for d := math.Floor(base/outriggerStep+1) * outriggerStep; d <= outriggerMost; d += outriggerStep {
		endless := t
		endless.Blank = sheet(least + d)
		s, err := NewSweep(endless, d)
		if err != nil {
			return Outrigger{}, false, err
		}
		if s.Worst().Share > limit.BaseOverhang { // no sheet helps
			continue
		}
		on, ok, err := Carried(t, d, least, sheet)
		if err != nil {
			return Outrigger{}, false, err
		}
		if !ok {
			continue
		}
		if s, err = NewSweep(on, d); err != nil {
			return Outrigger{}, false, err
		}
		return Outrigger{D: d, Worst: s.Worst(), Sheet: on.Blank}, true, nil
	}
	return Outrigger{}, false, nil
}
