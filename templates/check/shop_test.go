package check_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/part"
)

// found returns the findings of a rule, the worst level first.
func found(fs []check.Finding, rule string) (out []check.Finding) {
	for _, f := range fs {
		if f.Check == rule {
			out = append(out, f)
		}
	}
	return out
}

// worst returns the highest level of a rule; −1 without a finding.
func worst(fs []check.Finding, rule string) int {
	l := -1
	for _, f := range found(fs, rule) {
		l = max(l, int(f.Level))
	}
	return l
}

const (
	none = -1
	note = int(check.Note)
	warn = int(check.Warn)
	stop = int(check.Stop)
)

var (
	sharp  = []string{"corners = \"rounded\"", "corners = \"chiselled\"", "smallest_inside_radius = 3", "smallest_inside_radius = 0"}
	rebate = `cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = "small"}}`
)

// with is the sound design with further edits.
func with(base []string, more ...string) []string {
	return append(append([]string{}, base...), more...)
}

// The rules of the router, each at two designs that lie 0.1 mm apart on both sides
// of a limit. The numbers beside them are worked by hand from the rule.
func TestShopLimits(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		rule       string
		good, over []string
		is, gets   int // highest levels
	}{
		// A larger bearing rounds the sharp corners of the key: k(1/sin(θ/2) − 1) from the tip, θ = 77.6°,
		// over 0.02 from k = 0.033, a bearing of 6.417.
		{"wood-left", with(sharp, "bearing = {d = 6.35, height = 5}", "bearing = {d = 6.38, height = 5}"),
			with(sharp, "bearing = {d = 6.35, height = 5}", "bearing = {d = 6.48, height = 5}"), none, stop},
		// A neck of the waist of a sharp key, for a bearing of 6.35: 0.2 and 0.5 of play.
		{"follower-passes", with(sharp, "waist = 13", "waist = 6.6"), with(sharp, "waist = 13", "waist = 6.5"), warn, stop},
		{"follower-passes", with(sharp, "waist = 13", "waist = 6.9"), with(sharp, "waist = 13", "waist = 6.8"), none, warn},
		// The same neck for the cutter, under a bearing of 4 that passes it.
		{"follower-passes", with(sharp, "waist = 13", "waist = 6.6", "bearing = {d = 6.35, height = 5}", "bearing = {d = 4, height = 5}"),
			with(sharp, "waist = 13", "waist = 6.5", "bearing = {d = 6.35, height = 5}", "bearing = {d = 4, height = 5}"), warn, stop},
		// First bite c − (t − b) = 12.7 − t + 5 over d/2 = 3.175 from t = 14.525, over d = 6.35 from 11.35.
		{"first-bite", []string{"thickness = 18", "thickness = 14.6"}, []string{"thickness = 18", "thickness = 14.5"}, none, warn},
		{"first-bite", []string{"thickness = 18", "thickness = 11.4"}, []string{"thickness = 18", "thickness = 11.3"}, warn, stop},
		// A bearing of another size may not leave the template: the keys are as deep as the cutter is long.
		{"passes", []string{"bearing = {d = 6.35, height = 5}", "bearing = {d = 7, height = 5}", "depth = 12", "depth = 12.65", "depth = 19", "depth = 12", "depth = 18", "depth = 12", "depth = 38", "depth = 12"},
			[]string{"bearing = {d = 6.35, height = 5}", "bearing = {d = 7, height = 5}", "depth = 12", "depth = 12.75", "depth = 19", "depth = 12", "depth = 18", "depth = 12", "depth = 38", "depth = 12"}, none, stop},
		// The shallowest first cut of 12.7 − 15.2 + 5 = 2.5 in a rebate 2.5 + 0.1 deep.
		{"passes", []string{"thickness = 18", "thickness = 15.15"}, []string{"thickness = 18", "thickness = 15.05"}, none, stop},
		// The same round the key, which is 12 deep: its male template under a larger bearing.
		{"passes", []string{"bearing = {d = 6.35, height = 5}", "bearing = {d = 7, height = 5}", "cut = 12.7", "cut = 12.05", "depth = 19", "depth = 12", "depth = 18", "depth = 12", "depth = 38", "depth = 12"},
			[]string{"bearing = {d = 6.35, height = 5}", "bearing = {d = 7, height = 5}", "cut = 12.7", "cut = 11.95", "depth = 19", "depth = 12", "depth = 18", "depth = 12", "depth = 38", "depth = 12"}, none, stop},
		// What is not measured is said.
		{"passes", nil, []string{"cut = 12.7\n", ""}, none, note},
		{"bit-reach", []string{`name = "small"`, "name = \"small\"\nreach = 56"}, []string{`name = "small"`, "name = \"small\"\nreach = 55.9"}, none, stop},
		// A shank thicker than its cutter stays out of the cut, which is 38 deep.
		{"bit-reach", []string{"d = 6.35\ncut = 12.7", "d = 6.35\nshank = 8\ncut = 38.1", "corner = 9\ndepth = 38\ncut = {bit = \"small\"}", "corner = 9\ndepth = 38\ncut = {bit = \"small\", free = true}"},
			[]string{"d = 6.35\ncut = 12.7", "d = 6.35\nshank = 8\ncut = 37.9", "corner = 9\ndepth = 38\ncut = {bit = \"small\"}", "corner = 9\ndepth = 38\ncut = {bit = \"small\", free = true}"}, none, stop},
		// A free path needs no template: the depth of 38 alone.
		{"bit-reach", []string{`name = "small"`, "name = \"small\"\nreach = 38", "corner = 9\ndepth = 38\ncut = {bit = \"small\"}", "corner = 9\ndepth = 38\ncut = {bit = \"small\", free = true}", "depth = 19", "depth = 12", "depth = 18", "depth = 12"},
			[]string{`name = "small"`, "name = \"small\"\nreach = 37.9", "corner = 9\ndepth = 38\ncut = {bit = \"small\"}", "corner = 9\ndepth = 38\ncut = {bit = \"small\", free = true}", "depth = 19", "depth = 12", "depth = 18", "depth = 12"}, none, stop},
		// The deepest cut is the control cavity's 38.
		{"bit-reach", []string{"[[bit]]\nname = \"small\"", "[router]\nplunge = 38\n[[bit]]\nname = \"small\""}, []string{"[[bit]]\nname = \"small\"", "[router]\nplunge = 37.9\n[[bit]]\nname = \"small\""}, none, stop},
		{"key-to-void", []string{"at = [-75, 75]", "at = [-67.3, 42]"}, []string{"at = [-75, 75]", "at = [-67.2, 42]"}, note, warn}, // 6 to the pickup
		{"key-to-key", []string{"at = [-75, 75]", "at = [-75, 12.7]"}, []string{"at = [-75, 75]", "at = [-75, 11.7]"}, none, warn},
		// Movement and length are told apart from each other.
		{"wood-movement", []string{"rough = 45", "rough = 45\nwood = \"Walnut, black\"\nmoisture = {now = 8, in_use = 12}", "length = 50", "length = 72.9"},
			[]string{"rough = 45", "rough = 45\nwood = \"Walnut, black\"\nmoisture = {now = 8, in_use = 12}", "length = 50", "length = 73.1"}, none, warn}, // L · 4 % · 0.00274 = 0.8 at 72.99
		// A screw of 12 across, beside the pickup "tail": its opening ends at 36.25, the bearing's
		// middle at 33.075, the base of 150 at 108.075, so that the screw is clear from 114.075.
		{"base-clear", []string{"smallest_inside_radius = 3", "smallest_inside_radius = 3\nscrews = [[-114.2, 42]]"},
			[]string{"smallest_inside_radius = 3", "smallest_inside_radius = 3\nscrews = [[-114, 42]]"}, none, stop},
	} {
		if got := worst(run(t, edit(t, tt.good...)), tt.rule); got != tt.is {
			t.Errorf("%s: level %d for %q, want %d", tt.rule, got, tt.good, tt.is)
		}
		if got := worst(run(t, edit(t, tt.over...)), tt.rule); got != tt.gets {
			t.Errorf("%s: level %d for %q, want %d", tt.rule, got, tt.over, tt.gets)
		}
	}
}

// Drilling the waste first takes the stop off a first bite that is too deep.
func TestDrilledFirstBite(t *testing.T) {
	t.Parallel()
	thin := []string{"thickness = 18", "thickness = 11.3", "depth = 12\ncorners = \"rounded\"\ngap = 0.08\ncut = {bit = \"small\"}", "depth = 12\ncorners = \"rounded\"\ngap = 0.08\ncut = {bit = \"small\", drill = true}"}
	for _, f := range found(run(t, edit(t, thin...)), "first-bite") {
		if strings.HasPrefix(f.Message, "key recess") && f.Level == check.Stop && !strings.Contains(f.Message, "drills take") {
			// The drills reach only half of a narrow key: then it stays a stop.
			j := solve(t, edit(t, thin...))
			for i, e := range j.Templates {
				if e.For.Kind == part.Recess && j.DrillOut(i).Share >= cut.DrillEnough {
					t.Errorf("%s, though the drills take %.2f", f.Message, j.DrillOut(i).Share)
				}
			}
		}
	}
	wide := []string{"thickness = 18", "thickness = 11.3", "depth = 19\ncut = {bit = \"small\"}", "depth = 19\ncut = {bit = \"small\", drill = true}"}
	levels := map[string]check.Level{}
	for _, f := range found(run(t, edit(t, wide...)), "first-bite") {
		for _, p := range []string{`"tail"`, `"neck"`} {
			if strings.Contains(f.Message, "pickup cavity "+p) {
				levels[p] = f.Level
			}
		}
	}
	if levels[`"tail"`] != check.Warn || levels[`"neck"`] != check.Stop {
		t.Errorf("drilled %v, not drilled %v; want a warning and a stop", levels[`"tail"`], levels[`"neck"`])
	}
}

// A pin that stands out of its template stops where the base passes it, and only
// there; cut flush it is no matter.
func TestProudPins(t *testing.T) {
	t.Parallel()
	j := solve(t, edit(t, "smallest_inside_radius = 3", "smallest_inside_radius = 3\npin_proud = 5")+"[router]\nbase = 260\n")
	hits := found(check.Run(j), "base-clear")
	want := 0
	for i, e := range j.Templates {
		for _, p := range e.Pins {
			if j.Sweeps[i].Clear(cut.Proud{At: p.At, D: p.D}) < 0 {
				want++
			}
		}
	}
	if len(hits) != want || want == 0 {
		t.Errorf("%d findings, %d pins in the sweep", len(hits), want)
	}
	if fs := found(run(t, edit(t)+"[router]\nbase = 260\n"), "base-clear"); len(fs) > 0 {
		t.Errorf("flush pins: %v", fs[0].Message)
	}
}

// The share that hangs over flips the rule where it crosses 40 %: an opening is
// made larger by bisection until it warns; there an independent count of points
// says 40 % as well.
func TestBaseCarriedThreshold(t *testing.T) {
	t.Parallel()
	at := func(half float64) *job.Job {
		o := strings.NewReplacer("W", num(90-half), "E", num(90+half)).Replace("[[W, -56], [E, -56], [E, 34], [W, 34]]")
		return solve(t, edit(t, "[[66, -56], [114, -56], [114, 20], [66, 20]]", o, rebate, ""))
	}
	warns := func(half float64) bool { return worst(check.Run(at(half)), "base-carried") == warn }
	lo, hi := 20.0, 50.0
	if warns(lo) || !warns(hi) {
		t.Fatalf("an opening of %g warns %v, of %g %v", 2*lo, warns(lo), 2*hi, warns(hi))
	}
	for hi-lo > 0.05 {
		if mid := (lo + hi) / 2; warns(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	j := at(hi)
	f := found(check.Run(j), "base-carried")[0]
	var support geom.Region
	for i, e := range j.Templates {
		if e.For.Kind == part.Cavity {
			support = j.Sweeps[i].Support
		}
	}
	in, all := 0, 0
	for x := -75.0; x < 75; x += 0.5 {
		for y := -75.0; y < 75; y += 0.5 {
			if math.Hypot(x, y) > 75 {
				continue
			}
			all++
			if support.Contains(f.Places[0].At.Add(geom.Vec{X: x, Y: y})) {
				in++
			}
		}
	}
	if share := 1 - float64(in)/float64(all); math.Abs(share-0.4) > 0.01 {
		t.Errorf("at the threshold %.4f of the base hang over by count, want 0.40", share)
	}
}

// Held by hand, a part trimmed on its outside leaves more than half of the base
// without support, and a plate under the base helps inside a large opening.
func TestBaseByHandAndOutrigger(t *testing.T) {
	t.Parallel()
	hand := run(t, edit(t)+"[router]\noutside = \"hand\"\n")
	if worst(hand, "base-carried") != warn {
		t.Error("an outline trimmed by hand does not warn")
	}
	big := []string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[30, -60], [120, -60], [120, 30], [30, 30]]", rebate, ""}
	if worst(run(t, edit(t, big...)), "base-carried") != warn {
		t.Error("an opening of 90 × 90 under a base of 150 does not warn")
	}
	j := solve(t, edit(t, big...)+"[router]\noutrigger = 260\n")
	if fs := found(check.Run(j), "base-carried"); len(fs) > 0 {
		t.Errorf("with a plate of 260: %s", fs[0].Message)
	}
}

// Thin webs of the template sheet: 5.9 stops, 6.1 warns, 10.1 is right.
func TestTemplateWeb(t *testing.T) {
	t.Parallel()
	for web, want := range map[float64]int{5.9: stop, 6.1: warn, 9.9: warn, 10.1: none} {
		j := solve(t, edit(t))
		for i := range j.Templates {
			if e := &j.Templates[i]; e.For.Kind == part.Recess {
				e.Blank = cut.SheetRound(e.Shape.Bounds(), web)
			}
		}
		if got := worst(check.Run(j), "template-web"); got != want {
			t.Errorf("a web of %g: level %d, want %d", web, got, want)
		}
	}
}

// The template of a sharp key under a larger bearing, corner by corner: half of its
// waist is w/2 − gap/cos α + r/cos α − R. It warns under 6, and vanishes with a stop.
func TestKeyWaist(t *testing.T) {
	t.Parallel()
	for _, w := range []float64{7, 8.5, 9, 9.4, 9.45, 9.5, 9.55, 9.6, 10, 11} {
		j := solve(t, edit(t, with(sharp, "waist = 13", "waist = "+num(w), "bearing = {d = 6.35, height = 5}", "bearing = {d = 9.525, height = 5}")...))
		cos := math.Cos(math.Atan((24 - w) / 50))
		want := 2 * (w/2 - 0.08/cos + 6.35/2/cos - 9.525/2)
		if got := j.Keys.Fit.MaleWaist(); math.Abs(got-want) > 1e-6 {
			t.Errorf("waist %g: template %.4f, want %.4f", w, got, want)
		}
		if got := worst(check.Run(j), "key-waist"); (got == warn) != (want < 6) || got == stop {
			t.Errorf("waist %g: level %d for a template of %.3f", w, got, want)
		}
	}
	j := solve(t, edit(t, with(sharp, "waist = 13", "waist = 5", "bearing = {d = 6.35, height = 5}", "bearing = {d = 13, height = 5}")...))
	if worst(check.Run(j), "key-waist") != stop {
		t.Errorf("a template of waist %g does not stop", j.Keys.Fit.MaleWaist())
	}
}

// A key that is moved in its recess runs into the wall when it has gone its gap:
// closed form. With no gap at all it fits by a rounding.
func TestKeyInsideRecess(t *testing.T) {
	t.Parallel()
	j := solve(t, edit(t))
	k := j.Keys.Proof
	for by, want := range map[float64]int{0.0799: none, 0.0801: stop, 0.18: stop} {
		j.Keys.Sizes[0].Gap = cut.Gap(geom.Translate(geom.Vec{X: by}).Region(k.CutKey), k.CutRecess)
		if got := worst(check.Run(j), "key-inside-recess"); got != want {
			t.Errorf("moved by %g: level %d, want %d (gap %g)", by, got, want, j.Keys.Sizes[0].Gap.Min)
		}
	}
	if got := worst(run(t, edit(t, "gap = 0.08", "gap = 0")), "key-inside-recess"); got != none {
		t.Errorf("without a gap: level %d", got)
	}
}

// A bearing that cannot run on anything is stopped by name, never drawn as right:
// a cutter that is too short for the depth and has no wall yet.
func TestBearingOutOfReach(t *testing.T) {
	t.Parallel()
	fs := run(t, edit(t, "cut = 12.7", "cut = 3"))
	if worst(fs, "passes") != stop {
		t.Errorf("%v", found(fs, "passes"))
	}
	for _, f := range found(fs, "passes") {
		if f.Cure == "" || strings.Contains(f.Cure, "drill") {
			t.Errorf("cure %q", f.Cure)
		}
	}
}

// Where no plate is given, the cure names one; once the design gives it, nothing warns.
func TestBaseCarriedNamesAPlate(t *testing.T) {
	big := []string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[30, -60], [120, -60], [120, 30], [30, 30]]", rebate, ""}
	j := solve(t, edit(t, big...))
	o := j.Jigs.Outrigger
	if o == nil {
		t.Fatal("no plate is proposed")
	}
	fs := found(check.Run(j), "base-carried")
	if len(fs) == 0 || !strings.HasSuffix(fs[0].Cure, ": one of "+num(o.D)+" mm carries it") {
		t.Fatalf("plate of %v: %v", o.D, fs)
	}
	j = solve(t, edit(t, big...)+"[router]\noutrigger = "+num(o.D)+"\n")
	if fs := found(check.Run(j), "base-carried"); len(fs) > 0 {
		t.Errorf("with the plate of %v: %s", o.D, fs[0].Message)
	}
}
