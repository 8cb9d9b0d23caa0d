package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// why returns the reason that is listed for a key of the design file.
func why(t *testing.T, text, k string) string {
	t.Helper()
	for _, a := range solved(t, text).Assumed {
		if a.Key == k {
			return a.Why
		}
	}
	return ""
}

const hand = `
design = 1
slab = {rough = 45, blank = [560, 420]}
body = {family = "lowland", tail = 110}
[keys]
length = 80
ends = 40
waist = 16
depth = 10
[[key]]
at = [-40, 60]
`

// The way to cut keys is chosen by simulating the cut, and its reason is listed: a
// bush whose template would have a waist under 6 gives way to an inlay set, and
// that to a free path where its gap is none.
func TestKeysChooseTheirTool(t *testing.T) {
	const plain = "[[bit]]\nname = \"fine\"\nd = 3.175\ncut = 12\n"
	bush := func(d, collar string) string {
		s := "[[bush]]\nname = \"ring\"\nd = " + d + "\nreach = 6\n"
		if collar != "" {
			s += "collar = " + collar + "\n"
		}
		return s
	}
	for _, tt := range []struct {
		name, rack string
		guide      tool.Guide
		inlay      bool
		why        string
	}{
		{"a bush that leaves a waist", plain + bush("7.9375", ""), tool.Bush, false, `in guide bush "ring" chosen`},
		{"a bush that leaves none, with a collar", plain + bush("14", "20.25"), tool.Bush, true, "with inlay bush \"ring\" and its collar chosen"},
		{"a collar that leaves no gap, and a machine", plain + bush("14", "20.35") + "[router]\nfree = true\n", tool.Free, false, "a free path chosen"},
	} {
		j := solved(t, hand+tt.rack+"[[bit]]\nname = \"outline\"\nd = 6\nbearing = {d = 6}\nreach = 20\n")
		f := j.Keys.Fit
		if f.Tool.Guide != tt.guide || (f.Inlay != nil) != tt.inlay {
			t.Errorf("%s: %v, inlay %v", tt.name, f.Tool, f.Inlay)
		}
		if !strings.Contains(f.Tool.Why+why(t, hand+tt.rack+"[[bit]]\nname = \"outline\"\nd = 6\nbearing = {d = 6}\nreach = 20\n", "keys.cut.bit"), tt.why) {
			t.Errorf("%s: %q", tt.name, f.Tool.Why)
		}
		if tt.inlay && math.Abs(j.Keys.Gap.Min-0.05) > 1e-4 { // (14 + 2·3.175 − 20.25)/2
			t.Errorf("%s: gap %g", tt.name, j.Keys.Gap.Min)
		}
	}
	// Nothing will do: an error that says what was tried.
	_, err := try(hand + plain + bush("14", "") + "[[bit]]\nname = \"outline\"\nd = 6\nbearing = {d = 6}\nreach = 20\n")
	if err == nil || !strings.Contains(err.Error(), "leaves a waist of") {
		t.Error(err)
	}
}

// A free path has no sheet, no maker and no follower in the whole job, and the
// outline may be one.
func TestFreeJob(t *testing.T) {
	j := solved(t, strings.Replace(hand, "tail = 110}", "tail = 110, cut = {bit = \"fine\", free = true}}", 1)+"[[bit]]\nname = \"fine\"\nd = 6\ncut = 12\nbearing = {d = 6, height = 4}\n")
	n := 0
	for i, e := range j.Templates {
		if !e.Free() {
			continue
		}
		n++
		if e.For.Kind != part.Body || e.Sheet != 0 || e.InsideRadius != 0 || e.Blank != nil || j.Sweeps[i].Base != 0 || e.Tool.Follower != 0 {
			t.Errorf("%s: %+v", e.ID, e)
		}
		if d := e.Shape.Bounds().W() - j.Outline.Bounds().W(); math.Abs(d-6) > 1e-6 {
			t.Errorf("the path is %g wider than the outline, want 6", d)
		}
		if p := j.Proofs[i]; !p.Left.Empty() || !p.Lost.Empty() {
			t.Errorf("%s: %g left, %g lost", e.ID, p.Left.Area(), p.Lost.Area())
		}
	}
	if n != 1 {
		t.Errorf("%d free paths", n)
	}
	if s := stops(j); s != nil {
		t.Error(s)
	}
}

// A left-handed job finds the same fault with the same screws: their places count
// to the treble side, like all others.
func TestProudThingsOfALeftHandedJob(t *testing.T) {
	text := hand + "[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = 42\ncorner = 6.4\n[template]\npin_proud = 4\nscrews = [[100, 40], [-150, 60], [-100, 10]]\n"
	text = strings.Replace(text, "at = [-40, 60]", "at = [-60, 160]", 1)
	count := func(text string) (n int) {
		for _, f := range check.Run(solved(t, text)) {
			if f.Check == "base-clear" {
				n++
			}
		}
		return n
	}
	right := count(text)
	if left := count(strings.Replace(text, "design = 1", "design = 1\nhand = \"left\"", 1)); left != right || right < 2 {
		t.Errorf("%d findings right-handed, %d left-handed", right, left)
	}
}

// The drills that stand in for a set that the design does not name are listed, once
// each, and only where waste is drilled.
func TestDrillsAreListed(t *testing.T) {
	listed := func(text string) (n int) {
		for _, a := range solved(t, text).Assumed {
			if a.Key == "drill" {
				n++
			}
		}
		return n
	}
	if n := listed(hand); n != 4 {
		t.Errorf("%d drills listed, want the small set of 4", n)
	}
	if n := listed(hand + "[[forstner]]\nd = 20\npoint = 3\n"); n != 0 {
		t.Errorf("%d drills listed, want none: all is measured", n)
	}
	if n := listed(strings.Replace(hand, "depth = 10", "depth = 4", 1)); n != 0 {
		t.Errorf("%d drills listed for shallow keys", n)
	}
	j := solved(t, hand)
	for i, e := range j.Templates {
		first, again := j.DrillOut(i), j.DrillOut(i)
		if (e.For.Kind == part.Recess) != (len(first.Holes) > 0) || len(first.Holes) != len(again.Holes) {
			t.Errorf("%s: %d holes, then %d", e.ID, len(first.Holes), len(again.Holes))
		}
	}
}

// A plate under the base must be wider than the base.
func TestOutriggerUnderTheBase(t *testing.T) {
	if _, err := try(hand + "[router]\nbase = 150\noutrigger = 140\n"); err == nil || !strings.Contains(err.Error(), "router.outrigger: 140 mm; allowed: a plate larger than the base, 150 mm") {
		t.Error(err)
	}
}

// Keys on a free path have, beside the shared recess about its middle, one file a
// face with every recess at its place, as deep as that face wants, and with the
// wood of the corners declared for the chisel.
func TestRecessPathsAtTheirPlaces(t *testing.T) {
	text := strings.Replace(hand, "slab = {rough = 45,", "slab = {rough = 48, plane = {front = 1, back = 2},", 1)
	text = strings.Replace(text, "depth = 10\n", "depth = 10\ncorners = \"chiselled\"\ncut = {bit = \"fine\", free = true}\n", 1) +
		"[[key]]\nat = [50, 140]\nangle = 30\n[[key]]\nat = [-40, 160]\nface = \"back\"\n[[bit]]\nname = \"fine\"\nd = 6\ncut = 20\nbearing = {d = 6, height = 4}\n"
	for _, side := range []string{"right", "left"} {
		j := solved(t, strings.Replace(text, "design = 1", "design = 1\nhand = \""+side+"\"", 1))
		for id, want := range map[string]struct {
			keys  int
			depth float64
		}{"key-recesses-front": {2, 11}, "key-recesses-back": {1, 12}} {
			found := false
			for i, e := range j.Templates {
				if e.ID != id {
					continue
				}
				found = true
				inside := 0
				for _, k := range j.Keys.Poses {
					if e.Shape.Contains(k.At) && k.Face == e.For.Face {
						inside++
					}
				}
				if len(e.Shape) != want.keys || inside != want.keys || j.Routing(i).Wanted != want.depth || len(e.Pins) != 2 {
					t.Errorf("%s hand, %s: %d loops, %d of them over a key, %g deep, %d pins", side, id, len(e.Shape), inside, j.Routing(i).Wanted, len(e.Pins))
				}
				if p := j.Proofs[i]; !p.Left.Empty() || !p.Lost.Empty() || p.ByHand.Empty() {
					t.Errorf("%s hand, %s: %g left, %g lost, %g by hand", side, id, p.Left.Area(), p.Lost.Area(), p.ByHand.Area())
				}
			}
			if !found {
				t.Errorf("%s hand: no %s", side, id)
			}
		}
	}
}
