package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
)

// gaugeWeb is the wood of a profile gauge round its curve, mm: stiff in card or
// thin ply. Common practice.
const gaugeWeb = 15

// neckGauges draws the two female gauges of the back of the neck.
func neckGauges(j *job.Job) render.Sheet {
	sh := j.Shape
	sp := sh.Spec
	s := render.Sheet{ID: NeckGaugesID, Title: "Profile gauges of the neck", View: "Either way up"}
	for i, g := range []struct {
		id   string
		y    float64
		fret int
	}{{"gauge-first", sp.Board.First, 1}, {"gauge-octave", sp.Board.Octave, sp.Board.OctaveFret}} {
		p := sh.ProfileAt(g.y)
		// One under the other, with room for the measures between.
		m := geom.Translate(geom.Vec{Y: -float64(i) * (2*gaugeWeb + 2*p.Depth + 30)})
		plate := m.Path(p.Gauge(gaugeWeb))
		curve := m.Path(p.Path())
		shoulder, crown := p.Radii()
		grp := render.Group{ID: g.id, Title: fmt.Sprintf("gauge of fret %d", g.fret), Shapes: []render.Shape{
			{ID: g.id + "-plate", Title: fmt.Sprintf("cut line: gauge of fret %d, the hollow fits the back of the neck", g.fret), Path: plate, Kind: render.Cut, Layer: LayerOutside},
			{ID: g.id + "-axis", Title: "centre line of the neck", Kind: render.Centre, Layer: LayerCentre,
				Path: geom.Path{geom.Line(m.Point(geom.Pt(0, 4)), m.Point(geom.Pt(0, -p.Depth-gaugeWeb-4)))}},
		}, Texts: []render.Text{{S: fmt.Sprintf("FRET %d", g.fret), At: m.Point(geom.Pt(-p.Half-gaugeWeb+3, -p.Depth-gaugeWeb+3)), Size: 3.5, Bold: true}}}
		s.Groups = append(s.Groups, grp)
		s.Waste = append(s.Waste, render.Waste{Region: m.Region(p.Region())})
		b := curve.Bounds()
		s.Dims = append(s.Dims,
			render.Dim{A: geom.Pt(b.Min.X, b.Max.Y), B: geom.Pt(b.Max.X, b.Max.Y), Along: geom.Vec{X: 1}, Text: mm(b.W())},
			render.Dim{A: geom.Pt(b.Max.X, b.Max.Y), B: geom.Pt(0, b.Min.Y), Along: geom.Vec{Y: 1}, Text: mm(b.H())})
		s.Block = append(s.Block, render.Field{Name: fmt.Sprintf("Fret %d", g.fret),
			Value: fmt.Sprintf("%s wide, %s of wood under the board, fullness %s: radii %s at the shoulders, %s at the crown; %s from the nut", mm(2*p.Half), mm(p.Depth), mm(p.Shoulder), mm(shoulder), mm(crown), mm(nutY(sh)-g.y))})
	}
	s.Block = append([]render.Field{
		{Name: "Part", Value: "two gauges for the back of the neck, female"},
		{Name: "Face", Value: "either, this face up or down: the curve is alike on both sides"},
		{Name: "Cut", Value: "on the line; take the hatched side away"},
		{Name: "Ends", Value: "the two ends of the hollow come level with the underside of the board"},
	}, s.Block...)
	s.Notes = []string{
		"Glue on thin sheet, cut with a fine saw and file to the line. Hold the gauge square to the centre line at its fret: the back is done when the hollow touches all round and both ends come level with the joint between neck and board.",
		"Between the two frets the back runs straight: check with a straightedge along the neck."}
	if sp.Board.Octave < sh.Side.From {
		s.Notes = append(s.Notes, fmt.Sprintf("Fret %d lies over the heel: its gauge says where the back would run, for laying out the taper; the wood there is deeper.", sp.Board.OctaveFret))
	}
	return s
}
