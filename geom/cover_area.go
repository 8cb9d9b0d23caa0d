package geom

import (
	"math"
	"slices"
)

// UnionArea returns the area in mm² of the union of discs, exact to rounding.
// O(n² log n).
func UnionArea(discs []Disc) float64 { return unionArea(discs) }

// BareRim returns the angle in radians, 0 to 2π, of the rim of disc i that no other
// disc covers. O(n log n).
func BareRim(discs []Disc, i int) (sum float64) {
	bareArcs(discs, i, nil, func(a, b float64) { sum += b - a })
	return sum
}

// unionArea is UnionArea, by Green's theorem over the pieces of the rims that no
// other disc covers.
func unionArea(discs []Disc) float64 {
	var area float64
	var room [16][2]float64
	for i, d := range discs {
		bareArcs(discs, i, room[:0], func(a, b float64) { area += d.green(a, b) })
	}
	return area
}

// bareArcs calls f with the pieces of the rim of disc i that no other disc covers,
// from angle a to b, counter-clockwise from −π. room is scratch memory.
func bareArcs(discs []Disc, i int, room [][2]float64, f func(a, b float64)) {
	d, cuts := discs[i], room
	for j, e := range discs {
		if i == j {
			continue
		}
		w := e.Center.Sub(d.Center)
		sum := d.Radius + e.Radius
		if w.Dot(w) >= sum*sum {
			continue
		}
		l := w.Len()
		switch {
		case l+d.Radius <= e.Radius && (l+d.Radius < e.Radius || j < i):
			return // d lies in e; of equal ones the first counts
		case l+e.Radius <= d.Radius:
			continue
		}
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
	slices.SortFunc(cuts, func(a, b [2]float64) int {
		if a[0] < b[0] {
			return -1
		}
		return 1
	})
	at := -math.Pi
	for _, c := range cuts {
		if c[0] > at {
			f(at, c[0])
		}
		at = max(at, c[1])
	}
	if at < math.Pi {
		f(at, math.Pi)
	}
}

// green returns ½∮(x·dy − y·dx) along the rim from angle a to b.
func (d Disc) green(a, b float64) float64 {
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	r := d.Radius
	return r / 2 * (r*(b-a) + d.Center.X*(sb-sa) - d.Center.Y*(cb-ca))
}
