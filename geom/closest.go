package geom

import "math"

// SegDistance returns the least distance in mm between two segments and where
// on each it is taken: closed forms for line/line, line/arc and arc/arc. It is
// 0, with one point twice, when they cross. Where several pairs of places are
// as close, it is one of them. O(1).
func SegDistance(a, b Seg) (d float64, pa, pb Point) {
	g := gap{d2: math.Inf(1)}
	g.segs(&a, &b)
	return math.Sqrt(g.d2), g.a, g.b
}

// gap is the least distance found so far, squared, and its witnesses.
type gap struct {
	d2   float64
	a, b Point
}

// try keeps a pair of witnesses if it is closer.
func (g *gap) try(a, b Point) {
	dx, dy := a.X-b.X, a.Y-b.Y
	if d := dx*dx + dy*dy; d < g.d2 {
		g.d2, g.a, g.b = d, a, b
	}
}

// meet notes a common point.
func (g *gap) meet(p Point) { g.d2, g.a, g.b = 0, p, p }

// segs keeps the witnesses of two segments if they are closer.
//
// The least distance is taken at a crossing, at an end of one of the two, or
// where the connecting line is square to both. All of them are tried.
func (g *gap) segs(a, b *Seg) {
	switch {
	case a.Turn == 0 && b.Turn == 0:
		g.lineLine(a, b)
	case a.Turn == 0:
		g.lineArc(a, b)
	case b.Turn == 0:
		g.flip()
		g.lineArc(b, a)
		g.flip()
	default:
		g.arcArc(a, b)
	}
}

func (g *gap) flip() { g.a, g.b = g.b, g.a }

func (g *gap) lineLine(a, b *Seg) {
	u, v, w := a.B.Sub(a.A), b.B.Sub(b.A), b.A.Sub(a.A)
	o1, o3 := u.Cross(w), v.Cross(w) // b.A from a; a.A from b is −w
	uv := u.Cross(v)
	o2, o4 := o1+uv, o3+uv
	if (o1 < 0) != (o2 < 0) && (o3 < 0) != (o4 < 0) && uv != 0 {
		// a(t) = b(s): t = w×v / u×v. Segments one behind the other on one line have
		// products of rounding alone, whose signs mean nothing: then b is not there.
		p := a.A.Lerp(a.B, min(1, max(0, -o3/uv)))
		if p.Dist(b.lineClosest(p)) < Coincident {
			g.meet(p)
			return
		}
	}
	g.try(a.A, b.lineClosest(a.A))
	g.try(a.B, b.lineClosest(a.B))
	g.try(a.lineClosest(b.A), b.A)
	g.try(a.lineClosest(b.B), b.B)
}

// lineClosest is Closest for a straight segment.
func (s *Seg) lineClosest(p Point) Point {
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	t := (p.X-s.A.X)*dx + (p.Y-s.A.Y)*dy
	l := dx*dx + dy*dy
	switch {
	case t <= 0:
		return s.A
	case t >= l:
		return s.B
	}
	t /= l
	return Point{s.A.X + t*dx, s.A.Y + t*dy}
}

func (g *gap) lineArc(a, b *Seg) {
	t := a.B.Sub(a.A)
	l := t.Len()
	if l > 0 {
		t = t.Mul(1 / l)
		w := b.Center.Sub(a.A)
		at, h := w.Dot(t), w.Cross(t) // foot of the centre along a; how far beside it
		foot := a.A.Add(t.Mul(at))
		r := b.Radius
		if k2 := (r - h) * (r + h); k2 >= 0 {
			k := math.Sqrt(k2)
			for _, x := range [2]float64{at - k, at + k} {
				p := a.A.Add(t.Mul(x))
				if x >= 0 && x <= l && b.onSweep(p.Sub(b.Center)) {
					g.meet(p)
					return
				}
			}
		} else if at >= 0 && at <= l {
			// Square to both; the side of the centre that the line is on.
			n := Vec{-t.Y, t.X}
			if h < 0 {
				n = n.Neg()
			}
			if b.onSweep(n) {
				g.try(foot, b.Center.Add(n.Mul(r)))
			}
		}
	}
	g.try(a.A, b.Closest(a.A))
	g.try(a.B, b.Closest(a.B))
	g.try(a.lineClosest(b.A), b.A)
	g.try(a.lineClosest(b.B), b.B)
}

func (g *gap) arcArc(a, b *Seg) {
	w := b.Center.Sub(a.Center)
	d := w.Len()
	// Concentric circles: the closest places include an end of one of the arcs.
	if d > 0 {
		u := w.Mul(1 / d)
		ra, rb := a.Radius, b.Radius
		x := (d + (ra-rb)*(ra+rb)/d) / 2 // from a's centre to the common chord
		if y2 := (ra - x) * (ra + x); y2 >= 0 {
			y := math.Sqrt(y2)
			for _, s := range [2]float64{y, -y} {
				p := a.Center.Add(u.Mul(x)).Add(u.Left().Mul(s))
				if a.onSweep(p.Sub(a.Center)) && b.onSweep(p.Sub(b.Center)) {
					g.meet(p)
					return
				}
			}
		} else {
			va, vb := u, u.Neg() // apart: towards each other
			if d < ra-rb {
				vb = u // b inside a
			} else if d < rb-ra {
				va = u.Neg() // a inside b
			}
			if a.onSweep(va) && b.onSweep(vb) {
				g.try(a.Center.Add(va.Mul(ra)), b.Center.Add(vb.Mul(rb)))
			}
		}
	}
	g.try(a.A, b.Closest(a.A))
	g.try(a.B, b.Closest(a.B))
	g.try(a.Closest(b.A), b.A)
	g.try(a.Closest(b.B), b.B)
}
