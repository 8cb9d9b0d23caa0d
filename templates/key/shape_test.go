package key_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/key"
	"routwright/templates/tool"
)

// Bad keys: each a clear error, never a drawing.
func TestBadKeys(t *testing.T) {
	bit := tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35}
	for _, tt := range []struct {
		name string
		s    key.Spec
		want string
	}{
		{"no length", key.Spec{Ends: 26, Waist: 13}, "greater than 0"},
		{"wide waist", key.Spec{Length: 60, Ends: 20, Waist: 20}, "narrower"},
		{"gap over the key", key.Spec{Length: 60, Ends: 26, Waist: 13, Gap: 7}, "leaves nothing"},
		{"negative gap", key.Spec{Length: 60, Ends: 26, Waist: 13, Gap: -1}, "negative"},
		{"corners too large", key.Spec{Length: 20, Ends: 6, Waist: 4, Corners: key.Rounded}, "corners of radius"},
		{"not a number", key.Spec{Length: math.NaN(), Ends: 26, Waist: 13}, "greater than 0"},
	} {
		_, err := key.Make(tt.s, bit)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want …%s…", tt.name, err, tt.want)
		}
	}
}

// A relieved recess lets the sharp key in: nothing of the key lies outside it.
func TestRelievedTakesTheSharpKey(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Gap: 0.08, Corners: key.Relieved}
	f, err := key.Make(s, tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35})
	if err != nil {
		t.Fatal(err)
	}
	var c geom.Calc
	recess := c.Offset(c.Offset(f.Female, -6.35/2, geom.Round), 6.35/2, geom.Round)
	if out := c.Subtract(f.Key, recess); out.Area() > 1e-6 || c.Err() != nil {
		t.Errorf("%g mm² of the key lie outside the recess (%v)", out.Area(), c.Err())
	}
	// A relief of radius r overcuts each flank by r(1 − sin(θ/2)) at most: the
	// recess grows by less than 4 circles.
	if grown := recess.Area() - s.Outline().Area(); grown <= 0 || grown > 4*math.Pi*3.3*3.3 {
		t.Errorf("the reliefs add %g mm²", grown)
	}
}

func ExampleSpec_Flank() {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13}
	fmt.Printf("flank %.1f°, end corner %.1f°\n", s.Flank().Degrees(), s.End().Degrees())
	// Output: flank 12.2°, end corner 77.8°
}

// An inlay set mates exactly when the collar is the bush and two bits wide:
// B1 = B0 + 2d. Published sizes: bush 5/16 in, bit 1/8 in, collar 9/16 in.
func TestInlayRule(t *testing.T) {
	const in = 25.4
	for _, tt := range []struct{ bush, collar, d, gap float64 }{
		{5 * in / 16, 9 * in / 16, in / 8, 0},
		{12, 24, 6, 0},
		{12, 23.8, 6, 0.1},
	} {
		set := key.Inlay{Bush: tt.bush, Collar: tt.collar}
		if g := set.Gap(tt.d); math.Abs(g-tt.gap) > 1e-12 {
			t.Errorf("%+v: gap %g, want %g", tt, g, tt.gap)
		}
		f, err := key.MakeInlay(key.Spec{Length: 80, Ends: 40, Waist: 20, Corners: key.Rounded, Template: tt.collar / 2}, "b", tt.d, set)
		if err != nil {
			t.Error(err)
			continue
		}
		female, male := f.Templates(10, 12, 40)
		p, err := key.Prove(f, female, male)
		if err != nil || math.Abs(p.Gap.Min-tt.gap) > 1e-4 || math.Abs(p.Gap.Max-tt.gap) > 1e-4 {
			t.Errorf("%+v: gap %.5f to %.5f (%v), want %g all round", tt, p.Gap.Min, p.Gap.Max, err, tt.gap)
		}
	}
	if _, err := key.MakeInlay(key.Spec{Length: 80, Ends: 40, Waist: 20}, "b", 6, key.Inlay{Bush: 12, Collar: 25}); err == nil {
		t.Error("a collar too large passed")
	}
}

// The strips of that border: at the ends mitred at θ/2 = 38.88°, at the waist
// α = 12.23° off square; the flanks 30.7/cos α = 31.41 long. Closed form. Mitred
// strips end to end are the wall of the recess.
func TestStrips(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Border: 0.6, GlueLine: 0.05, Corners: key.Chiselled}
	f, err := key.Make(s, tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35})
	if err != nil {
		t.Fatal(err)
	}
	var round float64
	for _, p := range f.Strips() {
		round += float64(p.Count) * p.Length
		want := map[string][3]float64{"end": {27.74, 38.88, 38.88}, "flank": {31.41, 38.88, 12.23}}[p.Where]
		if got := [3]float64{p.Length, p.Mitres[0].Off.Degrees(), p.Mitres[1].Off.Degrees()}; math.Abs(got[0]-want[0]) > 0.01 || math.Abs(got[1]-want[1]) > 0.01 || math.Abs(got[2]-want[2]) > 0.01 {
			t.Errorf("%s: %v, want %v", p.Where, got, want)
		}
	}
	if wall := f.Recess[0].Length(); math.Abs(round-wall) > 1e-9 {
		t.Errorf("strips of %g mm for a wall of %g", round, wall)
	}
	s.Corners = key.Rounded
	s.Border = 6 // thicker than the bit's radius: the key's corners keep one, and the border its thickness
	s.Ends, s.Waist = 46, 23
	if f, err = key.Make(s, tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35}); err != nil {
		t.Fatal(err)
	}
	female, male := f.Templates(10, 12, 40)
	p, err := key.Prove(f, female, male)
	if err != nil || p.Gap.Max-p.Gap.Min > 0.02 {
		t.Errorf("the border varies from %g to %g (%v)", p.Gap.Min, p.Gap.Max, err)
	}
}

// Side taper and chamfer open the gap to the floor by h·tan β a side: 12 mm at
// 0.5° is 0.1047, and the chamfer adds its own. The waste in an end corner of
// 77.775° is 3.94 along each side, and ends where the cutter touches.
func TestInsertionAndCorners(t *testing.T) {
	p := key.Proof{}
	p.Gap.Min, p.Gap.Max = 0.08, 0.09
	in := p.Insert(12, 0.5*geom.Degree, 0.4)
	if in.Face.Min != 0.08 || math.Abs(in.Floor.Min-0.1847) > 1e-4 || math.Abs(in.Entry.Max-0.5947) > 1e-4 {
		t.Errorf("%+v", in)
	}
	f, err := key.Make(key.Spec{Length: 60, Ends: 26, Waist: 13, Corners: key.Chiselled}, tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35})
	if err != nil {
		t.Fatal(err)
	}
	cs := f.Corners()
	if len(cs) != 4 {
		t.Fatalf("%d corners", len(cs))
	}
	for _, c := range cs {
		_, a := geom.IndexOf(f.Recess).Closest(c.A)
		_, b := geom.IndexOf(f.Recess).Closest(c.B)
		if math.Abs(c.Length-3.94) > 0.005 || a > 1e-9 || b > 1e-9 || math.Abs(c.A.Dist(c.Tip)-c.Length) > 1e-9 {
			t.Errorf("%+v: off the edge by %g and %g", c, a, b)
		}
	}
}

// A border of 0.6 with a glue line of 0.05 grows the key of 60 × 26 × 13 to
// 61.4 × 27.74 × 14.43: closed form.
func TestBorder(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Border: 0.6, GlueLine: 0.05}
	b := s.Recess().Bounds()
	if math.Abs(b.W()-61.4) > 0.005 || math.Abs(b.H()-27.74) > 0.005 {
		t.Errorf("recess %.3f × %.3f", b.W(), b.H())
	}
	if w := -2 * s.Recess()[1].A.Y; math.Abs(w-14.43) > 0.005 {
		t.Errorf("waist %.3f", w)
	}
}
