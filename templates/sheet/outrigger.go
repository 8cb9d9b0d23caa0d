package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
	"routwright/templates/limit"
)

// outrigger draws the plate that takes the place of the router's own base plate.
func outrigger(j *job.Job, o *job.Outrigger) render.Sheet {
	s := render.Sheet{ID: jig.OutriggerID, Title: "Base outrigger: a wide plate for the router", View: eitherFace}
	o0, r := geom.Pt(0, 0), o.D/2
	s.Groups = []render.Group{
		{ID: "plate", Title: "plate", Shapes: []render.Shape{
			{ID: "cut-plate", Title: "edge of the plate: saw outside it", Path: geom.Circle(o0, r), Kind: render.Cut, Layer: LayerOutside},
			{ID: "own-base", Title: "the router's own base plate: lay it on this circle and prick through its screw holes", Path: geom.Circle(o0, o.Base/2), Kind: render.Mark, Layer: LayerMark}}},
		{ID: "axes", Title: "axes", Shapes: []render.Shape{
			line("axis-across", "middle of the plate", render.Centre, LayerCentre, geom.Pt(-r-6, 0), geom.Pt(r+6, 0)),
			line("axis-up", "middle of the plate", render.Centre, LayerCentre, geom.Pt(0, -r-6), geom.Pt(0, r+6))}},
	}
	s.Holes = []render.Hole{{ID: "bit-hole", At: o0, D: o.Hole, Kind: render.Cut, Layer: LayerDrill, Text: fmt.Sprintf("bit: bore %s through", mm(o.Hole))}}
	at := geom.Angle(2).Unit().Mul(o.Base / 2) // a place on the circle, off the axes
	s.Labels = []render.Label{{S: "your own base plate lies here", At: o0.Add(at)}}
	s.Dims = []render.Dim{
		{A: geom.Pt(-r, 0), B: geom.Pt(r, 0), Along: geom.Vec{X: 1}, Text: "d " + mm(o.D)},
		{A: geom.Pt(0, -o.Base/2), B: geom.Pt(0, o.Base/2), Along: geom.Vec{Y: 1}, Text: "d " + mm(o.Base)},
	}
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("round plate of %s mm, in the place of the router's own base plate of %s mm", mm(o.D), mm(o.Base))},
		{Name: "Sheet", Value: thickWords(o)},
		{Name: "Face", Value: "either face down: sand and wax the one that slides"},
		{Name: "Cut", Value: "on the line; saw outside it, then turn the plate on a pin in its middle against a sander"},
		{Name: "Offset", Value: "none: the follower runs on the template, not on this plate"},
		{Name: "Hole", Value: fmt.Sprintf("%s mm for bit and follower, 3 mm of air a side", mm(o.Hole))},
		{Name: "Screws", Value: "those of your own base plate. Mark their places through from it, lying on the narrow circle. Drill the size of its holes, and sink the heads 0.5 mm under the face that slides"},
		{Name: "Datum", Value: "the cross: the middle of the bit. Screw the plate on loosely, bring a pointed bit down into a 3 mm hole on the cross, then tighten, and bore the hole last"},
	}
	if o.Rule > 0 {
		rule := fmt.Sprintf("at least the widest circle of an opening and %d mm on both sides: %s mm", limit.BearingMargin, mm(o.Rule))
		if o.D < o.Rule {
			rule += ". THIS PLATE IS SMALLER: in the middle of the opening it has less to lie on"
		}
		s.Block = append(s.Block, render.Field{Name: "Rule", Value: rule})
	}
	s.Block = append(s.Block, render.Field{Name: "Proof", Value: overWords(j, o)})
	if !o.Given {
		s.Notes = append(s.Notes, fmt.Sprintf("Proposed: the design names no such plate, and the sheets of the templates are drawn for the router's own base. Once the plate is made, write [router] outrigger = %s and make the set again: those sheets then come out wide enough for it.", mm(o.D)))
	}
	s.Notes = append(s.Notes,
		"Use plywood, acrylic or phenolic sheet without a bend in it: lay a straightedge across both ways.",
		"Unplug the router before you change the plate. See that every screw has gripped and that no head stands out, and check the depth again: another plate is another zero. Follow the router's manual.")
	return s
}

// thickWords says how thick the plate may be.
func thickWords(o *job.Outrigger) string {
	w := "as thick as the plate that comes off, which you measure: bit and bush then stand out as before"
	switch {
	case math.IsInf(o.Thicker, 1):
		return w + ". The rack does not say how far they reach: measure before you take a thicker one"
	case o.Thicker < 0:
		return w + fmt.Sprintf(". EVEN THEN %s mm ARE MISSING, by %s", mm(-o.Thicker), o.By)
	}
	return w + fmt.Sprintf("; at most %s mm thicker, by %s", mm(o.Thicker), o.By)
}

// overWords is the proof: each opening with what hangs over at the worst place.
func overWords(j *job.Job, o *job.Outrigger) string {
	if len(o.Over) == 0 {
		return fmt.Sprintf("no opening of this job: over none of them more than %.0f %% of the router's own base hangs over", 100*limit.BaseOverhang)
	}
	w := ""
	for i, e := range o.Over {
		if i > 0 {
			w += "; "
		}
		w += fmt.Sprintf("%s: over its whole path at most %.1f %% of the plate hangs over, of the router's own base %.1f %% (asked for: %.0f %%)", j.Templates[e.Template].Name, 100*e.With.Share, 100*e.Alone.Share, 100*limit.BaseOverhang)
	}
	return w
}
