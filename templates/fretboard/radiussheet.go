package fretboard

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
)

// Measures of gauges and blocks, mm (common practice): wider than the board, so
// that their ends can be held.
const (
	gaugeHeight = 30.0 // of a gauge at its ends
	blockHeight = 45.0
	gaugeBeyond = 10.0 // past the board on each side
	gaugeGap    = 12.0 // between two on the sheet
)

// RadiusSheet draws the gauges and the ends of the radius block for the board's
// surface at full size: hollow to try on the board and round to try in a block,
// for each radius; on a cone at the nut and at the last fret. ok is false for a
// flat board.
func RadiusSheet(b *Board, o SheetOptions) (s render.Sheet, ok bool) {
	b = b.original()
	r := b.Spec.Radius
	if r.Flat() {
		return s, false
	}
	if o.Unit == "" {
		o.Unit = MM
	}
	if o.ID == "" {
		o.ID = "radius-gauges"
	}
	if o.Title == "" {
		o.Title = "Radius gauges and block"
	}
	s = render.Sheet{ID: o.ID, Title: o.Title, View: "Seen along the board"}
	last := b.across(float64(b.Spec.Frets))
	end, _ := cutAt(last, b.BassEdge, b.TrebleEdge)
	places := []struct {
		name, where   string
		radius, width float64
	}{{"nut", "at the nut", r.Nut, b.NutLine.B.X - b.NutLine.A.X}, {"end", fmt.Sprintf("at fret %d", b.Spec.Frets), r.End, end.B.X - end.A.X}}
	if r.Nut == r.End {
		places = places[1:]
		places[0].name, places[0].where = "all", "all along the board"
	}
	s.Block = []render.Field{{Name: "Part", Value: "gauges and block for the radius of the fretboard"}}
	y := 0.0
	for _, p := range places {
		half := p.width/2 + gaugeBeyond
		if half > 0.95*p.radius {
			half = 0.95 * p.radius
		}
		g := render.Group{ID: "radius-" + p.name, Title: "radius " + Say(p.radius, o.Unit) + " " + p.where}
		for _, k := range []struct {
			id, words string
			height    float64
			hollow    bool
		}{
			{"hollow", "hollow gauge, to try on the board", gaugeHeight, true},
			{"round", "round gauge, to try in the block", gaugeHeight, false},
			{"block", "end of the sanding block", blockHeight, true},
		} {
			path := gaugePath(half, p.radius, k.height, k.hollow)
			path = geom.Translate(geom.Vec{Y: y - k.height}).Path(path)
			box := path.Bounds()
			g.Shapes = append(g.Shapes, render.Shape{ID: k.id + "-" + p.name, Title: "cut line: " + k.words, Path: path, Kind: render.Cut, Layer: LayerBoard})
			g.Texts = append(g.Texts,
				render.Text{S: k.words, At: geom.Pt(0, box.Min.Y+box.H()*0.5), Size: letterSmall, Anchor: render.Middle},
				render.Text{S: "R " + Say(p.radius, o.Unit) + " " + p.where, At: geom.Pt(0, box.Min.Y+box.H()*0.5-letterSmall*lineSpacing), Size: letterSmall, Anchor: render.Middle, Bold: true})
			s.Keep = append(s.Keep, box)
			y = box.Min.Y - gaugeGap
		}
		s.Groups = append(s.Groups, g)
		s.Block = append(s.Block, render.Field{Name: capital(p.where), Value: fmt.Sprintf("R %s, sagitta %s over the board's width of %s", Say(p.radius, o.Unit), Say(Sagitta(p.radius, p.width/2), o.Unit), Say(p.width, o.Unit))})
	}
	s.Notes = []string{"Sagitta: how far the surface at the edge lies under its crown, R − √(R² − W²/4). Hold the gauge square to the centre line."}
	if len(places) > 1 {
		s.Notes = append(s.Notes, "A cone has no one block: use each only at its own place, then level between with a straight beam along the strings.")
	}
	s.Notes = append(s.Notes, "Wear a mask: the dust of some board woods irritates.")
	return s, true
}

// gaugePath returns a gauge as a closed path, counter-clockwise, its upper ends at
// height: its upper edge is an arc of the radius, hollow or round.
func gaugePath(half, radius, height float64, hollow bool) geom.Path {
	right, left := geom.Pt(half, height), geom.Pt(-half, height)
	rise := radius - Sagitta(radius, half) // of the centre over the chord
	arc := geom.ArcAbout(geom.Pt(0, height-rise), right, left, 1)
	if hollow {
		arc = geom.ArcAbout(geom.Pt(0, height+rise), right, left, -1)
	}
	return geom.Path{geom.Line(geom.Pt(-half, 0), geom.Pt(half, 0)), geom.Line(geom.Pt(half, 0), right), arc, geom.Line(left, geom.Pt(-half, 0))}
}
