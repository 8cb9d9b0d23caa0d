package job

import (
	"errors"

	"routwright/templates/design"
	"routwright/templates/fretboard"
)

// boardKeys says which key of the design file a field of the board comes from.
func (s *solver) boardKey(field string) (string, design.Pos) {
	b, st := s.d.Board, s.d.Strings
	switch field {
	case "scale":
		return "strings.scale", st.Scale.At
	case "frets":
		return "strings.frets", st.Frets.At
	case "tuning", "tuning.steps":
		return "strings.divisions", st.Divisions.At
	case "strings.nut":
		return "strings.spread.nut", st.Spread.Nut.At
	case "strings.bridge":
		return "strings.spread.bridge", st.Spread.Bridge.At
	case "strings.count":
		return "strings.count", st.Count.At
	case "edges.nutwidth":
		return "fretboard.nut_width", b.NutWidth.At
	case "edges.endwidth":
		return "fretboard.end_width", b.EndWidth.At
	case "end.overhang":
		return "fretboard.overhang", b.Overhang.At
	case "slot.kerf":
		return "fretboard.kerf", b.Kerf.At
	}
	return "fretboard (" + field + ")", b.Table.At
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
	spec := fretboard.Common(s.length(s.d.Strings.Scale, "strings.scale", defaultScale, "measure the nut to the bridge line"), frets.V, count.V)
	divisions := s.d.Strings.Divisions.Or(defaultOctave)
	tuning, err := fretboard.Equal(divisions.V)
	if err != nil {
		s.fail(s.d.Strings.Divisions.At, "strings.divisions", err.Error(), "5 to 72 equal steps", "12 is usual")
		return
	}
	spec.Tuning = tuning
	spec.Edges = fretboard.Edges{
		NutWidth: s.length(s.d.Board.NutWidth, "fretboard.nut_width", defaultNutWidth, "41–44.5"),
		EndWidth: s.length(s.d.Board.EndWidth, "fretboard.end_width", defaultEndWidth, "55–58"),
	}
	spec.End.Overhang = s.length(s.d.Board.Overhang, "fretboard.overhang", defaultOverhang, "past the last fret")
	spec.Slot.Kerf = s.length(s.d.Board.Kerf, "fretboard.kerf", defaultKerf, "measure a test slot of your saw")
	s.spread(&spec)
	b, err := fretboard.New(spec)
	if err == nil {
		s.Board = b
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

// spread sets how far apart the outer strings run: as given, else inside the
// edges of the board, which is listed as assumed.
func (s *solver) spread(spec *fretboard.Spec) {
	spec.FitStrings()
	for _, e := range []struct {
		key   string
		given design.Val[design.Length]
		to    *float64
	}{
		{"strings.spread.nut", s.d.Strings.Spread.Nut, &spec.Strings.Nut},
		{"strings.spread.bridge", s.d.Strings.Spread.Bridge, &spec.Strings.Bridge},
	} {
		if e.given.Set() {
			*e.to = float64(e.given.V)
		} else if spec.Strings.Count > 1 {
			s.assume(e.key, design.MM(*e.to)+" mm", "the outer strings a little inside the edges of the board")
		}
	}
}
