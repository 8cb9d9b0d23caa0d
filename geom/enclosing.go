package geom

import "math"

// Disc is a circle with its inside: a bored hole, a place for a cutter. The zero
// Disc is a point at the origin.
type Disc struct {
	Center Point
	Radius float64
}

// Path returns the rim counter-clockwise.
func (d Disc) Path() Path { return Circle(d.Center, d.Radius) }

// Area returns the area in mm².
func (d Disc) Area() float64 { return math.Pi * d.Radius * d.Radius }

// EnclosingCircle returns the least circle that holds the path, its arcs too and
// not only its vertices. The radius is the distance from the centre to the
// farthest point of p, so that the circle holds p to rounding; it exceeds the
// least by at most 1e-9 of itself. The zero Disc for an empty path.
//
// It grows a set of points: the circle of the set is found exactly, the farthest
// point of the path joins the set, until none lies outside. On a path of lines
// that ends with the circle of its vertices; on arcs the new points run into the
// places of contact. O(n) a round, some 5 to 15 rounds.
func EnclosingCircle(p Path) Disc {
	if len(p) == 0 {
		return Disc{}
	}
	set := []Point{p[0].A}
	d := Disc{Center: p[0].A}
	for range 60 {
		far, r := p.farthest(d.Center)
		if r <= d.Radius*(1+1e-12) {
			break
		}
		if n := len(set); n > 3 {
			set = d.rimPoints(set)
		}
		set = append(set, far)
		d = circleOf(set)
	}
	_, d.Radius = p.farthest(d.Center)
	return d
}

// rimPoints drops the points well inside d; those cannot matter any more as
// long as the circle only grows.
func (d Disc) rimPoints(set []Point) []Point {
	keep := set[:0]
	for _, q := range set {
		if q.Dist(d.Center) > d.Radius*0.999 {
			keep = append(keep, q)
		}
	}
	return keep
}

// farthest returns the point of p farthest from c and its distance.
func (p Path) farthest(c Point) (far Point, d float64) {
	d = -1
	try := func(q Point) {
		if e := q.Dist(c); e > d {
			far, d = q, e
		}
	}
	for i := range p {
		s := &p[i]
		try(s.A)
		try(s.B)
		if s.Turn == 0 {
			continue
		}
		if v := s.Center.Sub(c); v != (Vec{}) && s.onSweep(v) {
			try(s.Center.Add(v.Unit().Mul(s.Radius)))
		} else if v == (Vec{}) {
			try(s.At(0.5))
		}
	}
	return far, d
}

// circleOf returns the least circle of some few points: the least among the
// circles over two and through three of them that hold all.
func circleOf(set []Point) Disc {
	if len(set) == 1 {
		return Disc{Center: set[0]}
	}
	best := Disc{Radius: math.Inf(1)}
	// The worst excess of a circle counts on top, so that rounding never leaves
	// no circle at all.
	try := func(d Disc) {
		for _, q := range set {
			d.Radius = max(d.Radius, q.Dist(d.Center))
		}
		if d.Radius < best.Radius {
			best = d
		}
	}
	for i, a := range set {
		for j, b := range set[:i] {
			try(Disc{Center: a.Lerp(b, 0.5)})
			for _, c := range set[:j] {
				u, v := b.Sub(a), c.Sub(a)
				k := 2 * u.Cross(v)
				if k == 0 {
					continue
				}
				uu, vv := u.Dot(u), v.Dot(v)
				try(Disc{Center: a.Add(Vec{v.Y*uu - u.Y*vv, u.X*vv - v.X*uu}.Mul(1 / k))})
			}
		}
	}
	return best
}
