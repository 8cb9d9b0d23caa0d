package fretboard

import (
	"routwright/geom"
	"routwright/render"
)

// Mirrored returns the board of a left-handed instrument: every place reflected
// across the centre line. Bass and treble keep their names, so the bass side then
// lies at +X, and lines still run from the bass end to the treble end; the outline
// stays counter-clockwise. Distances, angles and depths are those of the original.
func (b *Board) Mirrored() *Board {
	if b.right != nil {
		return b.right
	}
	m, c := geom.MirrorX(), *b
	c.right = b
	c.Strings = make([]StringLine, len(b.Strings))
	for i, l := range b.Strings {
		l.Nut, l.Saddle = m.Point(l.Nut), m.Point(l.Saddle)
		c.Strings[i] = l
	}
	c.Slots = make([]Slot, len(b.Slots))
	for i, s := range b.Slots {
		s.Line, s.Edge = m.Seg(s.Line), m.Seg(s.Edge)
		c.Slots[i] = s
	}
	c.Outline = m.Path(b.Outline).Reversed()
	if b.NutSlot != nil {
		c.NutSlot = m.Path(b.NutSlot).Reversed()
	}
	for _, l := range []*geom.Seg{&c.BassEdge, &c.TrebleEdge, &c.NutLine, &c.NutEdge, &c.BridgeLine} {
		*l = m.Seg(*l)
	}
	for i := range c.ref {
		c.ref[i].Nut, c.ref[i].Saddle = m.Point(b.ref[i].Nut), m.Point(b.ref[i].Saddle)
	}
	return &c
}

// original returns the right-handed board, on which everything is worked out.
func (b *Board) original() *Board {
	if b.right != nil {
		return b.right
	}
	return b
}

// handed returns a sheet of the original as the board asks: mirrored when it is
// left-handed, and still seen from the front.
func (b *Board) handed(s render.Sheet) render.Sheet {
	if b.right != nil {
		s.FromBack, s.View = true, "Seen from the front, left-handed"
	}
	return s
}
