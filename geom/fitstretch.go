package geom

import "math"

// stretch is a part of a trace between two nodes: a line, or a curve. A node
// without direction is a corner or an open end.
type stretch struct {
	first, last traceNode
	line        bool
}

// stretches returns the parts of the trace between its corners: the straight
// ones as lines, between them curves that are to meet the lines smoothly.
func (t *trace) stretches() []stretch {
	runs := t.runs()
	end := func(k int) traceNode { return traceNode{at: t.ps[k], k: k} }
	if len(runs) == 1 && t.closed && !t.startsAtCorner() {
		n := len(t.ps) - 1
		for _, l := range t.lines(0, n, false) {
			if l.first.k > 16 { // not one that the seam cuts short
				t.turnTo(l.first.k)
				break
			}
		}
		first := t.seam()
		lines := t.lines(0, n, false)
		if m := len(lines); m > 0 {
			// The node at the seam is that of the line which starts or ends there.
			end := &lines[m-1].last
			switch {
			case lines[0].first.k == 0:
				first = lines[0].first
			case end.k == n:
				first = *end
				first.k = 0
			}
			if end.k == n {
				end.at = first.at
			}
		}
		last := first
		last.k = n
		return alternate(first, last, lines)
	}
	var out []stretch
	for _, r := range runs {
		out = append(out, alternate(end(r[0]), end(r[1]), t.lines(r[0], r[1], true))...)
	}
	return out
}

// alternate returns the lines and the curves from first to last.
func alternate(first, last traceNode, lines []stretch) []stretch {
	var out []stretch
	at := first
	for _, l := range lines {
		if l.first.k > at.k {
			out = append(out, stretch{first: at, last: l.first})
		}
		out = append(out, l)
		at = l.last
	}
	if at.k < last.k {
		out = append(out, stretch{first: at, last: last})
	}
	return out
}

const (
	// straightest is the radius in mm above which a piece of a trace counts as
	// straight where the tolerance cannot tell: flatter than any part of an
	// instrument that is meant to be curved. Common practice.
	straightest = 2000
	// linePoints is the fewest points that make a line of a trace.
	linePoints = 12
)

// lines returns the straight stretches of points from…to that are longer than a
// bow of radius straightest within tol. Kept ends keep their point.
func (t *trace) lines(from, to int, keep bool) []stretch {
	least := math.Sqrt(8 * straightest * t.tol)
	var out []stretch
	low := from // no line starts before
	for i := from; i < to; {
		j := t.ray(i, to)
		if j-i >= linePoints && t.s[j]-t.s[i] > least {
			if l, ok := t.line(i, j, low, to, from, keep); ok && t.s[l.last.k]-t.s[l.first.k] > least {
				out = append(out, l)
				low = l.last.k
				i = max(i+1, l.last.k)
				continue
			}
		}
		i += max(1, (j-i)/2)
	}
	return out
}

// ray returns the last point up to which all lie within tol/2 of one ray from
// point i.
func (t *trace) ray(i, to int) int {
	o, w := t.ps[i], t.tol/2
	var axis Vec
	lo, hi := -math.Pi/2, math.Pi/2
	for j := i + 1; j <= to; j++ {
		v := t.ps[j].Sub(o)
		l := v.Len()
		if l <= 4*w {
			continue
		}
		if axis == (Vec{}) {
			axis = v
		}
		a, h := turn(axis, v), math.Asin(w/l)
		lo, hi = max(lo, a-h), min(hi, a+h)
		if lo > hi {
			return j - 1
		}
	}
	return to
}

// line returns the line of least squares through the middle of points i…j, as
// far as the points follow it between low and high. from is the start of the run,
// whose ends keep their points if keep is set.
func (t *trace) line(i, j, low, high, from int, keep bool) (stretch, bool) {
	a, b := i+(j-i)/10, j-(j-i)/10
	o, u, sigma := t.leastSquares(a, b)
	off := func(k int) float64 { return u.Cross(t.ps[k].Sub(o)) }
	// The mean over a few points follows the curve through the noise.
	w := min(16, (j-i)/linePoints)
	limit := max(t.tol/8, 4*sigma/math.Sqrt(float64(w)))
	mean := func(k, step int) float64 {
		sum := 0.0
		for n := 0; n < w; n++ {
			sum += off(k + n*step)
		}
		return math.Abs(sum) / float64(w)
	}
	for a-w >= low && mean(a-1, -1) <= limit {
		a -= w
	}
	for b+w <= high && mean(b+1, 1) <= limit {
		b += w
	}
	if a-from < w {
		a = from
	}
	if high-b < w {
		b = high
	}
	foot := func(k int) traceNode {
		return traceNode{at: o.Add(u.Mul(t.ps[k].Sub(o).Dot(u))), k: k}
	}
	l := stretch{first: foot(a), last: foot(b), line: true}
	if keep && a == from {
		l.first.at = t.ps[a]
	}
	if keep && b == high {
		l.last.at = t.ps[b]
	}
	dir := l.last.at.Sub(l.first.at).Unit()
	for k := a; k <= b; k++ {
		if !(math.Abs(dir.Cross(t.ps[k].Sub(l.first.at))) <= t.tol) {
			return stretch{}, false
		}
	}
	l.first.dir, l.last.dir = dir, dir
	return l, true
}

// leastSquares returns the line of least squares through points a…b, and the
// mean square deviation's root.
func (t *trace) leastSquares(a, b int) (o Point, u Vec, sigma float64) {
	n := float64(b - a + 1)
	p0 := t.ps[a]
	var m Vec
	for k := a; k <= b; k++ {
		m = m.Add(t.ps[k].Sub(p0))
	}
	o = p0.Add(m.Mul(1 / n))
	var xx, xy, yy float64
	for k := a; k <= b; k++ {
		v := t.ps[k].Sub(o)
		xx, xy, yy = xx+v.X*v.X, xy+v.X*v.Y, yy+v.Y*v.Y
	}
	u = Angle(math.Atan2(2*xy, xx-yy) / 2).Unit()
	if u.Dot(t.ps[b].Sub(t.ps[a])) < 0 {
		u = u.Neg()
	}
	for k := a; k <= b; k++ {
		d := u.Cross(t.ps[k].Sub(o))
		sigma += d * d
	}
	return o, u, math.Sqrt(sigma / n)
}
