package book_test

import (
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/book"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
	"routwright/templates/steps"
)

// Every sheet of a jig is in the list of jigs to make, each that the list names is
// drawn, and each that a step uses is shown there.
func TestJigsAreListedAndShown(t *testing.T) {
	for _, name := range []string{"millrace.toml", "designs/penstock.toml", "designs/leat.toml"} {
		j := jobtest.File(t, name)
		sheets := sheet.All(j, "")
		drawn := map[string]bool{}
		for _, s := range sheets {
			drawn[s.ID] = true
		}
		listed := map[string]bool{}
		for _, s := range steps.Of(j) {
			for _, q := range s.Tables {
				if q.Caption != "Jigs to make" {
					continue
				}
				for _, r := range q.Rows {
					id := r[len(r)-1]
					if listed[id] = true; !drawn[id] {
						t.Errorf("%s: %s is listed and not drawn", name, id)
					}
					for _, c := range r {
						if strings.TrimSpace(c) == "" {
							t.Errorf("%s: %s: an empty cell", name, id)
						}
					}
				}
			}
			for _, id := range s.Jigs {
				if !drawn[id] {
					t.Errorf("%s: step %s uses %s, which is not drawn", name, s.ID, id)
				}
			}
		}
		for _, s := range sheets {
			for _, p := range []string{"handle-", "guide-", "outrigger", "caul-", "cradle-", "rails-", "slotting-strip", "radius-gauges"} {
				if strings.HasPrefix(s.ID, p) && !listed[s.ID] {
					t.Errorf("%s: %s is drawn and not listed", name, s.ID)
				}
			}
		}
		doc, err := book.Of(book.Input{Job: j, Sheets: sheets})
		if err != nil {
			t.Fatal(err)
		}
		shown := map[string]string{}
		doc.Walk(func(s render.Section, _ int) {
			for _, b := range s.Blocks {
				if f, ok := b.(render.Figure); ok {
					shown[s.ID] += f.Caption + "\n"
				}
			}
		})
		n := 0
		for _, s := range steps.Of(j) {
			for _, id := range s.Jigs {
				if n++; !strings.Contains(shown["step-"+s.ID], "Sheet "+id) {
					t.Errorf("%s: step %s does not show %s", name, s.ID, id)
				}
			}
		}
		if n < 4 {
			t.Errorf("%s: only %d jigs are used", name, n)
		}
	}
}

// The steps say which jig holds what: the key under its block, the plate under the
// router, the cauls at the crack.
func TestStepsUseTheirJigs(t *testing.T) {
	j := jobtest.File(t, "millrace.toml")
	do := map[string]string{}
	for _, s := range steps.Of(j) {
		do[s.ID] = strings.Join(s.Do, "\n")
	}
	for id, want := range map[string]string{
		"cut-keys":            "sheet handle-key)",
		"cut-cover-control":   "sheet handle-cover-control)",
		"rout-rebate-control": "sheet outrigger)",
		"trim-outline":        "sheet caul-edge)",
		"templates":           "second table",
	} {
		if !strings.Contains(do[id], want) {
			t.Errorf("step %s does not say %q:\n%s", id, want, do[id])
		}
	}
}
