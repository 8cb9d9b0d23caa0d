package geom

import (
	"errors"
	"math"
)

// Knot is a point that a Hobby spline passes through.
type Knot struct {
	At Point
	// Dir is the direction of travel at the knot; the zero vector leaves it free.
	Dir Vec
	// Tension tightens the curve on both sides: 0 means 1, the plain curve;
	// larger values pull it towards the chords.
	Tension float64
}

// Hobby returns the cubics through the knots in order: J. D. Hobby, "Smooth,
// easy to compute interpolating splines", Discrete & Computational Geometry 1
// (1986), 123–140, with curl 1 at the ends of an open curve. An error names two
// neighbouring knots at one place, or fewer knots than a curve needs.
// O(n³) for n knots: meant for outlines drawn by hand.
func Hobby(knots []Knot, closed bool) ([]Cubic, error) {
	n := len(knots)
	if n < 2 || closed && n < 3 {
		return nil, errors.New("a smooth curve needs at least two points, a closed one three")
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
			return nil, errors.New("two neighbouring points of a smooth curve lie at one place")
		}
	}
	theta, err := h.solve()
	if err != nil {
		return nil, err
	}
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
// knot, from the equations of equal mock curvature.
func (h hobby) solve() ([]float64, error) {
	n := len(h.knots)
	m := make([][]float64, n)
	for k := range m {
		m[k] = make([]float64, n+1)
		row := m[k]
		first, last := !h.closed && k == 0, !h.closed && k == n-1
		switch {
		case h.knots[k].Dir != Vec{}:
			dir := float64(h.knots[k].Dir.Angle())
			row[k] = 1
			if last {
				row[n] = wrap(dir - h.dir[n-2])
			} else {
				row[n] = wrap(dir - h.dir[k])
			}
		case first: // curl 1: θ0 = φ1
			row[0], row[1], row[n] = 1, 1, -h.psi(1)
		case last:
			row[n-1], row[n-2] = 1, 1
		default:
			p, q := (k+n-1)%n, (k+1)%n
			before, after := h.d[(k+len(h.d)-1)%len(h.d)], h.d[k]
			ap, ak, aq := h.alpha(p), h.alpha(k), h.alpha(q)
			a := ap / (ak * ak * before)
			b := (3 - ap) / (ak * ak * before)
			c := (3 - aq) / (ak * ak * after)
			d := aq / (ak * ak * after)
			row[p] += a
			row[k] += b + c
			row[q] += d
			row[n] = -b*h.psi(k) - d*h.psi(q)
		}
	}
	return gauss(m)
}

// gauss solves a linear system given as rows with the right side last.
func gauss(m [][]float64) ([]float64, error) {
	n := len(m)
	for i := range m {
		p := i
		for r := i + 1; r < n; r++ {
			if math.Abs(m[r][i]) > math.Abs(m[p][i]) {
				p = r
			}
		}
		if math.Abs(m[p][i]) < 1e-14 {
			return nil, errors.New("the points of a smooth curve do not settle it")
		}
		m[i], m[p] = m[p], m[i]
		for r := i + 1; r < n; r++ {
			f := m[r][i] / m[i][i]
			if f == 0 {
				continue
			}
			for c := i; c <= n; c++ {
				m[r][c] -= f * m[i][c]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = m[i][n]
		for c := i + 1; c < n; c++ {
			x[i] -= m[i][c] * x[c]
		}
		x[i] /= m[i][i]
	}
	return x, nil
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
