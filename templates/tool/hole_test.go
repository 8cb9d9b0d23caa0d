package tool_test

import (
	"strings"
	"testing"

	"routwright/templates/design"
	"routwright/templates/tool"
)

// What a drill at hand may stand in for is common practice: a pilot hole never larger,
// a clear hole never smaller, a press fit nothing else. A missing drill is named with
// what could replace it, and none is taken in silence.
func TestHole(t *testing.T) {
	const rack = "design = 1\n[[drill]]\nd = 2\nlength = 40\n[[drill]]\nd = 5\nlength = 60\n[[drill]]\nd = 6.2\nlength = 300\n[[forstner]]\nd = 16\nlength = 50\n"
	d, err := design.Parse("r.toml", []byte(rack))
	if err != nil {
		t.Fatal(err)
	}
	r, _ := tool.NewRack(d)
	for _, c := range []struct {
		d, deep float64
		fit     tool.Fit
		ok      bool
		says    string
	}{
		{2, 20, tool.Pilot, true, "at hand: twist drill 2"},
		{2.1, 20, tool.Pilot, true, "at hand: twist drill 2"},
		{2.3, 20, tool.Pilot, false, "twist drill 2 could replace it: a tighter hole"},
		{2.4, 20, tool.Pilot, false, "one of 2.1 to 2.4 mm could replace it, never a larger one"},
		{1.8, 20, tool.Pilot, false, "never a larger one"},
		{2, 41, tool.Pilot, false, "too short, it drills 40 mm of 41"},
		{4.5, 30, tool.Clear, false, "twist drill 5 could replace it: a looser hole"},
		{5.3, 30, tool.Clear, false, "one of 5.3 to 5.8 mm could replace it"},
		{4.4, 30, tool.Clear, false, "one of 4.4 to 4.9 mm"},
		{4.8, 30, tool.Exact, false, "nothing replaces it"},
		{7, 200, tool.Wire, false, "twist drill 6.2 could replace it"},
		{7.3, 200, tool.Wire, false, "one of 6.3 to 7.3 mm"},
		{22.2, 35, tool.Opened, false, "Forstner drill 16 could replace it"},
		{22.2, 51, tool.Opened, false, "at least 9 mm could replace it"},
	} {
		got := r.Hole(c.d, c.deep, c.fit)
		if got.OK != c.ok || !strings.Contains(got.Words, c.says) {
			t.Errorf("%g mm, %g deep, fit %d: %v %q, want %v %q", c.d, c.deep, c.fit, got.OK, got.Words, c.ok, c.says)
		}
	}
	none, _ := tool.NewRack(&design.Design{})
	if got := none.Hole(25, 30, tool.Opened); got.OK || !strings.Contains(got.Words, "not in the design") {
		t.Errorf("an assumed drill is taken in silence: %q", got.Words)
	}
}
