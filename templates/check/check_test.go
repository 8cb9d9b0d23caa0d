package check_test

import (
	"math"
	"strings"
	"sync"
	"testing"

	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
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

// run returns the findings of a design. Tables that share a design share its run.
func run(t *testing.T, text string) []check.Finding {
	t.Helper()
	if fs, ok := ran.Load(text); ok {
		return fs.([]check.Finding)
	}
	fs := check.Run(solve(t, text))
	ran.Store(text, fs)
	return fs
}

// ran holds the findings of designs, by their text.
var ran sync.Map

// memory of the tests: nearly all of their designs have the same body.
var memory job.Memory

func solve(t *testing.T, text string) *job.Job {
	t.Helper()
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	j, err := memory.Solve(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func TestSoundDesign(t *testing.T) {
	t.Parallel()
	for _, f := range run(t, edit(t)) {
		t.Errorf("%s %s: %s", f.Level, f.Check, f.Message)
	}
}

// limits holds, rule by rule, a design just on the right side of a limit, and one
// 0.1 mm over it.
func limits() []limitCase {
	return []limitCase{
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
		{"key-length", check.Warn,
			[]string{"length = 50", "length = 74.9"}, []string{"length = 50", "length = 75.1"}},
		{"wood-movement", check.Warn, // Handbook table 13-5, black walnut C_T 0.00274: 60 mm · 4.86 % = 0.799, 4.88 % = 0.802
			[]string{"rough = 45", "rough = 45\nwood = \"Walnut, black\"\nmoisture = {now = 7, in_use = 11.86}", "length = 50", "length = 60"},
			[]string{"rough = 45", "rough = 45\nwood = \"Walnut, black\"\nmoisture = {now = 11.88, in_use = 7}", "length = 50", "length = 60"}},
		{"bit-reach", check.Stop, // keys 12 deep under a template of 18
			[]string{`name = "small"`, "name = \"small\"\nreach = 56.1"}, []string{`name = "small"`, "name = \"small\"\nreach = 55.9"}},
		{"bush-reach", check.Stop,
			[]string{`cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}}`, bushed, "[[bit]]\nname = \"large\"", "[[bush]]\nname = \"ring\"\nd = 17\nreach = 18\n[[bit]]\nname = \"large\""},
			[]string{`cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}}`, bushed, "[[bit]]\nname = \"large\"", "[[bush]]\nname = \"ring\"\nd = 17\nreach = 18.1\n[[bit]]\nname = \"large\""}},
		{"inlay-collar", check.Stop, // 8 + 2·6.35 − 2·0.08 = 20.54
			inlay("20.50"), inlay("20.48")},
		{"border-even", check.Warn, // a bearing larger than the bit rounds the corners of the key, and the gap opens there
			border("6.35"), border("9")},
		{"border-bends", check.Warn, // radius 7.95 − 0.35 = 7.6 over 25 · 0.3 = 7.5; 7.75 − 0.35 under it
			[]string{"gap = 0.08", "gap = 0.08\nborder = 0.3\nglue_line = 0.05", `cut = {bit = "small"}`, `cut = {bit = "wide"}`, "[[bit]]\nname = \"large\"", wide("15.8")},
			[]string{"gap = 0.08", "gap = 0.08\nborder = 0.3\nglue_line = 0.05", `cut = {bit = "small"}`, `cut = {bit = "wide"}`, "[[bit]]\nname = \"large\"", wide("15.4")}},
		{"glue-gap", check.Warn, // 0.08 + 12 · tan β: 0.15 at 0.334°
			[]string{"gap = 0.08", "gap = 0.08\ntaper = 0.32\nlead_in = 0.4"}, []string{"gap = 0.08", "gap = 0.08\ntaper = 0.35"}},
		{"key-behind-key", check.Stop, // 45 − 2 · depth
			[]string{"depth = 12", "depth = 20.4", "at = [-75, 75]\nangle = 0", "at = [-75, -30]\nangle = 0\nface = \"back\""},
			[]string{"depth = 12", "depth = 20.6", "at = [-75, 75]\nangle = 0", "at = [-75, -30]\nangle = 0\nface = \"back\""}},
		{"key-met", check.Note, // key's end at −50 + 25 − gap; tail's edge at −36.25
			[]string{"at = [-75, 75]\n", "at = [-61.4, 42]\nmeets = true\n"}, []string{"at = [-75, 75]\n", "at = [-61.0, 42]\nmeets = true\n"}},
		{"string-to-edge", check.Stop,
			[]string{"nut_width = 43", "nut_width = 40.1"}, []string{"nut_width = 43", "nut_width = 39.9"}},
	}
}

// limitCase is edits of the sound design for one limit of one rule.
type limitCase struct {
	rule       string
	level      check.Level
	good, over []string
}

func TestLimits(t *testing.T) {
	t.Parallel()
	for _, tt := range limits() {
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

// states holds the rules whose fault is a whole state of things; the sound design
// is free of it.
func states() []stateCase {
	return []stateCase{
		{"void-to-outline", check.Stop, []string{"at = 130", "at = 300"}},
		{"key-in-outline", check.Stop, []string{"at = [-75, -30]", "at = [-150, -30]"}},
		{"scale-ruler", check.Note, []string{"measured = [100, 100]", "margin = 10"}},
		{"key-waist", check.Warn, []string{"waist = 13", "waist = 7.5", `cut = {bit = "small"}`, `cut = {bit = "small"}`, "corners = \"rounded\"", "corners = \"chiselled\"", "bearing = {d = 6.35, height = 5}", "bearing = {d = 9.525, height = 5}"}},
		{"wood-left", check.Stop, []string{"corners = \"rounded\"", "corners = \"chiselled\"", "bearing = {d = 6.35, height = 5}", "bearing = {d = 19.05, height = 5}", "corner = 9", "corner = 16", "corner = 6.4", "corner = 12", "corner = 6.4", "corner = 10", "width = 21", "width = 30"}},
		{"passes", check.Stop, []string{"thickness = 18", "thickness = 6", "depth = 18", "depth = 7"}},
		{"follower-passes", check.Stop, []string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[70, -60], [120, -60], [120, -20], [100, -20], [97.0, -10], [120, -8], [120, 20], [70, 20], [70, -8], [93.0, -10], [91.8, -20], [70, -20]]", "corner = 9", "corner = 3.2", `cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}}`, ""}},
	}
}

// stateCase is edits of the sound design that break one rule.
type stateCase struct {
	rule  string
	level check.Level
	edits []string
}

func TestStates(t *testing.T) {
	t.Parallel()
	for _, tt := range states() {
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
	t.Parallel()
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

// bushed cuts the cover with a guide bush.
const bushed = `cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small", bush = "ring"}}`

// inlay makes the keys with an inlay set of bush 8 and the given collar.
func inlay(collar string) []string {
	return []string{
		"gap = 0.08\ncut = {bit = \"small\"}", "gap = 0.08\ncollar = " + collar + "\ncut = {bit = \"small\", bush = \"inlay\"}",
		"ends = 24\nwaist = 13", "ends = 34\nwaist = 24",
		"[[bit]]\nname = \"large\"", "[[bush]]\nname = \"inlay\"\nd = 8\n[[bit]]\nname = \"large\"",
	}
}

// border puts strips of 0.6 round sharp keys, cut with a bearing of the given
// diameter on the bit of 6.35.
func border(bearing string) []string {
	return []string{"corners = \"rounded\"", "corners = \"chiselled\"", "gap = 0.08", "gap = 0.08\nborder = 0.6\nglue_line = 0.05", "bearing = {d = 6.35, height = 5}", "bearing = {d = " + bearing + ", height = 5}"}
}

// An inlay set has one opening for both, and fits to the collar's gap.
func TestInlaySet(t *testing.T) {
	t.Parallel()
	j := solve(t, edit(t, inlay("20.5")...))
	if g := j.Keys.Gap; math.Abs(g.Min-0.1) > 1e-4 || math.Abs(g.Max-0.1) > 1e-4 { // (8 + 2·6.35 − 20.5)/2
		t.Errorf("gap %.5f to %.5f, want 0.1", g.Min, g.Max)
	}
	n := 0
	for _, e := range j.Templates {
		if e.For.Kind == part.Key || e.For.Kind == part.Recess {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d templates for the keys of an inlay set, want one", n)
	}
}

// The movement of the wood: L · ΔMC · C of the Wood Handbook, 0.66 for walnut of
// 60 mm and 4 %, and 26 mm of hard maple (C_T 0.00353) 0.37.
func TestWoodMovement(t *testing.T) {
	t.Parallel()
	j := solve(t, edit(t, "rough = 45", "rough = 45\nwood = \"Walnut, black\"\nmoisture = {now = 8, in_use = 12}", "length = 50\nends = 24", "length = 60\nends = 26\nwood = \"Maple, sugar\""))
	w := j.Keys.Wood
	if math.Abs(w.Along-0.66) > 0.005 || math.Abs(w.Across-0.37) > 0.005 {
		t.Errorf("along %.3f, across %.3f; want 0.66 and 0.37", w.Along, w.Across)
	}
	if w.GlueArea <= 0 || w.Shear <= 0 {
		t.Errorf("glue area %g, shear %g", w.GlueArea, w.Shear)
	}
}

// What a key cannot be made of or with: an error with its place and the cure.
func TestKeyErrors(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		want  string
		edits []string
	}{
		{"slab.wood: \"walnut\"", []string{"rough = 45", "rough = 45\nwood = \"walnut\"\nmoisture = {now = 8, in_use = 12}"}},
		{"Walnut, black", []string{"gap = 0.08", "gap = 0.08\nwood = \"walnut\""}},
		{"both: {now", []string{"rough = 45", "rough = 45\nmoisture = {now = 8}"}},
		{"needs the bush", []string{"gap = 0.08", "gap = 0.08\ncollar = 20"}},
		{"at most", inlay("21")},
	} {
		d, err := design.Parse("test.toml", []byte(edit(t, tt.edits...)))
		if err == nil {
			_, err = memory.Solve(d, nil)
		}
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "test.toml:") {
			t.Errorf("%q: %v, want …%s…", tt.edits, err, tt.want)
		}
	}
}

// Keys placed on the back or on both faces: no hard rule is broken, the keys lie
// on the face asked for, and the recess is cut deeper by what that face loses.
func TestFaces(t *testing.T) {
	t.Parallel()
	hand := "[[key]]\nname = \"low\"\nat = [-75, -30]\nangle = 0\n[[key]]\nname = \"high\"\nat = [-75, 75]\nangle = 0\n"
	for _, tt := range []struct {
		face  string
		depth float64 // of the routing: 12 and what comes off
		faces int
	}{{"front", 13, 1}, {"back", 14.5, 1}, {"both", 14.5, 2}} {
		j := solve(t, edit(t, hand, "", "length = 50", "place = true\nface = \""+tt.face+"\"\nlength = 50", "plane = {front = 0, back = 0}", "plane = {front = 1, back = 2.5}", "rough = 45", "rough = 48.5", "depth = 38", "depth = 20"))
		if len(j.Keys.Poses) < 2*tt.faces || len(j.Keys.Faces()) != tt.faces {
			t.Errorf("%s: %d keys on %v", tt.face, len(j.Keys.Poses), j.Keys.Faces())
		}
		for _, k := range j.Keys.Poses {
			if tt.faces == 1 && k.Face.String() != tt.face {
				t.Errorf("%s: key %s on the %s", tt.face, k.Name, k.Face)
			}
		}
		for i, e := range j.Templates {
			if e.For.Kind == part.Recess && math.Abs(j.Routing(i).Wanted-tt.depth) > 1e-9 {
				t.Errorf("%s: recess cut %g deep, want %g", tt.face, j.Routing(i).Wanted, tt.depth)
			}
		}
		for _, f := range check.Run(j) {
			if f.Level == check.Stop {
				t.Errorf("%s: %s: %s", tt.face, f.Check, f.Message)
			}
		}
	}
}

// wide adds a bit of the given diameter before the large one.
func wide(d string) string {
	return "[[bit]]\nname = \"wide\"\nd = " + d + "\ncut = 12.7\nbearing = {d = " + d + ", height = 5}\n[[bit]]\nname = \"large\""
}
