package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
)

// StockPrefix begins the ids of the sheets that lay templates out on stock.
const StockPrefix = "stock-"

// stockSheets draws the templates on the sheets that they are cut from.
func stockSheets(j *job.Job) []render.Sheet {
	st := j.Stock
	if st == nil {
		return nil
	}
	out := make([]render.Sheet, st.Sheets)
	for n := range out {
		s := &out[n]
		*s = render.Sheet{ID: fmt.Sprintf("%s%d", StockPrefix, n+1), Title: fmt.Sprintf("Templates on sheet %d of %d", n+1, st.Sheets), View: "Marked faces up"}
		s.Groups = append(s.Groups, render.Group{ID: "stock", Title: "sheet of stock", Shapes: []render.Shape{{ID: "stock-edge", Title: "edge of the sheet", Kind: render.Mark, Layer: LayerMark,
			Path: geom.Rect(geom.Pt(st.Stock.L/2, st.Stock.W/2), st.Stock.L, st.Stock.W)}}})
		s.Block = []render.Field{
			{Name: "Sheet", Value: fmt.Sprintf("%s × %s mm, %s mm thick", mm(st.Stock.L), mm(st.Stock.W), mm(j.Templates[0].Sheet))},
			{Name: "Edge", Value: mm(st.Stock.Margin) + " mm left free"},
			{Name: "Kerf", Value: mm(st.Stock.Kerf) + " mm between two pieces"},
			{Name: "Waste", Value: fmt.Sprintf("%.0f %% of what is used, all sheets", 100*st.Waste)},
		}
		s.Notes = []string{"Pin holes first, then the inside lines, then the outsides. Templates of the back lie with their marked face up, so mirrored.", "Fine dust of fibre board harms the lungs: extraction and a mask. Follow the tool's manual."}
	}
	for i, p := range st.Pieces {
		t := j.Templates[p.Template]
		s := &out[st.Places[i].Sheet]
		g := render.Group{ID: "on-" + t.ID, Title: "template " + t.Name}
		g.Shapes = shapes(p.Move.Region(t.Blank), "outside-"+t.ID, "outside of template "+t.Name, render.Cut, LayerOutside)
		if !t.Male {
			g.Shapes = append(g.Shapes, shapes(p.Move.Region(t.Shape), "inside-"+t.ID, "opening of template "+t.Name, render.Cut, LayerInside)...)
		}
		s.Groups = append(s.Groups, g)
		for _, q := range t.Pins {
			s.Holes = append(s.Holes, render.Hole{ID: "pin-" + t.ID + "-" + q.Name, At: p.Move.Point(q.At), D: q.D, Kind: render.Cut, Layer: LayerDrill})
		}
		s.Labels = append(s.Labels, render.Label{S: t.ID, At: p.Move.Region(t.Blank).Bounds().Center()})
	}
	return out
}
