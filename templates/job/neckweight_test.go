package job_test

import (
	"math"
	"testing"

	"routwright/templates/job"
	"routwright/templates/job/jobtest"
)

// A laid-out neck is on the scales with its board and rod; a left-handed one
// weighs the same and hangs on the other side.
func TestNeckOnTheScales(t *testing.T) {
	right := jobtest.File(t, "millrace.toml")
	left := jobtest.File(t, "millrace.toml", "hand = \"right\"", "hand = \"left\"")
	things := func(j *job.Job) map[string]job.Thing {
		m := map[string]job.Thing{}
		for _, e := range j.Balance.Things {
			m[e.Name] = e
		}
		return m
	}
	r, l := things(right), things(left)
	for _, name := range []string{"neck", "fretboard", "rod", "tuners"} {
		a, b := r[name], l[name]
		if a.Mass <= 0 || math.Abs(a.Mass-b.Mass) > 1e-6 || math.Abs(a.At.X+b.At.X) > 1e-6 || math.Abs(a.At.Y-b.At.Y) > 1e-6 {
			t.Errorf("%s: %+v, left-handed %+v", name, a, b)
		}
	}
	// Two thirds up the scale, where the shaft lies, and the board above the wood.
	if s := right.Board.CentreScale(); !(r["neck"].At.Y > 0.6*s && r["neck"].At.Y < 0.8*s) || !(r["fretboard"].At.Z < r["neck"].At.Z) {
		t.Errorf("neck %+v, board %+v on a scale of %.0f", r["neck"].At, r["fretboard"].At, s)
	}
	// The crown takes a little off a flat board.
	b := right.Board
	flat := b.Outline.Area() * right.Neck.Board
	if v := r["fretboard"].Mass / (r["neck"].Mass / right.Shape.Solid().Volume); !(v < flat && v > 0.85*flat) {
		t.Errorf("a board of %.0f mm³, flat it would have %.0f", v, flat)
	}
}
