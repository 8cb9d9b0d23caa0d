package render

// Style is how a kind of line is drawn on paper.
type Style struct {
	Class string    // short name, a–z: the class in an SVG
	Words string    // what it is called on paper
	Width float64   // mm
	Dash  []float64 // dash, gap, dash, gap … in mm; nil for continuous
}

// Line widths: wide to narrow as 2 to 1 from the series of ISO 128-2 (0.13,
// 0.18, 0.25, …), its finest pair, since the middle of the line is what is cut.
// Dashes are the multiples of ISO 128-2 (from memory of it: dash 12 d, long dash
// 24 d, gap 3 d, dot 0.5 d) at d = wide, so that they read at arm's length.
const (
	wide   = 0.25
	narrow = 0.13
)

var styles = [...]Style{
	Cut:       {"cut", "continuous wide", wide, nil},
	Mark:      {"mark", "continuous narrow", narrow, nil},
	Centre:    {"centre", "long dash, dot, narrow", narrow, []float64{24 * wide, 3 * wide, wide, 3 * wide}},
	Hidden:    {"hidden", "dashed narrow", narrow, []float64{12 * wide, 3 * wide}},
	Dimension: {"dimension", "continuous narrow", narrow, nil},
	Hatch:     {"hatch", "continuous narrow", 0.1, nil},
	Frame:     {"frame", "continuous narrow", narrow, nil},
	Edge:      {"edge", "continuous wide", wide, nil},
	Solid:     {"solid", "continuous narrow", 0.1, nil},
}

// Style returns how k is drawn; an unknown kind is drawn as a cut line, so that
// nothing is lost.
func (k Kind) Style() Style {
	if int(k) >= len(styles) {
		return styles[Cut]
	}
	return styles[k]
}
