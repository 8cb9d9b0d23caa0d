package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/tool"
)

// Glue by hand: the board of the demo is a trapezium, (42.5 + 56.2)/2 × 462.24 =
// 22,812 mm², at 0.15 mm 3.42 ml, which is 150 g/m² of a glue as heavy as water (common
// practice: 150 to 200). A heel of 56 × 80 in a pocket takes at least its floor.
func TestGlueJoints(t *testing.T) {
	find := func(j *job.Job, name string) job.GlueJoint {
		for _, g := range j.GlueJoints() {
			if g.Name == name {
				return g
			}
		}
		t.Fatalf("no joint %q", name)
		return job.GlueJoint{}
	}
	g := find(jobtest.File(t, "millrace.toml"), job.BoardJoint)
	if math.Abs(g.Area-22812) > 60 || math.Abs(g.Ml-3.42) > 0.02 || g.Clamps != 8 {
		t.Errorf("board: %+v", g)
	}
	n := find(jobtest.File(t, "designs/penstock.toml"), job.NeckJoint)
	if n.Area < 56*79 || n.Area > 3*56*80 || n.Clamps < 2 {
		t.Errorf("neck: %+v", n)
	}
	keys := jobtest.File(t, "millrace.toml").GlueJoints()[0]
	// The walls of a key of 56 × 25, waist 13: four flanks of √(28² + 6²) = 28.6 and two
	// ends of 25, 164.5 mm round, 13 deep, and a floor of 56 × 19 = 1,064: 3,203 mm²,
	// rounded corners a little less.
	if keys.Count != 3 || keys.Area > 3203 || keys.Area < 0.95*3203 {
		t.Errorf("keys: %+v", keys)
	}
}

// The datum lines of a slab of 540 × 400 add up to its edges, in either hand.
func TestEdges(t *testing.T) {
	for _, name := range []string{"millrace.toml", "designs/leat.toml"} {
		j := jobtest.File(t, name)
		e, ok := j.Edges()
		b := j.Blank.Bounds()
		if !ok || e.Long <= 0 || e.Long >= b.W() || e.End <= 0 || e.End >= b.H() {
			t.Errorf("%s: %+v in %v", name, e, b)
		}
		if !strings.Contains(e.Words(), "bass side") {
			t.Error(e.Words())
		}
	}
}

// Every drill is named once, with its holes: pins, and of the demo six tuners, four
// screws of the neck, whose pilots are never larger than the chart's.
func TestDrillNeeds(t *testing.T) {
	ns := jobtest.File(t, "millrace.toml").DrillNeeds()
	seen := map[float64]job.DrillNeed{}
	for i, n := range ns {
		if i > 0 && n.D <= ns[i-1].D {
			t.Errorf("%g mm after %g", n.D, ns[i-1].D)
		}
		if n.Holes < 1 || len(n.For) == 0 || n.Deep <= 0 {
			t.Errorf("%+v", n)
		}
		seen[n.D] = n
	}
	for _, c := range []struct {
		d     float64
		holes int
		what  string
		fit   tool.Fit
	}{
		{10, 6, "tuners", tool.Exact},
		{4.5, 4, "screws of the neck, in the body", tool.Clear},
		{2.4, 5, "pilot holes: bridge", tool.Pilot},
		{3.2, 6, "strings", tool.Clear},
		{7, 2, "wire channels", tool.Wire},
		{22.2, 1, "jack", tool.Opened},
	} {
		n := seen[c.d]
		if n.Holes != c.holes || n.Fit != c.fit || !strings.Contains(strings.Join(n.For, "; "), c.what) {
			t.Errorf("%g mm: %+v, want %d for %s", c.d, n, c.holes, c.what)
		}
	}
}

// The plugs of the outline template lie in two voids as far apart as there are, so
// that it cannot turn.
func TestSeats(t *testing.T) {
	s := jobtest.File(t, "millrace.toml").Seats()
	if len(s) != 2 || s[0].ID == s[1].ID {
		t.Fatalf("%v", s)
	}
	if d := s[0].Bounds().Center().Dist(s[1].Bounds().Center()); d < 150 {
		t.Errorf("%s and %s are %g mm apart", s[0].ID, s[1].ID, d)
	}
}
