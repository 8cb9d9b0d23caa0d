package place_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/place"
)

// scaled is a key of length l in the proportions of 60 × 26 × 13.
func scaled(l float64) geom.Region { return butterfly(l, l*26/60, l*13/60) }

// sized returns the stations of several lengths along a crack.
func sized(l place.Line, r place.Rules, lengths ...float64) []place.Station {
	var lists [][]place.Station
	for i, n := range lengths {
		one := r
		one.KeyLength = n
		st := place.Stations(l, scaled(n), one, nil)
		for k := range st {
			st[k].Size, st[k].Length, st[k].Waist = i, n, n*13/60
		}
		lists = append(lists, st)
	}
	return place.Merge(lists...)
}

// The full size is taken wherever it has room, the small one where it has not.
func TestSmallKeyWhereTheLargeHasNoRoom(t *testing.T) {
	l, r := straight()
	r.Allowed = func(plan geom.Region, p geom.Point) *place.Block {
		if p.X > 120 && plan.Bounds().H() > 50 {
			return &place.Block{By: "cavity", Have: 1, Need: 4}
		}
		return nil
	}
	set := place.Solve(l, sized(l, r, 60, 40), r)
	for _, k := range set.Keys {
		if want := map[bool]int{true: 0, false: 1}[k.S <= 120]; k.Size != want {
			t.Errorf("a key of size %d at %g", k.Size, k.S)
		}
	}
	if set.Tips != 2 || set.Covered < 199 {
		t.Errorf("%d tips, %g mm covered by %v", set.Tips, set.Covered, at(set.Keys))
	}
	// Without anything in the way no small key is used.
	r.Allowed = free
	for _, k := range place.Solve(l, sized(l, r, 60, 40), r).Keys {
		if k.Size != 0 {
			t.Errorf("free crack: a small key at %g", k.S)
		}
	}
}

// Of random small cases with two sizes no legal set covers more tips or clearly
// more crack, or as much with fewer keys or more waist, by brute force.
func TestSizesAgainstBruteForce(t *testing.T) {
	const seed = 17
	rnd := rand.New(rand.NewPCG(seed, 0))
	sets := 0
	for n := range 60 {
		name := fmt.Sprintf("seed %d, case %d", seed, n)
		l, r, _ := small(rnd, false)
		r.Step = 2
		holes := r.Allowed
		big := r.KeyLength
		r.Allowed = func(plan geom.Region, p geom.Point) *place.Block {
			if b := holes(plan, p); b != nil && math.Max(plan.Bounds().W(), plan.Bounds().H()) > 0.9*big {
				return b
			}
			return nil
		}
		st := sized(l, r, big, 0.7*big)
		got := place.Solve(l, st, r)
		ours, waist := measure(l, r, got.Keys)
		best, bestWaist, bestAt := ours, waist, ""
		bruteStations(st, r, func(c []place.Station) {
			sets++
			w, x := measure(l, r, c)
			even := w.tips == best.tips && math.Abs(w.weight-best.weight) < 1e-9 && w.keys == best.keys
			if w.beats(worth{best.tips, best.weight, best.keys, 0}) && !even || even && x > bestWaist+1e-6 {
				best, bestWaist, bestAt = w, x, fmt.Sprint(at(c))
			}
		})
		if bestAt != "" {
			t.Errorf("%s: %v is worth %+v and %.2f of waist, brute force finds %s, %+v and %.2f", name, at(got.Keys), ours, waist, bestAt, best, bestWaist)
		}
	}
	t.Logf("seed %d: 60 cases, %d legal sets", seed, sets)
}

// measure counts what a set of keys of several lengths is worth, and their waists.
func measure(l place.Line, r place.Rules, keys []place.Station) (worth, float64) {
	w, waist := worth{keys: len(keys)}, 0.0
	step := l.Length() / samples
	for i := range samples {
		s := (float64(i) + 0.5) * step
		for _, k := range keys {
			if math.Abs(k.S-s) <= k.Length/2 {
				w.weight += openingAt(l.Opening, s/l.Length()) * step
				break
			}
		}
	}
	first, last := false, false
	for _, k := range keys {
		waist += k.Waist
		first = first || l.FirstTip && k.S <= r.Tip+1e-6
		last = last || l.LastTip && k.S >= l.Length()-r.Tip-1e-6
	}
	for _, t := range [2]bool{first, last} {
		if t {
			w.tips++
		}
	}
	return w, waist
}

// bruteStations visits every legal set of stations.
func bruteStations(st []place.Station, r place.Rules, visit func(c []place.Station)) {
	var chosen []place.Station
	var walk func(i int)
	walk = func(i int) {
		if i == len(st) {
			visit(chosen)
			return
		}
		walk(i + 1)
		if st[i].Block != nil {
			return
		}
		for _, c := range chosen {
			if d, _, _ := geom.Distance(c.Plan, st[i].Plan); d < r.Between {
				return
			}
		}
		chosen = append(chosen, st[i])
		walk(i + 1)
		chosen = chosen[:len(chosen)-1]
	}
	walk(0)
}
