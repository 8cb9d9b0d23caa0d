package space

import (
	"math"
	"sort"

	"routwright/geom"
	"routwright/templates/part"
)

// piece is a convex piece of a body: a cylinder, or a prism over a trapezoid
// between two sides of a plan, the chords standing for sides that are arcs.
type piece struct {
	box box
	// out is how far the body may lie from this piece, mm: 0 but for arcs.
	out float64

	// A cylinder.
	drilled  bool
	from, to part.Point
	axis     part.Point // unit, from → to
	e, f     part.Point // unit, square to it and to each other
	r        float64

	// A prism.
	corners     [8]part.Point
	solid       *part.Solid
	left, right geom.Seg // sides, each monotone in y
	y0, y1      float64
}

func (p *piece) support(d part.Point) part.Point {
	if p.drilled {
		end := p.from
		if dot(d, p.axis) > 0 {
			end = p.to
		}
		// By e and f the rim stays square to the axis even where d all but runs
		// along it.
		u, v := dot(d, p.e), dot(d, p.f)
		if l := math.Hypot(u, v); l > 0 {
			end = add(end, add(mul(p.e, p.r*u/l), mul(p.f, p.r*v/l)))
		}
		return end
	}
	best, most := p.corners[0], dot(p.corners[0], d)
	for _, c := range p.corners[1:] {
		if x := dot(c, d); x > most {
			best, most = c, x
		}
	}
	return best
}

// bored returns the piece of a bore.
func bored(b part.Bore) piece {
	p := piece{drilled: true, from: b.From, to: b.To, r: b.D / 2}
	if l := b.Length(); l > 0 {
		p.axis = mul(sub(b.To, b.From), 1/l)
	} else {
		p.axis = part.Point{Z: 1}
	}
	p.e, p.f = squareTo(p.axis)
	side := func(u float64) float64 { return p.r * math.Sqrt(max(0, 1-u*u)) }
	p.box = noBox.with(b.From).with(b.To).grow(part.Point{X: side(p.axis.X), Y: side(p.axis.Y), Z: side(p.axis.Z)})
	return p
}

// prism returns the piece of a solid between two sides from y0 to y1.
func prism(s *part.Solid, left, right geom.Seg, y0, y1 float64) piece {
	p := piece{solid: s, left: left, right: right, y0: y0, y1: y1, box: noBox}
	i := 0
	for _, y := range [2]float64{y0, y1} {
		for _, side := range [2]*geom.Seg{&left, &right} {
			q := geom.Pt(acrossAt(side, y), y)
			p.corners[i] = part.Point{X: q.X, Y: q.Y, Z: s.Top.At(q)}
			p.corners[i+1] = part.Point{X: q.X, Y: q.Y, Z: s.Floor.At(q)}
			p.box = p.box.with(p.corners[i]).with(p.corners[i+1])
			i += 2
		}
	}
	flat := max(sagitta(&left, p.corners[0], p.corners[4]), sagitta(&right, p.corners[2], p.corners[6]))
	if flat > 0 {
		slope := max(math.Hypot(s.Top.DX, s.Top.DY), math.Hypot(s.Floor.DX, s.Floor.DY))
		p.out = flat * (1 + slope)
		p.box = p.box.grow(part.Point{X: flat, Y: flat, Z: flat * slope})
	}
	return p
}

// sagitta returns how far the arc s, between a and b on it, lies from its chord.
func sagitta(s *geom.Seg, a, b part.Point) float64 {
	if !s.IsArc() {
		return 0
	}
	half := min(a.Flat().Dist(b.Flat())/2, s.Radius)
	// r − √(r² − h²), without the loss of digits.
	return half * half / (s.Radius + math.Sqrt((s.Radius-half)*(s.Radius+half)))
}

// halves returns the two halves of a prism, parted where the arc that lies
// furthest from its chord has its middle.
func (p *piece) halves() (piece, piece) {
	s := &p.left
	if sagitta(&p.right, p.corners[2], p.corners[6]) > sagitta(&p.left, p.corners[0], p.corners[4]) {
		s = &p.right
	}
	a, b := geom.Pt(acrossAt(s, p.y0), p.y0), geom.Pt(acrossAt(s, p.y1), p.y1)
	mid := a.Lerp(b, 0.5).Sub(s.Center)
	y := s.Center.Y + s.Radius*mid.Unit().Y
	if !(y > p.y0 && y < p.y1) {
		y = (p.y0 + p.y1) / 2
	}
	return prism(p.solid, p.left, p.right, p.y0, y), prism(p.solid, p.left, p.right, y, p.y1)
}

// inside returns the point of the body's own piece nearest to q, as good as:
// q moved across to the sides and along to the surfaces.
func (p *piece) inside(q part.Point) part.Point {
	if p.drilled || p.out == 0 {
		return q
	}
	y := max(p.y0, min(p.y1, q.Y))
	l, r := acrossAt(&p.left, y), acrossAt(&p.right, y)
	x := max(l, min(r, q.X))
	at := geom.Pt(x, y)
	return part.Point{X: x, Y: y, Z: max(p.solid.Top.At(at), min(p.solid.Floor.At(at), q.Z))}
}

// acrossAt returns where the side s, monotone in y, crosses the height y.
func acrossAt(s *geom.Seg, y float64) float64 {
	switch {
	case y == s.A.Y:
		return s.A.X
	case y == s.B.Y:
		return s.B.X
	case !s.IsArc():
		return s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
	}
	h := y - s.Center.Y
	w := math.Sqrt(max(0, (s.Radius-h)*(s.Radius+h)))
	if onLeft(s) {
		w = -w
	}
	return s.Center.X + w
}

// onLeft reports whether an arc that is monotone in y lies left of its centre.
func onLeft(s *geom.Seg) bool { return s.At(0.5).X < s.Center.X }

// monotone appends s, parted at its highest and lowest places, without the
// pieces that run level.
func monotone(out []geom.Seg, s geom.Seg) []geom.Seg {
	if !s.IsArc() {
		if s.A.Y != s.B.Y {
			out = append(out, s)
		}
		return out
	}
	var at []float64
	start := s.A.Sub(s.Center).Angle()
	sweep := float64(s.Sweep())
	for _, extreme := range [2]geom.Angle{90 * geom.Degree, -90 * geom.Degree} {
		turn := math.Mod(float64(extreme-start)*float64(s.Turn), 2*math.Pi)
		if turn < 0 {
			turn += 2 * math.Pi
		}
		if t := turn / math.Abs(sweep); t > 1e-9 && t < 1-1e-9 {
			at = append(at, t)
		}
	}
	sort.Float64s(at)
	done := 0.0
	for _, t := range at {
		var a geom.Seg
		a, s = s.Split((t - done) / (1 - done))
		if a.A.Y != a.B.Y {
			out = append(out, a)
		}
		done = t
	}
	if s.A.Y != s.B.Y {
		out = append(out, s)
	}
	return out
}

// prisms cuts a solid into pieces: its plan into trapezoids at the heights of
// the corners where a neighbouring side begins or ends.
func prisms(s *part.Solid) []piece {
	var sides []geom.Seg
	for _, loop := range s.Plan {
		for _, e := range loop {
			sides = monotone(sides, e)
		}
	}
	var ys []float64
	for _, e := range sides {
		ys = append(ys, e.A.Y, e.B.Y)
	}
	sort.Float64s(ys)
	type span struct {
		left, right int // sides
		from        float64
	}
	var out []piece
	var open []span
	for i := 0; i+1 < len(ys); i++ {
		y0, y1 := ys[i], ys[i+1]
		if y0 == y1 {
			continue
		}
		mid := (y0 + y1) / 2
		var row []int
		for k := range sides {
			lo, hi := min(sides[k].A.Y, sides[k].B.Y), max(sides[k].A.Y, sides[k].B.Y)
			if lo <= y0 && hi >= y1 {
				row = append(row, k)
			}
		}
		sort.SliceStable(row, func(a, b int) bool { return acrossAt(&sides[row[a]], mid) < acrossAt(&sides[row[b]], mid) })
		var next []span
		for k := 0; k+1 < len(row); k += 2 {
			at := span{row[k], row[k+1], y0}
			for j, o := range open {
				if o.left == at.left && o.right == at.right {
					at.from = o.from
					open[j].left = -1
				}
			}
			next = append(next, at)
		}
		for _, o := range open {
			if o.left >= 0 {
				out = append(out, prism(s, sides[o.left], sides[o.right], o.from, y0))
			}
		}
		open = next
	}
	for _, o := range open {
		out = append(out, prism(s, sides[o.left], sides[o.right], o.from, ys[len(ys)-1]))
	}
	return out
}
