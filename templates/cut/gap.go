package cut

import (
	"math"

	"routwright/geom"
)

// gapStep is the distance in mm between the places where a gap is measured: the
// gap between two curves of radius 1 or more changes by less than
// step²/(8·1) = 0.001 mm between two of them.
const gapStep = 0.1

// Gap returns the gap between a key and its recess all round the key: the
// distance from places on the key's edge to the recess's edge, negative where
// the key stands outside the recess. O(places · log segments).
func Gap(key, recess geom.Region) Range {
	g := Range{Min: math.Inf(1), Max: math.Inf(-1)}
	edge := geom.IndexOf(recess)
	var sum float64
	n := 0
	for _, loop := range key {
		for _, s := range loop {
			steps := int(math.Ceil(s.Length()/gapStep)) + 1
			for i := 0; i < steps; i++ {
				p := s.At(float64(i) / float64(steps))
				_, d := edge.Closest(p)
				if !edge.Contains(p) {
					d = -d
				}
				if d < g.Min {
					g.Min, g.AtMin = d, p
				}
				if d > g.Max {
					g.Max, g.AtMax = d, p
				}
				sum += d
				n++
			}
		}
	}
	if n == 0 {
		return Range{}
	}
	g.Mean = sum / float64(n)
	return g
}
