package check_test

import (
	"fmt"
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/job"
	"routwright/templates/part"
)

// has reports whether a rule speaks at a level or above.
func has(fs []check.Finding, rule string, l check.Level) bool {
	for _, f := range fs {
		if f.Check == rule && f.Level >= l {
			return true
		}
	}
	return false
}

// threshold returns where between good and bad a rule begins to speak, to 4e-3.
func threshold(t *testing.T, rule string, l check.Level, good, bad float64, text func(float64) string) float64 {
	t.Helper()
	at := func(v float64) bool { return has(run(t, text(v)), rule, l) }
	if at(good) || !at(bad) {
		t.Fatalf("%s %s: speaks at %g: %v, at %g: %v", rule, l, good, at(good), bad, at(bad))
	}
	for math.Abs(good-bad) > 4e-3 {
		if mid := (good + bad) / 2; at(mid) {
			bad = mid
		} else {
			good = mid
		}
	}
	return good
}

const forearm = "\n[[body.contour]]\nkind = \"forearm\"\nside = \"%s\"\ny = %g\ndepth = %g\nreach = %g\nsection = \"%s\"\n"

// depthOf is the depth of a flat bevel by proportion, apart from the program's
// planes: full depth at the outermost place, none at the inner line.
func depthOf(j *job.Job, c job.Contour, reach, full float64, p geom.Point) float64 {
	ahead := 0.0
	for _, q := range c.Plan[0].Flatten(1e-4) {
		ahead = math.Max(ahead, -q.Sub(c.At).Dot(c.In))
	}
	return full * (reach - p.Sub(c.At).Dot(c.In)) / (reach + ahead)
}

// A key under the bevel: what is left of it by proportion is the limit where the
// rule begins to speak.
func TestKeyUnderContour(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		level check.Level
		want  float64
	}{{check.Stop, 3}, {check.Warn, 6}} {
		text := func(reach float64) string {
			return edit(t) + fmt.Sprintf(forearm, "bass", -30.0, 15.0, reach, "flat")
		}
		reach := threshold(t, "key-under-contour", tt.level, 60, 170, text)
		j := solve(t, text(reach))
		most := 0.0
		for _, k := range j.OfKind(part.Recess) {
			for _, p := range k.Plan()[0].Flatten(1e-4) {
				if j.Contours[0].Plan.Contains(p) {
					most = math.Max(most, depthOf(j, j.Contours[0], reach, 15, p))
				}
			}
		}
		if left := 12 - most; math.Abs(left-tt.want) > 0.01 {
			t.Errorf("%s begins with %.4f mm left, want %g", tt.level, left, tt.want)
		}
		if has(run(t, text(reach-0.2)), "key-under-contour", tt.level) || !has(run(t, text(reach+0.2)), "key-under-contour", tt.level) {
			t.Errorf("%s: no change within 0.2 mm of %.3f", tt.level, reach)
		}
	}
}

// A bevel on the front over the back cavity: the wood between is the distance of
// the cavity's top corner from the plane, z − depth over the secant.
func TestContourOverCavity(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		level check.Level
		want  float64
	}{{check.Stop, 4}, {check.Warn, 6}} {
		text := func(depth float64) string {
			return edit(t) + fmt.Sprintf(forearm, "treble", -20.0, depth, 90.0, "flat")
		}
		// The cavity's top lies 7 below the front.
		depth := threshold(t, "web-between-faces", tt.level, 1, 20, text)
		j := solve(t, text(depth))
		c := j.Contours[0]
		least := math.Inf(1)
		for _, p := range j.OfKind(part.Cavity)[0].Plan()[0].Flatten(1e-4) {
			if c.Plan.Contains(p) {
				least = math.Min(least, 7-depthOf(j, c, 90, depth, p))
			}
		}
		s := c.Profile[1]
		if d := least * s.X / math.Hypot(s.X, s.Y); math.Abs(d-tt.want) > 0.01 {
			t.Errorf("%s begins at %.4f mm of wood, want %g", tt.level, d, tt.want)
		}
	}
}

// keysBehind lets the keys into the back, so that a plate may lie on the front.
var keysBehind = []string{"gap = 0.08", "gap = 0.08\nface = \"back\""}

// A chamber under its plate, and a bevel on the same face: the bevel's plane comes
// near the chamber's top edge.
func TestContourOverChamber(t *testing.T) {
	t.Parallel()
	text := func(depth float64) string {
		return edit(t, keysBehind...) + fmt.Sprintf(forearm, "bass", -30.0, depth, 80.0, "flat") +
			"[[chamber]]\nname = \"low\"\noutline = [[-125, -100], [-105, -100], [-105, -60], [-125, -60]]\ncorner = 5\ncap = 10\ndepth = 15\ncut = {bit = \"small\"}\n"
	}
	depth := threshold(t, "web-between-faces", check.Stop, 1, 30, text)
	j := solve(t, text(depth))
	c := j.Contours[0]
	least := math.Inf(1)
	for _, p := range j.OfKind(part.Chamber)[0].Plan()[0].Flatten(1e-4) {
		if c.Plan.Contains(p) {
			least = math.Min(least, 10-depthOf(j, c, 80, depth, p))
		}
	}
	s := c.Profile[1]
	if d := least * s.X / math.Hypot(s.X, s.Y); math.Abs(d-4) > 0.02 {
		t.Errorf("begins at %.4f mm of wood, want 4", d)
	}
}

// A roundover of 4 takes 4 of the wall beside a cavity that opens on the same
// face: the limits of 6 and 10 lie at 10 and 14 in plan. A key on the front the
// same.
func TestWallsAfterEdge(t *testing.T) {
	t.Parallel()
	const round = "\n[body.edge]\nroundover = 4\nbearing = 9.5\nbearing_height = 5\n"
	for _, tt := range []struct {
		rule      string
		level     check.Level
		plan      float64
		good, bad float64
		text      func(float64) string
		kind      part.Kind
	}{
		{"void-to-outline", check.Stop, 10, 100, 150, func(x float64) string {
			return edit(t, "[[66, -56], [114, -56], [114, 20], [66, 20]]", fmt.Sprintf("[[66, -56], [%g, -56], [%g, 20], [66, 20]]", x, x), "cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = \"small\"}}", "") + round
		}, part.Cavity},
		{"void-to-outline", check.Warn, 14, 100, 150, func(x float64) string {
			return edit(t, "[[66, -56], [114, -56], [114, 20], [66, 20]]", fmt.Sprintf("[[66, -56], [%g, -56], [%g, 20], [66, 20]]", x, x), "cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = \"small\"}}", "") + round
		}, part.Cavity},
		{"key-in-outline", check.Stop, 10, -75, -130, func(x float64) string {
			return edit(t, "at = [-75, -30]", fmt.Sprintf("at = [%g, -30]", x)) + round
		}, part.Recess},
		{"key-in-outline", check.Warn, 14, -75, -130, func(x float64) string {
			return edit(t, "at = [-75, -30]", fmt.Sprintf("at = [%g, -30]", x)) + round
		}, part.Recess},
	} {
		x := threshold(t, tt.rule, tt.level, tt.good, tt.bad, tt.text)
		j := solve(t, tt.text(x))
		if d, _, _ := geom.PathDistance(j.OfKind(tt.kind)[0].Plan()[0], j.Outline[0]); math.Abs(d-tt.plan) > 0.01 {
			t.Errorf("%s %s begins %.4f mm from the outline in plan, want %g", tt.rule, tt.level, d, tt.plan)
		}
	}
}

// Half of a wall is the most that a roundover may take.
func TestRoundoverOfWall(t *testing.T) {
	t.Parallel()
	text := func(r float64) string {
		return edit(t, "[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[66, -56], [138, -56], [138, 20], [66, 20]]", "cover = {thickness = 2.5, gap = 0.3, rebate = 6, cut = {bit = \"small\"}}", "") +
			fmt.Sprintf("\n[body.edge]\nroundover = %g\nbearing = 9.5\nbearing_height = 5\n", r)
	}
	r := threshold(t, "edge", check.Warn, 0.5, 18, text)
	j := solve(t, text(r))
	d, _, _ := geom.PathDistance(j.OfKind(part.Cavity)[0].Plan()[0], j.Outline[0])
	if math.Abs(r-d/2) > 3e-3 { // threshold ends its search there
		t.Errorf("speaks from %.4f mm on, want half of %.4f", r, d)
	}
}

// A contour that takes the face from under a pickup's ring or a cover.
func TestContourTakesFace(t *testing.T) {
	t.Parallel()
	cover := edit(t) + "\n[[body.contour]]\nkind = \"belly\"\nside = \"treble\"\ny = -20\nreach = 60\ndepth = 5\n"
	if !has(run(t, cover), "edge", check.Warn) {
		t.Error("a belly cut over the cover passes")
	}
	far := edit(t) + "\n[[body.contour]]\nkind = \"belly\"\nside = \"bass\"\ny = 60\nreach = 40\ndepth = 5\n"
	if has(run(t, far), "edge", check.Warn) {
		t.Error("a belly cut on the other side is found fault with")
	}
}

// The plate over a chamber is wood like any other.
func TestChamberPlate(t *testing.T) {
	t.Parallel()
	text := func(lid float64) string {
		return edit(t, keysBehind...) + fmt.Sprintf("\n[[chamber]]\nname = \"light\"\noutline = [[40, 80], [80, 80], [80, 110], [40, 110]]\ncap = %g\ndepth = 15\ncut = {bit = \"small\"}\n", lid)
	}
	for _, tt := range []struct {
		level check.Level
		want  float64
	}{{check.Stop, 3}, {check.Warn, 6}} {
		if lid := threshold(t, "floor", tt.level, 9, 1, text); math.Abs(lid-tt.want) > 0.01 {
			t.Errorf("%s: a plate of %.3f, want %g", tt.level, lid, tt.want)
		}
	}
}

// The bearing of the edge bit in the waist and the cutaways: one no wider than
// the tightest inside curve follows it, a wider one soon does not.
func TestEdgeReach(t *testing.T) {
	t.Parallel()
	tight := math.Inf(1)
	for _, e := range solve(t, edit(t)).Outline[0] {
		if e.Turn < 0 {
			tight = math.Min(tight, e.Radius)
		}
	}
	d := threshold(t, "edge-reach", check.Note, 3, 40, func(d float64) string {
		return edit(t) + fmt.Sprintf("\n[body.edge]\nchamfer = 2\nbearing = %g\n", d)
	})
	if d < 2*tight || d > 2*tight*1.3 {
		t.Errorf("speaks from a bearing of %.3f on; the tightest inside curve has %.3f", d, 2*tight)
	}
}

// Keys that the program places keep clear of a bevel: enough of each is left,
// and no rule that stops is broken.
func TestPlacedUnderContour(t *testing.T) {
	t.Parallel()
	hand := "[[key]]\nname = \"low\"\nat = [-75, -30]\nangle = 0\n[[key]]\nname = \"high\"\nat = [-75, 75]\nangle = 0\n"
	for _, c := range []string{
		fmt.Sprintf(forearm, "bass", -40.0, 16.0, 110.0, "flat"),
		fmt.Sprintf(forearm, "bass", -40.0, 16.0, 130.0, "round"),
		"\n[[body.contour]]\nkind = \"belly\"\ny = 20\nreach = 120\ndepth = 38\n",
	} {
		for _, f := range run(t, edit(t, hand, "", "length = 50", "place = true\nlength = 50")+c) {
			if f.Level == check.Stop {
				t.Errorf("%s\n%s: %s", c, f.Check, f.Message)
			}
		}
	}
}

// A key that the program placed says why it stands there; one placed by hand does
// not.
func TestKeyPlaced(t *testing.T) {
	t.Parallel()
	hand := "[[key]]\nname = \"low\"\nat = [-75, -30]\nangle = 0\n[[key]]\nname = \"high\"\nat = [-75, 75]\nangle = 0\n"
	if fs := found(run(t, edit(t)), "key-placed"); len(fs) > 0 {
		t.Errorf("by hand: %s", fs[0].Message)
	}
	fs := found(run(t, edit(t, hand, "", "length = 50", "place = true\nlength = 50")), "key-placed")
	if len(fs) == 0 || fs[0].Level != check.Note {
		t.Errorf("placed: %v", fs)
	}
}

func init() {
	shown["key-under-contour"] = "TestKeyUnderContour"
	shown["edge"] = "TestRoundoverOfWall"
	shown["edge-reach"] = "TestEdgeReach"
	shown["channel"] = "TestChannelLimits"
	shown["channel-rim"] = "TestChannelRim"
	shown["channel-skew"] = "TestChannelSkew"
	shown["ground-wire"] = "TestGroundWire"
	shown["jack-wall"] = "TestJackWall"
	shown["strap-balance"] = "TestStrapBalance"
	shown["key-placed"] = "TestKeyPlaced"
	shown["base-clear"] = "TestShopLimits"
	shown["base-carried"] = "TestBaseCarriedThreshold"
}
