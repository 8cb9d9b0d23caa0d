package steps

import (
	"fmt"

	"routwright/templates/part"
)

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
	makes := []Thing{"the neck blank"}
	trims := b.neckTemplates()
	if len(trims) == 0 {
		makes = append(makes, heel)
	}
	b.add(Step{
		ID: "shape-neck", Title: "Saw and shape the neck as far as its heel", Stage: NeckWork,
		Needs: []Thing{measured}, Makes: makes,
		Face: "bench", Datum: "the neck's own centre line and the nut line", Tool: "band saw, template with bearing bit, plane", Depth: "to the side template",
		Do: []string{
			"True the face that takes the board; knife the centre line and the nut line.",
			"Rout the rod channel while both edges are straight, then saw the side profile, then the outline.",
			"Bring the heel to its final width and thickness now, and measure it with the calliper at two places: the pocket is cut to it.",
		},
		Caution: careSaw + " " + careRouter,
	})
	for _, i := range trims {
		t := b.j.Templates[i]
		b.add(b.cut(i, Step{
			ID: "trim-" + t.ID, Title: "Trim the " + t.Name + " to its template", Stage: NeckWork,
			Needs: []Thing{templates, "the neck blank"}, Makes: []Thing{heel, "the outline of the neck"},
			Face: "face of the board up", Datum: "the centre line of the neck on that of the template",
			Do: []string{
				"Stick or screw the template on where no wood stays, its centre line and its nut line on those of the blank.",
				"Saw 1.5 to 2 mm outside it, then trim in passes of half the bit's diameter, downhill with the grain; at the head the grain turns, sand there.",
				"Measure the heel again with the calliper, at both places, and write it down.",
			},
		}))
	}
	needs := []Thing{"the neck blank"}
	if len(trims) > 0 {
		needs = append(needs, "the outline of the neck")
	}
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
