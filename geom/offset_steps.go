package geom

import (
	"errors"
	"math"
)

// errTangled asks for an offset in steps.
var errTangled = errors.New("the offset curve crosses itself too often")

// tangle counts what makes an offset curve cross itself often: the corners that
// are led back over their vertex, and the lines of which nothing is left next to
// an outside corner, which are of a hollow narrower than the distance. Each leaves
// a spur about as long as that, which meets the spurs as near along the outline.
type tangle struct {
	spurs  int
	length float64 // of the source, mm
}

// tooMuch reports whether a curve of n segments at the distance d has so many
// crossings that they cost more than the steps.
func (t tangle) tooMuch(d float64, n int) bool {
	share := min(1, 2*math.Abs(d)/t.length)
	return share*float64(t.spurs)*float64(t.spurs) > float64(crossingsOfSeg*n+2000)
}

// crossingsOfSeg is the number of crossings for each segment from which steps are
// faster (BenchmarkNoise).
const crossingsOfSeg = 4

// The steps go to these shares of the distance: the first is so small that corners
// are trimmed, not led back, and each is half as much again, so that the
// hollows of one are gone before the next is moved past them.
const (
	firstStep = 1.0 / 256
	nextStep  = 1.5
)

// inSteps returns r moved by d, as Offset with round joins does, in several steps:
// to grow by a disc and then by another is to grow by one of the sum of their
// radii, and so is to shrink. What it returns is measured on r from vertex to
// vertex; it reports false where that fails or a step took a fallback.
func (c *Calc) inSteps(r Region, d float64) (Region, bool) {
	before := c.Fallbacks
	o, at := r, 0.0
	for f := firstStep; ; f *= nextStep {
		if f*(1+nextStep)/2 > 1 {
			f = 1
		}
		o = c.solve(c.offsetTask(o, f*d-at, Round))
		if at = f * d; f == 1 {
			break
		}
	}
	if c.err == nil && c.Fallbacks == before && c.measured(r, o, d, Round, attempt{spurs: true}) == nil {
		return o, true
	}
	c.err, c.Fallbacks = nil, before
	return nil, false
}
