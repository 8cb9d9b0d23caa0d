package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// knobTall is how high a knob is drawn, mm.
const knobTall = 40.0

// handle draws the block that holds a small part over its template on the router
// table: from above, the packer beside it, and the stack from the side.
func handle(j *job.Job, h job.Handle) render.Sheet {
	t := j.Templates[h.Template]
	s := render.Sheet{ID: jig.HandleID + t.ID, Title: "Handle block: " + t.Name, FromBack: t.For.Kind == part.Cover,
		View: "From above, as it lies on the router table; the stack from the side"}
	block := h.Block.Bounds()
	gauge, hole := job.KnobScrew()
	plan := render.Group{ID: "block", Title: "handle block", Shapes: []render.Shape{
		{ID: "cut-block", Title: "edge of the handle block: saw outside it, round the corners", Path: h.Block, Kind: render.Cut, Layer: LayerOutside}}}
	plan.Shapes = append(plan.Shapes, shapes(h.Work, "part", "the part, under the block", render.Hidden, LayerHidden)...)
	if t.Tool.Offset() != 0 {
		plan.Shapes = append(plan.Shapes, shapes(h.Guide, "guide", "its template", render.Hidden, LayerHidden)...)
	}
	plan.Shapes = append(plan.Shapes, shapes(h.Sweep, "reach", "as far as the cutter reaches: no finger inside it", render.Mark, LayerMark)...)
	for i, k := range h.Knobs {
		plan.Shapes = append(plan.Shapes, render.Shape{ID: fmt.Sprintf("knob-%d", i+1), Title: "a knob: the hands stay on it", Path: geom.Circle(k, jig.KnobD/2), Kind: render.Mark, Layer: LayerMark})
		s.Holes = append(s.Holes, render.Hole{ID: fmt.Sprintf("knob-screw-%d", i+1), At: k, D: hole, Kind: render.Cut, Layer: LayerDrill, Text: fmt.Sprintf("knob: drill %s through, countersunk below", mm(hole))})
	}
	if h.Screw != nil {
		for i, p := range h.Screw.At {
			s.Holes = append(s.Holes, render.Hole{ID: fmt.Sprintf("hold-%d", i+1), At: p, D: h.Screw.Through, Kind: render.Cut, Layer: LayerDrill, Text: fmt.Sprintf("screw: drill %s through", mm(h.Screw.Through))})
		}
	}
	axes := render.Group{ID: "axes", Title: "axes", Shapes: []render.Shape{
		line("axis-long", "long axis of block and part", render.Centre, LayerCentre, geom.Pt(block.Min.X-6, 0), geom.Pt(block.Max.X+6, 0)),
		line("axis-across", "middle of block and part", render.Centre, LayerCentre, geom.Pt(0, block.Min.Y-6), geom.Pt(0, block.Max.Y+6))}}
	s.Groups = []render.Group{plan, axes}
	rim, _ := geom.IndexOf(h.Sweep).Closest(h.Sweep.Bounds().Max)
	s.Labels = []render.Label{{S: "as far as the cutter reaches", At: rim}}
	w := h.Work.Bounds()
	s.Dims = []render.Dim{
		{A: geom.Pt(block.Min.X, block.Max.Y), B: block.Max, Along: geom.Vec{X: 1}, Text: mm(block.W())},
		{A: geom.Pt(block.Max.X, block.Min.Y), B: block.Max, Along: geom.Vec{Y: 1}, Text: mm(block.H())},
		{A: h.Knobs[0], B: h.Knobs[1], Along: geom.Vec{X: 1}, Text: mm(h.Knobs[1].X - h.Knobs[0].X)},
		{A: geom.Pt(w.Max.X, w.Max.Y), B: geom.Pt(w.Max.X, block.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(block.Max.Y - w.Max.Y)},
	}
	if k := h.Screw; k != nil {
		s.Dims = append(s.Dims, render.Dim{A: k.At[0], B: k.At[1], Along: geom.Vec{X: 1}, Text: mm(k.At[1].X - k.At[0].X)})
	}
	low := block.Min.Y - 30
	if !h.Packer.Empty() {
		p := h.Packer.Bounds()
		m := geom.Translate(geom.Vec{Y: low - p.Max.Y})
		s.Groups = append(s.Groups, render.Group{ID: "packer", Title: "packer", Shapes: shapes(m.Region(h.Packer), "cut-packer", "edge of the packer: saw outside it", render.Cut, LayerOutside)})
		s.Labels = append(s.Labels, render.Label{S: "packer, seen from above too", At: m.Point(p.Center())})
		low = m.Region(h.Packer).Bounds().Min.Y - 25
	}
	side, labels, dims := handleSide(j, h, low)
	s.Groups = append(s.Groups, side)
	s.Labels, s.Dims = append(s.Labels, labels...), append(s.Dims, dims...)
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("block of %s mm sheet that holds the part while it is trimmed", mm(t.Sheet))},
		{Name: "For", Value: fmt.Sprintf("%s, %s × %s mm", t.For, mm(w.W()), mm(w.H()))},
		{Name: "Face", Value: handleFace(t.For.Kind)},
		{Name: "Cut", Value: "on the line; saw outside it, and round the block's corners"},
		{Name: "Offset", Value: "none: this block guides nothing, the template does"},
		{Name: "Tool", Value: t.Tool.String()},
		{Name: "Stack", Value: stackWords(j, h)},
		{Name: "Held", Value: heldWords(h)},
		{Name: "Knobs", Value: fmt.Sprintf("two of %s mm across and at least as tall, each on one wood screw, gauge %d, from below, its head sunk", mm(jig.KnobD), gauge)},
		{Name: "Bit", Value: tipWords(h)},
		{Name: "Datum", Value: "the two axes: those of the part lie under them"},
		{Name: "Proof", Value: fmt.Sprintf("over the whole path of the cutter: %s mm from the rim of a knob at the least (asked for: %d), %s mm from the edge of the block", mm(h.HandClear), limit.HandClear, mm(h.RimClear))},
	}
	s.Notes = handleNotes(h)
	return s
}

// handleFace says how the part lies.
func handleFace(k part.Kind) string {
	if k == part.Cover {
		return "show face of the cover up, against the block: the sheet shows it as seen from the back"
	}
	return "either face up: a key is alike on both; its grain runs along the long axis"
}

// stackWords lists what lies on the table, from below.
func stackWords(j *job.Job, h job.Handle) string {
	t := j.Templates[h.Template]
	work := fmt.Sprintf("the part, %s mm", mm(h.Height))
	switch {
	case h.Above:
		return fmt.Sprintf("from the table up: %s; its template, %s mm; the block", work, mm(t.Sheet))
	case h.Waste > 0:
		size := j.Keys.Of(t.ID)
		n := 1
		for i := range j.Keys.Sizes {
			if &j.Keys.Sizes[i] == size {
				n = max(1, j.Keys.Count(i))
			}
		}
		w := fmt.Sprintf("from the table up: template, %s mm; %s, and %s mm of waste over it in one piece; the block", mm(t.Sheet), work, mm(h.Waste))
		if n > 1 {
			w += fmt.Sprintf(". One blank for all %d is %s mm tall: trim the lowest key, saw it off, stick the template on again", n, mm(j.KeyBlank(n)+h.Waste))
		}
		return w
	}
	return fmt.Sprintf("from the table up: template, %s mm; %s; packer, %s mm; the block", mm(t.Sheet), work, mm(h.PackerTall))
}

// heldWords says what holds the part.
func heldWords(h job.Handle) string {
	w := "fresh double-sided tape over the whole face between template and part"
	if k := h.Screw; k != nil {
		return w + fmt.Sprintf("; two wood screws, gauge %d × %s mm, from the block into the waste over it: %s mm holes in the block, %s mm pilots in the wood (%s)", k.Gauge, mm(k.Length), mm(k.Through), mm(k.Into), wood.PilotSource)
	}
	if h.Above {
		return w + ", and between block and template: press it in a vice for half a minute"
	}
	if h.Packer.Empty() {
		return w + ", and between its waste and the block, which has no room for screws: press it in a vice for half a minute"
	}
	return w + fmt.Sprintf(" and between part and packer, %s mm² of it: press it in a vice for half a minute. The packer is glued to the block", mm(h.Packer.Area()))
}

// tipWords says how high the bit is set.
func tipWords(h job.Handle) string {
	w := "its bearing in the middle of the template's edge, the cutter over the whole part; its end stays under the block"
	if !h.Above {
		w = fmt.Sprintf("its tip %s to %s mm over the table: past what is trimmed, and under the block", mm(h.Tip[0]), mm(h.Tip[1]))
	}
	switch {
	case h.Short > 0:
		w += fmt.Sprintf(". THE CUTTER IS %s mm TOO SHORT, and its follower has the template alone to run on: take a longer one", mm(h.Short))
	case h.Lifts > 1:
		w += fmt.Sprintf(". The cutter is shorter than that: set it %d times, the bearing on the template first and then on the trimmed wall", h.Lifts)
	}
	return w
}

func handleNotes(h job.Handle) []string {
	n := []string{
		"Saw the part 1.5 to 2 mm outside its line before it goes under the block. Both hands stay on the knobs until the bit stands still; the block covers the cutter all round.",
	}
	if h.Screw != nil {
		n = append(n, "The screws end in waste: the saw takes it off with their holes.")
	}
	return append(n, "Feed against the turning of the bit, starting pin in place. Try the stack by hand with the router unplugged: nothing shifts, and the bit touches neither block nor screw. Wear eye, ear and dust protection, and follow the table's manual.")
}

// handleSide draws the stack on the table from the side, the table's top at y = low
// less the height of all that stands on it.
func handleSide(j *job.Job, h job.Handle, low float64) (render.Group, []render.Label, []render.Dim) {
	t := j.Templates[h.Template]
	block, work, guide := h.Block.Bounds(), h.Work.Bounds(), h.Guide.Bounds()
	y := low - (2*t.Sheet + h.Height + h.Waste + h.PackerTall + knobTall)
	table := y
	g := render.Group{ID: "stack", Title: "stack from the side"}
	var labels []render.Label
	put := func(id, words string, c geom.Point, wide, tall float64) {
		g.Shapes = append(g.Shapes, boxOn("side-"+id, words, render.Mark, LayerMark, c.X, y, wide, tall))
		labels = append(labels, render.Label{S: words, At: geom.Pt(c.X+wide/2, y+tall/2)})
		y += tall
	}
	if h.Above {
		put("part", "part", work.Center(), work.W(), h.Height)
		put("template", "template", guide.Center(), guide.W(), t.Sheet)
	} else {
		put("template", "template", guide.Center(), guide.W(), t.Sheet)
		put("part", "part", work.Center(), work.W(), h.Height)
		if h.Waste > 0 {
			put("waste", "waste", work.Center(), work.W(), h.Waste)
		}
		if h.PackerTall > 0 {
			put("packer", "packer", work.Center(), h.Packer.Bounds().W(), h.PackerTall)
		}
	}
	put("block", "block", geom.Pt(0, 0), block.W(), t.Sheet)
	for i, k := range h.Knobs {
		g.Shapes = append(g.Shapes, boxOn(fmt.Sprintf("side-knob-%d", i+1), "knob", render.Mark, LayerMark, k.X, y, jig.KnobD, knobTall))
	}
	labels = append(labels, render.Label{S: "knob", At: geom.Pt(h.Knobs[0].X, y+knobTall)})
	g.Shapes = append(g.Shapes, line("side-table", "the table", render.Mark, LayerMark, geom.Pt(block.Min.X-10, table), geom.Pt(block.Max.X+10, table)))
	labels = append(labels, render.Label{S: "table", At: geom.Pt(block.Min.X-10, table)})
	tip := table + h.Tip[0]
	if h.Above {
		tip = table + h.Height + t.Sheet - 2
	}
	// The cutter where it touches the part's left end.
	cut := work.Min.X - t.Tool.Cutter/2
	g.Shapes = append(g.Shapes, boxOn("side-cutter", "cutter", render.Hidden, LayerHidden, cut, table, t.Tool.Cutter, tip-table))
	labels = append(labels, render.Label{S: "cutter", At: geom.Pt(cut, tip)})
	var dims []render.Dim
	if !h.Above {
		dims = append(dims, render.Dim{A: geom.Pt(cut-t.Tool.Cutter/2, table), B: geom.Pt(cut-t.Tool.Cutter/2, tip), Along: geom.Vec{Y: 1}, Text: mm(h.Tip[0])})
	}
	return g, labels, dims
}
