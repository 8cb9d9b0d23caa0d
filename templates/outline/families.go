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

var families = []Family{lowland, moorland, headland, downland, dune}

// shared returns a side of a family, without horn or cutaway.
func shared(m map[string]float64) side {
	return side{
		lower: m["lower"] / 2, lowerAt: m["lower_at"], waist: m["waist"] / 2, waistAt: m["waist_at"],
		upper: m["upper"] / 2, upperAt: m["upper_at"], neck: m["neck_at"],
		full: 0.715, wall: 0.36,
	}
}

func (s side) shifted(by float64) side {
	s.lowerAt += by
	s.waistAt += by
	s.upperAt += by
	return s
}

// downland has round shoulders and no cutaway.
var downland = Family{
	Name:     "downland",
	Doc:      "no cutaway: round shoulders on both sides",
	Measures: bouts(402, 248, 318, 212, 240, 330, 112),
	build: func(m map[string]float64) []geom.Cubic {
		s := shared(m)
		s.shoulder = true
		return join(s, s)
	},
}

// lowland is an offset double cutaway: the bass horn reaches further, and the
// bass side is moved towards the neck.
var lowland = Family{
	Name: "lowland",
	Doc:  "offset double cutaway: the bass horn reaches further than the treble horn",
	Measures: append(bouts(362, 284, 318, 228, 236, 326, 124),
		Measure{"bass_horn", "how far the bass horn reaches beyond neck_at", 20, 90, 66},
		Measure{"treble_horn", "how far the treble horn reaches beyond neck_at", 5, 75, 34},
		Measure{"bass_cutaway", "how far the bass cutaway goes back behind neck_at", 0, 40, 8},
		Measure{"treble_cutaway", "how far the treble cutaway goes back behind neck_at", 0, 50, 22},
		Measure{"offset", "how far the bass side is moved towards the neck", 0, 24, 10},
	),
	build: func(m map[string]float64) []geom.Cubic {
		t, b := shared(m).shifted(-m["offset"]/2), shared(m).shifted(m["offset"]/2)
		t.horn, t.cut, t.lean, t.wall = m["treble_horn"], m["treble_cutaway"], 0.27, 0.42
		b.horn, b.cut, b.lean, b.wall = m["bass_horn"], m["bass_cutaway"], 0.36, 0.46
		return join(t, b)
	},
}

// moorland is a symmetric double cutaway with short, round horns.
var moorland = Family{
	Name: "moorland",
	Doc:  "symmetric double cutaway: both horns alike",
	Measures: append(bouts(356, 288, 312, 230, 232, 322, 122),
		Measure{"horn", "how far both horns reach beyond neck_at", 5, 80, 42},
		Measure{"cutaway", "how far both cutaways go back behind neck_at", 0, 45, 14},
	),
	build: func(m map[string]float64) []geom.Cubic {
		s := shared(m)
		s.horn, s.cut, s.lean, s.wall = m["horn"], m["cutaway"], 0.30, 0.42
		return join(s, s)
	},
}

// headland is a single cutaway: a round shoulder on the bass side, a horn on the
// treble side.
var headland = Family{
	Name: "headland",
	Doc:  "single cutaway: a round shoulder on the bass side",
	Measures: append(bouts(392, 262, 308, 222, 238, 330, 124),
		Measure{"horn", "how far the treble horn reaches beyond neck_at; negative: ends short of it", -30, 60, -6},
		Measure{"cutaway", "how far the treble cutaway goes back behind neck_at", 10, 70, 56},
	),
	build: func(m map[string]float64) []geom.Cubic {
		t, b := shared(m), shared(m)
		t.horn, t.cut, t.lean, t.wall = m["horn"], m["cutaway"], 0.36, 0.28
		b.shoulder = true
		return join(t, b)
	},
}

// dune leans: the whole bass side stands much nearer the neck than the treble
// side, with slim waists and horns that bend in.
var dune = Family{
	Name: "dune",
	Doc:  "leaning double cutaway: the bass side stands much nearer the neck",
	Measures: append(bouts(368, 262, 322, 208, 238, 320, 122),
		Measure{"bass_horn", "how far the bass horn reaches beyond neck_at", 10, 70, 40},
		Measure{"treble_horn", "how far the treble horn reaches beyond neck_at", -10, 50, 4},
		Measure{"bass_cutaway", "how far the bass cutaway goes back behind neck_at", 0, 40, 4},
		Measure{"treble_cutaway", "how far the treble cutaway goes back behind neck_at", 10, 70, 40},
		Measure{"offset", "how far the bass side is moved towards the neck", 10, 44, 32},
	),
	build: func(m map[string]float64) []geom.Cubic {
		t, b := shared(m).shifted(-m["offset"]/2), shared(m).shifted(m["offset"]/2)
		t.horn, t.cut, t.lean, t.wall = m["treble_horn"], m["treble_cutaway"], 0.42, 0.3
		b.horn, b.cut, b.lean, b.wall = m["bass_horn"], m["bass_cutaway"], 0.42, 0.4
		return join(t, b)
	},
}
