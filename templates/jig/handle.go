package jig

import (
	"math"

	"routwright/geom"
	"routwright/templates/limit"
)

// Measures of a handle block, mm; common practice.
const (
	// KnobD is the diameter of a knob: the size that a hand closes round.
	KnobD = 40.0
	// knobWood is the block beyond a knob.
	knobWood = 15.0
	// holdWood is the least wood between a screw's shank and the edge of the part.
	holdWood = 3.0
)

// Handle is a block with two knobs that holds a small part over its template on the
// router table. It lies about the middle of the part, whose longer side runs along X,
// as it is seen from above.
type Handle struct {
	// Move brings the part and its template, as they are stored, under the block.
	Move  geom.Transform
	Work  geom.Region // the part, moved
	Guide geom.Region // its template, moved
	Sweep geom.Region // all that the cutter reaches round it, with the part itself
	Block geom.Path
	Knobs [2]geom.Point
	// HandClear is the least distance from the rim of a knob to the cutter, and
	// RimClear from the edge of the block, over the whole path of the cutter.
	HandClear, RimClear float64
}

// Hold returns where two screws hold the part from above: the middles of the widest
// places of its two halves. room is how far the edge of the part is from the nearer
// of them.
func (h Handle) Hold() (at [2]geom.Point, room float64, err error) {
	var c geom.Calc
	b := h.Work.Bounds()
	room = math.Inf(1)
	for i, s := range [2]float64{-1, 1} {
		d := geom.InscribedCircle(c.Intersect(h.Work, geom.Region{geom.Rect(geom.Pt(s*b.W()/2, 0), b.W(), b.H()+2)}))
		at[i], room = d.Center, min(room, d.Radius)
	}
	return at, room, c.Err()
}

// HoldRoom returns the room in mm that a screw of a shank's diameter needs to the
// edge of the part.
func HoldRoom(shank float64) float64 { return shank/2 + holdWood }

// NewHandle returns the block for a part whose cutter, of radius cut, goes with its
// middle along the edge of path: the part and 60 mm all round, long enough for two
// knobs whose rims stay 75 mm from the cutter wherever it goes.
func NewHandle(work, guide, path geom.Region, cut float64) (Handle, error) {
	var c geom.Calc
	b := work.Bounds()
	h := Handle{Move: geom.Translate(geom.Pt(0, 0).Sub(b.Center()))}
	if b.H() > b.W() {
		h.Move = h.Move.Then(geom.Rotate(-90 * geom.Degree))
	}
	h.Work, h.Guide = h.Move.Region(work), h.Move.Region(guide)
	path = h.Move.Region(path)
	h.Sweep = c.Offset(path, cut, geom.Round)
	b = h.Work.Bounds()
	edge := geom.IndexOf(path)
	away := limit.HandClear + KnobD/2 + cut
	// Farther out along the axis the knob is farther from the path: halve.
	lo, hi := 0.0, b.W()+2*away
	for hi-lo > 1e-3 {
		m := (lo + hi) / 2
		clear := true
		for _, x := range [2]float64{-m, m} {
			if _, d := edge.Closest(geom.Pt(x, 0)); d < away || edge.Contains(geom.Pt(x, 0)) {
				clear = false
			}
		}
		if clear {
			hi = m
		} else {
			lo = m
		}
	}
	at := math.Ceil(hi)
	h.Knobs = [2]geom.Point{geom.Pt(-at, 0), geom.Pt(at, 0)}
	long := math.Ceil(max(b.W()/2+limit.HandleRim, at+KnobD/2+knobWood))
	wide := math.Ceil(b.H()/2 + limit.HandleRim)
	h.Block = geom.Rect(geom.Pt(0, 0), 2*long, 2*wide)
	h.HandClear = math.Inf(1)
	for _, k := range h.Knobs {
		_, d := edge.Closest(k)
		h.HandClear = min(h.HandClear, d-KnobD/2-cut)
	}
	h.RimClear = math.Inf(1)
	for _, p := range h.Sweep {
		d, _, _ := geom.PathDistance(h.Block, p)
		h.RimClear = min(h.RimClear, d)
	}
	return h, c.Err()
}
