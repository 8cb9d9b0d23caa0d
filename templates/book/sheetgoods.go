package book

import (
	"fmt"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/sheet"
)

// sheetGoods is the fibre board or plywood for the templates and the jigs.
func (b *writer) sheetGoods() []render.Block {
	j := b.j
	t := render.Table{Caption: "Templates, mm", Tick: true, Head: []string{"template", "length", "width", "thickness"}, Number: []bool{false, true, true, true}}
	area, sheetMM := 0.0, 0.0
	for _, q := range j.Templates {
		if q.Free() || q.Blank.Empty() {
			continue
		}
		s := q.Blank.Bounds()
		area += s.W() * s.H()
		sheetMM = max(sheetMM, q.Sheet)
		t.Rows = append(t.Rows, []string{q.ID, mm(max(s.W(), s.H())), mm(min(s.W(), s.H())), mm(q.Sheet)})
	}
	var out []render.Block
	if st := j.Stock; st != nil {
		n, which := "1 sheet", "Sheet "+sheet.StockPrefix+"1 shows"
		if st.Sheets > 1 {
			n, which = fmt.Sprintf("%d sheets", st.Sheets), "Sheets "+sheet.StockPrefix+"1 and on show"
		}
		out = append(out, render.Para(fmt.Sprintf("Templates: %s of %s × %s mm, %s mm thick; of the last %s mm of its length are used, %.0f %% of what is used is waste. %s where each lies; the jigs come on top.", n, mm(st.Stock.L), mm(st.Stock.W), mm(sheetMM), mm(st.Used), 100*st.Waste, which)))
	} else if len(t.Rows) > 0 {
		out = append(out, render.Para(fmt.Sprintf("Templates: %.2f m² of sheet %s mm thick, as rectangles and without what the saw takes. Give template.stock the size of your sheets, and the set holds a plan of what lies where.", area/1e6, mm(sheetMM))))
	}
	out = append(out, t)
	jigs := render.Table{Caption: "Jigs, mm", Tick: true, Head: []string{"jig", "piece", "length", "width"}, Number: []bool{false, false, true, true}}
	for _, s := range b.in.Sheets {
		if !jig(s.ID) {
			continue
		}
		for _, p := range cutPieces(s) {
			q := p.Path.Bounds()
			jigs.Rows = append(jigs.Rows, []string{s.ID, pieceWords(p.Title), mm(max(q.W(), q.H())), mm(min(q.W(), q.H()))})
		}
	}
	return append(out, jigs)
}

// pieceWords is the piece that a cut line goes round, from the line's own words.
func pieceWords(title string) string {
	w, _, _ := strings.Cut(title, ":")
	w = strings.TrimPrefix(w, "edge of the ")
	if w == "cut line" {
		return "plate"
	}
	return w
}

// jigSheets begin the ids of the sheets of jigs.
var jigSheets = []string{"rails-", "cradle-", sheet.IndexID, "guide-", "handle-", "outrigger", "caul"}

func jig(id string) bool {
	for _, p := range jigSheets {
		if strings.HasPrefix(id, p) {
			return true
		}
	}
	return false
}

// cutPieces returns the lines of a sheet that a saw follows round a piece.
func cutPieces(s render.Sheet) []render.Shape {
	var out []render.Shape
	for _, g := range s.Groups {
		for _, q := range g.Shapes {
			if q.Kind == render.Cut && q.Layer == sheet.LayerOutside && closed(q.Path) {
				out = append(out, q)
			}
		}
	}
	return out
}

func closed(p geom.Path) bool { return len(p) > 1 && p.Closed() }
