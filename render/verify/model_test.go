//go:build verify

package verify

import (
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/render/pdf/pdftest"
)

// linesOf returns the continuous lines of groups, moved; those of rulers and
// crosses by name.
func linesOf(gs []render.Group, move geom.Transform) []line {
	var out []line
	var walk func(gs []render.Group, name string)
	walk = func(gs []render.Group, name string) {
		for _, g := range gs {
			name := name
			if strings.Contains(g.ID, "ruler-") {
				name = g.ID
			}
			for _, s := range g.Shapes {
				st := s.Kind.Style()
				for _, e := range s.Path {
					l := line{seg: move.Seg(e), width: st.Width}
					switch {
					case s.Fill || len(st.Dash) > 0:
						l.width = -1
					case strings.HasPrefix(s.Title, "cross at "):
						l.name = s.Title
					default:
						l.name = name
					}
					out = append(out, l)
				}
			}
			walk(g.Groups, name)
		}
	}
	walk(gs, "")
	return out
}

// drawingLines returns a drawing's lines from the lower left of its bounds.
func drawingLines(d render.Drawing) []line {
	return linesOf(d.Groups, geom.Translate(geom.Point{}.Sub(d.Bounds.Min)))
}

// pageLines returns a page's lines as corrected, those of the tile only within
// the window.
func pageLines(p render.Page) []line {
	var out []line
	for _, l := range linesOf(p.Tile, geom.Transform{}) {
		if !p.Window.Grow(-1).Holds(l.seg.Bounds()) {
			l = clipped(l, p.Window)
		}
		out = append(out, l)
	}
	out = append(out, linesOf(p.Furniture, geom.Transform{})...)
	if p.Factor != (geom.Vec{X: 1, Y: 1}) {
		var fitted []line
		for _, l := range out {
			if l.seg.IsArc() { // no circle any more
				l.width = -1
			}
			l.seg.A, l.seg.B = stretch(l.seg.A, p.Factor), stretch(l.seg.B, p.Factor)
			l.seg.Center = stretch(l.seg.Center, p.Factor)
			fitted = append(fitted, l)
		}
		out = fitted
	}
	return out
}

func stretch(p geom.Point, f geom.Vec) geom.Point { return geom.Pt(p.X*f.X, p.Y*f.Y) }

// clipped returns the part of a line that a window shows; an arc that leaves the
// window is only in the way.
func clipped(l line, w geom.Box) line {
	if l.seg.IsArc() {
		l.width = -1
		return l
	}
	lo, hi := 0.0, 1.0
	d := l.seg.B.Sub(l.seg.A)
	cut := func(p, q float64) { // keeps t with p·t ≤ q: Liang and Barsky, 1984
		switch {
		case p == 0 && q < 0:
			hi = -1
		case p < 0:
			lo = max(lo, q/p)
		case p > 0:
			hi = min(hi, q/p)
		}
	}
	cut(-d.X, l.seg.A.X-w.Min.X)
	cut(d.X, w.Max.X-l.seg.A.X)
	cut(-d.Y, l.seg.A.Y-w.Min.Y)
	cut(d.Y, w.Max.Y-l.seg.A.Y)
	if lo >= hi {
		l.width = -1
		return l
	}
	a, b := l.seg.A.Lerp(l.seg.B, lo), l.seg.A.Lerp(l.seg.B, hi)
	l.seg.A, l.seg.B = a, b
	return l
}

// readLines returns the straight continuous lines that a page of a PDF says it
// draws, by the reader of its own.
func readLines(p pdftest.Page) []line {
	var out []line
	for _, f := range p.Figures() {
		n := len(f.At)
		for i := range f.At {
			if i == n-1 && f.Op != "s" {
				break
			}
			l := line{seg: geom.Line(f.At[i], f.At[(i+1)%n]), width: f.Width}
			if f.Op != "S" && f.Op != "s" || f.Dashed || f.Curved {
				l.width = -1
			} else if !f.Clip.Empty() {
				l = clipped(l, f.Clip)
			}
			out = append(out, l)
		}
	}
	return out
}
