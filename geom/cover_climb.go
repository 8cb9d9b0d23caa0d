package geom

import "math"

const (
	climbSteps = 24   // for each disc
	climbFirst = 1.0  // mm
	climbLast  = 0.03 // mm: below this a step is not worth a rule
)

// climb moves discs uphill on the exact area of their union, each in turn along its
// own gradient, and keeps each at a place where it may be.
func (s *coverSearch) climb(discs []Disc) {
	steps := make([]float64, len(discs))
	for i := range steps {
		steps[i] = climbFirst
	}
	rounds := climbSteps
	if len(discs) > coverMany {
		rounds = 6
	}
	for range rounds {
		moving := false
		for i, was := range discs {
			if steps[i] < climbLast {
				continue
			}
			g := bareRim(discs, i)
			if g.Len() < Coincident {
				steps[i] = 0
				continue
			}
			if to, ok := s.allowed(was.Center.Add(g.Unit().Mul(steps[i])), discs, i); ok && gainOf(discs, i, to) > 0 {
				discs[i].Center, moving = to, true
				steps[i] *= 1.4
				continue
			}
			steps[i] /= 2
			moving = moving || steps[i] >= climbLast
		}
		if !moving {
			return
		}
	}
}

// allowed returns the place near p where disc i may be, between the edge of the
// region and the other discs; ok is false where there is none close by.
func (s *coverSearch) allowed(p Point, discs []Disc, i int) (q Point, ok bool) {
	d := discs[i]
	for range 4 {
		if !s.fits(p, d.Radius) {
			edge := s.edgeOf(d.Radius)
			if edge == nil {
				return p, false
			}
			p, _ = edge.Closest(p)
		}
		free := true
		for k, e := range discs {
			if k == i || s.seated(Disc{p, d.Radius}, e) {
				continue
			}
			free = false
			away := p.Sub(e.Center)
			if away.Len() < Coincident {
				return p, false
			}
			p = e.Center.Add(away.Unit().Mul(min(d.Radius, e.Radius) + s.Seat))
		}
		if free && s.fits(p, d.Radius) {
			return p, true
		}
	}
	return p, false
}

func (s *coverSearch) edgeOf(radius float64) *Index {
	for i, r := range s.radii {
		if r == radius {
			return s.edges[i]
		}
	}
	return nil
}

// gainOf returns by how much the area of the union grows where disc i moves to p:
// only the discs that it meets before or after have a part in it.
func gainOf(discs []Disc, i int, p Point) float64 {
	d := discs[i]
	var room [24]Disc
	near := append(room[:0], d)
	for k, e := range discs {
		if k != i && (d.Center.Dist(e.Center) < d.Radius+e.Radius || p.Dist(e.Center) < d.Radius+e.Radius) {
			near = append(near, e)
		}
	}
	was := unionArea(near)
	near[0].Center = p
	return unionArea(near) - was
}

// bareRim returns the gradient of the area of the union in the centre of disc i:
// the integral of the outward normal over the part of its rim that no other disc
// covers.
func bareRim(discs []Disc, i int) Vec {
	var g Vec
	r := discs[i].Radius
	bareArcs(discs, i, nil, func(a, b float64) {
		sa, ca := math.Sincos(a)
		sb, cb := math.Sincos(b)
		g = g.Add(Vec{r * (sb - sa), r * (ca - cb)})
	})
	return g
}
