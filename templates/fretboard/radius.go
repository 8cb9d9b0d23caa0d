package fretboard

import (
	"math"

	"routwright/geom"
)

// Radius is the curve of the board's surface across the strings: a cylinder
// when both are the same, a cone otherwise, flat when both are 0.
//
// The cone's radius changes evenly along the centre line, R(y), and its crown
// is the straight line z = 0 over the centre line, so at (x, y) the surface
// lies R(y) − √(R(y)² − x²) below the crown. Straight lines in it run through
// the point of the centre line where R would be 0: along such a line x/R is
// constant and the drop is proportional to R. Strings lie in it exactly when
// they meet there, too: radius in the same ratio as the strings' spread.
type Radius struct {
	Nut float64 // at the nut line, mm
	End float64 // at the last slot across the whole board, mm
}

func (r Radius) check(ps *Problems) {
	if r == (Radius{}) {
		return
	}
	ps.within("radius.nut", r.Nut, minRadius, maxRadius, "0 for both leaves the board flat")
	ps.within("radius.end", r.End, minRadius, maxRadius, "0 for both leaves the board flat; the same as at the nut makes a cylinder")
}

// Flat reports whether the board is flat.
func (r Radius) Flat() bool { return r == Radius{} }

// mid returns the height at which slot x crosses the centre line.
func (b *Board) mid(x float64) float64 {
	l := b.across(x)
	t := (0 - l.A.X) / (l.B.X - l.A.X)
	return l.A.Y + t*(l.B.Y-l.A.Y)
}

// RadiusAt returns the surface's radius at height y over the bridge line, +Inf
// on a flat board.
func (b *Board) RadiusAt(y float64) float64 {
	b = b.original()
	r := b.Spec.Radius
	if r.Flat() {
		return math.Inf(1)
	}
	y0, y1 := b.mid(0), b.mid(float64(b.Spec.Frets))
	return r.Nut + (r.End-r.Nut)*(y0-y)/(y0-y1)
}

// Drop returns how far the surface lies under its crown at p, in mm; NaN where
// p lies off the curve altogether.
func (b *Board) Drop(p geom.Point) float64 {
	return Sagitta(b.RadiusAt(p.Y), p.X)
}

// Sagitta returns how far a circle of radius r falls away at x from its crown, mm:
// R − √(R² − x²), with its digits for small x: x²/(R + √…). 0 for an infinite radius,
// NaN beyond the circle.
func Sagitta(r, x float64) float64 {
	if math.IsInf(r, 1) {
		return 0
	}
	return x * x / (r + math.Sqrt(r*r-x*x))
}

// StraightEnd returns the radius at the last slot that lays every string in the
// cone, given the radius at the nut: the radius grows as the strings spread.
func (b *Board) StraightEnd(nut float64) float64 {
	s := b.Spec.Strings
	if s.Nut == 0 {
		return nut
	}
	y0, y1 := b.mid(0), b.mid(float64(b.Spec.Frets))
	f := (y0 - y1) / (y0 - b.bridgeMid())
	return nut * (1 + f*(s.Bridge/s.Nut-1))
}

// bridgeMid returns the height at which the saddle line crosses the centre line,
// which is 0 up to rounding.
func (b *Board) bridgeMid() float64 { return b.BridgeLine.A.Lerp(b.BridgeLine.B, 0.5).Y }

// Hollow returns by how much the surface under string i (1 … count) departs
// from the straight line between its ends at the nut and at the last slot: the
// largest distance up or down over 100 places, mm.
func (b *Board) Hollow(i int) float64 {
	b = b.original()
	l := b.Strings[i-1]
	f1 := b.Spec.Tuning.Fraction(float64(b.Spec.Frets))
	z0, z1 := b.Drop(l.At(0)), b.Drop(l.At(f1))
	worst := 0.0
	for k := 1; k < 100; k++ {
		t := float64(k) / 100
		z := b.Drop(l.At(f1 * t))
		worst = math.Max(worst, math.Abs(z-(z0+t*(z1-z0))))
	}
	return worst
}

// Depth is how deep a slot goes, for a saw guided by the plane of the crown.
type Depth struct {
	Fret             float64
	Radius           float64 // of the surface where the slot crosses the centre line; +Inf when flat
	Width            float64 // of the board along the slot
	Bass, Treble     float64 // drop of the surface at the two ends of the slot
	Crown            float64 // depth of the floor under the crown plane where the surface is highest under the slot
	AtBass, AtTreble float64 // depth of the floor under the crown plane at the ends
}

// Depths returns the sagittas and depths of all slots. The floor follows the
// surface at Spec.Slot.Depth.
func (b *Board) Depths() []Depth {
	b = b.original()
	out := make([]Depth, 0, len(b.Slots))
	d := b.Spec.Slot.Depth
	for _, s := range b.Slots {
		l := s.Line
		top := 0.0
		if l.A.X > 0 || l.B.X < 0 { // a partial slot beside the crown
			top = math.Min(b.Drop(l.A), b.Drop(l.B))
		}
		out = append(out, Depth{
			Fret: s.Fret, Radius: b.RadiusAt(b.mid(s.Fret)), Width: s.Edge.Length(),
			Bass: b.Drop(l.A), Treble: b.Drop(l.B),
			Crown: top + d, AtBass: b.Drop(l.A) + d, AtTreble: b.Drop(l.B) + d,
		})
	}
	return out
}

// checkRadius reports a curve that does not reach the edges.
func (b *Board) checkRadius(ps *Problems) {
	if b.Spec.Radius.Flat() {
		return
	}
	for _, s := range b.Slots {
		for _, p := range [2]geom.Point{s.Edge.A, s.Edge.B} {
			if r := b.RadiusAt(p.Y); !(r > math.Abs(p.X)) {
				ps.add("radius.nut", "at slot %s the radius is %.2f mm, less than half the board, %.2f mm: the surface does not reach the edge; use a larger radius", s.Name(), r, math.Abs(p.X))
				return
			}
		}
	}
}
