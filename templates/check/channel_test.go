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

// channelled adds a hand-drilled channel from the tail pickup, whose treble wall
// stands at x = 36.25, straight across to the control cavity at x = 66.
func channelled(z0, z1, d float64, more string) string {
	return fmt.Sprintf("\n[[channel]]\njoin = [\"tail\", \"control\"]\nfrom = [36.25, 42, %g]\nto = [66, 10, %g]\nd = %g\n%s", z0, z1, d, more)
}

// The tail pickup is 72.5 long; from x = 36.25, y = 42 the channel runs to (66, 10)
// past nothing.
func TestChannelLimits(t *testing.T) {
	t.Parallel()
	// The depth of the axis less half the drill is the wood to the front.
	for _, tt := range []struct {
		level check.Level
		wood  float64
	}{{check.Stop, 3}, {check.Warn, 5}} {
		z := threshold(t, "channel", tt.level, 14, 4, func(z float64) string { return edit(t) + channelled(z, 20, 6, "") })
		if math.Abs(z-3-tt.wood) > 0.01 {
			t.Errorf("%s begins with the axis %.3f deep, want %g", tt.level, z, tt.wood+3)
		}
		for _, off := range []float64{0.05, -0.05} {
			if got := has(run(t, edit(t)+channelled(tt.wood+3+off, 20, 6, "")), "channel", tt.level); got != (off < 0) {
				t.Errorf("%s with %.2f mm: %v", tt.level, tt.wood+off, got)
			}
		}
	}
	// A key between the two, 12 deep: the axis passes under it.
	for _, tt := range []struct {
		level check.Level
		wood  float64
	}{{check.Stop, 3}, {check.Warn, 5}} {
		text := func(x float64) string {
			return edit(t, "at = [-75, 75]\nangle = 0", fmt.Sprintf("at = [%g, 26]\nangle = 90", x), "length = 50", "length = 30") + channelled(14, 14.0001, 6, "")
		}
		x := threshold(t, "channel", tt.level, 90, 51, text)
		j := solve(t, text(x))
		var k part.Part
		for _, p := range j.OfKind(part.Recess) {
			if p.Name == "high" {
				k = p
			}
		}
		// In plan the axis' distance from the key's edge, and 14 − 12 below its bottom.
		line := geom.Path{geom.Line(geom.Pt(36.25, 42), geom.Pt(66, 10))}
		d, _, _ := geom.PathDistance(line, k.Plan()[0])
		if wood := math.Hypot(d, 2) - 3; math.Abs(wood-tt.wood) > 0.02 {
			t.Errorf("%s begins with %.3f mm to the key, want %g", tt.level, wood, tt.wood)
		}
	}
}

// A drill that meets the wall askew: from (36.25, 42) square is straight across,
// 60° is tan 60 · 29.75 along.
func TestChannelSkew(t *testing.T) {
	t.Parallel()
	text := func(y float64) string {
		return edit(t) +
			fmt.Sprintf("\n[[channel]]\njoin = [\"tail\", \"control\"]\nfrom = [36.25, 42, 9]\nto = [66, %g, 20]\nd = 6\n", y)
	}
	y := threshold(t, "channel-skew", check.Warn, 8, -30, text)
	if want := 42 - 29.75*math.Tan(math.Pi/3); math.Abs(y-want) > 0.01 {
		t.Errorf("begins at y %.3f, want %.3f", y, want)
	}
}

// The rim by its formula: ℓ·tan φ = d + q/2cos φ, with ℓ as the design has it.
func TestChannelRim(t *testing.T) {
	t.Parallel()
	text := func(z float64) string { return edit(t) + channelled(9, z, 6, "") }
	z := threshold(t, "channel-rim", check.Stop, 42, 10, text)
	j := solve(t, text(z))
	c := j.Channels[0]
	run := math.Hypot(66-36.25, 32)
	phi := math.Atan2(z-9, run)
	if gap := c.Path.Rim*math.Tan(phi) - 9 - 3/math.Cos(phi); math.Abs(gap) > 0.01 {
		t.Errorf("begins %.4f mm over the rim", gap)
	}
	// ℓ: back through the pickup of 72.5 × 41.5 from its treble wall, the lower side
	// of the drill reaching the upper wall y = 62.75 first.
	u := geom.Vec{X: 66 - 36.25, Y: -32}.Unit()
	upper := geom.Pt(36.25, 42).Add(u.Left().Mul(3))
	if want := (62.75 - upper.Y) / -u.Y; math.Abs(c.Path.Rim-want) > 1e-6 {
		t.Errorf("rim %.4f behind, want %.4f", c.Path.Rim, want)
	}
	// The chuck: what stands out of the wood lifts it over the face.
	long := threshold(t, "channel-rim", check.Stop, 400, 55, func(l float64) string {
		return edit(t) + channelled(9, 36, 6, fmt.Sprintf("drill_length = %g\nchuck = 30\n", l))
	})
	phi = math.Atan2(27, run)
	if want := run/math.Cos(phi) + (9+15*math.Cos(phi))/math.Sin(phi); math.Abs(long-want) > 0.01 {
		t.Errorf("begins with a drill of %.3f, want %.3f", long, want)
	}
}

// A channel that names a cavity on its way and passes it by.
func TestChannelThrough(t *testing.T) {
	t.Parallel()
	if !has(run(t, edit(t)+channelled(9, 20, 6, "through = [\"neck\"]\n")), "channel", check.Stop) {
		t.Error("the neck cavity is nowhere near, and nothing is said")
	}
}

// The wall of an edge jack: half the thickness less half the bore less the
// roundover.
func TestJackWall(t *testing.T) {
	t.Parallel()
	text := func(d float64) string {
		return edit(t) + fmt.Sprintf("\n[body.edge]\nroundover = 5\nbearing = 9.5\n[jack]\nside = \"treble\"\ny = -20\nd = %g\n", d)
	}
	d := threshold(t, "jack-wall", check.Stop, 20, 35, text)
	if want := 2 * (22.5 - 5 - 4.0); math.Abs(d-want) > 0.01 {
		t.Errorf("begins with a bore of %.3f, want %.3f", d, want)
	}
	if has(run(t, text(26.9)), "jack-wall", check.Stop) || !has(run(t, text(27.1)), "jack-wall", check.Stop) {
		t.Error("27 mm is the limit: 26.9 and 27.1 are not told apart")
	}
	// Beside the pickup cavity: a front jack's well of 22.
	front := func(x float64) string {
		return edit(t) + fmt.Sprintf("\n[jack]\nside = \"front\"\nat = [%g, 75]\nd = 22\n", x)
	}
	at := threshold(t, "jack-wall", check.Stop, 80, 0, front)
	if !has(run(t, front(at-0.1)), "jack-wall", check.Stop) {
		t.Errorf("no wall from x %.3f on", at)
	}
}

// A bridge that no straight hole reaches: the ground wire.
func TestGroundWire(t *testing.T) {
	t.Parallel()
	bridge := "\n[bridge]\nkind = \"fixed\"\n"
	if has(run(t, edit(t)+bridge), "ground-wire", check.Warn) {
		t.Error("no way from the bridge to the control cavity is found")
	}
	j := solve(t, edit(t)+bridge)
	if len(j.Channels) != 1 || !j.Channels[0].Ground || j.Channels[0].D != 3 {
		t.Errorf("channels %+v", j.Channels)
	}
	// With nothing to lead it to.
	a := edit(t)
	a = a[:strings.Index(a, "[[pickup]]")] + a[strings.Index(a, "[template]"):]
	if !has(run(t, a+bridge), "ground-wire", check.Warn) {
		t.Error("a bridge without any cavity passes")
	}
	if has(run(t, a), "ground-wire", check.Warn) {
		t.Error("a design without a bridge is warned of its ground wire")
	}
}

// The upper button and the balance point: lead at the head moves it past.
func TestStrapBalance(t *testing.T) {
	t.Parallel()
	grams := threshold(t, "strap-balance", check.Warn, 0, 5000, func(g float64) string {
		return edit(t) + fmt.Sprintf("\n[[hardware]]\nname = \"lead\"\ngrams = %g\nat = [0, 700]\n", g)
	})
	j := solve(t, edit(t)+"\n[[hardware]]\nname = \"lead\"\ngrams = 0\nat = [0, 700]\n")
	b, u := j.Balance, j.Strap.Upper.At.Y
	if want := b.Mass * (u - b.At.Y) / (700 - u); math.Abs(grams-want) > 0.05 {
		t.Errorf("begins with %.3f g at the head, want %.3f", grams, want)
	}
}

// Proposed paths keep every rule of the checks, right- and left-handed.
func TestProposedChannels(t *testing.T) {
	t.Parallel()
	more := "\n[bridge]\nkind = \"fixed\"\n[jack]\nside = \"treble\"\ny = -30\n" +
		"[[channel]]\njoin = [\"tail\", \"control\"]\n[[channel]]\njoin = [\"neck\", \"control\"]\n"
	for _, hand := range []string{"right", "left"} {
		text := strings.Replace(edit(t), "units", "hand = \""+hand+"\"\nunits", 1) + more
		j := solve(t, text)
		if len(j.Channels) != 3 {
			t.Fatalf("%d channels", len(j.Channels))
		}
		for _, c := range j.Channels {
			if !c.Found {
				t.Errorf("%s: no path for %s", hand, c.Name)
			}
		}
		for _, f := range check.Run(j) {
			if f.Level > check.Note {
				t.Errorf("%s: %s: %s", hand, f.Check, f.Message)
			}
		}
	}
}

// What cannot be drilled: errors with the numbers and the cure.
func TestDrilledErrors(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct{ text, want string }{
		{"\n[[channel]]\njoin = [\"tail\", \"attic\"]\n", `"attic"; allowed: one of "bridge", "control", "jack", "neck", "pocket", "tail"`},
		{"\n[[channel]]\njoin = [\"tail\", \"tail\"]\n", "twice"},
		{"\n[[channel]]\njoin = [\"tail\", \"control\"]\nfrom = [36.25, 42, 8]\n", "both from and to"},
		{"\n[[channel]]\njoin = [\"tail\", \"control\"]\nfrom = [30, 42, 8]\nto = [66, 10, 20]\n", "6.25 mm off the wall of tail"},
		{channelled(30, 20, 6, ""), "30 mm deep, over a wall of tail that stands from 0 to 19"},
		{"\n[jack]\nside = \"treble\"\ny = 390\n", "where there is no wood"},
		{"\n[jack]\nside = \"front\"\nat = [200, 0]\n", "where there is no wood"},
		{"\n[jack]\nside = \"front\"\n", "the middle of the jack"},
		{"\n[jack]\nside = \"bass\"\ny = -20\ninto = \"control\"\n", "does not meet"},
		{"\n[jack]\nside = \"bass\"\ny = -20\ninto = \"attic\"\n", `"attic"`},
		{"\n[strap]\nupper = [0, 0]\n", "off the outline"},
		{"\n[[chamber]]\noutline = [[-100, 0], [-60, 0], [-60, 40]]\ncap = 20\ndepth = 30\n", "in a body of 45 mm"},
	} {
		_, err := solveErr(edit(t) + tt.text)
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "test.toml:") {
			t.Errorf("%s: %v, want …%s…", tt.text, err, tt.want)
		}
	}
}

func solveErr(text string) (*job.Job, error) {
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		return nil, err
	}
	return memory.Solve(d, nil)
}
