package ingest

import (
	"math"
	"strings"

	"routwright/geom"
)

// draw draws one entity under m. ins is the layers of the INSERT that it comes
// from: a block's entities on layer 0 lie on the insert's layer.
func (d *dxf) draw(e entityDXF, m geom.Affine, ins []string, depth int) error {
	v := &values{e: &e, file: d.in.at.File}
	if d.visited++; d.visited > maxElements {
		v.failf(e.line, "INSERTs multiply the drawing beyond %d entities", maxElements)
		return v.err
	}
	layer := e.text(8)
	if layer == "" {
		layer = "0"
	}
	layers := []string{layer}
	if len(ins) > 0 {
		if layers = append(layers, ins...); layer == "0" {
			layers = ins
		}
	}
	if d.off[strings.ToUpper(layers[0])] || v.flags(60) == 1 || v.flags(67) == 1 {
		d.hidden++
		return v.err
	}
	p := &pen{to: &d.canvas, m: m, name: Name{Layers: layers, Line: e.line}}
	switch e.kind {
	case "LINE":
		a, b := v.point(10), v.point(11)
		v.pen(p, func() { p.move(a); p.line(b); p.flush(false) })
	case "ARC", "CIRCLE":
		v.arc(p)
	case "ELLIPSE":
		v.ellipse(p)
	case "LWPOLYLINE":
		v.lightPolyline(p)
	case "POLYLINE":
		v.polyline(p, d)
	case "SPLINE":
		v.spline(p, d)
	case "INSERT":
		d.insert(v, m, layers, depth)
	case "VIEWPORT", "SEQEND", "ATTRIB", "ATTDEF", "ENDBLK":
	default:
		d.skipped[e.kind]++
	}
	if v.err == nil && p.err != nil {
		v.failf(e.line, "%s: %v", e.kind, p.err)
	}
	return v.err
}

// pen draws unless a number was bad.
func (v *values) pen(p *pen, f func()) {
	if v.err == nil {
		f()
	}
}

func (v *values) arc(p *pen) {
	c, r := v.point(10), v.must(40)
	start, sweep := 0.0, 2*math.Pi
	if v.e.kind == "ARC" {
		a, b := v.must(50), v.must(51)
		start, sweep = a*math.Pi/180, turnTo(a, b, 360)*math.Pi/180
	}
	if !(r > 0) {
		v.failf(v.e.line, "%s of radius %g: must be above 0", v.e.kind, r)
	}
	p.m = compose(p.m, v.ocs())
	v.pen(p, func() {
		e := geom.EllipticArc(c, r, r, 0, geom.Angle(start), geom.Angle(sweep))
		p.move(e.At(0))
		p.ellipse(e)
		if v.e.kind == "CIRCLE" {
			p.shut()
		}
		p.flush(false)
	})
}

// turnTo returns the positive turn from a to b, a whole turn when they are one.
func turnTo(a, b, whole float64) float64 {
	t := math.Mod(b-a, whole)
	if t <= 0 {
		t += whole
	}
	return t
}

// ellipse draws an ELLIPSE, whose points are in world coordinates; only the
// sense of its minor axis follows the extrusion.
func (v *values) ellipse(p *pen) {
	c, u := v.point(10), geom.Vec{X: v.must(11), Y: v.must(21)}
	k, a, b := v.must(40), v.num(41, 0), v.num(42, 2*math.Pi)
	if v.ocs() != geom.Identity {
		k = -k
	}
	if k == 0 || u.Len() == 0 {
		v.failf(v.e.line, "ELLIPSE without width: axis (%g, %g), ratio %g", u.X, u.Y, k)
	}
	sweep := turnTo(a, b, 2*math.Pi)
	if 2*math.Pi-sweep < 1e-6 { // ends written with six digits
		sweep = 2 * math.Pi
	}
	v.pen(p, func() {
		e := geom.Ellipse{Center: c, U: u, V: u.Left().Mul(k), Start: geom.Angle(a), Sweep: geom.Angle(sweep)}
		p.move(e.At(0))
		p.ellipse(e)
		if sweep == 2*math.Pi {
			p.shut()
		}
		p.flush(false)
	})
}

// vertex is a corner of a polyline with the bulge of the step after it.
type vertex struct {
	at    geom.Point
	bulge float64
}

func (v *values) lightPolyline(p *pen) {
	var vs []vertex
	for _, g := range v.e.g {
		switch {
		case g.code == 10:
			vs = append(vs, vertex{at: geom.Point{X: v.parse(g), Y: math.NaN()}})
		case len(vs) == 0:
		case g.code == 20:
			vs[len(vs)-1].at.Y = v.parse(g)
		case g.code == 42:
			vs[len(vs)-1].bulge = v.parse(g)
		}
	}
	p.m = compose(p.m, v.ocs())
	v.steps(p, vs, v.flags(70)&1 != 0)
}

// polyline draws a POLYLINE. In a curve or spline fit the vertices that lie on
// the curve are drawn, not the frame that steers it.
func (v *values) polyline(p *pen, d *dxf) {
	flags := v.flags(70)
	if flags&(16|64) != 0 {
		d.skipped["POLYLINE mesh"]++
		return
	}
	if flags&8 == 0 {
		p.m = compose(p.m, v.ocs())
	}
	var vs []vertex
	for i := range v.e.sub {
		w := values{e: &v.e.sub[i], file: v.file}
		if w.flags(70)&16 == 0 {
			q := vertex{w.point(10), w.num(42, 0)}
			if flags&8 != 0 {
				q.bulge = 0
			}
			vs = append(vs, q)
		}
		if v.err == nil {
			v.err = w.err
		}
	}
	v.steps(p, vs, flags&1 != 0)
}

// steps draws a polyline.
func (v *values) steps(p *pen, vs []vertex, closed bool) {
	for _, w := range vs {
		if math.IsNaN(w.at.Y) {
			v.failf(v.e.line, "%s: a vertex has x but no y", v.e.kind)
		}
		if math.Abs(w.bulge) > 1e6 {
			v.failf(v.e.line, "%s: bulge %g is out of range", v.e.kind, w.bulge)
		}
	}
	if v.err != nil || len(vs) < 2 {
		return
	}
	p.move(vs[0].at)
	for i := 1; i < len(vs); i++ {
		p.bulge(vs[i-1].at, vs[i].at, vs[i-1].bulge)
	}
	if closed {
		last := vs[len(vs)-1]
		p.bulge(last.at, vs[0].at, last.bulge)
		p.shut()
	}
	p.flush(false)
}

// spline draws a SPLINE by its control points, or through its fit points when
// it has no others.
func (v *values) spline(p *pen, d *dxf) {
	n := geom.NURBS{Degree: v.flags(71), Knots: v.all(40), Points: v.points(10)}
	if w := v.all(41); len(w) > 0 {
		n.Weights = w
	}
	fit := v.points(11)
	if v.err != nil {
		return
	}
	closed := v.flags(70)&1 != 0
	var run []geom.Cubic
	switch {
	case len(n.Points) > 0:
		if err := n.Check(); err != nil {
			v.failf(v.e.line, "SPLINE: %v", err)
			return
		}
	case len(fit) >= 2:
		var ends [2]*geom.Vec
		for i, code := range [2]int{12, 13} {
			if v.e.has(code) && v.e.has(code+10) {
				ends[i] = &geom.Vec{X: v.num(code, 0), Y: v.num(code+10, 0)}
			}
		}
		if run = through(fit, closed, ends); run == nil {
			v.failf(v.e.line, "SPLINE: no curve goes through its %d fit points", len(fit))
			return
		}
		d.res.notef("line %d: a SPLINE has fit points only: a cubic spline by chord length was laid through them", v.e.line)
	default:
		v.failf(v.e.line, "SPLINE without control points or fit points")
		return
	}
	v.pen(p, func() {
		if run != nil {
			p.move(run[0][0])
			for _, c := range run {
				p.cubic(c[1], c[2], c[3])
			}
		} else {
			for i := range n.Points {
				p.place(n.Points[i])
				n.Points[i] = p.m.Point(n.Points[i])
			}
			p.curveMM(n)
		}
		p.flush(false)
	})
}

// maxCopies is the largest array of one INSERT.
const maxCopies = 1000

// insert draws a block, as often as the INSERT's rows and columns say.
func (d *dxf) insert(v *values, m geom.Affine, layers []string, depth int) {
	name := v.e.text(2)
	b := d.blocks[strings.ToUpper(name)]
	sx, sy := v.num(41, 1), v.num(42, 1)
	cols, rows := max(1, v.flags(70)), max(1, v.flags(71))
	dx, dy := v.num(44, 0), v.num(45, 0)
	at := v.point(10)
	switch {
	case b == nil:
		v.failf(v.e.line, "INSERT of block %q, which the file does not define", name)
	case b.drawing || depth > maxDepth:
		v.failf(v.e.line, "block %q inserts itself", name)
	case sx == 0 || sy == 0:
		v.failf(v.e.line, "INSERT of block %q with scale 0", name)
	case cols > maxCopies || rows > maxCopies || cols*rows > maxCopies:
		v.failf(v.e.line, "INSERT of %d × %d copies, at most %d are read", cols, rows, maxCopies)
	}
	place := compose(m, v.ocs(), shift(at.X, at.Y), turn(geom.Angle(v.num(50, 0))*geom.Degree))
	if v.err != nil {
		return
	}
	b.drawing = true
	defer func() { b.drawing = false }()
	names := append(append([]string(nil), layers...), name)
	for i := range cols * rows {
		k := compose(place, shift(float64(i%cols)*dx, float64(i/cols)*dy), stretch(sx, sy), shift(-b.base.X, -b.base.Y))
		for _, e := range b.entities {
			if err := d.draw(e, k, names, depth+1); err != nil {
				v.err = err
				return
			}
		}
	}
}
