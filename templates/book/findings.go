package book

import (
	"fmt"

	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/sheet"
)

// mostPictures is how many findings are drawn: a design with more has other worries
// than the size of its book. Each finding is listed; check -o draws them all.
const mostPictures = 12

// findingHigh is the height of the picture of a finding, mm.
const findingHigh = 125.0

// findings says what the checks say: stops and warnings one by one, each with its
// picture, then the notes.
func (b *writer) findings() render.Section {
	s := render.Section{ID: "findings", Title: "What the checks say", NewPage: true}
	fs := b.in.Findings
	if len(fs) == 0 {
		s.Blocks = append(s.Blocks, render.Para("Every check passes, and none has anything to add."))
		return s
	}
	notes := render.Table{Caption: "Notes", Head: []string{"check", "what", "what to do"}}
	drawn := 0
	for i, f := range fs {
		if f.Level < check.Warn {
			notes.Rows = append(notes.Rows, []string{f.Check, f.Message, f.Cure})
			continue
		}
		q := render.Section{ID: fmt.Sprintf("finding-%d", i+1), Title: fmt.Sprintf("%d. %s: %s", i+1, levelWords[f.Level], f.Check)}
		q.Blocks = append(q.Blocks, render.Caution{Word: levelWords[f.Level], Text: f.Message + "."}, render.Facts{{Name: "Cure", Value: f.Cure}})
		if len(f.Places) > 0 && drawn < mostPictures {
			drawn++
			q.Blocks = append(q.Blocks, b.findingPicture(i, f)...)
		}
		s.Sections = append(s.Sections, q)
	}
	if len(s.Sections) == 0 {
		s.Blocks = append(s.Blocks, render.Para("No check stops or warns."))
	}
	if len(notes.Rows) > 0 {
		s.Sections = append(s.Sections, render.Section{ID: "notes", Title: "Notes", Blocks: []render.Block{notes}})
	}
	return s
}

// levelWords are the words of a level before its sentence.
var levelWords = map[check.Level]string{check.Stop: "Stop", check.Warn: "Warning"}

// findingPicture draws a finding at its places.
func (b *writer) findingPicture(i int, f check.Finding) []render.Block {
	d := sheet.Finding(b.j, i+1, f)
	alt := fmt.Sprintf("Where finding %d lies: ", i+1)
	for k, p := range f.Places {
		if k > 0 {
			alt += "; "
		}
		alt += p.What
	}
	return b.captioned(d, alt+".", findingHigh, func(scale string) string { return fmt.Sprintf("%s, here at %s.", alt, scale) })
}
