package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/part"
)

// drilling is every bore square to a face, one step a part.
func (b *builder) drilling() {
	b.bridgeStep()
	for _, p := range b.j.Parts {
		if len(p.Bores) == 0 || p.Kind == part.Channel || p.Kind == part.JackHole {
			continue
		}
		face, stage := flatFront, Drilling
		if p.Face == part.Back {
			face = flatBack
		}
		needs := []Thing{face, lines}
		if len(b.j.Pins) > 0 {
			needs = append(needs, pins)
		}
		switch p.Kind {
		case part.Post, part.StringHole:
			needs = append(needs, bridgePlace)
		case part.Shaft:
			needs = append(needs, templates)
		}
		if p.Kind == part.Pocket { // the screws of the neck
			needs = append(needs, fitted)
		}
		b.add(Step{
			ID: "drill-" + p.ID, Title: fmt.Sprintf("Drill: %s", p.Name), Stage: stage,
			Needs: needs, Makes: []Thing{Thing("the holes of " + p.Name)}, Parts: []string{p.ID},
			Face: on(p.Face), Datum: "the drill map: centre line and bridge line", Tool: b.drills(p), Depth: b.drillDepths(p),
			Do: []string{
				"Prick every centre from the drill map and check two of them with the rule from both datums.",
				"Drill square in the press, a scrap board clamped under a hole that goes through. Tape the depth on the drill.",
				"A hole from both faces meets on a pin: bore the front halves, stand each on a pin of the drill's size in the press table, and bore the back.",
			},
			Caution: careDrill,
			Tables:  []render.Table{b.boreTable(p)},
		})
	}
}

// drills lists the drill sizes of a part, each once.
func (b *builder) drills(p part.Part) string {
	words, seen := "drill", map[float64]bool{}
	for _, q := range p.Bores {
		if !seen[q.D] {
			if len(seen) > 0 {
				words += ","
			}
			words += " " + mm(q.D)
			seen[q.D] = true
		}
	}
	return words + " mm"
}

func (b *builder) drillDepths(p part.Part) string {
	for _, q := range p.Bores {
		if !q.Through(b.j.Thickness) {
			return "as the table says; set the press's stop"
		}
	}
	return "through"
}

func (b *builder) boreTable(p part.Part) render.Table {
	t := render.Table{Caption: "Holes, seen from the front", Tick: true, Head: []string{"hole", "drill, mm", "where", "depth, mm"}, Number: []bool{false, true, false, true}}
	for i, q := range p.Bores {
		depth := mm(q.Length())
		if q.Through(b.j.Thickness) {
			depth = "through"
		}
		words := q.Words
		if words == "" {
			words = fmt.Sprintf("%s %d", p.Name, i+1)
		}
		t.Rows = append(t.Rows, []string{words, mm(q.D), b.place(q.From.Flat()), depth})
	}
	return t
}

// channels are the long holes for wires, and the jack.
func (b *builder) channels() {
	for _, p := range b.j.OfKind(part.Channel) {
		b.add(Step{
			ID: "drill-" + p.ID, Title: "Drill the wire channel " + p.Name, Stage: Drilling,
			Needs: []Thing{voids, waste}, Makes: []Thing{channels}, Parts: []string{p.ID},
			Face: "inside the cavity", Datum: "the entry point and the two angles of the channel's sheet", Tool: "long " + b.drills(p), Depth: b.drillDepths(p),
			Do: []string{
				"Prick the entry point on the cavity's wall and set the drill guide on it, its face tilted to the channel's angle.",
				"Mark the length on the drill with tape. Sight along the drawn line from above while a second person watches the slope.",
				"Drill in short runs and clear the chips. Stop where the drawing ends: the next thing in that line is the face.",
			},
			Caution: careLong,
			Tables:  []render.Table{b.boreTable(p)},
		})
	}
}
