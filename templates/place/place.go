// Package place finds where keys go over a crack: never where a rule forbids it,
// and of what is allowed the best set.
//
//	Line      a crack with what is known of it
//	Station   a place on it, with the pose of a key there
//	Solve     the best set of stations
package place

import (
	"math"
	"slices"

	"routwright/geom"
)

// Line is a crack as a row of points, with its opening and its true tips.
type Line struct {
	Path    geom.Path // straight pieces, open
	Opening []float64 // mm, at places spread evenly along it; empty: even
	// FirstTip and LastTip say which ends are true tips inside the wood.
	FirstTip, LastTip bool
}

// Length returns the length of the crack in mm.
func (l Line) Length() float64 { return l.Path.Length() }

// At returns the point at s mm along the crack and its direction there. s is
// kept within the crack.
func (l Line) At(s float64) (geom.Point, geom.Vec) {
	for i, e := range l.Path {
		n := e.Length()
		if s <= n || i == len(l.Path)-1 {
			t := 0.0
			if n > 0 {
				t = max(0, min(1, s/n))
			}
			return e.At(t), e.Tangent(t)
		}
		s -= n
	}
	return geom.Point{}, geom.Vec{}
}

// Nearest returns where along the crack it comes nearest to p, and how near, mm.
func (l Line) Nearest(p geom.Point) (s, d float64) {
	d = math.Inf(1)
	var before float64
	for _, e := range l.Path {
		q := e.Closest(p)
		if x := q.Dist(p); x < d {
			d, s = x, before+e.A.Dist(q)
		}
		before += e.Length()
	}
	return s, d
}

// Heading returns the mean direction of the crack within half mm on both sides
// of s: a key spans that much of it.
func (l Line) Heading(s, half float64) geom.Vec {
	a, _ := l.At(max(0, s-half))
	b, _ := l.At(min(l.Length(), s+half))
	if a.Dist(b) < geom.Coincident {
		_, d := l.At(s)
		return d
	}
	return b.Sub(a).Unit()
}

// OpeningAt returns how wide the crack gapes at s mm along it, in mm; 1 where
// nothing was measured or no opening is greater than 0, so that every stretch
// counts alike.
func (l Line) OpeningAt(s float64) float64 {
	n := len(l.Opening)
	if n == 0 || !(slices.Max(l.Opening) > 0) {
		return 1
	}
	if n == 1 || !(l.Length() > 0) {
		return l.Opening[0]
	}
	t := s / l.Length() * float64(n-1)
	i := int(max(0, min(float64(n-2), math.Floor(t))))
	f := max(0, min(1, t-float64(i)))
	return l.Opening[i]*(1-f) + l.Opening[i+1]*f
}

// Station is a place on the crack where a key could go.
type Station struct {
	S     float64 // mm along the crack
	At    geom.Point
	Turn  geom.Angle  // of the key's axis from +X
	Fixed bool        // placed by hand
	Plan  geom.Region // recess at this pose
	Block *Block      // what forbids it; nil when allowed
	// Size tells keys of several sizes apart, 0 for the first. Length is how long
	// this one is, mm; 0 means Rules.KeyLength. Waist is how wide its waist is, for
	// the choice between sizes.
	Size          int
	Length, Waist float64

	box geom.Box // of the plan, once it is known
}

// half returns half of the key's length.
func (s *Station) half(r Rules) float64 {
	if s.Length > 0 {
		return s.Length / 2
	}
	return r.KeyLength / 2
}

// bounds returns the bounds of the plan.
func (s *Station) bounds() geom.Box {
	if s.box == (geom.Box{}) {
		s.box = s.Plan.Bounds()
	}
	return s.box
}

// Block names what forbids a key at a place.
type Block struct {
	By         string  // the part in the way, in words
	Have, Need float64 // mm
}

// Rules are what a set of keys must fulfil and aim at. mm.
type Rules struct {
	KeyLength float64
	Between   float64 // least wood between two keys
	Tip       float64 // a tip is covered by a key no further than this
	Step      float64 // between stations; 0 means 1
	// Allowed tells what forbids a key with this plan; nil allows it. It is asked
	// from several goroutines at once.
	Allowed func(plan geom.Region, at geom.Point) *Block
}

// Set is the best set of keys found.
type Set struct {
	Keys    []Station
	Covered float64   // mm of crack within half a key of an axis
	Weight  float64   // the same, weighted by the opening, mm²
	Tips    int       // tips covered
	Bare    []Stretch // what is left bare, with what blocks it
}

// Stretch is a piece of crack without a key, and what stands in the way.
type Stretch struct {
	From, To float64
	Block    *Block // the nearest to its middle; nil where nothing blocks
}
