package place_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"routwright/geom"
	"routwright/templates/place"
)

// worth is what a set of keys is worth by the aims of placement, in their order,
// counted here anew: tips covered, crack within half a key of an axis weighted by
// its opening (sampled), fewest keys, squares of the pitches.
type worth struct {
	tips    int
	weight  float64
	keys    int
	squares float64
}

// beats reports whether w is better than what Solve found, beyond the sampling.
func (w worth) beats(v worth) bool {
	const sampling = 0.1 // mm²: some mm² are counted at 1000 places, each end of each key off by half a step at most
	switch {
	case w.tips != v.tips:
		return w.tips > v.tips
	case w.weight > v.weight+sampling:
		return true
	case math.Abs(w.weight-v.weight) > 1e-9: // only true ties go on
		return false
	case w.keys != v.keys:
		return w.keys < v.keys
	}
	return w.squares < v.squares-1e-6
}

// samples along a crack: one every 0.04 mm or so.
const samples = 1000

// openingAt interpolates at the share t of the crack.
func openingAt(o []float64, t float64) float64 {
	switch {
	case len(o) == 0 || slices.Max(o) == 0:
		return 1
	case len(o) == 1:
		return o[0]
	}
	i := min(int(t*float64(len(o)-1)), len(o)-2)
	f := t*float64(len(o)-1) - float64(i)
	return o[i]*(1-f) + o[i+1]*f
}

// judge counts what a set is worth.
func judge(l place.Line, r place.Rules, ss []float64) worth {
	w := worth{keys: len(ss)}
	step := l.Length() / samples
	for i := range samples {
		s := (float64(i) + 0.5) * step
		if slices.ContainsFunc(ss, func(k float64) bool { return math.Abs(k-s) <= r.KeyLength/2 }) {
			w.weight += openingAt(l.Opening, s/l.Length()) * step
		}
	}
	first, last := false, false
	for i, k := range ss {
		first = first || l.FirstTip && k <= r.Tip+1e-6
		last = last || l.LastTip && k >= l.Length()-r.Tip-1e-6
		if i > 0 {
			w.squares += (k - ss[i-1]) * (k - ss[i-1])
		}
	}
	for _, t := range [2]bool{first, last} {
		if t {
			w.tips++
		}
	}
	return w
}

// brute visits every legal set of stations: allowed or fixed, all fixed ones in
// it, all others r.Between from each other.
func brute(st []place.Station, r place.Rules, visit func(ss []float64)) {
	far := make([][]bool, len(st))
	at := make([]*geom.Index, len(st))
	for i := range st {
		far[i] = make([]bool, len(st))
		at[i] = geom.IndexOf(st[i].Plan)
		for k := range i {
			d, _, _ := at[i].Distance(at[k])
			far[i][k] = d >= r.Between || st[i].Fixed && st[k].Fixed
		}
	}
	var chosen []int
	var walk func(i int)
	walk = func(i int) {
		if i == len(st) {
			if len(chosen) > 0 {
				ss := make([]float64, len(chosen))
				for j, k := range chosen {
					ss[j] = st[k].S
				}
				visit(ss)
			}
			return
		}
		ok := st[i].Block == nil || st[i].Fixed
		for _, k := range chosen {
			ok = ok && far[i][k]
		}
		if !st[i].Fixed {
			walk(i + 1)
		}
		if ok {
			chosen = append(chosen, i)
			walk(i + 1)
			chosen = chosen[:len(chosen)-1]
		}
	}
	walk(0)
}

// butterfly is a key of length l about the origin.
func butterfly(l, ends, waist float64) geom.Region {
	return geom.Region{geom.Polygon(geom.Pt(-l/2, -ends/2), geom.Pt(0, -waist/2), geom.Pt(l/2, -ends/2),
		geom.Pt(l/2, ends/2), geom.Pt(0, waist/2), geom.Pt(-l/2, ends/2))}
}

// small returns a random small case: a crack of up to 40 mm that bends, with some
// stretches forbidden and, now and then, a key fixed by hand. With fold, the crack
// turns back on itself.
func small(rnd *rand.Rand, fold bool) (place.Line, place.Rules, []place.Station) {
	l := place.Line{FirstTip: rnd.IntN(2) == 0, LastTip: rnd.IntN(2) == 0}
	ps := []geom.Point{geom.Pt(0, 0)}
	if fold {
		u := 14 + float64(rnd.IntN(6))
		ps = append(ps, geom.Pt(u, 0), geom.Pt(u, 6+3*rnd.Float64()), geom.Pt(0, 8))
	} else {
		turn := geom.Angle(0)
		for range 1 + rnd.IntN(3) {
			turn += geom.Angle(rnd.Float64()-0.5) * 0.6
			ps = append(ps, ps[len(ps)-1].Add(turn.Unit().Mul(6+8*rnd.Float64())))
		}
	}
	l.Path = geom.Polyline(ps...)
	for range rnd.IntN(4) {
		l.Opening = append(l.Opening, float64(rnd.IntN(12))/10)
	}
	r := place.Rules{KeyLength: 8 + float64(rnd.IntN(8)), Between: 1 + 4*rnd.Float64(), Tip: 2 + float64(rnd.IntN(4))}
	var holes []geom.Disc
	for range rnd.IntN(3) {
		at, _ := l.At(l.Length() * rnd.Float64())
		holes = append(holes, geom.Disc{Center: at, Radius: 1 + 2*rnd.Float64()})
	}
	r.Allowed = func(_ geom.Region, at geom.Point) *place.Block {
		for _, h := range holes {
			if d := at.Dist(h.Center); d < h.Radius {
				return &place.Block{By: "knot", Have: d, Need: h.Radius}
			}
		}
		return nil
	}
	st := place.Stations(l, butterfly(r.KeyLength, 6, 3), r, nil)
	if rnd.IntN(3) == 0 {
		st[rnd.IntN(len(st))].Fixed = true
	}
	return l, r, st
}

// Solve is no worse than the best of all legal sets over the same stations.
func TestSolveAgainstBruteForce(t *testing.T) {
	const seed = 11
	rnd := rand.New(rand.NewPCG(seed, 0))
	sets := 0
	for n := range 80 {
		l, r, st := small(rnd, false)
		compare(t, fmt.Sprintf("seed %d, case %d", seed, n), l, r, st, &sets)
	}
	t.Logf("seed %d: 80 cases, %d legal sets", seed, sets)
}

// The same where the crack folds back, so that keys far apart along it meet.
func TestFoldedCrackAgainstBruteForce(t *testing.T) {
	const seed = 12
	rnd := rand.New(rand.NewPCG(seed, 0))
	sets := 0
	for n := range 60 {
		l, r, st := small(rnd, true)
		compare(t, fmt.Sprintf("seed %d, case %d", seed, n), l, r, st, &sets)
	}
	t.Logf("seed %d: 60 cases, %d legal sets", seed, sets)
}

func compare(t *testing.T, name string, l place.Line, r place.Rules, st []place.Station, sets *int) {
	t.Helper()
	got := place.Solve(l, st, r)
	for i, a := range got.Keys {
		for _, b := range got.Keys[:i] {
			if d, _, _ := geom.Distance(a.Plan, b.Plan); d < r.Between && !(a.Fixed && b.Fixed) {
				t.Fatalf("%s: keys at %.1f and %.1f are %.3f mm apart, want %.3f", name, b.S, a.S, d, r.Between)
			}
		}
		if a.Block != nil && !a.Fixed {
			t.Fatalf("%s: a key at %.1f, which is forbidden", name, a.S)
		}
	}
	ss := make([]float64, len(got.Keys))
	for i, k := range got.Keys {
		ss[i] = k.S
	}
	ours := judge(l, r, ss)
	if math.Abs(ours.weight-got.Weight) > 0.3 || ours.tips != got.Tips {
		t.Errorf("%s: the set says weight %.3f and %d tips, counted %.3f and %d", name, got.Weight, got.Tips, ours.weight, ours.tips)
	}
	var best worth
	var bestAt []float64
	brute(st, r, func(c []float64) {
		*sets++
		if w := judge(l, r, c); bestAt == nil || w.beats(best) {
			best, bestAt = w, append([]float64(nil), c...)
		}
	})
	if bestAt == nil && len(ss) > 0 || bestAt != nil && (len(ss) == 0 || best.beats(ours)) {
		t.Errorf("%s: %.1f is worth %+v, brute force finds %.1f, worth %+v", name, ss, ours, bestAt, best)
	}
}
