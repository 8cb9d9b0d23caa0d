// Package book writes the shop book of a job: what to do, in which order, with
// which bit, and what not to do. It says what things are; how they look is the
// business of the formats.
package book

import (
	"fmt"
	"slices"
	"strings"

	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/sheet"
	"routwright/templates/steps"
	"routwright/templates/table"
)

// Input is what a book is made from.
type Input struct {
	Job      *job.Job
	Findings []check.Finding
	Sheets   []render.Sheet // as sheet.All returns them
	Front    []byte         // picture of the machined front, PNG; nil for none
	Back     []byte
	Warning  string // printed first when a check says stop
}

// Of returns the book. The error is that of a step order that cannot be, or of a
// picture that cannot be laid out.
func Of(in Input) (render.Document, error) {
	j := in.Job
	b := &writer{in: in, j: j, sheets: map[string]render.Sheet{}, shown: map[string]int{}}
	for _, s := range in.Sheets {
		b.sheets[s.ID] = s
	}
	all, err := steps.Ordered(j)
	if err != nil {
		return render.Document{}, err
	}
	d := render.Document{
		Title: "Shop book: " + j.Name,
		Lead:  fmt.Sprintf("Revision %s. Every measure in mm where nothing else is said. Back sheets are mirrored; FRONT and BACK stand on each.", j.Revision),
	}
	d.Sections = append(d.Sections, b.before(), b.reading(), b.instrument(), b.findings(), b.order(all))
	d.Sections = append(d.Sections, b.stages(all)...)
	d.Sections = append(d.Sections, b.lists(), b.proofs(), safety())
	return d, b.err
}

type writer struct {
	in     Input
	j      *job.Job
	sheets map[string]render.Sheet
	shown  map[string]int // number of the step that shows a sheet
	err    error
}

// before is the first page: what was assumed and what must be measured.
func (b *writer) before() render.Section {
	s := render.Section{ID: "before", Title: "Before you cut"}
	if b.in.Warning != "" {
		s.Blocks = append(s.Blocks, render.Caution{Word: "Stop", Text: b.in.Warning + ". This set was made although a check says stop. Do not cut from it."})
	}
	s.Blocks = append(s.Blocks,
		render.Para("Nothing in this book is truer than your rule. Measure these first, write what you find into the design file, and make the set again."),
		render.List{Tick: true, Items: []string{
			"Both printed rulers, on the first page that comes out of the printer: print at 100 %, never fitted to the page.",
			"The slot that each bit cuts in scrap: its true diameter.",
			"The heel of the neck, at two places, with the calliper.",
			"Pickups, pots, bridge and jack as you hold them: sizes, threads, screws.",
			"The crack on both faces against the layout sheet: it must not have grown.",
			"The thickness of the template sheet, and of the slab at four corners.",
		}},
		render.Para(b.countWords()))
	s.Sections = b.assumed()
	return s
}

// instrument shows the finished body.
func (b *writer) instrument() render.Section {
	s := render.Section{ID: "body", Title: "The finished body", NewPage: true}
	if b.j.Outline.Empty() {
		return s
	}
	for _, p := range []struct {
		png  []byte
		face part.Face
	}{{b.in.Front, part.Front}, {b.in.Back, part.Back}} {
		if p.png != nil {
			s.Blocks = append(s.Blocks, render.Figure{PNG: p.png, WidthMM: 85,
				Alt:     fmt.Sprintf("The machined %s of the body, shaded from the depths of every cut.", p.face),
				Caption: fmt.Sprintf("The %s as it comes off the bench, keys shown in their recesses.", p.face)})
		}
	}
	if v, ok := b.sheets[sheet.ViewsID]; ok {
		s.Blocks = append(s.Blocks, b.figure(v, "Front, back and both sides of the finished body.", sheet.ViewsScale(b.j))...)
	}
	if v, ok := b.sheets[sheet.OverlayID]; ok {
		s.Blocks = append(s.Blocks, b.figure(v, "Front and back together, seen from the front: what is dashed lies on the back or in the wood.", 1)...)
	}
	return s
}

// scales of pictures in the book: ISO 5455.
var scales = []float64{1, 1.0 / 2, 1.0 / 5, 1.0 / 10}

// widest picture in the book, mm: the text of an A4 page.
const widest = 175.0

// Tallest pictures, mm: the first of a step leaves room for words on the page, those
// beside it show what is meant.
const (
	tallest = 150.0
	beside  = 80.0
)

// words is what dimensions and labels may need round a picture, mm on each side.
const words = 14.0

// figure lays a sheet out as a picture at the largest scale that fits. own is how many
// times smaller than the work the sheet itself is drawn.
func (b *writer) figure(s render.Sheet, alt string, own float64) []render.Block {
	return b.figureWithin(s, alt, own, tallest)
}

// figureWithin is figure no higher than high, mm.
func (b *writer) figureWithin(s render.Sheet, alt string, own, high float64) []render.Block {
	from := ""
	if s.FromBack {
		from = ", seen from the back"
	}
	return b.captioned(s, alt, high, func(scale string) string {
		return fmt.Sprintf("Sheet %s%s, here at %s. %s", s.ID, from, scale, alt)
	}, own)
}

// captioned lays a sheet out no higher than high, mm; caption gets the words for the
// scale. own is how many times smaller than the work the sheet is drawn, 1 if left out.
func (b *writer) captioned(s render.Sheet, alt string, high float64, caption func(scale string) string, own ...float64) []render.Block {
	box := s.Extent()
	k := scales[len(scales)-1]
	for _, c := range scales {
		if c*box.W()+2*words <= widest && c*box.H()+2*words <= high {
			k = c
			break
		}
	}
	if k < leastNumbered {
		s = unnumbered(s)
	}
	d, err := render.Layout(s.Scaled(k), render.LayoutOptions{Bare: true})
	if err != nil {
		if b.err == nil {
			b.err = fmt.Errorf("picture of sheet %s: %w", s.ID, err)
		}
		return nil
	}
	scale := k
	for _, o := range own {
		scale /= o
	}
	words := scaleWords(scale)
	if d.Bounds.W() > widest {
		words = "less than " + words
	}
	return []render.Block{render.Figure{Drawing: &d, Alt: alt, WidthMM: min(d.Bounds.W(), widest), Caption: caption(words)}}
}

func scaleWords(k float64) string { return fmt.Sprintf("1 : %g", 1/k) }

// order is the list of all steps with where each leads.
func (b *writer) order(all []steps.Step) render.Section {
	s := render.Section{ID: "order", Title: "The steps in order", NewPage: true, Blocks: []render.Block{
		render.Para("Each step stands where nothing that it needs is gone and nothing that a later one needs is taken away. To ask for another order, write work.order = [\"…\", \"…\"] with these names into the design file: the program keeps it, or says what stands against it."),
	}}
	t := render.Table{Caption: "Steps", Tick: true, Head: []string{"step", "what", "takes away"}}
	for _, q := range all {
		t.Rows = append(t.Rows, []string{q.ID, q.Title, things(q.Removes)})
		t.To = append(t.To, stepID(q))
	}
	s.Blocks = append(s.Blocks, t)
	return s
}

// stepID is the section of a step.
func stepID(q steps.Step) string { return "step-" + q.ID }

func things(ts []steps.Thing) string {
	var w []string
	for _, t := range ts {
		w = append(w, string(t))
	}
	return strings.Join(w, ", ")
}

// stages are the chapters of the work, in the order in which each is begun.
func (b *writer) stages(all []steps.Step) []render.Section {
	var out []render.Section
	for i, q := range all {
		next := "that was the last step"
		if i+1 < len(all) {
			next = all[i+1].Title
		}
		if i == 0 || all[i-1].Stage != q.Stage {
			n := 1
			for _, o := range out {
				if strings.HasPrefix(o.Title, q.Stage.String()) {
					n++
				}
			}
			title := q.Stage.String()
			if n > 1 {
				title = fmt.Sprintf("%s (%d)", title, n)
			}
			out = append(out, render.Section{ID: fmt.Sprintf("stage-%d", len(out)+1), Title: title, NewPage: true})
		}
		s := &out[len(out)-1]
		s.Sections = append(s.Sections, b.step(i+1, q, next))
	}
	return out
}

// step is one step: picture, numbers, what to do, what comes next, the caution.
func (b *writer) step(n int, q steps.Step, next string) render.Section {
	s := render.Section{ID: stepID(q), Title: fmt.Sprintf("%d. %s", n, q.Title)}
	lies, pictures := b.onBench(n, q)
	s.Blocks = append(s.Blocks, pictures...)
	facts := render.Facts{{Name: "Face", Value: q.Face}, {Name: "Datum", Value: q.Datum}, {Name: "Tool", Value: q.Tool}, {Name: "Depth", Value: q.Depth}}
	if lies != "" {
		facts = append(facts, render.Field{Name: "Sheets", Value: lies})
	}
	facts = append(facts, q.Facts...)
	if len(q.Needs) > 0 {
		facts = append(facts, render.Field{Name: "Needs", Value: things(q.Needs)})
	}
	if len(q.Removes) > 0 {
		facts = append(facts, render.Field{Name: "Takes away", Value: things(q.Removes)})
	}
	facts = append(facts, render.Field{Name: "Next", Value: next})
	s.Blocks = append(s.Blocks, facts, render.Caution{Word: "Caution", Text: q.Caution}, render.List{Items: q.Do, Tick: true})
	for _, t := range q.Tables {
		s.Blocks = append(s.Blocks, t)
	}
	return s
}

// onBench says which sheets lie on the bench at a step, and shows those that no step
// before it has shown.
func (b *writer) onBench(n int, q steps.Step) (words string, pictures []render.Block) {
	var lie []string
	for _, id := range slices.Concat([]string{q.Template}, q.Sheets, q.Jigs) {
		v, ok := b.sheets[id]
		if !ok || id == "" || slices.Contains(lie, id) {
			continue
		}
		if at := b.shown[id]; at > 0 && id != q.Template && !wordy[id] && !slices.Contains(q.Jigs, id) {
			lie = append(lie, fmt.Sprintf("%s (picture at step %d)", id, at))
			continue
		}
		b.shown[id] = n
		lie = append(lie, id)
		if wordy[id] {
			continue
		}
		high := tallest
		if len(pictures) > 0 || q.Template != "" && id != q.Template {
			high = beside
		}
		pictures = append(pictures, b.figureWithin(withoutTables(v), v.Title+".", 1, high)...)
	}
	return strings.Join(lie, ", "), pictures
}

// wordy are the sheets that are words and numbers: small they cannot be read, and the
// steps carry their numbers.
var wordy = map[string]bool{sheet.TableID: true, sheet.BoardID: true, sheet.RadiusID: true}

// leastNumbered is the scale under which the numbers of waste holes run into each other.
const leastNumbered = 0.5

// unnumbered returns a sheet without the numbers of its holes for waste.
func unnumbered(s render.Sheet) render.Sheet {
	s.Groups = slices.Clone(s.Groups)
	for i := range s.Groups {
		if strings.HasPrefix(s.Groups[i].ID, sheet.WastePrefix) {
			s.Groups[i].Texts = nil
		}
	}
	return s
}

// withoutTables returns a sheet without the tables that are drawn on it.
func withoutTables(s render.Sheet) render.Sheet {
	s.Groups = slices.DeleteFunc(slices.Clone(s.Groups), func(g render.Group) bool { return g.ID == sheet.HoleTableID || g.ID == sheet.WasteTableID })
	return s
}

// proofs are the simulated cuts.
func (b *writer) proofs() render.Section {
	s := render.Section{ID: "proofs", Title: "Proofs", NewPage: true, Blocks: []render.Block{
		render.Para("What follower and cutter of each template really leave, simulated; areas in mm², depths in mm. Only what is deeper than 0.02 mm counts."),
	}}
	t := render.Table{Caption: "Simulated cuts", Head: []string{"template", "bit", "left", "lost", "by hand", "deepest left"}, Number: []bool{false, false, true, true, true, true}}
	for i, p := range b.j.Proofs {
		t.Rows = append(t.Rows, []string{p.Template, b.j.Templates[i].Tool.Bit, mm(p.Left.Area()), mm(p.Lost.Area()), mm(p.ByHand.Area()), mm(p.LeftReach)})
	}
	s.Blocks = append(s.Blocks, t)
	if v, ok := b.sheets[sheet.ProofKeyID]; ok {
		s.Blocks = append(s.Blocks, b.figure(v, "The key in its recess, with the gap all round drawn larger.", 1)...)
	}
	return s
}

func mm(v float64) string { return design.MM(v) }

// safety is the last word, and the first.
func safety() render.Section {
	return render.Section{ID: "safety", Title: "Safety", NewPage: true, Blocks: []render.Block{
		render.Para("These are the usual cautions of the trade. They replace no manual of a tool, no data sheet, no local rule: those come first. Where a rule asks for a licensed person, ask one."),
		render.List{Items: steps.Cautions()},
	}}
}

// tables of the job by name.
func (b *writer) tables() map[string]table.Table {
	m := map[string]table.Table{}
	for _, t := range table.All(b.j, b.in.Findings) {
		m[t.Name] = t
	}
	return m
}
