package sheet_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/sheet"
)

// Random edges, bevels, channels and jacks, sensible and not: each is an error
// with a place, or sheets that can be laid out.
func TestRandomThroughTheWood(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 5))
	f := func(lo, hi float64) float64 { return lo + rng.Float64()*(hi-lo) }
	pick := func(words ...string) string { return words[rng.IntN(len(words))] }
	solved := 0
	var memory job.Memory // of the five outlines
	for trial := range 12 {
		var b strings.Builder
		fmt.Fprintf(&b, "design = 1\nunits = \"mm\"\nhand = %q\n[slab]\nrough = %.1f\nwood = \"Walnut, black\"\n", pick("right", "left"), f(36, 52))
		fmt.Fprintf(&b, "[body]\nfamily = %q\n[strings]\nscale = 640\n[bridge]\nkind = %q\n", pick("lowland", "moorland", "headland", "downland", "dune"), pick("fixed", "two-post"))
		if rng.IntN(2) == 0 {
			fmt.Fprintf(&b, "[body.edge]\n%s = %.2f\nbearing = %.1f\n", pick("roundover", "chamfer"), f(0.5, 12), f(5, 30))
		}
		for range rng.IntN(3) {
			fmt.Fprintf(&b, "[[body.contour]]\nkind = %q\nside = %q\ny = %.1f\ndepth = %.1f\nreach = %.1f\nangle = %.1f\nsection = %q\n",
				pick("forearm", "belly"), pick("bass", "treble"), f(-120, 260), f(1, 25), f(10, 120), f(-30, 30), pick("flat", "round"))
			if rng.IntN(2) == 0 {
				fmt.Fprintf(&b, "span = %.1f\n", f(40, 300))
			}
		}
		fmt.Fprintf(&b, "[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = %.1f\nslant = %.1f\n[[pickup]]\nname = \"neck\"\nkind = \"single-coil\"\nat = %.1f\n", f(35, 60), f(-15, 15), f(110, 160))
		x, y := f(50, 75), f(-60, 10)
		fmt.Fprintf(&b, "[[cavity]]\nname = \"control\"\noutline = [[%.1f, %.1f], [%.1f, %.1f], [%.1f, %.1f], [%.1f, %.1f]]\ndepth = %.1f\ncover = {thickness = 2.5}\n", x, y, x+50, y-5, x+45, y+60, x+5, y+70, f(20, 40))
		fmt.Fprintf(&b, "[[channel]]\njoin = [\"tail\", \"control\"]\nd = %.1f\n[[channel]]\njoin = [%q, %q]\n", f(3, 12), pick("neck", "jack"), pick("tail", "control"))
		fmt.Fprintf(&b, "[jack]\nside = %q\ny = %.1f\nat = [%.1f, %.1f]\n", pick("treble", "bass", "front"), f(-120, 120), f(-100, 100), f(-80, 80))
		d, err := design.Parse("random.toml", []byte(b.String()))
		if err != nil {
			t.Fatalf("trial %d: %v\n%s", trial, err, b.String())
		}
		j, err := memory.Solve(d, nil)
		if err != nil {
			if !strings.Contains(err.Error(), "random.toml:") {
				t.Errorf("trial %d: an error without a place: %v\n%s", trial, err, b.String())
			}
			continue
		}
		solved++
		check.Run(j)
		for _, s := range sheet.All(j, "") {
			if _, err := render.Layout(s, render.LayoutOptions{}); err != nil {
				t.Errorf("trial %d: sheet %s: %v\n%s", trial, s.ID, err, b.String())
			}
		}
	}
	if solved < 4 {
		t.Errorf("only %d of the designs can be solved", solved)
	}
}
