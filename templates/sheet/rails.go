package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
)

// RailsID is the id of the sheet of the jig for the neck pocket.
const RailsID = jig.RailsID

// rails draws the jig that guides the router by the heel: two rails and a stop.
func rails(j *job.Job) []render.Sheet {
	r, ok, err := j.Rails()
	if !ok || err != nil {
		return nil
	}
	t, n := j.Templates[r.Tool], j.Neck
	s := render.Sheet{ID: RailsID, Title: "Rail jig for the neck pocket, set by the heel itself"}
	g := render.Group{ID: "rails", Title: "rails and stop"}
	names, ids := []string{"bass rail", "treble rail", "end stop"}, []string{"rail-bass", "rail-treble", "rail-stop"}
	if j.Design.Hand.V == "left" { // the treble side lies at −X
		names[0], names[1], ids[0], ids[1] = names[1], names[0], ids[1], ids[0]
	}
	for i, p := range r.Pieces {
		name := names[i]
		g.Shapes = append(g.Shapes, render.Shape{ID: ids[i], Title: "edge of the " + name + ": saw outside it, plane to it", Path: p, Kind: render.Cut, Layer: LayerOutside})
		s.Labels = append(s.Labels, render.Label{S: name, At: p.Bounds().Center()})
	}
	box := geom.Region(r.Pieces).Bounds()
	part := render.Group{ID: "pocket", Title: "finished pocket", Shapes: shapes(t.For.Plan(), "pocket", "edge of the finished pocket, not to be cut here", render.Mark, LayerMark)}
	edge := render.Group{ID: "joint", Title: "body's edge", Shapes: []render.Shape{{ID: "joint-line", Title: "body's edge on the centre line", Kind: render.Mark, Layer: LayerMark,
		Path: geom.Path{geom.Line(geom.Pt(box.Min.X, n.JointY), geom.Pt(box.Max.X, n.JointY))}}}}
	s.Groups = []render.Group{g, part, edge, datums(box)}
	s.Labels = append(s.Labels, datumLabels(box)...)
	s.Labels = append(s.Labels, render.Label{S: "body's edge", At: geom.Pt(box.Max.X, n.JointY)})
	stop := r.Pieces[2].Bounds()
	s.Dims = []render.Dim{
		{A: geom.Pt(r.Opening.Bounds().Min.X, stop.Max.Y), B: geom.Pt(r.Opening.Bounds().Max.X, stop.Max.Y), Along: geom.Vec{X: 1}, Text: mm(r.Opening.Bounds().W())},
		{A: geom.Pt(0, stop.Max.Y), B: geom.Pt(0, n.JointY), Along: geom.Vec{Y: 1}, Text: mm(n.JointY - stop.Max.Y)},
		{A: geom.Pt(box.Max.X, box.Min.Y), B: geom.Pt(box.Max.X, box.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(box.H())},
	}
	s.Grain = slabGrain
	shim := fmt.Sprintf("%s mm a side between heel and rail while you set them", mm(r.Shim))
	if r.Shim <= 0 {
		shim = fmt.Sprintf("none: the follower is %s mm a side smaller than the cutter; set the rails by this drawing, not by the heel", mm(-t.Tool.Offset()))
	}
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("two rails and a stop, %s mm sheet, screwed to a cross bar at each end", mm(t.Sheet))},
		{Name: "Face", Value: t.For.Face.Words()},
		{Name: "Tool", Value: t.Tool.String()},
		{Name: "Depth", Value: j.Neck.Pocket.DepthWords()},
		{Name: "Shim", Value: shim},
		{Name: "Base", Value: fmt.Sprintf("router base of %s mm: the rails run past the pocket by its radius at each end", mm(j.Base))},
		{Name: "Proof", Value: proofWords(r.Proof)},
	}
	s.Notes = []string{
		"Lay the neck on the body, its centre line over the body's, the heel's end on its line. Press rails and stop against the heel with the shims between, clamp them, lift the neck out, and rout inside.",
		"Try it in scrap first: the heel must go in by hand and not rock.",
		"Routers throw chips and grab small work: wear eye, ear and dust protection, and follow the tool's manual.",
	}
	return []render.Sheet{s}
}
