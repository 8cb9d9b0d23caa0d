package fretboard

import (
	"cmp"
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
	Markers   float64        // diameter of the position markers, mm; 0 draws none
	Block     []render.Field // rows after the board's own
	Assumed   []string       // what nobody stated, listed on the sheet
}

// or fills what is not said with an id and a title.
func (o SheetOptions) or(id, title string) SheetOptions {
	o.Unit, o.ID, o.Title = cmp.Or(o.Unit, MM), cmp.Or(o.ID, id), cmp.Or(o.Title, title)
	return o
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
	o = o.or("fretboard", "Fretboard slots")
	left := b
	b = b.original()
	s := render.Sheet{ID: o.ID, Title: o.Title}
	s.Groups = append(s.Groups, b.boardGroup(), b.slotGroup(), b.numberGroup(o.Unit))
	if g := b.stringGroup(); len(g.Shapes) > 0 {
		s.Groups = append(s.Groups, g)
	}
	if o.Markers > 0 {
		s.Holes = b.markerHoles(o.Markers, o.Unit)
	}
	s.Dims = b.sheetDims(o.Unit)
	s.Block = append(b.block(o.Unit), o.Block...)
	s.Notes = b.notes(o)
	return left.handed(s)
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
			ID: "slot-" + s.id(), Title: "fret slot " + s.Name() + ": " + sawWords,
			Path: geom.Path{s.Line}, Kind: render.Cut, Layer: LayerSlots,
		})
	}
	return g
}

// id returns the slot's name within the sheet: two partial slots at one place
// differ by their strings.
func (s Slot) id() string {
	name := strings.ReplaceAll(s.Name(), ".", "-")
	if s.Partial {
		name += fmt.Sprintf("-strings-%d-%d", s.From, s.To)
	}
	return name
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
// slot. Where slots lie too close for the letters, the words step outward in
// columns, each with a thin line to its slot.
func (b *Board) numberGroup(u Unit) render.Group {
	g := render.Group{ID: "numbers", Title: "fret numbers and distances from the nut in " + u.words()}
	n := len(b.Strings)
	var bass, treble []ending
	for _, s := range b.Slots {
		if s.To == n {
			bass = append(bass, ending{s, s.Edge.A, ruled(s.BassFromNut, u)})
		}
		if s.From == 1 {
			treble = append(treble, ending{s, s.Edge.B, ruled(s.TrebleFromNut, u)})
		}
		if s.From != 1 && s.To != n { // wholly inside: number only, above the slot
			m := s.Edge.At(0.5)
			g.Texts = append(g.Texts, render.Text{S: s.Name(), At: geom.Pt(m.X, m.Y+letterLeast*0.3), Size: letterLeast, Anchor: render.Middle})
		}
	}
	size := math.Min(letterFor(bass), letterFor(treble))
	number(&g, bass, "bass", size)
	number(&g, treble, "treble", size)
	return g
}

// ending is one end of a slot at the board's edge, with the distance to write
// beside it.
type ending struct {
	slot     Slot
	at       geom.Point
	distance string
}

// letterFor returns the largest letters that let the words stand in one column,
// else the middle size, for words in several.
func letterFor(es []ending) float64 {
	least := math.Inf(1)
	for i := 1; i < len(es); i++ {
		least = math.Min(least, es[i-1].at.Y-es[i].at.Y)
	}
	for _, size := range []float64{letterLarge, letterSmall, letterLeast} {
		if least >= size*lineSpacing {
			return size
		}
	}
	return letterSmall
}

// number writes the words of one side, nut first, each in the first column where
// it stands clear of the words above, with a thin line from the slot to it.
func number(g *render.Group, es []ending, name string, size float64) {
	side, anchor := -1.0, render.End
	if name == "treble" {
		side, anchor = 1, render.Start
	}
	digits, longest := 0, 0
	outer := 0.0 // the first column starts where the widest part of the board ends
	for _, e := range es {
		digits, longest = max(digits, len(e.slot.Name())), max(longest, len(e.distance))
		outer = math.Max(outer, side*e.at.X)
	}
	first := (float64(digits)*widthPerHeight + 1) * size // the fret's number, then the distance
	width := first + (float64(longest)*widthPerHeight+1)*size
	var last []float64 // height of the last words in each column
	for _, e := range es {
		k := 0
		for k < len(last) && last[k]-e.at.Y < size*lineSpacing {
			k++
		}
		if k == len(last) {
			last = append(last, 0)
		}
		last[k] = e.at.Y
		gap := size / 4 // between a line and what it belongs to
		x := side * (outer + size + float64(k)*width)
		y := e.at.Y - size/2 // capitals centred on the slot's end
		g.Texts = append(g.Texts,
			render.Text{S: e.slot.Name(), Size: size, Anchor: anchor, At: geom.Pt(x, y), Bold: true},
			render.Text{S: e.distance, Size: size, Anchor: anchor, At: geom.Pt(x+side*first, y)})
		g.Shapes = append(g.Shapes, render.Shape{
			ID:    "leader-" + name + "-" + e.slot.id(),
			Title: "leader from slot " + e.slot.Name() + " to its number",
			Path:  geom.Path{geom.Line(geom.Pt(e.at.X+side*gap, e.at.Y), geom.Pt(x-side*gap, e.at.Y))},
			Kind:  render.Dimension, Layer: LayerLines,
		})
	}
}

// ruled writes a distance as it is read off a rule: two decimals of a mm, or the
// nearest 64th of an inch and how much longer that is.
func ruled(mm float64, u Unit) string {
	if u == Inch {
		f := Nearest64th(mm)
		return f.String() + " in (" + f.ErrorWords() + ")"
	}
	return fixed(mm, tableDecimals[MM].eye)
}
