package render

// What stays together on a page: a heading with the start of what it heads, a
// caption with its table's head and first row, a picture with its caption, the
// first lines of a list.

// start is the height in mm that the heading of a section asks for before it is
// set: its own, and the least of its first block or of its first section.
func (c *composer) start(s Section, depth int) float64 {
	size := headSizes[min(depth, len(headSizes))-1]
	h := float64(len(wrapTo(s.Title, size, true, c.width())))*size*lineHeight + 1.4
	if depth == 1 {
		h += 1.2
	}
	switch {
	case len(s.Blocks) > 0:
		h += c.least(s.Blocks[0])
	case len(s.Sections) > 0 && !s.Sections[0].NewPage:
		h += 2.2*headSizes[min(depth+1, len(headSizes))-1] + c.start(s.Sections[0], depth+1)
	}
	return min(h, c.top()-composeFoot) // what fits no page starts at the top of one
}

// least is the height in mm of the part of a block that is never broken from its
// beginning.
func (c *composer) least(b Block) float64 {
	line := bodySize * lineHeight
	few := func(s string, size float64, bold bool, w float64) float64 {
		return float64(min(3, len(wrapTo(s, size, bold, w)))) * size * lineHeight
	}
	switch b := b.(type) {
	case Para:
		return few(string(b), bodySize, false, c.width())
	case Caution:
		return c.cautionHeight(b)
	case List:
		if len(b.Items) > 0 {
			return few(b.Items[0], bodySize, false, c.width()-listIndent)
		}
	case Facts:
		return float64(min(5, len(b))) * line
	case Table:
		cols := columns(b, c.width())
		h := c.firstRow(b, cols)
		if len(b.Head) > 0 {
			h += rowHeight(rowLines(b.Head, cols, true))
		}
		if b.Caption != "" {
			h += float64(len(wrapTo(b.Caption, bodySize, true, c.width())))*line + 0.8
		}
		return h
	case Figure:
		if p, ok := c.place(b); ok {
			return p.k*p.h + p.under
		}
	}
	return 0
}
