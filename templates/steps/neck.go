package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
)

// neckWork is the neck itself. Its heel is shaped before the pocket, which is
// cut to the heel as measured.
func (b *builder) neckWork() {
	b.slotBoard()
	if !b.j.Design.Neck.Present {
		return
	}
	trims := b.neckTemplates()
	makes := []Thing{"the neck blank"}
	if len(trims) == 0 {
		makes = append(makes, heel)
	}
	b.add(Step{
		ID: "shape-neck", Title: "Saw and shape the neck as far as its heel", Stage: NeckWork,
		Needs: []Thing{measured}, Makes: makes, Sheets: []string{"neck-side-view", "neck-geometry"},
		Face: "bench, the board's face up", Datum: "the neck's own centre line and the nut line", Tool: "band saw, plane; router with a straight bit and a fence for the rod's channel", Depth: "to the side view of the neck",
		Facts: b.neckFacts(),
		Do: append([]string{
			"Plane the face that takes the board flat, and one edge straight and square to it.",
			"Knife the centre line parallel to that edge and the nut line square to it, and carry both round.",
		}, append(b.rodDo(),
			"Glue the print of the side view on the edge, its long straight line on the board's plane. Saw 1 mm outside the line, and plane or file down to it.",
			"Bring the heel to its final thickness, flat and square.",
			"Measure the heel with the calliper at the two places that the design names and write it in: the pocket is cut to it.")...),
		Caution: careSaw + " " + careRouter,
	})
	for _, i := range trims {
		b.trimNeck(i)
	}
	b.boardOn(len(trims) > 0)
}

// slotBoard is the fretboard up to its glue-up.
func (b *builder) slotBoard() {
	j := b.j
	s, ok := j.BoardStock()
	if !ok {
		return
	}
	thick := ""
	if s.Thick > 0 {
		thick = " × " + mm(s.Thick)
	}
	facts := []render.Field{
		fact("Board", "%s × %s%s mm finished: %s wide at the nut, %s at its end; %d slots", mm(s.Long), mm(s.Wide), thick, mm(s.Nut), mm(s.Wide), s.Slots),
		fact("Slot", "as deep as the wire's tang and 0.3 to 0.5 mm more: measure the tang with the calliper and set the saw's stop"),
	}
	if s.Edge > 0 {
		facts = append(facts, fact("Deeper", "by %s mm where the board is radiused after the sawing: so much lower lies its edge", mm(s.Edge)))
	}
	facts = append(facts,
		fact("Too wide", "a slot that takes the wire without a press: glue the fret in, or fill the slot with a strip and saw it again"),
		fact("Wrong place", "more than 0.1 mm off: fill that slot with a strip of the board's wood and saw it again"))
	do := []string{
		"Plane the board to thickness, one edge straight and the nut end square to it. Leave the other edge wide.",
		"Mark FRONT and the nut end: every distance of the table is counted from there.",
		"Fix the board to the slotting strip by its sheet, centre line on centre line, and do not lift it before the last slot.",
		"Saw each slot to the stop, from the nut on. Without a strip knife each line from the nut, never from the slot before: errors then do not add up. Tolerance ±0.05 mm.",
		"Measure fret 12 when half are sawn: half the scale from the nut, or stop.",
		fmt.Sprintf("Draw the taper, %s mm at the nut to %s mm at the end. Saw 1 mm outside and plane to the line.", mm(s.Nut), mm(s.Wide)),
	}
	if j.Markers > 0 {
		do = append(do, fmt.Sprintf("Drill the position markers, %s mm, 2 mm deep, at the places of tables/markers.csv, glue them in, and level them.", mm(j.Markers)))
	}
	step := Step{
		ID: "slot-board", Title: "Slot the fretboard", Stage: NeckWork,
		Needs: []Thing{measured}, Makes: []Thing{"the slotted board"}, Sheets: []string{"slotting-strip", "fretboard", "fret-table"},
		Face: "playing face up", Datum: "the nut's string edge, never the last slot", Tool: fmt.Sprintf("slotting saw, kerf %s mm, in a mitre box or on a sled with a pin", mm(j.Board.Spec.Slot.Kerf)),
		Depth: "tang of the wire and 0.3 to 0.5 mm", Facts: facts, Do: do,
		Caution: careSaw,
	}
	if !b.bare {
		step.Tables = []render.Table{b.slotTable()}
	}
	b.add(step)
}

// slotColumns is how many frets stand beside each other in the table of slots.
const slotColumns = 3

// slotTable lists the slots by their distance from the nut: along both outer strings
// where they differ. Column by column, so that a row is short to read along.
func (b *builder) slotTable() render.Table {
	bo := b.j.Board
	t := render.Table{Caption: "Slots, mm from the nut's string edge to the middle of the kerf"}
	cells := []string{"fret", "from the nut"}
	if bo.Fanned() {
		t.Caption = "Slots, mm from the nut's string edge to the middle of the kerf, along the outer strings"
		cells = []string{"fret", "bass", "treble"}
	}
	for range slotColumns {
		t.Head = append(t.Head, cells...)
	}
	for range t.Head {
		t.Number = append(t.Number, true)
	}
	n := (len(bo.Slots) + slotColumns - 1) / slotColumns
	for i := range n {
		var row []string
		for c := range slotColumns {
			k := c*n + i
			if k >= len(bo.Slots) {
				row = append(row, make([]string, len(cells))...)
				continue
			}
			q := bo.Slots[k]
			row = append(row, q.Name(), mm(q.BassFromNut))
			if bo.Fanned() {
				row = append(row, mm(q.TrebleFromNut))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// neckFacts are the blank of the neck and the channel of its rod.
func (b *builder) neckFacts() []render.Field {
	n, ok := b.j.NeckStock()
	if !ok {
		return []render.Field{fact("Blank", "as the heel and the head ask for: the design lays out no neck")}
	}
	f := []render.Field{fact("Blank", "%s × %s × %s mm, grain along it, straight and without runout", mm(n.Long), mm(n.Wide), mm(n.Deep))}
	if w := b.j.RodWords(); w != "" {
		f = append(f, fact("Rod channel", "%s", w))
	}
	return f
}

// rodDo is how the channel of the rod is cut; nothing without a rod.
func (b *builder) rodDo() []string {
	if b.j.RodWords() == "" {
		return nil
	}
	return []string{
		"Rout the rod's channel while both edges are straight: a straight bit of its width, the fence on the straight edge, passes no deeper than half the bit. Stop it where its end is marked.",
		"Rout or chisel the opening for the key that turns it, and try the rod: it goes in by hand and lies level with the face or below.",
	}
}

// trimNeck is the cut round a template of the neck.
func (b *builder) trimNeck(i int) {
	t := b.j.Templates[i]
	do := []string{
		"Lay the template on the board's face, its centre line and its nut line on those of the blank. Hold it with double-sided tape, or with screws into the channel of the rod and where the board covers the holes.",
		"Draw round it, lift it, saw 1.5 to 2 mm outside, and lay it on again.",
		"Trim pass by pass, downhill with the grain; at the head, where the grain turns against the bit, leave 1 mm and sand to the line.",
	}
	for _, h := range t.Hand {
		do = append(do, "By hand: "+h.Words+".")
		break
	}
	if sh := b.j.Shape; sh != nil && len(sh.Tuners) > 0 && t.For.Kind != part.NeckSide {
		do = append(do,
			"Drill 3 mm through the template at each cross of a tuner and prick through on to the head.",
			fmt.Sprintf("Drill the %d tuner holes, %s mm, through from the face, a scrap board clamped behind.", len(sh.Tuners), mm(sh.Spec.Head.Hole)))
	}
	do = append(do, "Measure the heel again with the calliper, at both places, and write it down.")
	b.add(b.cut(i, Step{
		ID: "trim-" + t.ID, Title: "Trim the " + t.Name + " to its template", Stage: NeckWork,
		Needs: []Thing{templates, "the neck blank"}, Makes: []Thing{heel, "the outline of the neck"},
		Face: "face of the board up", Datum: "the centre line and the nut line of the neck on those of the template",
		Do: do,
	}))
}

// boardOn is rod, board, frets and the back of the neck.
func (b *builder) boardOn(trimmed bool) {
	needs := []Thing{"the neck blank"}
	if trimmed {
		needs = append(needs, "the outline of the neck")
	}
	var facts []render.Field
	var do []string
	if s, ok := b.j.BoardStock(); ok {
		needs = append(needs, "the slotted board")
		for _, g := range b.j.GlueJoints() {
			if g.Name == job.BoardJoint {
				facts = append(facts, fact("Glue", "%s to spread, %s in a film of %s mm", cm2(g.Area), ml(g.Ml), mm(job.GlueFilm)),
					fact("Clamps", "%d: %s", g.Clamps, g.Rule))
			}
		}
		facts = append(facts, fact("Wait", "a day in clamps before the board is radiused or fretted"),
			fact("Wire", "%d frets, %.0f mm of wire in all, each 3 mm longer than its slot at both ends", s.Slots, s.Wire))
		do = []string{
			"Lay the rod in dry, try its nut, and lay a strip of tape over it: it keeps the glue out.",
			"Clamp the board on dry, its nut end on the nut line, its middle on the centre line. Drill two holes of 1.5 mm through slots near its ends and tap in two pins: they keep its place.",
			"Spread the neck thinly, pull the tape off, lay the board on its pins and clamp it under a caul, from the middle outwards. Wipe the sides.",
			"Pull the pins and clean the slots.",
		}
		if s.Edge > 0 {
			do = append(do, "Radius the board with the block along the strings and try it with the gauges of the radius sheet.")
		} else {
			do = append(do, "Level the board along its length: this design leaves it flat across.")
		}
		do = append(do,
			"Press or hammer the frets in, from the ends to the middle. Cut them flush, bevel the ends, level the tops under a straightedge, and round them again.",
			"Glue nothing at the nut yet.")
	}
	if b.j.Shape != nil {
		do = append(do,
			"Carve the back: facets first, with spokeshave and rasp, from gauge to gauge along a straightedge. Hold the gauges square to the centre line at their frets.",
			"Stop 0.5 mm before they fit; scrape and sand to them.")
	} else {
		do = append(do, "Carve the back of the neck.")
	}
	b.add(Step{
		ID: "board-on", Title: "Fit the rod, glue the board on, fret and carve", Stage: NeckWork,
		Needs: needs, Makes: []Thing{neckDone}, Sheets: []string{"neck-gauges", "radius-gauges"},
		Face: "bench", Datum: "two small pins in fret slots keep the board in its place", Tool: "clamps and caul, radius block, fret hammer or press, spokeshave and rasp", Depth: "the back to its profile gauges",
		Facts: facts, Do: do,
		Caution: careGlue + " " + careBench,
	})
}

// neckTemplates returns the indexes of the templates that the neck is trimmed to.
func (b *builder) neckTemplates() []int {
	var out []int
	for i, t := range b.j.Templates {
		switch t.For.Kind {
		case part.Neck, part.Headstock, part.NeckSide:
			out = append(out, i)
		}
	}
	return out
}
