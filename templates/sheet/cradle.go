package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
)

// cradle draws the block that holds the drill square to the edge for the jack: its
// inside is the outline there, its outside flat, with the bush that leads the bit.
func cradle(j *job.Job, e *jig.Edge) render.Sheet {
	k := j.Jack
	a, z := e.Flat()
	out := a.Lerp(z, 0.5)
	s := render.Sheet{ID: jig.CradleID, Title: "Jack cradle: holds the drill square to the edge"}
	s.Groups = []render.Group{
		{ID: "cradle", Title: "cradle", Shapes: append(shapes(e.Plan, "cradle", "edge of the cradle: saw outside it", render.Cut, LayerOutside),
			line("cradle-axis", "axis of the bore", render.Centre, LayerCentre, out.Add(k.In.Mul(-8)), k.At.Add(k.In.Mul(k.Length))))},
		bodyNear(j, geom.BoxOf(k.At).Grow(e.Span/2+20)),
	}
	for i, o := range []float64{0.5, -0.5} {
		side := k.In.Left().Mul(o * k.D)
		s.Groups[0].Shapes = append(s.Groups[0].Shapes, line(fmt.Sprintf("jack-side-%d", i+1), "side of the bore, through bush and body", render.Hidden, LayerHidden, out.Add(side), k.At.Add(side).Add(k.In.Mul(k.Length))))
	}
	s.Labels = []render.Label{
		{S: fmt.Sprintf("bore %s, %s deep in the body", mm(k.D), mm(k.Length)), At: k.At.Add(k.In.Mul(k.Length))},
		{S: "flat outside", At: a.Lerp(z, 0.8)},
	}
	// The flat outside, seen square, under the plan.
	box := e.Plan.Bounds().Union(geom.BoxOf(k.At.Add(k.In.Mul(k.Length))))
	c := geom.Pt(box.Center().X, box.Min.Y-35-j.Thickness/2)
	front := geom.Pt(c.X, c.Y+j.Thickness/2)
	s.Groups = append(s.Groups, render.Group{ID: "outside", Title: "flat outside, seen square", Shapes: []render.Shape{
		{ID: "outside", Title: "flat outside of the cradle, seen square", Path: geom.Rect(c, e.Span, j.Thickness), Kind: render.Mark, Layer: LayerMark},
		line("outside-across", "middle of the thickness", render.Centre, LayerCentre, geom.Pt(c.X-e.Span/2-5, c.Y), geom.Pt(c.X+e.Span/2+5, c.Y)),
		line("outside-up", "middle of the length", render.Centre, LayerCentre, geom.Pt(c.X, c.Y-j.Thickness/2-5), geom.Pt(c.X, c.Y+j.Thickness/2+5)),
	}})
	s.Holes = []render.Hole{{ID: "bush", At: c, D: k.D, Kind: render.Mark, Layer: LayerMark, Text: fmt.Sprintf("bush: bore %s through", mm(k.D))}}
	s.Labels = append(s.Labels, render.Label{S: "flush with the front", At: geom.Pt(c.X+e.Span/2, front.Y)}, render.Label{S: "flush with the back", At: geom.Pt(c.X+e.Span/2, c.Y-j.Thickness/2)})
	s.Dims = []render.Dim{
		{A: a, B: z, Text: mm(e.Span)},
		{A: out, B: k.At, Text: mm(e.Deep)},
		{A: geom.Pt(c.X-e.Span/2, c.Y-j.Thickness/2), B: geom.Pt(c.X, c.Y-j.Thickness/2), Along: geom.Vec{X: 1}, Text: mm(e.Span / 2)},
		{A: geom.Pt(c.X-e.Span/2, c.Y), B: geom.Pt(c.X-e.Span/2, front.Y), Along: geom.Vec{Y: 1}, Text: mm(j.Thickness / 2)},
	}
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("sheets glued and planed to %s mm, as thick as the body", mm(j.Thickness))},
		{Name: "Face", Value: "FRONT up, its faces flush with those of the body"},
		{Name: "Cut", Value: "on the line; saw outside it, file the hollow to it; the outside flat and square to the faces"},
		{Name: "Offset", Value: "none: the hollow lies on the finished outline itself"},
		{Name: "Bush", Value: fmt.Sprintf("a hole of the bit's own %s mm, square to the flat outside, in the middle of its length and %s mm from either face: the rim of the bit runs in it, over %s mm", mm(k.D), mm(j.Thickness/2), mm(e.Deep))},
		{Name: "Place", Value: fmt.Sprintf("middle at x %s, y %s mm on the outline", mm(k.At.X), mm(k.At.Y))},
		{Name: "Depth", Value: j.JackStop()},
		{Name: "Datum", Value: "the two faces, and the place on the outline, marked from the layout"},
		{Name: "Proof", Value: fmt.Sprintf("from the hollow to the outline at most %s mm; bore and edge meet %s° off square; %s mm of wood beside the bush", mm(e.Fit.Max), mm(e.Skew.Degrees()), mm((j.Thickness-k.D)/2))},
	}
	if k.Into != "" {
		s.Block = append(s.Block, render.Field{Name: "Opens", Value: k.Into})
	}
	s.Notes = []string{
		"Bore the bush in the drill press, the flat outside up, before the hollow is sawn.",
		"Clamp the cradle to the body with its hollow on the outline, faces flush, and bore through it before the edge is rounded. Clear the chips often, wear eye protection, and follow the tool's manual.",
	}
	return s
}
