package geom

// Region is a part of the plane bounded by closed paths that neither cross nor
// touch along a length: counter-clockwise paths bound solid, clockwise ones
// holes in it, so the winding number is 1 inside and 0 outside. The nil Region
// is empty.
type Region []Path

// Area returns the area in mm².
func (r Region) Area() float64 {
	var a float64
	for _, p := range r {
		a += p.Area()
	}
	return a
}

// Perimeter returns the length of all the loops in mm, holes too.
func (r Region) Perimeter() float64 {
	var l float64
	for _, p := range r {
		l += p.Length()
	}
	return l
}

// Bounds returns the least box that holds r.
func (r Region) Bounds() Box {
	var b Box
	for _, p := range r {
		b = b.Union(p.Bounds())
	}
	return b
}

// Segs returns the number of segments.
func (r Region) Segs() int {
	n := 0
	for _, p := range r {
		n += len(p)
	}
	return n
}

// Empty reports whether r has no loop.
func (r Region) Empty() bool { return len(r) == 0 }
