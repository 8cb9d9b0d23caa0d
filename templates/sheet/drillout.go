package sheet

import (
	"fmt"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
)

// wasteHole is the number of a hole for waste as it stands on sheets and in tables:
// never a bare figure, which would read as a measure.
func wasteHole(i int) string { return fmt.Sprintf("W%d", i+1) }

// drillMarks draws the holes that take the waste out first: a cross to prick
// through, its number, and the rim of the drill.
func drillMarks(t cut.Template, d cut.DrillOut) render.Group {
	g := render.Group{ID: WastePrefix + t.ID, Title: "waste to drill out first"}
	for i, h := range d.Holes {
		const arm, above = 2, 2.6 // mm
		id := fmt.Sprintf("drill-out-%s-%d", t.ID, i+1)
		g.Shapes = append(g.Shapes,
			render.Shape{ID: id, Title: fmt.Sprintf("waste hole %s: %s", wasteHole(i), h.Drill), Kind: render.Mark, Layer: LayerMark, Path: geom.Circle(h.At, h.Drill.D/2)},
			render.Shape{ID: id + "-x", Title: "its middle", Kind: render.Mark, Layer: LayerMark, Path: geom.Path{geom.Line(h.At.Add(geom.Vec{X: -arm}), h.At.Add(geom.Vec{X: arm}))}},
			render.Shape{ID: id + "-y", Title: "its middle", Kind: render.Mark, Layer: LayerMark, Path: geom.Path{geom.Line(h.At.Add(geom.Vec{Y: -arm}), h.At.Add(geom.Vec{Y: arm}))}})
		g.Texts = append(g.Texts, render.Text{S: wasteHole(i), At: h.At.Add(geom.Vec{Y: above}), Size: gridLetter, Anchor: render.Middle})
	}
	return g
}

// wasteTable is the table of the holes for waste, below the drawing.
func wasteTable(j *job.Job, t cut.Template, d cut.DrillOut, fromBack bool) render.Group {
	from := [2][2]string{{"from the", "centre line"}, {"from the", "bridge line"}}
	if !t.Pinned() {
		from = [2][2]string{{"from the", "waist"}, {"from the", "long axis"}}
	}
	g := grid{columns: []gridColumn{{head: [2]string{"hole", ""}}, {head: [2]string{"drill", "mm"}, right: true},
		{head: from[0], right: true}, {head: from[1], right: true}, {head: [2]string{"stop", "mm"}, right: true}}}
	for i, h := range d.Holes {
		x := j.CentreWords(h.At)
		if !t.Pinned() {
			x = mm(h.At.X + 0)
		} else if x == "the centre line" {
			x = "0"
		}
		g.rows = append(g.rows, []string{wasteHole(i), mm(h.Drill.D), x, mm(h.At.Y + 0), mm(h.Stop)})
		g.under = append(g.under, "")
	}
	box := t.Extent()
	corner := geom.Pt(box.Min.X, box.Min.Y-belowSheet)
	if fromBack {
		corner.X = box.Max.X // mirrored, it is the left
	}
	return g.draw(WasteTableID, "table of the holes for waste", corner, box.W(), fromBack)
}

// WasteTableID is the id of the group that is the table of the holes for waste;
// WastePrefix begins that of the holes themselves.
const (
	WasteTableID = "waste-table"
	WastePrefix  = "drill-out-"
)

// drillNote says how the waste is drilled out.
func drillNote(j *job.Job, i int) string {
	d := j.DrillOut(i)
	drills, count := d.Pieces()
	var list []string
	for i, k := range drills {
		for _, h := range d.Holes {
			if h.Drill.D == k.D {
				list = append(list, fmt.Sprintf("%d × %s, stop at %s mm", count[i], k, mm(h.Stop)))
				break
			}
		}
	}
	return fmt.Sprintf("Waste first: lay this sheet on the work, prick the crosses through, and drill %s. %s", strings.Join(list, "; "), j.DrillWords(i))
}
