package geom

import "math"

// Nearer reports whether two regions, each with its inside, come nearer to each
// other than d mm: the least Distance is below d. Where their corners or their
// extent along one line tell, no tree is built: most of many like questions about
// small shapes take a tenth of the time. False where one is empty.
func Nearer(a, b Region, d float64) bool {
	const clear = 1e-9 // mm; what rounding could turn is asked of Distance
	if a.size() == 0 || b.size() == 0 {
		return false
	}
	if a.cornersNearer(b, d-clear) {
		return true
	}
	if u := b.corners().Sub(a.corners()).Unit(); b.support(u.Neg())+a.support(u) <= -d-clear {
		return false // a line between the two has them on its sides, far enough off
	}
	least, _, _ := IndexOf(a).distance(IndexOf(b), d+clear)
	return least < d
}

// support returns how far r reaches in direction u, a unit vector, from the
// origin; −Inf when empty.
func (r Region) support(u Vec) float64 {
	most := math.Inf(-1)
	for _, loop := range r {
		for i := range loop {
			s := &loop[i]
			most = max(most, u.X*s.A.X+u.Y*s.A.Y)
			if s.Turn == 0 {
				continue
			}
			if h := u.X*s.Center.X + u.Y*s.Center.Y + s.Radius; h > most && s.onSweep(u) {
				most = h
			}
		}
	}
	return most
}

// fewCorners is up to how many pairs of corners cornersNearer looks at.
const fewCorners = 4096

// cornersNearer reports whether a corner of one region lies within d of a corner
// of the other. False where there are too many to look at.
func (r Region) cornersNearer(q Region, d float64) bool {
	if !(d > 0) || r.size()*q.size() > fewCorners {
		return false
	}
	for _, loop := range r {
		for i := range loop {
			p := loop[i].A
			for _, other := range q {
				for k := range other {
					x, y := other[k].A.X-p.X, other[k].A.Y-p.Y
					if x*x+y*y < d*d {
						return true
					}
				}
			}
		}
	}
	return false
}

// corners returns the mean of the corners.
func (r Region) corners() Point {
	var x, y float64
	for _, loop := range r {
		for i := range loop {
			x, y = x+loop[i].A.X, y+loop[i].A.Y
		}
	}
	n := float64(r.size())
	return Point{x / n, y / n}
}

// size returns the number of segments.
func (r Region) size() (n int) {
	for _, loop := range r {
		n += len(loop)
	}
	return n
}
