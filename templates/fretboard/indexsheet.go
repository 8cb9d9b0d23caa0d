package fretboard

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// markError is how true a notch is marked and cut from one datum, mm (common
// practice).
const markError = 0.05

// IndexSheet draws the strip or carrier at full size: the plate with its notches
// or holes to cut, the board's outline to mark, the slots dashed. No seam of a
// tiled print runs through a notch.
func IndexSheet(b *Board, x *Index, o SheetOptions) render.Sheet {
	left := b
	b = b.original()
	if o.Unit == "" {
		o.Unit = MM
	}
	if o.ID == "" {
		o.ID = "slotting-strip"
	}
	if o.Title == "" {
		o.Title = x.name()
	}
	s := render.Sheet{ID: o.ID, Title: o.Title}
	box := x.Plate.Bounds()
	plate := render.Group{ID: "plate", Title: x.name(), Shapes: []render.Shape{
		{ID: "plate-outline", Title: "cut line: outline of the plate", Path: x.Plate, Kind: render.Cut, Layer: LayerBoard},
		{ID: "board-mark", Title: "mark: here lies the board", Path: b.Outline, Kind: render.Mark, Layer: LayerLines},
		{ID: "nut-line", Title: "mark: string edge of the nut, the datum of every notch", Path: geom.Path{b.NutEdge}, Kind: render.Mark, Layer: LayerLines},
		{ID: "centre-line", Title: "centre line of the board and of the plate",
			Path: geom.Path{geom.Line(geom.Pt(0, box.Min.Y-4), geom.Pt(0, box.Max.Y+4))}, Kind: render.Centre, Layer: LayerCentre},
	}}
	numbers := render.Group{ID: "numbers", Title: "number of each seat"}
	r := (x.Spec.Pin + x.Spec.Play) / 2
	for i, seat := range x.Seats {
		plate.Shapes = append(plate.Shapes, render.Shape{ID: "saw-" + seat.Name, Title: "dashed: the saw at " + seat.words(),
			Path: geom.Path{seat.Cut}, Kind: render.Hidden, Layer: LayerLines})
		for k, h := range seat.Holes {
			if x.Spec.Holes {
				words := ""
				if i == 0 && k == 0 {
					words = fmt.Sprintf("%d holes %s through", len(x.Seats)*x.pinCount(), Say(2*r, o.Unit))
				}
				s.Holes = append(s.Holes, render.Hole{ID: fmt.Sprintf("hole-%s-%d", seat.Name, k+1), At: h, D: 2 * r, Text: words, Kind: render.Cut, Layer: LayerMarkers})
			}
			in := 1.0 // towards the board
			anchor := render.Start
			if k == 1 {
				in, anchor = -1, render.End
			}
			at := geom.Pt(h.X+in*(r+notchDeeper+0.8), h.Y-letterSmall/2)
			numbers.Texts = append(numbers.Texts, render.Text{S: seat.Name, At: at, Size: letterSmall, Anchor: anchor, Bold: true})
			s.Keep = append(s.Keep, geom.BoxOf(h).Grow(r+1))
		}
	}
	s.Groups = []render.Group{plate, numbers}
	s.Dims = []render.Dim{{A: geom.Pt(box.Min.X, box.Min.Y), B: geom.Pt(box.Max.X, box.Min.Y), Along: geom.Vec{X: 1}, Text: "plate " + Say(box.W(), o.Unit)}}
	s.Block = append(x.block(b, o.Unit), o.Block...)
	s.Notes = x.notes(b, o)
	return left.handed(s)
}

func (x *Index) name() string {
	if x.Two {
		return "Carrier for slotting the fan"
	}
	return "Slotting strip"
}

func (x *Index) kind() string {
	if x.Spec.Holes {
		return "hole"
	}
	return "notch"
}

func (s Seat) words() string {
	if s.Name == "nut" {
		return "the nut: the kerf lies behind the nut's edge"
	}
	return "slot " + s.Name
}

func (x *Index) block(b *Board, u Unit) []render.Field {
	bass, treble := b.Scales()
	scale := Say(bass, u)
	if x.Two {
		scale = Say(bass, u) + " bass, " + Say(treble, u) + " treble"
	}
	pins := Say(x.Spec.Pin, u)
	if x.Two {
		pins = "two of " + pins + ", " + Say(x.Spec.Span, u) + " between their middles, on a line along the saw"
	}
	fs := []render.Field{
		{Name: "Part", Value: "jig: " + x.name()},
		{Name: "Scale", Value: scale},
		{Name: "Pin", Value: pins},
		{Name: capital(x.kind()), Value: Say(x.Spec.Pin+x.Spec.Play, u) + ", cut on the line"},
		{Name: "Saw to pin", Value: x.offsetWords(u)},
		{Name: "Kerf", Value: Say(b.Spec.Slot.Kerf, u)},
		{Name: "Datum", Value: b.datum()},
	}
	if !math.IsInf(x.Web, 1) {
		fs = append(fs, render.Field{Name: "Least wood", Value: Say(x.Web, u) + " between two"})
	}
	return fs
}

func (x *Index) offsetWords(u Unit) string {
	switch o := x.Spec.Offset; {
	case o > 0:
		return Say(o, u) + " from the pin's middle to the kerf's middle, the saw nearer the nut"
	case o < 0:
		return Say(-o, u) + " from the pin's middle to the kerf's middle, the saw nearer the bridge"
	}
	return "in line: the pin must stand lower than the saw reaches"
}

func (x *Index) notes(b *Board, o SheetOptions) []string {
	use := "Lay the plate's straight edges along the fence and let the pin into each notch in turn."
	if x.Two {
		use = "The two pins stand on a line along the saw. Let both into a pair of one number: the board is then turned to that slot."
	}
	press := ""
	if x.Spec.Play > 0 {
		press = " Press the plate towards the nut, so that the pin bears on the side nearest the bridge."
	}
	ns := []string{
		"Tape the board's blank on the plate to the marks, centre line on centre line, and do not lift it before the last slot. " + use + press,
		fmt.Sprintf("Each %s is marked from the datum, never from its neighbour, so errors do not add up: a slot is off by no more than its own %s, ±%s; marked one from another, %d could add up to ±%s.",
			x.kind(), x.kind(), Say(markError, o.Unit), len(x.Seats), Say(markError*float64(len(x.Seats)), o.Unit)),
		"Find the offset with a scrap: press its end against the pin, saw, and measure the piece that comes off; add half the pin and half the kerf.",
		"Keep both hands behind the saw and clear of its line; follow the manual of the saw. Make the jig of a sheet that stays flat, about 6 mm.",
	}
	for _, a := range o.Assumed {
		ns = append(ns, "Assumed: "+a)
	}
	return ns
}
