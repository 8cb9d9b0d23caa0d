package fretboard

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// Letters of the table on paper: 5 mm of the series of ISO 3098, read at arm's
// length beside a saw; 3.5 for the heads.
const (
	tableLetter = 5
	headLetter  = 3.5
	rowHeight   = 1.5 * tableLetter
	tableGap    = 2.5 // between columns; narrow, so that a single scale fits A4
)

// tableColumn is one column of the table on paper.
type tableColumn struct {
	head [2]string // two lines
	cell func(Row) string
}

// TableSheet returns the slot table as a sheet of its own, in letters to be read
// at the saw: fret, distance from the nut, from the slot before, to the bridge,
// and the nearest 64th of an inch with its error; for a fan these for both outer
// strings, and the angle. A line is ruled under every third row to guide the eye.
func TableSheet(b *Board, o SheetOptions) render.Sheet {
	o = o.or("fret-table", "Fret slot table")
	s := render.Sheet{ID: o.ID, Title: o.Title, Block: append(b.block(o.Unit), o.Block...)}
	s.Notes = append(append(s.Notes, b.Heading(o.Unit)[1:]...), b.cautions(o)...) // the block names the scale
	g := render.Group{ID: "table", Title: "table of the slots in " + o.Unit.words()}
	rows := b.Rows()
	x := 0.0
	for _, c := range b.tableColumns(o.Unit) {
		width := float64(max(len(c.head[0]), len(c.head[1]))) * headLetter
		for _, r := range rows {
			width = math.Max(width, float64(len(c.cell(r)))*tableLetter)
		}
		x += width*widthPerHeight + tableGap
		for i, h := range c.head {
			if h == "" {
				continue
			}
			g.Texts = append(g.Texts, render.Text{S: h, At: geom.Pt(x, float64(1-i)*headLetter*lineSpacing), Size: headLetter, Anchor: render.End})
		}
		for i, r := range rows {
			g.Texts = append(g.Texts, render.Text{S: c.cell(r), At: geom.Pt(x, -float64(i+1)*rowHeight), Size: tableLetter, Anchor: render.End, Bold: c.head[0] == "fret"})
		}
	}
	for i := 0; i <= len(rows); i++ {
		if i%3 != 0 && i != len(rows) {
			continue
		}
		y := -float64(i)*rowHeight - (rowHeight-tableLetter)/2
		g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("rule-%d", i), Title: "ruled line of the table", Kind: render.Frame, Layer: LayerLines,
			Path: geom.Path{geom.Line(geom.Pt(0, y), geom.Pt(x, y))}})
	}
	s.Groups = []render.Group{g}
	return s
}

// tableColumns returns the columns of the table on paper.
func (b *Board) tableColumns(u Unit) []tableColumn {
	d := tableDecimals[u].eye
	cs := []tableColumn{{[2]string{"fret", ""}, func(r Row) string { return r.Fret }}}
	side := func(name string, at func(Row) Along) {
		along := func(get func(Along) float64) func(Row) string {
			return func(r Row) string { return fixed(u.in(get(at(r))), d) }
		}
		cs = append(cs,
			tableColumn{[2]string{name + "from", "nut"}, along(func(a Along) float64 { return a.FromNut })},
			tableColumn{[2]string{"from", "previous"}, along(func(a Along) float64 { return a.FromPrevious })},
			tableColumn{[2]string{"to", "bridge"}, along(func(a Along) float64 { return a.ToBridge })},
			tableColumn{[2]string{"from nut", "64ths in"}, func(r Row) string { return Nearest64th(at(r).FromNut).String() }},
			tableColumn{[2]string{"error", "in"}, func(r Row) string { return Nearest64th(at(r).FromNut).ErrorWords() }})
	}
	if !b.Fanned() {
		side("", func(r Row) Along { return r.Bass })
		return cs
	}
	side("bass ", func(r Row) Along { return r.Bass })
	side("treble ", func(r Row) Along { return r.Treble })
	return append(cs, tableColumn{[2]string{"angle", "degrees"}, func(r Row) string { return fixed(r.Angle, 2) }})
}
