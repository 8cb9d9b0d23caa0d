package geom

import (
	"fmt"
	"math"
)

// Path is a chain of segments: each starts exactly where the one before it
// ends. It is closed when the last ends exactly where the first starts. A
// closed path that goes round counter-clockwise bounds solid, clockwise a hole.
// The nil Path is empty.
type Path []Seg

// Closed reports whether p is a loop.
func (p Path) Closed() bool { return len(p) > 0 && p[0].A == p[len(p)-1].B }

// Length returns the length in millimetres.
func (p Path) Length() float64 {
	var l float64
	for _, s := range p {
		l += s.Length()
	}
	return l
}

// Area returns the signed area of a closed path in mm², positive when it goes
// round counter-clockwise. Exact for arcs: the shoelace sum plus a circular
// segment for each arc.
func (p Path) Area() float64 {
	if len(p) == 0 {
		return 0
	}
	o := p[0].A // near the path, so that far-off parts lose no digits
	var a float64
	for _, s := range p {
		a += s.area2(o)
	}
	return a / 2
}

// Bounds returns the least box that holds p.
func (p Path) Bounds() Box {
	var b Box
	for _, s := range p {
		b = b.Union(s.Bounds())
	}
	return b
}

// Reversed returns p travelled the other way.
func (p Path) Reversed() Path {
	if p == nil {
		return nil
	}
	q := make(Path, len(p))
	for i, s := range p {
		q[len(p)-1-i] = s.Reversed()
	}
	return q
}

// From returns the closed path p started at segment i (taken modulo the count).
func (p Path) From(i int) Path {
	n := len(p)
	if n == 0 {
		return nil
	}
	i = ((i % n) + n) % n
	q := make(Path, 0, n)
	return append(append(q, p[i:]...), p[:i]...)
}

// Vertices returns the start of every segment, and the last end if p is open.
func (p Path) Vertices() []Point {
	if len(p) == 0 {
		return nil
	}
	v := make([]Point, 0, len(p)+1)
	for _, s := range p {
		v = append(v, s.A)
	}
	if !p.Closed() {
		v = append(v, p[len(p)-1].B)
	}
	return v
}

// Flatten returns points along p whose chords stay within maxErr mm of it, each
// arc in ceil(sweep / 2·acos(1 − maxErr/r)) steps. A closed path does not repeat
// its first point.
func (p Path) Flatten(maxErr float64) []Point {
	var out []Point
	for _, s := range p {
		out = append(out, s.A)
		if s.Turn == 0 {
			continue
		}
		step := math.Pi / 2
		if maxErr < s.Radius {
			step = min(step, 2*math.Acos(1-maxErr/s.Radius))
		}
		n := int(math.Ceil(math.Abs(float64(s.Sweep()))/step - 1e-12))
		for i := 1; i < n; i++ {
			out = append(out, s.At(float64(i)/float64(n)))
		}
	}
	if len(p) > 0 && !p.Closed() {
		out = append(out, p[len(p)-1].B)
	}
	return out
}

// Check returns nil for a sound path, else an error that names the first bad
// vertex: a number that is not finite, a gap between neighbours, a segment
// shorter than Coincident, or an arc whose ends are not at its radius. It does
// not look for crossings; Region.Check does.
func (p Path) Check() error {
	for i, s := range p {
		switch {
		case !s.A.IsFinite() || !s.B.IsFinite() || !s.Center.IsFinite() || !isFinite(s.Radius):
			return fmt.Errorf("vertex %d: a coordinate is not a finite number", i)
		case i > 0 && p[i-1].B != s.A:
			return fmt.Errorf("vertex %d: starts %.6g mm from the end of the segment before it", i, p[i-1].B.Dist(s.A))
		case s.A.Dist(s.B) < Coincident && s.Length() < Coincident:
			return fmt.Errorf("vertex %d: segment of no length", i)
		}
		if s.Turn == 0 {
			continue
		}
		e := max(math.Abs(s.Center.Dist(s.A)-s.Radius), math.Abs(s.Center.Dist(s.B)-s.Radius))
		if !(s.Radius > 0) || e > Coincident {
			return fmt.Errorf("vertex %d: arc of radius %.9g ends %.3g mm off its circle", i, s.Radius, e)
		}
	}
	return nil
}
