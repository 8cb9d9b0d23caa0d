package geom

import "math"

// RollInside returns what a disc of radius cut (mm) clears when its centre goes
// wherever a disc of radius guide about the same centre fits inside r: a cutter
// behind a bush or a bearing that follows an opening. It is r shrunk by guide and
// grown by cut.
//
// A width of exactly 2·guide counts as passable: a slot as wide as its cutter is
// cleared. Exactly means to RollSlack on either side. Offset alone would say no:
// there the places for the centre are a line without area. Where such a width is
// found, r is shrunk by RollSlack less and grown by as much less, which leaves
// every wall where it belongs and makes the radii in corners smaller by that.
//
// A guide or cut of 0 or less counts as 0. Cost of three offsets.
func (c *Calc) RollInside(r Region, guide, cut float64) Region {
	return c.roll(r, -1, guide, cut)
}

// RollOutside returns what is left of everything when a disc of radius cut (mm)
// clears what it can while a disc of radius guide about the same centre stays
// outside r: a cutter that runs round a male template. It is r grown by guide
// and shrunk by cut. A gap of exactly 2·guide counts as passable, as in
// RollInside. Cost of three offsets.
func (c *Calc) RollOutside(r Region, guide, cut float64) Region {
	return c.roll(r, +1, guide, cut)
}

// roll offsets r by guide to the given side and back by cut.
func (c *Calc) roll(r Region, side, guide, cut float64) Region {
	if c.err != nil {
		return nil
	}
	guide, cut = max(0, guide), max(0, cut)
	centres := c.Offset(r, side*guide, Round)
	if slack := RollSlack; guide > slack && cut > slack {
		wider := c.Offset(r, side*(guide-slack), Round)
		if c.err == nil && passes(centres, wider) {
			centres, cut = wider, cut-slack
		}
	}
	return c.Offset(centres, -side*cut, Round)
}

// passes reports whether the offset b, by RollSlack nearer to its source than a,
// has places that a has lost altogether. An edge that merely moves by d changes
// its length by at most 2·cot(θ/2)·d at a corner of angle θ; a neck that opens
// adds twice its own length at once. A needless yes does no harm.
func passes(a, b Region) bool {
	const shortest = 0.01 // mm; a shorter neck is no matter
	return math.Abs(b.Perimeter()-a.Perimeter()) > 2*shortest
}
