package job

import (
	"math"
	"strings"
	"testing"
)

// A fan from the design file: the slots lie where the formula puts them on
// strings whose lengths are the two scales, seen from the line through the outer
// saddles; a left-handed one is its image.
func TestFanOfADesign(t *testing.T) {
	const body = `
[strings]
scale = {bass = 686, treble = 648, square_fret = 7}
frets = 24
count = 7
spread = {nut = 48, bridge = 66}
[fretboard]
margin = {bass_nut = 3, treble_nut = 3, bass_end = 3.5, treble_end = 3.5}
zero_fret = true
nut = {slot = 3.2, behind = 5, shelf = 2}
radius = [305, 406]
binding = 1.5
slot_depth = 2.4
extra = {frets = 2, strings = 3}
partial = [{fret = 3.5, strings = [1, 3]}]
`
	j, err := solve(t, body)
	if err != nil {
		t.Fatal(err)
	}
	b := j.Board
	if got := b.Spec; got.Fan == nil || got.Slot.Binding != 1.5 || got.Slot.Depth != 2.4 || got.Nut.Behind != 5 || got.Extra.Strings != 3 || len(got.Partials) != 1 || got.Radius.End != 406 || got.Edges.BassEnd != 3.5 {
		t.Errorf("a field did not arrive: %+v", got)
	}
	for _, s := range b.Slots {
		f := 1 - math.Exp2(-s.Fret/12)
		if math.Abs(s.BassFromNut-686*f) > 1e-9 || math.Abs(s.TrebleFromNut-648*f) > 1e-9 {
			t.Errorf("slot %s: %g and %g from the nut", s.Name(), s.BassFromNut, s.TrebleFromNut)
		}
	}
	if l := b.Lengths(); math.Abs(l[0]-648) > 1e-9 || math.Abs(l[6]-686) > 1e-9 {
		t.Errorf("lengths %v", l)
	}
	left, err := solve(t, "hand = \"left\"\n"+body)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range left.Board.Slots {
		r := b.Slots[i]
		if s.Line.A.X != -r.Line.A.X || s.Line.A.Y != r.Line.A.Y || s.Line.B.X != -r.Line.B.X || s.Angle != r.Angle {
			t.Errorf("slot %s: %v is no mirror image of %v", s.Name(), s.Line, r.Line)
		}
	}
	if left.Board.Outline.Area() <= 0 {
		t.Error("the mirrored outline runs clockwise")
	}
	for _, e := range left.Board.SlotErrors() {
		if !(math.Abs(e.Off) < 1e-9) {
			t.Errorf("left: slot %g off by %g", e.Fret, e.Off)
		}
	}
}

// Every fault of a board names its key and place.
func TestBadBoards(t *testing.T) {
	for _, tt := range [][2]string{
		{"[strings]\nscale = {bass = 640, treble = 686}", "g.toml:3:31: strings.scale.treble: treble scale 686 mm is longer than bass scale 640 mm"},
		{"[strings]\nscale = {bass = 900, treble = 500, square_fret = 200}", "g.toml:3:50: strings.scale.square_fret"},
		{"[strings]\nscale = 648\nfrets = 90", "g.toml:4:9: strings.frets: slots"},
		{"[strings]\nspread = {nut = 60, bridge = 70}\n[fretboard]\nnut_width = 43\nend_width = 56", "g.toml:3:17: strings.spread.nut: spread 60 mm is wider than the board"},
		{"[strings]\ncents = [200, 100]", "g.toml:3:9: strings.cents: interval 2 is 100 cents, not above"},
		{"[strings]\nratios = [\"3/2\", \"5/4\"]", "g.toml:3:10: strings.ratios: interval 2"},
		{"[strings]\nratios = [\"3/2\"]\ndivisions = 12", "strings.ratios: a second division of the octave"},
		{"[strings]\nspacing = \"gaps\"", "strings.spacing: \"gaps\" without strings.gauges"},
		{"[fretboard]\nmargin = 3\nnut_width = 43", "g.toml:3:10: fretboard.margin: margins beside widths"},
		{"[fretboard]\nnut = {behind = 5}", "fretboard.nut.behind: 5 mm given without a zero fret"},
		{"[[fretboard.partial]]\nfret = 40\nstrings = [1, 2]", "fretboard.partial: slot 40 lies past the last slot 22"},
		{"[fretboard]\nextra = {frets = 2, strings = 6}", "fretboard.extra.strings: 6 given"},
		{"[fretboard]\nend_radius = 20", "fretboard.end_radius: 20 mm is under half the width"},
	} {
		if _, err := solve(t, tt[0]); err == nil || !strings.Contains(err.Error(), tt[1]) {
			t.Errorf("%q:\n got %v\nwant %s", tt[0], err, tt[1])
		}
	}
}

// The strip of a design: pin and span solved, or as given.
func TestIndexOfADesign(t *testing.T) {
	j, err := solve(t, "[strings]\nscale = 648\n[fretboard]\nindex = {pin = 4, offset = \"1 in\", kind = \"holes\", play = 0.1}")
	if err != nil {
		t.Fatal(err)
	}
	if s := j.Index.Spec; s.Pin != 4 || s.Offset != 25.4 || !s.Holes || s.Play != 0.1 || j.Index.Two {
		t.Errorf("%+v", s)
	}
	j, err = solve(t, "[strings]\nscale = {bass = 686, treble = 648}")
	if err != nil {
		t.Fatal(err)
	}
	if !j.Index.Two || assumed(j, "fretboard.index.span") == "" || assumed(j, "fretboard.index.pin") == "" || assumed(j, "fretboard.index.offset") == "" {
		t.Errorf("%+v %v", j.Index.Spec, j.Assumed)
	}
	if _, err := solve(t, "[strings]\nscale = {bass = 686, treble = 648}\n[fretboard]\nindex.span = 50"); err == nil || !strings.Contains(err.Error(), "g.toml:5:14: fretboard.index.span: 50 mm puts the pins under the board") {
		t.Error(err)
	}
}
