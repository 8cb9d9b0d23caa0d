package job_test

import (
	"fmt"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

// A plate of the least diameter, named in the design, takes away the warning that
// the base tips; one 5 mm less does not. Left-handed it is the same plate.
func TestTheLeastPlateIsEnough(t *testing.T) {
	text := hand + "[[cavity]]\nname = \"chamber\"\noutline = [[-60, -20], [70, -20], [70, 90], [-60, 90]]\ncorner = 8\ndepth = 12\n"
	text = strings.Replace(text, "at = [-40, 60]", "at = [-60, 200]", 1)
	tips := func(text string) bool {
		for _, f := range check.Run(solved(t, text)) {
			if f.Check == "base-carried" && strings.Contains(f.Message, "chamber") {
				return true
			}
		}
		return false
	}
	for _, side := range []string{"right", "left"} {
		text := strings.Replace(text, "design = 1", "design = 1\nhand = \""+side+"\"", 1)
		j := solved(t, text)
		found := false
		for i, e := range j.Templates {
			if e.For.Kind != part.Cavity {
				continue
			}
			found = true
			p := j.OutriggerFor(i)
			if !p.Needed || p.Least.D <= j.Base {
				t.Fatalf("%s hand: %+v", side, p)
			}
			with := func(d float64) string { return text + fmt.Sprintf("[router]\noutrigger = %g\n", d) }
			if !tips(text) || tips(with(p.Least.D)) || !tips(with(p.Least.D-5)) {
				t.Errorf("%s hand, plate of %g: tips without %v, with %v, with 5 less %v", side, p.Least.D, tips(text), tips(with(p.Least.D)), tips(with(p.Least.D-5)))
			}
			// With a plate named, the least is still told.
			if again := solved(t, with(p.Least.D+20)).OutriggerFor(i); !again.Needed || again.Least.D != p.Least.D {
				t.Errorf("%s hand: %g, with a larger plate named %+v", side, p.Least.D, again)
			}
		}
		if !found {
			t.Fatal("no chamber")
		}
	}
}

// In the demo only the large rebate of the cover asks for a plate.
func TestPlatesOfTheDemo(t *testing.T) {
	j := jobtest.Demo(t)
	for i, e := range j.Templates {
		if got, want := j.OutriggerFor(i).Needed, e.ID == "rebate-control"; got != want {
			t.Errorf("%s: a plate needed %v, want %v", e.ID, got, want)
		}
	}
}
