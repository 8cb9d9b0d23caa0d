package fretboard

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/render"
)

// Layers of the board in cutter files. Those that other sheets have, too, bear
// the same names there.
const (
	LayerSlots   render.Layer = "SLOT" // the saw or cutter runs along the middle of this line
	LayerBoard   render.Layer = "CUT_OUTSIDE"
	LayerNut     render.Layer = "CUT_INSIDE"
	LayerMarkers render.Layer = "DRILL"
	LayerCentre  render.Layer = "CENTRE"
	LayerLines   render.Layer = "MARK"
)

// SheetOptions is what a sheet says beyond the board itself.
type SheetOptions struct {
	ID, Title string         // "" means "fretboard", "Fretboard slots"
	Unit      Unit           // of the printed distances; "" means MM
	Markers   bool           // draw the position markers
	Block     []render.Field // rows after the board's own
	Assumed   []string       // what nobody stated, listed on the sheet
}

// Sizes of letters on the sheet, mm, from the series of ISO 3098 (2.5, 3.5, 5):
// the largest that lets the numbers beside neighbouring slots stand apart.
const (
	letterLarge = 3.5
	letterSmall = 2.5
	letterLeast = 2.2 // of any letter on paper
	// A line of text needs its height and half as much again to be read alone.
	lineSpacing = 1.5
	// widthPerHeight is how wide a digit runs, as a part of its height, with room
	// to spare: 0.83 in the sans-serif fonts used.
	widthPerHeight = 0.85
)

// Sheet returns the sheet that a saw follows: slots, outline, nut, centre line,
// and beside every slot its number and distance from the nut, written outside
// the board where the saw does not cover them. Every line says in words what it
// is. The slots are of kind Cut: the saw follows the middle of the line.
func Sheet(b *Board, o SheetOptions) render.Sheet {
	if o.Unit == "" {
		o.Unit = MM
	}
	if o.ID == "" {
		o.ID = "fretboard"
	}
	if o.Title == "" {
		o.Title = "Fretboard slots"
	}
	s := render.Sheet{ID: o.ID, Title: o.Title}
	s.Groups = append(s.Groups, b.boardGroup(), b.slotGroup(), b.numberGroup(o.Unit))
	if g := b.stringGroup(); len(g.Shapes) > 0 {
		s.Groups = append(s.Groups, g)
	}
	if o.Markers {
		s.Holes = b.markerHoles(o.Unit)
	}
	s.Dims = b.sheetDims(o.Unit)
	s.Block = append(b.block(o.Unit), o.Block...)
	s.Notes = b.notes(o)
	return s
}

func (b *Board) boardGroup() render.Group {
	box := b.Outline.Bounds()
	g := render.Group{ID: "board", Title: "board", Shapes: []render.Shape{
		{ID: "board-outline", Title: "cut line: outline of the board", Path: b.Outline, Kind: render.Cut, Layer: LayerBoard},
		{ID: "nut-line", Title: b.nutWords(), Path: geom.Path{b.NutEdge}, Kind: render.Mark, Layer: LayerLines},
		{ID: "centre-line", Title: "centre line of the board",
			Path: geom.Path{geom.Line(geom.Pt(0, box.Min.Y-8), geom.Pt(0, box.Max.Y+8))}, Kind: render.Centre, Layer: LayerCentre},
	}}
	if b.NutSlot != nil {
		g.Shapes = append(g.Shapes, render.Shape{ID: "nut-slot", Title: "cut line: slot for the nut, both edges",
			Path: b.NutSlot, Kind: render.Cut, Layer: LayerNut})
	}
	return g
}

func (b *Board) nutWords() string {
	if b.Spec.ZeroFret {
		return "string edge of the nut, behind the zero fret; distances are measured from the zero fret"
	}
	return "string edge of the nut: every distance is measured from here"
}

// sawWords says what a slot's line is for.
const sawWords = "saw on the middle of the line"

func (b *Board) slotGroup() render.Group {
	g := render.Group{ID: "slots", Title: "fret slots: " + sawWords}
	for _, s := range b.Slots {
		g.Shapes = append(g.Shapes, render.Shape{
			ID: "slot-" + strings.ReplaceAll(s.Name(), ".", "-") + partID(s), Title: "fret slot " + s.Name() + ": " + sawWords,
			Path: geom.Path{s.Line}, Kind: render.Cut, Layer: LayerSlots,
		})
	}
	return g
}

// partID keeps the names of two partial slots at one place apart.
func partID(s Slot) string {
	if !s.Partial {
		return ""
	}
	return fmt.Sprintf("-strings-%d-%d", s.From, s.To)
}

// stringGroup shows where the strings run over the board.
func (b *Board) stringGroup() render.Group {
	g := render.Group{ID: "strings", Title: "strings"}
	for _, l := range b.Strings {
		k := l.Number
		_, t, ok := meet(b.tail(float64(b.Spec.Frets)), geom.Line(l.Nut, l.Saddle))
		if !ok || math.Abs(l.Nut.X)+math.Abs(l.Saddle.X) < geom.Coincident { // on the centre line
			continue
		}
		g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("string-%d", k), Title: fmt.Sprintf("middle of string %d", k),
			Path: geom.Path{geom.Line(l.Nut, l.At(t))}, Kind: render.Centre, Layer: LayerCentre})
	}
	return g
}

// numberGroup writes the fret's number and its distance beside both ends of each
// slot. Where slots lie too close for the letters, the texts step outward in
// columns, each with a thin line to its slot.
func (b *Board) numberGroup(u Unit) render.Group {
	g := render.Group{ID: "numbers", Title: "fret numbers and distances from the nut in " + string(u)}
	least := math.Inf(1)
	for i := 1; i < len(b.Slots); i++ {
		p, q := b.Slots[i-1].Edge, b.Slots[i].Edge
		least = math.Min(least, math.Min(p.A.Y-q.A.Y, p.B.Y-q.B.Y))
	}
	size := letterLarge
	for _, s := range []float64{letterSmall, letterLeast} {
		if least < size*lineSpacing {
			size = s
		}
	}
	columns := 1
	if least < size*lineSpacing {
		columns = min(6, int(math.Ceil(size*lineSpacing/math.Max(least, 0.1))))
	}
	words := make([][2]string, len(b.Slots))
	longest := 0
	for i, s := range b.Slots {
		words[i] = [2]string{"", s.Name()}
		d := fixed(u.in(s.TrebleFromNut), tableDecimals[u].eye)
		words[i][1] += "   " + d
		words[i][0] = fixed(u.in(s.BassFromNut), tableDecimals[u].eye) + "   " + s.Name()
		longest = max(longest, len(words[i][1]), len(words[i][0]))
	}
	column := float64(longest)*size*widthPerHeight + size
	for i, s := range b.Slots {
		out := size + float64(i%columns)*column
		if s.To == len(b.Strings) {
			b.number(&g, s, words[i][0], false, out, size)
		}
		if s.From == 1 {
			b.number(&g, s, words[i][1], true, out, size)
		}
		if s.From != 1 && s.To != len(b.Strings) { // wholly inside: number only, above the slot
			m := s.Edge.At(0.5)
			g.Texts = append(g.Texts, render.Text{S: s.Name(), At: geom.Pt(m.X, m.Y+size*0.2), Size: letterLeast, Anchor: render.Middle})
		}
	}
	return g
}

// number writes words out mm beyond one end of a slot, with a thin line from the
// slot's end to them.
func (b *Board) number(g *render.Group, s Slot, words string, treble bool, out, size float64) {
	end, side, name := s.Edge.A, -1.0, "bass"
	t := render.Text{S: words, Size: size, Anchor: render.End}
	if treble {
		end, side, name = s.Edge.B, 1.0, "treble"
		t.Anchor = render.Start
	}
	gap := size / 4 // between the line and the words
	stop := geom.Pt(end.X+side*(out-gap), end.Y)
	t.At = geom.Pt(end.X+side*out, end.Y-size/2) // capitals centred on the slot's end
	g.Texts = append(g.Texts, t)
	g.Shapes = append(g.Shapes, render.Shape{
		ID:    "leader-" + name + "-" + strings.ReplaceAll(s.Name(), ".", "-") + partID(s),
		Title: "leader from slot " + s.Name() + " to its number",
		Path:  geom.Path{geom.Line(geom.Pt(end.X+side*gap, end.Y), stop)}, Kind: render.Dimension, Layer: LayerLines,
	})
}
