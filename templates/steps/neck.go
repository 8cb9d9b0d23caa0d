package steps

import "fmt"

// neckWork is the neck itself. Its heel is shaped before the pocket, which is
// cut to the heel as measured.
func (b *builder) neckWork() {
	j := b.j
	if j.Board != nil {
		spec := j.Board.Spec
		b.add(Step{
			ID: "slot-board", Title: "Slot the fretboard", Stage: NeckWork,
			Needs: []Thing{measured}, Makes: []Thing{"the slotted board"},
			Face: "playing face", Datum: "the nut's string edge, never the last slot", Tool: fmt.Sprintf("slotting saw, kerf %s mm, in a mitre box or on a sled with a pin", mm(spec.Slot.Kerf)),
			Depth: "tang of the wire and 0.3 to 0.5 mm",
			Do: []string{
				"Square the nut end; every distance of the table is counted from it.",
				"Mark or index each slot from the nut, not from the slot before: errors then do not add up. Tolerance ±0.05 mm.",
				"Saw the slots before the board is tapered: its straight edge is the datum for the square.",
				"Measure fret 12 when half are sawn: half the scale, or stop.",
			},
			Caution: careSaw,
		})
	}
	if !j.Design.Neck.Present {
		return
	}
	b.add(Step{
		ID: "shape-neck", Title: "Saw and shape the neck as far as its heel", Stage: NeckWork,
		Needs: []Thing{measured}, Makes: []Thing{heel, "the neck blank"},
		Face: "bench", Datum: "the neck's own centre line and the nut line", Tool: "band saw, template with bearing bit, plane", Depth: "to the side template",
		Do: []string{
			"True the face that takes the board; knife the centre line and the nut line.",
			"Rout the rod channel while both edges are straight, then saw the side profile, then the outline.",
			"Bring the heel to its final width and thickness now, and measure it with the calliper at two places: the pocket is cut to it.",
		},
		Caution: careSaw + " " + careRouter,
	})
	needs := []Thing{"the neck blank"}
	if j.Board != nil {
		needs = append(needs, "the slotted board")
	}
	b.add(Step{
		ID: "board-on", Title: "Fit the rod, glue the board on, fret and carve", Stage: NeckWork,
		Needs: needs, Makes: []Thing{neckDone},
		Face: "bench", Datum: "two small pins in fret slots keep the board in its place", Tool: "clamps and caul, radius block, fret hammer or press, spokeshave and rasp", Depth: "profile gauges at frets 1 and 12",
		Do: []string{
			"Lay the rod in dry, try its nut, keep glue out of its channel.",
			"Glue the board on under a caul, a day in clamps, then radius it with the block along the strings.",
			"Press the frets, level them; carve the back to the gauges and stop 0.5 mm before they fit.",
		},
		Caution: careGlue + " " + careBench,
	})
}
