package steps_test

import (
	"math"
	"strings"
	"testing"

	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
	"routwright/templates/steps"
)

// A chamber under a plate is routed before the plate is on: so deep as its own depth
// says, from the seat; the plate is glued on before anything is cut that counts from
// the finished face.
func TestPlateOverAChamber(t *testing.T) {
	for _, face := range []part.Face{part.Front, part.Back} {
		j := jobtest.File(t, "designs/sluicegate.toml", "[strap]", "[[chamber]]\nname = \"light\"\noutline = [[-60, -80], [-110, -70], [-110, -20], [-70, -30]]\ncorner = 10\ncap = 5\ndepth = 20\nface = \""+face.String()+"\"\n[strap]")
		i := -1
		for k, q := range j.Templates {
			if q.For.Kind == part.Chamber {
				i = k
			}
		}
		if i < 0 {
			t.Fatal("no template of the chamber")
		}
		r := j.Routing(i)
		if last := r.Passes[len(r.Passes)-1].Depth; math.Abs(last-20) > 1e-9 || j.PlateOn(face) != 5 {
			t.Errorf("%v: the last pass is %g deep under a plate of %g, want 20 under 5", face, last, j.PlateOn(face))
		}
		all, err := steps.Ordered(j)
		if err != nil {
			t.Fatal(err)
		}
		at := map[string]int{}
		for k, s := range all {
			at[s.ID] = k + 1
			if s.ID == "thickness" && !strings.HasSuffix(s.Depth, "to 40 mm") {
				t.Errorf("%v: the slab is planed %s", face, s.Depth)
			}
			if s.ID == "rout-chamber-light" && !strings.HasPrefix(s.Depth, "20 mm from the "+face.String()+" as it lies") {
				t.Errorf("%v: the chamber is routed %s", face, s.Depth)
			}
		}
		glue := at["glue-plate-"+face.String()]
		if glue == 0 || at["rout-chamber-light"] == 0 || at["rout-chamber-light"] > glue || glue > at["lines-again"] || glue > at["rout-cavity-control"] && face == part.Back || glue > at["rout-pickup-tail"] && face == part.Front {
			t.Errorf("%v: the plate is glued on at step %d of %v", face, glue, at)
		}
	}
}

// Keys cannot be let into a face that a plate will cover.
func TestNoKeysUnderAPlate(t *testing.T) {
	text := jobtest.Source(t, "millrace.toml", "[strap]", "[[chamber]]\noutline = [[40, 150], [80, 150], [80, 190], [40, 190]]\ncap = 5\ndepth = 15\n[strap]")
	d, err := design.Parse("plate.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := job.Solve(d, nil); err == nil || !strings.Contains(err.Error(), "plate of 5 mm is glued over chambers") {
		t.Errorf("keys under a plate: %v", err)
	}
}
