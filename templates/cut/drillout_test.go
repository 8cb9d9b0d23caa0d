package cut_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/tool"
)

// forstner returns Forstner drills of the given diameters.
func forstner(ds ...float64) (out []tool.Drill) {
	for _, d := range ds {
		out = append(out, tool.Drill{Kind: tool.Forstner, D: d, Length: 60, Point: 3})
	}
	return out
}

var set = []tool.Drill{
	{Kind: tool.Forstner, D: 16, Length: 60, Point: 3}, {Kind: tool.Forstner, D: 25, Length: 60, Point: 3},
	{Kind: tool.Forstner, D: 35, Length: 20, Point: 4}, {Kind: tool.Twist, D: 3, Length: 60, Point: 0.9},
}

func wasteOf(plan geom.Region, depth float64) cut.Waste { return cut.Waste{Plan: plan, Depth: depth} }

// sound tests what holds of every plan: the margin by the distance to the line, the
// point above the floor, every middle in wood when its turn comes, drills that are
// long enough, and shares as a fine grid of points counts them.
func sound(t *testing.T, name string, w cut.Waste, d cut.DrillOut) {
	t.Helper()
	edge := geom.IndexOf(w.Plan)
	for i, h := range d.Holes {
		if _, e := edge.Closest(h.At); !edge.Contains(h.At) || e-h.Drill.D/2 < cut.DrillMargin-1e-5 {
			t.Errorf("%s: hole %d of %g at %v comes to %g of the line", name, i+1, h.Drill.D, h.At, e-h.Drill.D/2)
		}
		floor := w.Depth
		disc := geom.Disc{Center: h.At, Radius: h.Drill.D / 2}
		if w.Floor != nil {
			floor = math.Min(floor, w.Floor(disc))
		}
		if h.Stop+h.Drill.Point > floor-cut.DrillFloor+1e-9 || h.Stop < floor-h.Drill.Point-cut.DrillFloor-0.1-1e-9 || h.Stop <= w.Start || d.Start != w.Start {
			t.Errorf("%s: hole %d stops at %g, from %g, with a point of %g over a floor at %g", name, i+1, h.Stop, d.Start, h.Drill.Point, floor)
		}
		if h.Drill.Length > 0 && h.Drill.Length < h.Stop || h.Drill.D < 6 {
			t.Errorf("%s: drill %v", name, h.Drill)
		}
		for k, o := range d.Holes[:i] {
			if far := h.At.Dist(o.At); far < o.Drill.D/2+cut.DrillSeat-1e-5 {
				t.Errorf("%s: the point of hole %d stands %g from the rim of hole %d", name, i+1, far-o.Drill.D/2, k+1)
			}
		}
	}
	in, all, deep := 0, 0, 0.0
	b := w.Plan.Bounds()
	for x := b.Min.X; x < b.Max.X; x += 0.25 {
		for y := b.Min.Y; y < b.Max.Y; y += 0.25 {
			p := geom.Pt(x, y)
			if !edge.Contains(p) {
				continue
			}
			all++
			most := 0.0
			for _, h := range d.Holes {
				if h.At.Dist(p) <= h.Drill.D/2 {
					most = math.Max(most, h.Stop-w.Start)
				}
			}
			if most > 0 {
				in++
				deep += most
			}
		}
	}
	if got := float64(in) / float64(all); math.Abs(got-d.Share) > 5e-3 {
		t.Errorf("%s: share %.4f, counted %.4f", name, d.Share, got)
	}
	if got := deep / (float64(all) * (w.Depth - w.Start)); math.Abs(got-d.Volume) > 5e-3 {
		t.Errorf("%s: %.4f of the wood, counted %.4f", name, d.Volume, got)
	}
}

// cavities are voids as they are common, with the share that is asked of the plan
// and the holes that a careful builder would bore at most: two rows along a
// humbucker, one along a single coil; common practice.
var cavities = []struct {
	name  string
	plan  geom.Region
	depth float64
	set   string
	share float64
	holes int
}{
	{"humbucker", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 72.7, 41.3, 6.35)}, 19, "10 to 35", 0.8, 9},
	{"humbucker", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 72.7, 41.3, 6.35)}, 19, "22", 0.8, 8},
	{"humbucker", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 72.7, 41.3, 6.35)}, 19, "16 and 25", 0.8, 8},
	{"control cavity", control, 38, "10 to 35", 0.8, 9},
	{"control cavity", control, 38, "22", 0.75, 13},
	{"control cavity", control, 38, "16 and 25", 0.8, 9},
	{"narrow control cavity", geom.Region{geom.Stadium(geom.Pt(90, -90), geom.Pt(90, -34), 15)}, 34, "10 to 35", 0.75, 6},
	{"narrow control cavity", geom.Region{geom.Stadium(geom.Pt(90, -90), geom.Pt(90, -34), 15)}, 34, "22", 0.6, 5},
	{"narrow control cavity", geom.Region{geom.Stadium(geom.Pt(90, -90), geom.Pt(90, -34), 15)}, 34, "16 and 25", 0.75, 6},
	{"soapbar", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 89, 36.6, 6.35)}, 18, "10 to 35", 0.8, 10},
	{"soapbar", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 89, 36.6, 6.35)}, 18, "22", 0.75, 10},
	{"single coil", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 74, 22.6, 6.35)}, 18, "10 to 35", 0.6, 8},
	{"single coil", geom.Region{geom.RoundedRect(geom.Pt(0, 42), 74, 22.6, 6.35)}, 18, "16 and 25", 0.6, 7},
	{"neck pocket", geom.Region{geom.RoundedRect(geom.Pt(0, 215), 56, 88, 6.35)}, 15.9, "10 to 35", 0.8, 8},
	{"neck pocket", geom.Region{geom.RoundedRect(geom.Pt(0, 215), 56, 88, 6.35)}, 15.9, "22", 0.8, 13},
	{"key", geom.Region{geom.Polygon(geom.Pt(-30, -13), geom.Pt(0, -6.5), geom.Pt(30, -13), geom.Pt(30, 13), geom.Pt(0, 6.5), geom.Pt(-30, 13))}, 12, "10 to 35", 0.5, 9},
	{"key", geom.Region{geom.Polygon(geom.Pt(-30, -13), geom.Pt(0, -6.5), geom.Pt(30, -13), geom.Pt(30, 13), geom.Pt(0, 6.5), geom.Pt(-30, 13))}, 12, "16 and 25", 0.3, 4},
}

// control is a cavity round two pots and a switch.
var control = geom.Region{round(geom.Polygon(geom.Pt(75, -62), geom.Pt(108, -68), geom.Pt(127, -10), geom.Pt(112, 30), geom.Pt(86, 34), geom.Pt(70, -20)), 9)}

func round(p geom.Path, r float64) geom.Path {
	q, err := p.FilletAll(r)
	if err != nil {
		panic(err)
	}
	return q
}

var sets = map[string][]tool.Drill{"10 to 35": forstner(10, 15, 20, 25, 30, 35), "22": forstner(22), "16 and 25": forstner(16, 25)}

// A plan takes what is asked of it with no more holes than a careful builder bores;
// go test ./templates/cut -run Cavities -v prints the table.
func TestDrillWasteOfCavities(t *testing.T) {
	table := "| cavity | drills at hand | holes | of the area | of the wood | least rim in wood |\n|---|---|---|--:|--:|--:|\n"
	for _, tt := range cavities {
		w := wasteOf(tt.plan, tt.depth)
		d := cut.DrillWaste(w, sets[tt.set])
		sound(t, tt.name+", "+tt.set, w, d)
		words, drills := "", map[float64]bool{}
		ks, n := d.Pieces()
		rim := 1.0
		for i := range ks {
			if i > 0 {
				words += ", "
			}
			words += fmt.Sprintf("%d × %g", n[i], ks[i].D)
			drills[ks[i].D] = true
		}
		for _, h := range d.Holes {
			rim = math.Min(rim, h.Rim)
		}
		table += fmt.Sprintf("| %s | %s | %s | %.0f %% | %.0f %% | %.2f |\n", tt.name, tt.set, words, 100*d.Share, 100*d.Volume, rim)
		if len(d.Holes) > tt.holes || d.Share < tt.share {
			t.Errorf("%s, %s: %d holes take %.3f; want at most %d for %.2f", tt.name, tt.set, len(d.Holes), d.Share, tt.holes, tt.share)
		}
		if rim < cut.DrillRim {
			t.Errorf("%s, %s: only %.2f of a rim runs in wood", tt.name, tt.set, rim)
		}
		if len(ks) != len(drills) {
			t.Errorf("%s: a drill is taken up twice", tt.name)
		}
	}
	t.Log("\n" + table)
	const file, from, to = "../../DEVELOPERS.md", "<!-- waste -->\n\n", "\n<!-- end of waste -->"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, _ := strings.Cut(string(text), from)
	printed, after, ok := strings.Cut(rest, to)
	switch {
	case !ok:
		t.Fatalf("%s has no place for the table", file)
	case *update:
		if err := os.WriteFile(file, []byte(before+from+table+to+after), 0o644); err != nil {
			t.Fatal(err)
		}
	case printed != table:
		t.Errorf("the table of %s differs from what is measured: go test ./templates/cut -run Cavities -update", file)
	}
}

var update = flag.Bool("update", false, "rewrite the table of DEVELOPERS.md")

// cost is what a plan costs in holes: another drill counts as two.
func cost(d cut.DrillOut) float64 {
	ks, _ := d.Pieces()
	return float64(len(d.Holes) + 2*max(0, len(ks)-1))
}

// A region that is turned, moved or mirrored costs as much to drill, to one drill where
// two plans are about as good, and as much of it is taken, to one per cent: holes are placed
// to half a millimetre.
func TestDrillWasteUnderSymmetry(t *testing.T) {
	const seed = 61
	rnd := rand.New(rand.NewPCG(seed, 0))
	for _, tt := range cavities {
		first := cut.DrillWaste(wasteOf(tt.plan, tt.depth), sets[tt.set])
		for i := range 3 {
			m := geom.Pose(geom.Pt(60*rnd.Float64(), 60*rnd.Float64()), geom.Angle(6*rnd.Float64()))
			if i == 0 {
				m = geom.MirrorX()
			}
			w := wasteOf(m.Region(tt.plan), tt.depth)
			d := cut.DrillWaste(w, sets[tt.set])
			sound(t, tt.name+" moved", w, d)
			if math.Abs(d.Share-first.Share) > 0.012 || math.Abs(cost(d)-cost(first)) > 2 {
				t.Errorf("seed %d: %s, %s: %d holes take %.3f, moved %d take %.3f", seed, tt.name, tt.set, len(first.Holes), first.Share, len(d.Holes), d.Share)
			}
		}
	}
}

// Over a sloped floor and in a rebate every hole stops above the floor at its own
// place and counts from the face, and random voids keep every rule.
func TestDrillWasteKeepsItsRules(t *testing.T) {
	const seed = 62
	rnd := rand.New(rand.NewPCG(seed, 0))
	for i := range 25 {
		var at []geom.Point
		n := 4 + rnd.IntN(4)
		for k := range n {
			at = append(at, geom.Pt(0, 0).Add(geom.Angle(2*math.Pi*float64(k)/float64(n)).Unit().Mul(20+30*rnd.Float64())))
		}
		w := wasteOf(geom.Region{geom.Polygon(at...)}, 12+25*rnd.Float64())
		dx, dy := 0.1*rnd.Float64(), 0.1*rnd.Float64()
		if i%2 == 0 {
			w.Floor = func(d geom.Disc) float64 {
				return w.Depth - 5 + dx*d.Center.X + dy*d.Center.Y - d.Radius*math.Hypot(dx, dy)
			}
		}
		sound(t, fmt.Sprintf("seed %d, void %d", seed, i), w, cut.DrillWaste(w, sets["10 to 35"]))
	}
	w := wasteOf(geom.Region{geom.RoundedRect(geom.Pt(0, 0), 80, 50, 8)}, 30)
	w.Start = 2.6
	d := cut.DrillWaste(w, set)
	sound(t, "in a rebate", w, d)
	if len(d.Holes) == 0 || d.Start != 2.6 || math.Abs(d.Volume-d.Share*(26.5-2.6)/(30-2.6)) > 1e-9 {
		t.Errorf("in a rebate: %+v", d)
	}
}

// A drill that is too short is left out.
func TestDrillWasteLeavesOutShortDrills(t *testing.T) {
	w := wasteOf(geom.Region{geom.RoundedRect(geom.Pt(0, 0), 92, 40, 6)}, 38)
	d := cut.DrillWaste(w, set)
	sound(t, "deep", w, d)
	if len(d.Holes) == 0 {
		t.Error("no holes")
	}
	for _, h := range d.Holes {
		if h.Drill.D == 35 {
			t.Errorf("a drill of %g mm for %g", h.Drill.Length, h.Stop)
		}
	}
}

// Where drilling helps nothing there are no holes: too shallow for the point, too
// narrow for any drill, no drill at hand.
func TestNoDrillWaste(t *testing.T) {
	wide := geom.Region{geom.Rect(geom.Pt(0, 0), 80, 50)}
	for name, d := range map[string]cut.DrillOut{
		"shallow":  cut.DrillWaste(wasteOf(wide, 5), set),
		"narrow":   cut.DrillWaste(wasteOf(geom.Region{geom.Rect(geom.Pt(0, 0), 80, 12)}, 20), set),
		"no drill": cut.DrillWaste(wasteOf(wide, 20), nil),
		"no plan":  cut.DrillWaste(wasteOf(nil, 20), set),
	} {
		if len(d.Holes) > 0 || d.Share != 0 {
			t.Errorf("%s: %+v", name, d)
		}
	}
}

func BenchmarkDrillWaste(b *testing.B) {
	for _, tt := range cavities {
		b.Run(tt.name+" "+tt.set, func(b *testing.B) {
			for b.Loop() {
				cut.DrillWaste(wasteOf(tt.plan, tt.depth), sets[tt.set])
			}
		})
	}
}
