package fretboard

import "routwright/geom"

// StringLine is one string seen from the front, as a straight line from the nut
// line to its saddle, uncompensated.
type StringLine struct {
	Number      int // from the treble side, 1 first
	Gauge       float64
	Nut, Saddle geom.Point
}

// At returns the point that divides the string at fraction f, 0 at the nut.
func (l StringLine) At(f float64) geom.Point { return l.Nut.Lerp(l.Saddle, f) }

// air returns the gap between neighbouring strings' surfaces for a spread
// between the middles of the outer strings, when all gaps are equal.
func (c Spacing) air(spread float64) float64 {
	free := spread
	for i, g := range c.Gauges {
		if i == 0 || i == c.Count-1 {
			g /= 2
		}
		free -= g
	}
	return free / float64(c.Count-1)
}

// places returns where the strings cross a line, as parts of the spread from
// the bass string (0) to the treble string (1); string 1 first.
func (c Spacing) places(spread float64) []float64 {
	p := make([]float64, c.Count)
	if c.Count == 1 {
		p[0] = 0.5
		return p
	}
	p[0] = 1
	air := 0.0
	if c.EqualGaps {
		air = c.air(spread)
	}
	x := spread
	for i := 1; i < c.Count-1; i++ {
		if c.EqualGaps {
			x -= (c.Gauges[i-1]+c.Gauges[i])/2 + air
			p[i] = x / spread
		} else {
			p[i] = float64(c.Count-1-i) / float64(c.Count-1)
		}
	}
	p[c.Count-1] = 0 // exactly, whatever the sum above came to
	return p
}

// lines returns the strings between the nut line and the saddle line, each
// given by its bass and its treble end.
func (c Spacing) lines(nutBass, nutTreble, saddleBass, saddleTreble geom.Point) []StringLine {
	at, as := c.places(c.Nut), c.places(c.Bridge)
	out := make([]StringLine, c.Count)
	for i := range out {
		out[i] = StringLine{Number: i + 1, Nut: between(nutBass, nutTreble, at[i]), Saddle: between(saddleBass, saddleTreble, as[i])}
		if len(c.Gauges) > i {
			out[i].Gauge = c.Gauges[i]
		}
	}
	return out
}

// between is Lerp with both ends exact.
func between(a, b geom.Point, t float64) geom.Point {
	if t == 1 {
		return b
	}
	return a.Lerp(b, t)
}

// CentreScale returns the distance from the nut line to the bridge line on the
// centre line: the scale of a single-scale board, between the two of a fan.
func (b *Board) CentreScale() float64 {
	b = b.original()
	if !b.Fanned() {
		return b.Spec.Scale
	}
	return b.mid(0) - b.bridgeMid()
}

// Lengths returns the scale length of every string, string 1 first: on a single
// scale all have the one measured on the centre line; a fan's strings have their
// own, along the string.
func (b *Board) Lengths() []float64 {
	out := make([]float64, len(b.Strings))
	for i, l := range b.Strings {
		out[i] = b.Spec.Scale
		if b.Fanned() {
			out[i] = l.Nut.Dist(l.Saddle)
		}
	}
	return out
}
