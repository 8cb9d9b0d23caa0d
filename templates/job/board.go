package job

import (
	"errors"
	"fmt"
	"strings"

	"routwright/templates/design"
	"routwright/templates/fretboard"
)

// boardKey says which key of the design file a field of the board comes from. A
// value that nobody gave has no place of its own: its table's is told.
func (s *solver) boardKey(field string) (string, design.Pos) {
	b, st := s.d.Board, s.d.Strings
	field, item, _ := strings.Cut(strings.TrimSuffix(field, "]"), "[")
	pick := func(key string, ats ...design.Pos) (string, design.Pos) {
		table := st.At
		if strings.HasPrefix(key, "fretboard") {
			table = b.At
		}
		for _, at := range append(ats, table, st.At, b.At) {
			if !at.IsZero() {
				return key, at
			}
		}
		return key, design.Pos{}
	}
	margin := func(name string, at design.Pos) (string, design.Pos) {
		if at.IsZero() {
			return pick("fretboard.margin", b.Margin.At)
		}
		return pick("fretboard.margin."+name, at)
	}
	switch field {
	case "scale":
		return pick("strings.scale", st.Scale.At)
	case "fan.bass":
		return pick("strings.scale.bass", st.Scale.Bass.At, st.Scale.At)
	case "fan.treble":
		return pick("strings.scale.treble", st.Scale.Treble.At, st.Scale.At)
	case "fan.square":
		return pick("strings.scale.square_fret", st.Scale.Square.At, st.Scale.At)
	case "frets":
		return pick("strings.frets", st.Frets.At)
	case "strings.count":
		return pick("strings.count", st.Count.At)
	case "strings.nut":
		return pick("strings.spread.nut", st.Spread.Nut.At, st.Spread.At)
	case "strings.bridge":
		return pick("strings.spread.bridge", st.Spread.Bridge.At, st.Spread.At)
	case "strings.gauges":
		return pick("strings.gauges", st.Gauges.At)
	case "edges.nutwidth":
		return pick("fretboard.nut_width", b.NutWidth.At)
	case "edges.endwidth":
		return pick("fretboard.end_width", b.EndWidth.At)
	case "edges.bassnut":
		return margin("bass_nut", b.Margin.BassNut.At)
	case "edges.treblenut":
		return margin("treble_nut", b.Margin.TrebleNut.At)
	case "edges.bassend":
		return margin("bass_end", b.Margin.BassEnd.At)
	case "edges.trebleend":
		return margin("treble_end", b.Margin.TrebleEnd.At)
	case "nut.width":
		return pick("fretboard.nut.slot", b.Nut.Slot.At, b.Nut.At)
	case "nut.behind":
		return pick("fretboard.nut.behind", b.Nut.Behind.At, b.Nut.At)
	case "nut.shelf":
		return pick("fretboard.nut.shelf", b.Nut.Shelf.At, b.Nut.At)
	case "end.overhang":
		return pick("fretboard.overhang", b.Overhang.At)
	case "end.radius":
		return pick("fretboard.end_radius", b.EndRadius.At)
	case "radius.nut", "radius.end":
		return pick("fretboard.radius", b.Radius.At)
	case "slot.kerf":
		return pick("fretboard.kerf", b.Kerf.At)
	case "slot.depth":
		return pick("fretboard.slot_depth", b.SlotDepth.At)
	case "slot.binding":
		return pick("fretboard.binding", b.Binding.At)
	case "extra.frets":
		return pick("fretboard.extra.frets", b.Extra.Frets.At, b.Extra.At)
	case "extra.strings":
		return pick("fretboard.extra.strings", b.Extra.Strings.At, b.Extra.At)
	case "partials":
		var i int
		if _, err := fmt.Sscan(item, &i); err == nil && i < len(b.Partial) {
			return pick(fmt.Sprintf("fretboard.partial %d", i+1), b.Partial[i].At)
		}
		return pick("fretboard.partial")
	}
	return pick("fretboard (" + field + ")")
}

// board solves the fretboard. Without a [fretboard] or [strings] table there is
// none.
func (s *solver) board() {
	if !s.d.Board.Present && !s.d.Strings.Present {
		return
	}
	count := s.d.Strings.Count.Or(defaultStrings)
	if !s.d.Strings.Count.Set() {
		s.assume("strings.count", "6", "usual for a guitar")
	}
	frets := s.d.Strings.Frets.Or(defaultFrets)
	if !s.d.Strings.Frets.Set() {
		s.assume("strings.frets", "22", "usual number")
	}
	spec := fretboard.Common(0, frets.V, count.V)
	before := len(s.errs)
	s.boardScale(&spec)
	s.tuning(&spec)
	s.boardStrings(&spec)
	s.boardEnds(&spec)
	s.boardSlots(&spec)
	s.boardEdges(&spec)
	if len(s.errs) > before {
		return
	}
	b, err := fretboard.New(spec)
	if err == nil {
		s.Board = b
		if s.Markers = s.length(s.d.Board.Markers, "fretboard.markers", fretboard.CommonMarker, "5 to 7; 0 for a board without"); s.Markers > 0 && len(b.Markers(s.Markers)) == 0 {
			s.Markers = 0
		}
		s.index()
		return
	}
	var ps fretboard.Problems
	if !errors.As(err, &ps) {
		s.errs.Add(err)
		return
	}
	for _, p := range ps {
		key, at := s.boardKey(p.Field)
		s.fail(at, key, p.Text, "a board that the slots and strings fit", "change the measure")
	}
}

// boardScale reads one scale or the two of a fan.
func (s *solver) boardScale(spec *fretboard.Spec) {
	sc := s.d.Strings.Scale
	if !sc.Bass.Set() {
		spec.Scale = s.length(sc.One, "strings.scale", defaultScale, "measure the nut to the bridge line")
		return
	}
	spec.Fan = &fretboard.Fan{Bass: float64(sc.Bass.V), Treble: float64(sc.Treble.V), Square: sc.Square.Or(defaultSquare).V}
	if !sc.Square.Set() {
		s.assume("strings.scale.square_fret", "7", "the middle of the hand's work")
	}
}

// tuning reads how the octave is divided: equally, or by a list.
func (s *solver) tuning(spec *fretboard.Spec) {
	st := s.d.Strings
	given := 0
	for _, set := range []bool{st.Divisions.Set(), st.Cents.Set(), st.Ratios.Set()} {
		if set {
			given++
		}
	}
	key, at := "strings.divisions", st.Divisions.At
	var err error
	switch {
	case st.Cents.Set():
		key, at = "strings.cents", st.Cents.At
		spec.Tuning, err = fretboard.Cents(st.Cents.V)
	case st.Ratios.Set():
		key, at = "strings.ratios", st.Ratios.At
		list := make([]float64, len(st.Ratios.V))
		for i, r := range st.Ratios.V {
			list[i] = float64(r)
		}
		spec.Tuning, err = fretboard.Ratios(list)
	default:
		spec.Tuning, err = fretboard.Equal(st.Divisions.Or(defaultOctave).V)
	}
	if given > 1 {
		s.fail(at, key, "a second division of the octave", "one of strings.divisions, strings.cents, strings.ratios", "delete all but one")
		return
	}
	if err != nil {
		for _, line := range strings.Split(err.Error(), "\n") {
			s.fail(at, key, line, "intervals above the open string, rising to the octave", "mend the list")
		}
	}
}

// boardStrings reads how the strings lie: spread and spacing.
func (s *solver) boardStrings(spec *fretboard.Spec) {
	st := s.d.Strings
	if !s.listsFit(spec.Strings.Count) {
		return
	}
	for _, g := range st.Gauges.V {
		spec.Strings.Gauges = append(spec.Strings.Gauges, float64(g))
	}
	spec.Strings.EqualGaps = st.Spacing.V == "gaps"
	if spec.Strings.EqualGaps && !st.Gauges.Set() {
		s.fail(st.Spacing.At, "strings.spacing", `"gaps" without strings.gauges`, "the thickness of every string beside it", "give gauges, or leave this out")
	}
}

// boardEnds reads the nut's end, the other end, and the surface.
func (s *solver) boardEnds(spec *fretboard.Spec) {
	b := s.d.Board
	spec.ZeroFret = b.ZeroFret.V
	spec.Nut = fretboard.Nut{Width: float64(b.Nut.Slot.V), Behind: float64(b.Nut.Behind.V), Shelf: float64(b.Nut.Shelf.V)}
	if spec.ZeroFret && !b.Nut.Behind.Set() {
		spec.Nut.Behind = s.length(b.Nut.Behind, "fretboard.nut.behind", defaultBehindZero, "from the zero fret to the nut, 4 to 9")
	}
	spec.End.Overhang = s.length(b.Overhang, "fretboard.overhang", defaultOverhang, "past the last fret")
	spec.End.Radius = float64(b.EndRadius.V)
	switch r := b.Radius.V; len(r) {
	case 1:
		spec.Radius = fretboard.Radius{Nut: float64(r[0]), End: float64(r[0])}
	case 2:
		spec.Radius = fretboard.Radius{Nut: float64(r[0]), End: float64(r[1])}
	}
}

// boardSlots reads how the slots are sawn, and those that are not right across.
func (s *solver) boardSlots(spec *fretboard.Spec) {
	b := s.d.Board
	spec.Slot = fretboard.Saw{
		Kerf:    s.length(b.Kerf, "fretboard.kerf", defaultKerf, "measure a test slot of your saw"),
		Depth:   float64(b.SlotDepth.V),
		Binding: float64(b.Binding.V),
	}
	for _, p := range b.Partial {
		spec.Partials = append(spec.Partials, fretboard.Partial{Fret: p.Fret.V, From: p.Strings.V[0], To: p.Strings.V[1]})
	}
	spec.Extra = fretboard.Extra{Frets: b.Extra.Frets.V, Strings: b.Extra.Strings.V, Bass: b.Extra.Side.V == "bass"}
}

// boardEdges reads how wide the board is, and how far apart the outer strings
// run where nobody says it. Without widths and margins a board for the usual six
// strings gets usual widths; where the strings' spread is given, or there are
// more or fewer, it gets usual margins.
func (s *solver) boardEdges(spec *fretboard.Spec) {
	b, spread := s.d.Board, s.d.Strings.Spread
	widths := b.NutWidth.Set() || b.EndWidth.Set()
	spec.Edges = fretboard.Edges{}
	switch m := b.Margin; {
	case m.Present && widths:
		s.fail(m.At, "fretboard.margin", "margins beside widths", "fretboard.margin, or nut_width and end_width", "delete one of the two")
		return
	case m.BassNut.Set():
		spec.Edges = fretboard.Edges{BassNut: float64(m.BassNut.V), TrebleNut: float64(m.TrebleNut.V), BassEnd: float64(m.BassEnd.V), TrebleEnd: float64(m.TrebleEnd.V)}
	case m.Present || !widths && (spread.Present || spec.Strings.Count != defaultStrings):
		v := s.length(m.One, "fretboard.margin", fretboard.CommonMargin, "from an outer string to the edge, 3 to 3.5")
		spec.Edges = fretboard.Edges{BassNut: v, TrebleNut: v, BassEnd: v, TrebleEnd: v}
	default:
		spec.Edges = fretboard.Edges{
			NutWidth: s.length(b.NutWidth, "fretboard.nut_width", defaultNutWidth, "41–44.5"),
			EndWidth: s.length(b.EndWidth, "fretboard.end_width", defaultEndWidth, "55–58"),
		}
	}
	was, why := spec.Strings, "usual pitch of the strings"
	if spec.FitStrings(); spec.Strings.Nut != was.Nut || spec.Strings.Bridge != was.Bridge {
		why = "the outer strings a little inside the edges of the board"
	}
	for _, e := range []struct {
		key   string
		given design.Val[design.Length]
		to    *float64
	}{
		{"strings.spread.nut", spread.Nut, &spec.Strings.Nut},
		{"strings.spread.bridge", spread.Bridge, &spec.Strings.Bridge},
	} {
		if e.given.Set() {
			*e.to = float64(e.given.V)
		} else if spec.Strings.Count > 1 {
			s.assume(e.key, design.MM(*e.to)+" mm", why)
		}
	}
}
