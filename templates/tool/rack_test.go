package tool_test

import (
	"math"
	"strings"
	"testing"

	"routwright/templates/design"
	"routwright/templates/tool"
)

const (
	equal   = "[[bit]]\nname = \"equal\"\nd = 6\ncut = 12\nbearing = {d = 6, height = 4}\n"
	wide    = "[[bit]]\nname = \"wide\"\nd = 12\ncut = 19\nbearing = {d = 12, height = 5}\n"
	larger  = "[[bit]]\nname = \"larger\"\nd = 8\ncut = 20\nbearing = {d = 12, height = 5}\n"
	smaller = "[[bit]]\nname = \"smaller\"\nd = 8\ncut = 20\nbearing = {d = 6, height = 5}\n"
	plain   = "[[bit]]\nname = \"plain\"\nd = 6\ncut = 20\n"
	tip     = "[[bit]]\nname = \"tip\"\nd = 6\ncut = 20\nbearing = {d = 6, height = 5, side = \"tip\"}\n"
	long    = "[[bit]]\nname = \"long\"\nd = 6\ncut = 30\nbearing = {d = 6, height = 5}\n"
	short   = "[[bit]]\nname = \"short\"\nd = 6\ncut = 12\nreach = 25\nbearing = {d = 6, height = 4}\n"
	ring    = "[[bush]]\nname = \"ring\"\nd = 12\nreach = 8\n"
	tight   = "[[bush]]\nname = \"tight\"\nd = 7\nreach = 8\n"
	tall    = "[[bush]]\nname = \"tall\"\nd = 10\nreach = 20\n"
	machine = "[router]\nfree = true\n"
)

// pick chooses for a recess 12 deep with corners of 5 under a template of 18.
func pick(t *testing.T, text, cutter string, change func(*tool.Need)) (tool.Tool, error) {
	t.Helper()
	d, err := design.Parse("r.toml", []byte("design = 1\n[keys]\ndepth = 12\n"+cutter+"\n"+text))
	if err != nil {
		return tool.Tool{}, err
	}
	r, _ := tool.NewRack(d)
	n := tool.Need{Key: "keys.cut", Corner: 5, Depth: 12, Template: 18, Blind: true}
	if change != nil {
		change(&n)
	}
	return r.Pick(d.Keys.Cutter, n, d.Keys.At)
}

// The way that a bit is led is chosen in a fixed order, and what was passed over
// is said.
func TestChoice(t *testing.T) {
	deep := func(n *tool.Need) { n.Depth = 22 }
	for _, tt := range []struct {
		name, rack, cutter string
		need               func(*tool.Need)
		bit, bush          string
		guide              tool.Guide
		why                []string
	}{
		{"a bearing of its own size before all others", larger + smaller + plain + ring + equal, "", nil, "equal", "", tool.Bearing, []string{"bearing of the bit's own size", "corner radius 5 mm"}},
		{"the largest that fits", equal + wide, "", nil, "equal", "", tool.Bearing, []string{`passed over: wide has a radius of 6 mm, over the corner's 5`}},
		{"then a larger bearing", smaller + larger + wide, "", nil, "larger", "", tool.Bearing, []string{"with a larger bearing chosen", "wide has a radius"}},
		{"then a smaller one", smaller + wide, "", nil, "smaller", "", tool.Bearing, []string{"with a smaller bearing chosen"}},
		{"a bush where no bearing fits", larger + plain + ring, "", deep, "plain", "ring", tool.Bush, []string{`in guide bush "ring" chosen`, "would leave the template"}},
		{"the tightest bush with room for the chips", plain + ring + tight, "", nil, "plain", "ring", tool.Bush, nil},
		{"a bush that stands out too far is passed over", plain + tall + ring, "", nil, "plain", "ring", tool.Bush, []string{"plain in bush tall stands 20 mm"}},
		{"a free path last, where there is a machine", plain + machine, "", nil, "plain", "", tool.Free, []string{"a free path chosen", "a bearing of the bit's own size is not at hand"}},
		{"a bush before a free path", plain + ring + machine, "", nil, "plain", "ring", tool.Bush, nil},
		{"a free path by name", equal + ring + plain, "cut = {free = true}", nil, "equal", "", tool.Free, nil},
		{"a bush by name, the bit left open", wide + plain + ring, `cut = {bush = "ring"}`, nil, "plain", "ring", tool.Bush, nil},
		{"a bit by name without a bearing gets a bush", equal + plain + ring, `cut = {bit = "plain"}`, nil, "plain", "ring", tool.Bush, nil},
		{"a bit that cuts too deep at once", long + plain + ring, "", nil, "long", "ring", tool.Bush, []string{"long would cut 17 mm deep at once, the depth is 12"}},
		{"a bit that does not reach", short + plain + ring, "", nil, "plain", "ring", tool.Bush, []string{"short reaches 25 mm, and 30 are needed"}},
		{"a bearing at the tip, in a blind recess", tip + plain + ring, "", nil, "plain", "ring", tool.Bush, []string{"tip has its bearing at the tip"}},
		{"what the simulated cut refuses", equal + plain + ring, "", func(n *tool.Need) {
			n.Try = func(t tool.Tool) string {
				if t.Guide == tool.Bearing {
					return "does not make the recess"
				}
				return ""
			}
		}, "equal", "ring", tool.Bush, []string{"equal does not make the recess"}},
	} {
		got, err := pick(t, tt.rack, tt.cutter, tt.need)
		if err != nil || got.Bit != tt.bit || got.GuideOf != tt.bush || got.Guide != tt.guide {
			t.Errorf("%s: %+v (%v), want %s %s", tt.name, got, err, tt.bit, tt.bush)
		}
		for _, w := range tt.why {
			if !strings.Contains(got.Why, w) {
				t.Errorf("%s: %q does not say %q", tt.name, got.Why, w)
			}
		}
		if got.Why == "" {
			t.Errorf("%s: no reason", tt.name)
		}
	}
}

// What cannot work: an error with its place, never another tool in silence.
func TestRefusals(t *testing.T) {
	for _, tt := range []struct{ name, rack, cutter, want string }{
		{"bush smaller than the bit", wide + tight, `cut = {bit = "wide", bush = "tight"}`, `r.toml:4:29: keys.cut.bush: bush "tight" of 7 mm; allowed: a bush larger than the bit (12 mm)`},
		{"bush and free path", plain + ring, `cut = {bit = "plain", bush = "ring", free = true}`, `keys.cut.bush: bush "ring" for a free path; allowed: a bush, or free = true`},
		{"bearing at the tip in a blind recess", tip, `cut = {bit = "tip"}`, `bearing at the tip; allowed: a bit with its bearing on the shank side`},
		{"bearing at the tip on a free path", tip, `cut = {bit = "tip", free = true}`, `bearing at the tip, on a free path`},
		{"bearing that would enter the cut", "[[bit]]\nname = \"b\"\nd = 6\ncut = 10\nbearing = {d = 10}\n", `cut = {bit = "b", free = true}`, "whose bearing of 10 mm would enter a cut 12 mm deep"},
		{"bit without anything to lead it", plain, `cut = {bit = "plain"}`, `bit "plain", which has no bearing`},
		{"nothing fits", wide, "", "keys.cut: no bit is named and none at hand fits: a bearing of the bit's own size will not do (wide has a radius of 6 mm, over the corner's 5); a guide bush is not at hand"},
	} {
		_, err := pick(t, tt.rack, tt.cutter, nil)
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "r.toml:") {
			t.Errorf("%s: %v, want …%s…", tt.name, err, tt.want)
		}
	}
}

// A free path has no follower: its offset is the cutter's radius inward, its
// corners the cutter's own, and no first bite is forced on it.
func TestFreeTool(t *testing.T) {
	f := tool.Tool{Bit: "b", Cutter: 8, Guide: tool.Free, Length: 40, Height: 5}
	if f.Offset() != -4 || f.GuideRadius() != 0 || f.LeastCorner(10) != 4 || f.FirstBite(3) != 0 || !f.Free() {
		t.Errorf("offset %g, follower %g, corner %g, first bite %g", f.Offset(), f.GuideRadius(), f.LeastCorner(10), f.FirstBite(3))
	}
	if s := f.OffsetWords(); !strings.Contains(s, "4 mm beside the part's edge") {
		t.Error(s)
	}
	b := tool.Tool{Bit: "b", Cutter: 8, Follower: 12} // k = 2: a template's corner of 10 leaves 8
	if b.LeastCorner(10) != 8 || b.LeastCorner(1) != 4 {
		t.Errorf("corners %g, %g", b.LeastCorner(10), b.LeastCorner(1))
	}
}

// The drills at hand: as measured, with the point counted; a twist drill of 118°
// is d/2/tan 59° ahead of its rim, 3.0 for a drill of 10 (geometry).
func TestDrills(t *testing.T) {
	d, err := design.Parse("r.toml", []byte("design = 1\n[[forstner]]\nd = 30\nlength = 50\npoint = 2.5\n[[drill]]\nd = 10\n"))
	if err != nil {
		t.Fatal(err)
	}
	r, _ := tool.NewRack(d)
	ds := r.Drills()
	if len(ds) != 2 || ds[0].Kind != tool.Forstner || ds[0].Point != 2.5 || ds[0].Length != 50 || ds[0].Assumed != nil {
		t.Errorf("%+v", ds)
	}
	if p := ds[1].Point; ds[1].Kind != tool.Twist || math.Abs(p-3.0043) > 1e-4 || len(ds[1].Assumed) != 1 {
		t.Errorf("%+v", ds[1])
	}
	none, _ := tool.NewRack(&design.Design{})
	for _, d := range none.Drills() {
		if d.Kind != tool.Forstner || len(d.Assumed) == 0 {
			t.Errorf("%+v of the small set is not marked as assumed", d)
		}
	}
	if len(none.Drills()) < 3 {
		t.Errorf("a small set of %d", len(none.Drills()))
	}
}
