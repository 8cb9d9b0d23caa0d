package dxf

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"math"
	"slices"

	"routwright/geom"
	"routwright/render"
)

// least is the shortest segment written, mm: cutters stumble over shorter ones.
const least = 1e-4

// outline is a line as it is written: a polyline, or a whole circle.
//
// A whole circle becomes a CIRCLE, not a polyline of two half turns: every
// version knows it, it keeps centre and diameter as they are meant, and programs
// that drill find holes by it.
type outline struct {
	layer  string
	kind   render.Kind
	closed bool
	at     []geom.Point // vertices; a closed outline does not repeat the first
	bulge  []float64    // tan(sweep/4) of the piece from each vertex, 0 straight

	circle bool
	centre geom.Point
	radius float64
}

// newOutline returns s as it is written, without segments under least.
func newOutline(s render.Shape, flatten float64) (outline, error) {
	o := outline{kind: s.Kind, closed: s.Path.Closed()}
	for i, e := range s.Path {
		if !e.A.IsFinite() || !e.B.IsFinite() || !e.Center.IsFinite() || math.IsNaN(e.Radius) || math.IsInf(e.Radius, 0) {
			return o, fmt.Errorf("line %q, piece %d: a coordinate is not a finite number", s.ID, i)
		}
		if i > 0 && e.A != s.Path[i-1].B {
			return o, fmt.Errorf("line %q, piece %d: does not start where the piece before it ends", s.ID, i)
		}
	}
	if flatten > 0 {
		o.at = s.Path.Flatten(flatten)
		o.bulge = make([]float64, len(o.at))
	} else if c, r, ok := wholeCircle(s.Path); ok && !s.Led {
		o.circle, o.centre, o.radius = true, c, r
		return o, nil
	} else {
		o.trace(s.Path)
	}
	o.dropShort()
	if o.closed && len(o.at) == 2 && o.bulge[0] == 0 && o.bulge[1] == 0 {
		o.closed = false // there and back on one line: once is enough
	}
	return o, nil
}

// wholeCircle reports the centre and radius of a path that goes once round a
// circle.
func wholeCircle(p geom.Path) (geom.Point, float64, bool) {
	if !p.Closed() || !p[0].IsArc() {
		return geom.Point{}, 0, false
	}
	c, r := p[0].Center, p[0].Radius
	var sweep float64
	for _, e := range p {
		if e.Turn != p[0].Turn || e.Center.Dist(c) > geom.Coincident || math.Abs(e.Radius-r) > geom.Coincident {
			return geom.Point{}, 0, false
		}
		sweep += math.Abs(float64(e.Sweep()))
	}
	return c, r, math.Abs(sweep-2*math.Pi) < 1e-6 && r >= least
}

// trace takes the vertices and bulges of p. An arc of more than half a turn is
// cut in two: its chord may be short although it is long, and some readers know
// bulges up to 1 only.
func (o *outline) trace(p geom.Path) {
	add := func(e geom.Seg) {
		o.at, o.bulge = append(o.at, e.A), append(o.bulge, e.Bulge())
	}
	for _, e := range p {
		if math.Abs(float64(e.Sweep())) > math.Pi+1e-9 {
			first, second := e.Split(0.5)
			add(first)
			e = second
		}
		add(e)
	}
	if !o.closed {
		o.at, o.bulge = append(o.at, p[len(p)-1].B), append(o.bulge, 0)
	}
}

// dropShort leaves out vertices nearer than least to the one kept before them.
// The ends of an open line stay where they are.
func (o *outline) dropShort() {
	at, bulge := o.at[:0:0], o.bulge[:0:0]
	for i, v := range o.at {
		if n := len(at); n > 0 && v.Dist(at[n-1]) < least {
			bulge[n-1] = o.bulge[i]
			if last := i == len(o.at)-1; last && !o.closed && n > 1 {
				at[n-1] = v
			}
			continue
		}
		at, bulge = append(at, v), append(bulge, o.bulge[i])
	}
	if n := len(at); o.closed && n > 1 && at[n-1].Dist(at[0]) < least {
		at, bulge = at[:n-1], bulge[:n-1]
	}
	o.at, o.bulge = at, bulge
}

// key is one word for all outlines that are written alike, whichever vertex
// they start at and whichever way they run.
func (o *outline) key() string {
	if o.circle {
		return string(node{micro(o.centre.X), micro(o.centre.Y), micro(o.radius)}.bytes([]byte("circle ")))
	}
	n := len(o.at)
	fore, back := make([]node, n), make([]node, n)
	for i, v := range o.at {
		x, y := micro(v.X), micro(v.Y)
		fore[i] = node{x, y, nano(o.bulge[i])}
		// Backwards, the piece from vertex i is the one that came to it.
		back[n-1-i] = node{x, y, 0}
		if o.closed || i > 0 {
			back[n-1-i].bulge = -nano(o.bulge[(i+n-1)%n])
		}
	}
	if o.closed {
		fore, back = turned(fore), turned(back)
	}
	if slices.CompareFunc(back, fore, node.compare) < 0 {
		fore = back
	}
	b := make([]byte, 1, 1+24*n)
	if o.closed {
		b[0] = 1
	}
	for _, v := range fore {
		b = v.bytes(b)
	}
	return string(b)
}

// node is a vertex in the units of the last decimals written.
type node struct{ x, y, bulge int64 }

func micro(v float64) int64 { return int64(math.Round(v * 1e6)) } // coordDecimals
func nano(v float64) int64  { return int64(math.Round(v * 1e9)) } // bulgeDecimals

func (a node) compare(b node) int {
	return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y), cmp.Compare(a.bulge, b.bulge))
}

func (a node) bytes(b []byte) []byte {
	for _, v := range [3]int64{a.x, a.y, a.bulge} {
		b = binary.LittleEndian.AppendUint64(b, uint64(v))
	}
	return b
}

// turned returns s started at its least element.
func turned(s []node) []node {
	least := 0
	for i := range s {
		if s[i].compare(s[least]) < 0 {
			least = i
		}
	}
	return append(append(make([]node, 0, len(s)), s[least:]...), s[:least]...)
}
