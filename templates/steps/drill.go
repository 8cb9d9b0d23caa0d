package steps

import (
	"fmt"
	"slices"
	"strings"

	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// drilling is every bore square to a face, one step a part. What lies in a cover or
// under it waits for the rebate, what goes into the edge for the outline.
func (b *builder) drilling() {
	b.bridgeStep()
	for _, p := range b.j.Parts {
		if !fromFace(p) || p.Kind == part.Cover || b.underCover(p) {
			continue
		}
		needs := []Thing{faceOf(p.Face), lines}
		switch {
		case p.Kind == part.Post, p.Kind == part.StringHole, p.Kind == part.Screw && p.Group == "bridge":
			needs = append(needs, bridgePlace)
		case p.Kind == part.Pocket, p.Kind == part.Screw && p.Group == "neck":
			needs = append(needs, fitted)
		}
		if z := p.Bores[0].From.Z; z > 0 && z < b.j.Thickness { // from the floor of a cavity
			for _, t := range b.j.Templates {
				if t.Pinned() && t.For.Group == p.Group && t.For.Face == p.Face {
					needs = append(needs, Thing("the "+t.Name))
				}
			}
		}
		b.add(b.bored(p, Drilling, needs))
	}
}

// covered are the holes of covers and of their screws, when cover and rebate are cut.
func (b *builder) covered() {
	for _, p := range b.j.Parts {
		if !fromFace(p) {
			continue
		}
		switch {
		case p.Kind == part.Cover:
			var needs []Thing
			if i := b.template(p.ID); i >= 0 { // else it is at hand
				needs = append(needs, Thing("the "+b.j.Templates[i].Name))
			}
			b.add(b.bored(p, BackWork, needs))
		case b.underCover(p):
			needs := append([]Thing{faceOf(p.Face), lines}, b.rebateOf(p.Group)...)
			for _, q := range b.j.OfKind(part.Cover) {
				if q.Group == p.Group && len(q.Bores) > 0 {
					needs = append(needs, holesOf(q))
				}
			}
			b.add(b.bored(p, BackWork, needs))
		}
	}
}

// fromFace reports whether a part has bores that are drilled square from a face.
func fromFace(p part.Part) bool {
	return len(p.Bores) > 0 && p.Kind != part.Channel && p.Kind != part.JackHole && p.Bores[0].Square()
}

// underCover reports whether a part is the screws of a cover.
func (b *builder) underCover(p part.Part) bool {
	if p.Kind != part.Screw {
		return false
	}
	for _, q := range b.j.OfKind(part.Cover) {
		if q.Group == p.Group {
			return true
		}
	}
	return false
}

// holesOf names the holes of a part.
func holesOf(p part.Part) Thing {
	if p.Kind == part.Cover {
		return Thing("the screw holes in the cover " + p.Name)
	}
	return Thing(fmt.Sprintf("the %ss: %s", p.Kind, p.Name))
}

func faceOf(f part.Face) Thing {
	if f == part.Back {
		return flatBack
	}
	return flatFront
}

// bored is the step of one part's bores from a face.
func (b *builder) bored(p part.Part, stage Stage, needs []Thing) Step {
	s := Step{
		ID: "drill-" + p.ID, Title: "Drill " + string(holesOf(p)), Stage: stage,
		Needs: needs, Makes: []Thing{holesOf(p)}, Parts: []string{p.ID},
		Face: p.Face.Words(), Datum: "the drill map: centre line and bridge line", Tool: b.drills(p), Depth: b.drillDepths(p),
		Sheets: []string{"drill-" + p.Face.String()}, Caution: careDrill,
	}
	if p.Kind == part.Cover {
		s.Face, s.Datum, s.Sheets = "show face up", "the crosses of the cover's template", nil
		s.Caution = careSmall + " " + careDrill
		s.Do = []string{
			"Prick the crosses through the print of the template, laid edge on edge.",
			"Clamp the cover on scrap and drill through from the show face. Countersink for the heads, no deeper than half its thickness.",
		}
	} else {
		s.Do = b.boreDo(p)
	}
	s.Facts = b.boreFacts(p)
	if !b.bare {
		s.Tables = []render.Table{b.boreTable(p)}
	}
	return s
}

// boreDo is how the holes of a part are drilled, in the order of the hands.
func (b *builder) boreDo(p part.Part) []string {
	var do []string
	switch {
	case b.underCover(p):
		do = append(do, "Lay the cover in its rebate and prick its screws through its own holes; the table is there to compare.")
	case b.ofBridge(p):
		do = append(do, "Take the pricks made through the bridge; the table is there to compare, 0.3 mm.")
	default:
		do = append(do, "Lay rule and square to both datum lines, mark every place of the table, and prick it with an awl.",
			"Check two of them against the print of the drill map laid on both lines.")
	}
	through, stops, both := false, false, false
	for i, h := range p.Bores {
		if h.Through(b.j.Thickness) {
			through = true
		} else {
			stops = true
		}
		for _, g := range p.Bores[:i] {
			both = both || h.From.Flat() == g.From.Flat() && h.D != g.D && h.From.Z != g.From.Z
		}
	}
	if through && both {
		do = append(do,
			"Bore the holes half way from the front, square, in the press. Stand a pin of the drill's size in the press table under the spindle, set each half hole on it, back up, and bore to meet it.",
			"On the same pin bore the wide holes from the back, to the stop.")
		return append(do, "Blow the chips out and try the thing that goes in: it slides or is pressed in by hand.")
	}
	if through {
		do = append(do, "Clamp scrap under the holes and drill through, square, in the press.")
	}
	if stops {
		do = append(do, "Set the press's stop with the drill's full width at the depth of the table, below the face, and drill square.")
	}
	return append(do, "Blow the chips out and try the thing that goes in.")
}

// ofBridge reports whether the bridge itself pricks the holes of a part.
func (b *builder) ofBridge(p part.Part) bool {
	return p.Group == "bridge" || p.Kind == part.StringHole
}

// boreFacts say what a beginner asks of holes.
func (b *builder) boreFacts(p part.Part) []render.Field {
	var f []render.Field
	if p.Kind == part.Shaft {
		f = append(f, fact("Deeper", "by 1 mm where the cavity behind is not cut yet, so that it opens the hole; never from the cavity out, which tears the front"))
	}
	if p.Kind == part.Screw && p.Group == "neck" && b.j.Neck != nil && b.j.Neck.Bolts != nil {
		f = append(f, fact("Into", "the floor of the pocket, neck out: scrap pressed into the pocket keeps its floor from tearing"),
			fact("In the heel", "nothing yet: its pilot holes are pricked through these when the neck goes on"))
	}
	if z := p.Bores[0].From.Z; p.Kind != part.Cover && z > 0 && z < b.j.Thickness {
		deep := z
		if p.Face == part.Back {
			deep = b.j.Thickness - z
		}
		f = append(f, fact("Counted from", "the floor of the ledge or cavity there, %s mm below the %s", mm(deep), p.Face))
	}
	if p.Kind == part.Screw {
		f = append(f, fact("Source", "pilot holes: %s", wood.PilotSource))
	}
	return append(f, fact("No such drill", "see the list of drills for what could replace it; never a larger one for a screw"))
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

// drillDepths says how deep the holes of a part are, drill by drill.
func (b *builder) drillDepths(p part.Part) string {
	var ds []float64
	by := map[float64][]string{}
	for _, q := range p.Bores {
		d := mm(q.Length()) + " mm"
		if q.Through(b.j.Thickness) {
			d = "through"
		}
		if by[q.D] == nil {
			ds = append(ds, q.D)
		}
		if !slices.Contains(by[q.D], d) {
			by[q.D] = append(by[q.D], d)
		}
	}
	var w []string
	for _, d := range ds {
		words := strings.Join(by[d], " and ")
		if len(by[d]) > 2 {
			words = "as the table says"
		}
		if len(ds) > 1 {
			words = "drill " + mm(d) + ": " + words
		}
		w = append(w, words)
	}
	return strings.Join(w, "; ")
}

// boreTable lists the holes of a part.
func (b *builder) boreTable(p part.Part) render.Table {
	t := render.Table{Caption: "Holes: " + b.signs() + "; seen from the front", Tick: true, Head: []string{"hole", "drill, mm", "x", "y", "depth, mm"}, Number: []bool{false, true, true, true}}
	for i, q := range p.Bores {
		depth := mm(q.Length())
		if q.Through(b.j.Thickness) {
			depth = "through"
		} else if v := b.opens(p, q); v != "" {
			depth += ", into the " + v
		}
		if p.Face == part.Front && q.From.Z >= b.j.Thickness && !q.Through(b.j.Thickness) {
			depth += ", from the back"
		}
		words := q.Words
		if words == "" {
			words = fmt.Sprintf("%s %d", p.Name, i+1)
		}
		t.Rows = append(t.Rows, []string{words, mm(q.D), mm(q.From.X), mm(q.From.Y), depth})
	}
	return t
}

// opens names the void that a bore runs into; empty for a blind hole.
func (b *builder) opens(p part.Part, q part.Bore) string {
	for _, v := range b.j.Voids() {
		if v.ID == p.ID || v.Kind == part.Rebate {
			continue
		}
		for _, s := range v.Solids {
			end := q.To.Flat()
			if top, floor := s.Top.At(end), s.Floor.At(end); q.To.Z > top-voidNear && q.To.Z < floor+voidNear && s.Plan.Contains(end) {
				return string(v.Kind)
			}
		}
	}
	return ""
}

// voidNear is how near to a void a bore counts as opening it, mm.
const voidNear = 0.05

// channels are the long holes for wires.
func (b *builder) channels() {
	for _, c := range b.j.Channels {
		p, ok := b.j.PartByID(c.ID)
		if !ok || !c.Found {
			continue
		}
		w := b.j.ChannelWords(c)
		from := c.From()
		needs := []Thing{voids, waste}
		face := fmt.Sprintf("%s up; the drill comes from %s", from.Face, from.Name)
		if from.Side { // through the jack's bore, which waits for the edge
			needs, face = []Thing{voids, jackHole}, "edge"
		}
		if from.Open && b.has(part.Pocket) {
			needs = append(needs, fitted)
		}
		s := Step{
			ID: "drill-" + p.ID, Title: "Drill the wire channel " + p.Name, Stage: Drilling,
			Needs: needs, Makes: []Thing{channels}, Parts: []string{p.ID},
			Face: face, Datum: "the line of the drill on the face, and the entry point in the wall", Tool: "long " + b.drills(p),
			Depth:  mm(c.Path.Length()) + " mm of wood along the drill",
			Sheets: []string{c.ID, "guide-" + c.ID},
			Facts: []render.Field{
				{Name: "Drill", Value: w.Drill}, {Name: "Entry", Value: w.Entry}, {Name: "Angle", Value: w.Angle}, {Name: "Stop", Value: w.Stop}, {Name: "Stands", Value: w.Stands},
				fact("If it comes out", "of a face or a wall: stop, glue a dowel of the same wood in, let it dry, and drill from the other end"),
				fact("If it wanders", "the tip meets no cavity at the stop: look in from the other side with a lamp and a wire before you drill on"),
			},
			Do: []string{
				"Draw the line of the drill on the face from the sheet, past the rims of both cavities, and prick the entry point in the wall at its depth.",
				b.guideDo(c, w),
				"Tape the drill at the stop, measured from its tip.",
				"Start slowly until the tip holds in its mark. A second person watches that the drill stays over the line.",
				"Drill in runs of 10 mm, clear the chips after each, and stop when the tape is there.",
				"Push a wire through.",
			},
			Caution: careLong,
		}
		b.add(s)
	}
}

// guideDo is how the drill of a channel is led.
func (b *builder) guideDo(c job.Channel, w job.ChannelWords) string {
	if from := c.From(); from.Side || from.Open {
		return w.Lead
	}
	return "Make the guide of the guide's sheet. Stand it as said under Stands, its line on the line of the drill, and clamp it."
}
