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
}

// curve is a chain of cubics through bends. Its handles, the lengths of the
// control arms in chords, two a span, and the free directions are chosen so that
// the curvature changes as evenly as it can.
type curve struct {
	bends  []bend
	handle [][2]float64
	// start is the curvature that the curve is to start with, NaN if any.
	start float64
}

const (
	// fairPlaces is how many chords measure the curvature of a span.
	fairPlaces = 20
	// fairSweeps is how often every handle is improved; the shape moves less
	// than 0.1 mm in the last ten.
	fairSweeps = 40
	// stiff is the length in mm over which a jump of curvature at a bend counts
	// as a change.
	stiff = 2.0
	// Handles stay in this range of their chord: shorter ones make a corner,
	// longer ones a loop. A third is a straight line.
	shortest, longest = 0.15, 0.85
)

// fair returns the cubics of least ∫(dκ/ds)² through the bends: the minimum
// variation curve of Moreton & Séquin, "Functional optimization for fair surface
// design", SIGGRAPH 1992, among chains of cubics, found by coordinate descent.
// start is the curvature at the first bend, NaN to leave it free.
func fair(bends []bend, start float64) []geom.Cubic {
	c := curve{bends: append([]bend{}, bends...), handle: make([][2]float64, len(bends)-1), start: start}
	for i := range c.handle {
		c.handle[i] = [2]float64{0.4, 0.4}
	}
	step := 0.25
	for k := 0; k < fairSweeps; k++ {
		for i := range c.handle {
			for e := range c.handle[i] {
				c.improve(&c.handle[i][e], i, i, step, shortest, longest)
			}
		}
		for i := range c.bends {
			if c.bends[i].free {
				d := float64(c.bends[i].dir)
				c.improveDir(i, d, step*0.3)
			}
		}
		step *= 0.93
	}
	return c.cubics()
}

// improve moves *x by a factor of 1 ± step if that makes the spans from…to and
// their neighbours fairer.
func (c *curve) improve(x *float64, from, to int, step, lo, hi float64) {
	was := *x
	best, at := c.cost(from-1, to+1), was
	for _, f := range [2]float64{1 + step, 1 / (1 + step)} {
		*x = math.Min(hi, math.Max(lo, was*f))
		if v := c.cost(from-1, to+1); v < best {
			best, at = v, *x
		}
	}
	*x = at
}

// improveDir turns bend i from direction d by ± step if that is fairer.
func (c *curve) improveDir(i int, d, step float64) {
	best, at := c.cost(i-2, i+1), d
	for _, f := range [2]float64{step, -step} {
		c.bends[i].dir = geom.Angle(d + f)
		if v := c.cost(i-2, i+1); v < best {
			best, at = v, d+f
		}
	}
	c.bends[i].dir = geom.Angle(at)
}

// cost returns the unfairness of spans from…to, as far as they exist.
func (c *curve) cost(from, to int) float64 {
	from, to = max(from, 0), min(to, len(c.handle)-1)
	sum, before := 0.0, math.NaN()
	if from == 0 {
		before = c.start
	}
	for i := from; i <= to; i++ {
		u, first, last := unfairness(c.cubic(i))
		sum += u
		if !math.IsNaN(before) {
			sum += (first - before) * (first - before) / stiff
		}
		before = last
	}
	return sum
}

// unfairness returns ∫(dκ/ds)² over a cubic, by chords, and the curvature at its
// ends.
func unfairness(c geom.Cubic) (sum, first, last float64) {
	var prev float64
	var at geom.Point
	for i := 0; i <= fairPlaces; i++ {
		t := float64(i) / fairPlaces
		k, p := curvature(c, t), c.At(t)
		if i == 0 {
			first = k
		} else {
			sum += (k - prev) * (k - prev) / math.Max(p.Dist(at), 1e-3)
		}
		prev, at = k, p
	}
	return sum, first, prev
}

// curvature returns the signed curvature of c at t, positive to the left.
func curvature(c geom.Cubic, t float64) float64 {
	d := c.Deriv(t)
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

func (c *curve) cubics() []geom.Cubic {
	out := make([]geom.Cubic, len(c.handle))
	for i := range out {
		out[i] = c.cubic(i)
	}
	return out
}
