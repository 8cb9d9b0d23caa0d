package job_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"routwright/templates/check"
)

// randomRack is bits, bushes and a router as they may lie in a drawer.
func randomRack(r *rand.Rand) string {
	var b strings.Builder
	pick := func(vs ...float64) float64 { return vs[r.IntN(len(vs))] }
	for i := range 1 + r.IntN(4) {
		d := pick(3.175, 4, 6, 6.35, 8, 9.525, 12.7)
		fmt.Fprintf(&b, "[[bit]]\nname = \"b%d\"\nd = %g\ncut = %g\n", i, d, pick(8, 12, 12.7, 19, 25, 32))
		if r.IntN(3) == 0 {
			fmt.Fprintf(&b, "reach = %g\n", pick(30, 45, 60, 75))
		}
		if r.IntN(3) > 0 {
			side := "shank"
			if r.IntN(5) == 0 {
				side = "tip"
			}
			bearing := d
			if r.IntN(3) == 0 {
				bearing = pick(6, 6.35, 9.525, 12.7, 15.875)
			}
			fmt.Fprintf(&b, "bearing = {d = %g, height = %g, side = %q}\n", bearing, pick(4, 5, 6), side)
		}
	}
	for i := range r.IntN(3) {
		fmt.Fprintf(&b, "[[bush]]\nname = \"g%d\"\nd = %g\nreach = %g\n", i, pick(7.9375, 10, 12, 17, 20, 30), pick(5, 8, 14))
		if r.IntN(2) == 0 {
			fmt.Fprintf(&b, "collar = %g\n", pick(14, 14.25, 20, 24, 28))
		}
	}
	fmt.Fprintf(&b, "[router]\nfree = %v\nbase = %g\n", r.IntN(3) == 0, pick(90, 150, 170))
	fmt.Fprintf(&b, "[template]\nthickness = %g\nsmallest_inside_radius = %g\n", pick(9, 12, 18), pick(0, 2, 3))
	return b.String()
}

// What the program chooses from a random rack no check of the cut refuses: it is
// never proposed and then stopped. What it cannot choose is an error that says so.
func TestChosenToolsAreNotRefused(t *testing.T) {
	const seed = 41
	r := rand.New(rand.NewPCG(seed, 0))
	of := map[string]bool{"wood-left": true, "follower-passes": true, "key-inside-recess": true, "inlay-collar": true, "key-waist": true,
		"passes": true, "bit-reach": true, "bush-reach": true, "first-bite": true}
	solved, refused := 0, 0
	for i := range 80 {
		pick := func(vs ...string) string { return vs[r.IntN(len(vs))] }
		text := "design = 1\nslab = {rough = 45, blank = [560, 420]}\nbody = {family = \"lowland\", tail = 110}\n[keys]\n" +
			pick("length = 60\nends = 26\nwaist = 13\n", "length = 75\nends = 36\nwaist = 20\n", "length = 45\nends = 20\nwaist = 10\n") +
			"depth = " + pick("8", "12", "15") + "\ncorners = " + pick("\"rounded\"", "\"chiselled\"", "\"relieved\"") + "\n[[key]]\nat = [-60, 200]\n" +
			"[[cavity]]\nname = \"control\"\ndepth = " + pick("12", "20", "38") + "\ncorner = " + pick("5", "9", "14") + "\noutline = " +
			pick("[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[60, -60], [120, -60], [120, 10], [95, 10], [95, -25], [60, -25]]") + "\n" + randomRack(r)
		j, err := try(text)
		if err != nil {
			if refused++; !strings.Contains(err.Error(), "t.toml:") {
				t.Errorf("seed %d, case %d: an error without its place: %v", seed, i, err)
			}
			continue
		}
		solved++
		for _, f := range check.Run(j) {
			if f.Level == check.Stop && of[f.Check] {
				t.Errorf("seed %d, case %d: %s: %s\n%s", seed, i, f.Check, f.Message, text)
			}
		}
	}
	if solved < 12 {
		t.Errorf("only %d of 80 could be solved", solved)
	}
	t.Logf("seed %d: %d solved, %d refused", seed, solved, refused)
}
