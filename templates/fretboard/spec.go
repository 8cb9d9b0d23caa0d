package fretboard

// Spec is what a board is made from. All lengths in mm. Start from Common and
// change what is known. The zero of each part is given with it.
type Spec struct {
	Scale float64 // nut edge to bridge line, on the centre line; unused for a fan
	Fan   *Fan    // nil: single scale

	Tuning   Temperament
	Frets    int  // slots across the whole board
	ZeroFret bool // a slot at the nut line, too

	Partials []Partial // slots under some of the strings
	Extra    Extra     // slots past the last whole one, on one side

	Strings Spacing
	Edges   Edges
	Nut     Nut
	End     End
	Slot    Saw
	Radius  Radius
}

// Fan is a board with a longer scale on the bass side.
type Fan struct {
	Bass, Treble float64 // along the outer strings
	Square       float64 // the fret that is square to the centre line; between frets and outside the board are allowed
}

// Spacing is where the strings run. They lie symmetric to the centre line.
// Strings are numbered from the treble side: string 1 is the highest.
type Spacing struct {
	Count       int     // 1 to 14
	Nut, Bridge float64 // between the middles of the outer strings, across the board; 0 for one string

	// EqualGaps leaves the same air between neighbouring strings; otherwise
	// their middles are evenly spaced.
	EqualGaps bool
	Gauges    []float64 // diameters, string 1 first; needed for equal gaps, else may be nil
}

// Edges is how wide the board is: by margins, or by widths when Widths is set.
type Edges struct {
	// Margins from the middle of the outer string to the board's edge, square to
	// the centre line, at the nut and at the last slot.
	BassNut, TrebleNut, BassEnd, TrebleEnd float64

	// Widths, symmetric to the centre line, at the nut and at the board's end.
	// Both 0: the margins count.
	NutWidth, EndWidth float64
}

// ByWidths reports whether the widths count.
func (e Edges) ByWidths() bool { return e.NutWidth != 0 || e.EndWidth != 0 }

// Nut is the board's end behind the nut line. The string edge of the nut is the
// nut line, or Behind mm behind it when a zero fret takes its place.
type Nut struct {
	Width  float64 // of the slot for the nut; 0: the board has none
	Behind float64 // from the zero fret to the nut's string edge; 0 without a zero fret
	Shelf  float64 // board left behind the nut's slot; without a slot, behind the nut's edge
}

// End is the board's end under the player's hand.
type End struct {
	Overhang float64 // from the last slot to the corners, square to the slot
	Radius   float64 // of a curved end, bulging past the corners; 0: straight
}

// Saw is how the slots are made.
type Saw struct {
	Kerf    float64 // width of the slot
	Depth   float64 // below the board's surface; 0: not stated
	Binding float64 // the slot stops this far inside the edge, square to it; 0: sawn right across
}

// Partial is a slot under some of the strings.
type Partial struct {
	Fret     float64 // may lie between frets: 3.5 halves the step in cents
	From, To int     // strings, From ≤ To; a slot under an outer string runs to the edge
}

// Extra is slots past the last whole one under the outermost strings of one
// side; the board's end is stepped to carry them.
type Extra struct {
	Frets   int  // 0: none
	Strings int  // how many strings they serve
	Bass    bool // on the bass side; otherwise on the treble side
}

// Common practice, no single published source; starting values for Common.
const (
	commonNutPitch    = 7.2  // string to string at the nut: 36 for six
	commonBridgePitch = 10.4 // at the bridge: 52 for six (50 to 54)
	commonOverhang    = 6    // the board past the last slot
	commonKerf        = 0.58 // 0.56 to 0.60
)

// Common practice that other packages ask for, too, mm.
const (
	CommonMargin = 3.25 // from the middle of an outer string to the edge: 3 to 3.5
	CommonMarker = 6.0  // diameter of a position marker: 5 to 7
)

// Common returns a single-scale board with everything not named set to common
// practice: pitch 7.2 at the nut and 10.4 at the bridge, margins 3.25, overhang
// 6, kerf 0.58, twelve equal steps, flat.
func Common(scale float64, frets, strings int) Spec {
	gaps := float64(max(strings-1, 0))
	return Spec{
		Scale: scale, Frets: frets,
		Strings: Spacing{Count: strings, Nut: commonNutPitch * gaps, Bridge: commonBridgePitch * gaps},
		Edges:   Edges{BassNut: CommonMargin, TrebleNut: CommonMargin, BassEnd: CommonMargin, TrebleEnd: CommonMargin},
		End:     End{Overhang: commonOverhang},
		Slot:    Saw{Kerf: commonKerf},
	}
}

// FitStrings sets the strings' spread from the board's widths, for a builder who
// gave the widths alone: the outer strings then run 3.25 mm (common practice)
// inside the edges at the nut and at the board's end. It is an assumption and
// must be listed as one. It does nothing without widths, on a fan, for one string,
// or where the widths leave no room; New then says so.
func (s *Spec) FitStrings() {
	if !s.Edges.ByWidths() || s.Fan != nil || s.Strings.Count < 2 {
		return
	}
	// The board's end lies at this part of the way from the nut to the bridge.
	end := s.Tuning.Fraction(float64(s.Frets)) + s.End.Overhang/s.Scale
	nut, last := s.Edges.NutWidth-2*CommonMargin, s.Edges.EndWidth-2*CommonMargin
	if bridge := nut + (last-nut)/end; nut > 0 && bridge > 0 && end > 0 {
		s.Strings.Nut, s.Strings.Bridge = nut, bridge
	}
}
