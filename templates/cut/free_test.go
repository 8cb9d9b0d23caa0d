package cut_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/key"
	"routwright/templates/part"
	"routwright/templates/tool"
)

func free(d float64) tool.Tool { return tool.Tool{Bit: "test", Cutter: d, Guide: tool.Free} }

func level(plan geom.Region) part.Part {
	return part.Part{Name: "test", Kind: part.Cavity, Solids: []part.Solid{{Plan: plan, Floor: part.Level(10)}}}
}

// The path of the cutter's middle inside a rectangle is the rectangle less r on
// every side, sharp in its corners; outside it is a rectangle grown by r, round.
func TestFreePath(t *testing.T) {
	var c geom.Calc
	const r = 4
	plan := geom.Region{geom.RoundedRect(geom.Pt(10, 20), 60, 40, r)}
	in := cut.OpeningFor(&c, plan, free(2*r))
	if want := 52.0 * 32; math.Abs(in.Area()-want) > 1e-6 || math.Abs(in.Perimeter()-2*(52+32)) > 1e-6 {
		t.Errorf("inside: %g mm², %g round, want %g and 168", in.Area(), in.Perimeter(), want)
	}
	sharp := geom.Region{geom.Rect(geom.Pt(10, 20), 60, 40)}
	out := cut.MaleFor(&c, sharp, free(2*r))
	if want := 60.0*40 + 2*(60+40)*r + math.Pi*r*r; math.Abs(out.Area()-want) > 1e-6 {
		t.Errorf("outside: %g mm², want %g", out.Area(), want)
	}
	if back := cut.Outside(&c, out, free(2*r)); math.Abs(back.Area()-60*40) > 1e-6 || c.Err() != nil {
		t.Errorf("round the outside %g mm² are left, want 2400 (%v)", back.Area(), c.Err())
	}
}

// Whatever the part, the simulated cut from a free path is that of a bearing of
// the bit's own size: path ⊕ r is the part's opening by r.
func TestFreeCutsAsAnEqualBearing(t *testing.T) {
	const seed = 21
	rnd := rand.New(rand.NewPCG(seed, 0))
	for i := range 60 {
		w, h := 30+60*rnd.Float64(), 20+40*rnd.Float64()
		plan := geom.Region{geom.Pose(geom.Pt(5, 7), geom.Angle(rnd.Float64())).Path(geom.RoundedRect(geom.Pt(0, 0), w, h, 8*rnd.Float64()))}
		if rnd.IntN(2) == 0 {
			plan = geom.Region{geom.Polygon(geom.Pt(0, 0), geom.Pt(w, 3), geom.Pt(w-8, h), geom.Pt(w/2, h/2), geom.Pt(4, h))}
		}
		d := 3 + 8*rnd.Float64()
		var proofs [2]cut.Proof
		for k, tl := range []tool.Tool{free(d), bearing(d, d)} {
			var c geom.Calc
			tpl := cut.Template{ID: "t", For: level(plan), Shape: cut.OpeningFor(&c, plan, tl), Tool: tl, Sheet: 18, InsideRadius: 0}
			p, err := cut.Prove(tpl.Settled())
			if err != nil || c.Err() != nil {
				t.Fatalf("seed %d, case %d: %v %v", seed, i, err, c.Err())
			}
			proofs[k] = p
		}
		a, b := proofs[0], proofs[1]
		if math.Abs(a.Cut.Area()-b.Cut.Area()) > 1e-4 || math.Abs(a.Left.Area()-b.Left.Area()) > 1e-4 || !a.Lost.Empty() {
			t.Errorf("seed %d, case %d: cut %.6f and %.6f mm², left %.6f and %.6f, lost %g", seed, i, a.Cut.Area(), b.Cut.Area(), a.Left.Area(), b.Left.Area(), a.Lost.Area())
		}
	}
}

// The key 60 long, 26 ends, 13 waist on a free path: the corners are those of the
// cutter, 1.88 from the tip for d 6.35, and rounded it fits with its gap. Closed
// forms.
func TestFreeKey(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Corners: key.Chiselled, Template: 3}
	f, err := key.Make(s, free(6.35))
	if err != nil {
		t.Fatal(err)
	}
	var c geom.Calc
	left := c.Subtract(f.Recess, cut.Inside(&c, f.Female, f.Tool))
	if want := 4 * key.CornerArea(6.35/2, s.End()); math.Abs(left.Area()-want) > 1e-6 || c.Err() != nil {
		t.Errorf("%.6f mm² left in the corners, want %.6f (%v)", left.Area(), want, c.Err())
	}
	s.Corners, s.Gap = key.Rounded, 0.08
	if f, err = key.Make(s, free(6.35)); err != nil {
		t.Fatal(err)
	}
	female, male := f.Templates(12, 18, 40)
	if female.Sheet != 0 || female.Blank != nil || male.InsideRadius != 0 {
		t.Errorf("a free path with a sheet: %+v", female)
	}
	p, err := key.Prove(f, female, male)
	if err != nil || math.Abs(p.Gap.Min-0.08) > 1e-4 || math.Abs(p.Gap.Max-0.08) > 1e-4 {
		t.Errorf("gap %.5f to %.5f (%v)", p.Gap.Min, p.Gap.Max, err)
	}
	if math.Abs(f.Radius-(6.35/2+key.Ease)) > 1e-9 {
		t.Errorf("corners of %g: those of a template's maker do not count", f.Radius)
	}
}

// The cutter must pass the necks of the recess, whatever follows: a neck of 6.1
// for a cutter of 6 stops, of 6.4 warns, of 6.6 is right. A smaller bearing alone
// would pass them all.
func TestCutterPassesTheRecess(t *testing.T) {
	for _, tt := range []struct {
		neck float64
		room float64
		ok   bool
	}{{5.9, 0, false}, {6.1, 0, true}, {6.4, 0.2, true}, {6.6, 0.5, true}} {
		h := tt.neck / 2
		plan := geom.Region{geom.Polygon(geom.Pt(-40, -15), geom.Pt(-10, -15), geom.Pt(-10, -h), geom.Pt(10, -h), geom.Pt(10, -15), geom.Pt(40, -15),
			geom.Pt(40, 15), geom.Pt(10, 15), geom.Pt(10, h), geom.Pt(-10, h), geom.Pt(-10, 15), geom.Pt(-40, 15))}
		p, err := cut.Prove(cut.Template{ID: "t", For: level(plan), Shape: plan, Tool: bearing(6, 4), Sheet: 18})
		if err != nil || p.Enters != tt.ok || tt.ok && p.Room != tt.room || !p.Passes {
			t.Errorf("neck %g: enters %v, room %g (%v), want %v, %g", tt.neck, p.Enters, p.Room, err, tt.ok, tt.room)
		}
	}
}

// A free path has no first bite, and nothing for it to run on.
func TestFreePasses(t *testing.T) {
	tl := free(6)
	tl.Length, tl.Height = 30, 5
	r := cut.Plan(tl, 12, 0)
	if r.Problem != "" || r.FirstBite != 0 || len(r.Passes) != 4 {
		t.Errorf("%+v", r)
	}
	for _, p := range r.Passes {
		if p.On != cut.Led || p.Bite > 3+1e-9 {
			t.Errorf("%+v", p)
		}
	}
}
