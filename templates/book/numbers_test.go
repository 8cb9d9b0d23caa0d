package book_test

import (
	"strconv"
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
	"routwright/templates/steps"
)

// In every design a step and the sheet of its template say the same of setting and
// feed; every pass is set to the thickness of the template and its own depth; and the
// last pass is the setting that stands above it.
func TestNumbersAgree(t *testing.T) {
	for name, j := range jobtest.Solved(t) {
		block := map[string]map[string]string{}
		for _, s := range sheet.All(j, "") {
			block[s.ID] = map[string]string{}
			for _, f := range s.Block {
				block[s.ID][f.Name] = f.Value
			}
		}
		thick := map[string]float64{}
		for _, q := range j.Templates {
			thick[q.ID] = q.Sheet
		}
		for _, s := range steps.Of(j) {
			if s.Template == "" {
				continue
			}
			facts := map[string]string{}
			for _, f := range s.Facts {
				facts[f.Name] = f.Value
			}
			for _, f := range []string{"Setting", "Feed"} {
				if facts[f] == "" || facts[f] != block[s.Template][f] {
					t.Errorf("%s: %s of step %s is %q, on the sheet %q", name, f, s.ID, facts[f], block[s.Template][f])
				}
			}
			passes := 0
			for _, q := range s.Tables {
				if q.Caption != "Passes" {
					continue
				}
				for _, r := range q.Rows {
					passes++
					depth, set := number(t, r[1]), number(t, r[2])
					if d := set - depth - thick[s.Template]; d > 0.0101 || d < -0.0101 { // both are printed to a hundredth
						t.Errorf("%s: %s: pass %s of %g mm is set to %g under %g of template", name, s.ID, r[0], depth, set, thick[s.Template])
					}
				}
				if last := q.Rows[len(q.Rows)-1][2]; !strings.HasPrefix(facts["Setting"], last+" mm") {
					t.Errorf("%s: %s: the last pass is set to %s, but the step says %q", name, s.ID, last, facts["Setting"])
				}
			}
			if passes == 0 {
				t.Errorf("%s: %s has no passes", name, s.ID)
			}
		}
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every sheet that a step names is made for one of the designs at the least.
func TestSheetsOfSteps(t *testing.T) {
	made, named := map[string]bool{"stock-2": true}, map[string]string{} // a second sheet of stock is for large sets
	for _, j := range jobtest.Solved(t) {
		for _, s := range sheet.All(j, "") {
			made[s.ID] = true
		}
		for _, s := range steps.Of(j) {
			for _, id := range s.Sheets {
				named[id] = s.ID
			}
		}
	}
	for id, step := range named {
		if !made[id] {
			t.Errorf("step %s lays sheet %s on the bench, which no design has", step, id)
		}
	}
	if len(named) < 15 {
		t.Errorf("only %d sheets are named", len(named))
	}
}

// A finding that stops or warns is told with its picture and its cure, a note without.
func TestFindingsAreDrawn(t *testing.T) {
	j := jobtest.Solved(t)["millrace.toml"]
	fs := check.Run(j)
	doc, err := book.Of(book.Input{Job: j, Findings: fs, Sheets: sheet.All(j, "")})
	if err != nil {
		t.Fatal(err)
	}
	pictures, cautions, notes := 0, 0, 0
	doc.Walk(func(s render.Section, _ int) {
		if !strings.HasPrefix(s.ID, "finding-") && s.ID != "notes" {
			return
		}
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case render.Figure:
				if pictures++; b.Alt == "" || !strings.Contains(b.Caption, "Where finding") {
					t.Errorf("a picture of a finding without words: %+v", b)
				}
			case render.Caution:
				cautions++
			case render.Table:
				notes += len(b.Rows)
			}
		}
	})
	worse := 0
	for _, f := range fs {
		if f.Level >= check.Warn {
			worse++
		}
	}
	if worse == 0 || cautions != worse || pictures != worse || notes != len(fs)-worse {
		t.Errorf("%d findings, %d of them worse than notes: %d cautions, %d pictures, %d notes", len(fs), worse, cautions, pictures, notes)
	}
}
