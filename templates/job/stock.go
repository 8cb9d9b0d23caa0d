package job

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/nest"
	"routwright/templates/part"
)

// Stock is the templates laid out on the sheets that they are cut from.
type Stock struct {
	nest.Layout
	Pieces []StockPiece // in the order of Layout.Places
}

// StockPiece is a template on a sheet of stock.
type StockPiece struct {
	Template int // index
	// Move brings the template, marked face up, to its place on its sheet: x along the
	// sheet's length, y across it.
	Move geom.Transform
}

// Of sheet stock; common practice.
const (
	stockEdge = 10.0 // edges of a sheet are bruised
	stockKerf = 4.0  // a jig saw and a hand that wanders, or a cutter of 3
)

// stock lays the templates out, where the design gives the size of a sheet.
func (s *solver) stock() {
	d := s.d.Template
	if !d.Stock.Set() {
		return
	}
	l, w := float64(d.Stock.V[0]), float64(d.Stock.V[1])
	if l < w {
		l, w = w, l
	}
	st := nest.Stock{L: l, W: w, Margin: s.length(d.StockEdge, "template.stock_edge", stockEdge, "the edges of a sheet are bruised"), Kerf: s.length(d.StockKerf, "template.stock_kerf", stockKerf, "room for the saw between two pieces")}
	var pieces []nest.Piece
	var boxes []geom.Box
	var which []int
	for i, t := range s.Templates {
		if t.Free() {
			continue // cut without a template
		}
		b := upward(t.For.Face).Region(t.Blank).Bounds()
		if b.Empty() {
			continue
		}
		pieces = append(pieces, nest.Piece{ID: t.ID, L: b.W(), W: b.H()})
		boxes, which = append(boxes, b), append(which, i)
	}
	layout, err := nest.Lay(pieces, st)
	if err != nil {
		s.fail(d.Stock.At, "template.stock", err.Error(), "sheets that hold the largest template", "give a larger sheet, or leave stock out")
		return
	}
	out := &Stock{Layout: layout}
	for k, q := range layout.Places {
		m := upward(s.Templates[which[k]].For.Face)
		corner := boxes[k].Min
		if q.Turned { // by a quarter anticlockwise: the box's upper left corner becomes its lower left
			m = m.Then(geom.Rotate(90 * geom.Degree))
			corner = geom.Pt(-boxes[k].Max.Y, boxes[k].Min.X)
		}
		out.Pieces = append(out.Pieces, StockPiece{which[k], m.Then(geom.Translate(geom.Pt(q.X, q.Y).Sub(corner)))})
	}
	s.Stock = out
	s.solved("template.stock", fmt.Sprintf("%d sheets, %s mm of the last", layout.Sheets, design.MM(layout.Used)), fmt.Sprintf("%d templates, %.0f %% waste", len(pieces), 100*layout.Waste))
}

// upward turns a template of the back so that its marked face lies up.
func upward(f part.Face) geom.Transform {
	if f == part.Back {
		return geom.MirrorX()
	}
	return geom.Transform{}
}
