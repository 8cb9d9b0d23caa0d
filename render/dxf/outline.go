package dxf

import (
	"fmt"
	"math"
	"strings"

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
	} else if c, r, ok := wholeCircle(s.Path); ok {
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
		return "circle " + coord(o.centre.X) + " " + coord(o.centre.Y) + " " + coord(o.radius)
	}
	n := len(o.at)
	fore, back := make([]string, n), make([]string, n)
	for i, v := range o.at {
		xy := coord(v.X) + " " + coord(v.Y) + " "
		fore[i] = xy + number(o.bulge[i], bulgeDecimals)
		// Backwards, the piece from vertex i is the one that came to it.
		k := (i + n - 1) % n
		if b := o.bulge[k]; o.closed || i > 0 {
			back[n-1-i] = xy + number(-b, bulgeDecimals)
		} else {
			back[n-1-i] = xy + "0.0"
		}
	}
	if o.closed {
		fore, back = turned(fore), turned(back)
	}
	a, b := strings.Join(fore, ";"), strings.Join(back, ";")
	if b < a {
		a = b
	}
	return fmt.Sprint(o.closed, " ", a)
}

// turned returns s started at its least element.
func turned(s []string) []string {
	least := 0
	for i := range s {
		if s[i] < s[least] {
			least = i
		}
	}
	return append(append([]string(nil), s[least:]...), s[:least]...)
}
