package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/neck"
)

// neckSide draws the side of the neck, to be sawn.
func neckSide(j *job.Job) render.Sheet {
	sh := j.Shape
	s := render.Sheet{ID: NeckSideID, Title: "Neck from the side", View: sideView(j), Grain: slabGrain}
	s.Groups = []render.Group{{ID: "side", Title: "side of the neck", Shapes: []render.Shape{
		{ID: "side-outline", Title: "cut line: side of the neck, saw outside it", Path: sh.Side.Outline, Kind: render.Cut, Layer: LayerOutside}}},
		sideLines(j)}
	s.Labels, s.Dims = sideLabels(j), sideDims(j)
	f := []render.Field{
		{Name: "Part", Value: "neck, from the side, without the board"},
		{Name: "Face", Value: "either side of the blank; the straight long edge is the board's plane"},
		{Name: "Cut", Value: "with the saw outside the line, then down to it"},
		{Name: "Places", Value: alongBoard(j)},
		{Name: "Blank", Value: fmt.Sprintf("at least %s deep for the whole side in one piece", mm(sh.Side.Blank))},
		{Name: "Thickness", Value: fmt.Sprintf("%s at fret 1 and %s at fret %d with a board of %s; straight between and beyond", mm(sh.Spec.Back.Thickness[0]), mm(sh.Spec.Back.Thickness[1]), sh.Spec.Board.OctaveFret, mm(sh.Spec.Board.Thickness))},
	}
	if sc := sh.Side.Scarf; sc != nil {
		f = append(f, render.Field{Name: "Scarf", Value: fmt.Sprintf("saw a blank of %s at %s: the cut is %s long (%s / sin %s). Plane the head to %s and glue its flat back on the cut", mm(sc.Thickness), degrees(sh.Spec.Head.Tilt), mm(sc.Length), mm(sc.Thickness), degrees(sh.Spec.Head.Tilt), mm(sh.Spec.Head.Thickness))})
	}
	if c := sh.Rod; c != nil {
		acting := "pulls both ways"
		if sh.Spec.Rod.Single {
			acting = "pulls one way"
		}
		f = append(f, render.Field{Name: "Rod", Value: fmt.Sprintf("%s, turned from the %s; channel %s; least wood under it %s, at %s", acting, sh.Spec.Rod.Access, rodWords(sh), mm(c.Wood.MM), mm(c.Wood.Y))})
	}
	s.Block = append(f, render.Field{Name: "Grain", Value: "of the neck, along the board's plane"})
	s.Notes = []string{
		"Glue the print on the side of the squared blank, its long edge on the board's plane, or on thin sheet to make a template to draw round. Measure the print after gluing: wet glue swells paper.",
		"A band saw cuts whatever is in its way: set the guard low, keep fingers out of the line of the blade, and follow its manual."}
	return s
}

// sideLines are the lines inside the side: nut, frets, body's edge, rod, scarf.
func sideLines(j *job.Job) render.Group {
	sh := j.Shape
	sp := sh.Spec
	g := render.Group{ID: "side-places", Title: "places on the side"}
	mark := func(id, words string, p geom.Path, k render.Kind) {
		g.Shapes = append(g.Shapes, render.Shape{ID: id, Title: words, Path: p, Kind: k, Layer: LayerMark})
	}
	for _, l := range []struct {
		id, words string
		y, depth  float64
	}{
		{"side-nut", "nut line", nutY(sh), sh.WoodAt(nutY(sh))},
		{"side-fret-1", "fret 1", sp.Board.First, sh.WoodAt(sp.Board.First)},
		{"side-fret-octave", fmt.Sprintf("fret %d", sp.Board.OctaveFret), sp.Board.Octave, sh.WoodAt(sp.Board.Octave)},
		{"side-body-edge", "edge of the body", sp.Heel.Joint, sp.Heel.Thickness},
	} {
		mark(l.id, l.words, geom.Path{geom.Line(geom.Pt(0, l.y), geom.Pt(toBack(j, l.depth), l.y))}, render.Mark)
	}
	if c := sh.Rod; c != nil {
		f := c.Floor
		a, b := f[0].A, f[len(f)-1].B
		p := append(geom.Path{geom.Line(geom.Pt(0, a.Y), a)}, f...)
		top := geom.Pt(0, math.Min(b.Y, sh.Side.Fold.Y))
		if b.Y > sh.Side.Fold.Y { // runs out of the head's face
			top = onFace(sh, b.Y)
		}
		if top.Dist(b) > geom.Coincident*10 {
			p = append(p, geom.Line(b, top))
		}
		mark("side-rod", "truss rod channel, "+rodWords(sh), p, render.Hidden)
	}
	if sc := sh.Side.Scarf; sc != nil {
		mark("scarf-line", "scarf: glue line of the head", geom.Path{sc.Line}, render.Mark)
	}
	return g
}

// onFace returns the point of the head's straight face at height y.
func onFace(sh *neck.Shape, y float64) geom.Point {
	f := sh.Side.Face
	if f.A.Y == f.B.Y {
		return f.A
	}
	t := math.Max(0, math.Min(1, (y-f.A.Y)/(f.B.Y-f.A.Y)))
	return f.A.Lerp(f.B, t)
}

// toBack returns a depth as x of the side's frame, which is mirrored for a
// left-handed neck.
func toBack(j *job.Job, depth float64) float64 {
	if j.Design.Hand.V == "left" {
		return -depth
	}
	return depth
}

// nutY is the height of the nut's string edge on the centre line.
func nutY(sh *neck.Shape) float64 {
	n := sh.Spec.Board.Nut
	return n.A.Lerp(n.B, -n.A.X/(n.B.X-n.A.X)).Y
}

func sideLabels(j *job.Job) []render.Label {
	sh := j.Shape
	sp := sh.Spec
	at := func(d, y float64) geom.Point { return geom.Pt(toBack(j, d), y) }
	out := []render.Label{
		{S: "nut line", At: at(0, nutY(sh))},
		{S: fmt.Sprintf("fret 1, %s deep", mm(sh.WoodAt(sp.Board.First))), At: at(sh.WoodAt(sp.Board.First), sp.Board.First)},
		{S: fmt.Sprintf("fret %d, %s deep", sp.Board.OctaveFret, mm(sh.WoodAt(sp.Board.Octave))), At: at(sh.WoodAt(sp.Board.Octave), sp.Board.Octave)},
		{S: "edge of the body", At: at(0, sp.Heel.Joint)},
		{S: "board's plane", At: at(0, (sp.Board.Octave+sp.Board.First)/2)},
		{S: headLine(sh), At: sh.Side.Fold},
	}
	if c := sh.Rod; c != nil {
		out = append(out, render.Label{S: "rod channel", At: c.Floor[0].At(0.35)},
			render.Label{S: fmt.Sprintf("least wood under the rod: %s", mm(c.Wood.MM)), At: at(sh.WoodAt(c.Wood.Y), c.Wood.Y)})
	}
	if sc := sh.Side.Scarf; sc != nil {
		out = append(out, render.Label{S: fmt.Sprintf("scarf, %s long", mm(sc.Length)), At: sc.Line.At(0.3)})
	}
	return out
}

func sideDims(j *job.Job) []render.Dim {
	sh := j.Shape
	sp := sh.Spec
	var out []render.Dim
	x := func(d, y float64) {
		out = append(out, render.Dim{A: geom.Pt(0, y), B: geom.Pt(toBack(j, d), y), Along: geom.Vec{X: 1}, Text: mm(d)})
	}
	x(sp.Heel.Thickness, sp.Heel.End)
	if c := sh.Rod; c != nil {
		x(sp.Rod.Depth, c.From+12)
	}
	f := sh.Side.Face
	n := f.B.Sub(f.A).Unit().Left() // square to the face, into the wood or out of it
	if n.X*toBack(j, 1) < 0 {
		n = n.Neg()
	}
	q := f.A.Lerp(f.B, 0.7)
	out = append(out, render.Dim{A: q, B: q.Add(n.Mul(sp.Head.Thickness)), Text: mm(sp.Head.Thickness)},
		render.Dim{A: geom.Pt(0, sp.Heel.End), B: geom.Pt(0, nutY(sh)), Along: geom.Vec{Y: 1}, Text: mm(nutY(sh) - sp.Heel.End)},
		render.Dim{A: geom.Pt(0, sp.Heel.End), B: geom.Pt(0, sp.Heel.Joint), Along: geom.Vec{Y: 1}, Text: mm(sp.Heel.Joint - sp.Heel.End)})
	if sp.Head.Step > 0 {
		out = append(out, render.Dim{A: geom.Pt(0, f.B.Y), B: f.B, Along: geom.Vec{X: 1}, Text: mm(sp.Head.Step)})
	}
	return out
}
