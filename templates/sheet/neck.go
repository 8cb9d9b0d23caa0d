package sheet

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/neck"
	"routwright/templates/part"
)

// Ids of the sheets of the neck that belong to no template.
const (
	NeckSideID   = "neck-side-view"
	NeckGaugesID = "neck-gauges"
	NeckViewID   = "neck-geometry"
)

// ofNeck reports whether a part is one of the neck's.
func ofNeck(k part.Kind) bool {
	return k == part.Neck || k == part.Headstock || k == part.NeckSide
}

// neckSheets draws the sheets of the neck that belong to no template: side,
// gauges and, where the neck angle is known, the geometry.
func neckSheets(j *job.Job) []render.Sheet {
	var out []render.Sheet
	if j.Shape != nil {
		out = append(out, neckSide(j), neckGauges(j))
	}
	if j.Neck != nil && j.Board != nil && j.Neck.ToSaddle > 0 {
		out = append(out, neckView(j))
	}
	return out
}

// neckTemplate draws a male template of the neck.
func neckTemplate(j *job.Job, i int) render.Sheet {
	t, proof := j.Templates[i], j.Proofs[i]
	s := render.Sheet{ID: t.ID, Title: "Template: " + t.Name, Grain: slabGrain}
	lines := render.Group{ID: "template-" + t.ID, Title: s.Title,
		Shapes: shapes(t.Shape, "cut-"+t.ID, "cut line of the template: the bit runs outside it", render.Cut, LayerOutside)}
	if t.Free() {
		s.Title, s.Meaning, lines = "Cutter path: "+t.Name, freeMeaning, freeLines(t, false)
	} else if t.Tool.Offset() != 0 {
		lines.Shapes = append(lines.Shapes, shapes(t.For.Plan(), "part-"+t.ID, "edge of the finished "+string(t.For.Kind)+", not to be cut here", render.Mark, LayerMark)...)
	}
	s.Groups = append(s.Groups, lines)
	if t.Free() {
		s.Waste = []render.Waste{freeWaste(t)}
	} else {
		var c geom.Calc
		s.Waste = []render.Waste{{Region: c.Subtract(c.Offset(t.Shape, wasteBand, geom.Round), t.Shape)}}
	}
	sh := j.Shape
	switch {
	case t.For.Kind == part.NeckSide:
		s.View = sideView(j)
		s.Groups = append(s.Groups, sideLines(j))
		s.Labels, s.Dims = sideLabels(j), sideDims(j)
	default:
		both := sh.Spec.Head.Tilt == 0
		if t.For.Kind == part.Headstock {
			s.View = "Seen square to the head's face"
		}
		if both || t.For.Kind == part.Neck {
			planOfShaft(j, &s)
		}
		if both || t.For.Kind == part.Headstock {
			planOfHead(j, &s)
		}
		planCentre(&s, t.Shape.Bounds(), sh)
	}
	s.Block = neckBlock(j, i, proof)
	s.Notes = neckNotes(j, t)
	return s
}

// planCentre draws the centre line and the nut's line.
func planCentre(s *render.Sheet, b geom.Box, sh *neck.Shape) {
	g := render.Group{ID: "datums", Title: "centre line and nut line", Shapes: []render.Shape{
		{ID: "centre-line", Title: "centre line", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(geom.Pt(0, b.Min.Y-6), geom.Pt(0, b.Max.Y+6))}},
		{ID: "nut-line", Title: "nut line: string edge of the nut", Kind: render.Mark, Layer: LayerMark, Path: geom.Path{sh.Spec.Board.Nut}},
		{ID: "head-line", Title: headLine(sh), Kind: render.Mark, Layer: LayerMark, Path: geom.Path{sh.Fold}},
	}}
	s.Groups = append(s.Groups, g)
	s.Labels = append(s.Labels, render.Label{S: "centre line", At: geom.Pt(0, b.Max.Y)},
		render.Label{S: "nut line", At: rightEnd(sh.Spec.Board.Nut)}, render.Label{S: headLine(sh), At: rightEnd(sh.Fold)})
}

// rightEnd returns the end of a line that lies to the right.
func rightEnd(l geom.Seg) geom.Point {
	if l.A.X > l.B.X {
		return l.A
	}
	return l.B
}

func headLine(sh *neck.Shape) string {
	switch {
	case sh.Spec.Head.Tilt > 0:
		return fmt.Sprintf("head begins, tilted %s°", mm(sh.Spec.Head.Tilt.Degrees()))
	case sh.Spec.Head.Step > 0:
		return fmt.Sprintf("head begins, %s lower", mm(sh.Spec.Head.Step))
	}
	return "head begins"
}

// across returns the line over the neck at a height y.
func across(sh *neck.Shape, y float64) geom.Seg {
	half := sh.WidthAt(y) / 2
	return geom.Line(geom.Pt(-half, y), geom.Pt(half, y))
}

// planOfShaft adds what lies between heel and nut: body's edge, two frets, rod.
func planOfShaft(j *job.Job, s *render.Sheet) {
	sh := j.Shape
	sp := sh.Spec
	g := render.Group{ID: "places", Title: "places on the neck"}
	for _, l := range []struct {
		id, words string
		y         float64
	}{
		{"body-edge", "edge of the body", sp.Heel.Joint},
		{"fret-1", "fret 1: profile gauge", sp.Board.First},
		{"fret-octave", fmt.Sprintf("fret %d: profile gauge", sp.Board.OctaveFret), sp.Board.Octave},
	} {
		a := across(sh, l.y)
		g.Shapes = append(g.Shapes, render.Shape{ID: l.id, Title: l.words, Kind: render.Mark, Layer: LayerMark, Path: geom.Path{a}})
		s.Labels = append(s.Labels, render.Label{S: fmt.Sprintf("%s, board %s wide", l.words, mm(a.Length())), At: rightEnd(a)})
	}
	s.Groups = append(s.Groups, g)
	if c := sh.Rod; c != nil {
		s.Groups = append(s.Groups, render.Group{ID: "rod", Title: "truss rod channel",
			Shapes: shapes(c.Plan, "rod-channel", "truss rod channel, "+rodWords(sh), render.Mark, LayerMark)})
		s.Labels = append(s.Labels, render.Label{S: "rod channel, " + rodWords(sh), At: geom.Pt(sp.Rod.Width/2, (c.From+c.To)/2)})
		s.Dims = append(s.Dims, render.Dim{A: geom.Pt(0, c.From), B: geom.Pt(0, sp.Board.Nut.At(0.5).Y), Along: geom.Vec{Y: 1}, Text: mm(math.Abs(sp.Board.Nut.At(0.5).Y - c.From))})
	}
	n, end := sp.Board.Nut, across(sh, sp.Heel.End)
	half := sp.Heel.WidthEnd / 2
	s.Dims = append(s.Dims,
		render.Dim{A: n.A, B: n.B, Along: geom.Vec{X: 1}, Text: mm(math.Abs(n.B.X - n.A.X))},
		render.Dim{A: geom.Pt(-half, end.A.Y), B: geom.Pt(half, end.A.Y), Along: geom.Vec{X: 1}, Text: mm(2 * half)},
		render.Dim{A: geom.Pt(half, end.B.Y), B: rightEnd(n), Along: geom.Vec{Y: 1}, Text: mm(math.Abs(n.At(0.5).Y - end.A.Y))},
		render.Dim{A: geom.Pt(-half, end.A.Y), B: geom.Pt(-sp.Heel.WidthJoint/2, sp.Heel.Joint), Along: geom.Vec{Y: 1}, Text: mm(sp.Heel.Joint - sp.Heel.End)},
	)
}

// rodWords says how the channel is cut.
func rodWords(sh *neck.Shape) string {
	r := sh.Spec.Rod
	w := fmt.Sprintf("%s wide, %s deep below the board", mm(r.Width), mm(r.Depth))
	if r.Bow > 0 {
		w += fmt.Sprintf(", %s in its middle along an arc", mm(r.Depth+r.Bow))
	}
	return w
}

// planOfHead adds tuners, strings and the head's measures.
func planOfHead(j *job.Job, s *render.Sheet) {
	sh := j.Shape
	h := sh.Spec.Head
	box := sh.Head.Bounds()
	left, right := sideways(sh.Head)
	nut := sh.Spec.Board.Nut.At(0.5)
	s.Dims = append(s.Dims,
		render.Dim{A: left, B: right, Along: geom.Vec{X: 1}, Text: mm(box.W())},
		render.Dim{A: geom.Pt(box.Max.X, nut.Y), B: geom.Pt(box.Max.X, box.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(sh.Length)})
	if len(sh.Tuners) == 0 {
		return
	}
	g := render.Group{ID: "strings", Title: "strings from the nut to their posts"}
	bodies := render.Group{ID: "tuners", Title: "tuners behind the head"}
	for i, t := range sh.Tuners {
		g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("string-%d", t.String), Title: fmt.Sprintf("string %d", t.String), Kind: render.Dimension, Layer: LayerMark, Path: geom.Path{geom.Line(t.From, t.To)}})
		bodies.Shapes = append(bodies.Shapes, shapes(t.Body, fmt.Sprintf("tuner-%d", t.String), fmt.Sprintf("tuner of string %d, behind the head", t.String), render.Hidden, LayerHidden)...)
		text := fmt.Sprintf("string %d", t.String)
		if i == 0 {
			text += fmt.Sprintf(": drill %s through, all", mm(h.Hole))
		}
		s.Holes = append(s.Holes, render.Hole{ID: fmt.Sprintf("tuner-hole-%d", t.String), At: t.Post, D: h.Hole, Text: text, Kind: render.Cut, Layer: LayerDrill})
	}
	s.Groups = append(s.Groups, g, bodies)
	for _, row := range tunerRows(sh) {
		a := row[0]
		s.Dims = append(s.Dims, render.Dim{A: geom.Pt(a.Post.X, nut.Y), B: a.Post, Along: geom.Vec{Y: 1}, Text: mm(a.Post.Y - nut.Y)})
		if n := len(row); n > 1 {
			s.Dims = append(s.Dims, render.Dim{A: a.Post, B: row[1].Post, Text: mm(a.Post.Dist(row[1].Post))})
		}
	}
}

// sideways returns the points of a path that lie furthest to the left and to the
// right.
func sideways(p geom.Path) (left, right geom.Point) {
	const fine = 1e-3 // mm, of the chords that are looked at
	for i, q := range p.Flatten(fine) {
		if i == 0 || q.X < left.X {
			left = q
		}
		if i == 0 || q.X > right.X {
			right = q
		}
	}
	return left, right
}

// tunerRows returns the tuners of each side, the nearest to the nut first.
func tunerRows(sh *neck.Shape) [][]neck.Tuner {
	h, n := sh.Spec.Head, len(sh.Tuners)
	var out [][]neck.Tuner
	if h.Treble > 0 {
		out = append(out, sh.Tuners[:h.Treble])
	}
	if h.Bass > 0 {
		var row []neck.Tuner
		for i := n - 1; i >= n-h.Bass; i-- {
			row = append(row, sh.Tuners[i])
		}
		out = append(out, row)
	}
	return out
}

// alongBoard says what the places on a sheet of the neck are measured along.
func alongBoard(j *job.Job) string {
	w := "y counts from the bridge line along the board, to the nut"
	if j.Neck.Angled() {
		w += fmt.Sprintf("; the board leans by %.3f° from the body, so that lengths on it are longer than on the body", j.Neck.Angle.Degrees())
	}
	return w
}

// neckBlock fills the title block of a template of the neck.
func neckBlock(j *job.Job, i int, p cut.Proof) []render.Field {
	sh, t := j.Shape, j.Templates[i]
	face := part.Front.Words()
	grain := "of the neck, along the centre line"
	switch t.For.Kind {
	case part.Headstock:
		face, grain = "FRONT of the head, this face up", "of the head, along its centre line"
	case part.NeckSide:
		face = "either side of the neck"
	}
	f := []render.Field{
		{Name: "Part", Value: t.For.String()},
		{Name: "Face", Value: face},
		{Name: "Cut", Value: sideWords(t)},
		{Name: "Tool", Value: t.Tool.String()},
		{Name: "Offset", Value: t.Tool.OffsetWords()},
		{Name: "Places", Value: alongBoard(j)},
	}
	f = append(f, shopFields(j, i)...)
	if t.Free() {
		f = append(f, render.Field{Name: "Zero", Value: "where the centre line crosses the bridge line; x to the right of this sheet, y along the board to the nut"})
	}
	if t.For.Kind != part.NeckSide {
		f = append(f, headFields(sh, t.For.Kind)...)
	}
	f = append(f, render.Field{Name: "Wood", Value: fmt.Sprintf("%s mm deep for this cut, the board not counted", mm(t.For.Depth(j.Thickness)))})
	if !t.Free() {
		f = append(f, render.Field{Name: "Template", Value: fmt.Sprintf("%s mm sheet, inside corners no tighter than %s mm radius", mm(t.Sheet), mm(t.InsideRadius))})
	}
	return append(f,
		render.Field{Name: "Fit gap", Value: "none in this sheet"},
		render.Field{Name: "Grain", Value: grain},
		render.Field{Name: "Proof", Value: proofWords(p)})
}

// headFields tells of the tuners and of how far each string bends.
func headFields(sh *neck.Shape, k part.Kind) []render.Field {
	h := sh.Spec.Head
	if len(sh.Tuners) == 0 || k == part.Neck && h.Tilt > 0 {
		return nil
	}
	var bends []string
	least := math.Inf(1)
	for _, t := range sh.Tuners {
		bends = append(bends, fmt.Sprintf("%d: %s°", t.String, design.MM(math.Round(10*t.Deflection.Degrees())/10)))
		least = math.Min(least, t.Wall)
	}
	return []render.Field{
		{Name: "Tuners", Value: fmt.Sprintf("%s, hole %s, pitch %s; least wood beside a hole %s", h.Kind, mm(h.Hole), mm(h.Pitch), mm(least))},
		{Name: "At the nut", Value: "outward bend of string " + strings.Join(bends, ", ")},
	}
}

// neckNotes are the sentences under the title block.
func neckNotes(j *job.Job, t cut.Template) []string {
	n := []string{"Cut on the middle of the line. Glue the print down dry or with spray: wet glue swells paper. Measure it again after gluing."}
	if t.Free() {
		n = freeNotes(t)
	}
	sh := j.Shape
	switch t.For.Kind {
	case part.Neck:
		n = append(n, "Lay the centre line of this template on that of the blank.")
		if sh.Rod != nil {
			n = append(n, "Rout the rod's channel first, while the blank is square, with a bit of its width along a fence or edge guide, in passes no deeper than half the bit; no template is made for it.")
		}
		if sh.Spec.Head.Tilt > 0 {
			n = append(n, "Stop the bit at the line where the head begins: the head falls away there and has a template of its own. Saw that end.")
		}
	case part.Headstock:
		n = append(n, "Lay this template on the face of the head, its centre line on the neck's and the nut line square over it. Its lower end reaches over the neck and is not cut. Drill the tuners' holes against a backing of scrap.")
	case part.NeckSide:
		n = append(n, "Saw close to the line first; the cutter must be longer than the neck is wide, or work from both sides.")
	}
	for _, h := range distinct(t.Hand) {
		n = append(n, "By hand: "+h+".")
	}
	return append(n, neckCare)
}

const neckCare = "Routers throw chips and grab small work: wear eye, ear and dust protection, hold the blank in a vice or on a board that is longer than it, and follow the tool's manual."

// sideView says from where the side is seen.
func sideView(j *job.Job) string {
	if j.Design.Hand.V == "left" {
		return "Seen from the treble side, front to the right"
	}
	return "Seen from the treble side, front to the left"
}

// degrees prints an angle for paper.
func degrees(a geom.Angle) string { return design.MM(a.Degrees()) + "°" }
