package table_test

import (
	"strconv"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/table"
)

// tables returns the tables of a design by name.
func tables(t *testing.T, text string) (*job.Job, map[string]table.Table) {
	t.Helper()
	j := jobtest.Text(t, "t.toml", text)
	out := map[string]table.Table{}
	for _, e := range table.All(j, check.Run(j)) {
		out[e.Name] = e
		for i, r := range e.Rows {
			if len(r) != len(e.Head) {
				t.Errorf("%s, row %d: %d cells under %d heads", e.Name, i+1, len(r), len(e.Head))
			}
			for _, c := range r {
				if strings.HasPrefix(c, "-0.00000") {
					t.Errorf("%s, row %d: %s", e.Name, i+1, c)
				}
			}
		}
	}
	return j, out
}

const text = `
design = 1
slab = {rough = 45, blank = [560, 420], plane = {front = 1, back = 0}}
body = {family = "lowland", tail = 110}
[keys]
length = 50
depth = 12
[[key]]
at = [-75, 120]
[[pickup]]
name = "tail"
kind = "humbucker"
at = 42
corner = 6.4
depth = 19
`

// The passes of each cut follow each other to its depth, and the holes for the
// waste are those of the plan, in its order.
func TestPassesAndWasteHoles(t *testing.T) {
	j, all := tables(t, text)
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	last := map[string]float64{}
	for _, r := range all["passes"].Rows {
		if d := num(r[3]) - last[r[0]]; d <= 0 || num(r[4])-d > 1e-5 || d-num(r[4]) > 1e-5 {
			t.Errorf("%s: pass %s bites %s from %g to %s", r[0], r[2], r[4], last[r[0]], r[3])
		}
		last[r[0]] = num(r[3])
	}
	if last["pickup-tail"] != 19 || last["key-recess"] != 13 { // 12 and 1 still to come off
		t.Errorf("depths %v", last)
	}
	holes := 0
	for i, e := range j.Templates {
		plan := j.DrillOut(i)
		for k, h := range plan.Holes {
			r := all["drill-out"].Rows[holes]
			holes++
			if r[0] != e.ID || r[1] != strconv.Itoa(k+1) || num(r[3]) != h.Drill.D || num(r[6]) != h.Stop {
				t.Errorf("hole %d of %s: %v", k+1, e.ID, r)
			}
		}
	}
	if holes == 0 || holes != len(all["drill-out"].Rows) {
		t.Errorf("%d holes, %d rows", holes, len(all["drill-out"].Rows))
	}
	// A job without waste to drill has no such table.
	if _, more := tables(t, strings.NewReplacer("depth = 12", "depth = 4", "depth = 19", "depth = 6").Replace(text)); len(more["drill-out"].Head) > 0 {
		t.Error("a table of waste holes without any")
	}
}
