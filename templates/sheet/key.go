package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/key"
)

// KeySheets are the sheets of one key made without a design. For a free path there
// is no template: the sheets of key and recess hold the paths.
type KeySheets struct {
	Key, Recess, Template, Coupon render.Sheet
}

// ForKey draws a proved key: the key and the recess as drawn, the female
// template, and a coupon with both for a scrap of wood.
func ForKey(f key.Fit, p key.Proof, depth float64) KeySheets {
	s := KeySheets{
		Key:      outline("key", "Key", f.Key, LayerOutside, "key: saw outside the line, trim to it", f, depth),
		Recess:   outline("recess", "Recess", f.Recess, LayerInside, "recess: the bit runs inside this line", f, depth),
		Template: keyTemplate(f, p, depth),
		Coupon:   coupon(f, p, depth),
	}
	if f.Tool.Free() {
		s.Key, s.Recess = freeKey(s.Key, p.Male, p.Key, depth), freeKey(s.Recess, p.Female, p.Recess, depth)
		s.Recess.Notes = append(stripNotes(f), s.Recess.Notes...)
		s.Template = render.Sheet{}
	}
	if !p.Recess.ByHand.Empty() {
		s.Recess.Groups = append(s.Recess.Groups, render.Group{ID: "hand-work", Title: "wood that the router leaves: take it with a chisel",
			Shapes: shapes(p.Recess.ByHand, "hand", "wood left by the router, to be taken with a chisel", render.Mark, LayerMark)})
		s.Recess.Dims = append(s.Recess.Dims, cornerDims(f)...)
	}
	for _, e := range []*render.Sheet{&s.Key, &s.Recess, &s.Template, &s.Coupon} {
		if e.ID == "" {
			continue
		}
		e.Block = append([]render.Field{measures}, e.Block...)
	}
	return s
}

// freeKey turns the sheet of a key or a recess into one with the path of the
// cutter's middle.
func freeKey(s render.Sheet, t cut.Template, p cut.Proof, depth float64) render.Sheet {
	t.ID = s.ID
	s.Title = "Cutter path: " + s.ID
	s.Groups[0] = freeLines(t, false)
	s.Waste, s.Meaning = []render.Waste{freeWaste(t)}, freeMeaning
	s.Block = append(s.Block,
		render.Field{Name: "Offset", Value: t.Tool.OffsetWords()},
		render.Field{Name: "Feed", Value: t.Feed(true)},
		render.Field{Name: "Passes", Value: passWords(t, cut.Plan(t.Tool, depth, 0))},
		render.Field{Name: "Zero", Value: zeroWords(t)},
		render.Field{Name: "Proof", Value: proofWords(p)})
	n := freeNotes(t)
	for _, h := range distinct(t.Hand) {
		n = append(n, "By hand: "+h+".")
	}
	s.Notes = append(n, smallWork)
	return s
}

// keyBlock fills the title block of a key's sheet.
func keyBlock(f key.Fit, depth float64) []render.Field {
	b := f.Key.Bounds()
	fields := []render.Field{
		{Name: "Key", Value: fmt.Sprintf("%s long, ends %s, waist %s mm before the gap", mm(f.Spec.Length), mm(f.Spec.Ends), mm(f.Spec.Waist))},
		{Name: "Key drawn", Value: fmt.Sprintf("%s × %s mm", mm(b.W()), mm(b.H()))},
		{Name: "Corners", Value: string(f.Spec.Corners)},
		{Name: "Fit gap", Value: fmt.Sprintf("%s mm a side, taken off the key", mm(f.Spec.Gap))},
		{Name: "Tool", Value: f.Tool.String()},
		{Name: "Depth", Value: mm(depth) + " mm"},
		{Name: "Grain", Value: "of the key along its long axis"},
	}
	return append(fields, borderField(f)...)
}

// borderField says what a border adds to the recess; nothing without one.
func borderField(f key.Fit) []render.Field {
	o := f.Spec.Grows()
	if o <= 0 {
		return nil
	}
	return []render.Field{{Name: "Border", Value: fmt.Sprintf("veneer %s mm, glue line %s mm: the recess is %s mm larger a side", mm(f.Spec.Border), mm(f.Spec.GlueLine), mm(o))}}
}

func outline(id, title string, r geom.Region, l render.Layer, words string, f key.Fit, depth float64) render.Sheet {
	b := r.Bounds()
	return render.Sheet{
		ID: id, Title: title, View: eitherFace,
		Groups: []render.Group{
			{ID: id, Title: title, Shapes: shapes(r, "cut-"+id, words, render.Cut, l)},
			keyAxes(b),
		},
		Dims: []render.Dim{
			{A: geom.Pt(b.Min.X, b.Max.Y), B: geom.Pt(b.Max.X, b.Max.Y), Along: geom.Vec{X: 1}, Text: mm(b.W())},
			{A: geom.Pt(b.Max.X, b.Min.Y), B: geom.Pt(b.Max.X, b.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(b.H())},
		},
		Grain: keyGrain,
		Block: keyBlock(f, depth),
		Notes: []string{words + ".", smallWork},
	}
}

// eitherFace is the view of a sheet that may lie on either face.
const eitherFace = "Either face up"

// smallWork is the caution that every sheet of a key carries.
const smallWork = "A key is small work: never hold it by hand at the bit. Hold it in a block at least 60 mm larger all round, wear eye, ear and dust protection, and follow the tool's manual."

func keyAxes(b geom.Box) render.Group {
	b = b.Grow(6)
	return render.Group{ID: "axes", Title: "axes", Shapes: []render.Shape{
		{ID: "axis-long", Title: "axis of the key: lay it square to the crack", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(geom.Pt(b.Min.X, 0), geom.Pt(b.Max.X, 0))}},
		{ID: "axis-waist", Title: "waist: lay it on the crack", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(geom.Pt(0, b.Min.Y), geom.Pt(0, b.Max.Y))}},
	}}
}

func keyTemplate(f key.Fit, p key.Proof, depth float64) render.Sheet {
	t := p.Female
	s := outline("template", "Template: recess", f.Female, LayerInside, "opening: the follower runs inside this line", f, depth)
	s.Groups = append(s.Groups, render.Group{ID: "sheet", Title: "template sheet", Shapes: shapes(t.Blank, "sheet", "edge of the template sheet: saw outside it", render.Cut, LayerOutside)})
	if t.Tool.Offset() != 0 {
		s.Groups = append(s.Groups, render.Group{ID: "part", Title: "recess", Shapes: shapes(f.Recess, "part", "edge of the finished recess, not to be cut here", render.Mark, LayerMark)})
	}
	s.Waste = []render.Waste{{Region: t.Shape}}
	s.Block = append(s.Block,
		render.Field{Name: "Offset", Value: t.Tool.OffsetWords()},
		render.Field{Name: "Feed", Value: t.Feed(true)},
		render.Field{Name: "Passes", Value: passWords(t, cut.Plan(t.Tool, depth, t.Sheet))},
		render.Field{Name: "Proof", Value: proofWords(p.Recess)})
	s.Notes = append(keyNotes(f, p), s.Notes...)
	return s
}

// coupon shows key and recess side by side: cut both in scrap first.
func coupon(f key.Fit, p key.Proof, depth float64) render.Sheet {
	const between = 25 // mm of scrap between the two; common practice
	b := f.Recess.Bounds()
	move := geom.Translate(geom.Vec{Y: -(b.H() + between)}) // below, so that each dimension stands by its own
	s := outline("coupon", "Test coupon: key and recess", f.Recess, LayerInside, "recess: the bit runs inside this line", f, depth)
	s.Groups = append(s.Groups,
		render.Group{ID: "coupon-key", Title: "key", Shapes: shapes(move.Region(f.Key), "cut-coupon-key", "key: saw outside the line, trim to it", render.Cut, LayerOutside)})
	k := move.Region(f.Key).Bounds()
	s.Dims = append(s.Dims, render.Dim{A: geom.Pt(k.Min.X, k.Min.Y), B: geom.Pt(k.Max.X, k.Min.Y), Along: geom.Vec{X: 1}, Text: mm(k.W())})
	s.Labels = []render.Label{
		{S: "recess", At: geom.Pt(b.Min.X, b.Min.Y)},
		{S: "key", At: move.Point(geom.Pt(b.Min.X, b.Min.Y))},
	}
	s.Notes = append([]string{"Cut both in scrap of the same wood before the real slab. If the key does not fit, measure it and the recess, and correct the bit's diameter."}, append(keyNotes(f, p), smallWork)...)
	return s
}

// cornerDims gives the wood left in one end corner of a chiselled recess: how
// far it reaches along each side. The other three are like it.
func cornerDims(f key.Fit) []render.Dim {
	for _, c := range f.Corners() {
		return []render.Dim{{A: c.Tip, B: c.B, Text: mm(c.Length)}, {A: c.A, B: c.Tip, Text: mm(c.Length)}}
	}
	return nil
}

// stripNotes are the border strips of one key in words.
func stripNotes(f key.Fit) []string {
	var n []string
	for _, s := range f.Strips() {
		n = append(n, "Border strips of one key: "+s.String()+".")
	}
	return n
}

// gapNote says how the key as cut lies in its recess as cut.
func gapNote(g cut.Range) string {
	return "Key in recess as cut: gap " + g.Words() + " a side, mean " + mm(g.Mean) + "."
}

func keyNotes(f key.Fit, p key.Proof) []string {
	n := []string{gapNote(p.Gap)}
	n = append(n, stripNotes(f)...)
	for _, h := range distinct(append(append([]cut.HandWork{}, f.RecessHand...), f.KeyHand...)) {
		n = append(n, "By hand: "+h+".")
	}
	return n
}
