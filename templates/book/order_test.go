package book_test

import (
	"slices"
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/book"
	"routwright/templates/job/jobtest"
)

// The list of steps leads to each step of the book, once, in its order.
func TestOrderLeadsToEveryStep(t *testing.T) {
	j := jobtest.File(t, "millrace.toml")
	doc, err := book.Of(book.Input{Job: j})
	if err != nil {
		t.Fatal(err)
	}
	var leads, steps []string
	doc.Walk(func(s render.Section, _ int) {
		if strings.HasPrefix(s.ID, "step-") {
			steps = append(steps, s.ID)
		}
		if s.ID != "order" {
			return
		}
		for _, b := range s.Blocks {
			if l, ok := b.(render.Table); ok {
				leads = append(leads, l.To...)
			}
		}
	})
	if len(steps) == 0 || !slices.Equal(leads, steps) {
		t.Errorf("the list leads to %v, the steps are %v", leads, steps)
	}
}
