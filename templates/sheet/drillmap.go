package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/design"
	"routwright/templates/holes"
	"routwright/templates/job"
	"routwright/templates/part"
)

// Ids of the drill maps.
const (
	DrillFrontID = "drill-front"
	DrillBackID  = "drill-back"

	// HoleTableID is the id of the group that is the table of the holes.
	HoleTableID = "hole-table"
)

// drillMaps draws one map for each face that holes open: every hole with its
// centre mark and number, and the table of all.
func drillMaps(j *job.Job) []render.Sheet {
	l := holes.Of(j)
	var out []render.Sheet
	if len(l.OnFace(part.Front)) > 0 || len(l.Aside()) > 0 {
		out = append(out, drillMap(j, l, part.Front))
	}
	if len(l.OnFace(part.Back)) > 0 {
		out = append(out, drillMap(j, l, part.Back))
	}
	return out
}

// belowSheet is how far under the drawing its table begins, mm.
const belowSheet = 14

func drillMap(j *job.Job, l holes.List, f part.Face) render.Sheet {
	back := f == part.Back
	s := render.Sheet{ID: DrillFrontID, Title: "Drill map of the " + f.String(), FromBack: back}
	if back {
		s.ID = DrillBackID
	}
	slab := shapes(j.Blank, "blank", "edge of the squared slab", render.Mark, LayerMark)
	body := shapes(j.Outline, "outline", "finished outline", render.Mark, LayerMark)
	s.Groups = append(s.Groups,
		render.Group{ID: "slab", Title: "squared slab", Shapes: slab},
		render.Group{ID: "body", Title: "finished body", Shapes: body})
	for _, p := range j.Parts {
		if p.Stage() == part.Machined && p.Face == f && len(p.Solids) > 0 {
			s.Groups = append(s.Groups, render.Group{ID: p.ID, Title: p.String(), Shapes: solidShapes(p, render.Mark, LayerMark)})
		}
	}
	box := j.Blank.Bounds()
	s.Groups = append(s.Groups, datums(box))
	s.Labels = append(s.Labels, datumLabels(box)...)
	s.Holes = pinHoles(j.Pins)
	on := l.OnFace(f)
	s.Holes = append(s.Holes, mapHoles(l, f, on)...)
	s.Dims = rowDims(l, f, on)
	if g := obliqueAxes(l, on); len(g.Shapes) > 0 {
		s.Groups = append(s.Groups, g)
	}
	var aside []int
	if !back {
		aside = l.Aside()
	}
	if g, labels := asideHoles(l, aside); len(g.Shapes) > 0 {
		s.Groups = append(s.Groups, g)
		s.Labels = append(s.Labels, labels...)
	}
	corner := geom.Pt(box.Min.X, box.Min.Y-belowSheet)
	if back {
		corner.X = box.Max.X // mirrored, it is the left
	}
	table := drillTable(j, l, f, on, aside)
	s.Groups = append(s.Groups, table.draw(HoleTableID, "table of the holes", corner, box.W(), back))
	s.Grain = slabGrain
	s.Block = []render.Field{
		{Name: "Face", Value: f.Words()},
		{Name: "Holes", Value: fmt.Sprintf("%d drilled from this face; numbers are the same on both maps", drilledFrom(l, f))},
		{Name: "Places", Value: "from the centre line and the bridge line, + to the neck; " +
			"and from two edges of the squared slab, before the outline is sawn"},
		{Name: "Lines", Value: "wide circle: drill here; narrow circle: the drill from the other face comes out here"},
		{Name: "Body", Value: mm(j.Thickness) + " mm thick when finished; " +
			"depths count from the finished face, along the drill"},
	}
	s.Notes = []string{
		"Prick every centre with an awl before the drill touches it. Drill the widest of the holes on one centre first.",
		"Back up every through hole with scrap, or drill it from both faces to the middle. Clamp the work, " +
			"keep sleeves and hair away from the spindle, wear eye protection, and follow the drill's manual.",
	}
	if off := j.PlaneOff[f]; off > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("Before planing add the %s mm that still come off this face "+
			"to every depth that is not through.", mm(off)))
	}
	return s
}

func drilledFrom(l holes.List, f part.Face) int {
	n := 0
	for _, h := range l.Holes {
		if h.Enters(f) {
			n++
		}
	}
	return n
}

// solidShapes draws the plans of a part.
func solidShapes(p part.Part, k render.Kind, layer render.Layer) []render.Shape {
	var out []render.Shape
	for i, s := range p.Solids {
		id := "plan-" + p.ID
		if i > 0 {
			id = fmt.Sprintf("%s-%d", id, i+1)
		}
		out = append(out, shapes(s.Plan, id, p.String(), k, layer)...)
	}
	return out
}

// numbered is the number of a hole as it stands on the sheets: never a bare
// figure, which would read as a measure.
func numbered(n int) string { return fmt.Sprintf("H%d", n) }

// mapHoles draws the holes of a face. Of a row only the ends carry their
// numbers, and of holes on one centre only the first.
func mapHoles(l holes.List, f part.Face, on []int) []render.Hole {
	var out []render.Hole
	seen := map[int]bool{}
	for _, i := range on {
		h := l.Holes[i]
		o := render.Hole{ID: fmt.Sprintf("hole-%d", h.Number), At: h.At(f), D: h.D, Kind: render.Cut, Layer: LayerDrill}
		if seen[h.Number] {
			o.ID = fmt.Sprintf("%s-%s", o.ID, mm(h.D))
		}
		if !h.Enters(f) {
			o.Kind, o.Layer = render.Mark, LayerMark
		}
		if !seen[h.Number] && !insideRow(l, i) {
			o.Text = numbered(h.Number)
		}
		seen[h.Number] = true
		out = append(out, o)
	}
	return out
}

// insideRow reports whether a hole lies between the ends of its row.
func insideRow(l holes.List, i int) bool {
	r := l.Holes[i].Row
	return r > 0 && i > l.Rows[r-1].First && i < l.Rows[r-1].Last
}

// rowDims gives each row that is drilled from the face its pitch, as a sum.
func rowDims(l holes.List, f part.Face, on []int) []render.Dim {
	shown := map[int]bool{}
	for _, i := range on {
		shown[i] = true
	}
	var out []render.Dim
	for _, r := range l.Rows {
		if !shown[r.First] || !l.Holes[r.First].Enters(f) {
			continue
		}
		n := r.Last - r.First
		out = append(out, render.Dim{A: l.Holes[r.First].At(f), B: l.Holes[r.Last].At(f),
			Text: fmt.Sprintf("%d × %s = %s", n, mm(r.Pitch), mm(float64(n)*r.Pitch))})
	}
	return out
}

// obliqueAxes draws where oblique drills lead, as seen square to the face.
func obliqueAxes(l holes.List, on []int) render.Group {
	g := render.Group{ID: "drill-axes", Title: "axes of oblique holes"}
	for _, i := range on {
		if h := l.Holes[i]; h.Bore.Flat() > geom.Coincident {
			g.Shapes = append(g.Shapes, render.Shape{Title: "axis of hole " + numbered(h.Number), Kind: render.Centre, Layer: LayerCentre,
				Path: geom.Path{geom.Line(h.Bore.From.Flat(), h.Bore.To.Flat())}})
		}
	}
	return g
}

// asideHoles draws the holes from edges and cavity walls, hidden in the wood.
func asideHoles(l holes.List, aside []int) (render.Group, []render.Label) {
	g := render.Group{ID: "holes-aside", Title: "holes drilled from an edge or the wall of a cavity"}
	var labels []render.Label
	for _, i := range aside {
		h := l.Holes[i]
		title := fmt.Sprintf("hole %s: %s", numbered(h.Number), h.Words)
		g.Shapes = append(g.Shapes, boreShapes(h.Bore, title, render.Hidden, LayerHidden)...)
		labels = append(labels, render.Label{S: numbered(h.Number), At: h.Bore.From.Lerp(h.Bore.To, 0.5).Flat()})
	}
	return g, labels
}

// boreShapes draws a bore as it is seen square to the faces: two sides, the
// square ends as lines, and the axis.
func boreShapes(b part.Bore, title string, k render.Kind, layer render.Layer) []render.Shape {
	a, z := b.From.Flat(), b.To.Flat()
	if a.Dist(z) < geom.Coincident {
		if k == render.Hidden && b.D <= smallDashed {
			return dashedCircle(a, b.D/2, title, layer)
		}
		return []render.Shape{{Title: title, Kind: k, Layer: layer, Path: geom.Circle(a, b.D/2)}}
	}
	u := z.Sub(a).Unit()
	n := u.Left().Mul(b.D / 2)
	axis := geom.Path{geom.Line(a.Add(u.Mul(-4)), z.Add(u.Mul(4)))}
	return []render.Shape{
		{Title: title, Kind: k, Layer: layer, Path: geom.Polygon(a.Add(n.Neg()), z.Add(n.Neg()), z.Add(n), a.Add(n))},
		{Title: "axis of " + title, Kind: render.Centre, Layer: LayerCentre, Path: axis},
	}
}

// smallDashed is the diameter, mm, up to which a hidden circle is dashed by arcs of
// its own: the dashes of a line would leave a hook.
const smallDashed = 8

// dashedCircle draws a small hidden circle as six arcs, each shorter than a dash.
func dashedCircle(at geom.Point, r float64, title string, layer render.Layer) []render.Shape {
	const arcs, drawn = 6, 0.65 // share of each sixth
	var out []render.Shape
	for i := range arcs {
		start := geom.Angle(i) * 2 * math.Pi / arcs
		out = append(out, render.Shape{Title: title, Kind: render.Hidden, Layer: layer,
			Path: geom.Path{geom.ArcSweep(at, r, start, drawn*2*math.Pi/arcs)}})
	}
	return out
}

// drillTable is the table of a face. A row of holes takes one line.
func drillTable(j *job.Job, l holes.List, f part.Face, on, aside []int) grid {
	g := grid{columns: []gridColumn{
		{head: [2]string{"hole", ""}}, {head: [2]string{"for", ""}},
		{head: [2]string{"drill", "mm"}, right: true}, {head: [2]string{"depth", "mm"}},
		{head: [2]string{"from the", "centre line"}, right: true}, {head: [2]string{"from the", "bridge line"}, right: true},
		{head: [2]string{"from the slab's", "bass edge"}, right: true}, {head: [2]string{"from the slab's", "tail edge"}, right: true},
	}}
	all := append(append([]int(nil), on...), aside...)
	starts := false // holes in the floor of a cavity
	for _, i := range all {
		starts = starts || l.Holes[i].Enters(f) && l.Holes[i].Start > geom.Coincident
	}
	if starts {
		g.columns = append(g.columns, gridColumn{head: [2]string{"starts below", "this face"}, right: true})
	}
	add := func(name, words, d, depth string, p holes.Place, start float64, under string) {
		row := []string{name, words, d, depth, p.CentreWords(), mm(p.Bridge), mm(p.Bass), mm(p.Tail)}
		if starts {
			row = append(row, mm(start))
		}
		g.rows = append(g.rows, row)
		g.under = append(g.under, under)
	}
	for _, p := range j.Pins {
		add("pin "+p.Name, "pin", mm(p.D), "through", holes.PlaceOf(j, p.At), 0, "")
	}
	for _, i := range all {
		h := l.Holes[i]
		if insideRow(l, i) || h.Row > 0 && i == l.Rows[h.Row-1].Last {
			continue
		}
		name, under := numbered(h.Number), holeRemark(h, f)
		if h.Row > 0 {
			r := l.Rows[h.Row-1]
			last := l.Holes[r.Last]
			name += "–" + numbered(last.Number)
			p := holes.PlaceOf(j, last.At(f))
			under = fmt.Sprintf("%d in a row, pitch %s; the last at %s, %s from the bridge line%s",
				r.Last-r.First+1, mm(r.Pitch), p.CentreWords(), mm(p.Bridge), then(under))
		}
		start := h.Start
		if !h.Enters(f) {
			start = 0
		}
		add(name, h.Words, mm(h.D), h.DepthWords(), holes.PlaceOf(j, h.At(f)), start, under)
	}
	return g
}

func then(s string) string {
	if s == "" {
		return ""
	}
	return "; " + s
}

// holeRemark says what the columns cannot.
func holeRemark(h holes.Hole, f part.Face) string {
	var w string
	add := func(format string, a ...any) {
		if w != "" {
			w += "; "
		}
		w += fmt.Sprintf(format, a...)
	}
	switch {
	case h.From == holes.FromEdge:
		add("from the edge, its middle %s below the finished front", mm(h.Start))
	case h.From == holes.FromInside:
		add("from the wall of the cavity, its middle %s below the finished front", mm(h.Start))
	case !h.Enters(f):
		add("comes out here: drilled from the %s", h.From)
	}
	switch {
	case h.Toward == "":
	case h.From == holes.FromEdge || h.From == holes.FromInside:
		fall := h.Bore.To.Z - h.Bore.From.Z
		angle := mm(90 - h.Lean.Degrees())
		switch {
		case fall > geom.Coincident:
			add("%s, falling %s°", h.Toward, angle)
		case fall < -geom.Coincident:
			add("%s, rising %s°", h.Toward, angle)
		default:
			add("%s, level", h.Toward)
		}
	default:
		add("%s° off square, %s", design.MM(h.Lean.Degrees()), h.Toward)
	}
	return w
}
