package fretboard

import "routwright/geom"

// Marker is one position marker on the board's face.
type Marker struct {
	Fret     int // it lies between this slot and the one before it
	At       geom.Point
	Diameter float64
}

// markersTwelve are the places of twelve equal steps that carry a marker
// (common practice, no single published source): one at 3, 5, 7, 9, two at 12,
// and the same again in each octave.
var markersTwelve = map[int]int{3: 1, 5: 1, 7: 1, 9: 1, 0: 2}

// Markers returns the position markers by convention: one on the centre line at
// frets 3, 5, 7 and 9 of each octave and two at the octave, midway between the
// slots. Where the octave has other than 12 steps, or a multiple of 12, there is
// no convention and only the octaves are marked. The pair lies a quarter of the
// outer strings' spread to either side. diameter 0 means 6 mm.
func (b *Board) Markers(diameter float64) []Marker {
	if diameter == 0 {
		diameter = CommonMarker
	}
	left := b.right != nil
	b = b.original()
	n := b.Spec.Tuning.Steps()
	var out []Marker
	for i := 1; i <= b.Spec.Frets; i++ {
		count := 0
		switch {
		case n%12 == 0 && i%(n/12) == 0:
			count = markersTwelve[i/(n/12)%12]
		case i%n == 0:
			count = 2
		}
		if count == 0 {
			continue
		}
		p, q := b.across(float64(i-1)), b.across(float64(i))
		at := func(t float64) geom.Point { // t of the way from bass to treble string
			return p.A.Lerp(p.B, t).Lerp(q.A.Lerp(q.B, t), 0.5)
		}
		if count == 1 {
			out = append(out, Marker{i, at(0.5), diameter})
			continue
		}
		out = append(out, Marker{i, at(0.25), diameter}, Marker{i, at(0.75), diameter})
	}
	if left {
		for i := range out {
			out[i].At = geom.MirrorX().Point(out[i].At)
		}
	}
	return out
}
