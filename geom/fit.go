package geom

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// FitCurve returns the lines and arcs that follow c within tol mm, from exactly
// its first point to exactly its last; tol 0 means CurveToArc. Corners and cusps
// of c stay, everything between is tangent (G1); straight runs are lines.
//
// Arcs come in biarcs of equal tangent lengths, each as long as the tolerance
// allows. Their ends lie on the curve, but cross it at a small angle, which
// spreads the error evenly to both sides and takes a third fewer arcs than
// tangents would: where the curvature grows by k over a length l of arc, the
// error is k·l³/125, not k·l³/40. The error is measured along the radius at
// stations some seven to an arc, and bounded between them by their directions.
//
// O(n log n) for n stations, n in proportion to the arcs. The error says what
// cannot be followed: a number that is not finite, a curve of no length.
func FitCurve(c Curve, tol float64) (Path, error) { return fitCurves([]Curve{c}, tol) }

// FitCubics returns the lines and arcs that follow a chain of cubics within tol
// mm (0: CurveToArc), as FitCurve does: joints that turn by more than a quarter
// of a degree stay corners, others become tangent; arcs run on across them. Each
// cubic starts where the one before it ends, to within Weld; if the last one
// ends where the first starts, the path is closed. Cubics of no length are left
// out.
func FitCubics(cs []Cubic, tol float64) (Path, error) {
	curves := make([]Curve, 0, len(cs))
	for i, c := range cs {
		if c[1] == c[0] && c[2] == c[0] && c[3] == c[0] {
			continue
		}
		if n := len(curves); n > 0 {
			if d := curves[n-1].At(1).Dist(c[0]); d > Weld {
				return nil, fmt.Errorf("curve %d: starts %.3g mm from the end of the curve before it", i+1, d)
			}
		}
		curves = append(curves, c)
	}
	return fitCurves(curves, tol)
}

func fitCurves(curves []Curve, tol float64) (Path, error) {
	if tol == 0 {
		tol = CurveToArc
	}
	if !(tol >= Coincident) || math.IsInf(tol, 1) {
		return nil, fmt.Errorf("a tolerance of %g mm; allowed: %g mm or more", tol, Coincident)
	}
	w := walker{curves: curves, tol: tol}
	for i, c := range curves {
		if n, ok := c.(NURBS); ok {
			if err := n.Check(); err != nil {
				return nil, err
			}
		}
		if err := w.walk(i); err != nil {
			return nil, err
		}
	}
	w.closeUp()
	f := fitter{curves: curves, tol: tol}
	for _, s := range w.out {
		for _, piece := range s.pieces() {
			f.follow(piece)
		}
	}
	if len(f.path) == 0 {
		return nil, errors.New("a curve of no length")
	}
	p := tidy(f.path)
	if n := len(p); p[n-1].B != p[0].A && p[n-1].B.Dist(p[0].A) <= Weld {
		p[n-1] = p[n-1].movedEnds(p[n-1].A, p[0].A)
	}
	return p, nil
}

// closeUp makes the directions alike where a chain closes smoothly.
func (w *walker) closeUp() {
	if len(w.out) == 0 {
		return
	}
	first, last := w.out[0], w.out[len(w.out)-1]
	a, b := &first[0], &last[len(last)-1]
	if a == b || a.at.Dist(b.at) > Weld || math.Abs(turn(b.dir, a.dir)) > float64(smoothJoint) {
		return
	}
	m := a.dir.Add(b.dir).Unit()
	a.theta += turn(a.dir, m)
	b.theta += turn(b.dir, m)
	a.dir, b.dir, b.at = m, m, a.at
}

// pieces returns s cut at both ends of its straight runs.
func (s section) pieces() []section {
	var out []section
	from := 0
	for i := 0; i+1 < len(s); {
		j := s.straight(i)
		if j == i {
			i++
			continue
		}
		if i > from {
			out = append(out, s[from:i+1])
		}
		out = append(out, section{s[i], s[j]})
		i, from = j, j
	}
	if from+1 < len(s) {
		out = append(out, s[from:])
	}
	return out
}

// straight returns the last station that a line from station i reaches, to
// 1e-9 rad, i if there is none or the line is shorter than 1e-3 mm.
func (s section) straight(i int) int {
	j := i
	for j+1 < len(s) {
		c := s[j+1].at.Sub(s[j].at)
		if d := s[i].dir; !(math.Abs(d.Cross(c)) <= 1e-9*c.Len()) || math.Abs(d.Cross(s[j+1].dir)) > 1e-9 {
			break
		}
		j++
	}
	if s[j].s-s[i].s < 1e-3 {
		return i
	}
	return j
}

// fitter follows sections with biarcs.
type fitter struct {
	curves []Curve
	tol    float64
	path   Path
	guess  int // stations that the last biarc took
}

// follow appends the biarcs along a section.
func (f *fitter) follow(s section) {
	if len(s) < 2 {
		return
	}
	f.guess = 8
	at, k := s[0], 1 // the node reached, and the first station after it
	for k < len(s) {
		var segs []Seg
		at, k, segs = f.longest(s, at, k)
		f.path = append(f.path, segs...)
	}
}

// longest returns the node that the longest biarc from a within tol reaches, the
// first station after it, and the biarc. Station k is the first after a.
func (f *fitter) longest(s section, a station, k int) (station, int, []Seg) {
	try := func(j int) ([]Seg, station, bool) {
		b := s.leave(a, s[j], j == len(s)-1)
		q, ok := f.biarc(a, b, s[k:j])
		return q, b, ok
	}
	good, bad := -1, len(s)
	var best []Seg
	var node station
	test := func(j int) bool {
		q, b, ok := try(j)
		if ok {
			good, best, node = j, q, b
		} else {
			bad = j
		}
		return ok
	}
	// Gallop to a bracket, then halve it.
	for step := f.guess; good < 0 && k+step-1 >= k; step /= 2 {
		test(min(k+step-1, len(s)-1))
		if step == 1 {
			break
		}
	}
	for step := max(1, f.guess/2); good >= 0 && bad == len(s) && good < len(s)-1; step *= 2 {
		test(min(good+step, len(s)-1))
	}
	for good >= 0 && bad-good > 1 {
		test((good + bad) / 2)
	}
	if good < 0 { // not even to the next station: it is very near, and a line will do
		b := s[k]
		return b, k + 1, []Seg{Line(a.at, b.at)}
	}
	f.guess = max(1, good-k+1)
	if good == len(s)-1 {
		return node, good + 1, best
	}
	// Somewhat further, between two stations of one curve.
	t0, t1 := s[good].t, s[good+1].t
	if c := s[good].curve; c == s[good+1].curve && t1 > t0 {
		lo, hi := t0, t1
		for i := 0; i < 4; i++ {
			t := (lo + hi) / 2
			b := s.leave(a, s.between(good, f.curves[c], t), false)
			if q, ok := f.biarc(a, b, s[k:good+1]); ok {
				lo, best, node = t, q, b
			} else {
				hi = t
			}
		}
	}
	return node, good + 1, best
}

// between returns a station at t of c, between stations i and i+1.
func (s section) between(i int, c Curve, t float64) station {
	b := station{at: c.At(t), dir: c.Deriv(t).Unit(), curve: s[i].curve, t: t}
	if b.dir == (Vec{}) {
		b.dir = s[i].dir
	}
	b.theta = s[i].theta + turn(s[i].dir, b.dir)
	b.s = s[i].s + s[i].at.Dist(b.at)
	return b
}

// leave returns b with the direction at which biarcs that start at a should
// leave it. The best arc of length h along a curve whose curvature changes by k
// per length meets it at both ends at the angle k·h²/12; the second difference
// of the direction over h to both sides is k·h². Ends keep their direction.
func (s section) leave(a, b station, last bool) station {
	if last {
		return b
	}
	h := math.Min((b.s-a.s)/2, s[len(s)-1].s-b.s)
	bias := (s.theta(b.s+h) - 2*b.theta + s.theta(b.s-h)) / 12
	b.dir = b.dir.Rotate(Angle(bias))
	return b
}

// theta returns the direction at length l.
func (s section) theta(l float64) float64 {
	i := sort.Search(len(s), func(i int) bool { return s[i].s >= l })
	switch {
	case i == 0:
		return s[0].theta
	case i == len(s):
		return s[i-1].theta
	}
	a, b := s[i-1], s[i]
	return a.theta + (b.theta-a.theta)*(l-a.s)/(b.s-a.s)
}

// biarc returns the biarc from a to b and whether the stations between lie
// within tol of it, as does the curve between them: a curve whose slope against
// the arc changes by k over a length l leaves the chord of its deviations by at
// most k·l/8.
func (f *fitter) biarc(a, b station, between []station) ([]Seg, bool) {
	p, q, one, ok := biarc(a.at, a.dir, b.at, b.dir)
	if !ok {
		return nil, false
	}
	joint, across := p.B, Vec{}
	if !one {
		across = p.Tangent(1)
	}
	e0, s0 := p.deviation(a.at, a.trueDir())
	l0 := a.s
	check := func(c station, dir Vec) bool {
		seg := &p
		if !one && across.Dot(c.at.Sub(joint)) > 0 {
			seg = &q
		}
		e, sl := seg.deviation(c.at, dir)
		most := math.Max(math.Abs(e), math.Abs(e0)) + math.Abs(sl-s0)*(c.s-l0)/8
		e0, s0, l0 = e, sl, c.s
		return most <= f.tol
	}
	for i := range between {
		if !check(between[i], between[i].dir) {
			return nil, false
		}
	}
	if !check(b, b.trueDir()) {
		return nil, false
	}
	if one {
		return []Seg{p}, true
	}
	return []Seg{p, q}, true
}

// trueDir returns the direction of the curve at a node, whose own direction may
// be turned a little.
func (a station) trueDir() Vec {
	s, c := math.Sincos(a.theta)
	return Vec{c, s}
}
