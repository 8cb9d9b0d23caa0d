package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/part"
)

// cut fills in what every step with a template says: tool, depth, passes,
// direction, speed, caution.
func (b *builder) cut(i int, s Step) Step {
	j := b.j
	t := j.Templates[i]
	s.Template = t.ID
	s.Parts = append(s.Parts, t.For.ID)
	if b.bare {
		return s
	}
	r := j.Routing(i)
	if t.Male {
		r = j.Trim(i)
	}
	s.Tool = t.Tool.String()
	if s.Depth == "" {
		s.Depth = fmt.Sprintf("%s mm from the %s as it lies", mm(r.Wanted), on(t.For.Face))
		if t.Male {
			s.Depth = fmt.Sprintf("through the %s mm of the piece", mm(j.TrimThick(t)))
		}
	}
	if s.Caution == "" {
		s.Caution = careRouter
		if t.Male && !j.ByHand {
			s.Caution = careTable + " " + careRouter
		}
	}
	s.Facts = append([]render.Field{{Name: "Setting", Value: j.SettingWords(i)}}, s.Facts...)
	s.Facts = append(s.Facts,
		render.Field{Name: "Feed", Value: t.Feed(j.ByHand)},
		render.Field{Name: "Speed", Value: speed(t.Tool)})
	if t.Tool.Offset() != 0 {
		s.Facts = append(s.Facts, render.Field{Name: "Offset", Value: t.Tool.OffsetWords()})
	}
	for _, f := range []render.Field{{Name: "Hold", Value: j.HoldWords(i)}, {Name: "Tipping", Value: j.TipWords(i)}, {Name: "Prop", Value: j.PropWords(i)}} {
		if f.Value != "" {
			s.Facts = append(s.Facts, f)
		}
	}
	if d := j.DrillOut(i); len(d.Holes) > 0 {
		s.Tables = append(s.Tables, b.drillTable(t, d))
		s.Facts = append(s.Facts, render.Field{Name: "Waste", Value: j.DrillWords(i)})
	}
	if r.FirstBite > 0 && !t.Male {
		s.Facts = append(s.Facts, render.Field{Name: "First bite", Value: fmt.Sprintf("%s mm at the least: any less and the bearing is off the template", mm(r.FirstBite))})
	}
	if n := r.TemplateOff(); n > 0 && !t.Male {
		s.Facts = append(s.Facts, fact("Too short", "a bit that does not reach %s mm below the base: after pass %d the bearing runs on the wall, so the template may come off and the setting is the depth alone", mm(r.Setting(r.Wanted)), n))
	}
	if !t.Male {
		s.Facts = append(s.Facts, slips(t))
	}
	if r.Problem != "" {
		s.Facts = append(s.Facts, render.Field{Name: "Stop", Value: r.Problem + ". " + r.Cure})
	} else {
		s.Tables = append(s.Tables, passTable(r))
	}
	return s
}

// rout is the cuts on pins from one face.
func (b *builder) rout(stage Stage, f part.Face) {
	face := flatFront
	if f == part.Back {
		face = flatBack
	}
	for i, t := range b.j.Templates {
		p := t.For
		if !t.Pinned() || p.Face != f || p.Kind == part.Pocket || p.Kind == part.Recess || p.Adds {
			continue
		}
		s := Step{
			ID: "rout-" + t.ID, Title: "Rout the " + t.Name, Stage: stage,
			Needs: []Thing{templates, pins, face, waste}, Makes: []Thing{voids, Thing("the " + t.Name)},
			Face: on(f) + ", this face up", Datum: "the two pins", Sheets: []string{"layout"},
			Do: b.routDo(i),
		}
		switch p.Kind {
		case part.Chamber:
			if b.j.Plate(p) > 0 {
				s.Needs[2] = seat(f)
			}
		case part.Pickup, part.Cavity, part.Pocket:
			s.Makes = append(s.Makes, plugSeat)
			for _, e := range b.j.Templates[:i] { // the legs of a pickup are cut in its cavity
				if p.Kind == part.Pickup && e.For.Kind == p.Kind && e.For.Group == p.Group {
					s.Needs = append(s.Needs, Thing("the "+e.Name))
				}
			}
		case part.Rebate:
			s.Needs = append(s.Needs, inside(p.Group))
		}
		if p.Kind == part.Cavity {
			for _, r := range b.j.OfKind(part.Rebate) {
				if r.Group == p.Group {
					s.Removes = append(s.Removes, inside(p.Group))
				}
			}
		}
		b.add(b.cut(i, s))
	}
}

// covers are cut from sheet or from an offcut, each to its own template.
func (b *builder) covers() {
	for i, t := range b.j.Templates {
		if t.For.Kind != part.Cover {
			continue
		}
		gap := b.j.CoverGap(t.For.Group)
		s := b.cut(i, Step{
			ID: "cut-" + t.ID, Title: "Cut the " + t.Name, Stage: BackWork,
			Needs: append([]Thing{templates}, b.rebateOf(t.For.Group)...), Makes: []Thing{Thing("the " + t.Name)},
			Face: "show face up", Datum: "the template, its grain arrow along the grain",
			Facts: []render.Field{
				fact("Wood", "an offcut of the slab from where it was squared, with the figure that suits the back; without one, cut the cover after the outline is sawn"),
				fact("Fit", "%s mm of air a side in its rebate", mm(gap)),
				fact("Too tight", "rub the edge on a sheet of fine paper laid flat, one side after the other"),
				fact("Too loose", "cut another: a cover is soon made"),
			},
			Do: []string{
				fmt.Sprintf("Plane the offcut to %s mm thick, more than 150 mm long while you hold it.", mm(b.j.TrimThick(t))),
				b.under(i, "Stick the template under it with double-sided tape, show face up, the arrow along the grain, and draw round it.",
					"Stick it with double-sided tape on a flat board more than 150 mm long, show face up, and the template on it, the arrow along the grain."),
				"Saw 1.5 to 2 mm outside the template.",
				b.under(i, "Trim it round the template.", "Trim it round the template; the board keeps your hands away from the bit."),
				"Lift it off with a thin blade and try it in its rebate: it drops in by its own weight.",
			},
		})
		s.Caution = careSmall + " " + s.Caution
		b.add(s)
	}
}

// under returns the first words for a part that is trimmed under a handle block, the
// others for one that is not.
func (b *builder) under(i int, with, without string) string {
	for _, h := range b.j.Jigs.Handles {
		if h.Template == i {
			return with
		}
	}
	return without
}

// rebateOf is the rebate that a cover is tried in; nothing where it lies on the face.
func (b *builder) rebateOf(group string) []Thing {
	for _, t := range b.j.Templates {
		if t.For.Kind == part.Rebate && t.For.Group == group && t.Pinned() {
			return []Thing{Thing("the " + t.Name)}
		}
	}
	return nil
}

// routDo is what is done with a template on the pins, in the order of the hands.
func (b *builder) routDo(i int) []string {
	t := b.j.Templates[i]
	r := b.j.Routing(i)
	var do []string
	if !t.Free() {
		do = append(do, "Set the two dowels into the slab.")
	}
	do = append(do, b.wasteDo(i, "on the pins")...)
	if t.Free() {
		do = append(do, "Clamp the slab, set the machine's zero on the marks of the sheet, and run the path in the air once.")
	} else {
		do = append(do,
			fmt.Sprintf("Drop the template on the dowels, marked side up, on the %s. It lies flat, and its opening lies where the layout shows it.", t.For.Face),
			"Hold it as said under Hold, with a strip under it where Prop asks for one, then pull at it: nothing moves.")
	}
	do = append(do, zeroDo(t, r)...)
	if t.For.Kind == part.Rebate {
		do = append(do, "Start in the middle of the ledge. Rout a band two bits wide round the edge; the wood in the middle stays: it carries the base, and the cavity takes it away.")
	}
	return append(do,
		fmt.Sprintf("Rout pass by pass, %s; keep the base flat, your weight over the template and not over the opening.", t.Sense()),
		measureDo(r))
}

// drillTable lists the holes that take the waste out before the router, in the order
// in which to bore them.
func (b *builder) drillTable(t cut.Template, d cut.DrillOut) render.Table {
	from := []string{"from the centre line, mm", "from the bridge line, mm"}
	if !t.Pinned() {
		from = []string{"from the waist, mm", "from the long axis, mm"}
	}
	out := render.Table{Caption: fmt.Sprintf("Drill the waste out first, in this order: %.0f %% of its area, never nearer than %s mm to the line", 100*d.Share, mm(d.Margin)), Tick: true,
		Head: []string{"hole", "drill, mm", from[0], from[1], "stop, mm deep"}, Number: []bool{false, true, true, true, true}}
	for i, h := range d.Holes {
		x := b.j.CentreWords(h.At)
		if !t.Pinned() {
			x = mm(h.At.X + 0)
		}
		out.Rows = append(out.Rows, []string{fmt.Sprintf("W%d", i+1), mm(h.Drill.D), x, mm(h.At.Y + 0), mm(h.Stop)})
	}
	return out
}
