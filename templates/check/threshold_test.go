package check_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/job"
	"routwright/templates/limit"
	"routwright/templates/part"
)

// Moving one part of the sound design finds each threshold where the sizes of the
// design say that it lies: the pickups are 72.5 × 41.5 (tail, at 42) and
// 73.5 × 22.5 (neck, at 130), the keys 50 × 24 on x = −75, the body 45 thick.
func TestThresholds(t *testing.T) {
	t.Parallel()
	at := func(old, new string) func(v float64) []string {
		return func(v float64) []string { return []string{old, fmt.Sprintf(new, v)} }
	}
	cavity := "[[66, -56], [114, -56], [114, 20], [66, 20]]"
	behind := func(v float64) []string {
		return []string{cavity, "[[0, 20], [60, 20], [60, 60], [0, 60]]", "depth = 38", fmt.Sprintf("depth = %.6f", v)}
	}
	for _, tt := range []struct {
		rule            string
		level           check.Level
		good, bad, want float64
		edit            func(v float64) []string
	}{
		{"void-to-void", check.Stop, 84, 70, 42 + 20.75 + 11.25 + 4, at("at = 130", "at = %.6f")},
		{"void-to-void", check.Warn, 84, 70, 42 + 20.75 + 11.25 + 6, at("at = 130", "at = %.6f")},
		{"floor", check.Stop, 40, 44, 45 - 3, at("depth = 38", "depth = %.6f")},
		{"floor", check.Warn, 37, 44, 45 - 6, at("depth = 38", "depth = %.6f")},
		{"key-to-void", check.Stop, -75, -62, -36.25 - 25 - 4, at("at = [-75, 75]", "at = [%.6f, 42]")},
		{"key-to-void", check.Warn, -75, -62, -36.25 - 25 - 6, at("at = [-75, 75]", "at = [%.6f, 42]")},
		{"key-to-void", check.Note, -75, -62, -36.25 - 25 - 10, at("at = [-75, 75]", "at = [%.6f, 42]")},
		{"web-between-faces", check.Stop, 18, 24, 45 - 19 - 4, behind},
		{"web-between-faces", check.Warn, 18, 24, 45 - 19 - 6, behind},
		{"key-over-void", check.Stop, 25, 31, 45 - 12 - 4, func(v float64) []string {
			return []string{cavity, "[[-100, -50], [-50, -50], [-50, 0], [-100, 0]]", "depth = 38", fmt.Sprintf("depth = %.6f", v)}
		}},
		{"key-behind-key", check.Stop, 18, 21, (45 - 4) / 2.0, func(v float64) []string {
			return []string{"depth = 12", fmt.Sprintf("depth = %.6f", v), "at = [-75, 75]\nangle = 0", "at = [-75, -30]\nangle = 0\nface = \"back\""}
		}},
		{"cover-seat", check.Stop, 5, 2, 3, at("rebate = 6", "rebate = %.6f")},
		{"cover-seat", check.Warn, 6, 4, 5, at("rebate = 6", "rebate = %.6f")},
		{"key-on-crack", check.Warn, -75, -77, -76, at("at = [-75, 75]", "at = [%.6f, 75]")},
		{"key-on-crack", check.Stop, -75, -78, -75 - 13.0/6, at("at = [-75, 75]", "at = [%.6f, 75]")},
		{"key-square", check.Warn, 0, 30, 20, at("at = [-75, 75]\nangle = 0", "at = [-75, 75]\nangle = %.6f")},
		{"key-length", check.Warn, 60, 90, 75, at("length = 50", "length = %.6f")},
		{"string-to-edge", check.Stop, 43, 39, 36 + 2*2, at("nut_width = 43", "nut_width = %.6f")},
		{"string-to-edge", check.Warn, 43, 39, 36 + 2*2.5, at("nut_width = 43", "nut_width = %.6f")},
		{"bit-reach", check.Stop, 70, 50, 38 + 18, at(`name = "small"`, "name = \"small\"\nreach = %.6f")},
		{"glue-gap", check.Warn, 0.08, 0.01, 0.03, at("gap = 0.08", "gap = %.6f")},
	} {
		got := turningPoint(t, tt.good, tt.bad, func(v float64) bool {
			return levelOf(only(solve(t, edit(t, tt.edit(v)...)), tt.rule), tt.rule) >= int(tt.level)
		})
		const slack = 3e-3 // the halving, and the budget of a template
		if math.Abs(got-tt.want) > slack {
			t.Errorf("%s %s turns at %.4f, want %.4f", tt.rule, tt.level, got, tt.want)
		}
	}
}

// Controls of any size, turned any way: bodies and knobs are found too near
// exactly where the sizes say. The distance of two round ones is in closed form;
// that of two boxes is measured between points along their edges.
func TestControlsApartRandom(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewSource(11))
	j := solve(t, wired(t))
	for n := 0; n < 200; n++ {
		shape := func(p geom.Point) geom.Region {
			if rnd.Intn(2) == 0 {
				return geom.Region{geom.Circle(p, 5+15*rnd.Float64())}
			}
			turn := geom.Pose(p, geom.Angle(7*rnd.Float64()))
			return geom.Region{turn.Path(geom.RoundedRect(geom.Pt(0, 0), 10+40*rnd.Float64(), 8+20*rnd.Float64(), 1))}
		}
		a, b := shape(geom.Pt(0, 0)), shape(geom.Pt(0, 0))
		dir := geom.Angle(2 * math.Pi * rnd.Float64()).Unit()
		far := geom.Circle(geom.Pt(900, 900), 1)
		moved := func(v float64) float64 { return apart(a, geom.Translate(dir.Mul(v)).Region(b)) }
		got := turningPoint(t, 120, 0, func(v float64) bool {
			k := *j
			k.Controls = []job.Control{
				{Name: "a", Kind: "pot", Body: a, Knob: geom.Region{far}},
				{Name: "b", Kind: "pot", Body: geom.Translate(dir.Mul(v)).Region(b), Knob: geom.Region{geom.Circle(geom.Pt(-900, 900), 1)}},
			}
			return levelOf(only(&k, "controls-apart"), "controls-apart") == int(check.Stop)
		})
		if d := moved(got); math.Abs(d-limit.ControlsApart.Stop) > 0.02 {
			t.Errorf("%d: found fault at %.3f mm apart, want %g", n, d, limit.ControlsApart.Stop)
		}
	}
}

// only runs one rule, as it stands in the registry.
func only(j *job.Job, id string) []check.Finding {
	for _, r := range check.Rules() {
		if r.ID == id {
			return r.Find(r, j)
		}
	}
	return nil
}

// apart returns the least distance between points along two edges.
func apart(a, b geom.Region) float64 {
	least := math.Inf(1)
	for _, p := range a[0].Flatten(0.002) {
		for _, s := range segs(b[0].Flatten(0.002)) {
			least = math.Min(least, toSegment(p, s))
		}
	}
	for _, p := range b[0].Flatten(0.002) {
		for _, s := range segs(a[0].Flatten(0.002)) {
			least = math.Min(least, toSegment(p, s))
		}
	}
	return least
}

func segs(ps []geom.Point) [][2]geom.Point {
	out := make([][2]geom.Point, len(ps))
	for i, p := range ps {
		out[i] = [2]geom.Point{p, ps[(i+1)%len(ps)]}
	}
	return out
}

func toSegment(p geom.Point, s [2]geom.Point) float64 {
	v, w := s[1].Sub(s[0]), p.Sub(s[0])
	t := math.Max(0, math.Min(1, (v.X*w.X+v.Y*w.Y)/(v.X*v.X+v.Y*v.Y)))
	return math.Hypot(w.X-t*v.X, w.Y-t*v.Y)
}

// A seat is thin on purpose: it does not warn under 6 as a cavity does, but stops
// under 3 all the same.
func TestSeatFloor(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		edits []string
		want  int
	}{
		{[]string{"thread = 9.5", "thread = 7"}, -1},                         // thinned to 4
		{[]string{"thread = 9.5", "thread = 6"}, -1},                         // to 3
		{[]string{"hole = 9.5", "hole = 9.5\nwood = 2.95"}, int(check.Stop)}, // the builder's own
		{[]string{"hole = 9.5", "hole = 9.5\nwood = 3.05"}, -1},
	} {
		j := solve(t, wired(t, tt.edits...))
		if n := len(j.OfKind(part.Seat)); n != 1 {
			t.Errorf("%q: %d seats", tt.edits, n)
		}
		if got := levelOf(check.Run(j), "floor"); got != tt.want {
			t.Errorf("%q: level %d, want %d", tt.edits, got, tt.want)
		}
		if got := levelOf(check.Run(j), "thread-length"); got != -1 {
			t.Errorf("%q: the thread is too short", tt.edits)
		}
	}
}
