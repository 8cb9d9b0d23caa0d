package ingest

import (
	"fmt"
	"math"

	"routwright/geom"
)

// pen draws one sub-path after another onto a canvas. Its coordinates are those
// of the drawing; m takes them to millimetres with +Y up. Neighbouring Béziers
// are gathered and become arcs together, so that they stay smooth.
type pen struct {
	to   *canvas
	m    geom.Affine
	name Name

	at, from geom.Point // mm: the current point and the start of the sub-path
	path     geom.Path
	run      []geom.Cubic
	drawn    bool
	err      error
}

// canvas gathers the pieces of a file and keeps the limits.
type canvas struct {
	strokes []stroke
	count   int
	tol     float64 // ends as near as this are joined
	joints  joints
}

// stroke is one sub-path as drawn; shut says that the file closes it.
type stroke struct {
	path geom.Path
	name Name
	shut bool
}

func (p *pen) fail(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf(format, args...)
	}
}

// place returns q in mm, failing when it is out of range.
func (p *pen) place(q geom.Point) geom.Point {
	r := p.m.Point(q)
	if !(math.Abs(r.X) <= MaxSize && math.Abs(r.Y) <= MaxSize) {
		p.fail("point (%g, %g) mm is out of range: coordinates reach %g m from the origin at most", r.X, r.Y, float64(MaxSize)/1000)
		return p.at
	}
	return r
}

func (p *pen) tick() bool {
	if p.to.count++; p.to.count > maxPieces {
		p.fail("the drawing has more than %d lines and curves: save the outline alone", maxPieces)
	}
	return p.err == nil
}

// move starts a new sub-path at q.
func (p *pen) move(q geom.Point) {
	p.flush(false)
	p.at = p.place(q)
	p.from, p.drawn = p.at, false
}

func (p *pen) line(q geom.Point) { p.lineMM(p.place(q)) }

func (p *pen) lineMM(b geom.Point) {
	if !p.tick() {
		return
	}
	p.curves()
	p.drawn = true
	if p.at.Dist(b) >= geom.Coincident {
		p.path = append(p.path, geom.Line(p.at, b))
		p.at = b
	}
}

// cubic draws a Bézier with the control points c1, c2 to q.
func (p *pen) cubic(c1, c2, q geom.Point) {
	if !p.tick() {
		return
	}
	b := geom.Cubic{p.at, p.place(c1), p.place(c2), p.place(q)}
	p.drawn = true
	if p.err != nil || b[0] == b[1] && b[1] == b[2] && b[2] == b[3] {
		return
	}
	p.run = append(p.run, b)
	p.at = b[3]
}

// quad draws a quadratic Bézier, raised to the same cubic.
func (p *pen) quad(p0, c, q geom.Point) {
	b := geom.QuadraticCubic(p0, c, q)
	p.cubic(b[1], b[2], b[3])
}

// bulge draws the arc of the given bulge from a, the current point, to b, both in
// the drawing's coordinates.
func (p *pen) bulge(a, b geom.Point, bulge float64) {
	end := p.place(b)
	if !p.tick() {
		return
	}
	_, mirrored, round := p.m.Similar()
	switch {
	case math.Abs(bulge) < 1e-12 || p.at.Dist(end) < geom.Coincident:
		p.lineMM(end)
	case !round: // a stretched block makes the arc an ellipse
		p.ellipse(ellipseOf(geom.ArcBulge(a, b, bulge)))
		p.settle(b)
	default:
		if mirrored {
			bulge = -bulge
		}
		p.curves()
		p.drawn = true
		p.arcMM(geom.ArcBulge(p.at, end, bulge))
	}
}

func ellipseOf(s geom.Seg) geom.Ellipse {
	u := s.A.Sub(s.Center)
	return geom.Ellipse{Center: s.Center, U: u, V: u.Left(), Sweep: s.Sweep()}
}

// arcMM appends an arc, in pieces of half a turn at most: joining then moves an
// end without harm.
func (p *pen) arcMM(s geom.Seg) {
	if !isFinite(s.Radius) || s.Radius > 1e9 {
		// A sagitta under Coincident/1000 even at 100 m.
		s = geom.Line(s.A, s.B)
	}
	if math.Abs(float64(s.Sweep())) > math.Pi+1e-9 {
		a, b := s.Split(0.5)
		p.path = append(p.path, a, b)
	} else {
		p.path = append(p.path, s)
	}
	p.at = s.B
}

// ellipse draws an elliptical arc, given in the drawing's coordinates, from the
// current point, which must be its start. A circle stays exact arcs: one as
// near to a circle as half of geom.CurveToArc counts as one, because editors
// write rotations with six digits.
func (p *pen) ellipse(e geom.Ellipse) {
	if !p.tick() {
		return
	}
	whole := math.Abs(float64(e.Sweep)) >= 2*math.Pi-1e-12
	e = p.m.Ellipse(e)
	end := p.placeMM(e.At(1))
	p.placeMM(e.Center.Add(e.U))
	p.placeMM(e.Center.Add(e.V))
	if p.err != nil {
		return
	}
	if whole {
		end = p.at
	}
	p.curves()
	p.drawn = true
	a, b := axes(e)
	switch {
	case a < geom.Coincident:
	case b < geom.Coincident:
		p.fail("an ellipse is flattened to a line: radii %.6g and %.6g mm", a, b)
	case a-b <= geom.CurveToArc/2:
		n := 1 + int(math.Abs(float64(e.Sweep))/(math.Pi+1e-9))
		for i := range n {
			q := part(e, float64(i)/float64(n), float64(i+1)/float64(n))
			to := q.At(1)
			if i == n-1 {
				to = end
			}
			p.circular(q, to)
		}
	default:
		p.fit(e, end)
	}
}

// settle moves the current point, and the end that led to it, to q, which it
// already is but for rounding.
func (p *pen) settle(q geom.Point) {
	b := p.place(q)
	if p.err != nil || b == p.at || len(p.run) > 0 || len(p.path) == 0 || p.at.Dist(b) > geom.Coincident {
		return
	}
	last := &p.path[len(p.path)-1]
	*last = withEnds(*last, last.A, b)
	p.at = b
}

// circular appends the arc along e, nearly a circle, to the point b.
func (p *pen) circular(e geom.Ellipse, b geom.Point) {
	turn := int8(1)
	if float64(e.Sweep)*e.U.Cross(e.V) < 0 {
		turn = -1
	}
	if p.at.Dist(b) < geom.Coincident {
		return
	}
	s := geom.ArcAbout(e.Center, p.at, b, turn)
	if math.Abs(e.Center.Dist(p.at)-s.Radius) > geom.Coincident/10 {
		s = geom.ArcBulge(p.at, b, float64(turn)*math.Tan(math.Abs(float64(e.Sweep))/4))
	}
	p.path = append(p.path, s)
	p.at = b
}

func (p *pen) placeMM(q geom.Point) geom.Point {
	m := p.m
	p.m = geom.Identity
	q = p.place(q)
	p.m = m
	return q
}

// curveMM draws a curve given in mm as a sub-path of its own.
func (p *pen) curveMM(c geom.Curve) {
	p.flush(false)
	if !p.tick() {
		return
	}
	p.at = c.At(0)
	p.from, p.drawn = p.at, true
	p.fit(c, c.At(1))
}

// fit appends the arcs that stand for c, ending at b.
func (p *pen) fit(c geom.Curve, b geom.Point) {
	q, err := geom.FitCurve(c, geom.CurveToArc)
	if err != nil {
		p.fail("a curve from (%.3f, %.3f) mm cannot be turned into arcs: %v", p.at.X, p.at.Y, err)
		return
	}
	p.extend(q, b)
}

// curves turns the gathered Béziers into arcs.
func (p *pen) curves() {
	if len(p.run) == 0 || p.err != nil {
		p.run = nil
		return
	}
	run := p.run
	p.run = nil
	q, err := geom.FitCubics(run, geom.CurveToArc)
	if err != nil {
		p.fail("a curve from (%.3f, %.3f) mm cannot be turned into arcs: %v", run[0][0].X, run[0][0].Y, err)
		return
	}
	p.at = run[0][0]
	p.extend(q, run[len(run)-1][3])
}

// extend appends q, its ends made bit-identical with the current point and b.
func (p *pen) extend(q geom.Path, b geom.Point) {
	if len(q) > 0 {
		q[0] = withEnds(q[0], p.at, q[0].B)
		q[len(q)-1] = withEnds(q[len(q)-1], q[len(q)-1].A, b)
		p.path = append(p.path, q...)
	}
	p.at = b
}

// withEnds returns s with its ends moved to a and b. An arc keeps its sweep: it
// is turned and scaled by as little as the ends move.
func withEnds(s geom.Seg, a, b geom.Point) geom.Seg {
	switch {
	case s.A == a && s.B == b:
		return s
	case s.Turn == 0:
		return geom.Line(a, b)
	case s.A.Dist(a) < geom.Coincident/10 && s.B.Dist(b) < geom.Coincident/10:
		s.A, s.B = a, b
		return s
	}
	return geom.ArcBulge(a, b, s.Bulge())
}

// shut closes the sub-path, with a straight line if its end is not yet at its
// start. Relative coordinates with few digits miss their start by a little; an
// end as near as the canvas joins is moved there instead.
func (p *pen) shut() {
	if p.err != nil {
		return
	}
	gap := p.at.Dist(p.from)
	if gap > 0 && gap <= p.to.tol {
		p.to.joints.add(p.from, gap)
	}
	switch {
	case gap == 0:
	case gap > p.to.tol || len(p.run)+len(p.path) < 2:
		p.lineMM(p.from)
	case len(p.run) > 0:
		last := &p.run[len(p.run)-1]
		last[2], last[3] = last[2].Add(p.from.Sub(p.at)), p.from
	}
	p.flush(true)
	p.at = p.from
}

// flush ends the sub-path and hands it to the canvas.
func (p *pen) flush(shut bool) {
	p.curves()
	path := p.path
	p.path = nil
	if p.err != nil || len(path) == 0 {
		return
	}
	if last := &path[len(path)-1]; shut && last.B != p.from {
		*last = withEnds(*last, last.A, p.from)
	}
	p.to.strokes = append(p.to.strokes, stroke{path, p.name, shut})
}

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
