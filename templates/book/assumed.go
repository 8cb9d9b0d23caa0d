package book

import (
	"fmt"

	"routwright/render"
	"routwright/templates/job"
)

// countWords says how much of the design was not given.
func (b *writer) countWords() string {
	n, fits := 0, 0
	for _, a := range b.j.Assumed {
		if a.How == "assumed" {
			n++
			if a.About() == job.AboutFits {
				fits++
			}
		}
	}
	if n == 0 {
		return "The design gives every value; nothing was assumed."
	}
	return fmt.Sprintf("The design leaves %d values open, for which the program took what is usual. The tables below list them, those that templates are cut to first: %d. What stands there under its key in the design file is no longer assumed.", n, fits)
}

// assumed lists what was not given: chapter by chapter, siblings in one row, then
// what a check was told to allow, and what was solved.
func (b *writer) assumed() []render.Section {
	var out []render.Section
	s := render.Section{ID: "assumed", Title: "Assumed: confirm or measure each"}
	for _, about := range job.Abouts {
		if t := b.assumptions("assumed", about); len(t.Rows) > 0 {
			t.Caption, t.Tick, t.Head = about.String(), true, []string{"key", "value", "why"}
			s.Blocks = append(s.Blocks, t)
		}
	}
	if len(s.Blocks) > 0 {
		out = append(out, s)
	}
	all := render.Table{Caption: "Limits that the design sets, with its reasons", Head: []string{"check", "limit", "reason"}}
	solved := render.Section{ID: "solved", Title: "What the program solved"}
	for _, about := range job.Abouts {
		all.Rows = append(all.Rows, b.assumptions("allowed", about).Rows...)
		if t := b.assumptions("solved", about); len(t.Rows) > 0 {
			t.Caption, t.Head = about.String(), []string{"what", "value", "how"}
			solved.Blocks = append(solved.Blocks, t)
		}
	}
	if len(all.Rows) > 0 {
		out = append(out, render.Section{ID: "allowed", Title: "What the design allows", Blocks: []render.Block{all}})
	}
	if len(solved.Blocks) > 0 {
		out = append(out, solved)
	}
	return out
}

// assumptions are the rows of one kind and one chapter.
func (b *writer) assumptions(how string, about job.About) render.Table {
	var as []job.Assumption
	for _, a := range b.j.Assumed {
		if a.How == how && a.About() == about {
			as = append(as, a)
		}
	}
	var t render.Table
	for _, a := range job.Gathered(as) {
		t.Rows = append(t.Rows, []string{a.Key, a.Value, a.Why})
	}
	return t
}
