package geom

import "math"

const (
	straightShare = 0.3  // of the edges' weight that must agree for them to say how a region lies
	roundShare    = 1e-6 // second moments nearer than this share of their sum are alike
)

// MainDirection returns how a region lies, from 0 up to 180°: along the direction in
// which its straight edges run, or square to it, whichever is nearer to the long
// axis of its area; along that axis where the edges run in all directions. Edges
// count with the square of their length. A square lies along its sides, a round
// region at 0.
func MainDirection(r Region) Angle {
	m := r.Moments()
	// Edges at right angles to each other agree: four times the angle.
	var sum Vec
	var all float64
	for _, p := range r {
		for _, e := range p {
			if e.IsArc() {
				continue
			}
			v := e.B.Sub(e.A)
			w := v.Dot(v)
			sum, all = sum.Add((4 * v.Angle()).Unit().Mul(w)), all+w
		}
	}
	axis := Angle(math.Atan2(2*m.Ixy, m.Iyy-m.Ixx) / 2)
	round := math.Hypot(2*m.Ixy, m.Iyy-m.Ixx) <= roundShare*(m.Ixx+m.Iyy)
	at := axis
	switch {
	case all > 0 && sum.Len() >= straightShare*all:
		at = sum.Angle() / 4
		if !round {
			at += Angle(math.Round(float64(axis-at)/(math.Pi/2)) * math.Pi / 2)
		}
	case round:
		return 0
	}
	a := math.Mod(float64(at), math.Pi)
	if a < -Coincident {
		a += math.Pi
	}
	if a > math.Pi-Coincident || a < 0 {
		a = 0
	}
	return Angle(a)
}
