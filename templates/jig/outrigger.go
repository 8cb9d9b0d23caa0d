package jig

import (
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/limit"
)

// outriggerStep is in what steps the plate is made larger, mm; outriggerMost the
// largest that is tried, what a design file may give.
const (
	outriggerStep = 10.0
	outriggerMost = 600.0
)

// Outrigger is a round plate that takes the place of the router's own base plate
// where an opening is too large for it.
type Outrigger struct {
	D    float64 // diameter
	Base float64 // diameter of the router's own base
	Hole float64 // for the bit and what leads it
	// Rule is the opening's widest circle and a bearing margin on both sides: less
	// than that does not bear all round in the middle of the opening. 0 where no
	// opening needs the plate.
	Rule float64
	Over []Over
}

// Over is one opening that the router's own base hangs over too far.
type Over struct {
	Template    int          // index into the job's templates
	Alone, With cut.Overhang // with the base alone, and with the plate, at the worst place of each
	Wide        float64      // diameter of the widest circle in the opening
}

// holeRoom is the air round the bit and what leads it in the plate's hole, mm a side;
// common practice.
const holeRoom = 3.0

// PlateHole returns the diameter of the hole in a plate for tools of a greatest
// diameter.
func PlateHole(widest float64) float64 { return math.Ceil(widest + 2*holeRoom) }

// WidestCircle returns the diameter of the widest circle inside an opening.
func WidestCircle(opening geom.Region) float64 { return 2 * geom.InscribedCircle(opening).Radius }

// LeastPlate returns the least diameter by the rule of the trade: the widest circle
// of the opening and a bearing margin on both sides.
func LeastPlate(wide float64) float64 { return wide + 2*limit.BearingMargin }

// Carrying returns the least diameter of a plate, in steps of 10 mm and larger than
// the base, that bears on both sides of every opening and that carried says carries
// each; 0 where none up to 600 mm does.
func Carrying(base float64, openings []Over, carried func(o Over, d float64) (bool, error)) (float64, error) {
	d := outriggerStep * math.Ceil(base/outriggerStep)
	if d == base {
		d += outriggerStep
	}
	for _, o := range openings {
		for ; d <= outriggerMost; d += outriggerStep {
			if d < LeastPlate(o.Wide) {
				continue
			}
			ok, err := carried(o, d)
			if err != nil {
				return 0, err
			}
			if ok {
				break
			}
		}
	}
	if d > outriggerMost {
		return 0, nil
	}
	return d, nil
}
