package outline

import "routwright/geom"

// Measures that every family shares. Ranges are common practice for guitars and
// basses.
func bouts(neckAt, upper, upperAt, waist, waistAt, lower, lowerAt float64) []Measure {
	return []Measure{
		{"neck_at", "from the tail end to where the body ends at the neck, on the centre line", 300, 460, neckAt},
		{"lower", "widest width of the lower bout", 260, 390, lower},
		{"lower_at", "from the tail end to the widest place of the lower bout", 85, 150, lowerAt},
		{"waist", "width at the waist", 180, 300, waist},
		{"waist_at", "from the tail end to the waist", 180, 280, waistAt},
		{"upper", "width at the upper bout", 220, 330, upper},
		{"upper_at", "from the tail end to the widest place of the upper bout", 260, 390, upperAt},
	}
}

var families = []Family{headland, lowland, moorland}

// lowland is an offset double cutaway: the bass horn reaches further, and the
// bass side is moved towards the neck.
var lowland = Family{
	Name: "lowland",
	Doc:  "offset double cutaway: the bass horn reaches further than the treble horn",
	Measures: append(bouts(356, 292, 322, 228, 226, 326, 112),
		Measure{"bass_horn", "how far the bass horn reaches beyond neck_at", 20, 90, 66},
		Measure{"treble_horn", "how far the treble horn reaches beyond neck_at", 5, 75, 34},
		Measure{"bass_cutaway", "how far the bass cutaway goes back behind neck_at", 0, 40, 8},
		Measure{"treble_cutaway", "how far the treble cutaway goes back behind neck_at", 0, 50, 22},
		Measure{"offset", "how far the bass side is moved towards the neck", 0, 24, 10},
	),
	build: func(m map[string]float64) []geom.Knot {
		t := side{m: m, sign: 1, shift: -m["offset"] / 2, horn: m["treble_horn"], cut: m["treble_cutaway"]}
		b := side{m: m, sign: -1, shift: m["offset"] / 2, horn: m["bass_horn"], cut: m["bass_cutaway"]}
		return double(t, b)
	},
}

// moorland is a symmetric double cutaway with short, round horns.
var moorland = Family{
	Name: "moorland",
	Doc:  "symmetric double cutaway: both horns alike",
	Measures: append(bouts(350, 296, 318, 232, 222, 322, 110),
		Measure{"horn", "how far both horns reach beyond neck_at", 5, 80, 42},
		Measure{"cutaway", "how far both cutaways go back behind neck_at", 0, 45, 14},
	),
	build: func(m map[string]float64) []geom.Knot {
		t := side{m: m, sign: 1, horn: m["horn"], cut: m["cutaway"]}
		b := t
		b.sign = -1
		return double(t, b)
	},
}

// headland is a single cutaway: a round shoulder on the bass side, a horn on the
// treble side.
var headland = Family{
	Name: "headland",
	Doc:  "single cutaway: a round shoulder on the bass side",
	Measures: append(bouts(372, 276, 316, 230, 226, 330, 116),
		Measure{"horn", "how far the treble horn reaches beyond neck_at", 0, 60, 12},
		Measure{"cutaway", "how far the treble cutaway goes back behind neck_at", 10, 70, 44},
	),
	build: func(m map[string]float64) []geom.Knot {
		t := side{m: m, sign: 1, horn: m["horn"], cut: m["cutaway"]}
		b := side{m: m, sign: -1}
		k := []geom.Knot{{At: geom.Pt(0, 0), Dir: geom.Vec{X: 1}}}
		k = append(k, t.bouts()...)
		k = append(k, t.cutaway()...)
		// The shoulder falls from the neck's end to the upper bout in one sweep.
		k = append(k, geom.Knot{At: geom.Pt(-neckHalf, m["neck_at"]), Dir: geom.Vec{X: -1}})
		return append(k, reversed(b.bouts())...)
	},
}

// neckHalf is half the straight end of the body where the neck goes in: half of
// a heel of 56 mm and a little. Common practice, 55.9–57.2 mm.
const neckHalf = 31

// side is one side of a body: +1 treble, −1 bass.
type side struct {
	m                map[string]float64
	sign             float64
	shift, horn, cut float64
}

func (s side) at(x, y float64) geom.Point { return geom.Pt(s.sign*x, y) }

// bouts returns the knots from the tail to the upper bout, as if travelled
// upwards on the treble side.
func (s side) bouts() []geom.Knot {
	up := geom.Vec{Y: 1}
	return []geom.Knot{
		{At: s.at(s.m["lower"]/2, s.m["lower_at"]+s.shift), Dir: up},
		{At: s.at(s.m["waist"]/2, s.m["waist_at"]+s.shift), Dir: up},
		{At: s.at(s.m["upper"]/2, s.m["upper_at"]+s.shift), Dir: up},
	}
}

// cutaway returns the knots from the horn's tip to the neck, travelled inward on
// the treble side.
func (s side) cutaway() []geom.Knot {
	half, neck := s.m["upper"]/2, s.m["neck_at"]
	tip := neck + s.horn
	bottom := neck - s.cut
	// The horn leans inward: the tip lies at five eighths of the half width, and
	// the flank of the cutaway a horn's thickness further in.
	tipX := half*0.70 + 2
	in := tipX - 17 - 0.06*s.horn
	return []geom.Knot{
		{At: s.at(tipX, tip), Dir: geom.Vec{X: -1, Y: 0.12}},
		{At: s.at(in, (tip+bottom)/2+4), Dir: geom.Vec{X: -0.25, Y: -1}},
		{At: s.at((in+neckHalf)/2-3, bottom), Dir: geom.Vec{X: -1, Y: 0.05}},
		{At: s.at(neckHalf, neck), Dir: geom.Vec{X: -1, Y: 0}, Tension: 1.1},
	}
}

// double puts the two sides of a double cutaway together.
func double(t, b side) []geom.Knot {
	k := []geom.Knot{{At: geom.Pt(0, 0), Dir: geom.Vec{X: 1}}}
	k = append(k, t.bouts()...)
	k = append(k, t.cutaway()...)
	k = append(k, reversed(b.cutaway())...)
	return append(k, reversed(b.bouts())...)
}

// reversed returns the knots of the bass side, given as for the treble side and
// mirrored, in the order and directions of travel down the bass side. A
// direction mirrored across the centre line and then reversed keeps its X and
// turns its Y.
func reversed(k []geom.Knot) []geom.Knot {
	out := make([]geom.Knot, len(k))
	for i, e := range k {
		e.Dir.Y = -e.Dir.Y
		out[len(k)-1-i] = e
	}
	return out
}
