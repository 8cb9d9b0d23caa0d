package render

import (
	"fmt"

	"routwright/geom"
)

// flow is a block that goes on to another page when one is full.
type flow struct {
	block
	p    *plan
	full []Group
}

func (f *flow) begin() {
	s := f.p.s
	f.block = block{g: Group{ID: "cover", Title: "how to print and join the pages"}, x: s.win.Min.X + 2, y: s.win.Max.Y - 2, w: s.win.W() - 4}
}

// room goes to the next page unless h mm are left on this one.
func (f *flow) room(h float64) {
	if f.y-h < f.p.s.win.Min.Y+2 && len(f.g.Texts) > 0 {
		f.full = append(f.full, f.g)
		f.begin()
	}
}

// covers makes the first page, or pages where the paper is small: how to print,
// how to measure, how to join, where each page goes, and a record of the
// correction.
func (p *plan) covers() []Page {
	f := &flow{p: p}
	f.begin()
	p.coverWords(f)
	var out []Page
	for i, g := range append(f.full, f.g) {
		if len(g.Texts)+len(g.Groups) == 0 {
			continue
		}
		name := "cover"
		if i > 0 {
			name = fmt.Sprintf("cover-%d", i+1)
		}
		pg := p.blankPage(name, name, p.d.Title+": how to print and join the pages")
		pg.Furniture = append(pg.Furniture, g)
		if p.s.rulers {
			pg.Furniture = append(pg.Furniture, p.strips(p.named("Cover")))
		}
		out = append(out, pg)
	}
	return out
}

func (p *plan) coverWords(b *flow) {
	s := p.s
	across, up := s.rulerRoom()
	for _, l := range wrap(p.d.Title, b.w, 5, true) {
		b.room(8.5)
		b.y -= 5
		b.text(b.x, b.y, l, 5, true, Start)
		b.y -= 3.5
	}
	n := len(p.cells())
	b.paragraph(fmt.Sprintf("%s on %s, margins %s mm, overlap %s mm. The sheet is %s × %s mm.",
		pageCount(n, p), s.paper.Name, number(s.edge.Min.X*s.factor.X), number(s.overlap), number(p.d.Bounds.W()), number(p.d.Bounds.H())))
	b.y -= 2
	for i, step := range p.coverSteps(n, across, up) {
		b.step(i+1, step)
	}
	b.y -= 3
	beside := b.x
	if s.rulers {
		beside += p.record(b, across, up) + 8
	}
	if n > 1 {
		p.assembly(b, beside)
	}
}

func pageCount(n int, p *plan) string {
	if n == 1 {
		return "One page"
	}
	return fmt.Sprintf("%d pages in %d × %d (across × up), %s,", n, len(p.xs), len(p.ys), p.span())
}

func (p *plan) coverSteps(n int, across, up float64) []string {
	steps := []string{
		"Print this page first, at 100 %. Switch off “fit to page”, “shrink” and the like; choose the paper named above.",
	}
	if p.s.rulers {
		steps = append(steps, fmt.Sprintf("Lay a steel rule on both rulers of this page. 0 to %.0f must measure %.0f mm across, 0 to %.0f must measure %.0f mm up. If they do not, write what you measure in the record below, give both numbers to the program, and print again.", across, across, up, up),
			p.s.againWords()+"Print the other pages on the same printer and paper, the same way round. Measure the rulers of every page.")
	}
	if n > 1 {
		steps = append(steps,
			"Each page has its place by row letter and column number. Cut it along its continuous edges, at the left and below. Leave the other edges: they take the glue.",
			"Lay each cut edge on the dashed line of its neighbour, cross on cross: the coordinates beside the crosses are the same. Do not register to the edges of the paper. Glue, and check with a long rule across the seams.")
	}
	return append(steps, "Measure again after gluing: wet glue swells paper.")
}

// againWords warns of measuring a corrected print as if it were not.
func (s pageSetup) againWords() string {
	if s.factor == (geom.Vec{X: 1, Y: 1}) {
		return ""
	}
	return "This print is corrected already. If it is still off, print once without the correction and measure that print. "
}

const coverText, coverPitch = 2.8, 4.8

func (f *flow) paragraph(s string) {
	for _, l := range wrap(s, f.w, coverText, false) {
		f.room(coverPitch)
		f.y -= coverPitch
		f.text(f.x, f.y, l, coverText, false, Start)
	}
}

func (f *flow) step(n int, s string) {
	const indent = 7.0
	for i, l := range wrap(s, f.w-indent, coverText, false) {
		f.room(coverPitch)
		f.y -= coverPitch
		if i == 0 {
			f.text(f.x, f.y, fmt.Sprint(n), coverText, true, Start)
		}
		f.text(f.x+indent, f.y, l, coverText, false, Start)
	}
	f.y -= 1.2
}

const recordRow = 8.0 // mm, room for a pencil

// record is the table in which the builder writes what the rulers measured. It
// returns its width.
func (p *plan) record(b *flow, across, up float64) (width float64) {
	rows := [...][4]string{
		{"Ruler", "should be", "measured", "this print"},
		{"across", number(across) + " mm", "", fmt.Sprintf("× %.4f", p.s.factor.X)},
		{"up", number(up) + " mm", "", fmt.Sprintf("× %.4f", p.s.factor.Y)},
	}
	const nameWide, colWide = 18.0, 30.0
	w := nameWide + 3*colWide
	if w > b.w { // too narrow for a table
		for _, r := range rows[1:] {
			b.paragraph(fmt.Sprintf("%s: should be %s, measured ________ mm; this print %s.", r[0], r[1], r[3]))
		}
		return b.w
	}
	b.room(recordRow*float64(len(rows)) + 3)
	top := b.y
	bottom := top - recordRow*float64(len(rows))
	line := func(x0, y0, x1, y1 float64) {
		s := frameLine(geom.Pt(x0, y0), geom.Pt(x1, y1))
		s.Title = "record of the correction"
		b.g.Shapes = append(b.g.Shapes, s)
	}
	x := b.x
	for c := range rows[0] {
		for r := range rows {
			if s := rows[r][c]; s != "" {
				b.text(x+2, top-float64(r)*recordRow-recordRow/2-fieldText/2, s, fieldText, false, Start)
			}
		}
		line(x, top, x, bottom)
		x += colWide
		if c == 0 {
			x += nameWide - colWide
		}
	}
	line(x, top, x, bottom)
	for r := 0; r <= len(rows); r++ {
		y := top - float64(r)*recordRow
		line(b.x, y, b.x+w, y)
	}
	b.y = bottom - 3
	return w
}

// assembly draws the pages with their names over the drawing in small, in the
// room that shows it larger: below the record or beside it, else on a page of its
// own. Where even that is too small, the map on each page must do.
func (p *plan) assembly(b *flow, beside float64) {
	d, win := p.d.Bounds, p.s.win
	low, right := win.Min.Y+2, b.x+b.w
	var room geom.Box
	k := 0.0
	try := func(x, top float64) {
		r := geom.BoxOf(geom.Pt(min(x, right), low), geom.Pt(right, max(low, top)))
		if s := min(0.5, min(r.W()/d.W(), r.H()/d.H())); s > k {
			room, k = r, s
		}
	}
	cell := func() float64 { return k * min(d.W()/float64(len(p.xs)), d.H()/float64(len(p.ys))) }
	try(b.x, b.y-4)
	try(beside, min(b.y+recordRow*3+3, win.Max.Y))
	const least = 9.0 // mm of a cell: its name and some of the drawing
	if cell() < least {
		b.room(win.H())
		k = 0
		try(b.x, b.y)
	}
	if cell() < 6 {
		return
	}
	to := geom.Scale(k).Then(geom.Translate(geom.Vec{X: room.Min.X - k*d.Min.X, Y: room.Max.Y - k*d.Max.Y}))
	m := Group{ID: "assembly", Title: "where each page goes"}
	m.Groups = moveGroups(small(p.d.Groups), to)
	lines := &ink{}
	lines.addGroups(m.Groups)
	free := true
	for _, c := range p.cells() {
		w := p.window(c)
		if p.used(cellAt{c.col + 1, c.row}) {
			w.Max.X = p.xs[c.col+1]
		}
		if p.used(cellAt{c.col, c.row + 1}) {
			w.Max.Y = p.ys[c.row+1]
		}
		path := to.Path(boxPath(w))
		m.Shapes = append(m.Shapes, Shape{Title: "page " + p.name(c), Kind: Frame, Path: path})
		t, ok := mapName(p.name(c), path.Bounds(), lines)
		m.Texts = append(m.Texts, t)
		free = free && ok
	}
	if !free {
		m.Groups = nil // too small to show the drawing as well as the names
	}
	b.g.Groups = append(b.g.Groups, m)
}

// mapName sets a page's name in its cell of the map, where it lies on no line if
// there is such a place.
func mapName(s string, c geom.Box, lines *ink) (t Text, ok bool) {
	size := max(MinText, min(4, min(c.W(), c.H())/4))
	w := TextWidth(s, size, true)
	x, y := max(0, c.W()/2-w/2-1.5), max(0, c.H()/2-size/2-1.5)
	t = Text{S: s, Size: size, Anchor: Middle, Bold: true}
	for _, f := range [...]geom.Vec{{}, {X: -1, Y: 1}, {X: 1, Y: 1}, {X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1}, {X: 1}, {Y: 1}, {Y: -1}, {X: 0.5}, {X: -0.5}} {
		t.At = c.Center().Add(geom.Vec{X: f.X * x, Y: f.Y*y - size/2})
		if lines.clear(t.Box().Grow(0.5)) {
			return t, true
		}
	}
	t.At = c.Center().Add(geom.Vec{Y: -size / 2})
	return t, false
}

// small keeps the lines that show what a drawing is, and no words.
func small(gs []Group) []Group {
	var out []Group
	for _, g := range gs {
		if g.ID == blockID {
			continue // its samples of lines are not the work
		}
		k := Group{Title: g.Title, Groups: small(g.Groups)}
		for _, s := range g.Shapes {
			if s.Kind == Cut || s.Kind == Edge || s.Kind == Centre || s.Kind == Hidden {
				s.ID, s.Kind, s.Title = "", Hatch, "in small: "+s.Title
				k.Shapes = append(k.Shapes, s)
			}
		}
		if len(k.Shapes)+len(k.Groups) > 0 {
			out = append(out, k)
		}
	}
	return out
}
