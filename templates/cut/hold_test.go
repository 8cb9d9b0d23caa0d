package cut_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
)

// bench is a template with a rectangular opening in a rectangular sheet on a slab.
type bench struct {
	open, sheet geom.Region
	cut.Bench
	base float64
}

func (b bench) sweep(t *testing.T) cut.Sweep {
	t.Helper()
	return sweep(t, sheeted(b.open, b.sheet, bearing(6, 6)), b.base)
}

func rect(x, y, w, h float64) geom.Region { return geom.Region{geom.Rect(geom.Pt(x, y), w, h)} }

// heldWell tests what holds of every place for a clamp, by the distance of the kernel to
// where the middle of the bit goes: pad and bar outside the sweep, the pad on the sheet
// over the slab, off voids and pins.
func heldWell(t *testing.T, name string, b bench, clamps []cut.Clamp) {
	t.Helper()
	middle := geom.IndexOf(b.sweep(t).Centre)
	const pad = cut.ClampFoot / 2
	clear := func(p geom.Point) float64 {
		_, d := middle.Closest(p)
		if middle.Contains(p) {
			d = 0
		}
		return d - b.base/2 - pad
	}
	inside := func(r geom.Region, p geom.Point) bool {
		_, d := geom.IndexOf(r).Closest(p)
		return r.Contains(p) && d >= pad-1e-6
	}
	slab := b.Slab.Bounds()
	for i, c := range clamps {
		if !inside(b.sheet, c.At) || !inside(b.Slab, c.At) {
			t.Errorf("%s: pad %d at %v hangs over sheet or slab", name, i+1, c.At)
		}
		if !b.Off.Empty() {
			if _, d := geom.IndexOf(b.Off).Closest(c.At); b.Off.Contains(c.At) || d < pad-1e-6 {
				t.Errorf("%s: pad %d at %v stands over a void", name, i+1, c.At)
			}
		}
		for _, p := range b.Pins {
			if p.At.Dist(c.At) < pad+p.D/2 {
				t.Errorf("%s: pad %d stands on pin %s", name, i+1, p.Name)
			}
		}
		out := [4]geom.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}[c.Edge]
		want := [4]float64{slab.Max.X - c.At.X, slab.Max.Y - c.At.Y, c.At.X - slab.Min.X, c.At.Y - slab.Min.Y}[c.Edge]
		if math.Abs(c.Reach-want) > 1e-9 || c.Reach > cut.ClampThroat {
			t.Errorf("%s: clamp %d reaches %g, want %g", name, i+1, c.Reach, want)
		}
		for d := 0.0; d <= c.Reach; d += 0.5 {
			if got := clear(c.At.Add(out.Mul(d))); got < cut.HoldClear-0.2 { // the bar is looked at by steps
				t.Errorf("%s: clamp %d comes to %g of the sweep", name, i+1, got)
				break
			}
		}
	}
	if len(clamps) == 2 && clamps[0].Edge == clamps[1].Edge {
		t.Errorf("%s: both clamps at one edge", name)
	}
}

// Worked by hand: an opening of 60 × 60 in the middle of a sheet of 300 × 200 on a slab
// of 400 × 240. The middle of a bearing of 6 goes to ±27, the base of 150 to ±102, a pad
// of 25 clear by 3 may stand from 117.5; on the sheet up to 137.5. In whole centimetres
// the places farthest apart are (±130, ±80) in opposite corners.
func TestClampsOfARectangle(t *testing.T) {
	b := bench{open: rect(0, 0, 60, 60), sheet: rect(0, 0, 300, 200), base: 150, Bench: cut.Bench{Slab: rect(0, 0, 400, 240)}}
	got, err := cut.Clamps(b.sweep(t), b.sheet, b.Bench)
	if err != nil || len(got) != 2 {
		t.Fatalf("%v, %v", got, err)
	}
	heldWell(t, "rectangle", b, got)
	for _, c := range got {
		if math.Abs(math.Abs(c.At.X)-130) > 1e-9 || math.Abs(math.Abs(c.At.Y)-80) > 1e-9 {
			t.Errorf("a clamp at %v", c.At)
		}
	}
	if d := got[0].At.Dist(got[1].At); math.Abs(d-math.Hypot(260, 160)) > 1e-9 {
		t.Errorf("%g apart", d)
	}
	// A pin in one corner and a void in another leave the other two.
	b.Pins = []cut.Pin{{Name: "P", At: geom.Pt(-130, 80), D: 8}}
	if got, err = cut.Clamps(b.sweep(t), b.sheet, b.Bench); err != nil || len(got) != 2 {
		t.Fatalf("%v, %v", got, err)
	}
	heldWell(t, "with a pin", b, got)
	b.Off = rect(130, 80, 20, 20)
	if got, err = cut.Clamps(b.sweep(t), b.sheet, b.Bench); err != nil || len(got) != 2 {
		t.Fatalf("%v, %v", got, err)
	}
	heldWell(t, "with a void", b, got)
	// Where the base goes to every edge there is no room.
	b.sheet = rect(0, 0, 200, 200)
	if got, err = cut.Clamps(b.sweep(t), b.sheet, b.Bench); err != nil || got != nil {
		t.Errorf("%v, %v", got, err)
	}
	// A slab that reaches farther than the throat of a clamp.
	b.sheet, b.Slab = rect(0, 0, 300, 200), rect(0, 0, 700, 700)
	if got, err = cut.Clamps(b.sweep(t), b.sheet, b.Bench); err != nil || got != nil {
		t.Errorf("%v, %v", got, err)
	}
}

// Screws stand in the waste alone: beside a body that fills the slab but for 30 mm on
// the left and the right.
func TestScrewsStandInTheWaste(t *testing.T) {
	b := bench{open: rect(0, 0, 60, 60), sheet: rect(0, 0, 300, 200), base: 150, Bench: cut.Bench{Slab: rect(0, 0, 300, 240), Body: rect(0, 0, 240, 240), Pins: []cut.Pin{{Name: "P", At: geom.Pt(135, 85), D: 8}}}}
	got, err := cut.Screws(b.sweep(t), b.sheet, b.Bench, 12)
	if err != nil || len(got) != 2 {
		t.Fatalf("%v, %v", got, err)
	}
	for _, p := range got {
		if math.Abs(p.X) < 120+cut.ScrewWaste || math.Abs(p.X) > 150-cut.ScrewEdge+1e-9 || math.Abs(p.Y) > 100-cut.ScrewEdge+1e-9 || p.Dist(b.Pins[0].At) < 4+cut.ScrewEdge {
			t.Errorf("a screw at %v", p)
		}
		if c := b.sweep(t).Clear(cut.Proud{At: p, D: 12}); c < cut.HoldClear-1e-6 {
			t.Errorf("a screw %g clear", c)
		}
	}
	b.Body = b.Slab
	if got, err = cut.Screws(b.sweep(t), b.sheet, b.Bench, 12); err != nil || got != nil {
		t.Errorf("without waste: %v, %v", got, err)
	}
}

// Random benches, and their mirror images and quarter turns: every rule holds, and two
// places are as far apart in each.
func TestClampsUnderSymmetry(t *testing.T) {
	const seed = 71
	rnd := rand.New(rand.NewPCG(seed, 0))
	found := 0
	for i := range 30 {
		b := bench{
			open:  rect(20*rnd.Float64(), 20*rnd.Float64(), 40+60*rnd.Float64(), 30+50*rnd.Float64()),
			sheet: rect(0, 0, 260+120*rnd.Float64(), 180+100*rnd.Float64()), base: 140 + 20*rnd.Float64(),
			Bench: cut.Bench{Slab: rect(0, 0, 340+100*rnd.Float64(), 260+100*rnd.Float64()),
				Off:  rect(-60+120*rnd.Float64(), -80+160*rnd.Float64(), 40, 20),
				Pins: []cut.Pin{{Name: "P", At: geom.Pt(-120, 60), D: 8}, {Name: "Q", At: geom.Pt(125, -70), D: 6}}},
		}
		first := -1.0
		for k, m := range []geom.Transform{geom.Pose(geom.Pt(0, 0), 0), geom.MirrorX(), geom.Pose(geom.Pt(0, 0), math.Pi/2), geom.Pose(geom.Pt(30, -20), 0)} {
			moved := bench{open: m.Region(b.open), sheet: m.Region(b.sheet), base: b.base,
				Bench: cut.Bench{Slab: m.Region(b.Slab), Off: m.Region(b.Off)}}
			for _, p := range b.Pins {
				moved.Pins = append(moved.Pins, cut.Pin{Name: p.Name, At: m.Point(p.At), D: p.D})
			}
			got, err := cut.Clamps(moved.sweep(t), moved.sheet, moved.Bench)
			if err != nil {
				t.Fatal(err)
			}
			heldWell(t, "random", moved, got)
			d := 0.0
			if len(got) == 2 {
				found++
				d = got[0].At.Dist(got[1].At)
			}
			if first < 0 {
				first = d
			}
			if math.Abs(d-first) > 1e-6 {
				t.Errorf("seed %d, bench %d, image %d: %g apart, the first %g", seed, i, k, d, first)
			}
		}
	}
	if found < 40 {
		t.Errorf("%d of 120 benches have two clamps", found)
	}
}

// A sheet that stands over the slab is propped where the base passes, and only there:
// worked by hand, the base of the rectangle above reaches ±102.
func TestProps(t *testing.T) {
	open, slab := rect(0, 0, 60, 60), rect(0, 0, 400, 180)
	s := sweep(t, sheeted(open, rect(0, 0, 300, 200), bearing(6, 6)), 150)
	got, err := cut.Props(s, rect(0, 0, 300, 200), slab)
	if err != nil || len(got) != 2 {
		t.Fatalf("%v, %v", got, err)
	}
	for _, p := range got { // 90 up to 100 under the base, whose corners are round
		reach := 27 + math.Sqrt(75*75-63*63)
		if p.Edge != cut.NeckEdge && p.Edge != cut.TailEdge || math.Abs(p.Over-10) > 1e-9 || math.Abs(p.To-reach) > 1e-6 || math.Abs(p.From+reach) > 1e-6 {
			t.Errorf("%+v, want 10 over, from -%g to %g", p, reach, reach)
		}
	}
	if got, err = cut.Props(s, rect(0, 0, 300, 200), rect(0, 0, 300, 205)); err != nil || got != nil {
		t.Errorf("on the slab: %v, %v", got, err)
	}
	if got, err = cut.Props(s, rect(0, 0, 300, 240), rect(0, 0, 300, 220)); err != nil || got != nil {
		t.Errorf("beyond the sweep: %v, %v", got, err)
	}
}
