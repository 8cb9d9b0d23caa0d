package geom

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// FitPolyline returns lines and tangent arcs within tol mm (0: CurveToArc) of
// the points and of the straight lines between them: what a scan, a tracing or a
// flattened curve was before. A place where the direction turns by more than
// corner (0: 30°) within a few tolerances stays a corner, at the point given;
// closed joins the last point to the first. The ends of an open polyline, and its
// corners, are kept exactly.
//
// Between corners each node and its direction come from a parabola of least
// squares through the points near by, so that noise below the tolerance does not
// reach the arcs; from each node the longest biarc within tol is taken. A piece
// that no arc can follow within tol keeps its lines. O(n log n); 200,000 points
// of a smooth outline become some hundred arcs.
func FitPolyline(ps []Point, closed bool, tol float64, corner Angle) (Path, error) {
	if tol == 0 {
		tol = CurveToArc
	}
	if corner == 0 {
		corner = 30 * Degree
	}
	if !(tol >= Coincident) || math.IsInf(tol, 1) {
		return nil, fmt.Errorf("a tolerance of %g mm; allowed: %g mm or more", tol, Coincident)
	}
	if !(corner > 0 && corner <= math.Pi) {
		return nil, fmt.Errorf("a corner of %.4g°; allowed: more than 0 up to 180°", corner.Degrees())
	}
	t, err := newTrace(ps, closed, tol, float64(corner))
	if err != nil {
		return nil, err
	}
	var path Path
	for _, s := range t.stretches() {
		path = append(path, t.follow(s)...)
	}
	if len(path) == 0 {
		return nil, errors.New("a polyline of no length")
	}
	return tidy(path), nil
}

// trace is a polyline being fitted. A closed one repeats its first point.
type trace struct {
	ps          []Point
	s           []float64 // length to each point
	closed      bool
	tol, corner float64
}

func newTrace(ps []Point, closed bool, tol, corner float64) (*trace, error) {
	t := &trace{closed: closed, tol: tol, corner: corner}
	for i, p := range ps {
		if !p.IsFinite() || math.Abs(p.X) > reach || math.Abs(p.Y) > reach {
			return nil, fmt.Errorf("point %d: (%g, %g) mm; allowed: finite, up to %.0e mm", i+1, p.X, p.Y, reach)
		}
		if n := len(t.ps); n == 0 || t.ps[n-1].Dist(p) > Coincident {
			t.ps = append(t.ps, p)
		}
	}
	if closed && len(t.ps) > 1 {
		if n := len(t.ps); t.ps[n-1].Dist(t.ps[0]) <= Coincident {
			t.ps = t.ps[:n-1]
		}
		if len(t.ps) < 3 {
			return nil, errors.New("a closed outline needs three points or more at different places")
		}
		t.ps = append(t.ps, t.ps[0])
	}
	if len(t.ps) < 2 {
		return nil, errors.New("a polyline needs two points or more at different places")
	}
	t.measure()
	return t, nil
}

func (t *trace) measure() {
	t.s = make([]float64, len(t.ps))
	for i := 1; i < len(t.ps); i++ {
		t.s[i] = t.s[i-1] + t.ps[i].Dist(t.ps[i-1])
	}
}

// runs returns the index ranges between corners, [from, to]. A closed trace is
// turned to start at a corner, if it has one.
func (t *trace) runs() [][2]int {
	marks := t.corners()
	n := len(t.ps)
	if t.closed && len(marks) > 0 && marks[0] != 0 {
		k := marks[0]
		for i := range marks {
			marks[i] -= k
		}
		t.turnTo(k)
	}
	var out [][2]int
	from := 0
	for _, m := range marks {
		if m > from && m < n-1 {
			out = append(out, [2]int{from, m})
			from = m
		}
	}
	return append(out, [2]int{from, n - 1})
}

// corners returns the points where the direction over a window turns by more
// than t.corner, each the sharpest of its neighbourhood. Noise of tol turns a
// chord of the window by 2·tol/window, an eighth of the corner a side.
func (t *trace) corners() []int {
	n := len(t.ps) // a closed trace repeats its first point
	window := 16 * t.tol / t.corner
	sharp := make([]float64, n)
	for i := range sharp {
		if !t.closed && (i == 0 || i == n-1) {
			continue
		}
		sharp[i] = math.Abs(t.turnAt(i, window))
	}
	var out []int
	for i := 0; i < n; i++ {
		if sharp[i] <= t.corner || t.closed && i == n-1 {
			continue
		}
		best := true
		for k := i - 1; best && k >= 0 && t.s[i]-t.s[k] <= window; k-- {
			best = sharp[k] < sharp[i]
		}
		for k := i + 1; best && k < n && t.s[k]-t.s[i] <= window; k++ {
			best = sharp[k] <= sharp[i]
		}
		if best {
			out = append(out, i)
		}
	}
	return out
}

// turnAt returns the turn at point i between chords to the first points at least
// window away on both sides.
func (t *trace) turnAt(i int, window float64) float64 {
	return turn(t.ps[i].Sub(t.before(i, window)), t.after(i, window).Sub(t.ps[i]))
}

// after returns the first point at least d further along than point i, the last
// of an open trace, the one before i round a closed one.
func (t *trace) after(i int, d float64) Point {
	n := len(t.ps)
	want := t.s[i] + d
	k := i + 1 + sort.SearchFloat64s(t.s[min(i+1, n):], want)
	if k < n {
		return t.ps[k]
	}
	if !t.closed {
		return t.ps[n-1]
	}
	k = max(1, sort.SearchFloat64s(t.s, want-t.s[n-1]))
	return t.ps[min(k, max(i-1, 0))]
}

// before is after, the other way.
func (t *trace) before(i int, d float64) Point {
	n := len(t.ps)
	want := t.s[i] - d
	k := sort.Search(i, func(k int) bool { return t.s[k] > want }) - 1
	if k >= 0 {
		return t.ps[k]
	}
	if !t.closed {
		return t.ps[0]
	}
	want += t.s[n-1]
	k = min(n-2, sort.Search(n, func(k int) bool { return t.s[k] > want })-1)
	return t.ps[max(k, min(i+1, n-1))]
}

// traceNode is a point on or near the trace with a direction, at point k.
type traceNode struct {
	at  Point
	dir Vec
	k   int
}

// turnTo turns a closed trace to start at point k.
func (t *trace) turnTo(k int) {
	n := len(t.ps)
	t.ps = append(append([]Point{}, t.ps[k:n-1]...), t.ps[:k+1]...)
	t.measure()
}

// follow returns the segments along a stretch.
func (t *trace) follow(s stretch) Path {
	if s.line || s.last.k == s.first.k+1 {
		return Path{Line(s.first.at, s.last.at)}
	}
	var p Path
	guess := 8
	for a := s.first; a.k < s.last.k; {
		b, segs := t.longest(a, s, &guess)
		if segs == nil { // nothing holds: keep the line
			b = traceNode{at: t.ps[a.k+1], k: a.k + 1}
			if b.k == s.last.k {
				b = s.last
			}
			segs = []Seg{Line(a.at, b.at)}
		}
		p = append(p, segs...)
		a = b
	}
	return p
}

// startsAtCorner reports whether the seam of a closed trace is a corner.
func (t *trace) startsAtCorner() bool {
	return math.Abs(t.turnAt(0, 16*t.tol/t.corner)) > t.corner
}

// seam returns the node where a smooth closed trace begins and ends.
func (t *trace) seam() traceNode {
	n := len(t.ps) - 1
	k := min(8, (n-1)/2)
	w := make([]Point, 0, 2*k+1)
	for i := -k; i <= k; i++ {
		w = append(w, t.ps[((i%n)+n)%n])
	}
	at, dir := parabola(w, k)
	if at.Dist(t.ps[0]) > t.tol/2 {
		at = t.ps[0]
	}
	return traceNode{at: at, dir: dir}
}

// longest returns the node that the longest biarc from a reaches and the biarc,
// nil if none holds. A node without direction (a corner, an end) tries several.
func (t *trace) longest(a traceNode, s stretch, guess *int) (traceNode, []Seg) {
	to, run := s.last.k, [2]int{s.first.k, s.last.k}
	var best []Seg
	var node traceNode
	try := func(j int) bool {
		for _, share := range [3]int{4, 10, 30} {
			w := max(2, (j-a.k)/share)
			b := s.last
			if j < to || b.dir == (Vec{}) {
				b = t.node(j, w, run)
			}
			start := a
			if start.dir == (Vec{}) {
				_, start.dir = t.smooth(a.k, w, run)
			}
			if segs, ok := t.biarc(start, b); ok {
				best, node = segs, b
				return true
			}
			if w == 2 {
				break
			}
		}
		return false
	}
	good, bad := a.k, to+1
	for step := max(1, *guess); ; step /= 2 {
		j := min(a.k+step, to)
		if try(j) {
			good = j
			break
		}
		bad = j
		if step == 1 {
			return traceNode{}, nil
		}
	}
	for step := max(1, *guess/2); bad > to && good < to; step *= 2 {
		if j := min(good+step, to); try(j) {
			good = j
		} else {
			bad = j
		}
	}
	for bad-good > max(1, (good-a.k)/64) {
		if j := (good + bad) / 2; try(j) {
			good = j
		} else {
			bad = j
		}
	}
	*guess = good - a.k
	return node, best
}

// node returns the node at point j, smoothed over w points to both sides; the
// end of the run keeps its point.
func (t *trace) node(j, w int, run [2]int) traceNode {
	at, dir := t.smooth(j, w, run)
	if j == run[1] || at.Dist(t.ps[j]) > t.tol {
		at = t.ps[j]
	}
	return traceNode{at, dir, j}
}

// smooth returns the point and the direction at point j from a parabola through
// at most 33 of the points within w of it, inside the run.
func (t *trace) smooth(j, w int, run [2]int) (Point, Vec) {
	lo, hi := max(run[0], j-w), min(run[1], j+w)
	if j > run[0] && j < run[1] { // keep it even on both sides
		k := min(j-lo, hi-j)
		lo, hi = j-k, j+k
	}
	stride := max(1, (hi-lo)/32)
	var buf [40]Point
	pts, at := buf[:0], 0
	for i := j - (j-lo)/stride*stride; i <= hi; i += stride {
		if i == j {
			at = len(pts)
		}
		pts = append(pts, t.ps[i])
	}
	return parabola(pts, at)
}

// parabola returns the point and direction at place k of the parabola of least
// squares through pts, in the frame of their chord.
func parabola(pts []Point, k int) (Point, Vec) {
	o := pts[k]
	u := pts[len(pts)-1].Sub(pts[0]).Unit()
	if len(pts) < 3 || u == (Vec{}) {
		return o, u
	}
	v := u.Left()
	l := pts[0].Dist(pts[len(pts)-1])
	var m [3][4]float64
	for _, p := range pts {
		d := p.Sub(o).Mul(1 / l)
		x, y := d.Dot(u), d.Dot(v)
		b := [3]float64{1, x, x * x}
		for i := range b {
			for j := range b {
				m[i][j] += b[i] * b[j]
			}
			m[i][3] += b[i] * y
		}
	}
	rows := [][]float64{m[0][:], m[1][:], m[2][:]}
	c, err := gauss(rows)
	if err != nil {
		return o, u
	}
	return o.Add(v.Mul(c[0] * l)), u.Add(v.Mul(c[1])).Unit()
}

// biarc returns the biarc between two nodes, and whether all points between and
// the lines that join them lie within tol of it.
func (t *trace) biarc(a, b traceNode) ([]Seg, bool) {
	p, q, one, ok := biarc(a.at, a.dir, b.at, b.dir, 1)
	if !ok {
		return nil, false
	}
	across := Vec{}
	if !one {
		across = p.Tangent(1)
	}
	holds := func(c Point) bool {
		seg := &p
		if !one && across.Dot(c.Sub(p.B)) > 0 {
			seg = &q
		}
		e, _ := seg.deviation(c, Vec{})
		return math.Abs(e) <= t.tol*511/512
	}
	tight := math.Inf(1) // the smaller radius
	for _, s := range [2]Seg{p, q} {
		if s.Turn != 0 {
			tight = min(tight, s.Radius)
		}
	}
	const coarse = 61 // most biarcs that fail are found out by few points
	for k := b.k - coarse; k > a.k; k -= coarse {
		if !holds(t.ps[k]) {
			return nil, false
		}
	}
	for k := a.k; k <= b.k; k++ {
		c := t.ps[k]
		if !holds(c) {
			return nil, false
		}
		if k == b.k {
			break
		}
		// The arc leaves the line between two points by its sagitta l²/8r, which
		// counts from a 512th of the tolerance on.
		if l := t.s[k+1] - t.s[k]; l*l > t.tol*tight/64 && !holds(c.Lerp(t.ps[k+1], 0.5)) {
			return nil, false
		}
	}
	if one {
		return []Seg{p}, true
	}
	return []Seg{p, q}, true
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
