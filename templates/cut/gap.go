package cut

import (
	"math"

	"routwright/geom"
	"routwright/templates/design"
)

// gapStep is the distance in mm between the places where a gap is looked at
// first. Between two places a gap changes by less than their distance; where it
// may still pass the smallest or the largest one found, it is followed to
// gapFine. In a corner that matters: 0.1 mm along the edge is up to 0.07 mm of
// gap there.
const (
	gapStep = 0.1
	gapFine = 1e-5 // along the edge, mm
)

// Gap returns the gap between a key and its recess all round the key: the
// distance from places on the key's edge to the recess's edge, negative where
// the key stands outside the recess. The mean is over the length of the edge.
// O(places · log segments).
func Gap(key, recess geom.Region) Range {
	g := gauge{edge: geom.IndexOf(recess), Range: Range{Min: math.Inf(1), Max: math.Inf(-1)}}
	var sum, length float64
	for _, loop := range key {
		for _, s := range loop {
			n := s.Length()
			sum += n * g.along(s)
			length += n
		}
	}
	if length == 0 {
		return Range{}
	}
	g.Mean = sum / length
	return g.Range
}

// gauge measures gaps to an edge and keeps the extremes.
type gauge struct {
	edge *geom.Index
	ds   []float64
	Range
}

// at returns the gap at p.
func (g *gauge) at(p geom.Point) float64 {
	_, d := g.edge.Closest(p)
	if !g.edge.Contains(p) {
		d = -d
	}
	if d < g.Min {
		g.Min, g.AtMin = d, p
	}
	if d > g.Max {
		g.Max, g.AtMax = d, p
	}
	return d
}

// along measures a segment and returns its mean gap.
func (g *gauge) along(s geom.Seg) float64 {
	n := int(math.Ceil(s.Length()/gapStep)) + 1
	h := s.Length() / float64(n)
	g.ds = g.ds[:0]
	var sum float64
	for i := 0; i <= n; i++ {
		d := g.at(s.At(float64(i) / float64(n)))
		g.ds = append(g.ds, d)
		if i == 0 || i == n {
			d /= 2
		}
		sum += d
	}
	for i, d := range g.ds {
		before, after := g.ds[max(i-1, 0)], g.ds[min(i+1, n)]
		if d+h > g.Max && peak(d-before, d-after) {
			g.follow(s, i, n, 1)
		}
		if d-h < g.Min && peak(before-d, after-d) {
			g.follow(s, i, n, -1)
		}
	}
	return sum / float64(n)
}

// peak reports whether a place stands out over its neighbours, by more than
// rounding over one of them.
func peak(over, under float64) bool {
	const rounding = 1e-9 // mm
	return math.Min(over, under) >= -rounding && math.Max(over, under) > rounding
}

// follow looks for the largest (sign 1) or smallest gap between the neighbours of
// place i of n, where there is one only, by thirds.
func (g *gauge) follow(s geom.Seg, i, n int, sign float64) {
	a, b := float64(max(i-1, 0))/float64(n), float64(min(i+1, n))/float64(n)
	for (b-a)*s.Length() > gapFine {
		c, d := a+(b-a)/3, b-(b-a)/3
		if sign*g.at(s.At(c)) < sign*g.at(s.At(d)) {
			a = c
		} else {
			b = d
		}
	}
}

// Words prints the range in mm, once where both ends are printed alike.
func (r Range) Words() string {
	lo, hi := design.MM(r.Min), design.MM(r.Max)
	if lo == hi {
		return lo + " mm"
	}
	return lo + " to " + hi + " mm"
}
