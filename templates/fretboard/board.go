package fretboard

import (
	"math"

	"routwright/geom"
)

// Board is a laid-out fretboard. Make it with New; its parts are read-only.
type Board struct {
	Spec    Spec
	Strings []StringLine // string 1 (treble) first
	Slots   []Slot       // by place from the nut; whole slots before partial ones at the same place
	Outline geom.Path    // closed, counter-clockwise

	// BassEdge and TrebleEdge run from the head of the board to its corners at
	// the other end (with extra frets, to the corners of the main end and beyond).
	BassEdge, TrebleEdge geom.Seg

	// NutLine is the string edge of the nut, or the zero fret's line, from the
	// bass edge to the treble edge: the datum of every distance.
	NutLine geom.Seg

	// NutEdge is the string edge of the nut itself: NutLine unless a zero fret
	// stands before it.
	NutEdge geom.Seg

	// NutSlot is the slot for the nut, counter-clockwise; nil without one.
	NutSlot geom.Path

	// BridgeLine runs through the outer saddle points.
	BridgeLine geom.Seg

	ref   [2]StringLine // bass and treble reference for the slots
	right *Board        // the original of a mirrored board
}

// New lays a board out, or returns Problems. O((frets + partials)²).
func New(s Spec) (*Board, error) {
	if ps := s.check(); len(ps) > 0 {
		return nil, ps
	}
	b := &Board{Spec: s}
	var ps Problems
	b.layStrings(&ps)
	if len(ps) == 0 {
		b.layEdges(&ps)
	}
	if len(ps) == 0 {
		b.layNut(&ps)
	}
	if len(ps) == 0 {
		b.laySlots(&ps)
	}
	if len(ps) == 0 {
		b.layOutline(&ps)
	}
	if len(ps) == 0 {
		b.checkSlots(&ps)
	}
	if len(ps) == 0 {
		b.checkRadius(&ps)
	}
	if len(ps) > 0 {
		return nil, ps
	}
	return b, nil
}

// Bass and Treble return the outer strings.
func (b *Board) Bass() StringLine   { return b.Strings[len(b.Strings)-1] }
func (b *Board) Treble() StringLine { return b.Strings[0] }

// Fanned reports whether the board has two scales.
func (b *Board) Fanned() bool { return b.Spec.Fan != nil }

// Scales returns the lengths that the slots divide: along the outer strings of
// a fan, on the centre line (the same for both) otherwise.
func (b *Board) Scales() (bass, treble float64) {
	if f := b.Spec.Fan; f != nil {
		return f.Bass, f.Treble
	}
	return b.Spec.Scale, b.Spec.Scale
}

// layStrings places nut and saddle points.
//
// For a fan, each outer string is the hypotenuse over its own half of the change
// of spread, so its extent along the centre line is √(L² − Δx²). The square fret
// p lies at the same height on both: saddle height + extent · 2^(−p/N).
// After US patent 6,956,158 (frets join the same-numbered places of two scales).
func (b *Board) layStrings(ps *Problems) {
	s := b.Spec
	xn, xs := s.Strings.Nut/2, s.Strings.Bridge/2
	var yb, yt, hb, ht float64 // saddle heights and extents
	hb, ht = s.Scale, s.Scale
	if f := s.Fan; f != nil {
		hb, ht = math.Sqrt(f.Bass*f.Bass-(xs-xn)*(xs-xn)), math.Sqrt(f.Treble*f.Treble-(xs-xn)*(xs-xn))
		if !(ht > 0) || !(hb > 0) {
			ps.add("strings.bridge", "spread %s mm at the bridge is too wide for the scale %s mm", decimals(s.Strings.Bridge), decimals(f.Treble))
			return
		}
		skew := (hb - ht) * (1 - s.Tuning.Fraction(f.Square)) // treble saddle above bass saddle
		yb, yt = -skew/2, skew/2                              // symmetric about the centre line
	}
	nutB, nutT := geom.Pt(-xn, yb+hb), geom.Pt(xn, yt+ht)
	sadB, sadT := geom.Pt(-xs, yb), geom.Pt(xs, yt)
	b.Strings = s.Strings.lines(nutB, nutT, sadB, sadT)
	b.BridgeLine = geom.Line(sadB, sadT)
	b.ref = [2]StringLine{b.Bass(), b.Treble()}
	if s.Strings.Count == 1 { // slots need two lines: any parallel pair will do
		off := geom.Vec{X: 0.5}
		l := b.Strings[0]
		b.ref[0].Nut, b.ref[0].Saddle = l.Nut.Add(off.Neg()), l.Saddle.Add(off.Neg())
		b.ref[1].Nut, b.ref[1].Saddle = l.Nut.Add(off), l.Saddle.Add(off)
	}
}

// across returns the unbounded line of the slot at place x (in frets), by its
// points on the two reference strings.
func (b *Board) across(x float64) geom.Seg {
	f := b.Spec.Tuning.Fraction(x)
	p, q := b.ref[0].At(f), b.ref[1].At(f)
	if !b.Fanned() { // one height, bit for bit
		p.Y = b.Spec.Scale - b.Spec.Scale*f
		q.Y = p.Y
	}
	return geom.Line(p, q)
}

// layEdges places the two edges of the board as lines through the head and the
// end; their lengths are set by layOutline.
func (b *Board) layEdges(ps *Problems) {
	e, last := b.Spec.Edges, b.across(float64(b.Spec.Frets))
	nut := b.across(0)
	if b.Spec.Strings.Count == 1 { // back from the parallel pair to the string itself
		nut = geom.Line(b.Strings[0].Nut, b.Strings[0].Nut)
		l := geom.Pt(0, last.A.Y)
		last = geom.Line(l, l)
	}
	shift := func(p geom.Point, dx float64) geom.Point { return geom.Pt(p.X+dx, p.Y) }
	if !e.ByWidths() {
		b.BassEdge = geom.Line(shift(nut.A, -e.BassNut), shift(last.A, -e.BassEnd))
		b.TrebleEdge = geom.Line(shift(nut.B, e.TrebleNut), shift(last.B, e.TrebleEnd))
		return
	}
	o := b.Spec.End.Overhang
	b.BassEdge = geom.Line(geom.Pt(-e.NutWidth/2, nut.A.Y), geom.Pt(-e.EndWidth/2, last.A.Y-o))
	b.TrebleEdge = geom.Line(geom.Pt(e.NutWidth/2, nut.B.Y), geom.Pt(e.EndWidth/2, last.B.Y-o))
	if gb, gt := outside(b.BassEdge, last.A, -1), outside(b.TrebleEdge, last.B, 1); gb <= 0 || gt <= 0 {
		ps.add("edges.endwidth", "%s mm is too narrow: at the last slot an outer string lies %.2f mm outside the board; widen the end or narrow the spread at the bridge",
			decimals(e.EndWidth), -math.Min(gb, gt))
	}
}

// outside returns how far in x the edge lies beyond p on side −1 (bass) or +1.
func outside(edge geom.Seg, p geom.Point, side float64) float64 {
	t := (p.Y - edge.A.Y) / (edge.B.Y - edge.A.Y)
	return side * (edge.A.X + t*(edge.B.X-edge.A.X) - p.X)
}
