package outline

import (
	"math"

	"routwright/geom"
)

// bend is a place that an outline passes through, in a direction.
type bend struct {
	at   geom.Point
	dir  geom.Angle
	free bool // the direction may be changed for a fairer curve
	// side is +1 where the curve must bend to the left, −1 to the right, so that
	// the place is the widest or narrowest of its neighbourhood; 0 if it may do
	// either.
	side float64
}

// curve is a chain of cubics through bends. Its handles, the lengths of the
// control arms in chords, two a span, and the free directions are chosen so that
// the curvature changes as evenly as it can.
type curve struct {
	bends  []bend
	handle [][2]float64
	spans  []span
	// start is the curvature that the curve is to start with, NaN if any.
	start float64
}

// span is what fairness needs of a cubic: ∫(dκ/ds)² and the curvature at its ends.
type span struct{ change, first, last float64 }

const (
	// fairPlaces is how many chords measure the curvature of a span.
	fairPlaces = 14
	// fairSweeps is how often every handle is improved; the shape moves less
	// than 0.1 mm in the last ten.
	fairSweeps = 28
	// stiff is the length in mm over which a jump of curvature at a bend counts
	// as a change.
	stiff = 2.0
	// leastBend is the curvature in 1/mm that a bend with a side keeps.
	leastBend = 1.0 / 1500
	// Handles stay in this range of their chord: shorter ones make a corner,
	// longer ones a loop. A third is a straight line.
	shortest, longest = 0.15, 0.85
)

// fair returns the cubics of least ∫(dκ/ds)² through the bends: the minimum
// variation curve of Moreton & Séquin, "Functional optimization for fair surface
// design", SIGGRAPH 1992, among chains of cubics, found by coordinate descent.
// start is the curvature at the first bend, NaN to leave it free.
func fair(bends []bend, start float64) []geom.Cubic {
	n := len(bends) - 1
	c := curve{bends: append([]bend{}, bends...), handle: make([][2]float64, n), spans: make([]span, n), start: start}
	for i := range c.handle {
		c.handle[i] = [2]float64{0.4, 0.4}
	}
	for i := range c.spans {
		c.spans[i] = measured(c.cubic(i))
	}
	step := 0.25
	for k := 0; k < fairSweeps; k++ {
		for i := range c.handle {
			for e := range c.handle[i] {
				x := &c.handle[i][e]
				low, high := math.Max(shortest, *x/(1+step)), math.Min(longest, *x*(1+step))
				c.improve(x, i, i, low, high)
			}
		}
		for i := range c.bends {
			if c.bends[i].free {
				d := (*float64)(&c.bends[i].dir)
				c.improve(d, i-1, i, *d-0.3*step, *d+0.3*step)
			}
		}
		step *= 0.9
	}
	out := make([]geom.Cubic, n)
	for i := range out {
		out[i] = c.cubic(i)
	}
	return out
}

// improve sets *x, on which the spans from…to hang, to a or b if that is fairer.
func (c *curve) improve(x *float64, from, to int, a, b float64) {
	from, to = max(from, 0), min(to, len(c.spans)-1)
	was := *x
	best, at := c.cost(from, to), was
	var keep, kept [2]span
	copy(kept[:], c.spans[from:to+1])
	for _, v := range [2]float64{a, b} {
		*x = v
		for i := from; i <= to; i++ {
			c.spans[i] = measured(c.cubic(i))
		}
		copy(keep[:], c.spans[from:to+1])
		if v := c.cost(from, to); v < best {
			best, at, kept = v, *x, keep
		}
	}
	*x = at
	copy(c.spans[from:to+1], kept[:])
}

// cost returns the unfairness of the spans from…to and of the bends at their
// ends.
func (c *curve) cost(from, to int) float64 {
	sum := 0.0
	for i := from; i <= to; i++ {
		sum += c.spans[i].change
	}
	for i := from; i <= to+1; i++ {
		before, after := c.start, math.NaN()
		if i > 0 {
			before = c.spans[i-1].last
		}
		if i < len(c.spans) {
			after = c.spans[i].first
		}
		if d := after - before; !math.IsNaN(d) {
			sum += d * d / stiff
		}
		if s := c.bends[i].side; s != 0 {
			for _, k := range [2]float64{before, after} {
				if d := leastBend - s*k; d > 0 {
					sum += 100 * d * d / stiff
				}
			}
		}
	}
	return sum
}

// measured returns what fairness needs of c.
func measured(c geom.Cubic) span {
	var s span
	var at geom.Point
	for i := 0; i <= fairPlaces; i++ {
		t := float64(i) / fairPlaces
		k, p := curvature(c, t), c.At(t)
		if i == 0 {
			s.first = k
		} else {
			s.change += (k - s.last) * (k - s.last) / math.Max(p.Dist(at), 1e-3)
		}
		s.last, at = k, p
	}
	return s
}

// curvature returns the signed curvature of c at t, positive to the left.
func curvature(c geom.Cubic, t float64) float64 {
	u := 1 - t
	d := c[1].Sub(c[0]).Mul(3 * u * u).Add(c[2].Sub(c[1]).Mul(6 * u * t)).Add(c[3].Sub(c[2]).Mul(3 * t * t))
	a := c[2].Sub(c[1]).Sub(c[1].Sub(c[0])).Mul(6 * (1 - t))
	b := c[3].Sub(c[2]).Sub(c[2].Sub(c[1])).Mul(6 * t)
	l := d.Len()
	return d.Cross(a.Add(b)) / (l * l * l)
}

func (c *curve) cubic(i int) geom.Cubic {
	a, b := c.bends[i], c.bends[i+1]
	l := a.at.Dist(b.at)
	return geom.Cubic{
		a.at, a.at.Add(a.dir.Unit().Mul(c.handle[i][0] * l)),
		b.at.Add(b.dir.Unit().Mul(-c.handle[i][1] * l)), b.at,
	}
}
