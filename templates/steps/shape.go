package steps

import (
	"fmt"

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
		Face: "front up", Datum: "the outline template on its plug", Tool: "band saw, a blade for the tightest curve", Depth: fmt.Sprintf("through %s mm", mm(j.Thickness)),
		Do: []string{
			"Everything that sits on the pins must be done: they go now. Read the list of steps again before you saw.",
			"Set the outline template on its plug in a cavity, turn it to the centre line, and draw round it.",
			"Saw 1.5 to 2 mm outside the line, relief cuts first; support the long grain at the horns.",
		},
		Caution: careSaw,
	})
	b.add(b.cut(i, Step{
		ID: "trim-outline", Title: "Trim the outline to its template", Stage: Shape,
		Needs: []Thing{sawn, templates}, Makes: []Thing{squareEdge},
		Face: "front up, then turned", Datum: "the outline template on its plug",
		Do: []string{
			"Leave no more than 2 mm for the router. Take it in passes of half the bit's diameter.",
			"Go downhill with the grain: where it rises against the bit, at the horns and the end grain of the waist, climb in tiny bites is no answer; sand there with a spindle sander instead.",
			"Finish with a block and paper along the edge.",
		},
	}))
	b.jack()
	needs = []Thing{squareEdge}
	if b.has(part.JackHole) {
		needs = append(needs, jackHole)
	}
	b.add(Step{
		ID: "edge", Title: "Round or chamfer the edge, then the contours", Stage: Shape,
		Needs: needs, Makes: []Thing{shaped}, Removes: []Thing{squareEdge, flatFront, flatBack},
		Face: "front, then back", Datum: "the trimmed edge, which the bearing runs on", Tool: b.edgeTool(), Depth: b.edgeDepth(),
		Do: []string{
			"All templates must be finished with: they need the flat faces and the square edge that go now.",
			"Rout the edge on both faces in two passes, the last a shaving. Where the bearing finds no edge, at cavities, stop 10 mm short and finish by hand.",
			"Rasp the contours to their lines, check against the depth at the keys and screws first, and sand.",
		},
		Caution: careRouter + " " + careDust,
	})
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

// jack is the hole for the jack in the edge, square to it.
func (b *builder) jack() {
	for _, p := range b.j.OfKind(part.JackHole) {
		b.add(Step{
			ID: "drill-" + p.ID, Title: "Bore the jack hole", Stage: Shape,
			Needs: []Thing{squareEdge, voids}, Makes: []Thing{jackHole}, Parts: []string{p.ID},
			Face: "edge", Datum: "the jack cradle on the trimmed outline", Tool: b.drills(p), Depth: b.drillDepths(p),
			Do: []string{
				"Lay the body in the jack cradle, its bush square to the edge at mid-thickness.",
				"Bore to the depth of the table, then look for the cavity with the thin drill.",
			},
			Caution: careDrill,
		})
	}
}
