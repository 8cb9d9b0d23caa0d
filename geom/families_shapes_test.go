package geom

import (
	"math"
	"math/rand"
)

// randomLoop returns a star-shaped loop with lines and arcs.
func randomLoop(rng *rand.Rand, c Point, size float64) Path {
	n := 3 + rng.Intn(12)
	ps := make([]Point, n)
	for i := range ps {
		a := Angle(2 * math.Pi * (float64(i) + 0.7*rng.Float64()) / float64(n))
		ps[i] = c.Add(a.Unit().Mul(size * (0.3 + 0.7*rng.Float64())))
	}
	p := make(Path, n)
	for i := range ps {
		a, b := ps[i], ps[(i+1)%n]
		if rng.Intn(2) == 0 {
			p[i] = Line(a, b)
		} else {
			p[i] = ArcBulge(a, b, 0.3*(rng.Float64()-0.5))
		}
	}
	return p
}
