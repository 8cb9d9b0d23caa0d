package check_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/neck"
)

// necked is sound with a neck that is to be made.
const necked = sound + `
[neck.head]
kind = "split"
sides = [3, 3]
tilt = 12
first = 40
pitch = 40
hole = 10
post = 6
edge = 8
[neck.rod]
width = 6.35
depth = 9.5
[neck.back]
thickness = [20.5, 22.5]
shoulder = [0.5, 0.5]
`

// neckOf solves a design and returns it with the findings of one rule.
func neckOf(t *testing.T, src, rule string, change func(*job.Job)) (*job.Job, []check.Finding) {
	t.Helper()
	d, err := design.Parse("necked.toml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Solve(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(j)
	}
	var out []check.Finding
	for _, f := range check.Run(j) {
		if f.Check == rule {
			out = append(out, f)
		}
	}
	return j, out
}

// Each rule of the neck passes a neck of common practice and finds one that is
// changed until it fails by a tenth.
func TestNeckRules(t *testing.T) {
	setup := func(above, saddle float64) func(*job.Job) {
		return func(j *job.Job) {
			s := neck.Setup{Saddle: saddle, Above: above, Fret: 1.1, Action: 1.7, Nut: 0.4, Scale: 628.65, Joint: 379.17}
			got, err := neck.Solve(s)
			if err != nil {
				t.Fatal(err)
			}
			j.Neck = &job.Neck{Setup: s, Solved: got}
		}
	}
	for _, tt := range []struct {
		rule      string
		good, bad string // of a line of necked, and what stands in its place
		change    [2]func(*job.Job)
		level     check.Level
	}{
		{rule: "tuner-to-edge", good: "edge = 8", bad: "edge = 5.9", level: check.Stop},
		{rule: "tuners-apart", good: "pitch = 40", bad: "pitch = 18\ndeflection = 3", level: check.Stop},
		{rule: "nut-bend", good: "edge = 8", bad: "edge = 8\ndeflection = 10.1", level: check.Warn},
		{rule: "string-past-post", good: "post = 6", bad: "post = 6\nwidths = [64, 110]", level: check.Warn},
		{rule: "rod-wood", good: "depth = 9.5", bad: "depth = 11.1", level: check.Warn},
		{rule: "rod-wood", good: "depth = 9.5", bad: "depth = 12.1", level: check.Stop},
		{rule: "neck-angle", change: [2]func(*job.Job){setup(6, 19), setup(6, 9.9)}, level: check.Warn},
		{rule: "neck-angle", change: [2]func(*job.Job){setup(6, 31.7), setup(6, 31.9)}, level: check.Warn},
		{rule: "saddle-height", good: "[neck.head]", bad: "[bridge]\nsaddle_height = [15, 18.9]\n[neck.head]", change: [2]func(*job.Job){setup(6, 19), setup(6, 19)}, level: check.Stop},
	} {
		if _, fs := neckOf(t, necked, tt.rule, tt.change[0]); len(fs) > 0 {
			t.Errorf("%s finds fault with a sound neck: %s", tt.rule, fs[0].Message)
		}
		src := strings.Replace(necked, tt.good, tt.bad, 1)
		_, fs := neckOf(t, src, tt.rule, tt.change[1])
		if len(fs) != 1 || fs[0].Level != tt.level || fs[0].Cure == "" {
			t.Errorf("%s with %q: %v", tt.rule, tt.bad, fs)
		}
	}
}

// The wood under the rod that the rule judges is what is left between its floor
// and the back, and it falls as the rod goes deeper.
func TestRodWoodFalls(t *testing.T) {
	last := math.Inf(1)
	for _, depth := range []string{"8", "9.5", "11", "12"} {
		j, _ := neckOf(t, strings.Replace(necked, "depth = 9.5", "depth = "+depth, 1), "rod-wood", nil)
		w := j.Shape.Rod.Wood
		if !(w.MM < last) {
			t.Errorf("at depth %s %g mm are left, at the one before %g", depth, w.MM, last)
		}
		last = w.MM
	}
}

// A left-handed neck is judged like a right-handed one.
func TestNeckRulesLeft(t *testing.T) {
	src := strings.Replace(necked, "edge = 8", "edge = 5.9", 1)
	r, fr := neckOf(t, src, "tuner-to-edge", nil)
	l, fl := neckOf(t, strings.Replace(src, "design = 1", "design = 1\nhand = \"left\"", 1), "tuner-to-edge", nil)
	if len(fr) != 1 || len(fl) != 1 || math.Abs(fr[0].Got-fl[0].Got) > 1e-9 {
		t.Fatalf("right %v, left %v", fr, fl)
	}
	a, b := r.Shape.Head.Bounds(), l.Shape.Head.Bounds()
	if math.Abs(a.Min.X+b.Max.X) > 1e-9 || math.Abs(a.Max.Y-b.Max.Y) > 1e-9 {
		t.Errorf("heads %v and %v", a, b)
	}
	for _, x := range []geom.Path{l.Shape.Plan, l.Shape.Head, l.Shape.Side.Outline} {
		if x.Area() <= 0 {
			t.Error("a mirrored outline runs backward")
		}
	}
}

// A neck that cannot be made is refused at the place in the file.
func TestNeckRefused(t *testing.T) {
	for _, tt := range []struct{ good, bad, want string }{
		{"sides = [3, 3]", "sides = [3, 2]", "neck.head.sides"},
		{"edge = 8", "edge = 8\nwidths = [44, 30]", "neck.head.widths"},
		{"edge = 8", "edge = 8\nlength = 90", "neck.head.length"},
		{"width = 6.35", "width = 6.35\nlength = 600", "neck.rod.length"},
		{"tilt = 12", "tilt = 12\nthickness = 9", "neck.head.thickness"},
		{"tilt = 12", "tilt = 12\nstep = 5", "neck.head.step"},
		{"width = 6.35", "width = 6.35\nbow = 2", "neck.rod.bow"},
	} {
		d, err := design.Parse("n.toml", []byte(strings.Replace(necked, tt.good, tt.bad, 1)))
		if err != nil {
			t.Fatal(err)
		}
		_, err = job.Solve(d, nil)
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "n.toml:") {
			t.Errorf("%s: %v", tt.bad, err)
		}
	}
}
