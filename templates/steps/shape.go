package steps

import (
	"fmt"
	"strings"

	"routwright/render"
	"routwright/templates/part"
)

// shape is the outline and what is done to its edge, after every template that
// needs the pins is finished with.
func (b *builder) shape() {
	j := b.j
	i := b.template("body")
	if j.Outline.Empty() || i < 0 {
		return
	}
	needs := []Thing{lines}
	if b.has(part.Pickup, part.Cavity, part.Pocket) {
		needs = append(needs, voids)
		if b.has(part.Pickup, part.Cavity) {
			needs = append(needs, plugSeat)
		}
	}
	if !b.has(part.Pickup, part.Cavity) { // then nothing makes them
		needs = []Thing{lines}
		if b.has(part.Pocket) {
			needs = append(needs, plugSeat)
		}
	}
	if b.has(part.Pocket) {
		needs = append(needs, fitted)
	}
	b.add(Step{
		ID: "saw-outline", Title: "Saw the outline", Stage: Shape,
		Needs: append([]Thing{templates}, needs...), Makes: []Thing{sawn}, Removes: []Thing{pins, squareEdges, waste},
		Face: "front up", Datum: "the outline template on its plugs", Tool: "band saw, a blade for the tightest curve", Depth: fmt.Sprintf("through %s mm", mm(j.Thickness)),
		Sheets: []string{"layout"}, Facts: b.plugFacts(i),
		Do: []string{
			"Read the list of steps again: everything that sits on the pins must be done, they go now.",
			"Set the outline template on its plugs, its centre line and bridge line on those of the slab, and draw round it.",
			"Lift it, and make relief cuts from the edge of the slab to 3 mm before the line, at every tight curve.",
			"Saw 1.5 to 2 mm outside the line, the long grain at the horns held up from below.",
			"Pull the dowels out of what is left, and keep the offcuts.",
		},
		Caution: careSaw,
	})
	b.add(b.cut(i, Step{
		ID: "trim-outline", Title: "Trim the outline to its template", Stage: Shape,
		Needs: []Thing{sawn, templates}, Makes: []Thing{squareEdge},
		Face: "front up, then turned", Datum: "the outline template on its plugs",
		Facts: []render.Field{
			fact("Work", "the template on its plugs with a screw through it into each plug, or double-sided tape; by hand, the body clamped past the edge of the bench, moved on from clamp to clamp"),
			fact("If the bit is short", "trim as deep as it reaches, lift the template, and let the bearing run on the edge already trimmed, from the same side or turned over"),
			fact("If it tears", "stop, glue the splinter back at once, tape it, and go on there with the sander"),
		},
		Do: []string{
			"Look where more than 2 mm stand outside the template and saw them off.",
			"Trim pass by pass. Go downhill with the grain, from the wide places to the narrow ones.",
			"Where the grain rises against the bit, at the horns and at the end grain of the waist, leave 0.5 mm and sand it off with a spindle sander or a drum.",
			"Finish with a block and paper along the edge, square to the face.",
		},
	}))
	b.jack()
	b.edgeBores()
	needs = []Thing{squareEdge}
	if b.has(part.JackHole) {
		needs = append(needs, jackHole)
	}
	sheets := []string{"edge"}
	for _, c := range j.Contours {
		sheets = append(sheets, c.ID)
	}
	do := []string{"All templates must be finished with: they need the flat faces and the square edge that go now."}
	if e := j.Design.Body.Edge; e.Roundover.Set() || e.Chamfer.Set() {
		do = append(do,
			"Set the bit in scrap as thick as the body, until the profile meets the face without a step.",
			"Rout the edge on both faces in two passes, the last a shaving.",
			"Where the bearing finds no edge, at the mouth of the pocket and at cavities, stop 10 mm short and finish by hand.")
	} else {
		do = append(do, "Break the edge with block and paper.")
	}
	if len(j.Contours) > 0 {
		do = append(do,
			"Draw the contours' lines on face and edge from their sheets. Look at the depth at keys and screws first.",
			"Rasp to the lines across the grain, then along it, and sand.")
	} else {
		do = append(do, "Sand the edge by hand where the bit left marks.")
	}
	b.add(Step{
		ID: "edge", Title: "Round or chamfer the edge, then the contours", Stage: Shape,
		Needs: needs, Makes: []Thing{shaped}, Removes: []Thing{squareEdge, flatFront, flatBack},
		Face: "front, then back", Datum: "the trimmed edge, which the bearing runs on", Tool: b.edgeTool(), Depth: b.edgeDepth(),
		Sheets: sheets, Do: do,
		Facts:   []render.Field{fact("Feed", "anticlockwise round the outside, seen from above a hand-held router; never a climb cut")},
		Caution: careRouter + " " + careDust,
	})
}

// plugFacts say where the outline template gets its place from.
func (b *builder) plugFacts(i int) []render.Field {
	if b.bare {
		return nil
	}
	var names []string
	for _, p := range b.j.Seats() {
		names = append(names, p.String())
	}
	if len(names) == 0 {
		return []render.Field{fact("Place", "the template's centre line and bridge line on those of the slab, held with double-sided tape")}
	}
	f := []render.Field{fact("Plugs", "blocks that fill %s, sawn large and planed until they press in by hand; screwed under the outline template on the places that sheet %s draws", strings.Join(names, " and "), b.j.Templates[i].ID)}
	if len(names) == 1 {
		f = append(f, fact("Turn", "one plug holds the place, the two lines hold the direction: check both before you draw"))
	}
	return f
}

// edgeTool names the bit for the edge.
func (b *builder) edgeTool() string {
	e := b.j.Design.Body.Edge
	switch {
	case e.Roundover.Set():
		return fmt.Sprintf("roundover bit of %s mm with a bearing at the tip; rasp, scraper", mm(float64(e.Roundover.V)))
	case e.Chamfer.Set():
		return "chamfer bit of 45 degrees with a bearing at the tip; rasp, scraper"
	}
	return "sanding block: the design asks for no roundover"
}

func (b *builder) edgeDepth() string {
	e := b.j.Design.Body.Edge
	switch {
	case e.Roundover.Set():
		return fmt.Sprintf("%s mm in from each face", mm(float64(e.Roundover.V)))
	case e.Chamfer.Set():
		return fmt.Sprintf("%s mm in from each face", mm(float64(e.Chamfer.V)))
	}
	return "the sharp edge broken, 0.5 mm"
}

// jack is the hole for the jack in the edge, square to it, or on the front.
func (b *builder) jack() {
	for _, p := range b.j.OfKind(part.JackHole) {
		facts := []render.Field{fact("Place", "%s, %s mm from either face", b.place(p.Bores[0].From.Flat()), mm(b.j.Thickness/2)),
			fact("Length", "%s mm along the bore", mm(p.Bores[0].Length()))}
		if w := b.j.JackStop(); w != "" {
			facts = append(facts, fact("Stop", "%s", w))
		}
		if k := b.j.Jack; k != nil && k.Into != "" {
			facts = append(facts, fact("Opens", "%s", k.Into))
		}
		needs := []Thing{squareEdge}
		if b.has(part.Pickup, part.Cavity, part.Chamber) { // that it may open
			needs = append(needs, voids)
		}
		s := Step{
			ID: "drill-" + p.ID, Title: "Bore the jack hole", Stage: Shape,
			Needs: needs, Makes: []Thing{jackHole}, Parts: []string{p.ID}, Sheets: []string{"cradle-jack"},
			Face: "edge", Datum: "the jack cradle on the trimmed outline", Tool: b.drills(p), Depth: b.drillDepths(p),
			Facts: append(facts, fact("No such drill", "see the list of drills for what could replace it; measure the jack plate's cup before you take another")),
			Do: []string{
				"Stand the body on edge in a padded vice, or clamp it to the bench's side, the place of the jack up.",
				"Clamp the cradle on the outline at its marks, faces flush, its bush square to the edge at mid-thickness.",
				"Turn the drill by hand in the bush until its point marks the middle. Lift the cradle, drill 3 mm at the mark, square to the edge, until the tip comes out in the cavity. If it does not, look where it is before you go on.",
				"Clamp the cradle on again and bore to the stop, the drill's point in that hole; clear the chips often, and go slowly where it breaks into the cavity.",
			},
			Caution: careDrill,
		}
		if k := b.j.Jack; k != nil && k.Front() {
			s.Face, s.Datum, s.Sheets = part.Front.Words(), "the drill map: centre line and bridge line", []string{"drill-front"}
			s.Facts[0] = fact("Place", "%s", b.place(p.Bores[0].From.Flat()))
			s.Do = []string{"Mark the place from both datum lines and prick it.", "Clamp the body on scrap and bore square, to the stop."}
		}
		if !b.bare {
			s.Tables = []render.Table{b.boreTable(p)}
		}
		b.add(s)
	}
}

// edgeBores are holes into the edge, as those of strap buttons: they wait for the
// outline.
func (b *builder) edgeBores() {
	for _, p := range b.j.Parts {
		if p.Kind == part.Channel || p.Kind == part.JackHole || len(p.Bores) == 0 || p.Bores[0].Square() {
			continue
		}
		s := Step{
			ID: "drill-" + p.ID, Title: "Drill " + string(holesOf(p)), Stage: Shape,
			Needs: []Thing{squareEdge}, Makes: []Thing{holesOf(p)}, Parts: []string{p.ID}, Sheets: []string{"drill-front"},
			Face: "edge", Datum: "the trimmed edge, at half the thickness", Tool: b.drills(p), Depth: b.drillDepths(p),
			Facts: []render.Field{fact("Middle", "%s mm from either face", mm(b.j.Thickness/2)), fact("Too tight", "the screw squeaks or turns hard: take it out, wax it, and drill the pilot 0.2 mm wider rather than wring it off")},
			Do: []string{
				"Mark each place on the edge from the table, at half the thickness, and prick it.",
				"Stand the body in a padded vice, the place up, and drill square to the edge, the stop on the drill.",
			},
			Caution: careDrill,
		}
		if !b.bare {
			s.Tables = []render.Table{b.boreTable(p)}
		}
		b.add(s)
	}
}
