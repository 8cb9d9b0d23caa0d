package check_test

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/design"
)

// randomControls returns the wired design with other controls, bits and cover.
func randomControls(t *testing.T, rnd *rand.Rand) string {
	s := wired(t)
	a, b := strings.Index(s, "[[cavity]]"), strings.Index(s, "[template]")
	pick := func(words ...string) string { return words[rnd.Intn(len(words))] }
	var w strings.Builder
	fmt.Fprintf(&w, "[[cavity]]\nname = \"control\"\nwall = %.2f\ndepth = %.1f\n", 2+6*rnd.Float64(), 36+4*rnd.Float64())
	if rnd.Intn(2) == 0 {
		fmt.Fprintf(&w, "cut = {bit = %q}\n", pick("small", "large"))
	}
	fmt.Fprintf(&w, "[cavity.cover]\nthickness = %.2f\nrebate = %.2f\ncut = {bit = \"spiral\"%s}\n", 1.5+2*rnd.Float64(), 5+5*rnd.Float64(), pick("", ", bush = \"ring\""))
	for i := 0; i < 1+rnd.Intn(4); i++ {
		fmt.Fprintf(&w, "[[cavity.control]]\nkind = %q\nat = [%.2f, %.2f]\nangle = %.1f\n", pick("pot", "pot", "mini pot", "toggle", "blade switch", "jack"), 55+60*rnd.Float64(), -70+110*rnd.Float64(), 180*rnd.Float64())
	}
	tools := "[[bush]]\nname = \"ring\"\nd = 17\n[[bit]]\nname = \"spiral\"\nd = 6\ncut = 32\nbearing = {d = 6, height = 5}\n"
	return s[:a] + w.String() + tools + s[b:]
}

// What the program proposes it does not refuse: whatever controls stand wherever,
// the outline that is grown, its rebate, its cover and its screws are cut as
// drawn, and no rule of theirs finds fault with them. What is left is told as an
// error, with its place.
func TestGrownIsSound(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewSource(3))
	solved := 0
	for n := 0; n < 60; n++ {
		text := randomControls(t, rnd)
		d, err := design.Parse("test.toml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		j, err := memory.Solve(d, nil)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "test.toml:") {
				t.Errorf("%d: %v", n, err)
			}
			continue
		}
		solved++
		for _, f := range check.Run(j) {
			switch f.Check {
			case "wood-left", "follower-passes", "control-inside", "thread-length", "cover-seat", "cover-corner", "screw-wood", "screw-tip", "screw-to-key":
				t.Errorf("%d: %s: %s\n%s", n, f.Check, f.Message, text[strings.Index(text, "[[cavity]]"):])
			}
		}
	}
	if solved < 30 {
		t.Errorf("only %d solved", solved)
	}
}
