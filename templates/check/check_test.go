package check_test

import (
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
)

// sound is an invented design that no rule but the ruler's finds fault with.
const sound = `
design = 1
name = "Sound"
units = "mm"
[slab]
rough = 45
plane = {front = 0, back = 0}
blank = [560, 420]
[[slab.crack]]
front = [[-60, -60], [-60, 100]]
tips = ["first", "last"]
[strings]
scale = 628.65
frets = 22
spread = {nut = 36, bridge = 52}
[fretboard]
nut_width = 43
end_width = 57
[body]
family = "lowland"
tail = 110
[keys]
length = 50
ends = 24
waist = 13
depth = 12
corners = "rounded"
gap = 0.08
cut = {bit = "small"}
[[key]]
name = "low"
at = [-75, -30]
angle = 0
[[key]]
name = "high"
at = [-75, 75]
angle = 0
[[pickup]]
name = "tail"
kind = "humbucker"
at = 42
length = 71
width = 40
room = 0.75
corner = 6.4
depth = 19
cut = {bit = "small"}
[[pickup]]
name = "neck"
kind = "single-coil"
at = 130
length = 72
width = 21
room = 0.75
corner = 6.4
depth = 18
cut = {bit = "small"}
[[cavity]]
name = "control"
outline = [[66, -56], [114, -56], [114, 20], [66, 20]]
corner = 9
depth = 38
cut = {bit = "small"}
cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}}
[template]
thickness = 18
smallest_inside_radius = 3
[print]
measured = [100, 100]
[[bit]]
name = "small"
d = 6.35
cut = 12.7
bearing = {d = 6.35, height = 5}
[[bit]]
name = "large"
d = 12.7
cut = 25
bearing = {d = 12.7, height = 5}
`

// edit puts new for old in the sound design; the crack and the keys of the test
// lie on x = −75.
func edit(t *testing.T, pairs ...string) string {
	t.Helper()
	s := strings.Replace(sound, "[[-60, -60], [-60, 100]]", "[[-75, -60], [-75, 100]]", 1)
	for i := 0; i+1 < len(pairs); i += 2 {
		if !strings.Contains(s, pairs[i]) {
			t.Fatalf("the sound design has no %q", pairs[i])
		}
		s = strings.Replace(s, pairs[i], pairs[i+1], 1)
	}
	return s
}

func run(t *testing.T, text string) []check.Finding {
	t.Helper()
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Solve(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return check.Run(j)
}

func TestSoundDesign(t *testing.T) {
	for _, f := range run(t, edit(t)) {
		t.Errorf("%s %s: %s", f.Level, f.Check, f.Message)
	}
}

// Each rule: a design just on the right side of a limit, and one 0.1 mm over it.
func TestLimits(t *testing.T) {
	for _, tt := range []struct {
		rule       string
		level      check.Level
		good, over []string
	}{
		{"void-to-void", check.Stop, // tail's edge at 42 + 20.75, neck's 22.5 high
			[]string{"at = 130", "at = 78.1"}, []string{"at = 130", "at = 77.9"}},
		{"void-to-void", check.Warn,
			[]string{"at = 130", "at = 80.1"}, []string{"at = 130", "at = 79.9"}},
		{"floor", check.Stop,
			[]string{"depth = 38", "depth = 41.95"}, []string{"depth = 38", "depth = 42.05"}},
		{"floor", check.Warn,
			[]string{"depth = 38", "depth = 38.95"}, []string{"depth = 38", "depth = 39.05"}},
		{"key-to-void", check.Stop, // key's end at −75 + 25 = −50; tail's edge at −36.25
			[]string{"at = [-75, 75]", "at = [-65.3, 42]"}, []string{"at = [-75, 75]", "at = [-65.2, 42]"}},
		{"key-to-void", check.Note,
			[]string{"at = [-75, 75]", "at = [-71.3, 42]"}, []string{"at = [-75, 75]", "at = [-71.2, 42]"}},
		{"glue-gap", check.Warn,
			[]string{"gap = 0.08", "gap = 0.032"}, []string{"gap = 0.08", "gap = 0.025"}},
		{"glue-gap", check.Warn,
			[]string{"gap = 0.08", "gap = 0.149"}, []string{"gap = 0.08", "gap = 0.16"}},
		{"cover-seat", check.Stop,
			[]string{"rebate = 6", "rebate = 3.05"}, []string{"rebate = 6", "rebate = 2.95"}},
		{"cover-seat", check.Warn,
			[]string{"rebate = 6", "rebate = 5.05"}, []string{"rebate = 6", "rebate = 4.95"}},
		{"web-between-faces", check.Stop, // the cavity under the tail pickup: 45 − 19 − depth
			[]string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[0, 20], [60, 20], [60, 60], [0, 60]]", "depth = 38", "depth = 21.9"},
			[]string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[0, 20], [60, 20], [60, 60], [0, 60]]", "depth = 38", "depth = 22.1"}},
		{"key-over-void", check.Stop, // 45 − 12 − depth
			[]string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[-100, -50], [-50, -50], [-50, 0], [-100, 0]]", "depth = 38", "depth = 28.9"},
			[]string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[-100, -50], [-50, -50], [-50, 0], [-100, 0]]", "depth = 38", "depth = 29.1"}},
		{"key-on-crack", check.Warn,
			[]string{"at = [-75, 75]", "at = [-75.95, 75]"}, []string{"at = [-75, 75]", "at = [-76.05, 75]"}},
		{"key-on-crack", check.Stop, // a sixth of the waist of 13
			[]string{"at = [-75, 75]", "at = [-77.15, 75]"}, []string{"at = [-75, 75]", "at = [-77.2, 75]"}},
		{"key-square", check.Warn,
			[]string{"at = [-75, 75]\nangle = 0", "at = [-75, 75]\nangle = 19.9"}, []string{"at = [-75, 75]\nangle = 0", "at = [-75, 75]\nangle = 20.1"}},
		{"key-to-key", check.Stop, // ends 24 high: pitch less 24, less what the rounding takes
			[]string{"at = [-75, 75]", "at = [-75, 2.1]"}, []string{"at = [-75, 75]", "at = [-75, -0.5]"}},
		{"tip-covered", check.Warn, // square to the flank: (25.6 from the waist) · cos 12.4°
			[]string{"[-75, 100]", "[-75, 106.9]"}, []string{"[-75, 100]", "[-75, 107.4]"}},
		{"string-to-edge", check.Stop,
			[]string{"nut_width = 43", "nut_width = 40.1"}, []string{"nut_width = 43", "nut_width = 39.9"}},
	} {
		has := func(edits []string) bool {
			for _, f := range run(t, edit(t, edits...)) {
				if f.Check == tt.rule && f.Level >= tt.level {
					return true
				}
			}
			return false
		}
		if has(tt.good) {
			t.Errorf("%s %s: found fault with %q", tt.rule, tt.level, tt.good)
		}
		if !has(tt.over) {
			t.Errorf("%s %s: let %q pass", tt.rule, tt.level, tt.over)
		}
	}
}

// Rules whose fault is a whole state of things.
func TestStates(t *testing.T) {
	for _, tt := range []struct {
		rule  string
		level check.Level
		edits []string
	}{
		{"void-to-outline", check.Stop, []string{"at = 130", "at = 300"}},
		{"key-in-outline", check.Stop, []string{"at = [-75, -30]", "at = [-150, -30]"}},
		{"scale-ruler", check.Note, []string{"measured = [100, 100]", "margin = 10"}},
		{"key-waist", check.Warn, []string{"waist = 13", "waist = 7.5", `cut = {bit = "small"}`, `cut = {bit = "small"}`, "corners = \"rounded\"", "corners = \"chiselled\"", "bearing = {d = 6.35, height = 5}", "bearing = {d = 9.525, height = 5}"}},
		{"wood-left", check.Stop, []string{"corners = \"rounded\"", "corners = \"chiselled\"", "bearing = {d = 6.35, height = 5}", "bearing = {d = 19.05, height = 5}", "corner = 9", "corner = 16", "corner = 6.4", "corner = 12", "corner = 6.4", "corner = 10", "width = 21", "width = 30"}},
		{"passes", check.Stop, []string{"thickness = 18", "thickness = 6", "depth = 18", "depth = 7"}},
		{"follower-passes", check.Stop, []string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[70, -60], [120, -60], [120, -20], [100, -20], [97.0, -10], [120, -8], [120, 20], [70, 20], [70, -8], [93.0, -10], [91.8, -20], [70, -20]]", "corner = 9", "corner = 3.2", `cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}}`, ""}},
	} {
		found := false
		for _, f := range run(t, edit(t, tt.edits...)) {
			if f.Check == tt.rule && f.Level == tt.level {
				found = true
				if f.Cure == "" || f.Message == "" {
					t.Errorf("%s: no words: %+v", tt.rule, f)
				}
			}
		}
		if !found {
			t.Errorf("%s: no %s for %q", tt.rule, tt.level, tt.edits)
		}
	}
}

// Every rule has an id in words, a sentence, and is told once.
func TestRegistry(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range check.Rules() {
		if seen[r.ID] || r.ID != strings.ToLower(r.ID) || strings.ContainsAny(r.ID, " _") {
			t.Errorf("id %q", r.ID)
		}
		seen[r.ID] = true
		if !strings.HasSuffix(r.Tests, ".") {
			t.Errorf("%s: %q is no sentence", r.ID, r.Tests)
		}
	}
}
