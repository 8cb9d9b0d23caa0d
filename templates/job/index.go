package job

import (
	"errors"

	"routwright/templates/design"
	"routwright/templates/fretboard"
)

// index lays out the slotting strip, or for a fan the carrier, of the board.
func (s *solver) index() {
	d := s.d.Board.Index
	spec := fretboard.IndexSpec{
		Holes: d.Kind.V == "holes", Pin: float64(d.Pin.V), Span: float64(d.Span.V), Play: float64(d.Play.V),
		Offset: s.length(d.Offset, "fretboard.index.offset", 0, "the pin in line with the saw: measure yours"),
	}
	if !d.Kind.Set() {
		s.assume("fretboard.index.kind", "notches", "they can be sawn and filed")
	}
	if !d.Play.Set() {
		s.assume("fretboard.index.play", "0 mm", "notches filed to the pin")
	}
	kind := "notches"
	if spec.Holes {
		kind = "holes"
	}
	x, err := s.Board.NewIndex(spec)
	var ps fretboard.Problems
	if errors.As(err, &ps) {
		for _, p := range ps {
			key, at := "fretboard."+p.Field, d.At
			for _, v := range []struct {
				key string
				at  design.Pos
			}{{"index.pin", d.Pin.At}, {"index.offset", d.Offset.At}, {"index.span", d.Span.At}, {"index.play", d.Play.At}} {
				if v.key == p.Field && !v.at.IsZero() {
					at = v.at
				}
			}
			s.fail(at, key, p.Text, "a strip or carrier that the board fits", "change the measure")
		}
		return
	}
	if err != nil {
		s.errs.Add(err)
		return
	}
	if !d.Pin.Set() {
		s.solved("fretboard.index.pin", design.MM(x.Spec.Pin)+" mm", "the thickest usual pin that leaves wood between the "+kind)
	}
	if x.Two && !d.Span.Set() {
		s.solved("fretboard.index.span", design.MM(x.Spec.Span)+" mm", "the two pins stand clear of the board")
	}
	s.Index = x
}
