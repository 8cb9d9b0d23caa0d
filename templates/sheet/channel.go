package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/drill"
	"routwright/templates/job"
	"routwright/templates/part"
)

// drilled draws the sheets of what is drilled through the wood: each channel in
// plan and section, the guide that leads its drill, the cradle of the jack.
func drilled(j *job.Job) []render.Sheet {
	var out []render.Sheet
	for _, c := range j.Channels {
		if !c.Found {
			continue
		}
		out = append(out, channel(j, c))
		if !c.From().Side && !c.From().Open {
			out = append(out, guide(j, c))
		}
	}
	if j.Jack != nil && !j.Jack.Front() {
		if s, ok := cradle(j); ok {
			out = append(out, s)
		}
	}
	return out
}

// along turns distances along a drill, and depths, into points of a section; at
// is over the entry, on the front face.
type along struct{ at geom.Point }

func (a along) pt(s, depth float64) geom.Point { return geom.Pt(a.at.X+s, a.at.Y-depth) }

// shownDrill is how much of a drill is drawn before it is broken off, mm.
const shownDrill = 110.0

func channel(j *job.Job, c job.Channel) render.Sheet {
	from, to := c.From(), c.To()
	s := render.Sheet{ID: c.ID, Title: "Channel " + c.Name + ": plan and section", FromBack: from.Face == part.Back}
	u := c.Path.Heading()
	tail := math.Min(c.Path.Rim, 60)
	if from.Side || from.Open {
		tail = c.Path.From.Flat().Dist(from.Mouth)
	}
	end := c.Path.To.Flat()
	plan := render.Group{ID: "plan-" + c.ID, Title: "plan"}
	for i, v := range append([]drill.Void{from, to}, c.Pass...) {
		plan.Shapes = append(plan.Shapes, shapes(v.Plan, fmt.Sprintf("void-%d-%s", i+1, c.ID), v.Name, render.Mark, LayerMark)...)
	}
	for i, k := range []float64{0.5, -0.5} {
		o := u.Left().Mul(k * c.D)
		plan.Shapes = append(plan.Shapes, render.Shape{ID: fmt.Sprintf("hole-%d-%s", i+1, c.ID), Title: "side of the hole", Kind: render.Hidden, Layer: LayerHidden,
			Path: geom.Path{geom.Line(c.Path.From.Flat().Add(o), end.Add(o))}})
	}
	plan.Shapes = append(plan.Shapes, render.Shape{ID: "axis-" + c.ID, Title: "line of the drill: draw it on the face", Kind: render.Centre, Layer: LayerCentre,
		Path: geom.Path{geom.Line(c.Path.From.Flat().Add(u.Mul(-tail-10)), end.Add(u.Mul(10)))}})
	box := from.Plan.Bounds().Union(to.Plan.Bounds())
	s.Groups = append(s.Groups, plan, datums(box))
	s.Labels = append(datumLabels(box),
		render.Label{S: fmt.Sprintf("in: x %s, y %s", mm(c.Path.From.X), mm(c.Path.From.Y)), At: c.Path.From.Flat()},
		render.Label{S: "out", At: end},
		render.Label{S: from.Name, At: from.Plan.Bounds().Min},
		render.Label{S: to.Name, At: to.Plan.Bounds().Max})
	low := box.Grow(6).Min.Y
	rise := 25.0
	if from.Face == part.Front { // room for the drill that stands out
		rise += shownDrill * math.Sin(math.Max(0, float64(c.Path.Fall())))
	}
	g, labels, dims := channelSection(j, c, geom.Pt(box.Center().X-c.Path.Run()/2, low-rise))
	s.Groups = append(s.Groups, g)
	s.Labels = append(s.Labels, labels...)
	s.Dims = dims
	w := j.ChannelWords(c)
	s.Block = []render.Field{
		{Name: "Drill", Value: w.Drill}, {Name: "Entry", Value: w.Entry}, {Name: "Angle", Value: w.Angle},
		{Name: "Length", Value: w.Length}, {Name: "Stop", Value: w.Stop},
		{Name: "Clears", Value: drillClearWords(j, c)},
	}
	s.Notes = append(channelNotes(j, c), "A picture, not a template: nothing is cut from this sheet.")
	return s
}

func drillClearWords(j *job.Job, c job.Channel) string {
	from := c.From()
	if from.Side || from.Open || from.Plate {
		return fmt.Sprintf("the chuck by %s mm", mm(math.Min(c.Path.ChuckClear(from, j.DrillRules(c)), c.Drill)))
	}
	return fmt.Sprintf("the rim %s mm behind by %s mm; the chuck clears the face by %s mm", mm(c.Path.Rim), mm(c.Path.RimClear(from, c.D)), mm(c.Path.ChuckClear(from, j.DrillRules(c))))
}

func channelNotes(j *job.Job, c job.Channel) []string {
	var n []string
	for _, e := range j.DrillRules(c).Judge(c.Path, c.From(), c.To()) {
		n = append(n, fmt.Sprintf("%s mm of wood stay to %s.", mm(e.D), e.What))
	}
	n = append(n, j.ChannelWords(c).Lead)
	return append(n, "A long drill wanders: start it slowly, clear the chips often, and keep your hands off the far side. Clamp the body, wear eye protection, and follow the tool's manual.")
}

// channelSection draws the section along the drill: faces, cavities, the hole,
// the drill as it stands when it is through.
func channelSection(j *job.Job, c job.Channel, at geom.Point) (render.Group, []render.Label, []render.Dim) {
	from, to, p := c.From(), c.To(), c.Path
	a := along{at: at}
	g := render.Group{ID: "section-" + c.ID, Title: "section along the drill"}
	line := func(id, words string, k render.Kind, ps ...geom.Point) {
		g.Shapes = append(g.Shapes, render.Shape{ID: id + "-" + c.ID, Title: words, Path: geom.Polyline(ps...), Kind: k, Layer: LayerMark})
	}
	run := p.Run()
	behind := 10.0 // of wood behind the rim
	far := run + into(to.Plan, p.To.Flat(), p.Heading())
	start := -behind
	if !from.Plate && !math.IsInf(p.Rim, 1) {
		start = -p.Rim - behind
	}
	if from.Side || from.Open {
		start = -p.From.Flat().Dist(from.Mouth)
	}
	line("front", "front of the body", render.Mark, a.pt(start, 0), a.pt(far+behind, 0))
	line("back", "back of the body", render.Mark, a.pt(start, j.Thickness), a.pt(far+behind, j.Thickness))
	void := func(id string, v drill.Void, s0, s1 float64) {
		line(id, v.Name, render.Cut, a.pt(s0, v.Top), a.pt(s1, v.Top), a.pt(s1, v.Floor), a.pt(s0, v.Floor), a.pt(s0, v.Top))
	}
	if !from.Plate {
		void("from", from, start+map[bool]float64{true: 0, false: behind}[from.Side || from.Open], 0)
	}
	void("to", to, run, far)
	for i, v := range c.Pass {
		if near, end, ok := p.Crosses(v); ok {
			void(fmt.Sprintf("through-%d", i+1), v, near, end)
		}
	}
	phi := float64(p.Fall())
	for i, k := range []float64{0.5, -0.5} {
		o := k * c.D / math.Cos(phi)
		s0 := 0.0
		if from.Plate { // each side begins at the face
			s0 = -(p.From.Z + o - faceDepth(j, from.Face)) / math.Tan(phi)
		}
		line(fmt.Sprintf("wall-%d", i+1), "side of the hole", render.Cut, a.pt(s0, p.From.Z+o+s0*math.Tan(phi)), a.pt(run, p.To.Z+o))
	}
	// The drill: its axis back to the chuck.
	out := c.Drill - p.Length()
	shown := math.Min(out, shownDrill)
	back := func(l float64) geom.Point { return a.pt(-l*math.Cos(phi), p.From.Z-l*math.Sin(phi)) }
	line("drill-axis", "axis of the drill", render.Centre, back(shown), a.pt(run+8, p.To.Z+8*math.Tan(phi)))
	labels := []render.Label{
		{S: from.Name, At: a.pt(start/2, math.Max(from.Top, 1))},
		{S: to.Name, At: a.pt((run+far)/2, (to.Top+to.Floor)/2)},
		{S: fmt.Sprintf("drill %s at %s°", mm(c.D), mm(p.Angle(from).Degrees())), At: back(shown * 0.8)},
		{S: "front", At: a.pt(far+behind, 0)},
		{S: "back", At: a.pt(far+behind, j.Thickness)},
	}
	dims := []render.Dim{
		{A: a.pt(0, p.From.Z), B: a.pt(run, p.From.Z), Along: geom.Vec{X: 1}, Text: mm(run)},
	}
	if !from.Plate {
		dims = append(dims, render.Dim{A: a.pt(0, p.From.Z), B: a.pt(0, faceDepth(j, from.Face)), Along: geom.Vec{Y: 1}, Text: mm(p.Entry)})
	}
	if !from.Plate && !from.Side && !from.Open {
		dims = append(dims, render.Dim{A: a.pt(-p.Rim, faceDepth(j, from.Face)), B: a.pt(0, faceDepth(j, from.Face)), Along: geom.Vec{X: 1}, Text: mm(p.Rim)})
	}
	return g, labels, dims
}

func faceDepth(j *job.Job, f part.Face) float64 {
	if f == part.Back {
		return j.Thickness
	}
	return 0
}

// into returns how far a region reaches from a place of its edge along u.
func into(r geom.Region, p geom.Point, u geom.Vec) float64 {
	if ts := drill.Ray(r, p, u, 1e-3); len(ts) > 0 {
		return ts[0]
	}
	return 10
}

// guide draws the block that leads the drill: it stands on the face behind the
// rim, and the face that the drill enters is tilted to stand square to it.
func guide(j *job.Job, c job.Channel) render.Sheet {
	from, p := c.From(), c.Path
	phi := float64(p.Angle(from))
	b0 := j.Guide(c)
	long, width, high, tan := b0.Long, b0.Wide, b0.High, b0.Tilt
	// The tilted face runs from the sole's end, leaning over the block.
	top := geom.Pt(long-high*tan, high)
	pt := geom.Pt
	s := render.Sheet{ID: "guide-" + c.ID, Title: "Drill guide: " + c.Name, View: "Side and sole of the block"}
	side := render.Group{ID: "side", Title: "side of the block", Shapes: []render.Shape{
		{ID: "block-" + c.ID, Title: "side of the block: saw outside it", Kind: render.Cut, Layer: LayerOutside, Path: geom.Polygon(pt(0, 0), pt(long, 0), top, pt(0, high))},
	}}
	// Where axis and sides of the bore meet the front and the tilted face.
	at := func(o float64) (a, b geom.Point) {
		h := b0.Mouth + o/math.Cos(phi)
		// (long − y·tan, y) on the tilted face, y = h + x·tan.
		y := (h + long*tan) / (1 + tan*tan)
		a, b = pt(0, h), pt(long-y*tan, y)
		if h < 0 { // out of the sole
			a = pt(-h/tan, 0)
		}
		return a, b
	}
	for i, o := range []float64{c.D / 2, 0, -c.D / 2} {
		a, b := at(o)
		kind, layer, words := render.Hidden, LayerHidden, "side of the bore"
		if o == 0 {
			kind, layer, words = render.Centre, LayerCentre, "axis of the bore, square to the tilted face"
		}
		side.Shapes = append(side.Shapes, render.Shape{ID: fmt.Sprintf("bore-%d-%s", i+1, c.ID), Title: words, Kind: kind, Layer: layer, Path: geom.Path{geom.Line(a, b)}})
	}
	sole := render.Group{ID: "sole", Title: "sole of the block", Shapes: []render.Shape{
		{ID: "sole-" + c.ID, Title: "sole of the block: saw outside it", Kind: render.Cut, Layer: LayerOutside, Path: geom.Rect(pt(long/2, -25-width/2), long, width)},
		{ID: "sole-axis-" + c.ID, Title: "line of the drill: lay it on the line on the face", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(pt(-8, -25-width/2), pt(long+8, -25-width/2))}},
	}}
	s.Groups = []render.Group{side, sole}
	f, b := at(0)
	s.Dims = []render.Dim{
		{A: pt(0, 0), B: pt(long, 0), Along: geom.Vec{X: 1}, Text: mm(long)},
		{A: pt(0, 0), B: pt(0, high), Along: geom.Vec{Y: 1}, Text: mm(high)},
		{A: pt(long, 0), B: b, Text: mm(pt(long, 0).Dist(b))},
		{A: pt(long, -25), B: pt(long, -25-width), Along: geom.Vec{Y: 1}, Text: mm(width)},
	}
	if f.X == 0 {
		s.Dims = append(s.Dims, render.Dim{A: pt(0, 0), B: f, Along: geom.Vec{Y: 1}, Text: mm(f.Y)})
	}
	s.Block = []render.Field{
		{Name: "Block", Value: fmt.Sprintf("hardwood, %s × %s × %s mm", mm(long), mm(width), mm(high))},
		{Name: "Tilt", Value: fmt.Sprintf("the end that the drill enters leans %s° from upright, over the block", mm(p.Angle(from).Degrees()))},
		{Name: "Bore", Value: fmt.Sprintf("%s mm, square to the tilted end, in the middle of the width", mm(c.D))},
		{Name: "Stands", Value: j.ChannelWords(c).Stands},
	}
	s.Notes = []string{
		"Saw the tilted end first, lay it on the table of the drill press as it will face the drill, and bore square to it, before the block is sawn to its length.",
		"Check the angle with a bevel against the side view. Clamp the block to the body: never hold it by hand.",
	}
	return s
}

// cradle draws the block that holds the drill square to the edge for the jack: its
// inside is the outline there, its outside flat.
func cradle(j *job.Job) (render.Sheet, bool) {
	const reach, deep = 55.0, 40.0 // mm along the edge to each side, and out from it
	k := j.Jack
	var c geom.Calc
	rect := geom.Pose(k.At, k.In.Angle()).Region(geom.Region{geom.Rect(geom.Pt(-deep/2+15, 0), deep+30, 2*reach)})
	var block geom.Region
	for _, piece := range c.Subtract(rect, j.Outline).Components() {
		if piece.Contains(k.At.Add(k.In.Mul(-deep / 2))) {
			block = piece
		}
	}
	if c.Err() != nil || block.Empty() {
		return render.Sheet{}, false
	}
	out := k.At.Add(k.In.Mul(-deep))
	s := render.Sheet{ID: "cradle-jack", Title: "Jack cradle: holds the drill square to the edge"}
	s.Groups = []render.Group{
		{ID: "cradle", Title: "cradle", Shapes: append(shapes(block, "cradle", "edge of the cradle: saw outside it", render.Cut, LayerOutside),
			render.Shape{ID: "cradle-axis", Title: "axis of the bore", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(out.Add(k.In.Mul(-8)), k.At.Add(k.In.Mul(k.Length)))}})},
		bodyNear(j, geom.BoxOf(k.At).Grow(reach+20)),
	}
	for i, o := range []float64{0.5, -0.5} {
		side := k.In.Left().Mul(o * k.D)
		s.Groups[0].Shapes = append(s.Groups[0].Shapes, render.Shape{ID: fmt.Sprintf("jack-side-%d", i+1), Title: "side of the jack's bore", Kind: render.Hidden, Layer: LayerHidden,
			Path: geom.Path{geom.Line(k.At.Add(side), k.At.Add(side).Add(k.In.Mul(k.Length)))}})
	}
	s.Labels = []render.Label{{S: fmt.Sprintf("bore %s, %s deep", mm(k.D), mm(k.Length)), At: k.At.Add(k.In.Mul(k.Length))}}
	t := k.In.Left().Mul(reach)
	s.Dims = []render.Dim{
		{A: out.Add(t), B: out.Add(t.Neg()), Text: mm(2 * reach)},
	}
	s.Block = []render.Field{
		{Name: "Cradle", Value: fmt.Sprintf("stacked to %s mm, as thick as the body; the side away from it flat and square to the bore", mm(j.Thickness))},
		{Name: "Bush", Value: fmt.Sprintf("for the pilot of the %s mm bit, square to the flat side, %s mm from either face", mm(k.D), mm(j.Thickness/2))},
		{Name: "Place", Value: fmt.Sprintf("x %s, y %s mm on the outline, %s mm deep", mm(k.At.X), mm(k.At.Y), mm(k.Length))},
	}
	if k.Into != "" {
		s.Block = append(s.Block, render.Field{Name: "Opens", Value: k.Into})
	}
	s.Notes = []string{"Clamp the cradle to the body with its inside on the outline, faces flush, and bore through it before the edge is rounded. Clear the chips often, wear eye protection, and follow the tool's manual."}
	return s, true
}
