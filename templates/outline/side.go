package outline

import (
	"math"

	"routwright/geom"
)

// neckHalf is half the straight end of the body where the neck goes in: half of
// a heel of 56 mm and a little. Common practice, 55.9–57.2 mm.
const neckHalf = 31

// Directions of travel, from the tail up the treble side to the neck.
const (
	east  = 0 * geom.Degree
	north = 90 * geom.Degree
	west  = 180 * geom.Degree
)

// side is one side of a body, seen as the treble side: x is the distance from
// the centre line.
type side struct {
	lower, lowerAt, waist, waistAt, upper, upperAt float64 // half widths and places
	neck                                           float64 // where the body ends at the neck
	horn, cut                                      float64 // beyond and behind the neck's end
	lean                                           float64 // of the tip: 0 over the widest place, 1 over the neck
	full                                           float64 // of the tail: 0.707 an ellipse, more is squarer
	wall                                           float64 // share of the cutaway's width for its wall at the neck
	shoulder                                       bool    // no horn: the outline falls from the neck
}

// bends returns the places that the side passes through, from the tail to the
// neck.
func (s side) bends() []bend {
	b := []bend{
		{at: geom.Pt(0, 0), dir: east, side: 1},
		{at: geom.Pt(s.full*s.lower, (1-s.full)*s.lowerAt), dir: north / 2, free: true},
		{at: geom.Pt(s.lower, s.lowerAt), dir: north, side: 1},
		{at: geom.Pt(s.waist, s.waistAt), dir: north, side: -1},
		{at: geom.Pt(s.upper, s.upperAt), dir: north, side: 1},
	}
	if s.shoulder {
		return append(b, bend{at: geom.Pt(neckHalf, s.neck), dir: west})
	}
	return append(b, s.hornBends()...)
}

// hornBends returns the tip, the bottom of the cutaway and the neck's corner.
func (s side) hornBends() []bend {
	rise := s.horn + s.cut
	// A long horn tapers: its tip moves in as it reaches further than 50 mm.
	lean := s.lean + 0.002*math.Max(0, rise-50)
	tip := s.upper - lean*(s.upper-neckHalf)
	// The wall at the neck takes less of the cutaway's width than the horn's
	// flank, as it rises less.
	share := s.wall + 0.2*s.cut/rise
	bottom := neckHalf + share*(tip-neckHalf)
	return []bend{
		{at: geom.Pt(tip, s.neck+s.horn), dir: west, side: 1},
		{at: geom.Pt(bottom, s.neck-s.cut), dir: west, side: -1},
		{at: geom.Pt(neckHalf, s.neck), dir: west},
	}
}

// join returns the closed chain of cubics of a body: up the treble side, across
// the neck, down the bass side. Both sides leave the tail with one curvature.
func join(treble, bass side) []geom.Cubic {
	t, b := fair(treble.bends(), math.NaN()), fair(bass.bends(), math.NaN())
	if treble != bass {
		k := (curvature(t[0], 0) + curvature(b[0], 0)) / 2
		t, b = fair(treble.bends(), k), fair(bass.bends(), k)
	}
	out := append([]geom.Cubic{}, t...)
	neck := geom.QuadraticCubic(t[len(t)-1][3], geom.Pt(0, treble.neck), mirror(b[len(b)-1])[3])
	out = append(out, neck)
	for i := len(b) - 1; i >= 0; i-- {
		out = append(out, mirror(b[i]).Reversed())
	}
	return out
}

// mirror returns c on the other side of the centre line.
func mirror(c geom.Cubic) geom.Cubic { return c.Transform(geom.Affine{-1, 0, 0, 1, 0, 0}) }
