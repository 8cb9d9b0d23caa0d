package fretboard

import (
	"math"

	"routwright/geom"
)

// moved returns line l moved square to itself by d towards the nut.
func moved(l geom.Seg, d float64) geom.Seg {
	v := l.B.Sub(l.A).Unit().Left().Mul(d)
	return geom.Line(l.A.Add(v), l.B.Add(v))
}

// layNut places the nut line, the nut's edge and the slot for the nut.
func (b *Board) layNut(ps *Problems) {
	cut := func(d float64) (geom.Seg, bool) {
		return cutAt(moved(b.across(0), d), b.BassEdge, b.TrebleEdge)
	}
	n := b.Spec.Nut
	var ok [3]bool
	var far geom.Seg
	b.NutLine, ok[0] = cut(0)
	b.NutEdge, ok[1] = cut(n.Behind)
	far, ok[2] = cut(n.Behind + n.Width)
	if !ok[0] || !ok[1] || !ok[2] {
		ps.add("fan.square", "the nut's line does not cross the board from edge to edge: it lies too far off square; choose a square fret nearer the middle of the board")
		return
	}
	if n.Width > 0 {
		b.NutSlot = geom.Polygon(b.NutEdge.A, b.NutEdge.B, far.B, far.A)
	}
}

// tail returns the unbounded line of the board's end past slot x.
func (b *Board) tail(x float64) geom.Seg {
	return moved(b.across(x), -b.Spec.End.Overhang)
}

// layOutline closes the board: head, edges, end. The edges' own lengths are set
// to the board's corners.
func (b *Board) layOutline(ps *Problems) {
	s := b.Spec
	head, okh := cutAt(moved(b.across(0), s.Nut.Behind+s.Nut.Width+s.Nut.Shelf), b.BassEdge, b.TrebleEdge)
	end, oke := cutAt(b.tail(float64(s.Frets)), b.BassEdge, b.TrebleEdge)
	if !okh || !oke {
		ps.add("fan.square", "the board's ends do not cross it from edge to edge: they lie too far off square; choose a square fret nearer the middle of the board")
		return
	}
	bottom := geom.Path{geom.Line(end.A, end.B)}
	if r := s.End.Radius; r > 0 {
		half := end.Length() / 2
		if r < half {
			ps.add("end.radius", "%s mm is under half the width of the board's end, %.2f mm: the arc cannot reach both corners; give at least %.2f", decimals(r), half, half)
			return
		}
		c := end.A.Lerp(end.B, 0.5).Add(end.B.Sub(end.A).Unit().Left().Mul(math.Sqrt(r*r - half*half)))
		bottom = geom.Path{geom.ArcAbout(c, end.A, end.B, 1)}
	}
	if s.Extra.Frets > 0 {
		if bottom = b.step(end); bottom == nil {
			ps.add("extra.frets", "the end of the extra frets does not cross the board: choose a square fret nearer the middle of the board")
			return
		}
	}
	lo, hi := bottom[0].A, bottom[len(bottom)-1].B
	b.BassEdge, b.TrebleEdge = geom.Line(head.A, lo), geom.Line(head.B, hi)
	b.Outline = append(bottom, geom.Line(hi, head.B), geom.Line(head.B, head.A), geom.Line(head.A, lo))
}

// step returns the board's end with the extra frets of one side, from the bass
// corner to the treble corner, nil when a line misses the board.
func (b *Board) step(end geom.Seg) geom.Path {
	x, n := b.Spec.Extra, len(b.Strings)
	long := b.tail(float64(b.Spec.Frets + x.Frets))
	if x.Bass {
		side := b.lane(n - x.Strings)
		far, ok := cutAt(long, b.BassEdge, side)
		near, ok2 := cutAt(end, side, b.TrebleEdge)
		if !ok || !ok2 {
			return nil
		}
		return geom.Polyline(far.A, far.B, near.A, end.B)
	}
	side := b.lane(x.Strings)
	far, ok := cutAt(long, side, b.TrebleEdge)
	near, ok2 := cutAt(end, b.BassEdge, side)
	if !ok || !ok2 {
		return nil
	}
	return geom.Polyline(end.A, near.B, far.A, far.B)
}

// checkEnds reports a board that reaches the bridge, or an end too near the
// last slot.
func (b *Board) checkEnds(ps *Problems, field string) {
	s := b.Spec
	if s.End.Overhang <= s.Slot.Kerf/2 {
		ps.add("end.overhang", "%s mm leaves no wood past the last slot of kerf %s mm: give more", decimals(s.End.Overhang), decimals(s.Slot.Kerf))
	}
	for _, p := range b.Outline.Vertices() {
		if d := b.aboveBridge(p); d <= 0 {
			ps.add(field, "the board would reach %.2f mm past the bridge line: fewer frets or a shorter overhang", -d)
			return
		}
	}
	if s.End.Radius > 0 && b.aboveBridge(b.Outline[0].At(0.5)) <= 0 {
		ps.add("end.radius", "the curved end would reach past the bridge line: a larger radius, or fewer frets")
	}
}

// aboveBridge returns how far p lies on the nut side of the bridge line, mm.
func (b *Board) aboveBridge(p geom.Point) float64 {
	l := b.BridgeLine
	d := geom.Vec{X: 1}
	if l.Length() > geom.Coincident {
		d = l.B.Sub(l.A).Unit()
	}
	return d.Cross(p.Sub(l.A))
}
