package sheet

import (
	"math"

	"routwright/geom"
	"routwright/render"
)

// Letters of a table on a sheet: those of the title block.
const (
	gridLetter = 2.5 // mm, ISO 3098
	gridHead   = 2.2
	gridPitch  = 4.6
	gridGap    = 4.0
	gridRule   = 5 // a line is ruled under every so many rows to guide the eye
)

// gridColumn is one column of a table on a sheet.
type gridColumn struct {
	head  [2]string
	right bool // numbers: set to the right
}

// grid is a table that stands on a sheet among the lines. A row may have a line
// under it that runs on below all its cells but the first.
type grid struct {
	columns []gridColumn
	rows    [][]string
	under   []string // one a row, or empty
}

// widths returns the width of each column, mm.
func (g grid) widths() []float64 {
	w := make([]float64, len(g.columns))
	for i, c := range g.columns {
		for _, h := range c.head {
			w[i] = math.Max(w[i], render.TextWidth(h, gridHead, false))
		}
		for _, r := range g.rows {
			w[i] = math.Max(w[i], render.TextWidth(r[i], gridLetter, false))
		}
	}
	return w
}

// width returns the width of one block of the table, mm.
func (g grid) width() float64 {
	var sum, under float64
	for i, w := range g.widths() {
		sum += w + gridGap
		if i == 0 {
			under = w + gridGap
		}
	}
	for _, u := range g.under {
		sum = math.Max(sum, under+render.TextWidth(u, gridLetter, false)+gridGap)
	}
	return sum
}

func (g grid) lines(row int) int {
	if g.under[row] != "" {
		return 2
	}
	return 1
}

// draw sets the table with its upper left corner at o, in as many blocks side by
// side as fit into the given width. A table for a sheet that is mirrored later is
// set mirrored, so that it reads from left to right on paper; o is then its upper
// right corner, as the sheet is stored.
func (g grid) draw(id, title string, o geom.Point, within float64, mirrored bool) render.Group {
	out := render.Group{ID: id, Title: title}
	flip := func(p geom.Point) geom.Point {
		if mirrored {
			p.X = 2*o.X - p.X
		}
		return p
	}
	text := func(x, y float64, s string, size float64, a render.Anchor) {
		if s == "" {
			return
		}
		if mirrored {
			a = render.End - a
		}
		out.Texts = append(out.Texts, render.Text{S: s, At: flip(geom.Pt(x, y)), Size: size, Anchor: a})
	}
	rule := func(x, y, w float64) {
		out.Shapes = append(out.Shapes, render.Shape{Title: "ruled line of the table", Kind: render.Frame, Layer: LayerMark,
			Path: geom.Path{geom.Line(flip(geom.Pt(x, y)), flip(geom.Pt(x+w, y)))}})
	}
	ws, w := g.widths(), g.width()
	const between = 8
	blocks := max(1, int((within+between)/(w+between)))
	total := 0
	for i := range g.rows {
		total += g.lines(i)
	}
	each := (total + blocks - 1) / blocks
	x, row := o.X, 0
	for row < len(g.rows) {
		y := o.Y
		cell := x
		for i, c := range g.columns {
			at, a := cell, render.Start
			if c.right {
				at, a = cell+ws[i], render.End
			}
			text(at, y-gridPitch, c.head[0], gridHead, a)
			text(at, y-2*gridPitch+0.6, c.head[1], gridHead, a)
			cell += ws[i] + gridGap
		}
		y -= 2*gridPitch + 1
		rule(x, y, w-gridGap)
		for n, count := 0, 0; row < len(g.rows) && n < each; row++ {
			cell = x
			for i, c := range g.columns {
				at, a := cell, render.Start
				if c.right {
					at, a = cell+ws[i], render.End
				}
				text(at, y-gridPitch+0.9, g.rows[row][i], gridLetter, a)
				cell += ws[i] + gridGap
			}
			y -= gridPitch
			if g.under[row] != "" {
				text(x+ws[0]+gridGap, y-gridPitch+0.9, g.under[row], gridLetter, render.Start)
				y -= gridPitch
			}
			n += g.lines(row)
			if count++; count%gridRule == 0 || row == len(g.rows)-1 || n >= each {
				rule(x, y-0.5, w-gridGap)
			}
		}
		x += w + between
	}
	return out
}
