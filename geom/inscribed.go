package geom

import "math"

// InscribedCircle returns the widest circle inside r: the place farthest from
// the boundary. The radius is within 1e-6 mm of the widest there is; the centre
// is one of those that reach it (in a slot there is a whole line of them). The
// zero Disc for a region without area. A region that is some 10⁵ times longer
// than wide may need more squares than are allowed; then the circle is the best
// of those met, and no wider than the widest.
//
// Best-first search over squares that halve. In a square with the middle c the
// distance to the boundary is bounded by the nearest places p_i seen from c:
//
//	min_i |x − p_i| ≤ min_i (d_i + g_i·(x − c)) + |x − c|²/2·(d_i − |x − c|)⁻¹
//
// with unit gradients g_i. Where two or three of them pull against each other
// that bound is of second order, so that even the ridge of a slot takes few
// squares. A square whose middle is the best so far is refined by steps along
// the g_i.
func InscribedCircle(r Region) Disc {
	const tol, most = 1e-6, 200_000
	t := IndexOf(r)
	if t.empty() || !(r.Area() > math.Pi*tol*tol) { // no room for a circle of tol
		return Disc{}
	}
	f := t.boxes[1]
	s := inscriber{t: t}
	h := max(min(f.x1-f.x0, f.y1-f.y0)/2, max(f.x1-f.x0, f.y1-f.y0)/64)
	if !(h > 0) {
		return Disc{}
	}
	s.seed(r)
	for x := f.x0 + h; x-h < f.x1; x += 2 * h {
		for y := f.y0 + h; y-h < f.y1; y += 2 * h {
			s.add(Pt(x, y), h, tol)
		}
	}
	for range most {
		if len(s.heap) == 0 {
			break
		}
		c := s.pop()
		if c.bound <= s.best.Radius+tol {
			break
		}
		k := c.h / 2
		for _, v := range [4]Vec{{-k, -k}, {k, -k}, {-k, k}, {k, k}} {
			s.add(c.c.Add(v), k, tol)
		}
	}
	return s.best
}

// inscriber is the state of the search.
type inscriber struct {
	t     *Index
	best  Disc
	heap  []square // the largest bound first
	walls []wall
}

type square struct {
	c     Point
	h     float64 // half the side
	bound float64 // no place in it is farther from the boundary
}

// wall is a boundary place near a point: its distance and the unit vector away
// from it. bend tells that the distance may exceed its tangent plane near the
// point. hub is the centre when it is an arc that the whole surroundings of the
// point project onto.
type wall struct {
	d    float64
	g    Vec
	bend bool
	hub  *Point
}

// seed tries the widest disc that touches the middle of each of up to 64
// segments from inside, so that thin regions are not missed by the squares.
func (s *inscriber) seed(r Region) {
	n := r.Segs()/64 + 1
	k := 0
	for _, p := range r {
		for i := range p {
			if k++; k%n != 0 {
				continue
			}
			m, in := p[i].At(0.5), p[i].Tangent(0.5).Left()
			f := &s.t.boxes[1]
			radius := (f.x1 - f.x0 + f.y1 - f.y0) / 2
			for range 50 {
				q, d := s.t.Closest(m.Add(in.Mul(radius)))
				v := q.Sub(m)
				if d >= radius*(1-1e-12) || v.Dot(in) <= 0 {
					break
				}
				// The disc through q that touches at m.
				radius = min(radius*0.999, v.Dot(v)/(2*v.Dot(in)))
			}
			c := m.Add(in.Mul(radius))
			if _, d := s.t.Closest(c); d > s.best.Radius && s.t.Contains(c) {
				s.best = Disc{c, d}
			}
		}
	}
	s.climb(s.best.Center, s.best.Radius, s.best.Radius/16)
}

func (s *inscriber) add(c Point, h, tol float64) {
	_, d2 := s.t.closest(c, math.Inf(1))
	d := math.Sqrt(d2)
	reach := h * math.Sqrt2
	in := s.t.Contains(c)
	better := in && d > s.best.Radius
	if better {
		s.best = Disc{c, d}
	}
	top := d + reach
	if !in {
		top = reach - d
	}
	if top <= s.best.Radius+tol {
		return
	}
	if in {
		if better {
			s.climb(c, d, reach)
		}
		s.walls = s.t.wallsNear(c, d+2*reach, reach, s.walls[:0])
		top = min(top, boundOf(s.walls, reach))
		if top <= s.best.Radius+tol {
			return
		}
	}
	s.push(square{c, h, top})
}

// climb moves c to a local maximum of the distance by steps that each make the
// best of the nearest places, taken as straight, within a shrinking reach.
func (s *inscriber) climb(c Point, d, reach float64) {
	for range 40 {
		s.walls = s.t.wallsNear(c, d+2*reach, reach, s.walls[:0])
		v := ascent(s.walls, reach)
		if v == (Vec{}) {
			return
		}
		q := c.Add(v)
		_, d2 := s.t.closest(q, math.Inf(1))
		e := math.Sqrt(d2)
		if e > d && s.t.Contains(q) {
			if e-d < 1e-12*e {
				return
			}
			c, d = q, e
			if d > s.best.Radius {
				s.best = Disc{c, d}
			}
			continue
		}
		if reach /= 4; reach < 1e-9 {
			return
		}
	}
}

// wallsNear collects the nearest place of every segment within limit of c, at
// most 24, nearer ones first; neighbours that show the same direction count
// once. A straight segment that c's whole surroundings (reach) project onto, or
// an arc seen from its own side, has no bend.
func (t *Index) wallsNear(c Point, limit, reach float64, out []wall) []wall {
	var room [64]int
	stack := append(room[:0], 1)
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if t.boxes[i].dist2(c) > limit*limit {
			continue
		}
		if !t.isLeaf(i) {
			stack = append(stack, 2*i, 2*i+1)
			continue
		}
		segs := t.run(i).segs
		for k := range segs {
			s := &segs[k]
			q := s.Closest(c)
			v := c.Sub(q)
			d := v.Len()
			if d > limit || d == 0 {
				continue
			}
			w := wall{d: d, g: v.Mul(1 / d)}
			w.bend, w.hub = s.bends(c, q, reach)
			out = keepWall(out, w)
		}
	}
	return out
}

// keepWall inserts w in the order of distance, one for each direction.
func keepWall(ws []wall, w wall) []wall {
	const most = 24
	at := len(ws)
	for i := range ws {
		if ws[i].g.Dot(w.g) > 1-1e-12 && ws[i].d <= w.d && !ws[i].bend {
			return ws
		}
		if ws[i].d > w.d && i < at {
			at = i
		}
	}
	if at >= most {
		return ws
	}
	if len(ws) == most {
		ws = ws[:most-1]
	}
	ws = append(ws, wall{})
	copy(ws[at+1:], ws[at:])
	ws[at] = w
	return ws
}

// bends reports whether the distance to s may exceed its tangent plane at c
// (whose closest point on s is q) within reach of c; and the centre of an arc
// that everything within reach projects onto.
func (s *Seg) bends(c, q Point, reach float64) (bool, *Point) {
	if s.Turn == 0 {
		u := s.B.Sub(s.A)
		l := u.Len()
		x := c.Sub(s.A).Dot(u) / l
		return x < reach || x > l-reach, nil
	}
	// Inside its own circle the distance r − |x − centre| is hollow; the arc's
	// ends must be out of the way.
	v := c.Sub(s.Center)
	d := v.Len()
	if d <= reach || q == s.A || q == s.B {
		return true, nil
	}
	turn := Angle(math.Asin(reach / d))
	if !s.onSweep(v.Rotate(turn)) || !s.onSweep(v.Rotate(-turn)) {
		return true, nil
	}
	return d >= s.Radius, &s.Center
}

// boundOf returns an upper bound of the distance to the boundary within reach
// of the point that the walls were collected for: any mixture λ of the walls
// gives Σλ·(d + bend) + reach·|Σλ·g|. The best single wall, pairs and triples
// with the opposed directions balanced are tried.
func boundOf(ws []wall, reach float64) float64 {
	best := math.Inf(1)
	for _, w := range ws {
		best = min(best, w.top(reach)+reach)
	}
	n := min(len(ws), 10)
	for i := range n {
		for j := range i {
			a, b := ws[i], ws[j]
			if a.hub != nil && b.hub != nil && a.g.Dot(b.g) < 0 && a.hub.Dist(*b.hub) < Coincident/4 {
				// Between two arcs about one centre the distances have a fixed sum.
				best = min(best, (a.d+b.d+Coincident/4)/2)
			}
			// The mixture of two with the shortest gradient is half and half.
			g := a.g.Add(b.g).Len() / 2
			best = min(best, (a.top(reach)+b.top(reach))/2+reach*g)
			for k := range j {
				c := ws[k]
				// Barycentric: λ with Σλ·g = 0, if the three hold the origin.
				x, y, z := b.g.Cross(c.g), c.g.Cross(a.g), a.g.Cross(b.g)
				if x < 0 {
					x, y, z = -x, -y, -z
				}
				if sum := x + y + z; x > 0 && y > 0 && z > 0 {
					best = min(best, (x*a.top(reach)+y*b.top(reach)+z*c.top(reach))/sum)
				}
			}
		}
	}
	return best
}

func (w wall) top(reach float64) float64 {
	if !w.bend {
		return w.d
	}
	if w.d <= 2*reach {
		return w.d + reach // no use of second order so near
	}
	return w.d + reach*reach/(2*(w.d-reach))
}

// ascent returns the step of at most reach that raises the least of the walls'
// distances most, were they straight: the best vertex of that small linear
// program, found among the walls by pairs and triples. Zero if none gains.
func ascent(ws []wall, reach float64) Vec {
	n := min(len(ws), 10)
	if n == 0 {
		return Vec{}
	}
	least := func(v Vec) float64 {
		m := math.Inf(1)
		for _, w := range ws[:n] {
			m = min(m, w.d+w.g.Dot(v))
		}
		return m
	}
	best, top := Vec{}, least(Vec{})+1e-15
	try := func(v Vec) {
		if l := v.Len(); l > reach {
			v = v.Mul(reach / l)
		}
		if m := least(v); m > top {
			best, top = v, m
		}
	}
	for i := range n {
		a := ws[i]
		try(a.g.Mul(reach))
		for j := range i {
			b := ws[j]
			// Equal distances from a and b lie on a line; its point nearest to
			// the middle, and how far to go along it.
			e := a.g.Sub(b.g)
			ee := e.Dot(e)
			if ee < 1e-18 {
				continue
			}
			foot := e.Mul((b.d - a.d) / ee)
			try(foot)
			if rest := reach*reach - foot.Dot(foot); rest > 0 {
				along := e.Left().Mul(math.Sqrt(rest / ee))
				try(foot.Add(along))
				try(foot.Sub(along))
			}
			for k := range j {
				c := ws[k]
				f := a.g.Sub(c.g)
				if det := e.Cross(f); math.Abs(det) > 1e-12 {
					p, q := b.d-a.d, c.d-a.d // e·v = p, f·v = q
					try(Vec{(p*f.Y - q*e.Y) / det, (e.X*q - f.X*p) / det})
				}
			}
		}
	}
	return best
}

// push and pop keep the heap ordered by bound, ties by place, so that the
// result does not depend on anything but the input.
func (s *inscriber) push(c square) {
	s.heap = append(s.heap, c)
	for i := len(s.heap) - 1; i > 0; {
		p := (i - 1) / 2
		if s.heap[p].bound >= s.heap[i].bound {
			break
		}
		s.heap[p], s.heap[i] = s.heap[i], s.heap[p]
		i = p
	}
}

func (s *inscriber) pop() square {
	top := s.heap[0]
	n := len(s.heap) - 1
	s.heap[0] = s.heap[n]
	s.heap = s.heap[:n]
	for i := 0; ; {
		c := 2*i + 1
		if c >= n {
			return top
		}
		if c+1 < n && s.heap[c+1].bound > s.heap[c].bound {
			c++
		}
		if s.heap[i].bound >= s.heap[c].bound {
			return top
		}
		s.heap[i], s.heap[c] = s.heap[c], s.heap[i]
		i = c
	}
}
