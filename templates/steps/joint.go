package steps

import (
	"fmt"

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
			Face: "front", Datum: "the two pins; the heel itself for the fit", Depth: b.pocketDepth(),
			Do: []string{
				"Lay the template on the pins, or set the two rails against the heel itself with a strip of paper a side, and the end stop on its line.",
				"Rout a trial pocket in scrap and try the heel: it goes in by hand and does not rock.",
				"Rout the pocket in the passes below, from the end towards the body's edge last, where the grain tears.",
				"Measure the depth at both ends: the floor follows the neck angle.",
			},
		}))
	}
	if !b.has(part.Pocket) {
		return
	}
	b.add(Step{
		ID: "fit-neck", Title: "Fit the neck dry and measure it again", Stage: Joint,
		Needs: []Thing{pocket, heel}, Makes: []Thing{fitted},
		Face: "front", Datum: "a string or straightedge from the middle of the nut along the neck", Tool: "straightedge, rule, feeler gauge", Depth: "nothing is cut",
		Do: []string{
			"Press the neck in, dry, and lay a straightedge along it: its middle must pass over the bridge line within 0.5 mm of the body's centre line.",
			"Measure from the nut's string edge to the bridge line along the board, and the height of the board over the body. If either differs from the design, write it in and make the set again: the bridge is placed by the fitted neck, not by the drawing.",
		},
		Caution: careBench,
	})
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
	b.add(Step{
		ID: "place-bridge", Title: "Place the bridge from the fitted neck", Stage: Drilling,
		Needs: needs, Makes: []Thing{bridgePlace},
		Face: "front", Datum: "the fitted neck: nut edge and centre line", Tool: "rule, knife, awl", Depth: "awl marks only",
		Do: []string{
			words + ", uncompensated, and compare it with the bridge line.",
			"Lay the bridge itself on the marks, saddles in the middle of their travel, outer strings at their places over the pole pieces, and prick every hole through it.",
			"Compare the pricks with the drill map: 0.3 mm is the limit.",
		},
		Caution: careBench,
	})
}
