package steps_test

import (
	"fmt"
	"strings"
	"testing"

	"routwright/templates/job/jobtest"
	"routwright/templates/steps"
)

// Every step with a template on the pins says how the template is held and where the
// router would tip; one whose waste is drilled out lists every hole with its stop, in
// the order of the plan, and says what the stop counts from.
func TestStepsCarryTheRoutingPlan(t *testing.T) {
	for name, j := range jobtest.Solved(t, "slab.toml") {
		for _, s := range steps.Of(j) {
			i := -1
			for k, e := range j.Templates {
				if e.ID == s.Template && s.Template != "" {
					i = k
				}
			}
			if i < 0 || j.Templates[i].Free() {
				continue
			}
			facts := map[string]string{}
			for _, f := range s.Facts {
				facts[f.Name] = f.Value
			}
			if facts["Hold"] == "" || facts["Feed"] == "" || facts["Speed"] == "" {
				t.Errorf("%s, %s: %v", name, s.ID, facts)
			}
			if j.Templates[i].Pinned() && !strings.Contains(facts["Tipping"], "hangs over") {
				t.Errorf("%s, %s: tipping %q", name, s.ID, facts["Tipping"])
			}
			if len(j.HoldOf(i).Props) > 0 != (facts["Prop"] != "") {
				t.Errorf("%s, %s: prop %q", name, s.ID, facts["Prop"])
			}
			d := j.DrillOut(i)
			if len(d.Holes) == 0 {
				continue
			}
			if !strings.Contains(facts["Waste"], "depth of the rim below") || d.Start > 0 && !strings.Contains(facts["Waste"], "floor of the rebate") {
				t.Errorf("%s, %s: waste %q", name, s.ID, facts["Waste"])
			}
			rows := 0
			for _, e := range s.Tables {
				if strings.HasPrefix(e.Caption, "Drill the waste out") {
					for n, r := range e.Rows {
						rows++
						if r[0] != fmt.Sprintf("W%d", n+1) {
							t.Errorf("%s, %s: row %v", name, s.ID, r)
						}
					}
				}
			}
			if rows != len(d.Holes) {
				t.Errorf("%s, %s: %d rows for %d holes", name, s.ID, rows, len(d.Holes))
			}
		}
	}
}
