package steps

import (
	"fmt"
	"math"
	"slices"

	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
)

// jigs adds the jigs of the job to the steps that make and use them.
func (b *builder) jigs() {
	j := b.j
	b.to(func(s *Step) bool { return s.ID == "templates" }, func(s *Step) {
		if t := b.jigTable(); len(t.Rows) > 0 {
			s.Do = append(s.Do, "Make the jigs of the second table, each to its own sheet, and try each in scrap as its sheet says.")
			if !b.bare {
				s.Tables = append(s.Tables, t)
			}
		}
	})
	for _, h := range j.Jigs.Handles {
		t := j.Templates[h.Template]
		id := jig.HandleID + t.ID
		b.to(uses(t.ID), func(s *Step) {
			s.Jigs = append(s.Jigs, id)
			s.Do = slices.Insert(s.Do, min(2, len(s.Do)), fmt.Sprintf("It is under 150 mm: hold it under its handle block (sheet %s), both hands on the knobs until the bit stands still.", id))
		})
	}
	if o := j.Jigs.Outrigger; o != nil {
		for _, e := range o.Over {
			b.to(uses(j.Templates[e.Template].ID), func(s *Step) {
				s.Jigs = append(s.Jigs, jig.OutriggerID)
				if !b.bare {
					s.Facts = append(s.Facts, render.Field{Name: "Base", Value: fmt.Sprintf("the plate of %s mm under the router: %.1f %% of it hangs over at the most, of its own base %.1f %%", mm(o.D), 100*e.With.Share, 100*e.Alone.Share)})
				}
				s.Do = slices.Insert(s.Do, min(1, len(s.Do)), "Put the wide plate under the router (sheet "+jig.OutriggerID+"), with the router unplugged, and set the depth again.")
			})
		}
	}
	if j.Neck != nil {
		b.to(uses(j.Neck.Pocket.ID), func(s *Step) { s.Jigs = append(s.Jigs, jig.RailsID) })
	}
	for _, c := range j.Channels {
		if c.Guided() {
			b.to(named("drill-"+c.ID), func(s *Step) { s.Jigs = append(s.Jigs, jig.GuideID+c.ID) })
		}
	}
	if k := j.Jack; k != nil && j.Jigs.Cradle != nil {
		b.to(named("drill-"+k.ID), func(s *Step) { s.Jigs = append(s.Jigs, jig.CradleID) })
	}
	if j.Jigs.Neck != nil {
		b.to(named("glue-neck"), func(s *Step) {
			s.Jigs = append(s.Jigs, jig.NeckCaulID)
			s.Do = slices.Insert(s.Do, min(1, len(s.Do)), "Lay the caul (sheet "+jig.NeckCaulID+") on the frets over the pocket, its end by the body's edge, and its pad on the back under it: two clamps on the centre line.")
		})
	}
	if j.Jigs.Cauls != nil {
		b.to(named("trim-outline"), func(s *Step) {
			s.Jigs = append(s.Jigs, jig.EdgeCaulID)
			s.Do = append(s.Do, "Look at the crack and at the glue lines of the keys on both faces: sawing frees tension. Where one has opened, run glue in again and hold it between the two edge cauls (sheet "+jig.EdgeCaulID+"), with light force, before the edge is rounded.")
		})
	}
}

// to changes every step that is meant.
func (b *builder) to(meant func(*Step) bool, change func(*Step)) {
	for i := range b.ss {
		if meant(&b.ss[i]) {
			change(&b.ss[i])
		}
	}
}

// uses means the step that a template is used in.
func uses(template string) func(*Step) bool {
	return func(s *Step) bool { return template != "" && s.Template == template }
}

func named(id string) func(*Step) bool { return func(s *Step) bool { return s.ID == id } }

// jigTable lists the jigs to make.
func (b *builder) jigTable() render.Table {
	j := b.j
	t := render.Table{Caption: "Jigs to make", Tick: true, Head: []string{"jig", "what for", "of", "sheet"}}
	add := func(what, use, of, id string) { t.Rows = append(t.Rows, []string{what, use, of, id}) }
	for _, h := range j.Jigs.Handles {
		q := j.Templates[h.Template]
		w := h.Block.Bounds()
		add("handle block", "trimming the "+q.Name+" on the router table", fmt.Sprintf("%s mm sheet, %s × %s; two knobs", mm(q.Sheet), mm(w.W()), mm(w.H())), jig.HandleID+q.ID)
	}
	if o := j.Jigs.Outrigger; o != nil {
		use := "no opening of this job; made for the router"
		for i, e := range o.Over {
			if i == 0 {
				use = "routing the "
			} else {
				use += ", the "
			}
			use += j.Templates[e.Template].Name
		}
		add("base outrigger", use, fmt.Sprintf("stiff sheet as thick as the router's base plate, %s mm across", mm(o.D)), jig.OutriggerID)
	}
	if !b.bare {
		if r, ok, err := j.Rails(); ok && err == nil {
			q := j.Templates[r.Tool]
			add("rails and stop", "the neck pocket, set by the heel itself", fmt.Sprintf("%s mm sheet", mm(q.Sheet)), jig.RailsID)
		}
	}
	for _, c := range j.Channels {
		if c.Guided() {
			g := j.Guide(c)
			add("drill guide", "drilling the channel "+c.Name, fmt.Sprintf("hardwood, %s × %s × %s mm", mm(jig.GuideLong), mm(g.Wide), mm(g.High)), jig.GuideID+c.ID)
		}
	}
	if e := j.Jigs.Cradle; e != nil {
		long, wide := e.Size()
		add("jack cradle", "boring the jack square to the edge", fmt.Sprintf("sheet glued to %s mm, %s × %s mm", mm(j.Thickness), mm(long), mm(wide)), jig.CradleID)
	}
	if c := j.Jigs.Neck; c != nil {
		add("neck caul", "gluing the neck", fmt.Sprintf("%d slices and a pad of %s mm sheet; cork of %s mm", len(c.Slices), mm(c.Sheet), mm(c.Cork)), jig.NeckCaulID)
	}
	if c := j.Jigs.Cauls; c != nil {
		add("two edge cauls", "holding the crack should it open again", fmt.Sprintf("%d pieces of sheet glued to %s mm each; cork of %s mm", 2*c.Count, mm(c.Tall), mm(job.Cork)), jig.EdgeCaulID)
	}
	if j.Index != nil {
		add("slotting strip", "leading the board past the saw", "thin stiff sheet", jig.IndexID)
	}
	if j.Board != nil && !math.IsInf(j.Board.RadiusAt(0), 1) {
		add("radius gauges and block", "the surface of the fretboard", "sheet, and a block", jig.RadiusID)
	}
	return t
}
