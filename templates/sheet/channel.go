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
		if c.Guided() {
			out = append(out, guide(j, c))
		}
	}
	if e := j.Jigs.Cradle; e != nil {
		out = append(out, cradle(j, e))
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
