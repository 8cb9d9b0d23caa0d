package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
)

// guide draws the block that leads the drill: it stands on the face behind the
// rim, and the end that the drill enters is tilted to stand square to it.
func guide(j *job.Job, c job.Channel) render.Sheet {
	from := c.From()
	b := j.Guide(c)
	const long = jig.GuideLong
	pt := geom.Pt
	s := render.Sheet{ID: jig.GuideID + c.ID, Title: "Drill guide: " + c.Name, View: "Side and sole of the block"}
	side := render.Group{ID: "side", Title: "side of the block", Shapes: []render.Shape{
		{ID: "block-" + c.ID, Title: "side of the block: saw outside it", Kind: render.Cut, Layer: LayerOutside, Path: b.Side},
	}}
	for i, o := range []float64{c.D / 2, 0, -c.D / 2} {
		a, z := b.Bore(o)
		kind, layer, words := render.Hidden, LayerHidden, "side of the bore"
		if o == 0 {
			kind, layer, words = render.Centre, LayerCentre, "axis of the bore, square to the tilted end"
		}
		side.Shapes = append(side.Shapes, line(fmt.Sprintf("bore-%d-%s", i+1, c.ID), words, kind, layer, a, z))
	}
	mid := -25 - b.Wide/2
	sole := render.Group{ID: "sole", Title: "sole of the block", Shapes: []render.Shape{
		{ID: "sole-" + c.ID, Title: "sole of the block: saw outside it", Kind: render.Cut, Layer: LayerOutside, Path: geom.Rect(pt(long/2, mid), long, b.Wide)},
		line("sole-axis-"+c.ID, "line of the drill: lay it on the line on the face", render.Centre, LayerCentre, pt(-8, mid), pt(long+8, mid)),
	}}
	s.Groups = []render.Group{side, sole}
	s.Labels = []render.Label{{S: "tilted end: the drill goes in here", At: pt(long, 0).Lerp(b.In, 0.5)}}
	s.Dims = []render.Dim{
		{A: pt(0, 0), B: pt(long, 0), Along: geom.Vec{X: 1}, Text: mm(long)},
		{A: pt(0, 0), B: pt(0, b.High), Along: geom.Vec{Y: 1}, Text: mm(b.High)},
		{A: pt(long, 0), B: b.In, Text: mm(pt(long, 0).Dist(b.In))},
		{A: pt(long, -25), B: pt(long, -25-b.Wide), Along: geom.Vec{Y: 1}, Text: mm(b.Wide)},
	}
	if !b.Sole {
		s.Dims = append(s.Dims, render.Dim{A: pt(0, 0), B: b.Out, Along: geom.Vec{Y: 1}, Text: mm(b.Out.Y)})
	}
	w := j.ChannelWords(c)
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("block of hardwood, or of sheet glued up, %s × %s × %s mm, grain along the drill", mm(long), mm(b.Wide), mm(b.High))},
		{Name: "Face", Value: fmt.Sprintf("sole down on the %s", from.Face)},
		{Name: "Cut", Value: "on the line; saw outside it, plane the sole and the tilted end to it"},
		{Name: "Offset", Value: "none: the bore is the drill's own size"},
		{Name: "Tilt", Value: fmt.Sprintf("the end that the drill enters leans %s° from upright, over the block", mm(b.Angle.Degrees()))},
		{Name: "Bore", Value: fmt.Sprintf("%s mm, square to the tilted end, in the middle of the width; at least %s mm of wood round it", mm(c.D), mm(math.Min(b.Wall, (b.Wide-c.D)/2)))},
		{Name: "Stands", Value: w.Stands},
		{Name: "Depth", Value: w.Stop},
		{Name: "Clears", Value: drillClearWords(j, c)},
		{Name: "Proof", Value: fmt.Sprintf("computed from its own lines: bore and tilted end meet %s° off square", mm(math.Abs(90-b.Square().Degrees())))},
	}
	s.Notes = []string{
		"Saw the tilted end first, lay it on the table of the drill press as it will face the drill, and bore square to it, before the block is sawn to its length.",
		"Check the angle with a bevel against the side view. Clamp the block to the body: never hold it by hand. Wear eye protection, and follow the drill's manual.",
	}
	return s
}
