package steps_test

import (
	"strconv"
	"strings"
	"testing"

	"routwright/templates/job/jobtest"
	"routwright/templates/steps"
)

// A border is glued round the keys after they are cut and before they are glued in,
// with a row for each kind of strip: six mitred a key, or one bent round it.
func TestBorderHasItsStep(t *testing.T) {
	for corners, want := range map[string]struct{ rows, strips int }{"chiselled": {2, 18}, "rounded": {1, 3}} {
		j := jobtest.File(t, "millrace.toml", "corners = \"rounded\"", "corners = \""+corners+"\"\nborder = 0.4")
		all, err := steps.Ordered(j)
		if err != nil {
			t.Fatal(err)
		}
		at := map[string]int{}
		for i, s := range all {
			at[s.ID] = i + 1
			if s.ID != "border-keys" {
				continue
			}
			n := 0
			for _, r := range s.Tables[0].Rows {
				c, err := strconv.Atoi(r[1])
				if err != nil {
					t.Fatal(err)
				}
				n += c
			}
			if len(s.Tables[0].Rows) != want.rows || n != want.strips {
				t.Errorf("%s: %v, want %d strips", corners, s.Tables[0].Rows, want.strips)
			}
		}
		if b := at["border-keys"]; b == 0 || b < at["cut-keys"] || b > at["glue-keys"] {
			t.Errorf("%s: border at %d, keys cut at %d, glued at %d", corners, b, at["cut-keys"], at["glue-keys"])
		}
	}
	for _, s := range steps.Of(jobtest.File(t, "millrace.toml")) {
		if strings.HasPrefix(s.ID, "border") {
			t.Error("a border without one")
		}
	}
}
