package part

import (
	"math"

	"routwright/geom"
)

// Point is a point in space: X and Y seen from the front, Z the depth in mm
// below the finished front.
type Point struct{ X, Y, Z float64 }

// Flat returns the point seen from the front.
func (p Point) Flat() geom.Point { return geom.Pt(p.X, p.Y) }

// Dist returns the distance between two points in mm.
func (p Point) Dist(q Point) float64 {
	return math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) + (p.Z-q.Z)*(p.Z-q.Z))
}

// Lerp returns the point a part t of the way from p to q.
func (p Point) Lerp(q Point, t float64) Point {
	return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y), p.Z + t*(q.Z-p.Z)}
}

// Bore is a drilled hole: a cylinder of diameter D mm about the line from From,
// where the drill enters, to To, where the full diameter ends.
type Bore struct {
	From, To Point
	D        float64
	Words    string // what the hole is for: "neck screw", "ferrule"
}

// Length returns how deep the bore is, along its axis, mm.
func (b Bore) Length() float64 { return b.From.Dist(b.To) }

// Square reports whether the bore runs square to the faces.
func (b Bore) Square() bool { return b.From.X == b.To.X && b.From.Y == b.To.Y }

// Through reports whether the bore opens both faces of a body of the given
// thickness.
func (b Bore) Through(thickness float64) bool {
	lo, hi := min(b.From.Z, b.To.Z), max(b.From.Z, b.To.Z)
	return lo <= 0 && hi >= thickness
}

// Down returns a bore square to the faces at p, entered from face f of a body
// of the given thickness and so deep, mm.
func Down(p geom.Point, f Face, depth, d, thickness float64, words string) Bore {
	from, to := 0.0, depth
	if f == Back {
		from, to = thickness, thickness-depth
	}
	return Bore{From: Point{p.X, p.Y, from}, To: Point{p.X, p.Y, to}, D: d, Words: words}
}

// Nearest returns the point of the axis that lies nearest to p, seen from the
// front, and how steeply the axis runs: depth in mm gained or lost on a mm across,
// +Inf where the bore runs square to the faces.
func (b Bore) Nearest(p geom.Point) (at Point, slope float64) {
	v := b.To.Flat().Sub(b.From.Flat())
	l := v.Len()
	if l == 0 {
		return b.From, math.Inf(1)
	}
	t := max(0, min(1, p.Sub(b.From.Flat()).Dot(v)/(l*l)))
	return b.From.Lerp(b.To, t), math.Abs(b.To.Z-b.From.Z) / l
}
