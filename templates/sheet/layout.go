package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/part"
)

// LayoutID is the id of the layout sheet.
const LayoutID = "layout"

// layout draws everything at its place, seen from the front: the see-through
// sheet that is laid on the slab before anything is cut.
func layout(j *job.Job) render.Sheet {
	s := render.Sheet{ID: LayoutID, Title: "Layout: everything on the slab, seen from the front"}
	slab := render.Group{ID: "slab", Title: "squared slab", Shapes: shapes(j.Blank, "blank", "edge of the slab", render.Mark, LayerMark)}
	body := render.Group{ID: "body", Title: "finished body", Shapes: shapes(j.Outline, "outline", "finished outline", render.Cut, LayerOutside)}
	s.Groups = append(s.Groups, slab, body, cracks(j, j.Blank.Bounds(), part.Front))
	for _, p := range j.Parts {
		if g, ok := layoutPart(p); ok {
			s.Groups = append(s.Groups, g)
			at := p.Bounds()
			s.Labels = append(s.Labels, render.Label{S: layoutWords(j, p), At: geom.Pt(at.Center().X, at.Max.Y)})
		}
	}
	s.Groups = append(s.Groups, keepOuts(j)...)
	s.Labels = append(s.Labels, crackLabels(j)...)
	box := j.Blank.Bounds()
	s.Groups = append(s.Groups, datums(box))
	s.Labels = append(s.Labels, datumLabels(box)...)
	s.Grain = slabGrain
	s.Holes = append(pinHoles(j.Pins), boreHoles(j)...)
	o := j.Outline.Bounds()
	s.Dims = []render.Dim{
		{A: geom.Pt(o.Min.X, o.Min.Y), B: geom.Pt(o.Max.X, o.Min.Y), Along: geom.Vec{X: 1}, Text: mm(o.W())},
		{A: geom.Pt(o.Max.X, o.Min.Y), B: geom.Pt(o.Max.X, o.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(o.H())},
		{A: geom.Pt(o.Min.X, o.Min.Y), B: geom.Pt(o.Min.X, 0), Along: geom.Vec{Y: 1}, Text: mm(-o.Min.Y)},
	}
	s.Block = []render.Field{
		{Name: "Face", Value: part.Front.Words()},
		{Name: "Lines", Value: "wide: cut from the front; dashed: on the back; narrow: mark only; narrow round cavities and inside the outline: keys stay clear"},
		{Name: "Body", Value: fmt.Sprintf("%s mm thick when finished, slab %s mm", mm(j.Thickness), mm(j.Rough))},
		{Name: "Grain", Value: "along the centre line"},
	}
	s.Notes = append([]string{"Lay this sheet on the slab first. Bore both pins square through while the slab is square; they serve both faces until the outline is sawn."}, poseNotes(j)...)
	return s
}

// crackLabels number the cracks that show on the front.
func crackLabels(j *job.Job) []render.Label {
	var out []render.Label
	for i, c := range j.Cracks {
		if c.Front != nil {
			out = append(out, render.Label{S: fmt.Sprintf("crack %d", i+1), At: c.Front[0].A})
		}
	}
	return out
}

// keepOuts draws lightly what keys must stay clear of.
func keepOuts(j *job.Job) []render.Group {
	if j.Keys == nil {
		return nil
	}
	var out []render.Group
	for _, f := range j.Keys.Faces() {
		kind, layer := render.Mark, LayerMark
		if f == part.Back {
			kind, layer = render.Hidden, LayerHidden
		}
		g := render.Group{ID: "keep-out-" + f.String(), Title: "keep-outs of the keys on the " + f.String()}
		for i, k := range j.KeepOuts(f) {
			g.Shapes = append(g.Shapes, shapes(k.Region, fmt.Sprintf("keep-out-%s-%d", f, i+1), k.Words, kind, layer)...)
		}
		out = append(out, g)
	}
	return out
}

// layoutPart draws one part on the layout: a key as its recess, a cover not at
// all, what is cut from the back dashed.
func layoutPart(p part.Part) (render.Group, bool) {
	switch p.Kind {
	case part.Recess, part.Pickup, part.Cavity, part.Rebate, part.Seat, part.Chamber, part.Pocket:
	case part.Shaft:
		if len(p.Solids) == 0 {
			return render.Group{}, false // bores alone are drawn as holes
		}
	case part.Contour:
		kind, layer := render.Mark, LayerMark
		if p.Face == part.Back {
			kind, layer = render.Hidden, LayerHidden
		}
		return render.Group{ID: p.ID, Title: p.String(), Shapes: shapes(p.Plan(), "plan-"+p.ID, p.String()+", shaped last", kind, layer)}, true
	case part.Channel, part.JackHole:
		return boreGroup(p), true
	default:
		return render.Group{}, false
	}
	kind, layer, words := render.Cut, LayerInside, "cut from the front"
	if p.Face == part.Back {
		kind, layer, words = render.Hidden, LayerHidden, "cut from the back"
	}
	return render.Group{ID: p.ID, Title: p.String(), Shapes: shapes(p.Plan(), "plan-"+p.ID, p.String()+", "+words, kind, layer)}, true
}

// boreGroup draws what is drilled inside the wood: the two sides of each bore,
// dashed, and its axis.
func boreGroup(p part.Part) render.Group {
	g := render.Group{ID: p.ID, Title: p.String()}
	for i, b := range p.Bores {
		a, z := b.From.Flat(), b.To.Flat()
		if b.Square() {
			g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("bore-%s-%d", p.ID, i+1), Title: p.String(), Kind: render.Cut, Layer: LayerDrill, Path: geom.Circle(a, b.D/2)})
			continue
		}
		side := z.Sub(a).Unit().Left().Mul(b.D / 2)
		for k, l := range []geom.Seg{geom.Line(a.Add(side), z.Add(side)), geom.Line(a.Add(side.Neg()), z.Add(side.Neg()))} {
			g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("bore-%s-%d-%d", p.ID, i+1, k+1), Title: p.String() + ", side of the hole", Kind: render.Hidden, Layer: LayerHidden, Path: geom.Path{l}})
		}
		g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("bore-axis-%s-%d", p.ID, i+1), Title: p.String() + ", axis", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(a, z)}})
	}
	return g
}

// layoutWords names a part with its depth and face.
func layoutWords(j *job.Job, p part.Part) string {
	switch p.Kind {
	case part.Channel:
		return "channel " + p.Name
	case part.JackHole:
		return fmt.Sprintf("jack, %s bore", mm(p.Bores[0].D))
	}
	return fmt.Sprintf("%s %s, %s deep from the %s", p.Kind, p.Name, mm(p.Depth(j.Thickness)), p.Face)
}

// poseNotes says what happens to a template that is laid the wrong way.
func poseNotes(j *job.Job) []string {
	var n []string
	for _, p := range cut.Poses(j.Pins) {
		switch {
		case p.Seats:
			n = append(n, fmt.Sprintf("A template %s seats, but its centre line then stands %s° askew: look.", p.Words, mm(p.Askew)))
		default:
			n = append(n, fmt.Sprintf("A template %s does not seat: a pin misses by %s mm.", p.Words, mm(p.Miss)))
		}
	}
	return n
}

// boreHoles draws the holes of shafts, screws, posts and strings: those from the back
// dashed. Each shaft says whose it is; the drill map has the rest.
func boreHoles(j *job.Job) []render.Hole {
	var hs []render.Hole
	for _, p := range j.Parts {
		switch p.Kind {
		case part.Shaft, part.Screw, part.Post, part.StringHole:
		default:
			continue
		}
		for i, b := range p.Bores {
			kind, layer := render.Cut, LayerDrill
			if p.Face == part.Back || b.From.Z == j.Thickness && b.Square() {
				kind, layer = render.Hidden, LayerHidden
			}
			h := render.Hole{ID: fmt.Sprintf("bore-%s-%d", p.ID, i+1), At: b.From.Flat(), D: b.D, Kind: kind, Layer: layer}
			if p.Kind == part.Shaft {
				h.Text = fmt.Sprintf("%s, drill %s", b.Words, mm(b.D))
			}
			hs = append(hs, h)
		}
	}
	return hs
}
