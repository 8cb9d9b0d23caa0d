package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
)

// ofJig reports whether a sheet shows one of the jigs drawn here.
func ofJig(id string) bool {
	for _, p := range []string{jig.HandleID, jig.GuideID, jig.OutriggerID, jig.NeckCaulID, jig.EdgeCaulID, jig.CradleID} {
		if strings.HasPrefix(id, p) {
			return true
		}
	}
	return false
}

func jigSheets(j *job.Job) []render.Sheet {
	var out []render.Sheet
	for _, s := range append(jigs(j), drilled(j)...) {
		if ofJig(s.ID) {
			out = append(out, s)
		}
	}
	return out
}

// The sheets of the jigs of three designs are those of the golden files, one of them
// with the bearing at the tip of its bit and a plate that is only proposed.
func TestGoldenJigs(t *testing.T) {
	tip := "[[bit]]\nname = \"flush\"\nd = 16\ncut = 25\nbearing = {d = 16, height = 5, side = \"tip\"}\n\n[[bit]]\nname = \"pattern\""
	for name, j := range map[string]*job.Job{
		"millrace":  jobtest.File(t, "millrace.toml"),
		"penstock":  jobtest.File(t, "designs/penstock.toml"),
		"otherwise": jobtest.File(t, "millrace.toml", "[[bit]]\nname = \"pattern\"", tip, "outrigger = 240\n", "", `hand = "right"`, `hand = "left"`),
	} {
		var b strings.Builder
		for _, s := range jigSheets(j) {
			b.WriteString(digest(s))
			b.WriteByte('\n')
		}
		golden := filepath.Join("testdata", "jigs", name+".txt")
		if *update {
			if err := os.MkdirAll(filepath.Dir(golden), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(golden, []byte(b.String()), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(want) {
			t.Errorf("%s differs from what is drawn now; look at both, then run go test -update\n%s", golden, firstDifference(b.String(), string(want)))
		}
	}
}

// Every sheet of a jig can be laid out without words over one another, says what its
// maker must know, and holds lines to cut; both hands.
func TestJigSheetsAreWhole(t *testing.T) {
	for _, hand := range []string{"right", "left"} {
		for _, j := range []*job.Job{
			jobtest.File(t, "millrace.toml", `hand = "right"`, `hand = "`+hand+`"`),
			jobtest.File(t, "designs/penstock.toml", "design = 1", "design = 1\nhand = \""+hand+`"`),
		} {
			for _, s := range jigSheets(j) {
				d, err := render.Layout(s, render.LayoutOptions{})
				if err != nil {
					t.Fatalf("%s: %v", s.ID, err)
				}
				readable(t, d)
				has := map[string]bool{}
				for _, f := range s.Block {
					has[f.Name] = f.Value != ""
					if strings.Contains(f.Value, "NaN") || strings.Contains(f.Value, "Inf") {
						t.Errorf("%s: %s: %s", s.ID, f.Name, f.Value)
					}
				}
				for _, n := range []string{"Jig", "Face", "Cut", "Offset", "Proof"} {
					if !has[n] {
						t.Errorf("%s does not say %q", s.ID, n)
					}
				}
				if !has["Datum"] && !has["Stands"] {
					t.Errorf("%s does not say where it lies", s.ID)
				}
				notes := strings.Join(s.Notes, " ")
				if !strings.Contains(notes, "manual") || !strings.Contains(notes, "otection") && !strings.Contains(notes, "nplug") {
					t.Errorf("%s cautions nobody: %s", s.ID, notes)
				}
				if MarksOnly(s.ID) {
					t.Errorf("%s has no cut file", s.ID)
				}
				cuts := 0
				for _, g := range s.Groups {
					for _, q := range g.Shapes {
						if q.Kind != render.Cut {
							continue
						}
						cuts++
						if !q.Path.Closed() || q.Path.Check() != nil || q.Layer != LayerOutside {
							t.Errorf("%s: cut line %s: closed %v, %v, on %s", s.ID, q.ID, q.Path.Closed(), q.Path.Check(), q.Layer)
						}
					}
				}
				if cuts == 0 {
					t.Errorf("%s has nothing to cut", s.ID)
				}
			}
		}
	}
}

// The outrigger is drawn to the numbers it says: plate, own base, hole.
func TestOutriggerSheet(t *testing.T) {
	s := outrigger(jobtest.File(t, "millrace.toml"), jobtest.File(t, "millrace.toml").Jigs.Outrigger)
	got := map[string]float64{}
	for _, q := range s.Groups[0].Shapes {
		got[q.ID] = q.Path.Bounds().W()
	}
	if got["cut-plate"] != 240 || got["own-base"] != 152 || s.Holes[0].D != 23 || s.Holes[0].At != geom.Pt(0, 0) {
		t.Errorf("%v, hole %+v", got, s.Holes[0])
	}
}
