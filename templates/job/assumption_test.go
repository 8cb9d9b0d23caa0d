package job

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"routwright/templates/design"
)

// Siblings are gathered, unlike values and unlike reasons are not, and nothing is lost.
func TestGathered(t *testing.T) {
	as := []Assumption{
		{"cavity 1.control 1.body", "25 mm", "assumed", "usual"},
		{"cavity 1.control 1.hole", "9.5 mm", "assumed", "usual"},
		{"cavity 1.control 2.body", "25 mm", "assumed", "usual"},
		{"cavity 1.control 3.body", "16.5 mm", "assumed", "usual"},
		{"strings.gauges", "string 4: wound", "assumed", "give them"},
		{"strings.gauges", "string 5: wound", "assumed", "give them"},
		{"strings.gauges", "six", "assumed", "a set"},
		{"strings.count", "6", "assumed", "usual"},
	}
	want := []Assumption{
		{"cavity 1.control 1.body, cavity 1.control 2.body", "25 mm", "assumed", "usual"},
		{"cavity 1.control 1.hole", "9.5 mm", "assumed", "usual"},
		{"cavity 1.control 3.body", "16.5 mm", "assumed", "usual"},
		{"strings.gauges", "string 4: wound; string 5: wound", "assumed", "give them"},
		{"strings.gauges", "six", "assumed", "a set"},
		{"strings.count", "6", "assumed", "usual"},
	}
	if d := cmp.Diff(want, Gathered(as)); d != "" {
		t.Error(d)
	}
}

// Each quantity is solved or assumed once: a key of the demo design that stands twice
// has another value each time.
func TestAssumedOnce(t *testing.T) {
	src, err := os.ReadFile("../../testdata/millrace.toml")
	if err != nil {
		t.Fatal(err)
	}
	d, err := design.Parse("millrace.toml", src)
	if err != nil {
		t.Fatal(err)
	}
	j, err := Solve(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[[2]string]bool{}
	keys := map[string]int{}
	for _, a := range j.Assumed {
		k := [2]string{a.Key, a.Value}
		if seen[k] {
			t.Errorf("%s = %s is listed twice", a.Key, a.Value)
		}
		seen[k] = true
		keys[a.Key]++
	}
	if keys["compensation"] != 1 {
		t.Errorf("compensation is told %d times", keys["compensation"])
	}
	for key, want := range map[string]About{"cavity 1.control 1.body": AboutFits, "cavity 1.cover.screw.gauge": AboutHoles, "channel 1.d": AboutHoles, "neck.head.pitch": AboutNeck, "strings.gauges": AboutString, "template.stock_kerf": AboutShop, "strap.length": AboutString, "slab.film": AboutFits} {
		if got := (Assumption{Key: key}).About(); got != want {
			t.Errorf("%s is told under %q, want %q", key, got, want)
		}
	}
}
