package render

import (
	"routwright/geom"
)

// table sets a table; a long one runs over several pages, its head on each.
func (c *composer) table(t Table) {
	cols := columns(t, c.width())
	if t.Caption != "" {
		c.room(c.least(t))
		c.text(t.Caption, bodySize, true, 0)
		c.gap(0.8)
	}
	if len(t.Head) > 0 {
		c.room(rowHeight(rowLines(t.Head, cols, true)) + c.firstRow(t, cols))
		c.row(t, t.Head, cols, true)
	}
	for _, r := range t.Rows {
		h := rowHeight(rowLines(r, cols, false))
		if c.room(h) && len(t.Head) > 0 {
			c.row(t, t.Head, cols, true)
		}
		c.row(t, r, cols, false)
	}
}

// firstRow is the height of the first row, mm; 0 without rows.
func (c *composer) firstRow(t Table, cols []column) float64 {
	if len(t.Rows) == 0 {
		return 0
	}
	return rowHeight(rowLines(t.Rows[0], cols, false))
}

// column is where a column of a table stands.
type column struct{ x, w float64 }

// columns shares the width: every column gets what its longest cell asks for;
// where that is too much, the widest give way first.
func columns(t Table, width float64) []column {
	n := len(t.Head)
	for _, r := range t.Rows {
		n = max(n, len(r))
	}
	w := make([]float64, n)
	cell := func(s string, i int, bold bool) {
		w[i] = max(w[i], TextWidth(s, bodySize, bold)+2*cellPad+0.2)
	}
	for i, s := range t.Head {
		cell(s, i, true)
	}
	for _, r := range t.Rows {
		for i, s := range r {
			cell(s, i, false)
		}
	}
	x := 0.0
	if t.Tick {
		x = tickBox + 2*cellPad
	}
	if cap := level(w, width-x); cap > 0 {
		for i := range w {
			w[i] = min(w[i], cap)
		}
	}
	cols := make([]column, n)
	for i := range cols {
		cols[i] = column{x, w[i]}
		x += w[i]
	}
	return cols
}

// level returns the width to which the widest of w must be cut so that all fit
// in room; 0 when they fit as they are.
func level(w []float64, room float64) float64 {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	if sum <= room {
		return 0
	}
	lo, hi := 0.0, room
	for range 50 { // bisection
		mid := (lo + hi) / 2
		sum = 0
		for _, v := range w {
			sum += min(v, mid)
		}
		if sum > room {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

func rowHeight(lines int) float64 { return float64(lines)*bodySize*lineHeight + 1.4 }

func rowLines(r []string, cols []column, bold bool) int {
	n := 1
	for i, s := range r {
		if i < len(cols) {
			n = max(n, len(wrapTo(s, bodySize, bold, cols[i].w-2*cellPad)))
		}
	}
	return n
}

// row sets one row with its lines.
func (c *composer) row(t Table, r []string, cols []column, head bool) {
	h := rowHeight(rowLines(r, cols, head))
	top, right := c.y, c.left()
	if len(cols) > 0 {
		right += cols[len(cols)-1].x + cols[len(cols)-1].w
	}
	edge := func(x float64) { c.line(geom.Pt(x, top), geom.Pt(x, top-h), Frame) }
	if t.Tick {
		edge(c.left())
		if !head {
			c.box(c.left()+cellPad, top-h/2-tickBox/2)
		}
	}
	for i, col := range cols {
		x := c.left() + col.x
		edge(x)
		if i >= len(r) {
			continue
		}
		y := top - 0.5
		for _, l := range wrapTo(r[i], bodySize, head, col.w-2*cellPad) {
			y -= bodySize * lineHeight
			if !head && i < len(t.Number) && t.Number[i] {
				c.word(l, x+col.w-cellPad, y+0.5, bodySize, head, End)
			} else {
				c.word(l, x+cellPad, y+0.5, bodySize, head, Start)
			}
		}
	}
	edge(right)
	if head {
		c.line(geom.Pt(c.left(), top), geom.Pt(right, top), Frame)
	}
	c.line(geom.Pt(c.left(), top-h), geom.Pt(right, top-h), Frame)
	c.y -= h
}
