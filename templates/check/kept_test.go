package check_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// keptOf returns what a set of the job would hold, without its text.
func keptOf(j *job.Job) *job.Kept {
	k := &job.Kept{Hand: j.Hand(), Thickness: j.Thickness, Pins: j.Pins}
	for _, p := range j.Parts {
		k.Parts = append(k.Parts, job.KeptPart{Part: p, Cut: j.Marked(p.ID)})
	}
	return k
}

// round solves a design round what is kept and returns what the rule says.
func round(t *testing.T, kept *job.Kept, text string) []check.Finding {
	t.Helper()
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.SolveRound(kept, d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return only(j, "cut-already")
}

// tailCut marks the tail pickup as cut.
var tailCut = []string{`kind = "humbucker"`, "kind = \"humbucker\"", "depth = 19\ncut = {bit = \"small\"}", "depth = 19\ncut = {bit = \"small\", done = true}"}

func init() {
	at := func(edits ...string) func(t *testing.T) []check.Finding {
		return func(t *testing.T) []check.Finding {
			return round(t, keptOf(solve(t, edit(t))), edit(t, append(slices.Clone(tailCut), edits...)...))
		}
	}
	examples = append(examples,
		example{"cut-already", check.Stop, at(), at("at = 42", "at = 42.1")},
		example{"cut-already", check.Stop, at("at = 130", "at = 140"), at("depth = 19\n", "depth = 19.1\n")},
		example{"cut-already", check.Warn, at(), func(t *testing.T) []check.Finding { return run(t, edit(t, tailCut...)) }},
	)
}

// Moving a part that is cut finds the threshold of 0.02 mm, along and across, up
// and down.
func TestCutAlreadyThreshold(t *testing.T) {
	kept := keptOf(solve(t, edit(t)))
	for _, tt := range []struct {
		old, new        string
		good, bad, want float64
	}{
		{"at = 42", "at = %s", 42, 43, 42 + cut.Seen},
		{"at = 42", "at = %s", 42, 41, 42 - cut.Seen},
		{"depth = 19\n", "depth = %s\n", 19, 20, 19 + cut.Seen},
		{"depth = 19\n", "depth = %s\n", 19, 18, 19 - cut.Seen},
		{"room = 0.75", "room = %s", 0.75, 1, 0.75 + cut.Seen/math.Sqrt2}, // the corners, of the same radius, go both ways at once
	} {
		got := turningPoint(t, tt.good, tt.bad, func(v float64) bool {
			text := edit(t, append(slices.Clone(tailCut), tt.old, strings.Replace(tt.new, "%s", fmt.Sprintf("%.6f", v), 1))...)
			return levelOf(round(t, kept, text), "cut-already") == int(check.Stop)
		})
		if math.Abs(got-tt.want) > 1e-3 {
			t.Errorf("%s: turns at %.4f, want %.4f", tt.new, got, tt.want)
		}
	}
}

// The finding names the part, both measures, how much, where, and the way out.
func TestCutAlreadySays(t *testing.T) {
	kept := keptOf(solve(t, edit(t)))
	fs := round(t, kept, edit(t, append(slices.Clone(tailCut), "at = 42", "at = 44", "depth = 19\n", "depth = 20\n")...))
	if len(fs) != 1 || fs[0].Level != check.Stop || math.Abs(fs[0].Got-2) > 1e-3 || fs[0].Want != cut.Seen || len(fs[0].Places) != 2 || fs[0].At.Line == 0 {
		t.Fatalf("%+v", fs)
	}
	for _, w := range []string{`pickup cavity "tail" is cut`, "edge moved by up to 2 mm, at x ", "depth 20 in place of 19 mm"} {
		if !strings.Contains(fs[0].Message, w) {
			t.Errorf("%s\nwant %s", fs[0].Message, w)
		}
	}
	// One finding for all that nobody has on record.
	fs = round(t, &job.Kept{Hand: "right", Thickness: 45}, edit(t, append(slices.Clone(tailCut), `at = [-75, -30]`, "at = [-75, -30]\ncut = true")...))
	if len(fs) != 1 || fs[0].Level != check.Warn || !strings.Contains(fs[0].Message, `the set made before has none of them: pickup cavity "tail", key recess "low"`) {
		t.Errorf("%+v", fs)
	}
	// One that is cut and was renamed is recognised.
	was := keptOf(solve(t, edit(t, tailCut...)))
	fs = round(t, was, edit(t, append(slices.Clone(tailCut), "name = \"tail\"", "name = \"rear\"")...))
	if len(fs) != 2 || fs[1].Level != check.Stop || !strings.Contains(fs[1].Message, `pickup cavity "tail" is cut, and the design no longer has it`) ||
		fs[1].Cure != `pickup cavity "rear" lies where it lies: give that the name "tail" back` || fs[1].At.Line == 0 {
		t.Errorf("%+v", fs)
	}
	// A part of another kind under the same name does not stand for it.
	for i := range kept.Parts {
		if kept.Parts[i].ID == "pickup-tail" {
			kept.Parts[i].Kind = part.Chamber
		}
	}
	if fs = round(t, kept, edit(t, tailCut...)); len(fs) != 1 || fs[0].Level != check.Warn {
		t.Errorf("%+v", fs)
	}
}
