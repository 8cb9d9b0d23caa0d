package steps

import (
	"fmt"

	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/key"
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
	s.Tool = t.Tool.String()
	if s.Depth == "" {
		s.Depth = fmt.Sprintf("%s mm from the %s as it lies", mm(r.Wanted), on(t.For.Face))
		if t.Male {
			s.Depth = fmt.Sprintf("through %s mm", mm(t.For.Depth(j.Thickness)))
		}
	}
	if s.Caution == "" {
		s.Caution = careRouter
	}
	s.Facts = append(s.Facts,
		render.Field{Name: "Template", Value: t.ID + ": " + t.Name},
		render.Field{Name: "Direction", Value: direction(t)},
		render.Field{Name: "Speed", Value: speed(t.Tool)},
		render.Field{Name: "Offset", Value: t.Tool.OffsetWords()})
	for _, f := range []render.Field{{Name: "Hold", Value: j.HoldWords(i)}, {Name: "Tipping", Value: j.TipWords(i)}, {Name: "Prop", Value: j.PropWords(i)}} {
		if f.Value != "" {
			s.Facts = append(s.Facts, f)
		}
	}
	if d := j.DrillOut(i); len(d.Holes) > 0 {
		s.Tables = append(s.Tables, b.drillTable(t, d))
		s.Facts = append(s.Facts, render.Field{Name: "Waste", Value: j.DrillWords(i)})
	}
	if !t.Male {
		if r.FirstBite > 0 {
			s.Facts = append(s.Facts, render.Field{Name: "First bite", Value: fmt.Sprintf("%s mm at the least: any less and the bearing is off the template", mm(r.FirstBite))})
		}
		if r.Problem != "" {
			s.Facts = append(s.Facts, render.Field{Name: "Stop", Value: r.Problem + ". " + r.Cure})
		} else {
			s.Tables = append(s.Tables, passTable(r))
		}
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
		if !t.Pinned() || p.Face != f || p.Kind == part.Pocket || p.Adds || t.ID == key.RecessID {
			continue
		}
		s := Step{
			ID: "rout-" + t.ID, Title: "Rout the " + t.Name, Stage: stage,
			Needs: []Thing{templates, pins, face, waste}, Makes: []Thing{voids, Thing("the " + t.Name)},
			Face: on(f), Datum: "the two pins",
			Do: []string{
				fmt.Sprintf("Lay the template on the pins, marked side up, on the %s; check that it lies flat and that the opening lies where the layout shows it.", f),
				"Hold it down as said under Hold, outside the sweep of the router's base; put a strip under it where Prop asks for one.",
				"Remove most of the wood with the drill where the plan says so; the drill's point reaches deeper than its rim.",
				"Rout in the passes below; keep the base flat on the template, the weight over the wood and not over the opening.",
				"Measure the depth before the template comes off.",
			},
		}
		switch p.Kind {
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
		s := b.cut(i, Step{
			ID: "cut-" + t.ID, Title: "Cut the " + t.Name, Stage: BackWork,
			Needs: []Thing{templates}, Makes: []Thing{Thing("the " + t.Name)},
			Face: "show face up", Datum: "the template, its grain arrow along the grain",
			Do: []string{
				"Take the offcut beside the cavity, so that the figure runs through, and plane it to the cover's thickness.",
				"Saw 1.5 mm outside the line, stick the template on, and trim it on the table.",
				"Try it in its rebate: the gap of the sheet all round, nothing forced. Then drill its screw holes through it.",
			},
		})
		s.Caution = careSmall + " " + careTable
		b.add(s)
	}
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
