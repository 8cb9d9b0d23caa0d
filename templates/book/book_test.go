package book_test

import (
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
)

// The book of every design begins with what to measure; every step of it names face,
// datum, tool, depth and the next step, gives its caution and something to tick; and
// every template is shown at its step.
func TestBookOfEveryDesign(t *testing.T) {
	for name, j := range jobtest.Solved(t) {
		doc, err := book.Of(book.Input{Job: j, Findings: check.Run(j), Sheets: sheet.All(j, "")})
		if err != nil {
			t.Fatal(err)
		}
		if doc.Sections[0].ID != "before" {
			t.Errorf("%s begins with %s", name, doc.Sections[0].ID)
		}
		shown, steps := "", 0
		doc.Walk(func(s render.Section, _ int) {
			if !strings.HasPrefix(s.ID, "step-") {
				return
			}
			steps++
			has := map[string]bool{}
			for _, b := range s.Blocks {
				switch b := b.(type) {
				case render.Facts:
					for _, f := range b {
						if strings.TrimSpace(f.Value) != "" {
							has[f.Name] = true
						}
					}
				case render.Caution:
					has["Caution"] = has["Caution"] || b.Text != ""
				case render.List:
					has["tick"] = has["tick"] || b.Tick && len(b.Items) > 0
				case render.Figure:
					shown += b.Caption + "\n"
					if b.Alt == "" {
						t.Errorf("%s: a picture of %s without words", name, s.ID)
					}
				}
			}
			for _, w := range []string{"Face", "Datum", "Tool", "Depth", "Next", "Caution", "tick"} {
				if !has[w] {
					t.Errorf("%s: %s has no %s", name, s.ID, w)
				}
			}
		})
		if steps < 10 {
			t.Errorf("%s: %d steps", name, steps)
		}
		for _, q := range j.Templates {
			if !strings.Contains(shown, "Sheet "+q.ID) {
				t.Errorf("%s: template %s is not shown", name, q.ID)
			}
		}
	}
}

// A book made although a check says stop says so first.
func TestBookWarns(t *testing.T) {
	j := jobtest.Text(t, "t.toml", "design = 1\n")
	doc, err := book.Of(book.Input{Job: j, Warning: "A CHECK SAYS STOP: floor"})
	if err != nil {
		t.Fatal(err)
	}
	c, ok := doc.Sections[0].Blocks[0].(render.Caution)
	if !ok || !strings.Contains(c.Text, "floor") || c.Word != "Stop" {
		t.Errorf("the book begins with %v", doc.Sections[0].Blocks[0])
	}
}
