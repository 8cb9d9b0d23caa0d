package sheet

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/part"
)

// wasteBand is how wide the waste round a male template is hatched, mm.
const wasteBand = 5

// template draws the sheet of one template.
func template(j *job.Job, i int) render.Sheet {
	t, proof := j.Templates[i], j.Proofs[i]
	size := j.Keys.Of(t.ID)
	s := render.Sheet{ID: t.ID, Title: "Template: " + t.Name, FromBack: t.For.Face == part.Back && (!t.Loose || t.For.Kind == part.Cover)}
	switch {
	case t.For.Kind == part.Cover:
		s.View = "Show face up" // as it lies in the back
	case t.Loose:
		s.View = eitherFace
	}
	if t.Free() {
		s.Title = "Cutter path: " + t.Name
	}
	lines := render.Group{ID: "template-" + t.ID, Title: s.Title}
	if t.Free() {
		lines = freeLines(t, s.FromBack)
		s.Waste = append(s.Waste, freeWaste(t))
	} else if t.Male {
		lines.Shapes = shapes(t.Shape, "cut-"+t.ID, "cut line of the template: the bit runs outside it", render.Cut, LayerOutside)
		var c geom.Calc
		s.Waste = append(s.Waste, render.Waste{Region: c.Subtract(c.Offset(t.Shape, wasteBand, geom.Round), t.Shape)})
	} else {
		lines.Shapes = append(shapes(t.Blank, "sheet-"+t.ID, "edge of the template sheet: saw outside it", render.Cut, LayerOutside),
			shapes(t.Shape, "cut-"+t.ID, "cut line of the opening: the bit runs inside it", render.Cut, LayerInside)...)
		s.Waste = append(s.Waste, render.Waste{Region: t.Shape})
	}
	if t.Tool.Offset() != 0 && !t.Free() {
		lines.Shapes = append(lines.Shapes, shapes(t.For.Plan(), "part-"+t.ID, "edge of the finished "+string(t.For.Kind)+", not to be cut here", render.Mark, LayerMark)...)
	}
	s.Groups = append(s.Groups, lines)
	box := t.Extent()
	if t.Loose {
		s.Groups = append(s.Groups, axes(t, box))
	} else {
		s.Groups = append(s.Groups, datums(box))
		s.Labels = append(s.Labels, datumLabels(box)...)
	}
	if !t.Male && !t.Loose {
		s.Groups = append(s.Groups, cracks(j, box, t.For.Face))
	}
	drill := j.DrillOut(i)
	if len(drill.Holes) > 0 {
		s.Groups = append(s.Groups, drillMarks(t, drill), wasteTable(j, t, drill, s.FromBack))
	}
	if held, labels := holdMarks(j, i, s.FromBack); len(held.Shapes) > 0 {
		s.Groups = append(s.Groups, held)
		s.Labels = append(s.Labels, labels...)
	}
	if t.For.Kind == part.Key || t.For.Kind == part.Recess {
		s.Groups = append(s.Groups, handWork(j, t, proof)...)
	}
	s.Grain = slabGrain
	if t.For.Kind == part.Key {
		s.Grain = keyGrain
	}
	s.Holes = append(append(pinHoles(t.Pins), coverHoles(t.For)...), seatHoles(j, t.For)...)
	if t.Free() {
		s.Holes = append(zeroMarks(t.Pins, s.FromBack), seatHoles(j, t.For)...)
		s.Meaning = freeMeaning
	}
	if t.For.Kind == part.Cavity {
		s.Groups = append(s.Groups, bodies(j, t.For)...)
	}
	if t.For.Kind == part.Body && !t.Free() {
		s.Groups = append(s.Groups, plugs(j)...)
	}
	s.Dims = templateDims(t)
	if size != nil && !t.Male {
		s.Dims = append(s.Dims, cornerDims(size.Fit)...)
	}
	s.Block = templateBlock(j, i)
	s.Notes = templateNotes(j, t, proof)
	if len(drill.Holes) > 0 {
		s.Notes = append([]string{drillNote(j, i)}, s.Notes...)
	}
	return s
}

// axes draws the two axes of a template that is set to lines on the work.
func axes(t cut.Template, b geom.Box) render.Group {
	b = b.Grow(6)
	c := t.For.Plan().Bounds().Center()
	g := render.Group{ID: "axes", Title: "axes"}
	if t.For.Kind != part.Cover {
		g.Shapes = []render.Shape{
			{ID: "axis-long", Title: "axis of the key: lay it square to the crack", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(geom.Pt(b.Min.X, c.Y), geom.Pt(b.Max.X, c.Y))}},
			{ID: "axis-waist", Title: "waist: lay it on the crack", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(geom.Pt(c.X, b.Min.Y), geom.Pt(c.X, b.Max.Y))}},
		}
	}
	return g
}

// cracks draws the traces of the cracks that cross a sheet of the given face:
// the other face's dashed.
func cracks(j *job.Job, sheet geom.Box, face part.Face) render.Group {
	g := render.Group{ID: "cracks", Title: "cracks as measured"}
	kind := map[bool]render.Kind{true: render.Mark, false: render.Hidden}
	for i, c := range j.Cracks {
		for _, l := range []struct {
			p    geom.Path
			face string
			kind render.Kind
		}{{c.Front, "front", kind[face == part.Front]}, {c.Back, "back", kind[face == part.Back]}} {
			if l.p == nil || !l.p.Bounds().Overlaps(sheet) {
				continue
			}
			var in geom.Path
			for _, s := range l.p {
				if sheet.Contains(s.A) && sheet.Contains(s.B) {
					in = append(in, s)
				}
			}
			if in != nil {
				g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("crack-%d-%s", i+1, l.face), Title: "crack on the " + l.face, Path: in, Kind: l.kind, Layer: LayerMark})
			}
		}
	}
	return g
}

// handWork draws what the router leaves for the chisel.
func handWork(j *job.Job, t cut.Template, p cut.Proof) []render.Group {
	if p.ByHand.Empty() {
		return nil
	}
	return []render.Group{{ID: "hand-work", Title: "wood that the router leaves: take it by hand",
		Shapes: shapes(p.ByHand, "hand", "wood left by the router, to be taken by hand", render.Mark, LayerMark)}}
}

func pinHoles(pins []cut.Pin) []render.Hole {
	var hs []render.Hole
	for _, p := range pins {
		hs = append(hs, render.Hole{ID: "pin-" + p.Name, At: p.At, D: p.D, Kind: render.Cut, Layer: LayerDrill,
			Text: fmt.Sprintf("pin %s: drill %s through", p.Name, mm(p.D))})
	}
	return hs
}

// templateDims gives the measures that a rule checks: the cut line's size, and
// its place from the datums.
func templateDims(t cut.Template) []render.Dim {
	b := t.Shape.Bounds()
	if t.Free() { // a rule checks the part
		b = t.For.Plan().Bounds()
	}
	dims := []render.Dim{
		{A: geom.Pt(b.Min.X, b.Max.Y), B: geom.Pt(b.Max.X, b.Max.Y), Along: geom.Vec{X: 1}, Text: mm(b.W())},
		{A: geom.Pt(b.Max.X, b.Min.Y), B: geom.Pt(b.Max.X, b.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(b.H())},
	}
	if !t.Loose && !t.Male && t.Extent().Contains(geom.Pt(t.Extent().Center().X, 0)) {
		to := b.Min.Y
		if b.Max.Y < 0 {
			to = b.Max.Y
		}
		dims = append(dims, render.Dim{A: geom.Pt(b.Min.X, 0), B: geom.Pt(b.Min.X, to), Along: geom.Vec{Y: 1}, Text: mm(math.Abs(to))})
	}
	if x, off := nearEdge(b); off && !t.Loose && !t.Male {
		dims = append(dims, render.Dim{A: geom.Pt(0, b.Min.Y), B: geom.Pt(x, b.Min.Y), Along: geom.Vec{X: 1}, Text: mm(math.Abs(x))})
	}
	return dims
}

// nearEdge returns the x of the side of a box that lies nearer to the centre
// line; off is false when the box lies over it.
func nearEdge(b geom.Box) (x float64, off bool) {
	if b.Min.X > 0 {
		return b.Min.X, true
	}
	return b.Max.X, b.Max.X < 0
}

// placeWords says where an opening lies from the two datums: needed where the
// sheet itself does not reach the bridge line.
func placeWords(j *job.Job, b geom.Box) string {
	side := func(x float64) string {
		treble := x > 0
		if j.Design.Hand.V == "left" {
			treble = x < 0
		}
		if treble {
			return mm(math.Abs(x)) + " treble"
		}
		return mm(math.Abs(x)) + " bass"
	}
	return fmt.Sprintf("opening from %s to %s of the centre line, %s to %s mm from the bridge line, + to the neck", side(b.Min.X), side(b.Max.X), mm(b.Min.Y), mm(b.Max.Y))
}

// sideWords says on which side of the line the tool runs.
func sideWords(t cut.Template) string {
	switch {
	case t.Free():
		return "the machine leads the middle of the cutter along the narrow line with the arrow; the wide line is the edge that it leaves"
	case t.Male:
		return "on the line; the router runs round the outside"
	}
	return "on the line; the router runs inside the opening"
}

// templateBlock fills the title block. Every sheet says the face, the side of
// the line, the tool, the depth, the thicknesses, and whether an offset is in.
func templateBlock(j *job.Job, i int) []render.Field {
	t, p := j.Templates[i], j.Proofs[i]
	face := t.For.Face.Words()
	switch {
	case t.For.Kind == part.Cover:
		face = "show face of the cover up, as seen from the back"
	case t.Loose && t.Free():
		face = "either face up"
	case t.Loose:
		face = "either face of the template"
	}
	f := []render.Field{
		{Name: "Part", Value: t.For.String()},
		{Name: "Face", Value: face},
		{Name: "Cut", Value: sideWords(t)},
		{Name: "Tool", Value: t.Tool.String()},
		{Name: "Offset", Value: t.Tool.OffsetWords()},
	}
	if d := t.For.Depth(j.Thickness); !t.For.Adds {
		v := mm(d) + " mm from the finished " + t.For.Face.String()
		if plate := j.Plate(t.For); plate > 0 {
			v = fmt.Sprintf("%s mm from the %s as it lies before its plate of %s mm is glued on; %s below the finished %s", mm(j.CutDepth(t)), t.For.Face, mm(plate), mm(d), t.For.Face)
		}
		if t.For.Kind == part.Recess {
			faces := j.Keys.Faces()
			if t.Pinned() {
				faces = []part.Face{t.For.Face}
			}
			v = recessDepth(j, faces)
		}
		if t.For.Kind == part.Pocket && j.Neck != nil {
			v = j.Neck.Pocket.DepthWords()
		}
		f = append(f, render.Field{Name: "Depth", Value: v})
	}
	f = append(f, shopFields(j, i)...)
	if t.Free() {
		f = append(f, render.Field{Name: "Zero", Value: zeroWords(t)})
	}
	if size := j.Keys.Of(t.ID); size != nil {
		f = append(f, borderField(size.Fit)...)
	}
	if t.Pinned() {
		place := t.Shape
		if t.Free() {
			place = t.For.Plan()
		}
		f = append(f, render.Field{Name: "Place", Value: placeWords(j, place.Bounds())})
	}
	f = append(f, render.Field{Name: "Body", Value: mm(j.Thickness) + " mm thick when finished"})
	if !t.Free() {
		f = append(f, render.Field{Name: "Template", Value: fmt.Sprintf("%s mm sheet, inside corners no tighter than %s mm radius", mm(t.Sheet), mm(t.InsideRadius))})
	}
	f = append(f,
		render.Field{Name: "Fit gap", Value: fitGap(j, t)},
		render.Field{Name: "Grain", Value: grainWords(t)},
		render.Field{Name: "Proof", Value: proofWords(p)},
	)
	return f
}

// recessDepth says how deep the recesses are cut, face by face.
func recessDepth(j *job.Job, faces []part.Face) string {
	var w []string
	for _, f := range faces {
		d, off := j.Keys.Depth, j.PlaneOff[f]
		if off > 0 {
			w = append(w, fmt.Sprintf("%s: %s mm before planing (%s finished, %s still to come off)", f, mm(j.RecessDepth(f)), mm(d), mm(off)))
		} else {
			w = append(w, fmt.Sprintf("%s mm from the finished %s", mm(d), f))
		}
	}
	return strings.Join(w, "; ")
}

// grainWords says what the grain arrow means on a template.
func grainWords(t cut.Template) string {
	switch t.For.Kind {
	case part.Key:
		return "of the key, along its long axis"
	case part.Recess:
		return "of the slab, across the key"
	case part.Cover:
		return "of the cover, along the centre line"
	}
	return "of the slab, along the centre line"
}

// fitGap says whether a gap is in the lines.
func fitGap(j *job.Job, t cut.Template) string {
	switch t.For.Kind {
	case part.Key:
		return fmt.Sprintf("%s mm a side, taken off this key", mm(j.Keys.Fit.Spec.Gap))
	case part.Recess:
		return fmt.Sprintf("none in this sheet; %s mm a side comes off the key", mm(j.Keys.Fit.Spec.Gap))
	case part.Cover:
		return fmt.Sprintf("%s mm a side, taken off this cover", mm(j.CoverGap(t.For.Group)))
	}
	return "none in this sheet"
}

// proofWords sums up the simulated cut.
func proofWords(p cut.Proof) string {
	w := "simulated cut: "
	switch {
	case !p.Left.Empty() || !p.Lost.Empty():
		w += fmt.Sprintf("DOES NOT MAKE THE PART: %s mm² left, %s mm² lost", mm(p.Left.Area()), mm(p.Lost.Area()))
	case !p.ByHand.Empty():
		w += fmt.Sprintf("true to %s mm; %s mm² left for the chisel, up to %s mm from the line", mm(cut.Seen), mm(p.ByHand.Area()), mm(p.LeftReach))
	default:
		w += fmt.Sprintf("true to %s mm, no hand work", mm(cut.Seen))
	}
	return w
}

// templateNotes are the sentences under the title block.
func templateNotes(j *job.Job, t cut.Template, p cut.Proof) []string {
	n := []string{"Cut on the middle of the line. Glue the print down dry or with spray: wet glue swells paper. Measure it again after gluing."}
	if t.Free() {
		n = freeNotes(t)
	}
	if t.Male && !t.Loose && !t.Free() {
		n = append(n, plugNote(j))
	}
	if t.Loose && !t.Male && !t.Free() {
		n = append(n, "Lay the waist line on the crack and the long axis square to it; hold the sheet by tape or by clamps outside the sweep of the router's base.")
	}
	if t.Tool.Why != "" {
		n = append(n, "Tool, since the design names none: "+t.Tool.Why+".")
	}
	size := j.Keys.Of(t.ID)
	if size != nil && size.Fit.Inlay != nil {
		in := size.Fit.Inlay
		n = append(n, fmt.Sprintf("One opening for both: with the collar of %s mm it makes the recess, without it the bush of %s mm leaves the key. Cut the key from a board held down all over, and free it with the saw.", mm(in.Collar), mm(in.Bush)))
	}
	for _, h := range distinct(t.Hand) {
		n = append(n, "By hand: "+h+".")
	}
	if size != nil {
		n = append(n, stripNotes(size.Fit)...)
		n = append(n, gapNote(size.Gap))
	}
	if t.For.Kind == part.Pocket && j.Neck != nil {
		n = append(n, pocketNotes(j)...)
	}
	n = append(n, controlNotes(j, t.For)...)
	return append(n, "Routers throw chips and grab small work: wear eye, ear and dust protection, never hold a piece under 150 mm by hand, and follow the tool's manual.")
}

func distinct(hs []cut.HandWork) []string {
	var out []string
	seen := map[string]bool{}
	for _, h := range hs {
		if !seen[h.Words] {
			seen[h.Words] = true
			out = append(out, h.Words)
		}
	}
	return out
}
