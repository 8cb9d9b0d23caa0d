package geom

import (
	"errors"
	"fmt"
	"math"
)

// Knot is a point that a Hobby spline passes through.
type Knot struct {
	At Point
	// Dir is the direction of travel at the knot; the zero vector leaves it free.
	Dir Vec
	// Tension tightens the curve on both sides: 0 means 1, the plain curve;
	// larger values pull it towards the chords. At least 3/4.
	Tension float64
}

// Hobby returns the cubics through the knots in order: J. D. Hobby, "Smooth,
// easy to compute interpolating splines", Discrete & Computational Geometry 1
// (1986), 123–140, with curl 1 at the ends of an open curve that leave their
// direction free. The error names the knot: not finite, too near its neighbour,
// of too little tension; or says that there are too few. O(n).
func Hobby(knots []Knot, closed bool) ([]Cubic, error) {
	n := len(knots)
	if n < 2 || closed && n < 3 {
		return nil, errors.New("a smooth curve needs at least two points, a closed one three")
	}
	for i, k := range knots {
		switch {
		case !k.At.IsFinite() || !isFinite(k.Dir.X) || !isFinite(k.Dir.Y) || !isFinite(k.Tension):
			return nil, fmt.Errorf("point %d of a smooth curve is not a finite number", i+1)
		case k.Tension != 0 && k.Tension < 0.75:
			return nil, fmt.Errorf("point %d of a smooth curve has a tension of %g; allowed: 0.75 or more", i+1, k.Tension)
		}
	}
	spans := n - 1
	if closed {
		spans = n
	}
	h := hobby{knots: knots, closed: closed, d: make([]float64, spans), dir: make([]float64, spans)}
	for i := range h.d {
		v := knots[(i+1)%n].At.Sub(knots[i].At)
		h.d[i], h.dir[i] = v.Len(), float64(v.Angle())
		if !(h.d[i] > Coincident) {
			return nil, fmt.Errorf("points %d and %d of a smooth curve lie at one place", i+1, (i+1)%n+1)
		}
	}
	theta := h.solve()
	out := make([]Cubic, spans)
	for i := range out {
		k := (i + 1) % n
		phi := -h.psi(k) - theta[k]
		out[i] = h.span(i, theta[i], phi)
	}
	return out, nil
}

type hobby struct {
	knots  []Knot
	closed bool
	d, dir []float64 // length and direction of each chord
}

// psi returns the turn between the chords at knot k, 0 at open ends.
func (h hobby) psi(k int) float64 {
	n := len(h.knots)
	if !h.closed && (k == 0 || k == n-1) {
		return 0
	}
	return wrap(h.dir[k%len(h.dir)] - h.dir[(k+len(h.dir)-1)%len(h.dir)])
}

// wrap brings an angle into (−π, π].
func wrap(a float64) float64 {
	a = math.Remainder(a, 2*math.Pi)
	if a == -math.Pi {
		return math.Pi
	}
	return a
}

func (h hobby) alpha(k int) float64 {
	if t := h.knots[k].Tension; t > 0 {
		return 1 / t
	}
	return 1
}

// solve returns θ, the angle between the curve and the chord that leaves each
// knot, from the equations of equal mock curvature: one for each knot, with its
// two neighbours.
func (h hobby) solve() []float64 {
	n := len(h.knots)
	if n == 2 && h.knots[0].Dir == (Vec{}) && h.knots[1].Dir == (Vec{}) {
		return []float64{0, 0} // the straight line: the equations leave it open
	}
	m := make(ring, n)
	for k := range m {
		first, last := !h.closed && k == 0, !h.closed && k == n-1
		row := &m[k]
		switch {
		case h.knots[k].Dir != Vec{}:
			chord := h.dir[min(k, len(h.dir)-1)]
			*row = [4]float64{0, 1, 0, wrap(float64(h.knots[k].Dir.Angle()) - chord)}
		case first: // curl 1: θ0 = φ1
			*row = [4]float64{0, 1, 1, -h.psi(1)}
		case last:
			*row = [4]float64{1, 1, 0, 0}
		default:
			p, q := (k+n-1)%n, (k+1)%n
			before, after := h.d[(k+len(h.d)-1)%len(h.d)], h.d[k]
			ap, ak, aq := h.alpha(p), h.alpha(k), h.alpha(q)
			a := ap / (ak * ak * before)
			b := (3 - ap) / (ak * ak * before)
			c := (3 - aq) / (ak * ak * after)
			d := aq / (ak * ak * after)
			*row = [4]float64{a, b + c, d, -b*h.psi(k) - d*h.psi(q)}
		}
	}
	return m.solve()
}

// ring is a linear system in which row k binds x[k−1], x[k] and x[k+1], the first
// and the last being neighbours, with the right side last.
type ring [][4]float64

// solve returns x, by the Sherman–Morrison formula about two passes of the
// tridiagonal algorithm; the diagonal must dominate, as Hobby's does for
// tensions of 3/4 or more.
func (m ring) solve() []float64 {
	n := len(m)
	lower, upper := m[0][0], m[n-1][2] // what closes the ring
	g := -m[0][1]
	diag := func(k int) float64 {
		switch k {
		case 0:
			return m[0][1] - g
		case n - 1:
			return m[n-1][1] - lower*upper/g
		}
		return m[k][1]
	}
	// x solves the open chain for the right side, z for the closing column.
	c, x, z := make([]float64, n), make([]float64, n), make([]float64, n)
	for k := range m {
		d, u := diag(k), 0.0
		switch k {
		case 0:
			u = g
		case n - 1:
			u = upper
		}
		x[k], z[k] = m[k][3], u
		if k > 0 {
			a := m[k][0]
			d -= a * c[k-1]
			x[k] -= a * x[k-1]
			z[k] -= a * z[k-1]
		}
		if k < n-1 {
			c[k] = m[k][2] / d
		}
		x[k] /= d
		z[k] /= d
	}
	for k := n - 2; k >= 0; k-- {
		x[k] -= c[k] * x[k+1]
		z[k] -= c[k] * z[k+1]
	}
	f := (x[0] + lower/g*x[n-1]) / (1 + z[0] + lower/g*z[n-1])
	for k := range x {
		x[k] -= f * z[k]
	}
	return x
}

// span returns the cubic of chord i for the angles at its ends.
func (h hobby) span(i int, theta, phi float64) Cubic {
	a, b := h.knots[i].At, h.knots[(i+1)%len(h.knots)].At
	v := b.Sub(a)
	ta, tb := h.alpha(i), h.alpha((i+1)%len(h.knots))
	return Cubic{
		a,
		a.Add(v.Rotate(Angle(theta)).Mul(velocity(theta, phi) * ta)),
		b.Add(v.Rotate(Angle(-phi)).Mul(-velocity(phi, theta) * tb)),
		b,
	}
}

// velocity is Hobby's ρ/3: how far the control point lies along the tangent, in
// chords.
func velocity(theta, phi float64) float64 {
	st, ct := math.Sincos(theta)
	sp, cp := math.Sincos(phi)
	num := 2 + math.Sqrt2*(st-sp/16)*(sp-st/16)*(ct-cp)
	den := 3 * (1 + (math.Sqrt(5)-1)/2*ct + (3-math.Sqrt(5))/2*cp)
	return num / den
}
