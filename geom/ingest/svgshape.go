package ingest

import (
	"math"

	"routwright/geom"
)

// shape draws one of SVG's basic shapes (SVG 1.1, chapter 9), each from the
// point and in the direction that the standard gives.
func (n *node) shape(p *pen, v viewport) error {
	g := getter{n: n, v: v}
	switch n.name {
	case "rect":
		g.rect(p)
	case "circle":
		r := g.length("r", v.diagonal())
		g.oval(p, r, r)
	case "ellipse":
		rx, ry := g.radii()
		g.oval(p, rx, ry)
	case "line":
		a := geom.Pt(g.length("x1", v.w), g.length("y1", v.h))
		b := geom.Pt(g.length("x2", v.w), g.length("y2", v.h))
		p.move(a)
		p.line(b)
		p.flush(false)
	case "polyline", "polygon":
		g.poly(p, n.name == "polygon")
	}
	if g.err == nil && p.err != nil {
		g.err = n.at.errorf("<%s>: %v", n.name, p.err)
	}
	return g.err
}

// getter reads the lengths of an element and keeps the first error.
type getter struct {
	n   *node
	v   viewport
	err error
}

// length returns a length in user units, 0 if it is missing. CSS may set it too
// (SVG 2, geometry properties).
func (g *getter) length(name string, whole float64) float64 {
	s := g.n.style(name)
	if s == "" {
		return 0
	}
	v, _, ok := length(s, whole)
	if !ok && g.err == nil {
		g.err = g.n.at.errorf("<%s>: %s is %q, must be a finite number, alone or with mm, cm, in, pt, pc, px or %%", g.n.name, name, rest(s))
	}
	return v
}

// size is a length that must not be negative.
func (g *getter) size(name string, whole float64) float64 {
	v := g.length(name, whole)
	if v < 0 && g.err == nil {
		g.err = g.n.at.errorf("<%s>: %s is %q, must not be negative", g.n.name, name, rest(g.n.style(name)))
	}
	return v
}

// radii returns rx and ry; one that is missing or auto takes the other's value.
func (g *getter) radii() (rx, ry float64) {
	auto := func(s string) bool { t := g.n.style(s); return t == "" || t == "auto" }
	switch {
	case auto("rx") && auto("ry"):
		return 0, 0
	case auto("rx"):
		ry = g.size("ry", g.v.h)
		return ry, ry
	case auto("ry"):
		rx = g.size("rx", g.v.w)
		return rx, rx
	}
	return g.size("rx", g.v.w), g.size("ry", g.v.h)
}

func (g *getter) rect(p *pen) {
	x, y := g.length("x", g.v.w), g.length("y", g.v.h)
	w, h := g.size("width", g.v.w), g.size("height", g.v.h)
	rx, ry := g.radii()
	if g.err != nil || w == 0 || h == 0 { // not drawn, by the standard
		return
	}
	rx, ry = min(rx, w/2), min(ry, h/2)
	if rx == 0 || ry == 0 {
		rx, ry = 0, 0
	}
	corner := func(cx, cy float64, start geom.Angle) {
		if rx > 0 {
			p.ellipse(geom.EllipticArc(geom.Pt(cx, cy), rx, ry, 0, start, math.Pi/2))
		}
	}
	p.move(geom.Pt(x+rx, y))
	p.line(geom.Pt(x+w-rx, y))
	corner(x+w-rx, y+ry, -math.Pi/2)
	p.line(geom.Pt(x+w, y+h-ry))
	corner(x+w-rx, y+h-ry, 0)
	p.line(geom.Pt(x+rx, y+h))
	corner(x+rx, y+h-ry, math.Pi/2)
	p.line(geom.Pt(x, y+ry))
	corner(x+rx, y+ry, math.Pi)
	p.shut()
}

func (g *getter) oval(p *pen, rx, ry float64) {
	c := geom.Pt(g.length("cx", g.v.w), g.length("cy", g.v.h))
	if (rx < 0 || ry < 0) && g.err == nil {
		g.err = g.n.at.errorf("<%s>: the radius is negative", g.n.name)
	}
	if g.err != nil || rx == 0 || ry == 0 {
		return
	}
	p.move(geom.Pt(c.X+rx, c.Y))
	p.ellipse(geom.EllipticArc(c, rx, ry, 0, 0, 2*math.Pi))
	p.shut()
}

func (g *getter) poly(p *pen, shut bool) {
	v, ok := numbers(g.n.attr["points"])
	if !ok || len(v)%2 != 0 {
		g.err = g.n.at.errorf("<%s>: points must be pairs of finite numbers; found %d good ones", g.n.name, len(v))
		return
	}
	for i := 0; i+1 < len(v); i += 2 {
		if q := geom.Pt(v[i], v[i+1]); i == 0 {
			p.move(q)
		} else {
			p.line(q)
		}
	}
	if shut && len(v) > 2 {
		p.shut()
	}
	p.flush(false)
}
