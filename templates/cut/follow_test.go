package cut_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/key"
	"routwright/templates/tool"
)

// bearing returns a bit with a bearing of the given diameter.
func bearing(d, follower float64) tool.Tool {
	return tool.Tool{Bit: "test", Cutter: d, Follower: follower}
}

func bush(d, outside float64) tool.Tool {
	return tool.Tool{Bit: "test", Cutter: d, Guide: tool.Bush, GuideOf: "test", Follower: outside}
}

// guide_bush.csv: published and computed cases of the offset between the
// template's edge and the cut, mm or inches of 25.4 mm.
func TestBushOffsets(t *testing.T) {
	const in = 25.4
	for _, tt := range []struct {
		bush, bit, want float64
		source          string
	}{
		{0.75 * in, 0.5 * in, in / 8, "magazine article quoted in woodworking.stackexchange 7205"},
		{5 * in / 16, in / 4, in / 32, "woodworking.stackexchange 7205"},
		{15, 9, 3, "ukworkshop.co.uk thread 8513"},
		{0.75 * in, 0.25 * in, in / 4, "routerforums.com thread 4249: an 8 × 4 in recess needs an opening of 8½ × 4½ in"},
		{17, 12, 2.5, "computed"},
		{24, 12.7, 5.65, "computed"},
		{30, 12, 9, "computed"},
		{10, 6, 2, "computed"},
	} {
		tl := bush(tt.bit, tt.bush)
		if got := tl.Offset(); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("bush %g, bit %g: offset %g, want %g (%s)", tt.bush, tt.bit, got, tt.want, tt.source)
		}
		// The same through the simulated cut of a recess with corners that the
		// tools can make: the opening is larger by the offset on every side.
		var c geom.Calc
		recess := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 203.2, 101.6, tt.bit/2+1)}
		open := cut.OpeningFor(&c, recess, tl)
		b := open.Bounds()
		if math.Abs(b.W()-203.2-2*tt.want) > 1e-6 || math.Abs(b.H()-101.6-2*tt.want) > 1e-6 {
			t.Errorf("bush %g, bit %g: opening %g × %g", tt.bush, tt.bit, b.W(), b.H())
		}
		back := cut.Inside(&c, open, tl)
		if c.Err() != nil || math.Abs(back.Area()-recess.Area()) > 1e-6*recess.Area() {
			t.Errorf("bush %g, bit %g: the cut has %g mm², the recess %g (%v)", tt.bush, tt.bit, back.Area(), recess.Area(), c.Err())
		}
	}
}

// guide_bush.csv: a circle of 2 in with a bush of ¾ in and a bit of ½ in takes an
// inside guide of 2¼ in or an outside pattern of 1¾ in (published, routerforums.com
// thread 1303).
func TestBushCircles(t *testing.T) {
	const in = 25.4
	var c geom.Calc
	tl := bush(in/2, 3*in/4)
	disc := geom.Region{geom.Circle(geom.Pt(0, 0), in)}
	open, male := cut.OpeningFor(&c, disc, tl), cut.MaleFor(&c, disc, tl)
	if a, b := open.Bounds().W(), male.Bounds().W(); math.Abs(a-2.25*in) > 1e-6 || math.Abs(b-1.75*in) > 1e-6 || c.Err() != nil {
		t.Errorf("inside guide %.4f in, outside pattern %.4f in (%v)", a/in, b/in, c.Err())
	}
}

// guide_bush.csv: an inlay set of bush 12 and bit 6 from an opening of 80 × 40 makes
// a pocket of 62 × 22 with a collar of 24, of 62.2 × 22.2 with one of 23.8, and a
// key of 62 × 22 (computed from the rules in its header).
func TestInlayOpening(t *testing.T) {
	open := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 80, 40, 12)} // its corners let the collar in
	for _, tt := range []struct{ collar, w, h float64 }{{24, 62, 22}, {23.8, 62.2, 22.2}} {
		var c geom.Calc
		b := cut.Inside(&c, open, bush(6, tt.collar)).Bounds()
		k := c.Offset(open, -(12.0+6)/2, geom.Round).Bounds()
		if math.Abs(b.W()-tt.w) > 1e-6 || math.Abs(b.H()-tt.h) > 1e-6 || math.Abs(k.W()-62) > 1e-6 || math.Abs(k.H()-22) > 1e-6 || c.Err() != nil {
			t.Errorf("collar %g: pocket %g × %g, key %g × %g (%v)", tt.collar, b.W(), b.H(), k.W(), k.H(), c.Err())
		}
	}
}

// What a bit leaves in a sharp corner, for the key 60 long, 26 ends, 13 waist:
// tan α = 13/60. Closed forms of elementary geometry.
func TestWorkedKey(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Corners: key.Chiselled}
	near := func(what string, got, want, tol float64) {
		t.Helper()
		if math.Abs(got-want) > tol {
			t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	near("flank", s.Flank().Degrees(), 12.2, 0.05)
	near("end corner", s.End().Degrees(), 77.8, 0.05)
	for _, tt := range []struct{ d, distance, tangent, waist float64 }{
		{6.35, 1.88, 3.94, 0.07},
		{12.7, 3.76, 7.87, 0.15},
	} {
		near("corner distance", key.CornerDistance(tt.d/2, s.End()), tt.distance, 0.005)
		near("corner tangent", key.CornerTangent(tt.d/2, s.End()), tt.tangent, 0.005)
		near("waist", key.WaistExcess(tt.d/2, s.Flank()), tt.waist, 0.005)
		// The same from the simulated cut.
		f, err := key.Make(s, bearing(tt.d, tt.d))
		if err != nil {
			t.Fatal(err)
		}
		var c geom.Calc
		got := cut.Inside(&c, f.Female, f.Tool)
		left := c.Subtract(f.Recess, got)
		if err := c.Err(); err != nil {
			t.Fatal(err)
		}
		near("area left in four corners", left.Area(), 4*key.CornerArea(tt.d/2, s.End()), 1e-6)
		made := cut.Outside(&c, f.Male, f.Tool)
		// The waist of the key comes out wider by the fillet's excess on both sides.
		w := waist(made)
		near("waist of the key", w, 13+2*key.WaistExcess(tt.d/2, s.Flank()), 1e-6)
	}
}

// waist returns the width of a region across the origin along Y.
func waist(r geom.Region) float64 {
	d := math.Inf(1)
	for _, p := range r {
		for _, s := range p {
			d = math.Min(d, s.Closest(geom.Point{}).Dist(geom.Point{}))
		}
	}
	return 2 * d
}

// A guide bush of 20 with a bit of 8, k = 6: the opening is the key's outline
// with its sides moved out by k, and the recess's waist comes out wider by
// 2k(1/cos α − 1). Closed forms.
func TestWorkedBush(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Corners: key.Chiselled}
	tl := bush(8, 20)
	var c geom.Calc
	open := c.Offset(geom.Region{s.Outline()}, tl.Offset(), geom.Mitre)
	b := open.Bounds()
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.005 {
			t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	near("length", b.W(), 72)
	near("ends", b.H(), 40.88)
	near("waist", waist(open), 25.28)
	near("waist of the recess", waist(cut.Inside(&c, open, tl))-13, 0.28)
	// The erosion and dilation of the part give the same waist.
	near("waist by erosion and dilation", waist(cut.OpeningFor(&c, geom.Region{s.Outline()}, tl)), 25.28)
	if err := c.Err(); err != nil {
		t.Fatal(err)
	}
}

// A bearing larger or smaller than its cutter: k = (D − d)/2; d 12.7 with
// D 9.525 cuts 1.59 a side wider than the template.
func TestUnlikeBearing(t *testing.T) {
	tl := bearing(12.7, 9.525)
	var c geom.Calc
	r := cut.Inside(&c, geom.Region{geom.RoundedRect(geom.Pt(0, 0), 60, 40, 8)}, tl)
	if b := r.Bounds(); math.Abs(b.W()-60-2*1.5875) > 1e-9 || c.Err() != nil {
		t.Errorf("the cut is %g wide (%v)", b.W(), c.Err())
	}
}

// A rounded key needs no hand work: the gap is the gap asked for, all round.
func TestRoundedKeyFits(t *testing.T) {
	for _, tl := range []tool.Tool{bearing(6.35, 6.35), bearing(6.35, 9.525), bearing(8, 6.35), bush(6, 10), bearing(12.7, 12.7), bush(3.175, 7.9375), bush(6, 16)} {
		s := key.Spec{Length: 70, Ends: 40, Waist: 24, Gap: 0.08, Corners: key.Rounded}
		f, err := key.Make(s, tl)
		if err != nil {
			t.Errorf("%v: %v", tl, err)
			continue
		}
		var c geom.Calc
		recess, made := cut.Inside(&c, f.Female, tl), cut.Outside(&c, f.Male, tl)
		if err := c.Err(); err != nil {
			t.Errorf("%v: %v", tl, err)
			continue
		}
		g := cut.Gap(made, recess)
		if math.Abs(g.Min-0.08) > 1e-4 || math.Abs(g.Max-0.08) > 1e-4 {
			t.Errorf("%v: gap %.5f to %.5f, want 0.08", tl, g.Min, g.Max)
		}
	}
}

// First bite: a cutter of 25 through a template of 18 with a bearing of 5 high
// goes 12 deep at once; too deep for a recess of 10.
func TestFirstBite(t *testing.T) {
	tl := tool.Tool{Bit: "long", Cutter: 12.7, Follower: 12.7, Length: 25, Height: 5}
	if r := cut.Plan(tl, 20, 18); math.Abs(r.FirstBite-12) > 1e-9 || r.Problem != "" {
		t.Errorf("first bite %g, %s", r.FirstBite, r.Problem)
	}
	if r := cut.Plan(tl, 10, 18); r.Problem == "" {
		t.Error("a recess of 10 mm should be refused")
	}
	// The passes end at the depth and never take more than half the cutter,
	// the first aside.
	r := cut.Plan(tl, 30, 18)
	if got := r.Passes[len(r.Passes)-1].Depth; math.Abs(got-30) > 1e-9 {
		t.Errorf("the last pass ends at %g", got)
	}
	for i, p := range r.Passes {
		if i > 0 && p.Bite > 12.7/2+1e-9 {
			t.Errorf("pass %d bites %g", i, p.Bite)
		}
	}
	if r.Passes[len(r.Passes)-1].On != cut.OnWall && r.Passes[len(r.Passes)-1].On != cut.OnBoth {
		t.Errorf("at 30 mm a cutter of 25 rides on %v", r.Passes[len(r.Passes)-1].On)
	}
}
