package fretboard

import (
	"math"

	"routwright/geom"
)

// EdgeGap is the distance from a string to the edge of the board beside it.
type EdgeGap struct {
	Fret   float64
	String int
	MM     float64 // from the string's surface (its middle where no gauge is given), square to the edge
}

// EdgeGaps returns the gaps of the two outer strings at the nut and at every
// whole slot. Check 32: under 2 mm the string slips off the fret ends, under
// 2.5 mm it may (common practice).
func (b *Board) EdgeGaps() []EdgeGap {
	b = b.original()
	var out []EdgeGap
	for i := 0; i <= b.Spec.Frets; i++ {
		f := b.Spec.Tuning.Fraction(float64(i))
		bass, treble := b.Bass(), b.Treble()
		out = append(out,
			EdgeGap{float64(i), bass.Number, inside(b.BassEdge, bass.At(f), 1) - bass.Gauge/2},
			EdgeGap{float64(i), treble.Number, inside(b.TrebleEdge, treble.At(f), -1) - treble.Gauge/2})
	}
	return out
}

// inside returns the distance from p to the unbounded edge line, positive when
// p lies on side side of it (+1 left of its run, −1 right).
func inside(edge geom.Seg, p geom.Point, side float64) float64 {
	return side * edge.B.Sub(edge.A).Unit().Cross(p.Sub(edge.A))
}

// SlotError is how far a slot lies from its formula at one outer string.
type SlotError struct {
	Fret      float64
	Bass      bool    // at the bass string, otherwise the treble string
	Got, Want float64 // from the nut
	Off       float64 // Got − Want, mm
}

// SlotErrors measures where the drawn slots cross the outer strings and compares
// with distances worked out afresh, by another road than New's: step by step
// from fret to fret, each step taking the same part of what remains to the
// bridge, the part found by repeated square roots of 2 (for a
// list, from the ratio of neighbouring intervals). Check 47: over 0.02 mm a slot
// is wrong. Slots in whole frets only, those under both outer strings.
func (b *Board) SlotErrors() []SlotError {
	want := b.Spec.Tuning.stepwise(b.Spec.Frets + b.Spec.Extra.Frets)
	bass, treble := b.Scales()
	var out []SlotError
	for _, s := range b.Slots {
		i := int(s.Fret)
		if float64(i) != s.Fret || i >= len(want) {
			continue
		}
		for k, ref := range b.ref {
			l := bass
			if k == 1 {
				l = treble
			}
			_, u, ok := meet(s.Line, geom.Line(ref.Nut, ref.Saddle))
			e := SlotError{Fret: s.Fret, Bass: k == 0, Got: math.NaN(), Want: l * want[i]}
			if ok {
				e.Got = u * ref.Nut.Dist(ref.Saddle)
			}
			if ok && !b.Fanned() { // measured on the centre line, not along a slanting string
				e.Got = u * math.Abs(ref.Nut.Y-ref.Saddle.Y)
			}
			e.Off = e.Got - e.Want
			out = append(out, e)
		}
	}
	return out
}

// stepwise returns the fractions from the nut to frets 0 … last. It shares no
// formula with Fraction.
func (t Temperament) stepwise(last int) []float64 {
	n := t.Steps()
	part := make([]float64, n) // of what remains, taken by step i of the octave
	for i := range part {
		octaves := 1 / float64(n)
		if t.list != nil {
			octaves = t.list[i+1] - t.list[i]
		}
		part[i] = 1 - 1/halfPower(octaves)
	}
	out := make([]float64, last+1)
	for i := 1; i <= last; i++ {
		out[i] = out[i-1] + (1-out[i-1])*part[(i-1)%n]
	}
	return out
}

// halfPower returns 2^x for 0 ≤ x ≤ 1 by repeated square roots: the binary
// digits of x choose which roots of 2 to multiply.
func halfPower(x float64) float64 {
	p, root := 1.0, 2.0
	for i := 0; i < 60; i++ {
		if x >= 1 {
			p, x = p*root, x-1
		}
		x, root = 2*x, math.Sqrt(root)
	}
	return p
}
