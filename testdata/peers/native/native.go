//go:build native

package native

/*
#cgo CXXFLAGS: -O2
#cgo CFLAGS: -O2
#cgo LDFLAGS: -lgeos_c -lpolyclipping -lstdc++
#include <stdlib.h>
#include "peer.h"
*/
import "C"

import "unsafe"

// Paths are closed polygons, each a row of points.
type Paths [][][2]float64

// Versions returns the versions of Clipper and GEOS.
func Versions() (clipper, geos string) {
	return C.GoString(C.peer_clipper_version()), C.GoString(C.peer_geos_version())
}

// Op is a boolean.
type Op int

const (
	Intersection Op = iota
	Union
	Difference
	Xor
)

// Flat is Paths as the libraries take them.
type Flat struct {
	xy     []C.double
	counts []C.int
}

// Flatten returns ps as one row of numbers.
func (ps Paths) Flatten() Flat {
	f := Flat{xy: make([]C.double, 0, 64), counts: make([]C.int, 0, len(ps)+1)}
	for _, p := range ps {
		for _, q := range p {
			f.xy = append(f.xy, C.double(q[0]), C.double(q[1]))
		}
		f.counts = append(f.counts, C.int(len(p)))
	}
	return f
}

func (f Flat) args() (*C.double, *C.int, C.int) {
	return unsafe.SliceData(f.xy), unsafe.SliceData(f.counts), C.int(len(f.counts))
}

func take(r C.peer_paths) Paths {
	defer C.peer_free(r)
	var out Paths
	xy := unsafe.Slice((*float64)(unsafe.Pointer(r.xy)), 2*int(r.points))
	for _, n := range unsafe.Slice(r.counts, int(r.paths)) {
		p := make([][2]float64, n)
		for i := range p {
			p[i] = [2]float64{xy[2*i], xy[2*i+1]}
		}
		xy = xy[2*int(n):]
		out = append(out, p)
	}
	return out
}

// Offset is Clipper's: round joins within tol mm, or mitred up to mitre times
// the distance.
func (f Flat) Offset(d, tol, mitre float64) Paths {
	x, c, n := f.args()
	return take(C.peer_offset(x, c, n, C.double(d), C.double(tol), C.double(mitre)))
}

// Boolean is Clipper's, non-zero winding.
func (f Flat) Boolean(op Op, g Flat) Paths {
	x, c, n := f.args()
	y, d, m := g.args()
	return take(C.peer_boolean(x, c, n, y, d, m, C.int(op)))
}

// Geos is a geometry of GEOS.
type Geos struct{ p unsafe.Pointer }

// Geos returns a polygon: the first path is the outer one, the others are holes.
func (f Flat) Geos() Geos {
	x, c, n := f.args()
	return Geos{C.peer_geos_new(x, c, n)}
}

func (g Geos) Free() { C.peer_geos_free(g.p) }
func (g Geos) Buffer(d float64, quadsegs int) Geos {
	return Geos{C.peer_geos_buffer(g.p, C.double(d), C.int(quadsegs))}
}
func (g Geos) Difference(h Geos) Geos  { return Geos{C.peer_geos_difference(g.p, h.p)} }
func (g Geos) Distance(h Geos) float64 { return float64(C.peer_geos_distance(g.p, h.p)) }
func (g Geos) Area() float64           { return float64(C.peer_geos_area(g.p)) }
func (g Geos) Paths() Paths            { return take(C.peer_geos_paths(g.p)) }

// Collect returns the pieces, which must not meet, as one geometry.
func Collect(gs []Geos) Geos {
	ps := make([]unsafe.Pointer, len(gs))
	for i, g := range gs {
		ps[i] = g.p
	}
	return Geos{C.peer_geos_collect(&ps[0], C.int(len(ps)))}
}

// Prepared is a geometry with its index.
type Prepared struct{ p unsafe.Pointer }

// Prepare builds the index of g, which must outlive it.
func (g Geos) Prepare() Prepared { return Prepared{C.peer_geos_prepare(g.p)} }

// Count returns how many of the points lie inside.
func (p Prepared) Count(xy []float64) int {
	return int(C.peer_geos_contains(p.p, (*C.double)(unsafe.Pointer(&xy[0])), C.int(len(xy)/2)))
}
