package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// assembly is what is done when the wood is shaped. A glued neck goes in before
// the finish, a bolted one after it.
func (b *builder) assembly() {
	j := b.j
	if j.Outline.Empty() || b.template("body") < 0 {
		return
	}
	neck := j.Design.Neck.Present && b.has(part.Pocket)
	finishNeeds := []Thing{shaped}
	if neck && b.glued() {
		b.glueNeck()
		finishNeeds = append(finishNeeds, neckOn)
	}
	b.add(Step{
		ID: "finish", Title: "Sand and finish", Stage: Assembly,
		Needs: finishNeeds, Makes: []Thing{finish},
		Face: "all", Datum: "the finished wood", Tool: "sanding blocks, finish of your choice", Depth: "a film of 0.1 to 0.3 mm a wall",
		Facts: []render.Field{fact("Wait", "what the finish's data sheet says for full hardness, not for touch-dry"),
			fact("If it runs", "let it harden, level the run with a scraper, and go on")},
		Do: []string{
			"Sand through the grits along the grain, dust off, raise the grain once with a damp cloth and sand again.",
			b.maskDo(),
			"Finish by the maker's data sheet, thin coats, and let it harden fully.",
			"Pull the masks and try again what was tried dry.",
		},
		Caution: careFinish + " " + careDust,
	})
	fitNeeds := []Thing{finish}
	if neck && !b.glued() {
		b.screwNeck()
		fitNeeds = append(fitNeeds, neckOn)
	}
	for _, k := range []struct {
		has  bool
		made Thing
	}{{b.has(part.Channel), channels}, {b.has(part.JackHole), jackHole}} {
		if k.has {
			fitNeeds = append(fitNeeds, k.made)
		}
	}
	b.add(Step{
		ID: "fit", Title: "Fit the hardware and wire it", Stage: Assembly,
		Needs: fitNeeds, Makes: []Thing{fittings}, Sheets: []string{"bridge"},
		Face: "both", Datum: "the holes as drilled", Tool: "screwdrivers, soldering iron", Depth: "by the drill map",
		Facts: []render.Field{fact("Screws", "under Lists, with their pilot holes"), fact("Too tight", "a screw that turns hard comes out again: wax it, or drill its hole by 0.2 mm more")},
		Do: []string{
			"Press the ferrules and post inserts in square, with a block and a clamp, not with a hammer.",
			"Wax every screw and drive it by hand.",
			"Push the ground wire from the bridge to the jack's sleeve before the bridge goes on; its end lies bare under the plate.",
			"Wire pots, switch and jack on the bench as far as you can by the diagram of your pickups, then put them in.",
			"Pull the pickups' wires through the channels and solder them. Tap each pickup with a screwdriver: it sounds through the amplifier.",
			"Close the cavity. Screw the strap buttons on, and the tuners on the head.",
		},
		Caution: careSolder,
	})
	b.add(Step{
		ID: "string-up", Title: "String up and set up", Stage: Assembly,
		Needs: []Thing{fittings}, Makes: []Thing{"a guitar"},
		Face: "front", Datum: "the twelfth fret against the harmonic", Tool: "tuner, rule, feeler gauges, nut files", Depth: "action by the design",
		Facts: b.setupFacts(),
		Do: []string{
			"Glue the nut with two drops at its place and file its slots, the string's own width, until the strings stand at the height said above.",
			"Set each saddle to where its string wants it, then tune up slowly, all strings in turn.",
			"Let the neck settle a day and tune again. Set the relief with the rod, a quarter turn at a time.",
			"Set the height at the twelfth fret by the saddles.",
			"Set each saddle along its string until the fretted twelfth agrees with the harmonic: sharp, move it back.",
			"Write what you measured into the design file: the next one starts there.",
		},
		Caution: "A string under tension whips when it breaks: keep your face away while you tune up, and wear eye protection.",
	})
}

// maskDo says what is kept free of the finish.
func (b *builder) maskDo() string {
	if b.glued() || !b.j.Design.Neck.Present {
		return "Mask holes, ledges and fretboard: a film makes a good fit tight."
	}
	return "Mask the pocket, holes and ledges: a film makes a good fit tight."
}

// glueNeck is the neck that is glued in.
func (b *builder) glueNeck() {
	var facts []render.Field
	for _, g := range b.j.GlueJoints() {
		if g.Name == job.NeckJoint {
			facts = append(facts, fact("Glue", "%s to spread, %s in a film of %s mm", cm2(g.Area), ml(g.Ml), mm(job.GlueFilm)), fact("Clamps", "%d: %s", g.Clamps, g.Rule))
		}
	}
	b.add(Step{
		ID: "glue-neck", Title: "Glue the neck", Stage: Assembly,
		Needs: []Thing{shaped, neckDone, fitted}, Makes: []Thing{neckOn}, Sheets: []string{"neck-geometry"},
		Face: "front", Datum: "a string from the nut to the bridge line", Tool: "clamps, caul with 3 mm of cork", Depth: "down to the pocket's floor",
		Facts: append(facts, fact("Wait", "a day in clamps"), fact("If it skates", "slack the clamps at once, push it back to the line, and draw them a little at a time, crosswise")),
		Do: []string{
			"Rehearse it dry with every clamp. Stretch the string from the nut to the bridge line: within 0.5 mm of the centre.",
			"Spread floor and walls of the pocket, then the heel.",
			"Press the neck down and against the end wall, and clamp lightly.",
			"Stretch the string again while the neck can still move: glue lets it skate. Then draw the clamps.",
		},
		Caution: careGlue,
	})
}

// screwNeck is the neck that is screwed on.
func (b *builder) screwNeck() {
	var facts []render.Field
	drive := "Drill the pilot holes in the heel, square, the depth taped on the drill."
	if n := b.j.Neck; n != nil && n.Bolts != nil {
		k := n.Bolts
		deep := k.Into + pilotPast
		facts = append(facts,
			fact("Screws", "%d: %s, %s mm long under the head, plate of %s mm", len(k.At), k.Name, mm(k.Length), mm(k.Plate)),
			fact("In the body", "%s mm clear: a screw that threads in both holds a gap", mm(k.Hole)),
			fact("In the heel", "%s mm, %s mm deep from the heel's face; %s mm of wood stay to the playing surface", mm(k.Pilot), mm(deep), mm(k.Over-pilotPast)))
		if b.j.Design.Neck.Bolts.Thread.V == "" {
			facts = append(facts, fact("Source", "pilot holes: %s", wood.PilotSource))
		}
		drive = fmt.Sprintf("Drill the pilot holes in the heel, %s mm, square, tape on the drill at %s mm.", mm(k.Pilot), mm(deep))
	}
	b.add(Step{
		ID: "bolt-neck", Title: "Screw the neck on", Stage: Assembly,
		Needs: []Thing{finish, neckDone, fitted}, Makes: []Thing{neckOn}, Sheets: []string{"drill-back"},
		Face: "back", Datum: "the neck pressed to the end of its pocket", Tool: "awl, drill, screwdriver, wax on the threads", Depth: "pilot holes in the heel as said below",
		Facts: append(facts, fact("Too loose", "a screw that does not bite: glue a hardwood peg in the heel's hole and drill it again")),
		Do: []string{
			"Press the neck to the end wall of the pocket, which sets the scale, and clamp it so.",
			"Prick through the holes of the body on to the heel with an awl that fills them; take the neck out.",
			drive,
			"Wax the screws, lay the neck in again, press it to the end wall, and drive them by hand, crosswise.",
			"Lay a string from the nut to the bridge: it passes the centre line as when it was fitted dry.",
		},
		Caution: careBench,
	})
}

// pilotPast is how far a pilot hole goes past the tip of its screw, mm. Common
// practice.
const pilotPast = 1.0

// setupFacts are the numbers of the set-up.
func (b *builder) setupFacts() []render.Field {
	var f []render.Field
	j := b.j
	if n := j.Neck; n != nil && n.Action > 0 {
		f = append(f, fact("Action", "%s mm under the strings at the middle of the scale, over the fret; %s mm over the first fret at the nut", mm(n.Action), mm(n.Nut)))
	}
	if bo := j.Board; bo != nil && len(bo.Strings) > 1 {
		a, z := bo.Strings[0].Nut, bo.Strings[len(bo.Strings)-1].Nut
		f = append(f, fact("Nut", "%d slots, the outer ones %s mm apart", len(bo.Strings), mm(a.Dist(z))))
	}
	if br := j.Bridge; br != nil && len(br.Lines) > 0 {
		f = append(f, fact("Saddles", "behind the scale length by %s mm at the bass string to %s mm at the treble string, an estimate to start from", mm(br.Lines[0].Want), mm(br.Lines[len(br.Lines)-1].Want)))
	}
	return f
}
