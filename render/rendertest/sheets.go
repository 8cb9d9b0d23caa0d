// Package rendertest holds invented sheets for the tests of render and of the
// formats below it.
package rendertest

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// Sheets returns one of each.
func Sheets() []render.Sheet {
	return []render.Sheet{Template(false), Template(true), Board(), Hostile(), Crowded(), Small(), Outline()}
}

// Template is a router template for a pickup cavity: a blank of 250 × 180 mm
// with an opening of 92 × 45, corner radius 6, and two pins.
func Template(fromBack bool) render.Sheet {
	id, faceName := "tail-pickup", "front"
	if fromBack {
		id, faceName = "tail-pickup-back", "back"
	}
	c := geom.Pt(0, 42)
	opening := geom.RoundedRect(c, 92, 45, 6)
	blank := geom.Rect(geom.Pt(0, 40), 250, 180)
	return render.Sheet{
		ID: id, Title: "Template: tail pickup cavity", FromBack: fromBack,
		Groups: []render.Group{
			{ID: "template", Title: "template", Shapes: []render.Shape{
				{ID: "blank", Title: "cut line: outside edge of the blank", Path: blank, Kind: render.Cut, Layer: "OUTSIDE"},
				{ID: "opening", Title: "cut line: inside edge of the opening", Path: opening, Kind: render.Cut, Layer: "INSIDE"},
			}},
			{ID: "datums", Title: "centre line and bridge line", Shapes: []render.Shape{
				{ID: "centre-line", Title: "centre line", Kind: render.Centre, Path: geom.Polyline(geom.Pt(0, -58), geom.Pt(0, 138))},
				{ID: "bridge-line", Title: "bridge line", Kind: render.Centre, Path: geom.Polyline(geom.Pt(-133, 0), geom.Pt(133, 0))},
				{ID: "crack", Title: "trace of the crack", Kind: render.Mark, Path: geom.Polyline(geom.Pt(-70, 128), geom.Pt(-58, 96), geom.Pt(-62, 70), geom.Pt(-54, 45), geom.Pt(-66, -20), geom.Pt(-60, -48))},
			}},
		},
		Labels: []render.Label{
			{S: "centre line", At: geom.Pt(0, 118)},
			{S: "bridge line", At: geom.Pt(104, 0)},
			{S: "opening: inside R 6", At: geom.Pt(20, 50)},
			{S: "crack", At: geom.Pt(-60, 82)},
			{S: "bass side", At: geom.Pt(-112, 40)},
			{S: "treble side", At: geom.Pt(112, 40)},
		},
		Dims: []render.Dim{
			{A: geom.Pt(-46, 42), B: geom.Pt(46, 42), Along: geom.Vec{X: 1}, Text: "92"},
			{A: geom.Pt(46, 19.5), B: geom.Pt(46, 64.5), Along: geom.Vec{Y: 1}, Text: "45"},
			{A: geom.Pt(0, 0), B: geom.Pt(0, 42), Along: geom.Vec{Y: 1}, Text: "42"},
			{A: geom.Pt(-125, -50), B: geom.Pt(125, -50), Along: geom.Vec{X: 1}, Text: "250"},
			{A: geom.Pt(125, -50), B: geom.Pt(125, 130), Along: geom.Vec{Y: 1}, Text: "180"},
			{A: geom.Pt(40, 58.5), B: geom.Pt(40+6*math.Sqrt2/2, 58.5+6*math.Sqrt2/2), Radial: true, Text: "R 6"},
			{A: geom.Pt(0, 112), B: geom.Pt(-96, 112), Along: geom.Vec{X: 1}, Text: "96"},
			{A: geom.Pt(0, -30), B: geom.Pt(88, -30), Along: geom.Vec{X: 1}, Text: "88"},
		},
		Holes: []render.Hole{
			{ID: "pin-a", At: geom.Pt(-96, 112), D: 9, Text: "pin A: drill 9 through", Kind: render.Cut, Layer: "DRILL"},
			{ID: "pin-b", At: geom.Pt(88, -30), D: 9, Text: "pin B: drill 9 through", Kind: render.Cut, Layer: "DRILL"},
		},
		Waste: []render.Waste{{Region: geom.Region{opening}}},
		Grain: geom.Vec{Y: 1},
		Block: []render.Field{
			{Name: "Instrument", Value: "Millrace"},
			{Name: "Part", Value: "tail pickup cavity"},
			{Name: "Face", Value: faceName + ", this face up"},
			{Name: "Cut", Value: "inside the line: the opening goes away"},
			{Name: "Template", Value: "MDF 18 mm, smallest inside radius 3 mm"},
			{Name: "Tool", Value: "bit 12.7 mm, bearing 12.7 mm on the shank side"},
			{Name: "Offset", Value: "none: bearing and cutter are equal"},
			{Name: "Depth", Value: "20.00 mm from the finished front, in 3 passes"},
			{Name: "Body", Value: "44.5 mm thick when finished"},
			{Name: "Grain", Value: "along the centre line"},
			{Name: "Revision", Value: "A 3f9c12d0"},
		},
		Notes: []string{
			"Bore both pins square through the blank before anything else.",
			"Wear eye, ear and dust protection. Follow the manual of the router and local rules. Never hold a blank under 150 mm by hand.",
		},
	}
}

// Board is a fretboard: many parallel slots on a long, narrow sheet.
func Board() render.Sheet {
	const scale = 648.0
	s := render.Sheet{ID: "fret-slots", Title: "Fret slots, 648 mm scale, 22 frets",
		Block: []render.Field{{Name: "Scale", Value: "648.00 mm"}, {Name: "Kerf", Value: "0.58 mm"}},
		Notes: []string{"Every slot is measured from the edge of the nut."}}
	end := scale * math.Pow(2, -23.0/12)
	half := func(y float64) float64 { return 21.5 + (28.0-21.5)*(scale-y)/(scale-end) }
	outline := geom.Polygon(geom.Pt(-half(end), end), geom.Pt(half(end), end), geom.Pt(half(scale), scale), geom.Pt(-half(scale), scale))
	slots := render.Group{ID: "slots", Title: "fret slots"}
	for n := 1; n <= 22; n++ {
		y := scale * math.Pow(2, -float64(n)/12)
		slots.Shapes = append(slots.Shapes, render.Shape{ID: fmt.Sprintf("slot-%d", n), Title: fmt.Sprintf("slot of fret %d", n),
			Kind: render.Cut, Path: geom.Polyline(geom.Pt(-half(y), y), geom.Pt(half(y), y)), Layer: "SLOTS"})
		s.Labels = append(s.Labels, render.Label{S: fmt.Sprint(n), At: geom.Pt(half(y), y)})
	}
	s.Groups = []render.Group{{ID: "board", Title: "fretboard", Shapes: []render.Shape{
		{ID: "outline", Title: "cut line: outside edge of the board", Path: outline, Kind: render.Cut, Layer: "OUTSIDE"},
		{ID: "axis", Title: "centre line", Path: geom.Polyline(geom.Pt(0, end-8), geom.Pt(0, scale+8)), Kind: render.Centre},
	}}, slots}
	s.Dims = []render.Dim{{A: geom.Pt(-half(scale), scale), B: geom.Pt(half(scale), scale), Along: geom.Vec{X: 1}, Text: "43"}}
	return s
}

// Hostile has names that break careless writers, and letters the font lacks.
func Hostile() render.Sheet {
	return render.Sheet{ID: `a&b"<c>`, Title: `Title "quoted" & <tagged> 'x' = y ]]> --> 木`,
		Groups: []render.Group{{ID: `g" onload="x`, Title: "Ωμέγα, Жук, ąęß — done", Shapes: []render.Shape{
			{ID: `x"/><script>`, Title: "a < b & c", Path: geom.Circle(geom.Pt(0, 0), 30), Kind: render.Cut},
			{ID: "1 2", Title: "two\nlines\x00", Path: geom.Polyline(geom.Pt(-40, 0), geom.Pt(40, 0)), Kind: render.Hidden},
		}}},
		Labels:  []render.Label{{S: "=raw= <b>&amp;", At: geom.Pt(0, 30)}, {S: "木工 ✓", At: geom.Pt(0, -30)}},
		Block:   []render.Field{{Name: "N<a>me", Value: "Ünïcode \u202e & \"quotes\""}},
		Notes:   []string{"no-break\u00a0space, zero\u200bwidth, emoji 🎸"},
		Warning: "MADE AGAINST A STOP: the bit (12.7 mm) is larger than the cavity. Do not cut from this sheet.",
	}
}

// Crowded asks for more labels than there is room for near their points.
func Crowded() render.Sheet {
	s := render.Sheet{ID: "crowded", Title: "Drill map, crowded"}
	g := render.Group{ID: "grid", Title: "lines"}
	for i := 0; i <= 24; i++ {
		v := float64(i) * 5
		g.Shapes = append(g.Shapes,
			render.Shape{Title: "line", Kind: render.Cut, Path: geom.Polyline(geom.Pt(v, 0), geom.Pt(v, 120))},
			render.Shape{Title: "line", Kind: render.Cut, Path: geom.Polyline(geom.Pt(0, v), geom.Pt(120, v))})
	}
	s.Groups = []render.Group{g}
	for i := 0; i < 30; i++ {
		s.Labels = append(s.Labels, render.Label{S: fmt.Sprintf("place %d of many", i+1), At: geom.Pt(float64(10+(i*37)%100), float64(10+(i*53)%100))})
	}
	return s
}

// Small is smaller than any title block.
func Small() render.Sheet {
	return render.Sheet{ID: "small", Title: "Jig: string ferrule drill block",
		Groups: []render.Group{{ID: "block", Shapes: []render.Shape{{ID: "edge", Title: "cut line", Path: geom.RoundedRect(geom.Pt(0, 0), 60, 24, 3), Kind: render.Cut}}}},
		Holes: []render.Hole{
			{ID: "h1", At: geom.Pt(-20, 0), D: 3, Text: "drill 3", Kind: render.Cut},
			{ID: "h2", At: geom.Pt(0, 0), D: 3, Text: "drill 3", Kind: render.Cut},
			{ID: "h3", At: geom.Pt(20, 0), D: 3, Text: "drill 3", Kind: render.Cut}},
		Dims:  []render.Dim{{A: geom.Pt(-20, 0), B: geom.Pt(0, 0), Along: geom.Vec{X: 1}, Text: "20"}, {A: geom.Pt(0, 0), B: geom.Pt(20, 0), Along: geom.Vec{X: 1}, Text: "20"}, {A: geom.Pt(-30, 0), B: geom.Pt(-20, 0), Along: geom.Vec{X: 1}, Text: "10"}},
		Block: []render.Field{{Name: "Part", Value: "drill block"}},
	}
}

// Outline is a large rounded body with pockets, for tiling.
func Outline() render.Sheet {
	body := geom.Region{geom.RoundedRect(geom.Pt(0, 20), 330, 430, 110)}
	pocket := geom.RoundedRect(geom.Pt(0, 42), 92, 45, 6)
	neck := geom.RoundedRect(geom.Pt(0, 170), 56, 76, 6.35)
	ctl := geom.RoundedRect(geom.Pt(100, -90), 70, 110, 20)
	return render.Sheet{ID: "body-front", Title: "Template: body outline with its pockets",
		Groups: []render.Group{{ID: "body", Title: "body", Shapes: []render.Shape{
			{ID: "outline", Title: "cut line: outside edge of the body", Path: body[0], Kind: render.Cut},
			{ID: "pickup", Title: "cut line: pickup cavity", Path: pocket, Kind: render.Cut},
			{ID: "neck-pocket", Title: "cut line: neck pocket", Path: neck, Kind: render.Cut},
			{ID: "control", Title: "hidden: control cavity, on the other face", Path: ctl, Kind: render.Hidden},
			{ID: "centre-line", Title: "centre line", Path: geom.Polyline(geom.Pt(0, -205), geom.Pt(0, 245)), Kind: render.Centre},
		}}},
		Labels: []render.Label{{S: "control cavity, from the back", At: geom.Pt(100, -90)}, {S: "neck pocket", At: geom.Pt(0, 170)}, {S: "tail pickup", At: geom.Pt(0, 42)}},
		Waste:  []render.Waste{{Region: geom.Region{pocket}}, {Region: geom.Region{neck}}},
		Dims:   []render.Dim{{A: geom.Pt(-165, 20), B: geom.Pt(165, 20), Along: geom.Vec{X: 1}, Text: "330"}, {A: geom.Pt(0, -195), B: geom.Pt(0, 235), Along: geom.Vec{Y: 1}, Text: "430"}},
		Grain:  geom.Vec{Y: 1},
		Block:  []render.Field{{Name: "Part", Value: "body"}, {Name: "Face", Value: "front, this face up"}, {Name: "Cut", Value: "on the line"}, {Name: "Grain", Value: "along the centre line"}},
	}
}
