package fretboard

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// Say writes a length on paper: two decimals in mm, four in inches.
func Say(mm float64, u Unit) string {
	return fixed(u.in(mm), tableDecimals[u].eye) + " " + string(u)
}

func (b *Board) markerHoles(d float64, u Unit) []render.Hole {
	var out []render.Hole
	count := map[int]int{}
	for _, m := range b.Markers(d) {
		count[m.Fret]++
		words := "" // the first speaks for all
		if len(out) == 0 {
			words = "markers " + Say(m.Diameter, u)
		}
		out = append(out, render.Hole{
			ID: fmt.Sprintf("marker-%d-%d", m.Fret, count[m.Fret]), At: m.At, D: m.Diameter,
			Text: words, Kind: render.Mark, Layer: LayerMarkers,
		})
	}
	return out
}

// sheetDims are the measures to check the print and the board by.
func (b *Board) sheetDims(u Unit) []render.Dim {
	var ds []render.Dim
	add := func(p, q geom.Point, along geom.Vec, words string) {
		ds = append(ds, render.Dim{A: p, B: q, Along: along, Text: words + Say(measure(p, q, along), u)})
	}
	add(b.NutLine.A, b.NutLine.B, geom.Vec{X: 1}, "width at the nut ")
	v := b.Outline
	end := v[0] // the first piece of the outline is the end, or its bass part
	if b.Spec.Extra.Frets == 0 {
		add(end.A, end.B, geom.Vec{X: 1}, "width at the end ")
	}
	return ds
}

// measure returns the distance from p to q in direction along, true when zero.
func measure(p, q geom.Point, along geom.Vec) float64 {
	if along == (geom.Vec{}) {
		return p.Dist(q)
	}
	return math.Abs(q.Sub(p).Dot(along.Unit()))
}

// block returns the rows of the title block.
func (b *Board) block(u Unit) []render.Field {
	s := b.Spec
	fs := []render.Field{{Name: "Part", Value: "fretboard"}, {Name: "Face", Value: "FRONT, this face up"}}
	add := func(name, format string, a ...any) {
		fs = append(fs, render.Field{Name: name, Value: fmt.Sprintf(format, a...)})
	}
	if f := s.Fan; f != nil {
		add("Scale", "bass %s, treble %s, along the outer strings", Say(f.Bass, u), Say(f.Treble, u))
		add("Square fret", "%s", decimals(f.Square))
	} else {
		add("Scale", "%s on the centre line", Say(s.Scale, u))
	}
	add("Frets", "%d, %s", s.Frets, s.Tuning)
	if x := s.Extra; x.Frets > 0 {
		side := "treble"
		if x.Bass {
			side = "bass"
		}
		add("Extra frets", "%d under %d strings on the %s side", x.Frets, x.Strings, side)
	}
	add("Datum", "%s", b.datum())
	add("Slots", "%s; kerf %s", sawWords, Say(s.Slot.Kerf, u))
	if s.Slot.Depth > 0 {
		add("Depth", "%s below the surface", Say(s.Slot.Depth, u))
	}
	if s.Slot.Binding > 0 {
		add("Slot ends", "%s inside the edge", Say(s.Slot.Binding, u))
	}
	if !s.Radius.Flat() {
		if s.Radius.Nut == s.Radius.End {
			add("Radius", "%s, cylinder", Say(s.Radius.Nut, u))
		} else {
			add("Radius", "%s at the nut, %s at fret %d, cone", Say(s.Radius.Nut, u), Say(s.Radius.End, u), s.Frets)
		}
	}
	if n := s.Strings.Count; n > 1 {
		add("Strings", "%d; between the outer ones %s at the nut, %s at the bridge", n, Say(s.Strings.Nut, u), Say(s.Strings.Bridge, u))
	}
	return fs
}

// datum names what every distance is measured from.
func (b *Board) datum() string {
	if b.Spec.ZeroFret {
		return "the middle of the zero fret's slot"
	}
	return "the nut's string edge"
}

// notes returns the notes of the board's sheet: how to measure, cautions,
// assumptions.
func (b *Board) notes(o SheetOptions) []string {
	bass, _ := b.Scales()
	return append([]string{
		"A print that is 0.2 % off moves the octave fret by " + Say(0.002*bass/2, o.Unit) + ".",
		"Mark every slot from " + b.datum() + ", never from the slot before. " + capital(sawWords) + ".",
	}, b.cautions(o)...)
}

// cautions returns what every sheet of the board says, and the assumptions.
func (b *Board) cautions(o SheetOptions) []string {
	var ns []string
	if b.Fanned() {
		ns = append(ns, "The bridge lies on the line through the outer saddle points, not square to the centre line.")
	}
	ns = append(ns, "The bridge line is the scale length without compensation. Clamp the board and keep fingers behind the saw; wear a mask against dust, some board woods irritate.")
	for _, a := range o.Assumed {
		ns = append(ns, "Assumed: "+a)
	}
	return ns
}

// capital returns s with its first ASCII letter made a capital.
func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-32) + s[1:]
	}
	return s
}
