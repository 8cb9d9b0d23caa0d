package geom

import (
	"errors"
	"fmt"
	"math"
)

// station is a place on a curve that was walked along.
type station struct {
	at    Point
	dir   Vec     // unit direction of travel
	theta float64 // its angle, counted on without jumps
	s     float64 // length from the start of the section
	curve int     // the curve it lies on, and the parameter there
	t     float64
}

// section is a piece of a curve without corners, as stations so close that
// between two of them the curve leaves the arc through both by far less than the
// tolerance.
type section []station

// walker samples curves into sections.
type walker struct {
	curves []Curve
	tol    float64 // of the fit; a station may cost a sixteenth of it
	out    []section
	count  int
}

const (
	// stationTurn is the most that a curve turns between stations, in radians:
	// small enough that a chord and its tangents tell a bend from a loop.
	stationTurn = 0.25
	// stationGap is the distance at which a curve that still turns has a corner.
	stationGap = 4 * Coincident
	// stationMost bounds the memory that one call may take.
	stationMost = 1 << 20
	// reach is how far from the origin a curve may go, in mm: a float64 keeps
	// Coincident/10 there.
	reach = 1e8
)

// walk takes curve number i, whose start joins the section under way.
func (w *walker) walk(i int) error {
	c := w.curves[i]
	breaks, parts := []float64{0, 1}, 8.0
	if k, ok := c.(knotted); ok {
		breaks, parts = append(append([]float64{0}, k.breaks()...), 1), 4
	}
	for k := 1; k < len(breaks); k++ {
		t0, t1 := breaks[k-1], breaks[k]
		a, err := w.station(i, t0, t0)
		if err != nil {
			return err
		}
		if err := w.join(a); err != nil {
			return err
		}
		for n := 1.0; n <= parts; n++ {
			t := t0 + (t1-t0)*n/parts
			side := t
			if n == parts { // arrive by the direction before the break
				t, side = t1, t1-1e-9*(t1-t0)
			}
			b, err := w.station(i, t, side)
			if err != nil {
				return err
			}
			if err := w.bisect(w.last(), b, 0); err != nil {
				return err
			}
		}
	}
	return nil
}

// station returns the station at t of curve i, with the direction at side. Where
// the derivative vanishes that is the direction of a short chord.
func (w *walker) station(i int, t, side float64) (station, error) {
	c := w.curves[i]
	p, v := c.At(t), c.Deriv(side)
	if !(v.Len() > 1e-9) {
		v = c.At(min(1, t+1e-6)).Sub(c.At(max(0, t-1e-6)))
	}
	v = v.Unit()
	if !p.IsFinite() || !isFinite(v.X) || !isFinite(v.Y) {
		return station{}, errors.New("a coordinate is not a finite number")
	}
	if math.Abs(p.X) > reach || math.Abs(p.Y) > reach {
		return station{}, fmt.Errorf("a point lies at (%.3g, %.3g) mm; allowed: up to %.0e mm", p.X, p.Y, reach)
	}
	if w.count++; w.count > stationMost {
		return station{}, errors.New("the curve is too long or too crooked for its tolerance")
	}
	return station{at: p, dir: v, curve: i, t: t}, nil
}

func (w *walker) last() station {
	s := w.out[len(w.out)-1]
	return s[len(s)-1]
}

// join starts a curve at a: on the section under way if it leaves as that one
// arrives, else with a new section.
func (w *walker) join(a station) error {
	if len(w.out) == 0 {
		w.start(a)
		return nil
	}
	b := w.last()
	if d := b.at.Dist(a.at); d > Weld {
		return fmt.Errorf("curve %d: starts %.3g mm from the end of the curve before it", a.curve+1, d)
	}
	a.at = b.at
	if math.Abs(turn(b.dir, a.dir)) > float64(smoothJoint) {
		w.start(a)
		return nil
	}
	// Both directions become the mean; the parameter is that of the new curve.
	sec := w.out[len(w.out)-1]
	m := b.dir.Add(a.dir).Unit()
	b.theta += turn(b.dir, m)
	b.dir, b.curve, b.t = m, a.curve, a.t
	sec[len(sec)-1] = b
	return nil
}

func (w *walker) start(a station) {
	a.theta, a.s = float64(a.dir.Angle()), 0
	w.out = append(w.out, section{a})
}

func (w *walker) add(b station) {
	k := len(w.out) - 1
	a := w.last()
	b.theta = a.theta + turn(a.dir, b.dir)
	b.s = a.s + arcLength(a, b)
	w.out[k] = append(w.out[k], b)
}

// arcLength returns the length of the arc through two stations, from the chord
// and the turn φ: chord·(φ/2)/sin(φ/2).
func arcLength(a, b station) float64 {
	chord, half := a.at.Dist(b.at), (b.theta-a.theta)/2
	if math.Abs(half) < 1e-6 {
		return chord
	}
	return chord * half / math.Sin(half)
}

// turn returns the angle from u to v in (−π, π].
func turn(u, v Vec) float64 { return math.Atan2(u.Cross(v), u.Dot(v)) }

// bisect adds the stations from a, which is the last one, to b.
func (w *walker) bisect(a, b station, depth int) error {
	chord := b.at.Sub(a.at)
	l := chord.Len()
	t := (a.t + b.t) / 2
	m, err := w.station(b.curve, t, t)
	if err != nil {
		return err
	}
	if w.close(a, m, b, chord, l) {
		w.add(b)
		return nil
	}
	if depth > 50 || l < stationGap && a.at.Dist(m.at) < stationGap {
		if math.Abs(turn(a.dir, b.dir)) <= stationTurn {
			w.add(b)
			return nil
		}
		b.at = a.at // a corner: the turn happens within stationGap
		w.start(b)
		return nil
	}
	if err := w.bisect(a, m, depth+1); err != nil {
		return err
	}
	a = w.last()
	return w.bisect(a, b, depth+1)
}

// close reports whether the curve from a by m to b is an arc for all purposes.
func (w *walker) close(a, m, b station, chord Vec, l float64) bool {
	if l == 0 {
		return false
	}
	u := chord.Mul(1 / l)
	alpha, beta := turn(a.dir, u), turn(u, b.dir)
	if math.Abs(alpha) > stationTurn/2 || math.Abs(beta) > stationTurn/2 {
		return false
	}
	// A curvature that changes by k over l makes this k·l³/6: about seven stations
	// to an arc whose error k·l³/125 uses the tolerance up.
	if l*math.Abs(alpha-beta) > w.tol/16 {
		return false
	}
	v := m.at.Sub(a.at)
	x := v.Dot(u) / l
	sagitta := l / 2 * math.Tan((alpha+beta)/4) * 4 * x * (1 - x)
	return x > 0 && x < 1 && math.Abs(u.Cross(v)+sagitta) < w.tol/16 && math.Abs(turn(u, m.dir)) < stationTurn
}
