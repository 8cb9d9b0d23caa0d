package sheet

import (
	"fmt"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
)

// drillMarks draws the holes that take the waste out first: a cross to prick
// through, and the rim of the drill.
func drillMarks(t cut.Template, d cut.DrillOut) render.Group {
	g := render.Group{ID: "drill-out-" + t.ID, Title: "waste to drill out first"}
	for i, h := range d.Holes {
		const arm = 2 // mm
		id := fmt.Sprintf("drill-out-%s-%d", t.ID, i+1)
		g.Shapes = append(g.Shapes,
			render.Shape{ID: id, Title: fmt.Sprintf("waste hole %d: %s", i+1, h.Drill), Kind: render.Mark, Layer: LayerMark, Path: geom.Circle(h.At, h.Drill.D/2)},
			render.Shape{ID: id + "-x", Title: "its middle", Kind: render.Mark, Layer: LayerMark, Path: geom.Path{geom.Line(h.At.Add(geom.Vec{X: -arm}), h.At.Add(geom.Vec{X: arm}))}},
			render.Shape{ID: id + "-y", Title: "its middle", Kind: render.Mark, Layer: LayerMark, Path: geom.Path{geom.Line(h.At.Add(geom.Vec{Y: -arm}), h.At.Add(geom.Vec{Y: arm}))}})
	}
	return g
}

// drillNote says how the waste is drilled out.
func drillNote(d cut.DrillOut) string {
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
	return fmt.Sprintf("Waste first: lay this sheet on the work, prick the crosses through, and drill %s. The stop is that of the rim: the point stays above the floor. The holes take %.0f %% of the waste and stay %s mm inside the line.", strings.Join(list, "; "), 100*d.Share, mm(d.Margin))
}
