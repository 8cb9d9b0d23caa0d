package render

import (
	"fmt"
	"math"

	"routwright/geom"
)

// cover makes the first page: how to print, how to measure, how to join, where
// each page goes, and a record of the correction.
func (p *plan) cover() Page {
	pg := p.blankPage("cover", "cover", p.d.Title+": how to print and join the pages")
	s := p.s
	across, up := s.rulerRoom()
	b := &block{g: Group{ID: "cover", Title: "how to print and join the pages"}, x: s.win.Min.X + 2, y: s.win.Max.Y - 2, w: s.win.W() - 4}
	for _, l := range wrap(p.d.Title, b.w, 5, true) {
		b.y -= 5
		b.text(b.x, b.y, l, 5, true, Start)
		b.y -= 3.5
	}
	n := len(p.cells())
	b.paragraph(fmt.Sprintf("%s on %s, margins %s mm, overlap %s mm. The sheet is %s × %s mm.",
		pageCount(n, p), s.paper.Name, number(s.edge.Min.X*s.factor.X), number(s.overlap), number(p.d.Bounds.W()), number(p.d.Bounds.H())), false)
	b.y -= 2
	for i, step := range p.coverSteps(n, across, up) {
		b.step(i+1, step)
	}
	b.y -= 3
	top, beside := b.y, b.x
	if s.rulers {
		beside += p.record(b, across, up) + 8
	}
	low := s.win.Min.Y + 2
	p.assembly(b, geom.BoxOf(geom.Pt(b.x, low), geom.Pt(b.x+b.w, math.Max(low, b.y-4))),
		geom.BoxOf(geom.Pt(math.Min(beside, b.x+b.w), low), geom.Pt(b.x+b.w, math.Max(low, top))))
	pg.Furniture = append(pg.Furniture, b.g)
	if s.rulers {
		pg.Furniture = append(pg.Furniture, p.strips(p.named("Cover")))
	}
	return pg
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
			"Print the other pages on the same printer and paper, the same way round. Measure the rulers of every page.")
	}
	if n > 1 {
		steps = append(steps,
			"Each page has its place by row letter and column number. Cut it along its continuous edges, at the left and below. Leave the other edges: they take the glue.",
			"Lay each cut edge on the dashed line of its neighbour, cross on cross: the coordinates beside the crosses are the same. Do not register to the edges of the paper. Glue, and check with a long rule across the seams.")
	}
	return append(steps, "Measure again after gluing: wet glue swells paper.")
}

const coverText, coverPitch = 2.8, 4.8

func (b *block) paragraph(s string, isBold bool) {
	for _, l := range wrap(s, b.w, coverText, isBold) {
		b.y -= coverPitch
		b.text(b.x, b.y, l, coverText, isBold, Start)
	}
}

func (b *block) step(n int, s string) {
	const indent = 7.0
	for i, l := range wrap(s, b.w-indent, coverText, false) {
		b.y -= coverPitch
		if i == 0 {
			b.text(b.x, b.y, fmt.Sprint(n), coverText, true, Start)
		}
		b.text(b.x+indent, b.y, l, coverText, false, Start)
	}
	b.y -= 1.2
}

// record is the table in which the builder writes what the rulers measured.
func (p *plan) record(b *block, across, up float64) (width float64) {
	const row, nameWide = 8.0, 18.0
	cols := [...]string{"should be", "measured", "this print"}
	w := math.Min(b.w, 110)
	cw := (w - nameWide) / float64(len(cols))
	top := b.y
	line := func(x0, y0, x1, y1 float64) {
		s := frameLine(geom.Pt(x0, y0), geom.Pt(x1, y1))
		s.Title = "record of the correction"
		b.g.Shapes = append(b.g.Shapes, s)
	}
	cell := func(col, r int, s string) {
		x := b.x + 2
		if col > 0 {
			x = b.x + nameWide + float64(col-1)*cw + 2
		}
		if s != "" {
			b.text(x, top-float64(r)*row-row/2-fieldText/2, s, fieldText, false, Start)
		}
	}
	rows := [...][4]string{
		{"Ruler", cols[0], cols[1], cols[2]},
		{"across", number(across) + " mm", "", fmt.Sprintf("× %.4f", p.s.factor.X)},
		{"up", number(up) + " mm", "", fmt.Sprintf("× %.4f", p.s.factor.Y)},
	}
	for r, cells := range rows {
		line(b.x, top-float64(r)*row, b.x+w, top-float64(r)*row)
		for c, s := range cells {
			cell(c, r, s)
		}
	}
	bottom := top - float64(len(rows))*row
	line(b.x, bottom, b.x+w, bottom)
	line(b.x, top, b.x, bottom)
	for c := 0; c <= len(cols); c++ {
		x := b.x + nameWide + float64(c)*cw
		line(x, top, x, bottom)
	}
	b.y = bottom - 3
	return w
}

// assembly draws the pages with their names over the drawing in small, in the
// room that shows it larger: below the record or beside it.
func (p *plan) assembly(b *block, rooms ...geom.Box) {
	d := p.d.Bounds
	var room geom.Box
	k := 0.0
	for _, r := range rooms {
		if s := math.Min(0.5, math.Min(r.W()/d.W(), r.H()/d.H())); s > k {
			room, k = r, s
		}
	}
	if k*math.Max(d.W(), d.H()) < 25 {
		return // the small map on each page says it, too
	}
	to := geom.Scale(k).Then(geom.Translate(geom.Vec{X: room.Min.X - k*d.Min.X, Y: room.Max.Y - k*d.Max.Y}))
	m := Group{ID: "assembly", Title: "where each page goes"}
	m.Groups = moveGroups(small(p.d.Groups), to)
	lines := &ink{}
	lines.addGroups(m.Groups)
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
		m.Texts = append(m.Texts, mapName(p.name(c), path.Bounds(), lines))
	}
	b.g.Groups = append(b.g.Groups, m)
}

// mapName sets a page's name in its cell of the map, where it lies on no line if
// there is such a place.
func mapName(s string, c geom.Box, lines *ink) Text {
	size := math.Max(MinText, math.Min(4, math.Min(c.W(), c.H())/4))
	w := TextWidth(s, size, true)
	x, y := math.Max(0, c.W()/2-w/2-1.5), math.Max(0, c.H()/2-size/2-1.5)
	t := Text{S: s, Size: size, Anchor: Middle, Bold: true}
	for _, f := range [...]geom.Vec{{}, {X: -1, Y: 1}, {X: 1, Y: 1}, {X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1}, {X: 1}, {Y: 1}, {Y: -1}, {X: 0.5}, {X: -0.5}} {
		t.At = c.Center().Add(geom.Vec{X: f.X * x, Y: f.Y*y - size/2})
		if lines.clear(t.Box().Grow(0.5)) {
			return t
		}
	}
	t.At = c.Center().Add(geom.Vec{Y: -size / 2})
	return t
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
			if s.Kind == Cut || s.Kind == Centre || s.Kind == Hidden {
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
