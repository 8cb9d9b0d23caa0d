package steps

import (
	"fmt"
	"math"
	"strings"

	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/key"
	"routwright/templates/limit"
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
			Sheets: []string{"layout"},
			Facts:  append(b.tipFact(), fact("Wait", "until the glue's data sheet says fully cured, three days at the least where it fills a gap; thick epoxy in several pours, each hard before the next")),
			Do: []string{
				"Never force a crack shut: the tension stays and opens it elsewhere. Fill it where it stands.",
				"Blow the dust out.",
				"Drill the stop hole at a true tip, 2.5 to 4 mm, only where no key will lie over it.",
				"Dam the back and the ends with tape.",
				"Let thin glue run in from above until it stands; prick bubbles, and pour again where it sinks.",
				"Level it with a scraper when it is cured, and look at the back: what ran out is cut off there.",
			},
			Caution: careGlue,
		})
	}
	if j.Keys == nil || len(j.Keys.Poses) == 0 {
		return
	}
	var needs []Thing
	if len(j.Cracks) > 0 {
		needs = append(needs, sound)
	}
	for _, i := range b.recessTemplates() {
		b.recessStep(i, needs)
	}
	cuts := 0
	for i, t := range j.Templates {
		if t.For.Kind == part.Key && j.Keys.Of(t.ID) != nil {
			b.keyStep(i)
			cuts++
		}
	}
	if cuts == 0 {
		b.inlaidKeys()
	}
	stock := j.KeyStock()
	glued := b.border()
	b.add(Step{
		ID: "glue-keys", Title: "Glue the keys in", Stage: Stabilise,
		Needs: []Thing{recesses, glued}, Makes: []Thing{gluedKeys},
		Face: b.keyFaces(), Datum: "the recess", Tool: "glue, mallet with a block, clamps", Depth: "down to the floor, 1 to 2 mm proud",
		Facts: b.glueFacts(),
		Do: []string{
			"Rehearse it dry, with clamps and bars. Lay everything where your hands find it.",
			"Spread the walls of the recess with a brush, then its floor, then the walls of the key.",
			fmt.Sprintf("Lay the key in by its marks, its grain across the slab's, and press it straight down with a block until it stands %s mm proud and glue shows all round.", mm(stock.Proud)),
			"Draw the clamp, wait five minutes, and draw it again. Wipe off what ran out.",
			"Do the next key; leave all alone for the time above.",
		},
		Caution: careGlue,
	})
}

// recessTemplates returns the templates that the recesses are cut with: the loose
// one of each size, or the paths on the pins where a machine cuts all of a face.
func (b *builder) recessTemplates() (loose []int) {
	var pinned []int
	for i, t := range b.j.Templates {
		switch {
		case t.For.Kind != part.Recess:
		case t.Pinned():
			pinned = append(pinned, i)
		case b.j.Keys.Of(t.ID) != nil:
			loose = append(loose, i)
		}
	}
	if len(pinned) > 0 {
		return pinned
	}
	return loose
}

// recessStep cuts the recesses of one template.
func (b *builder) recessStep(i int, needs []Thing) {
	j := b.j
	t := j.Templates[i]
	id := "rout-recesses" + strings.TrimPrefix(t.ID, key.RecessID)
	if t.Pinned() {
		id = "rout-" + t.ID
		needs = append(needs[:len(needs):len(needs)], pins)
	}
	s := Step{
		ID: id, Title: "Rout the " + t.Name, Stage: Stabilise,
		Needs: append([]Thing{templates, trueFront, roughLines}, needs...), Makes: []Thing{recesses},
		Face: b.keyFaces(), Datum: "waist line on the crack, long axis square to it, as drawn on the layout", Depth: b.recessDepths(),
		Sheets: []string{"layout"},
		Facts: []render.Field{
			fact("Too deep", "the key goes in deeper and must be as much thicker: cut it to the recess"),
			fact("Too wide", "cut that key to the recess as it is, by hand, or fill the wall with a strip of the slab's wood and rout it again"),
		},
	}
	if t.Pinned() {
		s.Datum = "the two pins"
		s.Do = b.routDo(i)
	} else {
		s.Facts = append([]render.Field{fact("Which way up", "either: the template is alike on both faces. Its long axis lies across the crack, a wide end on either side of it")}, s.Facts...)
		s.Do = b.recessDo(i)
	}
	for _, h := range t.Hand {
		s.Do = append(s.Do, "By hand: "+h.Words+". Knife the two walls on to the corner along a straightedge first; then pare straight down from the face, a little at a time, the flat of the chisel on the wall.")
		break
	}
	if !t.Pinned() {
		s.Do = append(s.Do, "Go on to the next key. The last one done, vacuum all and look for chips in the corners.")
	}
	s = b.cut(i, s)
	s.Tables = append(s.Tables, b.poseTable(t))
	b.add(s)
}

// recessDo is what is done with the loose template of the recesses.
func (b *builder) recessDo(i int) []string {
	t, r := b.j.Templates[i], b.j.Routing(i)
	do := []string{
		"Prick the middle of each waist and both ends of its axis from the table below. Draw the axis through the three, and the waist line square to it; both lines must show past the edges of the template.",
		"Look: each waist lies on the crack within 1 mm, each axis crosses it squarely. Where not, measure the crack again before anything is cut.",
	}
	do = append(do, b.wasteDo(i, "on its two axes")...)
	if !t.Free() {
		do = append(do,
			"Draw the template's own two axes across its upper face and down its edges. Lay them on the lines of the first key.",
			"Hold it as said under Hold, then push at it with both thumbs: nothing moves.")
	}
	do = append(do, zeroDo(t, r)...)
	if b.unlikeFaces() {
		f := part.Front
		if b.j.RecessDepth(part.Back) < b.j.RecessDepth(f) {
			f = part.Back
		}
		do = append(do, fmt.Sprintf("On the %s the last pass stops short: setting %s mm.", f, mm(r.Setting(b.j.RecessDepth(f)))))
	}
	return append(do,
		fmt.Sprintf("Let the bit down in the middle of the opening and rout pass by pass, %s, the follower never off the edge.", t.Sense()),
		measureDo(r))
}

// keyStep cuts the keys of one size round their male template.
func (b *builder) keyStep(i int) {
	j := b.j
	t, stock := j.Templates[i], j.KeyStock()
	s := Step{
		ID: "cut-keys" + strings.TrimPrefix(t.ID, key.KeyID), Title: "Cut the " + t.Name, Stage: Stabilise,
		Needs: []Thing{templates}, Makes: []Thing{looseKeys},
		Face: "bench, either face up", Datum: "the template; grain along the key",
		Facts: []render.Field{
			fact("Blank", "%s", blankWords(stock)),
			fact("Fit", "%s of air a side", j.Keys.Of(t.ID).Gap.Words()),
			fact("Too tight", "never drive it: that splits the slab. Rub chalk on the walls of the recess, try the key, and scrape it where it took chalk"),
			fact("Too loose", "over %s mm a side the glue no longer fills: make another key. One layer of tape round the edge of its template makes it larger by the tape's thickness a side", mm(limit.GapMost)),
		},
		Do: []string{
			"Plane the blank square, and mark the grain and the end that is the top.",
			b.under(i, "Stick the template under the blank, its long axis along the grain, with double-sided tape over its whole face, and draw round it.",
				"Stick the template on the blank, its long axis along the grain, with double-sided tape over its whole face, draw round it, and hold the blank in a vice or on a board more than 150 mm long."),
			"Saw 1.5 to 2 mm outside the line, all the height; the waists first.",
			fmt.Sprintf("Trim the lowest key against the bearing, pass by pass, from the starting pin, %s mm tall and the kerf more; at the waist ease the feed, where the grain turns.", mm(stock.Thick)),
			fmt.Sprintf("Saw the key off %s mm thick: the recess and %s mm that stand proud. Stick the template under what is left, edge on edge, and trim the next.", mm(stock.Thick), mm(stock.Proud)),
		},
	}
	if t.Free() {
		s.Do = append(s.Do[:1], fmt.Sprintf("Hold a board of %s mm down all over with tape, run the path, and free each key with the saw.", mm(stock.Thick)))
	}
	for _, h := range t.Hand {
		s.Do = append(s.Do, "By hand: "+h.Words+".")
		break
	}
	if c := j.Keys.LeadIn; c > 0 {
		s.Do = append(s.Do, fmt.Sprintf("Chamfer the lower edge by %s mm: it leads the key in and leaves room for glue.", mm(c)))
	}
	s.Do = append(s.Do, "Try each in its recess, dry: it goes in by hand pressure. Number key and recess, and mark the end that lies nearer the treble side.")
	s = b.cut(i, s)
	s.Caution = strings.TrimSpace(careSmall + " " + s.Caution)
	b.add(s)
}

// blankWords are the measures of the blank of the keys.
func blankWords(k job.KeyStock) string {
	w := fmt.Sprintf("%s × %s mm, grain along it, %s mm tall: %d keys of %s mm and the saw's kerfs", mm(k.Long), mm(k.Wide), mm(k.Tall), k.Count, mm(k.Thick))
	if k.Waste > 0 {
		w += fmt.Sprintf(", and %s mm of waste on top that the handle block is screwed to", mm(k.Waste))
	}
	return w
}

// inlaidKeys cuts the keys inside the opening of the recesses' template, without the
// collar of its bush.
func (b *builder) inlaidKeys() {
	i := b.template(key.RecessID)
	if i < 0 || b.j.Keys.Fit.Inlay == nil {
		return
	}
	in, stock := b.j.Keys.Fit.Inlay, b.j.KeyStock()
	t := b.j.Templates[i]
	r := cut.Plan(t.Tool, stock.Thick, t.Sheet)
	s := Step{
		ID: "cut-keys", Title: "Cut the keys with the template of the recesses", Stage: Stabilise,
		Needs: []Thing{templates}, Makes: []Thing{looseKeys},
		Face: "bench", Datum: "the template; grain along the key", Depth: fmt.Sprintf("%s mm into a board that is thicker", mm(stock.Thick)),
		Facts: []render.Field{
			fact("Board", "thicker than %s mm, grain along the keys, room for %d of %s × %s mm", mm(stock.Thick), stock.Count, mm(stock.Long), mm(stock.Wide)),
			fact("Fit", "%s of air a side", b.j.Keys.Gap.Words()),
			fact("Too tight", "never drive it: that splits the slab. Rub chalk on the walls of the recess, try the key, and scrape it where it took chalk"),
			fact("Too loose", "over %s mm a side the glue no longer fills: make another key", mm(limit.GapMost)),
		},
		Do: []string{
			fmt.Sprintf("Take the collar of %s mm off: the bush of %s mm alone leaves the key.", mm(in.Collar), mm(in.Bush)),
			"Hold the board down all over with tape, and the template on it, its long axis along the grain.",
			fmt.Sprintf("Rout a groove round the inside of the opening, the bush always against its edge, down to %s mm.", mm(stock.Thick)),
			"Resaw the board at that depth: the keys come free. Never lift one with the bit running.",
			"Try each in its recess, dry: it goes in by hand pressure. Number key and recess, and mark the end that lies nearer the treble side.",
		},
		Template: t.ID, Tool: t.Tool.String() + ", without the collar", Caution: careSmall + " " + careRouter,
		Tables: []render.Table{passTable(r)},
	}
	s.Facts = append(s.Facts, fact("Setting", "%s mm from the template's upper face to the tip of the bit: %s of template and %s of wood", mm(r.Setting(stock.Thick)), mm(t.Sheet), mm(stock.Thick)), fact("Feed", "%s", t.Feed(b.j.ByHand)))
	b.add(s)
}

// glueFacts say how much glue the keys take, how they are pressed and how long.
func (b *builder) glueFacts() []render.Field {
	j := b.j
	var f []render.Field
	for _, g := range j.GlueJoints() {
		if strings.HasPrefix(g.Name, "key") {
			f = append(f, fact("Glue", "%s a key to spread, %s for %d, in a film of %s mm: %s", cm2(g.Area), ml(g.Ml), g.Count, mm(job.GlueFilm), g.Name))
		}
	}
	glue := "white or yellow wood glue for a gap up to 0.1 mm a side"
	if j.Keys.Gap.Max > 0.1 {
		glue = "epoxy: a gap of more than 0.1 mm a side is too wide for white glue"
	}
	f = append(f, fact("Which glue", "%s", glue))
	far := 0.0
	if !j.Blank.Empty() {
		box := j.Blank.Bounds()
		for _, p := range j.Keys.Poses {
			far = math.Max(far, math.Min(math.Min(p.At.X-box.Min.X, box.Max.X-p.At.X), math.Min(p.At.Y-box.Min.Y, box.Max.Y-p.At.Y)))
		}
	}
	bar := "a block over each key, on it a stiff bar across the slab, a clamp at each end of the bar"
	if far > 0 {
		bar += fmt.Sprintf(": the keys lie up to %s mm from the nearest edge, further than most clamps reach", mm(math.Ceil(far)))
	}
	return append(f, fact("Clamps", "%s", bar),
		fact("Wait", "a day in clamps, or what the data sheet says, and a day more before planing: the glue line swells the wood and sinks as it dries"),
		fact("If it sticks", "half way, draw it out by the waste at once, scrape the key where it shines, and begin again: glue swells wood within minutes"))
}

// recessDepths says how deep the recesses are as the faces lie, face by face.
func (b *builder) recessDepths() string {
	var w []string
	for _, f := range b.j.Keys.Faces() {
		w = append(w, fmt.Sprintf("%s mm from the %s as it lies: %s finished, %s still to come off", mm(b.j.RecessDepth(f)), f, mm(b.j.Keys.Depth), mm(b.j.PlaneOff[f])))
	}
	return strings.Join(w, "; ")
}

// unlikeFaces reports whether the recesses of the two faces are cut to unlike depths.
func (b *builder) unlikeFaces() bool {
	fs := b.j.Keys.Faces()
	return len(fs) == 2 && b.j.RecessDepth(fs[0]) != b.j.RecessDepth(fs[1])
}

// tipFact says where the true tips of the cracks are.
func (b *builder) tipFact() []render.Field {
	var w []string
	for i, c := range b.j.Design.Slab.Crack {
		if i >= len(b.j.Cracks) {
			break
		}
		p := b.j.Cracks[i].Front
		if len(p) == 0 {
			continue
		}
		for _, t := range c.Tips.V {
			at := p[0].A
			if t == "last" {
				at = p[len(p)-1].B
			}
			w = append(w, b.place(at))
		}
	}
	if len(w) == 0 {
		return []render.Field{fact("Tips", "none of the crack's ends is a true tip by the design: no stop hole")}
	}
	return []render.Field{fact("Tips", "on the front, %s", strings.Join(w, "; "))}
}

func (b *builder) keyFaces() string {
	fs := b.j.Keys.Faces()
	if len(fs) == 2 {
		return "front and back"
	}
	return on(fs[0])
}

// axisPast is how far the marks of a key's axis lie past the edge of its template, mm.
const axisPast = 10

// poseTable says where each key lies: the middle of its waist, and two places on its
// axis past the edges of the template.
func (b *builder) poseTable(t cut.Template) render.Table {
	half := t.Blank.Bounds().W()/2 + axisPast
	if t.Free() {
		half = t.For.Plan().Bounds().W()/2 + axisPast
	}
	q := render.Table{Caption: "Where the keys lie, as seen from the front: " + b.signs() + ". The angle is that of the axis from straight across, + anticlockwise", Tick: true,
		Head: []string{"key", "face", "middle of the waist x, y", "axis to the left x, y", "axis to the right x, y", "angle, degrees"}, Number: []bool{false, false, true, true, true, true}}
	for _, p := range b.j.Keys.Poses {
		u := p.Turn.Unit().Mul(half)
		q.Rows = append(q.Rows, []string{p.Name, on(p.Face), xy(p.At), xy(p.At.Add(u.Neg())), xy(p.At.Add(u)), mm(p.Turn.Degrees())})
	}
	return q
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
	flats := [2]Thing{part.Front: flatFront, part.Back: flatBack}
	var makes []Thing
	off, to := j.PlaneOff, j.Thickness
	for f, flat := range flats {
		plate := j.PlateOn(part.Face(f))
		if plate > 0 { // the plate makes the face flat
			flat = seat(part.Face(f))
		}
		makes = append(makes, flat)
		off[f], to = off[f]+plate, to-plate
	}
	for _, r := range j.OfKind(part.Rebate) {
		makes = append(makes, inside(r.Group))
	}
	b.add(Step{
		ID: "thickness", Title: "Plane the slab to its finished thickness", Stage: Stabilise,
		Needs: needs, Makes: makes, Removes: []Thing{roughStock, roughLines},
		Face: "both", Datum: "the true front", Tool: "planer, drum sander or router sled",
		Depth: fmt.Sprintf("%s mm off the front, %s mm off the back, to %s mm", mm(off[part.Front]), mm(off[part.Back]), mm(to)),
		Do: []string{
			"Pull the dowels.",
			"Bring proud keys level by hand before a machine touches the slab: a block plane set fine, from the ends of the key to its middle.",
			fmt.Sprintf("Take %s mm off the front. %s", mm(off[part.Front]), b.countedFrom()),
			fmt.Sprintf("Turn the slab over and take %s mm off the back.", mm(off[part.Back])),
			fmt.Sprintf("Measure at four corners and in the middle: %s mm, ±0.3. Off by more, write what it is into the design file and make the set again: depths from the back change with it.", mm(to)),
		},
		Caution: careDust + " Keys and their glue lines stand across the slab's grain: take light cuts, and mind that a planer can lift them. Follow the machine's manual.",
	})
	b.add(Step{
		ID: "lines-again", Title: "Draw the lines again on the finished faces", Stage: Stabilise,
		Needs: []Thing{flatFront, flatBack, squareEdges}, Makes: []Thing{lines},
		Face: "both", Datum: "the pins and the square edges", Tool: "knife, square, fine pencil", Depth: "nothing is cut",
		Sheets: []string{"layout"}, Facts: b.edgesFact(),
		Do: []string{
			b.knife("Knife the centre line again", "from the long edge on the bass side, on both faces", true),
			b.knife("Knife the bridge line again", "from the tail end, on both faces", false),
			"Lay a template on the pins: its centre line lies on the knifed one within 0.2 mm. Where they differ, the pins are right: draw the lines again by the template.",
			"Chalk FRONT and BACK on the faces.",
		},
		Caution: careBench,
	})
	for f, flat := range flats {
		if plate := j.PlateOn(part.Face(f)); plate > 0 {
			b.plate(part.Face(f), plate, flat)
		}
	}
}
