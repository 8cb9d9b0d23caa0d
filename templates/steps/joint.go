package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/part"
)

// joint is the pocket of the neck, while the blank is still square.
func (b *builder) joint() {
	for i, t := range b.j.Templates {
		if t.For.Kind != part.Pocket || t.Male {
			continue
		}
		b.add(b.cut(i, Step{
			ID: "rout-" + t.ID, Title: "Rout the " + t.Name, Stage: Joint,
			Needs: []Thing{templates, pins, flatFront, waste, heel}, Makes: []Thing{pocket, plugSeat},
			Face: "front, this face up", Datum: "the two pins; the heel itself for the fit", Depth: b.pocketDepth(),
			Sheets: []string{"rails-neck-pocket", "neck-geometry"},
			Facts:  b.pocketFacts(),
			Do:     b.pocketDo(i),
		}))
	}
	if !b.has(part.Pocket) {
		return
	}
	b.add(Step{
		ID: "fit-neck", Title: "Fit the neck dry and measure it again", Stage: Joint,
		Needs: []Thing{pocket, heel}, Makes: []Thing{fitted},
		Face: "front", Datum: "a string or straightedge from the middle of the nut along the neck", Tool: "fine saw, straightedge longer than the scale, rule, feeler gauge", Depth: "nothing is cut but the waste before the pocket",
		Sheets: []string{"neck-geometry"},
		Facts:  b.fitFacts(),
		Do: []string{
			b.mouthWords(),
			"Press the neck in, dry, to the end wall of the pocket: it goes in by hand and does not rock.",
			"Lay a straightedge or a string along the middle of the neck: over the bridge line it passes within 0.5 mm of the body's centre line.",
			"Measure from the nut's string edge straight to the bridge line on the front, and the height of the board's surface over the front at the body's edge.",
			"If either differs from the design, write it under [neck.fitted] and make the set again: the bridge is placed by the fitted neck, not by the drawing.",
		},
		Caution: careBench,
	})
}

// mouthWords says where the waste before the pocket is sawn off, so that the neck
// goes in while the slab is still square elsewhere.
func (b *builder) mouthWords() string {
	for _, p := range b.j.OfKind(part.Pocket) {
		mouth := p.Plan().Bounds().Max.Y
		for _, q := range b.j.Pins {
			if q.At.Y+q.D > mouth {
				return fmt.Sprintf("Saw a notch as wide as the pocket out of the waste before its mouth, %s mm from the bridge line: the neck needs the way in, and pin %s stays.", mm(mouth), q.Name)
			}
		}
		return fmt.Sprintf("Saw the waste off square across the slab just past the mouth of the pocket, %s mm from the bridge line: the neck needs the way in. The pins lie on the other side and stay.", mm(mouth))
	}
	return "Saw the waste off before the pocket: the neck needs the way in."
}

// pocketFacts are the slope and the fit of the pocket.
func (b *builder) pocketFacts() []render.Field {
	var f []render.Field
	if n := b.j.Neck; n != nil {
		p := n.Pocket
		if w := p.SlopeWords(); w != "" {
			f = append(f, fact("Slope", "%s", w))
		}
		f = append(f, fact("Fit", "%s mm of air a side%s", mm(p.Gap), b.filmWords(p.Film)))
	}
	return append(f,
		fact("Rails", "where the heel is not quite what the sheet says, leave the template aside: set the two rails of the rail sheet against the heel itself, with the shims it names, and the end stop on its line"),
		fact("Too tight", "scrape the heel's sides, a stroke at a time, never the pocket's walls"),
		fact("Too loose", "glue a shaving or veneer of the neck's wood on one side of the heel, let it dry, and fit again: a loose neck wanders"))
}

// filmWords says what the finish does to the fit: nothing to a neck that is glued in
// before it.
func (b *builder) filmWords(v float64) string {
	switch {
	case b.glued():
		return ""
	case v <= 0:
		return "; mask the pocket when you finish"
	}
	return fmt.Sprintf(" when %s mm of finish lie on each wall", mm(v))
}

// pocketDo is the pocket in the order of the hands.
func (b *builder) pocketDo(i int) []string {
	t, r := b.j.Templates[i], b.j.Routing(i)
	do := []string{"Rout a trial pocket in scrap with the same template and the same setting, and try the heel: by hand, without rocking. Mend the template before the slab."}
	if !t.Free() {
		do = append(do, "Set the two dowels into the slab.")
	}
	do = append(do, b.wasteDo(i, "on the pins")...)
	if !t.Free() {
		do = append(do,
			"Drop the template on the dowels, marked side up, on the front, or set the rails.",
			"Hold it as said under Hold, with a strip under it where Prop asks for one, then pull at it: nothing moves.")
	}
	do = append(do, zeroDo(t, r)...)
	do = append(do,
		fmt.Sprintf("Rout pass by pass, %s; the stretch towards the body's edge last, where the grain tears.", t.Sense()),
		measureDo(r))
	if n := b.j.Neck; n != nil && n.Pocket.SlopeWords() != "" {
		do = append(do,
			"Lay the wedges on the template as said under Slope, thick end towards the bridge, and take the last cut on them, the setting greater by their thickness at the end wall.",
			fmt.Sprintf("Measure from the front at both ends of the pocket: %s.", n.Pocket.DepthWords()))
	}
	for _, h := range t.Hand {
		do = append(do, "By hand: "+h.Words+".")
		break
	}
	return do
}

// fitFacts are the numbers that the fitted neck is measured against.
func (b *builder) fitFacts() []render.Field {
	n := b.j.Neck
	if n == nil {
		return nil
	}
	f := []render.Field{fact("Scale", "%s mm from the nut's string edge, along the board, to where the uncompensated scale ends", mm(n.Scale))}
	if w := n.Pocket.SlideWords(); w != "" {
		f = append(f, fact("Slide", "%s", w))
	}
	f = append(f, fact("Swing", "%s mm to each side at the bridge line within the gap: press it straight before you mark", mm(n.Pocket.Aside)),
		fact("Height", "%s mm from the front to the board's surface at the body's edge; the neck leans back by %s°", mm(n.Above), mm(n.Angle.Degrees())))
	return append(f, fact("Off the line", "a shaving off one side of the heel's end and as much glued on the other turns the neck; over 1 mm, rout the pocket again in a new place or plug it"))
}

// pocketDepth says how deep the pocket is at both ends; empty where the neck is not
// solved.
func (b *builder) pocketDepth() string {
	if b.j.Neck == nil {
		return ""
	}
	return b.j.Neck.Pocket.DepthWords()
}

// bridgeStep places the bridge from the fitted neck.
func (b *builder) bridgeStep() {
	if !b.has(part.Post, part.StringHole) && b.j.Design.Bridge.Kind.V == "" {
		return
	}
	needs := []Thing{lines, flatFront}
	if b.has(part.Pocket) {
		needs = append(needs, fitted)
	}
	words := "Mark the saddle line from the fitted neck"
	if b.j.Board != nil {
		words = fmt.Sprintf("Mark the saddle line %s mm from the nut's string edge, measured along the strings on the fitted neck", mm(b.j.Board.CentreScale()))
	}
	var facts []render.Field
	if br := b.j.Bridge; br != nil && len(br.Lines) > 0 {
		n := len(br.Lines) - 1
		facts = append(facts,
			fact("Saddles", "the strings want them behind that line: %s mm at the bass string to %s mm at the treble string, an estimate", mm(br.Lines[0].Want), mm(br.Lines[n].Want)),
			fact("Outer strings", "%s mm apart at the saddles", mm(br.Lines[0].At.Dist(br.Lines[n].At))))
	}
	b.add(Step{
		ID: "place-bridge", Title: "Place the bridge from the fitted neck", Stage: Drilling,
		Needs: needs, Makes: []Thing{bridgePlace}, Sheets: []string{"bridge"},
		Face: "front, this face up", Datum: "the fitted neck: nut edge and centre line", Tool: "rule, knife, awl, two threads", Depth: "awl marks only",
		Facts: append(facts, fact("If they differ", "by more than 0.3 mm, believe the neck and the bridge in hand: measure again, write it under [neck.fitted] or [bridge], and make the set again before a hole is drilled")),
		Do: []string{
			words + ", uncompensated, and compare it with the bridge line.",
			"Stretch a thread along each edge of the board down to the tail: the bridge stands midway between them.",
			"Set each saddle to the middle of its travel and lay the bridge on, its saddles on the places the strings want, outer strings over the pole pieces.",
			"Tape it down and prick every hole through it with the awl.",
			"Lift it and compare the pricks with the bridge's sheet: 0.3 mm is the limit.",
		},
		Caution: careBench,
	})
}
