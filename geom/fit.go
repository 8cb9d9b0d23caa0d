package geom

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"sort"
	"sync"
	"sync/atomic"
)

// FitCurve returns the lines and arcs that follow c within tol mm, from exactly
// its first point to exactly its last; tol 0 means CurveToArc. Corners and cusps
// of c stay, everything between is tangent (G1); straight runs are lines.
//
// Arcs come in biarcs, each as long as the tolerance allows, of the tangent lengths
// that allow most. Their ends lie on the curve, but cross it at a small angle, which
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
	var parts []section
	for _, s := range w.out {
		for _, piece := range s.pieces() {
			parts = append(parts, piece.even(tol)...)
		}
	}
	path := followAll(parts, curves, tol)
	if len(path) == 0 {
		return nil, errors.New("a curve of no length")
	}
	p := tidy(path)
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

// even returns s cut where its curvature jumps, as it does at the joints of most
// chains: there a node must stand, in the direction of the curve.
func (s section) even(tol float64) []section {
	n := len(s)
	if n < 4 {
		return []section{s}
	}
	jump := make([]float64, n) // of curvature, at each station
	before := 0.0
	for i := 0; i+1 < n; i++ {
		k := (s[i+1].theta - s[i].theta) / (s[i+1].s - s[i].s)
		if i > 0 {
			jump[i] = math.Abs(k - before)
		}
		before = k
	}
	var out []section
	from := 0
	for i := 2; i+2 < n; i++ {
		near := max(jump[i-1], jump[i+1])
		if jump[i] < 4*near {
			continue
		}
		// An arc of length l, as long as the change of curvature beside the jump
		// allows, that straddled it would miss by jump·l²/16.
		l := math.Cbrt(125 * tol * (s[i+1].s - s[i-1].s) / 2 / near)
		if jump[i]*min(l*l, 1e4) > 4*tol {
			out = append(out, s[from:i+1])
			from = i
		}
	}
	return append(out, s[from:])
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

// fitter follows a section with biarcs.
type fitter struct {
	curves []Curve
	tol    float64
	guess  int     // stations that the last biarc took
	plain  bool    // nodes keep the direction of the curve
	lean   float64 // share of the best angle at which a biarc arrives at its node
	ratio  float64 // of its tangent lengths
}

func newFitter(curves []Curve, tol float64) *fitter {
	return &fitter{curves: curves, tol: tol, lean: 1, ratio: 1}
}

// followAll returns the biarcs along all sections, which know nothing of each
// other: they are followed on all processors.
func followAll(parts []section, curves []Curve, tol float64) Path {
	fits := make([]Path, len(parts))
	onAll(len(parts), func(i int) { fits[i] = newFitter(curves, tol).evenly(parts[i]) })
	leans := make([]bool, len(parts))
	leaned := 0 // arcs of the sections so far
	for i, p := range fits {
		leaned += len(p)
		leans[i] = len(p) > 2 && leaned <= leaningMost
	}
	onAll(len(parts), func(i int) {
		if leans[i] {
			if q := newFitter(curves, tol).leaning(parts[i]); q != nil && len(q) < len(fits[i]) {
				fits[i] = q
			}
		}
		if fits[i] == nil && len(parts[i]) > 1 {
			fits[i], _ = newFitter(curves, tol).greedy(parts[i], true)
		}
	})
	var path Path
	for _, p := range fits {
		path = append(path, p...)
	}
	return path
}

// onAll calls f for 0 … n−1 on all processors.
func onAll(n int, f func(i int)) {
	var wg sync.WaitGroup
	var next atomic.Int64
	for range min(n, runtime.GOMAXPROCS(0)) - 1 {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				f(i)
			}
		})
	}
	for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
		f(i)
	}
	wg.Wait()
}

// evenly returns the biarcs along a section with nodes spread or each as long as
// it can be, whichever are fewer; nil if neither holds.
func (f *fitter) evenly(s section) Path {
	if len(s) < 2 {
		return nil
	}
	p := f.balanced(s)
	if q, ok := f.greedy(s, false); ok && (p == nil || len(q) < len(p)) {
		p = q
	}
	return p
}

// greedy returns the biarcs along s, each as long as it can be. Plain ones keep
// the direction of the curve at every node; others may find none that holds
// beyond a jump of curvature, and then greedy reports false.
func (f *fitter) greedy(s section, plain bool) (Path, bool) {
	var p Path
	f.guess, f.plain = 8, plain
	at, k := s[0], 1 // the node reached, and the first station after it
	for k < len(s) {
		b, next, segs := f.longest(s, at, k)
		if segs.n == 0 { // not even to the next station
			if !plain {
				return nil, false
			}
			p = append(p, f.halve(s, at, s[k], 0)...)
			at, k = s[k], k+1
			continue
		}
		p = append(p, segs.path()...)
		at, k = b, next
	}
	return p, true
}

// longest returns the node that the longest biarc from a within tol reaches, the
// first station after it, and the biarc, none if none holds. Station k is the
// first after a.
func (f *fitter) longest(s section, a station, k int) (station, int, pair) {
	try := func(j int) (pair, station, bool) {
		b := f.leave(s, a, s[j], j == len(s)-1)
		q, ok := f.biarc(a, b, s[k:j])
		return q, b, ok
	}
	good, bad := -1, len(s)
	var best pair
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
	if good < 0 {
		return a, k, pair{}
	}
	f.guess = max(1, good-k+1)
	if good == len(s)-1 {
		return node, good + 1, best
	}
	// Somewhat further, between two stations.
	lo, hi := 0.0, 1.0
	for i := 0; i < 4; i++ {
		r := (lo + hi) / 2
		b := f.leave(s, a, f.between(s, good, r), false)
		if q, ok := f.biarc(a, b, s[k:good+1]); ok {
			lo, best, node = r, q, b
		} else {
			hi = r
		}
	}
	return node, good + 1, best
}

// between returns the station at a share r of the parameters from station i to
// the next.
func (f *fitter) between(s section, i int, r float64) station {
	a, e := s[i], s[i+1]
	t1 := e.t
	if e.curve != a.curve { // e starts the next curve
		t1 = 1
	}
	b := station{curve: a.curve, t: a.t + r*(t1-a.t)}
	c := f.curves[a.curve]
	b.at, b.dir = c.At(b.t), c.Deriv(b.t).Unit()
	if r <= 0 || b.dir == (Vec{}) {
		return a
	}
	b.theta = a.theta + turn(a.dir, b.dir)
	b.s = a.s + arcLength(a, b)
	return b
}

// leave returns b with the direction at which a biarc from a should arrive and
// the next one leave. Ends keep their direction.
func (f *fitter) leave(s section, a, b station, last bool) station {
	if last || f.plain {
		return b
	}
	return s.turned(b, (b.s-a.s)/2, f.lean)
}

// turned returns b with its direction turned as arcs of length h on both sides
// want it. The best arc along a curve whose curvature changes by k per length
// meets it at both ends, at the angle k·h²/12, and leaves it by k·h³/(72·√3) =
// k·h³/125 (from the cubic s³/6 − h²s/24 between them). The second difference of
// the direction over h is k·h². The angle is taken lean times.
func (s section) turned(b station, h, lean float64) station {
	h = min(h, min(b.s-s[0].s, s[len(s)-1].s-b.s))
	bias := (2*b.theta - s.theta(b.s+h) - s.theta(b.s-h)) / 12
	b.dir = b.dir.Rotate(Angle(lean * bias))
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

// pair is a biarc: n of two segments, none where there is no biarc.
type pair struct {
	segs [2]Seg
	n    int
}

func (p *pair) path() []Seg { return p.segs[:p.n] }

// biarc returns the biarc from a to b and whether the curve, with the stations
// between, lies within tol of it.
func (f *fitter) biarc(a, b station, between []station) (pair, bool) {
	q, e := f.measured(a, b, between, f.tol)
	return q, e <= f.tol
}

// measured returns the biarc from a to b and the largest distance between it and
// the curve, measured at the stations and bounded between them by the slopes.
// Above limit it is not measured to the end.
func (f *fitter) measured(a, b station, between []station, limit float64) (pair, float64) {
	p, q, one, ok := biarc(a.at, a.dir, b.at, b.dir, f.ratio)
	if !ok {
		return pair{}, math.Inf(1)
	}
	fit := pair{[2]Seg{p, q}, 2}
	across := p.Tangent(1)
	if one {
		fit.n, across = 1, Vec{}
	}
	e0, s0 := p.deviation(a.at, a.trueDir())
	l0, most := a.s, 0.0
	for i := 0; i <= len(between) && most <= limit; i++ {
		c, dir := &b, Vec{}
		if i < len(between) {
			c = &between[i]
			dir = c.dir
		} else {
			dir = b.trueDir()
		}
		seg := &p
		if !one && across.Dot(c.at.Sub(p.B)) > 0 {
			seg = &q
		}
		e, sl := seg.deviation(c.at, dir)
		most = max(most, max(math.Abs(e), peak(e0, s0, e, sl, c.s-l0)))
		e0, s0, l0 = e, sl, c.s
	}
	return fit, most * 1.01 // for what a parabola leaves out between stations
}

// peak returns the largest magnitude of the parabola that starts at height e0 with
// slope s0 and reaches slope s1, and about height e1, over a length l.
func peak(e0, s0, e1, s1, l float64) float64 {
	if s0*s1 >= 0 {
		return math.Abs(e0)
	}
	x := l * s0 / (s0 - s1)
	return max(math.Abs(e0), max(math.Abs(e0+s0*x/2), math.Abs(e1-s1*(l-x)/2)))
}

// trueDir returns the direction of the curve at a node, whose own direction may
// be turned a little.
func (a station) trueDir() Vec {
	s, c := math.Sincos(a.theta)
	return Vec{c, s}
}
