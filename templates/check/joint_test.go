package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/templates/check"
)

// jointed is the sound design with a bolted neck and a fixed bridge, its numbers
// replaced by the pairs of old and new.
func jointed(t *testing.T, pairs ...string) string {
	t.Helper()
	text := edit(t) + `
[neck]
join = "bolted"
[neck.heel]
widths = [56.2, 55.4]
apart = 70
length = 70
thickness = 19
corner = 6.5
gap = 0.06
cut = {bit = "large", drill = true}
[neck.joint]
above_body = 0.5
[neck.bolts]
length = 45
[bridge]
kind = "fixed"
saddle_height = [10, 15]
travel = 9
aside = 0
at = 1
[bridge.through]
behind = 24
`
	for i := 0; i+1 < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the jointed design has no %q", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

func TestJointedDesign(t *testing.T) {
	t.Parallel()
	for _, f := range run(t, jointed(t)) {
		if f.Level > check.Note {
			t.Errorf("%s %s: %s", f.Level, f.Check, f.Message)
		}
	}
}

// Moving one number finds each threshold where the numbers of the design put it.
func TestJointThresholds(t *testing.T) {
	t.Parallel()
	at := func(old, format string, more ...string) func(float64) string {
		return func(v float64) string { return jointed(t, append([]string{old, fmt.Sprintf(format, v)}, more...)...) }
	}
	j := solve(t, jointed(t))
	n := j.Neck
	lo, hi := math.Inf(1), 0.0 // what the strings want
	for _, l := range j.Bridge.Lines {
		lo, hi = math.Min(lo, l.Want), math.Max(hi, l.Want)
	}
	for _, c := range []struct {
		rule            string
		level           check.Level
		good, bad, want float64
		text            func(float64) string
	}{
		// The string that wants the least: the foremost saddle may stand there (stop), or
		// 1 before it (warn).
		{"saddle-travel", check.Stop, 1, -3, -lo, at("at = 1\n", "at = %.6f\n")},
		{"saddle-travel", check.Warn, 1, -3, 1 - lo, at("at = 1\n", "at = %.6f\n")},
		// The one that wants the most: the rearmost stands 9 behind the foremost.
		{"saddle-travel", check.Stop, 1, 8, 9 - hi, at("at = 1\n", "at = %.6f\n")},
		{"neck-to-bridge", check.Stop, 0, 1, 0.5, at("aside = 0", "aside = %.6f")},
		{"neck-to-bridge", check.Warn, 0, 1, 0.2, at("aside = 0", "aside = %.6f")},
		// The pocket is as much deeper as the heel is thicker, along its own slope.
		{"neck-floor", check.Stop, 22, 40, 45 - 12 + n.Under*math.Cos(float64(n.Angle)), at("thickness = 19", "thickness = %.6f", "length = 45", "length = 30")},
		{"neck-screw-tip", check.Stop, 45, 44.5 + n.Bolts.Over, 45 + n.Bolts.Over - 3, at("length = 45", "length = %.6f")},
		// Outer strings at 130 from the bridge: 52 − 16 · 130/628.65 apart.
		{"string-on-pole", check.Warn, 49, 44, 52 - 16*130/628.65 - 2, at("at = 130\n", "at = 130\npoles = %.6f\n")},
	} {
		got := turningPoint(t, c.good, c.bad, func(v float64) bool {
			return levelOf(only(solve(t, c.text(v)), c.rule), c.rule) >= int(c.level)
		})
		if math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s %s: speaks from %.4f on, want %.4f", c.rule, c.level, got, c.want)
		}
	}
}

// Screws in line lie under the rod: their tips must stay 3 mm below its channel. Two
// rows pass beside it.
func TestScrewsAndRod(t *testing.T) {
	t.Parallel()
	rod := "[neck.rod]\nwidth = 6.35\ndepth = 9.5\n"
	if fs := found(run(t, jointed(t)+rod), "neck-screw-tip"); len(fs) > 0 {
		t.Errorf("two rows: %s", fs[0].Message)
	}
	line := func(v float64) string {
		return jointed(t, "length = 45", fmt.Sprintf("count = 2\nlength = %.6f", v)) + rod
	}
	over := solve(t, line(30)).Neck.Bolts.Over // the board of 6 and the channel of 9.5 lie above the tip
	want := 30 + over - 6 - 9.5 - 3
	got := turningPoint(t, 30, want+2, func(v float64) bool {
		return levelOf(only(solve(t, line(v)), "neck-screw-tip"), "neck-screw-tip") >= int(check.Stop)
	})
	if math.Abs(got-want) > 0.01 {
		t.Errorf("screws under the rod: stop from %.3f mm on, want %.3f", got, want)
	}
}

// Ferrules side by side, and a hole beside a cavity.
func TestStringHoles(t *testing.T) {
	t.Parallel()
	pitch := 52.0 / 5
	if fs := found(run(t, jointed(t, "behind = 24", fmt.Sprintf("behind = 24\nferrule = {d = %g, depth = 8}", pitch-0.05))), "string-hole"); len(fs) > 0 {
		t.Errorf("ferrules that just fit: %s", fs[0].Message)
	}
	fs := found(run(t, jointed(t, "behind = 24", fmt.Sprintf("behind = 24\nferrule = {d = %g, depth = 8}", pitch+0.05))), "string-hole")
	if len(fs) != 5 || fs[0].Level != check.Stop {
		t.Errorf("five pairs of ferrules that overlap: %v", fs)
	}
	// The tail pickup's cavity begins at 42 − 20.75 from the bridge line; the row of
	// holes of 3.2 lies at 1 − behind, here as far towards the neck as may be.
	want := 1 - (42 - 20.75 - 1.6 - 3)
	got := turningPoint(t, -10, -18, func(v float64) bool {
		return levelOf(only(solve(t, jointed(t, "behind = 24", fmt.Sprintf("behind = %.6f\nferrule = {d = 3.3, depth = 8}", v))), "string-hole"), "string-hole") >= int(check.Stop)
	})
	if math.Abs(got-want) > 0.06 { // the ferrule is 0.05 wider a side
		t.Errorf("string hole to cavity: speaks from %g on, want %g", got, want)
	}
}

func init() {
	for rule, test := range map[string]string{
		"saddle-travel": "TestJointThresholds", "neck-to-bridge": "TestJointThresholds", "neck-floor": "TestJointThresholds",
		"neck-screw-tip": "TestJointThresholds", "string-on-pole": "TestJointThresholds", "string-hole": "TestStringHoles",
	} {
		shown[rule] = test
	}
}
