package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/key"
	"routwright/templates/part"
)

// stabilise is the crack and its keys.
func (b *builder) stabilise() {
	j := b.j
	if len(j.Cracks) > 0 {
		b.add(Step{
			ID: "crack", Title: "Stabilise the crack", Stage: Stabilise,
			Needs: []Thing{roughLines, trueFront}, Makes: []Thing{sound},
			Face: "both", Datum: "the crack itself", Tool: "thin glue or epoxy, tape, syringe; a small drill for the tip", Depth: "through, as far as the glue runs",
			Do: []string{
				"Blow the dust out. Dam the back and the ends with tape.",
				"Never force a crack shut: the tension stays and opens it elsewhere. Fill it where it stands.",
				"Drill a stop hole of 2.5 to 4 mm only at a true tip, where no key will lie.",
				"Let thin glue run in from above until it stands; leave it for days, not hours; level it.",
			},
			Caution: careGlue,
		})
	}
	if j.Keys == nil || len(j.Keys.Poses) == 0 {
		return
	}
	if i := b.template(key.RecessID); i >= 0 {
		t := j.Templates[i]
		needs := []Thing{templates, trueFront, roughLines}
		if len(j.Cracks) > 0 {
			needs = append(needs, sound)
		}
		s := b.cut(i, Step{
			ID: "rout-recesses", Title: "Rout the recesses of the keys", Stage: Stabilise,
			Needs: needs, Makes: []Thing{recesses},
			Face: b.keyFaces(), Datum: "waist line on the crack, long axis square to it, as drawn on the layout",
			Do: []string{
				fmt.Sprintf("Mark the waist and the axis of each of the %d keys from the layout sheet.", len(j.Keys.Poses)),
				"Lay the template on the marks and hold it with clamps or screws outside the router's sweep. A template that slips costs the slab: screw it into waste, or use fresh double-sided tape as well.",
				"Drill the waste out first where the plan says so, then rout in the passes below, the follower never off the edge.",
				"Lift the template only when the depth is right: measure it at three places.",
			},
		})
		s.Tables = append(s.Tables, b.poseTable())
		for _, h := range t.Hand {
			s.Do = append(s.Do, "By hand: "+h.Words+".")
			break
		}
		b.add(s)
	}
	if i := b.template(key.KeyID); i >= 0 {
		s := b.cut(i, Step{
			ID: "cut-keys", Title: "Cut the keys", Stage: Stabilise,
			Needs: []Thing{templates}, Makes: []Thing{looseKeys},
			Face: "bench", Datum: "the template; grain along the key",
			Do: []string{
				"Take one blank, grain along the key, long enough for all of them with a kerf between; never a short piece by hand.",
				"Band-saw 1.5 to 2 mm outside the line, stick the template on, trim with the bearing bit against a fence or on a handle block.",
				fmt.Sprintf("Saw them off %s mm thick: the recess and 1 to 2 mm proud.", mm(j.KeyHeight())),
				fmt.Sprintf("Try each in its recess, dry: it goes in by hand pressure with %s to %s mm of air a side.", mm(j.Keys.Gap.Min), mm(j.Keys.Gap.Max)),
			},
		})
		s.Caution = careSmall + " " + careTable
		b.add(s)
	}
	b.add(Step{
		ID: "glue-keys", Title: "Glue the keys in", Stage: Stabilise,
		Needs: []Thing{recesses, looseKeys}, Makes: []Thing{gluedKeys},
		Face: b.keyFaces(), Datum: "the recess", Tool: "glue, mallet with a block, clamps", Depth: "down to the floor, 1 to 2 mm proud",
		Do: []string{
			fmt.Sprintf("Glue walls and floor: about %s mm² of wall a key on each side of the crack, %s ml of glue a key in a film of 0.15 mm.", mm(j.Keys.Wood.GlueArea), mm(b.glueVolume())),
			"Press each key straight down with a block and a clamp; squeeze-out all round says that it is full.",
			"Leave it a day. Do not plane while the glue line is still wet: it sinks afterwards.",
		},
		Caution: careGlue,
	})
}

// film is the thickness in mm of the glue that is spread before clamping.
// Common practice: 150 to 200 g/m² of white glue, about 0.15 mm.
const film = 0.15

// glueVolume returns the glue for one key in ml: walls on both sides and floor.
func (b *builder) glueVolume() float64 {
	k := b.j.Keys
	return (2*k.Wood.GlueArea + k.Fit.Recess.Area()) * film / 1000
}

func (b *builder) keyFaces() string {
	fs := b.j.Keys.Faces()
	if len(fs) == 2 {
		return "front and back"
	}
	return on(fs[0])
}

// poseTable says where each key lies.
func (b *builder) poseTable() render.Table {
	t := render.Table{Caption: "Where the keys lie, seen from the front", Tick: true, Head: []string{"key", "face", "middle of the waist", "axis, degrees"}, Number: []bool{false, false, false, true}}
	for _, p := range b.j.Keys.Poses {
		t.Rows = append(t.Rows, []string{p.Name, on(p.Face), b.place(p.At), mm(p.Turn.Degrees())})
	}
	return t
}

// thickness brings the slab to its finished thickness.
func (b *builder) thickness() {
	j := b.j
	needs := []Thing{trueFront, squareEdges}
	if len(j.Pins) > 0 {
		needs = append(needs, pins)
	}
	if j.Keys != nil && len(j.Keys.Poses) > 0 {
		needs = append(needs, gluedKeys)
	}
	makes := []Thing{flatFront, flatBack}
	for _, r := range j.OfKind(part.Rebate) {
		makes = append(makes, inside(r.Group))
	}
	b.add(Step{
		ID: "thickness", Title: "Plane the slab to its finished thickness", Stage: Stabilise,
		Needs: needs, Makes: makes, Removes: []Thing{roughStock, roughLines},
		Face: "both", Datum: "the true front", Tool: "planer, drum sander or router sled",
		Depth: fmt.Sprintf("%s mm off the front, %s mm off the back, to %s mm", mm(j.PlaneOff[part.Front]), mm(j.PlaneOff[part.Back]), mm(j.Thickness)),
		Do: []string{
			"Bring proud keys level by hand before a machine touches the slab.",
			fmt.Sprintf("Take %s mm off the front and %s mm off the back: every depth of this book is counted from these faces.", mm(j.PlaneOff[part.Front]), mm(j.PlaneOff[part.Back])),
			fmt.Sprintf("Measure at four corners and in the middle: %s mm, ±0.3.", mm(j.Thickness)),
			"The pencil lines are gone with the shavings: the pins have kept their place.",
		},
		Caution: careDust + " Keys and their glue lines stand across the slab's grain: take light cuts, and mind that a planer can lift them. Follow the machine's manual.",
	})
	b.add(Step{
		ID: "lines-again", Title: "Draw the lines again on the finished faces", Stage: Stabilise,
		Needs: []Thing{flatFront, flatBack, squareEdges}, Makes: []Thing{lines},
		Face: "both", Datum: "the pins and the square edges", Tool: "knife, square, fine pencil", Depth: "nothing is cut",
		Do:      []string{"Knife the centre line and the bridge line again from the datum edges; check them with a template on the pins.", "Chalk FRONT and BACK on both faces."},
		Caution: careBench,
	})
}
