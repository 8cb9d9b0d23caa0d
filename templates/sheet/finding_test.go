package sheet_test

import (
	"os"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
)

// Each finding has a sheet of its own with a ring at each place and the sentence;
// what is about a loose template is drawn on that template's axes.
func TestFindings(t *testing.T) {
	const name = "../../testdata/weirhouse.toml"
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(
		"at = 135", "at = 77", // the neck pickup nearer the tail one
		"gap = 0.08", "gap = 0.01", // less than glue wants
		"measured = [100, 100]", "margin = 10",
	).Replace(string(b))
	j := jobtest.Text(t, name, text)
	fs := check.Run(j)
	sheets := sheet.Findings(j, fs)
	if len(sheets) != len(fs) || len(fs) < 3 {
		t.Fatalf("%d sheets of %d findings", len(sheets), len(fs))
	}
	seen := map[string]bool{}
	for i, s := range sheets {
		f := fs[i]
		if seen[s.ID] || !strings.Contains(s.ID, f.Check) {
			t.Errorf("id %q", s.ID)
		}
		seen[s.ID] = true
		if !strings.Contains(strings.Join(s.Notes, " "), f.Message[1:]) || (s.Warning != "") != (f.Level == check.Stop) {
			t.Errorf("%s: notes %q, warning %q", s.ID, s.Notes, s.Warning)
		}
		rings, onBody := 0, false
		for _, g := range s.Groups {
			onBody = onBody || g.ID == "body"
			for _, sh := range g.Shapes {
				if g.ID == "places" && len(sh.Path) == 2 {
					if at := geom.BoxOf(sh.Path[0].A, sh.Path[1].A).Center(); at.Dist(f.Places[rings].At) > 1e-9 {
						t.Errorf("%s: ring %d at %v, want %v", s.ID, rings+1, at, f.Places[rings].At)
					}
					rings++
				}
			}
		}
		if rings != len(f.Places) {
			t.Errorf("%s: %d rings for %d places", s.ID, rings, len(f.Places))
		}
		if onBody != (f.Template == "") {
			t.Errorf("%s: on the body %v, template %q", s.ID, onBody, f.Template)
		}
		if _, err := render.Layout(s, render.LayoutOptions{}); err != nil {
			t.Errorf("%s: %v", s.ID, err)
		}
	}
	if !seen["01-stop-void-to-void"] {
		t.Errorf("sheets %v", seen)
	}
}
