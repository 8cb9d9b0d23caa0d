package jig

import (
	"math"

	"routwright/geom"
	"routwright/templates/drill"
)

// Press is a line across the body along which two clamps press a crack shut.
type Press struct {
	Through geom.Point    // place of the crack
	Along   geom.Vec      // unit, square to the crack there
	Ends    [2]geom.Point // where the line leaves the body: behind Through, and before it
	Skew    geom.Angle    // the greater angle between the line and square to the edge at its ends
}

// pressStep is how far apart the places of a crack lie that are tried, mm.
const pressStep = 2.0

// pressSame is by how much one line must meet the edges squarer than another to be
// better, radians: else the one nearer to the crack's middle is taken.
const pressSame = 0.5 * math.Pi / 180

// Across returns the line square to a crack that meets the body's edges most nearly
// square: clamps on it press the crack, and their cauls do not slide. ok is false
// for a crack outside the outline.
func Across(outline geom.Region, crack geom.Path) (best Press, ok bool) {
	length := crack.Length()
	best.Skew = math.Pi
	far, done := math.Inf(1), 0.0
	for _, s := range crack {
		l := s.Length()
		n := math.Ceil(l / pressStep)
		for i := 0.0; i < n; i++ {
			t := (i + 0.5) / n // never at a bend
			p := s.At(t)
			if !outline.Contains(p) {
				continue
			}
			q, found := across(outline, p, s.Tangent(t).Unit().Left())
			off := math.Abs(done + t*l - length/2)
			if found && (q.Skew < best.Skew-pressSame || q.Skew < best.Skew+pressSame && off < far) {
				best, far, ok = q, off, true
			}
		}
		done += l
	}
	return best, ok
}

// across returns the line through p along u, to where it first leaves the body.
func across(outline geom.Region, p geom.Point, u geom.Vec) (Press, bool) {
	q := Press{Through: p, Along: u}
	for k, way := range [2]float64{-1, 1} {
		ts := drill.Ray(outline, p, u.Mul(way), 0)
		if len(ts) == 0 {
			return q, false
		}
		q.Ends[k] = p.Add(u.Mul(way * ts[0]))
		near := math.Inf(1)
		var skew geom.Angle
		for _, loop := range outline {
			for _, s := range loop {
				at := s.Closest(q.Ends[k])
				if d := at.Dist(q.Ends[k]); d < near {
					near, skew = d, between(squareTo(s, at), u.Mul(-way))
				}
			}
		}
		q.Skew = max(q.Skew, skew)
	}
	return q, true
}
