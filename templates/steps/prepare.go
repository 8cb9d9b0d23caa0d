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
		Facts: []render.Field{
			fact("Print", "print/a4.pdf tiled on sheets, or print/full-size.pdf in one piece; sheets/ holds each sheet by its name"),
			fact("Again", "routwright check FILE, then routwright make FILE -o DIR, each time a measure changes; old templates are known by the mark beside the revision"),
		},
		Do: []string{
			"Go through the list of assumed values at the front of this book, the first table first. Measure each in your hand, not in a catalogue, and write it under its key into the design file.",
			"Cut a slot with every bit in scrap, along a clamped straightedge, in one pass. Measure its width at three places and write it under the [[bit]] as test_slot: that is the bit's true diameter.",
			"Print the page with the longest rulers at 100 %, without fitting it to the page. Lay the steel rule on both printed rulers and write what they measure into [print] measured.",
			"Make the set again and print it.",
		},
		Caution: careBench,
	})
	if len(j.Templates) > 0 {
		b.add(Step{
			ID: "templates", Title: "Make and prove the templates and jigs", Stage: Prepare,
			Needs: []Thing{measured}, Makes: []Thing{templates},
			Face: "bench", Datum: "the cut line, and the two pin holes of each sheet",
			Tool:   "band saw or jig saw, files; drill for the pin holes",
			Depth:  fmt.Sprintf("through the %s mm sheet", mm(j.Templates[0].Sheet)),
			Sheets: []string{"stock-1", "stock-2", "coupon-key"},
			Facts: append([]render.Field{
				fact("Sheet", "%s mm fibre board or plywood without voids; how much, and what lies where, under Lists", mm(j.Templates[0].Sheet)),
				fact("Inside corners", "no tighter than %s mm radius: the proofs count on it", mm(j.Templates[0].InsideRadius)),
			}, b.couponFact()...),
			Do: []string{
				"Join the tiles of a print cross on cross. Glue it on dry or with spray, let it dry, and measure its rulers again.",
				"Drill the pin holes in the press, square to the sheet, before anything is sawn.",
				"Drill a starting hole in the hatched waste of each opening. Saw in the waste, 1 mm from the line; the outsides last.",
				"File or sand to the middle of the line, square to the sheet. Run a finger along the edge: the bearing copies every bump.",
				"Try the dowels in the pin holes: they go in by hand, without play.",
				"Write on the template what its sheet says: its name, FRONT or BACK on the face that lies up, its revision, and both axes or the centre line right across.",
				"Rout the test coupon in scrap with the bit of the job. What comes out must measure what the coupon says before any template touches the slab.",
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
		Facts: b.edgesFact(),
		Do: []string{
			fmt.Sprintf("Check the moisture: the slab must have stopped drying (6 to 9 %% for a heated room is usual). %s", b.moistureWords()),
			"Choose the front, the face with the better figure, and chalk FRONT on it; then choose which end is the tail.",
			"Flatten the front against the winding sticks.",
			fmt.Sprintf("Bring the slab to %s mm, measured at the four corners and in the middle.", mm(j.Rough)),
			"Plane the long edge on the bass side straight and square to the front, and the tail end square to both: these are the two datum edges.",
			b.blankWords(),
		},
		Caution: careDust + " A slab with a crack can come apart in a planer: stop the crack first, or flatten with a router sled. Follow the machine's manual.",
	})
	b.add(Step{
		ID: "lines", Title: "Draw the centre line, the bridge line and the crack on both faces", Stage: Prepare,
		Needs: []Thing{trueFront, squareEdges}, Makes: []Thing{roughLines},
		Face: "both", Datum: "the two square edges", Tool: "knife, square, fine pencil", Depth: "nothing is cut",
		Facts: b.edgesFact(), Sheets: []string{"layout"},
		Do: append([]string{
			b.knife("Knife the centre line on the front", "from the datum edge, parallel to it", true),
			b.knife("Knife the bridge line square to it", "from the tail end", false),
			"Carry both over the edges and on to the back with the square. Chalk FRONT and BACK on the faces.",
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
			Facts: b.dowels(), Sheets: []string{"layout"},
			Do: []string{
				"Prick both places, measured from the two lines as seen from the front: " + strings.Join(places, "; ") + ".",
				"Clamp a scrap board under the slab and bore each hole through, square, in the press. Where no press reaches, lead the drill through a block that was bored square in one.",
				"Cut the dowels to length and round their ends.",
				"Try one template on the pins from the front and one from the back. Each drops on without force, lies flat, and its centre line lies on the slab's.",
				"From here on the pins are the truth, the lines only help: both pin holes live until the outline is sawn.",
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
	return fmt.Sprintf("Saw the slab to %s mm along the strings and %s mm across, and keep the offcuts. The wood round the outline carries the pins and the router until the very end.", mm(box.H()), mm(box.W()))
}

// knife says where a datum line lies, with its distance where the slab is known.
func (b *builder) knife(line, from string, long bool) string {
	e, ok := b.j.Edges()
	if !ok {
		return line + " " + from + "."
	}
	d := e.End
	if long {
		d = e.Long
	}
	return fmt.Sprintf("%s, %s mm %s.", line, mm(d), from)
}

// couponFact says what the coupon must measure.
func (b *builder) couponFact() []render.Field {
	k := b.j.Keys
	if k == nil {
		return nil
	}
	r, m := k.Fit.Recess.Bounds(), k.Fit.Key.Bounds()
	return []render.Field{fact("Coupon", "one recess and one key in scrap, with the two templates of the keys: recess %s long and %s wide at its ends, key %s and %s, %s of air a side; if not, the bit's diameter is wrong or a template is", mm(r.W()), mm(r.H()), mm(m.W()), mm(m.H()), k.Gap.Words())}
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
