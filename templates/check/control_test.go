package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// wired is the sound design with a cavity grown round its controls. Bodies and
// knobs of volume and tone are 25 and 20 across, 45 apart.
func wired(t *testing.T, pairs ...string) string {
	t.Helper()
	s := edit(t)
	a := strings.Index(s, "[[cavity]]")
	b := strings.Index(s, "[template]")
	s = s[:a] + `[[cavity]]
name = "control"
depth = 39
corner = 9
wall = 5
cut = {bit = "small"}
cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}, screw = {gauge = 4, length = 12.7}}
[[cavity.control]]
name = "volume"
kind = "pot"
at = [80, -50]
body = 25
thread = 9.5
hole = 9.5
knob = 20
[[cavity.control]]
name = "tone"
kind = "pot"
at = [80, -5]
body = 25
thread = 9.5
hole = 9.5
knob = 20
` + s[b:]
	for i := 0; i+1 < len(pairs); i += 2 {
		if !strings.Contains(s, pairs[i]) {
			t.Fatalf("the wired design has no %q", pairs[i])
		}
		s = strings.Replace(s, pairs[i], pairs[i+1], 1)
	}
	return s
}

// levelOf returns the level at which a rule finds fault with a design; −1 for
// none.
func levelOf(fs []check.Finding, rule string) int {
	worst := -1
	for _, f := range fs {
		if f.Check == rule {
			worst = max(worst, int(f.Level))
		}
	}
	return worst
}

// drawn is an outline in place of the grown one: 50 wide, 80 high.
const drawn = "outline = [[60, -65], [110, -65], [110, 15], [60, 15]]\nwall = 5"

// bought is a cover at hand, 70 × 100 with corners of radius r.
func bought(r string) string {
	return "outline = [[50, -75], [120, -75], [120, 25], [50, 25]], corner = " + r + ", screw = {gauge = 4, length = 12.7, at = [[55, -70], [115, -70], [115, 20], [55, 20]]}"
}

func wiredExample(rule string, level check.Level, good, over []string) example {
	at := func(edits []string) func(t *testing.T) []check.Finding {
		return func(t *testing.T) []check.Finding { return run(t, wired(t, edits...)) }
	}
	return example{rule, level, at(good), at(over)}
}

const screwed = "screw = {gauge = 4, length = 12.7}"

func init() {
	examples = append(examples,
		wiredExample("thread-length", check.Stop, // 45 − 39 = 6 of wood; the builder's own 6.5, 6.6
			[]string{"depth = 39", "depth = 38", "hole = 9.5", "hole = 9.5\nwood = 6.5"},
			[]string{"depth = 39", "depth = 38", "hole = 9.5", "hole = 9.5\nwood = 6.6"}),
		wiredExample("controls-apart", check.Stop, // bodies: pitch − 25
			[]string{"[80, -5]", "[80, -22.95]"}, []string{"[80, -5]", "[80, -23.05]"}),
		wiredExample("controls-apart", check.Stop, // knobs of 40: pitch − 30
			[]string{"knob = 20", "knob = 40", "[80, -5]", "[80, -17.95]"}, []string{"knob = 20", "knob = 40", "[80, -5]", "[80, -18.05]"}),
		wiredExample("control-inside", check.Stop, // body's edge 12.5 beside its middle, wall at 110
			[]string{"wall = 5", drawn, "[80, -5]", "[97.45, -5]"}, []string{"wall = 5", drawn, "[80, -5]", "[97.55, -5]"}),
		wiredExample("control-inside", check.Warn,
			[]string{"wall = 5", drawn, "[80, -5]", "[96.45, -5]"}, []string{"wall = 5", drawn, "[80, -5]", "[96.55, -5]"}),
		wiredExample("control-under-cover", check.Stop, // 45 − 2.5 − 6 − deep
			[]string{"hole = 9.5", "hole = 9.5\ndeep = 35.45"}, []string{"hole = 9.5", "hole = 9.5\ndeep = 35.55"}),
		wiredExample("control-under-cover", check.Warn,
			[]string{"hole = 9.5", "hole = 9.5\ndeep = 33.45"}, []string{"hole = 9.5", "hole = 9.5\ndeep = 33.55"}),
		wiredExample("cover-seat", check.Stop, // the cavity's wall at 60, the rebate's at 50 − 0.3
			[]string{"wall = 5", strings.Replace(drawn, "60,", "52.75,", 2), "rebate = 6, cut = {bit = \"small\"}, " + screwed, bought("9") + `, cut = {bit = "small"}`},
			[]string{"wall = 5", strings.Replace(drawn, "60,", "52.65,", 2), "rebate = 6, cut = {bit = \"small\"}, " + screwed, bought("9") + `, cut = {bit = "small"}`}),
		wiredExample("cover-corner", check.Warn, // the bit leaves 3.175, less the gap of 0.3
			[]string{"wall = 5", drawn, "rebate = 6, cut = {bit = \"small\"}, " + screwed, bought("2.88") + `, cut = {bit = "small"}`},
			[]string{"wall = 5", drawn, "rebate = 6, cut = {bit = \"small\"}, " + screwed, bought("2.77") + `, cut = {bit = "small"}`}),
		wiredExample("screw-wood", check.Stop, // length less the cover of 2.5
			[]string{"length = 12.7", "length = 10.55"}, []string{"length = 12.7", "length = 10.45"}),
		wiredExample("screw-wood", check.Stop, // over the tail pickup: 45 − 2.6 − depth, at most 10.2
			[]string{screwed, "screw = {length = 12.7, at = [[30, 42]]}", "wall = 5", "outline = [[35.5, 36], [80, -65], [110, -65], [110, 48], [40, 48]]\nwall = 5", "depth = 19", "depth = 34.35"},
			[]string{screwed, "screw = {length = 12.7, at = [[30, 42]]}", "wall = 5", "outline = [[35.5, 36], [80, -65], [110, -65], [110, 48], [40, 48]]\nwall = 5", "depth = 19", "depth = 34.45"}),
		wiredExample("screw-tip", check.Stop, // 42.4 of wood less length − 2.5
			[]string{"length = 12.7", "length = 41.85, at = [[80, -76], [80, 18]]"}, []string{"length = 12.7", "length = 41.95, at = [[80, -76], [80, 18]]"}),
		wiredExample("screw-to-key", check.Stop, // the screw beside the end of a key in the back
			keyed("4.05"), keyed("3.95")),
		tampered("key-inside-recess", check.Stop, func(j *job.Job, bad bool) { j.Keys.Sizes[0].Gap.Min = map[bool]float64{false: 0, true: -0.1}[bad] }),
		tampered("template-web", check.Stop, func(j *job.Job, bad bool) {
			for i := range j.Templates {
				if e := &j.Templates[i]; e.Pinned() { // a pin left of the opening
					b := e.Shape.Bounds()
					p := e.Pins[0]
					p.At = geom.Pt(b.Min.X-p.D/2-map[bool]float64{false: 6.05, true: 5.95}[bad], b.Center().Y)
					e.Pins = []cutPin{p}
					return
				}
			}
		}),
		example{"first-bite", check.Stop, // c − (t − b) over the bit's 6.35
			func(t *testing.T) []check.Finding { return run(t, edit(t, "cut = 12.7", "cut = 19.3")) },
			func(t *testing.T) []check.Finding { return run(t, edit(t, "cut = 12.7", "cut = 19.4")) }},
		tampered("crack-bare", check.Note, func(j *job.Job, bad bool) {
			if bad {
				j.Keys.Bare = append(j.Keys.Bare, job.Bare{Crack: 1, To: 0.1})
			}
		}),
		tampered("fret-places", check.Stop, func(j *job.Job, bad bool) {
			by := geom.Vec{Y: map[bool]float64{false: 0.015, true: 0.115}[bad]}
			l := &j.Board.Slots[5].Line
			l.A, l.B = l.A.Add(by), l.B.Add(by)
		}),
	)
}

// keyed puts a key into the back so that the end of its recess, 25 mm from its
// waist, lies d mm from a screw at x = 70.
func keyed(d string) []string {
	var gap float64
	fmt.Sscan(d, &gap)
	return []string{
		"name = \"high\"\nat = [-75, 75]", fmt.Sprintf("name = \"high\"\nface = \"back\"\nmeets = true\nat = [%.3f, -76]", 70-gap-25),
		screwed, "screw = {length = 12.7, at = [[70, -76], [80, 18]]}",
	}
}

// tampered spoils a solved sound job where no design file can.
func tampered(rule string, level check.Level, spoil func(j *job.Job, bad bool)) example {
	at := func(bad bool) func(t *testing.T) []check.Finding {
		return func(t *testing.T) []check.Finding {
			j := solve(t, edit(t))
			spoil(j, bad)
			return check.Run(j)
		}
	}
	return example{rule, level, at(false), at(true)}
}

// The wired design is sound.
func TestWiredDesign(t *testing.T) {
	t.Parallel()
	for _, f := range run(t, wired(t)) {
		t.Errorf("%s %s: %s", f.Level, f.Check, f.Message)
	}
}

// A design that cannot be made: an error with its place, the numbers and the
// cure.
func TestControlErrors(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		want  []string
		edits []string
	}{
		{[]string{"cavity 1.control 2.at", "x 200, y -5", "outside the body"}, []string{"[80, -5]", "[200, -5]"}},
		{[]string{"cavity 1.control 2.at", "0.5 mm from pot \"volume\" on line", "one control in a place"}, []string{"[80, -5]", "[80, -49.5]"}},
		{[]string{"cavity 1.control 1.thread", "a thread of 5.9 mm under 6 mm", "at least 6 mm"}, []string{"thread = 9.5", "thread = 5.9"}},
		{[]string{"cavity 1.control 1.wood: 6.5 mm", "the 6 mm that the cavity leaves"}, []string{"hole = 9.5", "hole = 9.5\nwood = 6.5"}},
		{[]string{"size and body, both"}, []string{"body = 25", "body = 25\nsize = [30, 20]"}},
		{[]string{"cavity 1.cover", "ends 0.3 mm inside its cavity", "wider than the gap"}, []string{"gap = 0.3, rebate = 6", "gap = 1.8, rebate = 1.5"}},
		{[]string{"cavity 1.cover", "a cover of 70 × 100 mm", "measure the cover again"}, []string{"wall = 5", strings.Replace(drawn, "60,", "49,", 2), "rebate = 6, cut = {bit = \"small\"}, " + screwed, bought("9")}},
		{[]string{"cavity 1.cover.screw.length", "4 mm through a cover of 4.5 mm"}, []string{"thickness = 2.5, gap", "thickness = 4.5, gap", "length = 12.7", "length = 4"}},
		{[]string{"cavity 1.cover.screw.at 1", "over the cavity"}, []string{screwed, "screw = {at = [[80, -5]]}"}},
		{[]string{"cavity 1.cover.screw", "the front under it", "45.3 needed"}, []string{"length = 12.7", "length = 44.8"}},
		{[]string{"cavity 1.outline: nothing", "[[cavity.control]]"}, []string{"[[cavity.control]]\nname = \"volume\"\nkind = \"pot\"\nat = [80, -50]\nbody = 25\nthread = 9.5\nhole = 9.5\nknob = 20\n[[cavity.control]]\nname = \"tone\"\nkind = \"pot\"\nat = [80, -5]\nbody = 25\nthread = 9.5\nhole = 9.5\nknob = 20\n", ""}},
	} {
		d, err := design.Parse("test.toml", []byte(wired(t, tt.edits...)))
		if err == nil {
			_, err = memory.Solve(d, nil)
		}
		if err == nil || !strings.Contains(err.Error(), "test.toml:") {
			t.Errorf("%q: %v", tt.edits, err)
			continue
		}
		for _, w := range tt.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%q: %v, want …%s…", tt.edits, err, w)
			}
		}
	}
}

// turningPoint moves a design by halves between a value that a rule accepts and one
// that it does not, and returns where the verdict turns.
func turningPoint(t *testing.T, good, bad float64, found func(v float64) bool) float64 {
	t.Helper()
	if found(good) || !found(bad) {
		t.Fatalf("no turn between %g and %g", good, bad)
	}
	for math.Abs(good-bad) > 5e-4 {
		if mid := (good + bad) / 2; found(mid) {
			bad = mid
		} else {
			good = mid
		}
	}
	return (good + bad) / 2
}

// Moving a part finds each threshold where the sizes say it lies.
func TestControlThresholds(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		rule            string
		level           check.Level
		good, bad, want float64
		edit            func(v float64) []string
	}{
		{"controls-apart", check.Stop, -10, -24, -50 + 25 + 2, func(y float64) []string { return []string{"[80, -5]", fmt.Sprintf("[80, %.6f]", y)} }},
		{"control-inside", check.Warn, 90, 97, 110 - 12.5 - 1, func(x float64) []string {
			return []string{"wall = 5", drawn, "[80, -5]", fmt.Sprintf("[%.6f, -5]", x)}
		}},
		{"control-inside", check.Stop, 90, 100, 110 - 12.5, func(x float64) []string {
			return []string{"wall = 5", drawn, "[80, -5]", fmt.Sprintf("[%.6f, -5]", x)}
		}},
		{"thread-length", check.Stop, 4, 7, 9.5 - 3, func(w float64) []string {
			return []string{"depth = 39", "depth = 37", "hole = 9.5", fmt.Sprintf("hole = 9.5\nwood = %.6f", w)}
		}},
		{"cover-corner", check.Warn, 4, 1, 3.175 - 0.3, func(r float64) []string {
			return []string{"wall = 5", drawn, "rebate = 6, cut = {bit = \"small\"}, " + screwed, bought(fmt.Sprintf("%.6f", r)) + `, cut = {bit = "small"}`}
		}},
		{"screw-wood", check.Stop, 12, 8, 8 + 2.5, func(l float64) []string { return []string{"length = 12.7", fmt.Sprintf("length = %.6f", l)} }},
		{"screw-tip", check.Stop, 30, 43, 45 - 2.6 - 3 + 2.5, func(l float64) []string {
			return []string{"length = 12.7", fmt.Sprintf("length = %.6f, at = [[80, -76], [80, 18]]", l)}
		}},
		{"screw-to-key", check.Stop, 6, 2, 4, func(d float64) []string { return keyed(fmt.Sprint(d)) }},
	} {
		got := turningPoint(t, tt.good, tt.bad, func(v float64) bool {
			return levelOf(only(solve(t, wired(t, tt.edit(v)...)), tt.rule), tt.rule) >= int(tt.level)
		})
		// A budget for corners fitted and measured; keys are proved to 0.02.
		if math.Abs(got-tt.want) > 3e-3 {
			t.Errorf("%s %s turns at %.4f, want %.4f", tt.rule, tt.level, got, tt.want)
		}
	}
}

// Whatever the screws of a solved cover meet, no rule finds fault with them.
func TestSolvedScrewsAreSound(t *testing.T) {
	t.Parallel()
	for _, edits := range [][]string{
		{},
		{"[80, -50]", "[60, -70]"},
		{"[80, -50]", "[95, -60]", "[80, -5]", "[110, 10]"},
		{"at = 42", "at = 20"},
		{"length = 12.7", "length = 16"},
		{screwed, "screw = {count = 6}"},
		// A key in the back whose end the rebate meets.
		{"name = \"high\"\nat = [-75, 75]", "name = \"high\"\nface = \"back\"\nmeets = true\nat = [36, -50]"},
		{"name = \"high\"\nat = [-75, 75]", "name = \"high\"\nface = \"back\"\nmeets = true\nat = [80, -88]"},
	} {
		j := solve(t, wired(t, edits...))
		n := 0
		for _, f := range check.Run(j) {
			if strings.HasPrefix(f.Check, "screw") || f.Check == "cover-seat" || f.Check == "cover-corner" || f.Check == "wood-left" {
				t.Errorf("%q: %s: %s", edits, f.Check, f.Message)
			}
		}
		for _, p := range j.OfKind(part.Screw) {
			n += len(p.Bores)
		}
		if n < 3 {
			t.Errorf("%q: %d screws", edits, n)
		}
	}
}
