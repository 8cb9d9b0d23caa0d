package geom

import (
	"fmt"
	"math"
	"sort"
)

// NURBS is a non-uniform rational B-spline. It has len(Points) + Degree + 1
// knots, not falling, none inside more than Degree times. Nil Weights are all 1.
// The curve runs over the knots from number Degree to number len(Points) (counted
// from 0), which the parameters 0 to 1 stand for. Call Check before use: a NURBS
// that fails it has NaN points.
type NURBS struct {
	Degree  int
	Knots   []float64
	Weights []float64
	Points  []Point
}

// maxDegree bounds the degree of a spline: more than drawing programs write.
const maxDegree = 25

// Check returns nil when n can be evaluated, else what is wrong with it.
func (n NURBS) Check() error {
	p, m := n.Degree, len(n.Points)
	switch {
	case p < 1 || p > maxDegree:
		return fmt.Errorf("spline of degree %d; allowed: 1 to %d", p, maxDegree)
	case m < p+1:
		return fmt.Errorf("spline with %d control points; degree %d needs %d or more", m, p, p+1)
	case len(n.Knots) != m+p+1:
		return fmt.Errorf("spline with %d knots; %d control points of degree %d need %d", len(n.Knots), m, p, m+p+1)
	case n.Weights != nil && len(n.Weights) != m:
		return fmt.Errorf("spline with %d weights for %d control points", len(n.Weights), m)
	}
	for i, q := range n.Points {
		if !q.IsFinite() {
			return fmt.Errorf("spline: control point %d is not a finite number", i+1)
		}
	}
	for i, w := range n.Weights {
		if !(w > 0) || math.IsInf(w, 1) {
			return fmt.Errorf("spline: weight %d is %g; allowed: more than 0", i+1, w)
		}
	}
	return n.checkKnots()
}

func (n NURBS) checkKnots() error {
	p, m := n.Degree, len(n.Points)
	run := 0
	for i, k := range n.Knots {
		if i > 0 && k == n.Knots[i-1] {
			run++
		} else {
			run = 1
		}
		switch {
		case !isFinite(k):
			return fmt.Errorf("spline: knot %d is not a finite number", i+1)
		case i > 0 && k < n.Knots[i-1]:
			return fmt.Errorf("spline: knot %d is %g, less than %g before it", i+1, k, n.Knots[i-1])
		case run > p && k > n.Knots[p] && k < n.Knots[m]:
			return fmt.Errorf("spline: knot %g occurs more than %d times, so the curve has a gap there", k, p)
		}
	}
	if !(n.Knots[m] > n.Knots[p]) || !isFinite(n.Knots[m]-n.Knots[p]) {
		return fmt.Errorf("spline: knots from %g to %g span no curve", n.Knots[p], n.Knots[m])
	}
	return nil
}

// At returns the point at t.
func (n NURBS) At(t float64) Point { p, _ := n.eval(t); return p }

// Deriv returns the derivative by t.
func (n NURBS) Deriv(t float64) Vec { _, v := n.eval(t); return v }

// homogeneous is a weighted point (w·x, w·y, w).
type homogeneous struct{ x, y, w float64 }

// eval returns the point and the derivative at t by de Boor's algorithm on
// weighted points (de Boor, "On calculating with B-splines", Journal of
// Approximation Theory 6, 1972): the last step but one gives the derivative.
func (n NURBS) eval(t float64) (Point, Vec) {
	p, m := n.Degree, len(n.Points)
	if p < 1 || p > maxDegree || m < p+1 || len(n.Knots) != m+p+1 || n.Weights != nil && len(n.Weights) != m {
		return Point{math.NaN(), math.NaN()}, Vec{math.NaN(), math.NaN()}
	}
	lo, hi := n.Knots[p], n.Knots[m]
	u := lo + t*(hi-lo)
	// The knot span k with knots[k] <= u < knots[k+1]; the last one at the end.
	k := p + sort.Search(m-p, func(i int) bool { return n.Knots[p+i+1] > u })
	for k = min(k, m-1); k > p && n.Knots[k] == n.Knots[k+1]; k-- {
	}
	var d [maxDegree + 1]homogeneous
	for j := 0; j <= p; j++ {
		w, q := 1.0, n.Points[k-p+j]
		if n.Weights != nil {
			w = n.Weights[k-p+j]
		}
		d[j] = homogeneous{w * q.X, w * q.Y, w}
	}
	var g homogeneous
	for r := 1; r <= p; r++ {
		if r == p {
			f := float64(p) / (n.Knots[k+1] - n.Knots[k])
			g = homogeneous{f * (d[p].x - d[p-1].x), f * (d[p].y - d[p-1].y), f * (d[p].w - d[p-1].w)}
		}
		for j := p; j >= r; j-- {
			a := n.Knots[j+k-p]
			f := (u - a) / (n.Knots[j+1+k-r] - a)
			d[j] = homogeneous{
				d[j-1].x + f*(d[j].x-d[j-1].x), d[j-1].y + f*(d[j].y-d[j-1].y), d[j-1].w + f*(d[j].w-d[j-1].w),
			}
		}
	}
	c := d[p]
	at := Point{c.x / c.w, c.y / c.w}
	return at, Vec{(g.x - g.w*at.X) / c.w, (g.y - g.w*at.Y) / c.w}.Mul(hi - lo)
}

// breaks returns the parameters of the knots inside.
func (n NURBS) breaks() []float64 {
	var out []float64
	lo, hi := n.Knots[n.Degree], n.Knots[len(n.Points)]
	for _, k := range n.Knots {
		t := (k - lo) / (hi - lo)
		if t > 0 && t < 1 && (len(out) == 0 || t > out[len(out)-1]) {
			out = append(out, t)
		}
	}
	return out
}
