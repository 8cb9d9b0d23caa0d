package jig

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/cut"
)

// edgeReach is how far the horns of a block reach round the body's edge past the
// middle of its face, mm: more cannot be put on from outside. Common practice.
const edgeReach = 30.0

// edgeStep is how far apart the places lie at which the gap is measured, mm.
const edgeStep = 0.5

// Edge is a block of sheet whose inside follows the body's edge at a distance, and
// whose outside is flat and square to the way that it is pressed.
type Edge struct {
	At   geom.Point  // place of the body's edge before the middle of the block
	In   geom.Vec    // unit, from the block into the body, square to the flat outside
	Span float64     // along the flat outside
	Deep float64     // from the flat outside to the middle of the face
	Gap  float64     // what lies between face and body: a lining; 0 without one
	Plan geom.Region // of the block
	// Skew is the angle between In and square to the edge at At.
	Skew geom.Angle
	// Fit is the distance from the body's edge to the face, measured every half
	// millimetre before the block: least, largest and mean.
	Fit cut.Range
}

// Flat returns the ends of the flat outside.
func (e Edge) Flat() (a, b geom.Point) {
	m := e.At.Add(e.In.Mul(-e.Deep - e.Gap))
	s := e.In.Left().Mul(e.Span / 2)
	return m.Add(s), m.Add(s.Neg())
}

// Size returns how long and how wide the block is, along its flat outside and square
// to it.
func (e Edge) Size() (long, wide float64) {
	b := geom.Rotate(-e.In.Angle()).Region(e.Plan).Bounds()
	return b.H(), b.W()
}

// Along returns the block that lies against an outline at a place of its edge and
// is pressed along in: the rectangle outside it, less the outline grown by gap. The
// error says why there is none.
func Along(outline geom.Region, at geom.Point, in geom.Vec, span, deep, gap float64) (Edge, error) {
	e := Edge{At: at, In: in.Unit(), Span: span, Deep: deep, Gap: gap}
	var c geom.Calc
	grown := outline
	if gap > 0 {
		grown = c.Offset(outline, gap, geom.Round)
	}
	place := geom.Pose(at, e.In.Angle())
	back := -gap - deep
	box := place.Region(geom.Region{geom.Rect(geom.Pt((back+edgeReach)/2, 0), edgeReach-back, span)})
	const inside = 0.5 // mm, from a corner of the flat outside
	for _, piece := range c.Subtract(box, grown).Components() {
		if piece.Contains(place.Point(geom.Pt(back+inside, 0))) &&
			piece.Contains(place.Point(geom.Pt(back+inside, span/2-inside))) && piece.Contains(place.Point(geom.Pt(back+inside, inside-span/2))) {
			e.Plan = piece
		}
	}
	if err := c.Err(); err != nil {
		return e, err
	}
	if e.Plan.Empty() || len(e.Plan) > 1 {
		return e, fmt.Errorf("no block of %g mm lies against the edge at x %.2f, y %.2f: its flat outside would cut into the body", span, at.X, at.Y)
	}
	e.Skew = math.Pi / 2
	near := math.Inf(1)
	for _, loop := range outline {
		for _, s := range loop {
			q := s.Closest(at)
			if d := q.Dist(at); d < near {
				near, e.Skew = d, between(squareTo(s, q), e.In)
			}
		}
	}
	e.Fit = e.fit(outline)
	return e, nil
}

// squareTo returns the unit vector into the solid, square to a segment at a point
// on it.
func squareTo(s geom.Seg, q geom.Point) geom.Vec {
	if !s.IsArc() {
		return s.B.Sub(s.A).Unit().Left()
	}
	return q.Sub(s.Center).Unit().Mul(-float64(s.Turn))
}

// between returns the angle between two unit vectors, 0 to π.
func between(a, b geom.Vec) geom.Angle {
	return geom.Angle(math.Atan2(math.Abs(a.Cross(b)), a.Dot(b)))
}

// fit walks along the body's edge both ways from the middle of the face to the ends
// of the block, and measures to the face.
func (e Edge) fit(outline geom.Region) cut.Range {
	var loop []geom.Point
	at, near := 0, math.Inf(1)
	for _, path := range outline {
		var ps []geom.Point
		first := near
		for _, s := range path {
			n := math.Ceil(s.Length() / edgeStep)
			for i := 0.0; i < n; i++ {
				p := s.At(i / n)
				if d := p.Dist(e.At); d < near {
					near, at = d, len(ps)
				}
				ps = append(ps, p)
			}
		}
		if near < first {
			loop = ps
		}
	}
	face := geom.IndexOf(e.Plan)
	r := cut.Range{Min: math.Inf(1)}
	count := 0
	before := func(p geom.Point) bool { // the block lies before it, its lining too
		v := p.Sub(e.At)
		return math.Abs(v.Dot(e.In.Left())) <= e.Span/2-e.Gap && v.Dot(e.In) <= edgeReach-e.Gap
	}
	look := func(p geom.Point) {
		_, d := face.Closest(p)
		if d < r.Min {
			r.Min, r.AtMin = d, p
		}
		if d > r.Max {
			r.Max, r.AtMax = d, p
		}
		r.Mean += d
		count++
	}
	for _, way := range [2]int{1, len(loop) - 1} {
		for i, n := at, 0; n < len(loop) && before(loop[i]); i, n = (i+way)%len(loop), n+1 {
			if way == 1 || n > 0 { // the middle once
				look(loop[i])
			}
		}
	}
	if count > 0 {
		r.Mean /= float64(count)
	}
	return r
}
