package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/part"
)

// countedFrom says from which face depths are counted.
func (b *builder) countedFrom() string {
	if b.j.PlateOn(part.Front) > 0 {
		return "Depths of this book are counted from the front of the plate that comes on it, but for the chambers, which are routed before."
	}
	return "Every depth of this book is counted from this face."
}

// plate glues the plate over the chambers of a face, which makes the face flat.
func (b *builder) plate(f part.Face, thick float64, flat Thing) {
	needs := []Thing{seat(f)}
	for _, t := range b.j.Templates {
		if t.For.Face == f && b.j.Plate(t.For) > 0 {
			needs = append(needs, Thing("the "+t.Name))
		}
	}
	if len(b.j.Pins) > 0 {
		needs = append(needs, pins)
	}
	b.add(Step{
		ID: "glue-plate-" + f.String(), Title: fmt.Sprintf("Glue the plate on the %s", f), Stage: stageOf(f),
		Needs: needs, Makes: []Thing{flat}, Removes: []Thing{seat(f)},
		Face: f.String() + " up", Datum: "the edges of the slab and the pins", Tool: "glue, spreader, flat boards, clamps",
		Depth: fmt.Sprintf("the plate is %s mm thick when it is level; the body with it %s mm", mm(thick), mm(b.j.Thickness)),
		Facts: []render.Field{
			fact("Plate", "as long and as wide as the slab, its grain along the slab's; planed to %s mm, or 1 mm more to be planed off afterwards", mm(thick)),
			fact("Wait", "what the glue's data sheet says, a day at the least"),
			fact("Clamps", "round the edge one every 75 mm, and over each chamber's edge a board under two"),
		},
		Do: []string{
			"Blow the chambers out, and run whatever wire has to lie in them.",
			"Lay the plate on dry and press by hand: it lies flat on all of the wood.",
			"Spread glue on the slab, up to 3 mm from the edge of each chamber, none inside.",
			"Lay the plate on, slide nothing, and clamp from the middle outwards.",
			"When the glue is hard, turn the slab over and bore the pin holes on through the plate, square, the holes of the slab as guides.",
			fmt.Sprintf("Plane the %s level: the body measures %s mm at four corners.", f, mm(b.j.Thickness)),
		},
		Caution: careGlue,
	})
}

// stageOf is the chapter of the cuts from a face.
func stageOf(f part.Face) Stage {
	if f == part.Back {
		return BackWork
	}
	return FrontWork
}
