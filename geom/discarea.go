package geom

import (
	"math"
	"slices"
)

// DiscArea returns the area in mm² that a disc shares with a region, in closed
// form over the edge of both: Green's theorem over the pieces of the region's
// edge inside the disc and of the disc's rim inside the region, all seen from
// the disc's centre. O(n) for each crossing of the rim. Edges that run along the
// rim count by the side on which the region lies.
func DiscArea(d Disc, r Region) float64 {
	if !(d.Radius > 0) {
		return 0
	}
	var cross []float64 // angles of the rim where an edge crosses it
	var twice float64
	var raw [2]Point
	for _, loop := range r {
		for _, s := range loop {
			var n int
			if s.Turn == 0 {
				n = lineCircle(s, d.Center, d.Radius, 0, &raw)
			} else {
				n = circleCircle(s.Center, s.Radius, d.Center, d.Radius, 0, &raw)
			}
			ts, at := [4]float64{0, 1, 1, 1}, 1 // where s is cut in pieces
			for _, p := range raw[:n] {
				if t, on := s.shareAt(p); on {
					ts[at] = t
					at++
					cross = append(cross, float64(p.Sub(d.Center).Angle()))
				}
			}
			if at == 3 && ts[1] > ts[2] {
				ts[1], ts[2] = ts[2], ts[1]
			}
			for i := range at {
				piece := s
				if at > 1 {
					piece = s.between(ts[i], ts[i+1])
				}
				if piece.At(0.5).Dist(d.Center) < d.Radius-Coincident {
					twice += piece.area2(d.Center)
				}
			}
		}
	}
	inside := func(a float64) bool {
		// A little inside the rim, where an edge that runs along it does not decide.
		return r.Contains(d.Center.Add(Angle(a).Unit().Mul(d.Radius - Coincident)))
	}
	slices.Sort(cross)
	if len(cross) == 0 {
		if inside(0.1) {
			twice += 2 * math.Pi * d.Radius * d.Radius
		}
		return twice / 2
	}
	for i, a := range cross {
		b := cross[0] + 2*math.Pi
		if i+1 < len(cross) {
			b = cross[i+1]
		}
		if b-a > 0 && inside((a+b)/2) {
			twice += d.Radius * d.Radius * (b - a)
		}
	}
	return twice / 2
}

// shareAt returns at which share of its length s passes p, a point of its line
// or circle; on is false when p lies beyond its ends.
func (s Seg) shareAt(p Point) (t float64, on bool) {
	if s.Turn == 0 {
		v := s.B.Sub(s.A)
		t = p.Sub(s.A).Dot(v) / v.Dot(v)
		return t, t > 0 && t < 1
	}
	w := float64(p.Sub(s.Center).Angle() - s.A.Sub(s.Center).Angle())
	sweep := float64(s.Sweep())
	if sweep < 0 {
		w, sweep = -w, -sweep
	}
	if w = math.Mod(w, 2*math.Pi); w < 0 {
		w += 2 * math.Pi
	}
	t = w / sweep
	return t, t > 0 && t < 1
}

// between returns the piece of s from the share t to the share u of its length.
func (s Seg) between(t, u float64) Seg {
	s.A, s.B = s.At(t), s.At(u)
	return s
}
