package geom

import "math"

// Box is an axis-parallel rectangle. The zero Box is empty.
type Box struct {
	Min, Max Point
	full     bool
}

// BoxOf returns the least box that holds all the points.
func BoxOf(ps ...Point) Box {
	if len(ps) == 0 {
		return Box{}
	}
	lo, hi := ps[0], ps[0]
	for _, p := range ps[1:] {
		lo = Point{min(lo.X, p.X), min(lo.Y, p.Y)}
		hi = Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	return Box{lo, hi, true}
}

// Empty reports whether b holds no point.
func (b Box) Empty() bool { return !b.full }

// W returns the width in millimetres, 0 when empty.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H returns the height in millimetres, 0 when empty.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Center returns the middle of b.
func (b Box) Center() Point { return b.Min.Lerp(b.Max, 0.5) }

// Extend returns the least box that holds b and p.
func (b Box) Extend(p Point) Box {
	if !b.full {
		return Box{p, p, true}
	}
	b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
	b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	return b
}

// Union returns the least box that holds both.
func (b Box) Union(c Box) Box {
	if !c.full {
		return b
	}
	return b.Extend(c.Min).Extend(c.Max)
}

// Grow returns b with every side moved outward by d; a box that a negative d
// turns inside out becomes empty.
func (b Box) Grow(d float64) Box {
	if !b.full {
		return b
	}
	b.Min, b.Max = Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}
	if b.Min.X > b.Max.X || b.Min.Y > b.Max.Y {
		return Box{}
	}
	return b
}

// Contains reports whether p lies in b or on its edge.
func (b Box) Contains(p Point) bool {
	return b.full && p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// Holds reports whether c lies wholly in b; the empty box lies in every box.
func (b Box) Holds(c Box) bool {
	return !c.full || b.Contains(c.Min) && b.Contains(c.Max)
}

// Overlaps reports whether b and c share a point.
func (b Box) Overlaps(c Box) bool {
	return b.full && c.full &&
		b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Gap returns the distance between two boxes, 0 when they share a point, +Inf
// when one is empty.
func (b Box) Gap(c Box) float64 {
	if !b.full || !c.full {
		return math.Inf(1)
	}
	dx := max(0, max(b.Min.X-c.Max.X, c.Min.X-b.Max.X))
	dy := max(0, max(b.Min.Y-c.Max.Y, c.Min.Y-b.Max.Y))
	return math.Sqrt(dx*dx + dy*dy)
}
