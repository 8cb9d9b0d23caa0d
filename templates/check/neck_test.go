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
	j, err := memory.Solve(d, nil)
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
	t.Parallel()
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

func init() {
	for _, id := range []string{"rod-wood", "tuners-apart", "tuner-to-edge", "nut-bend", "string-past-post", "saddle-height", "neck-angle"} {
		shown[id] = "TestNeckThresholds"
	}
}

// Moving one measure until a rule speaks finds the rule's threshold, measured
// another way than by the rule.
func TestNeckThresholds(t *testing.T) {
	t.Parallel()
	base, _ := neckOf(t, necked, "", nil)
	spec := base.Shape.Spec
	spec.Head.Tilt, spec.Head.Step, spec.Head.Sweep = 0, 6, 25 // level, so that the plan is the face
	shape := func(change func(s *neck.Spec)) func(*job.Job) bool {
		return func(j *job.Job) bool {
			s, rod := spec, *spec.Rod
			s.Rod = &rod
			change(&s)
			sh, err := neck.New(s)
			if err != nil {
				return false
			}
			j.Shape = sh
			return true
		}
	}
	angled := func(saddle float64) *job.Neck {
		s := neck.Setup{Saddle: saddle, Above: 6, Fret: 1.1, Action: 1.7, Nut: 0.4, Scale: 628.65, Joint: 379.17}
		got, err := neck.Solve(s)
		if err != nil {
			t.Fatal(err)
		}
		return &job.Neck{Setup: s, Solved: got}
	}
	for _, tt := range []struct {
		rule    string
		level   check.Level
		ok, bad float64 // of what is moved
		move    func(v float64) func(*job.Job) bool
		want    float64 // of the measure where the rule begins to speak
		measure func(j *job.Job, v float64) float64
		within  float64
	}{
		{"tuner-to-edge", check.Stop, 8, 2, func(v float64) func(*job.Job) bool {
			return shape(func(s *neck.Spec) { s.Head.Edge = v })
		}, 6, func(j *job.Job, v float64) float64 { // from the head's outline
			least := math.Inf(1)
			for _, e := range j.Shape.Tuners {
				d, _, _ := geom.PathDistance(geom.Circle(e.Post, 5), j.Shape.Head)
				least = math.Min(least, d)
			}
			return least
		}, 1e-4},
		{"nut-bend", check.Warn, 0, 15, func(v float64) func(*job.Job) bool {
			a := geom.Angle(v) * geom.Degree
			return shape(func(s *neck.Spec) { s.Head.Deflection = &a })
		}, 10, func(j *job.Job, v float64) float64 {
			most := 0.0
			for i, e := range j.Shape.Tuners {
				l := j.Shape.Spec.Board.Strings[i]
				u, w := l.A.Sub(l.B), e.To.Sub(e.From)
				most = math.Max(most, math.Abs(math.Atan2(u.Cross(w), u.Dot(w)))*180/math.Pi)
			}
			return most
		}, 1e-4},
		{"tuners-apart", check.Stop, 24, 14, func(v float64) func(*job.Job) bool {
			return shape(func(s *neck.Spec) {
				s.Head.Kind, s.Head.Bass, s.Head.Treble, s.Head.Pitch, s.Head.Along = neck.InLine, 6, 0, v, 18
			})
		}, 18, func(j *job.Job, v float64) float64 { return v }, 1e-4},
		{"string-past-post", check.Warn, 80, 140, func(v float64) func(*job.Job) bool {
			return shape(func(s *neck.Spec) { s.Head.Widths = &[2]float64{68, v} })
		}, 1, func(j *job.Job, v float64) float64 { // points along each string
			least := math.Inf(1)
			for _, a := range j.Shape.Tuners {
				for _, b := range j.Shape.Tuners {
					for k := 0; a.String != b.String && k <= 20000; k++ {
						least = math.Min(least, a.From.Lerp(a.To, float64(k)/20000).Dist(b.Post)-3)
					}
				}
			}
			return least
		}, 1e-3},
		{"rod-wood", check.Warn, 9, 12, func(v float64) func(*job.Job) bool {
			return shape(func(s *neck.Spec) { s.Rod.Depth = v })
		}, 3.5, leastUnder, 0.02},
		{"rod-wood", check.Stop, 9, 13, func(v float64) func(*job.Job) bool {
			return shape(func(s *neck.Spec) { s.Rod.Depth = v })
		}, 2.5, leastUnder, 0.02},
		{"neck-angle", check.Warn, 19, 60, func(v float64) func(*job.Job) bool {
			return func(j *job.Job) bool { j.Neck = angled(v); return true }
		}, 5, func(j *job.Job, v float64) float64 { return j.Neck.Angle.Degrees() }, 1e-4},
		{"neck-angle", check.Warn, 19, 3, func(v float64) func(*job.Job) bool {
			return func(j *job.Job) bool { j.Neck = angled(v); return true }
		}, 0, func(j *job.Job, v float64) float64 { return j.Neck.Angle.Degrees() }, 1e-4},
		{"saddle-height", check.Stop, 17, 30, func(v float64) func(*job.Job) bool {
			return func(j *job.Job) bool {
				j.Neck = angled(v)
				j.Design.Bridge.Height = design.Val[[2]design.Length]{V: [2]design.Length{15, 22}, How: design.Given}
				return true
			}
		}, 22, func(j *job.Job, v float64) float64 { return v }, 1e-4},
	} {
		j := *base
		d := *base.Design
		j.Design = &d
		speaks := func(v float64) bool {
			if !tt.move(v)(&j) {
				return true // cannot be made at all: beyond the threshold
			}
			for _, r := range check.Rules() {
				if r.ID != tt.rule {
					continue
				}
				for _, f := range r.Find(r, &j) {
					if f.Level >= tt.level {
						return true
					}
				}
			}
			return false
		}
		ok, bad := tt.ok, tt.bad
		if speaks(ok) || !speaks(bad) {
			t.Errorf("%s: speaks at %g: %v, at %g: %v", tt.rule, ok, speaks(ok), bad, speaks(bad))
			continue
		}
		for i := 0; i < 30; i++ {
			if m := (ok + bad) / 2; speaks(m) {
				bad = m
			} else {
				ok = m
			}
		}
		if speaks(ok); math.Abs(tt.measure(&j, ok)-tt.want) > tt.within {
			t.Errorf("%s begins to speak at %.5f, want %g", tt.rule, tt.measure(&j, ok), tt.want)
		}
	}
}

// leastUnder looks at points of the channel's corners and floor and of the back's
// profile, section by section; the head and the heel of this neck are thicker.
func leastUnder(j *job.Job, _ float64) float64 {
	sh := j.Shape
	r, least := sh.Spec.Rod, math.Inf(1)
	for i := 0; i <= 60; i++ {
		y := sh.Side.From + (math.Min(sh.Rod.To, sh.Side.To)-sh.Side.From)*float64(i)/60
		for _, q := range sh.ProfileAt(y).Path().Flatten(1e-6) {
			least = math.Min(least, math.Hypot(math.Max(math.Abs(q.X)-r.Width/2, 0), math.Max(-q.Y-r.Depth, 0)))
		}
	}
	for _, p := range sh.Side.Back.Flatten(1e-6) { // along the centre line, the head with it
		if p.Y > sh.Side.To {
			least = math.Min(least, sh.Rod.Floor[0].Closest(p).Dist(p))
		}
	}
	return least
}

// The wood under the rod that the rule judges is what is left between its floor
// and the back, and it falls as the rod goes deeper.
func TestRodWoodFalls(t *testing.T) {
	t.Parallel()
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
	t.Parallel()
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
	t.Parallel()
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
		_, err = memory.Solve(d, nil)
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "n.toml:") {
			t.Errorf("%s: %v", tt.bad, err)
		}
	}
}
