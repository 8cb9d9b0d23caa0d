// Package svg writes drawings and pages as SVG 1.1, one millimetre a user unit,
// through github.com/ajstarks/svgo/float.
//
// Groups carry ids and titles, lines are grouped by kind with presentation
// attributes and a class (cut, mark, centre, hidden, dimension, hatch, frame).
// There are no scripts, no styles and no references to anything outside. Text
// has its length pinned, so that another font does not move it.
package svg

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	svgo "github.com/ajstarks/svgo/float"

	"routwright/geom"
	"routwright/render"
)

// fonts names the font that the text is measured in, then faces that run
// narrower: a viewer that has not the first and does not know textLength leaves
// air, and nothing overlaps.
const fonts = "Go, Helvetica, Arial, sans-serif"

// decimals of a millimetre in SVG, by the project's table.
const decimals = 4

// Write writes d at full size. The errors are a number that is not finite,
// found before anything is written, or what w reports.
func Write(w io.Writer, d render.Drawing) error {
	if d.Bounds.Empty() {
		return errors.New("svg: the drawing is empty")
	}
	size := geom.Vec{X: d.Bounds.W(), Y: d.Bounds.H()}
	if err := finite(size, d.Groups); err != nil {
		return err
	}
	c := newCanvas(w, d.Bounds.Min.X, d.Bounds.Max.Y)
	c.start(size, d.Title)
	c.groups(d.Groups)
	return c.end()
}

// WritePage writes one page of paper, corrected by its factors.
func WritePage(w io.Writer, p render.Page) error {
	size := geom.Vec{X: p.W, Y: p.H}
	if err := finite(size, p.Tile, p.Furniture); err != nil {
		return err
	}
	if !(p.Factor.X > 0 && p.Factor.Y > 0) || math.IsInf(p.Factor.X+p.Factor.Y, 0) {
		return fmt.Errorf("svg: page %s: correction %v × %v is not possible", p.Name, p.Factor.X, p.Factor.Y)
	}
	c := newCanvas(w, 0, p.H)
	c.start(size, p.Title)
	// Outermost: the correction, about the lower left corner of the paper.
	c.open(c.id(p.ID), "", attr("transform", fmt.Sprintf("matrix(%.8f 0 0 %.8f 0 %s)", p.Factor.X, p.Factor.Y, num(p.H*(1-p.Factor.Y)))))
	if !p.Window.Empty() {
		clip := c.id(p.ID + "-window")
		c.s.ClipPath(attr("id", clip))
		c.s.Rect(c.x(p.Window.Min.X), c.y(p.Window.Max.Y), zero(p.Window.W()), zero(p.Window.H()), attr("class", "window"))
		c.s.ClipEnd()
		c.open(c.id("tile"), "part of the drawing", attr("clip-path", "url(#"+clip+")"))
		c.groups(p.Tile)
		c.s.Gend()
	}
	c.groups(p.Furniture)
	c.s.Gend()
	return c.end()
}

// canvas turns +Y up into SVG's +Y down and keeps ids unique.
type canvas struct {
	s      *svgo.SVG
	buf    *bufio.Writer
	ox, oy float64 // drawing coordinates of the upper left corner
	ids    map[string]bool
}

func newCanvas(w io.Writer, ox, oy float64) *canvas {
	buf := bufio.NewWriterSize(w, 1<<15) // keeps the first write error, which svgo drops
	s := svgo.New(buf)
	s.Decimals = decimals
	return &canvas{s: s, buf: buf, ox: ox, oy: oy, ids: map[string]bool{}}
}

func (c *canvas) x(v float64) float64 { return zero(v - c.ox) }
func (c *canvas) y(v float64) float64 { return zero(c.oy - v) }

// zero takes the sign off what the decimals would show as −0.
func zero(v float64) float64 {
	if math.Abs(v) < 0.5e-4 {
		return 0
	}
	return v
}

func (c *canvas) start(size geom.Vec, title string) {
	c.s.StartviewUnit(size.X, size.Y, "mm", 0, 0, size.X, size.Y)
	if title != "" {
		c.s.Title(clean(title))
	}
	c.s.Group(attr("fill", "none") + " " + attr("stroke", "#000") + " " +
		attr("stroke-linecap", "butt") + " " + attr("stroke-linejoin", "round") + " " +
		attr("font-family", fonts))
}

func (c *canvas) end() error {
	c.s.Gend()
	c.s.End()
	if err := c.buf.Flush(); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	return nil
}

// open starts a group; empty ids and titles are left out.
func (c *canvas) open(id, title string, attrs ...string) {
	if id != "" {
		attrs = append([]string{attr("id", id)}, attrs...)
	}
	if len(attrs) == 0 {
		attrs = []string{attr("class", "group")}
	}
	c.s.Group(strings.Join(attrs, " "))
	if title != "" {
		c.s.Title(clean(title))
	}
}

func (c *canvas) groups(gs []render.Group) {
	for _, g := range gs {
		c.open(c.id(g.ID), g.Title)
		c.shapes(g.Shapes)
		c.groups(g.Groups)
		c.texts(g.Texts)
		c.s.Gend()
	}
}

// shapes writes runs of shapes that look alike in one group each. Shapes without
// a name that share a title become one path.
func (c *canvas) shapes(ss []render.Shape) {
	for i := 0; i < len(ss); {
		j := i + 1
		for j < len(ss) && ss[j].Kind == ss[i].Kind && ss[j].Fill == ss[i].Fill {
			j++
		}
		c.open("", "", look(ss[i])...)
		c.run(ss[i:j])
		c.s.Gend()
		i = j
	}
}

func (c *canvas) run(ss []render.Shape) {
	for i := 0; i < len(ss); {
		j := i + 1
		if ss[i].ID == "" {
			for j < len(ss) && ss[j].ID == "" && ss[j].Title == ss[i].Title {
				j++
			}
		}
		named := ss[i].ID != "" || ss[i].Title != ""
		if named {
			c.open(c.id(ss[i].ID), ss[i].Title)
		}
		c.paths(ss[i:j])
		if named {
			c.s.Gend()
		}
		i = j
	}
}

// look returns the presentation attributes of a kind of line.
func look(s render.Shape) []string {
	st := s.Kind.Style()
	if s.Fill {
		return []string{attr("class", st.Class+" filled"), attr("fill", "#000"), attr("stroke", "none")}
	}
	a := []string{attr("class", st.Class), attr("stroke-width", num(st.Width))}
	if len(st.Dash) > 0 {
		d := make([]string, len(st.Dash))
		for i, v := range st.Dash {
			d[i] = num(v)
		}
		a = append(a, attr("stroke-dasharray", strings.Join(d, " ")))
	}
	return a
}

func (c *canvas) paths(ss []render.Shape) {
	if len(ss) == 1 {
		if o, r, ok := circle(ss[0].Path); ok {
			c.s.Circle(c.x(o.X), c.y(o.Y), zero(r), attr("class", "circle"))
			return
		}
	}
	var d []byte
	for _, s := range ss {
		d = c.path(d, s.Path)
	}
	if len(d) > 0 {
		c.s.Path(string(d))
	}
}

func (c *canvas) texts(ts []render.Text) {
	for _, t := range ts {
		if t.S == "" {
			continue
		}
		a := []string{attr("font-size", num(render.FontSize(t.Size, t.Bold)))}
		switch t.Anchor {
		case render.Middle:
			a = append(a, attr("text-anchor", "middle"))
		case render.End:
			a = append(a, attr("text-anchor", "end"))
		}
		if t.Bold {
			a = append(a, attr("font-weight", "bold"))
		}
		a = append(a, attr("textLength", num(render.TextWidth(t.S, t.Size, t.Bold))), attr("lengthAdjust", "spacingAndGlyphs"))
		x, y := c.x(t.At.X), c.y(t.At.Y)
		if t.Angle != 0 {
			a = append(a, attr("transform", fmt.Sprintf("rotate(%s %s %s)", num(-t.Angle.Degrees()), num(x), num(y))))
		}
		a = append(a, attr("fill", "#000"), attr("stroke", "none"))
		c.s.Text(x, y, clean(t.S), strings.Join(a, " "))
	}
}
