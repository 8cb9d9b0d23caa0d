package steps

import (
	"fmt"
	"strings"

	"routwright/render"
	"routwright/templates/part"
)

func (b *builder) prepare() {
	j := b.j
	b.add(Step{
		ID: "measure", Title: "Measure what you have, print, and prove the print", Stage: Prepare,
		Makes: []Thing{measured},
		Face:  "bench", Datum: "a steel rule of your own, the same for the whole job", Tool: "calliper, steel rule, printer", Depth: "nothing is cut",
		Do: []string{
			"Go through the list of assumed values at the front of this book; measure each and write it into the design file.",
			"Cut a slot with every bit in scrap and write its width down as test_slot: that is the bit's true diameter.",
			"Measure the heel, the pickups, the pots and the bridge in your hand, not in a catalogue.",
			"Print one page at 100 %, without fitting it to the page, and lay the rule on both printed rulers. Write what they measure into [print] measured, and print again.",
		},
		Caution: careBench,
	})
	if len(j.Templates) > 0 {
		b.add(Step{
			ID: "templates", Title: "Make and prove the templates and jigs", Stage: Prepare,
			Needs: []Thing{measured}, Makes: []Thing{templates},
			Face: "bench", Datum: "the cut line, and the two pin holes of each sheet",
			Tool:  "band saw or jig saw, files; drill for the pin holes",
			Depth: fmt.Sprintf("through the %s mm sheet", mm(j.Templates[0].Sheet)),
			Do: []string{
				"Glue the print on with spray or dry adhesive, wait, and measure its rulers again.",
				"Drill the pin holes first, then saw 1 mm inside the waste and file or sand to the middle of the line, square to the sheet.",
				"Try the pins: they go in by hand, without play. Mark FRONT or BACK and the revision on the template itself.",
				"Rout the test coupon in scrap with the bit of the job. Key, recess and gap must come out as the proof says before any template touches the slab.",
			},
			Caution: careSaw + " " + careDust,
			Tables:  []render.Table{b.templateTable()},
		})
	}
	b.add(Step{
		ID: "true-slab", Title: "True a face and two edges of the slab", Stage: Prepare,
		Needs: []Thing{measured}, Makes: []Thing{trueFront, squareEdges, roughStock, waste},
		Face: "both", Datum: "winding sticks and a straightedge",
		Tool: "hand plane, planer or router sled", Depth: fmt.Sprintf("to %s mm thick, the keys' thickness", mm(j.Rough)),
		Do: []string{
			fmt.Sprintf("Check the moisture: the slab must have stopped drying (6 to 9 %% for a heated room is usual). %s", b.moistureWords()),
			fmt.Sprintf("Flatten the front, then bring the slab to %s mm, and plane one long edge and one end square to it: the two datum edges.", mm(j.Rough)),
			b.blankWords(),
		},
		Caution: careDust + " A slab with a crack can come apart in a planer: stop the crack first, or flatten with a router sled. Follow the machine's manual.",
	})
	b.add(Step{
		ID: "lines", Title: "Draw the centre line, the bridge line and the crack on both faces", Stage: Prepare,
		Needs: []Thing{trueFront, squareEdges}, Makes: []Thing{roughLines},
		Face: "both", Datum: "the two square edges", Tool: "knife, square, fine pencil", Depth: "nothing is cut",
		Do: append([]string{
			"Knife the centre line on the front from the datum edge, carry it over both ends and on to the back with the square.",
			"Knife the bridge line square to it, and carry it round too. FRONT and BACK go on the wood in chalk.",
		}, b.crackWords()...),
		Caution: careBench,
	})
	if len(j.Pins) > 0 {
		var places []string
		for _, p := range j.Pins {
			places = append(places, fmt.Sprintf("%s: %s mm, %s", p.Name, mm(p.D), b.place(p.At)))
		}
		b.add(Step{
			ID: "pins", Title: "Bore the two pin holes", Stage: Prepare,
			Needs: []Thing{roughLines, squareEdges}, Makes: []Thing{pins},
			Face: "front", Datum: "the knifed centre line and bridge line", Tool: "drill press, brad-point drills of the dowels' size",
			Depth: "through",
			Do: []string{
				"Bore each hole square through, a scrap board clamped under it: " + strings.Join(places, "; ") + ". Seen from the front.",
				"Try one template on the pins from the front and one from the back. They must drop on without force and lie flat.",
				"From here on the pins are the truth, the pencil lines only help: they live until the outline is sawn.",
			},
			Caution: careDrill,
		})
	}
}

func (b *builder) moistureWords() string {
	if m := b.j.Design.Slab.Moisture; m.Now.Set() {
		return fmt.Sprintf("The design counts on %g %% now.", m.Now.V)
	}
	return "The design does not say; measure it."
}

func (b *builder) blankWords() string {
	if b.j.Blank.Empty() {
		return "Leave wood for two pins outside the outline."
	}
	box := b.j.Blank.Bounds()
	return fmt.Sprintf("Square it to %s × %s mm, along the strings and across. The wood round the outline carries the pins and the router until the very end.", mm(box.H()), mm(box.W()))
}

func (b *builder) crackWords() []string {
	if len(b.j.Cracks) == 0 {
		return nil
	}
	return []string{"Compare the crack with its trace on the layout sheet, on both faces. If it has grown or lies more than 1 mm off, measure it again and make the set again: keys and pins were placed by it."}
}

// templateTable lists the templates with what must be written on each.
func (b *builder) templateTable() render.Table {
	t := render.Table{Caption: "Templates to make", Tick: true, Head: []string{"template", "face", "followed", "bit", "sheet"}}
	for _, q := range b.j.Templates {
		how := "inside the opening"
		if q.Male {
			how = "round the outside"
		}
		face := on(q.For.Face)
		if q.Loose || q.For.Kind == part.Body {
			face = "either"
		}
		t.Rows = append(t.Rows, []string{q.Name, face, how, q.Tool.String(), q.ID})
	}
	return t
}
