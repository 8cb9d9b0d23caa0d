package part

import (
	"math"

	"routwright/geom"
)

// Over returns the least and the greatest depth, in mm below the finished front,
// of the surface over r; both 0 when r is empty. A plane takes its extremes at
// vertices and where an arc runs square to the slope.
func (s Plane) Over(r geom.Region) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	take := func(p geom.Point) {
		z := s.At(p)
		least, most = min(least, z), max(most, z)
	}
	up := geom.Vec{X: s.DX, Y: s.DY}.Unit()
	for _, loop := range r {
		for _, e := range loop {
			take(e.A)
			if e.Turn == 0 || up == (geom.Vec{}) {
				continue
			}
			for _, way := range [2]float64{1, -1} {
				p := e.Center.Add(up.Mul(way * e.Radius))
				if e.Closest(p).Dist(p) < geom.Coincident {
					take(p)
				}
			}
		}
	}
	if least > most {
		return 0, 0
	}
	return least, most
}

// Range returns the least and the greatest depth of the solid, in mm below the
// finished front.
func (s Solid) Range() (top, floor float64) {
	top, _ = s.Top.Over(s.Plan)
	_, floor = s.Floor.Over(s.Plan)
	return top, floor
}

// Volume returns the volume in mm³ of a solid whose top nowhere lies below its
// floor: its area times the height over its centroid, exactly, since the height
// is linear.
func (s Solid) Volume() float64 {
	m := s.Plan.Moments()
	return m.Area * (s.Floor.At(m.Centroid) - s.Top.At(m.Centroid))
}

// Column returns the depths between which the upright line through p lies in the
// solid.
func (s Solid) Column(p geom.Point) (top, floor float64, ok bool) {
	top, floor = s.Top.At(p), s.Floor.At(p)
	return top, floor, floor > top && s.Plan.Contains(p)
}

// Volume returns the volume of the bore in mm³.
func (b Bore) Volume() float64 { return math.Pi / 4 * b.D * b.D * b.Length() }

// Flat returns how far the bore runs seen from the front, mm.
func (b Bore) Flat() float64 { return b.From.Flat().Dist(b.To.Flat()) }

// Steep reports whether the bore is drilled from a face rather than from an edge
// or a wall: it runs deeper than it runs along.
func (b Bore) Steep() bool { return math.Abs(b.To.Z-b.From.Z) > b.Flat() }

// Lean returns the angle between the bore and the square to the faces: 0 for a
// square bore, a right angle for one along the faces.
func (b Bore) Lean() geom.Angle {
	return geom.Angle(math.Atan2(b.Flat(), math.Abs(b.To.Z-b.From.Z)))
}

// Entered returns the bore with its start carried outward, so far that the drill
// has cleared the whole opening: an oblique drill reaches its full diameter only
// inside. Square bores stay as they are.
func (b Bore) Entered() Bore {
	l := b.Length()
	if b.Square() || l == 0 {
		return b
	}
	out := b.D / 2 // a wall or edge at up to 45° to the drill
	if b.Steep() {
		out *= math.Tan(float64(b.Lean()))
	}
	b.From = b.From.Lerp(b.To, -out/l)
	return b
}

// reachZ returns how far the bore reaches to either side of the ends of its axis
// along z, mm.
func (b Bore) reachZ() float64 {
	l := b.Length()
	if l == 0 {
		return 0
	}
	return b.D / 2 * b.Flat() / l
}

// Range returns the least and the greatest depth of the bore, in mm below the
// finished front.
func (b Bore) Range() (top, floor float64) {
	r := b.reachZ()
	return min(b.From.Z, b.To.Z) - r, max(b.From.Z, b.To.Z) + r
}

// Bounds returns the box of the bore seen from the front.
func (b Bore) Bounds() geom.Box {
	l := b.Length()
	if l == 0 {
		return geom.Box{}
	}
	// A disc square to the unit axis u reaches D/2·√(1 − ux²) along x.
	ux, uy := (b.To.X-b.From.X)/l, (b.To.Y-b.From.Y)/l
	rx, ry := b.D/2*math.Sqrt(max(0, 1-ux*ux)), b.D/2*math.Sqrt(max(0, 1-uy*uy))
	box := geom.BoxOf(b.From.Flat(), b.To.Flat())
	return geom.BoxOf(geom.Pt(box.Min.X-rx, box.Min.Y-ry), geom.Pt(box.Max.X+rx, box.Max.Y+ry))
}

// Column returns the depths between which the upright line through p lies in the
// bore: a line through a cylinder with square ends, in closed form.
func (b Bore) Column(p geom.Point) (top, floor float64, ok bool) {
	l := b.Length()
	if l == 0 {
		return 0, 0, false
	}
	u := Point{(b.To.X - b.From.X) / l, (b.To.Y - b.From.Y) / l, (b.To.Z - b.From.Z) / l}
	wx, wy := p.X-b.From.X, p.Y-b.From.Y // the line is (wx, wy, z − From.Z)
	top, floor = math.Inf(-1), math.Inf(1)
	// Within the mantle: |w|² − (w·u)² ≤ (D/2)², w = (wx, wy, t).
	flat := wx*u.X + wy*u.Y
	a, h, c := 1-u.Z*u.Z, -flat*u.Z, wx*wx+wy*wy-flat*flat-b.D*b.D/4
	if a > 1e-15 {
		d := h*h - a*c
		if d <= 0 {
			return 0, 0, false
		}
		top, floor = (-h-math.Sqrt(d))/a, (-h+math.Sqrt(d))/a
	} else if c > 0 {
		return 0, 0, false
	}
	// Between the ends: 0 ≤ flat + t·uz ≤ l.
	if math.Abs(u.Z) > 1e-15 {
		t0, t1 := -flat/u.Z, (l-flat)/u.Z
		top, floor = max(top, min(t0, t1)), min(floor, max(t0, t1))
	} else if flat < 0 || flat > l {
		return 0, 0, false
	}
	return b.From.Z + top, b.From.Z + floor, floor > top
}

// Stage says when a part of a kind takes part in the machined body: it is built
// up and cut away in this order.
type Stage uint8

const (
	Elsewhere Stage = iota // no part of the body: covers, boards, necks
	Slab                   // the wood that everything is cut from
	Recessed               // recesses of keys, cut first
	Filled                 // keys, glued in
	Machined               // all other voids, cut through slab and keys
)

// Stage returns when the part is made.
func (p Part) Stage() Stage {
	switch {
	case p.Kind == Body:
		return Slab
	case p.Kind == Recess:
		return Recessed
	case p.Kind == Key:
		return Filled
	case p.Adds:
		return Elsewhere
	}
	return Machined
}

// WoodAt reports whether there is wood at p when all parts are made: slab or
// key, not cut away since.
func WoodAt(parts []Part, p Point) bool {
	var in [Machined + 1]bool
	for _, q := range parts {
		if st := q.Stage(); !in[st] {
			in[st] = q.holds(p)
		}
	}
	return (in[Slab] && !in[Recessed] || in[Filled]) && !in[Machined]
}

// holds reports whether q lies in the part: in what it takes away, or in the wood
// that it adds, less the holes in that.
func (p Part) holds(q Point) bool {
	within := func(top, floor float64, ok bool) bool { return ok && q.Z >= top && q.Z <= floor }
	solid, bored := false, false
	for _, s := range p.Solids {
		solid = solid || within(s.Column(q.Flat()))
	}
	for _, b := range p.Bores {
		bored = bored || within(b.Entered().Column(q.Flat()))
	}
	if p.Adds {
		return solid && !bored
	}
	return solid || bored
}
