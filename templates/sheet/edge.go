package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// EdgeID is the id of the sheet of the edge.
const EdgeID = "edge"

// edgeSheet draws what is done to the edge: where the profile ends on the face,
// the stretches that the bearing does not reach, the section in full size.
func edgeSheet(j *job.Job) []render.Sheet {
	if j.EdgeBit == nil {
		return nil
	}
	p := j.Edge.Faces[part.Front]
	s := render.Sheet{ID: EdgeID, Title: "Edge: where the profile ends, and what stays for the hand"}
	g := render.Group{ID: "edge-lines", Title: "edge of the body"}
	g.Shapes = shapes(j.Outline, "edge-outline", "finished outline, both faces", render.Mark, LayerMark)
	var c geom.Calc
	if in := c.Offset(j.Outline, -p.Size(), geom.Round); c.Err() == nil {
		g.Shapes = append(g.Shapes, shapes(in, "edge-end", "where the profile ends on the face", render.Cut, LayerMark)...)
	}
	s.Groups = append(s.Groups, g)
	n := 0
	for _, piece := range j.EdgeBit.Missed.Components() {
		if piece.Area() < 0.5 { // too thin to be drawn
			continue
		}
		n++
		s.Groups = append(s.Groups, render.Group{ID: fmt.Sprintf("missed-%d", n), Title: "not reached by the bearing",
			Shapes: shapes(piece, fmt.Sprintf("missed-%d", n), "the bearing bridges this: finish the edge here by hand", render.Mark, LayerMark)})
		s.Labels = append(s.Labels, render.Label{S: "by hand", At: piece.Bounds().Center()})
	}
	for _, k := range j.Contours {
		if k.At != (geom.Point{}) {
			s.Labels = append(s.Labels, render.Label{S: contourWords(k.Kind) + " on the " + k.Face.String() + ": shape it first, then its edge by hand", At: k.At})
		}
	}
	box := j.Outline.Bounds()
	s.Groups = append(s.Groups, datums(box))
	s.Labels = append(s.Labels, datumLabels(box)...)
	sec, dims := edgeSection(j, geom.Pt(box.Center().X-20, box.Min.Y-30))
	s.Groups = append(s.Groups, sec)
	s.Dims = dims
	s.Grain = slabGrain
	s.Block = []render.Field{
		{Name: "Edge", Value: j.EdgeBit.Words + ", on both faces"},
		{Name: "Bearing", Value: fmt.Sprintf("runs on the side of the body, of which %s mm stay between the two profiles", mm(j.Thickness-2*p.Size()))},
	}
	s.Notes = []string{
		"Run the edge after every template, cavity and bore is finished: it takes the corner that they are measured from.",
		"Go round anticlockwise, seen from above a hand-held router, in passes; slow down at end grain and at the horns, where the grain tears. Clamp the body, wear eye, ear and dust protection, and follow the tool's manual.",
	}
	if n > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("The bearing bridges inside curves, %d in all: finish the edge there with a rasp. A smaller bearing on the same bit would cut too deep.", n))
	}
	return []render.Sheet{s}
}

// edgeSection draws the section of the treated edge, the body to its right.
func edgeSection(j *job.Job, at geom.Point) (render.Group, []render.Dim) {
	const deep = 40 // mm of the body shown
	p, t := j.Edge.Faces[part.Front], j.Thickness
	n := p.Size()
	pt := func(in, z float64) geom.Point { return geom.Pt(at.X+in, at.Y-z) }
	arc := func(a, b, c geom.Point) geom.Seg {
		if p.Roundover > 0 {
			return geom.ArcAbout(c, a, b, 1)
		}
		return geom.Line(a, b)
	}
	path := geom.Path{
		geom.Line(pt(deep, 0), pt(n, 0)),
		arc(pt(n, 0), pt(0, n), pt(n, n)),
		geom.Line(pt(0, n), pt(0, t-n)),
		arc(pt(0, t-n), pt(n, t), pt(n, t-n)),
		geom.Line(pt(n, t), pt(deep, t)),
	}
	g := render.Group{ID: "edge-section", Title: "section of the edge", Shapes: []render.Shape{
		{ID: "edge-profile", Title: "section of the finished edge", Path: path, Kind: render.Cut, Layer: LayerMark},
	}}
	words := "R " + mm(n)
	if p == (space.Profile{Chamfer: n}) {
		words = mm(n) + " at 45°"
	}
	return g, []render.Dim{
		{A: pt(deep, 0), B: pt(deep, t), Along: geom.Vec{Y: 1}, Text: mm(t)},
		{A: pt(0, 0), B: pt(n, 0), Along: geom.Vec{X: 1}, Text: words},
	}
}
