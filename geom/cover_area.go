package geom

import (
	"math"
	"slices"
)

// unionArea returns the area in mm² of the union of discs, by Green's theorem
// over the pieces of the rims that no other disc covers. O(n² log n).
func unionArea(discs []Disc) float64 {
	var area float64
	var cuts [][2]float64
	for i, d := range discs {
		cuts = cuts[:0]
		hidden := false
		for j, e := range discs {
			if i == j {
				continue
			}
			w := e.Center.Sub(d.Center)
			l := w.Len()
			switch {
			case l+d.Radius <= e.Radius && (l+d.Radius < e.Radius || j < i):
				hidden = true // d lies in e; of equal ones the first counts
			case l >= d.Radius+e.Radius || l+e.Radius <= d.Radius:
			default:
				// The rim of d lies in e within ±h of the direction to e.
				x := (l*l + d.Radius*d.Radius - e.Radius*e.Radius) / (2 * l * d.Radius)
				h := math.Acos(max(-1, min(1, x)))
				a := float64(w.Angle())
				lo, hi := a-h, a+h
				if lo < -math.Pi {
					cuts = append(cuts, [2]float64{lo + 2*math.Pi, math.Pi})
					lo = -math.Pi
				}
				if hi > math.Pi {
					cuts = append(cuts, [2]float64{-math.Pi, hi - 2*math.Pi})
					hi = math.Pi
				}
				cuts = append(cuts, [2]float64{lo, hi})
			}
		}
		if hidden {
			continue
		}
		slices.SortFunc(cuts, func(a, b [2]float64) int {
			if a[0] < b[0] {
				return -1
			}
			return 1
		})
		at := -math.Pi
		for _, c := range cuts {
			if c[0] > at {
				area += d.green(at, c[0])
			}
			at = max(at, c[1])
		}
		if at < math.Pi {
			area += d.green(at, math.Pi)
		}
	}
	return area
}

// green returns ½∮(x·dy − y·dx) along the rim from angle a to b.
func (d Disc) green(a, b float64) float64 {
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	r := d.Radius
	return r / 2 * (r*(b-a) + d.Center.X*(sb-sa) - d.Center.Y*(cb-ca))
}
