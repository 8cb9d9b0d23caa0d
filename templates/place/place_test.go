package place_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/place"
)

func free(geom.Region, geom.Point) *place.Block { return nil }

// straight is a crack of 200 mm along +X with two true tips.
func straight() (place.Line, place.Rules) {
	return place.Line{Path: geom.Polyline(geom.Pt(0, 0), geom.Pt(200, 0)), FirstTip: true, LastTip: true},
		place.Rules{KeyLength: 60, Between: 8, Tip: 25, Allowed: free}
}

func at(keys []place.Station) (ss []float64) {
	for _, k := range keys {
		ss = append(ss, k.S)
	}
	return ss
}

// A free crack is covered from end to end by as few keys as can, evenly: 200 mm
// by keys of 60 with the outer ones 25 from the tips take 4.
func TestFreeCrack(t *testing.T) {
	l, r := straight()
	set := place.Solve(l, place.Stations(l, butterfly(60, 26, 13), r, nil), r)
	want := []float64{25, 75, 125, 175}
	if got := at(set.Keys); len(got) != 4 || got[0] != 25 || got[1] != 75 || got[2] != 125 || got[3] != 175 {
		t.Errorf("keys at %v, want %v", got, want)
	}
	if math.Abs(set.Covered-200) > 1e-9 || math.Abs(set.Weight-200) > 1e-2 || set.Tips != 2 || len(set.Bare) != 0 {
		t.Errorf("covered %g, weight %g, tips %d, bare %v", set.Covered, set.Weight, set.Tips, set.Bare)
	}
	for _, k := range set.Keys { // square to a crack along +X
		if math.Abs(math.Abs(k.Turn.Degrees())-90) > 1e-9 {
			t.Errorf("a key turned by %g°", k.Turn.Degrees())
		}
	}
}

// What blocks a bare stretch is named.
func TestBareStretchNamesWhatBlocks(t *testing.T) {
	l, r := straight()
	r.Allowed = func(_ geom.Region, p geom.Point) *place.Block {
		if p.X > 60 {
			return &place.Block{By: "bridge pickup cavity", Have: 1, Need: 4}
		}
		return nil
	}
	set := place.Solve(l, place.Stations(l, butterfly(60, 26, 13), r, nil), r)
	if len(set.Bare) != 1 || set.Bare[0].Block == nil || set.Bare[0].Block.By != "bridge pickup cavity" {
		t.Fatalf("bare: %+v", set.Bare)
	}
	if b := set.Bare[0]; b.From != 90 || b.To != 200 {
		t.Errorf("bare from %g to %g, want 90 to 200", b.From, b.To)
	}
}

// Nothing allowed: no key, the whole crack bare, and no panic.
func TestNothingFits(t *testing.T) {
	l, r := straight()
	r.Allowed = func(geom.Region, geom.Point) *place.Block { return &place.Block{By: "outline"} }
	set := place.Solve(l, place.Stations(l, butterfly(60, 26, 13), r, nil), r)
	if len(set.Keys) != 0 || set.Tips != 0 || len(set.Bare) != 1 || set.Bare[0].Block == nil {
		t.Errorf("%+v", set)
	}
}

// Keys fixed by hand are kept, even two that are too close: the checks tell of
// it, the solver does not drop them.
func TestFixedKeysStay(t *testing.T) {
	l, r := straight()
	st := place.Stations(l, butterfly(60, 26, 13), r, nil)
	for _, s := range [][]int{{90}, {90, 95}, {3, 197}, {90, 91, 92, 93}} {
		some := append([]place.Station(nil), st...)
		for _, i := range s {
			some[i].Fixed = true
			some[i].Block = &place.Block{By: "knot"}
		}
		set := place.Solve(l, some, r)
		n := 0
		for i, k := range set.Keys {
			if k.Fixed {
				n++
			}
			if i > 0 && !(k.Fixed && set.Keys[i-1].Fixed) && k.S-set.Keys[i-1].S < 26+8 {
				t.Errorf("fixed %v: keys at %v", s, at(set.Keys))
			}
		}
		if n != len(s) {
			t.Errorf("fixed %v: %d of them in %v", s, n, at(set.Keys))
		}
	}
}

// The reach of a tip has a station of its own where no full step falls on it.
func TestStationsAtTheReachOfATip(t *testing.T) {
	l, r := straight()
	l.Path = geom.Polyline(geom.Pt(0, 0), geom.Pt(100.4, 0))
	r.Allowed = func(_ geom.Region, p geom.Point) *place.Block {
		if p.X > 75.5 {
			return &place.Block{By: "knot"}
		}
		return nil
	}
	if set := place.Solve(l, place.Stations(l, butterfly(60, 26, 13), r, nil), r); set.Tips != 2 {
		t.Errorf("%d tips covered by keys at %v", set.Tips, at(set.Keys))
	}
}

// Lines that are hardly lines: no panic, no number that is not one.
func TestDegenerateLines(t *testing.T) {
	p := geom.Pt(3, 4)
	for name, l := range map[string]place.Line{
		"none":          {},
		"a point":       {Path: geom.Path{geom.Line(p, p)}, Opening: []float64{1, 2}},
		"double points": {Path: geom.Path{geom.Line(p, p), geom.Line(p, geom.Pt(50, 4)), geom.Line(geom.Pt(50, 4), geom.Pt(50, 4))}, Opening: []float64{0, 0}},
		"short":         {Path: geom.Polyline(p, geom.Pt(3.2, 4)), FirstTip: true, LastTip: true},
	} {
		r := place.Rules{KeyLength: 60, Between: 8, Tip: 25}
		set := place.Solve(l, place.Stations(l, butterfly(60, 26, 13), r, nil), r)
		if len(set.Keys) == 0 {
			t.Errorf("%s: no key", name)
		}
		for _, k := range set.Keys {
			if math.IsNaN(k.S + k.At.X + k.At.Y + float64(k.Turn) + set.Weight + set.Covered) {
				t.Errorf("%s: %+v", name, k)
			}
		}
	}
}

// The whole task at the size of the goal: a crack of 400 mm among 10 parts.
func BenchmarkSolve400(b *testing.B) {
	l, r := straight()
	l.Path = geom.Polyline(geom.Pt(0, 0), geom.Pt(150, 8), geom.Pt(260, -5), geom.Pt(400, 0))
	l.Opening = []float64{0, 0.4, 1.2, 0.8, 0}
	var parts []geom.Region
	for i := range 10 {
		parts = append(parts, geom.Region{geom.RoundedRect(geom.Pt(float64(i)*40, float64(i%3-1)*45), 30, 18, 4)})
	}
	r.Allowed = func(plan geom.Region, _ geom.Point) *place.Block {
		for _, p := range parts {
			if d, _, _ := geom.Distance(plan, p); d < 4 {
				return &place.Block{By: "cavity", Have: d, Need: 4}
			}
		}
		return nil
	}
	b.ReportAllocs()
	for b.Loop() {
		place.Solve(l, place.Stations(l, butterfly(60, 26, 13), r, nil), r)
	}
}
