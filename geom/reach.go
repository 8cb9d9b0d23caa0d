package geom

import "math"

// smoothTurn is the largest turn of a joint that counts as smooth, not as a
// corner of radius 0: what a disc of radius r leaves at a turn φ is r·φ²/8 high,
// here 1.3e-6 mm for r = 10 mm, about Coincident.
const smoothTurn Angle = 1e-3

// Bend is a radius of a boundary and a place where it is found. A sharp corner
// has the radius 0, a boundary that never bends that way +Inf.
type Bend struct {
	Radius float64
	At     Point
}

// TightestRadius returns the smallest radii of the boundary of r in mm. Inside
// ones are those where the boundary turns left round the region: the corners of
// r as a pocket, which a round cutter must fit into. Outside ones are those where
// it turns right: the corners of r as a hole in something that it surrounds. A
// joint that turns by more than 0.001 radian is a corner. Closed loops, O(n).
func TightestRadius(r Region) (inside, outside Bend) {
	inside.Radius, outside.Radius = math.Inf(1), math.Inf(1)
	note := func(left bool, radius float64, at Point) {
		b := &outside
		if left {
			b = &inside
		}
		if radius < b.Radius {
			*b = Bend{radius, at}
		}
	}
	for _, p := range r {
		for i := range p {
			s, prev := &p[i], &p[(i+len(p)-1)%len(p)]
			u, v := prev.Tangent(1), s.Tangent(0)
			turn := math.Atan2(u.Cross(v), u.Dot(v))
			if math.Abs(turn) > float64(smoothTurn) {
				note(turn > 0, 0, s.A)
			}
			if s.Turn != 0 {
				note(s.Turn > 0, s.Radius, s.At(0.5))
			}
		}
	}
	return inside, outside
}

// LargestClearing returns the radius in mm of the largest disc that clears r
// completely, and the place that limits it: the smallest inside radius or the
// middle of the narrowest wall. 0 at a sharp corner and for the empty region.
// Opening r by this radius changes nothing. Cost of LeastWall.
//
// A boundary place is cleared when the disc that touches it from inside lies in
// r. The largest such disc is smallest over the boundary where the curvature is
// largest, or where a disc is held between two opposite places: on the medial
// axis its radius has no other minima.
func LargestClearing(r Region) (radius float64, place Point) {
	if r.Segs() == 0 {
		return 0, Point{}
	}
	in, _ := TightestRadius(r)
	if in.Radius == 0 {
		return 0, in.At
	}
	w, a, b := LeastWall(r)
	if w/2 < in.Radius {
		return w / 2, a.Lerp(b, 0.5)
	}
	return in.Radius, in.At
}
