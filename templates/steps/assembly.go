package steps

import "routwright/templates/part"

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
		b.add(Step{
			ID: "glue-neck", Title: "Glue the neck", Stage: Assembly,
			Needs: []Thing{shaped, neckDone, fitted}, Makes: []Thing{neckOn},
			Face: "front", Datum: "a string from the nut to the bridge line", Tool: "clamps, caul with 3 mm of cork", Depth: "down to the pocket's floor",
			Do: []string{
				"Rehearse it dry with every clamp. Lay the string line: within 0.5 mm of the centre at the bridge.",
				"Glue, press down, clamp lightly, check the string line while it can still move: glue lets a neck skate.",
				"A day in clamps.",
			},
			Caution: careGlue,
		})
		finishNeeds = append(finishNeeds, neckOn)
	}
	b.add(Step{
		ID: "finish", Title: "Sand and finish", Stage: Assembly,
		Needs: finishNeeds, Makes: []Thing{finish},
		Face: "all", Datum: "the finished wood", Tool: "sanding blocks, finish of your choice", Depth: "a film of 0.1 to 0.3 mm a wall: mask the pocket and the threads",
		Do:      []string{"Sand through the grits along the grain, raise the grain once.", "Mask the pocket, the post holes and the contact faces: a film makes a good fit tight.", "Finish by the maker's data sheet and let it harden fully."},
		Caution: careFinish + " " + careDust,
	})
	fitNeeds := []Thing{finish}
	if neck && !b.glued() {
		b.add(Step{
			ID: "bolt-neck", Title: "Screw the neck on", Stage: Assembly,
			Needs: []Thing{finish, neckDone, fitted}, Makes: []Thing{neckOn},
			Face: "back", Datum: "the neck pressed to the end of its pocket", Tool: "screwdriver, wax on the threads", Depth: "screws by the drill table; none nearer than 3 mm to the board or the rod",
			Do: []string{
				"Clear holes in the body, pilot holes in the neck: a screw that threads in both holds a gap.",
				"Press the neck to the end wall of the pocket, which sets the scale, and drive the screws by hand.",
			},
			Caution: careBench,
		})
		fitNeeds = append(fitNeeds, neckOn)
	}
	if b.has(part.Channel) {
		fitNeeds = append(fitNeeds, channels)
	}
	b.add(Step{
		ID: "fit", Title: "Fit the hardware and wire it", Stage: Assembly,
		Needs: fitNeeds, Makes: []Thing{fittings},
		Face: "both", Datum: "the holes as drilled", Tool: "screwdrivers, soldering iron", Depth: "by the drill table",
		Do: []string{
			"Wax every screw; pilot holes by the table, and none nearer than 4 mm to a key's line.",
			"Run the ground wire from the bridge to the jack's sleeve before the bridge goes on.",
			"Wire on the bench as far as you can, tap-test each pickup, close the cavity.",
		},
		Caution: careSolder,
	})
	b.add(Step{
		ID: "string-up", Title: "String up and set up", Stage: Assembly,
		Needs: []Thing{fittings}, Makes: []Thing{"a guitar"},
		Face: "front", Datum: "the twelfth fret against the harmonic", Tool: "tuner, rule, feeler gauges", Depth: "action by the design",
		Do: []string{
			"Tune up slowly, let the neck settle a day, set relief, then action, then each saddle until the fretted twelfth agrees with the harmonic.",
			"Write what you measured into the design file: the next one starts there.",
		},
		Caution: "A string under tension whips when it breaks: keep your face away while you tune up, and wear eye protection.",
	})
}
