package place_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/place"
)

// clearOf lets keys of two faces lie where their plans do not meet.
func clearOf(a, b geom.Region) bool {
	if a.Bounds().Gap(b.Bounds()) > 0 {
		return true
	}
	d, _, _ := geom.Distance(a, b)
	return d > 0
}

// The front alone would take the places 25, 75, 125, 175, and leave no room of 26
// for a key of the back between them. Together each face has nearly all of the
// crack covered; of each tip one face has the key, since within 25 of an end there
// is no room for two.
func TestBothFaces(t *testing.T) {
	l, r := straight()
	st := place.Stations(l, butterfly(60, 26, 13), r, nil)
	alone := place.Solve(l, st, r)
	front, back := place.SolveBoth(place.Side{Line: l, Stations: st}, place.Side{Line: l, Stations: st}, r, clearOf)
	if front.Tips+back.Tips != 2 {
		t.Errorf("%d and %d tips covered by %v and %v", front.Tips, back.Tips, at(front.Keys), at(back.Keys))
	}
	if front.Weight+back.Weight < 2*alone.Weight*0.95 {
		t.Errorf("weights %.1f and %.1f, alone %.1f", front.Weight, back.Weight, alone.Weight)
	}
	for _, a := range front.Keys {
		for _, b := range back.Keys {
			if !clearOf(a.Plan, b.Plan) {
				t.Errorf("keys at %g and %g lie over each other", a.S, b.S)
			}
		}
	}
	// Where faces do not meet, each has what it would have alone.
	front, back = place.SolveBoth(place.Side{Line: l, Stations: st}, place.Side{Line: l, Stations: st}, r, func(a, b geom.Region) bool { return true })
	if front.Weight != alone.Weight || back.Weight != alone.Weight || len(front.Keys) != len(alone.Keys) || len(back.Keys) != len(alone.Keys) {
		t.Errorf("%v and %v, alone %v", at(front.Keys), at(back.Keys), at(alone.Keys))
	}
}

// sum adds what two sets are worth.
func (w worth) sum(v worth) worth {
	return worth{w.tips + v.tips, w.weight + v.weight, w.keys + v.keys, w.squares + v.squares}
}

// On small random cases no pair of legal sets is better than what SolveBoth finds,
// and it never breaks a rule.
func TestBothAgainstBruteForce(t *testing.T) {
	const seed = 13
	rnd := rand.New(rand.NewPCG(seed, 0))
	pairs := 0
	for n := range 60 {
		name := fmt.Sprintf("seed %d, case %d", seed, n)
		l, r, _ := small(rnd, false)
		r.Step = 3
		shift := geom.Translate(geom.Vec{X: 2 * rnd.Float64(), Y: 2 * rnd.Float64()})
		m := l
		m.Path = shift.Path(l.Path)
		plan := butterfly(r.KeyLength, 6, 3)
		sides := [2]place.Side{{Line: l, Stations: place.Stations(l, plan, r, nil)}, {Line: m, Stations: place.Stations(m, plan, r, nil)}}
		for f := range sides {
			if k := len(sides[f].Stations); rnd.IntN(4) == 0 {
				sides[f].Stations[rnd.IntN(k)].Fixed = true
			}
		}
		fa, fb := place.SolveBoth(sides[0], sides[1], r, clearOf)
		got := [2][]float64{at(fa.Keys), at(fb.Keys)}
		for i, set := range [2]place.Set{fa, fb} {
			for x, a := range set.Keys {
				if a.Block != nil && !a.Fixed {
					t.Fatalf("%s: a forbidden key at %g", name, a.S)
				}
				for _, b := range set.Keys[:x] {
					if d, _, _ := geom.Distance(a.Plan, b.Plan); d < r.Between && !(a.Fixed && b.Fixed) {
						t.Fatalf("%s: face %d: keys at %g and %g too close", name, i, b.S, a.S)
					}
				}
			}
		}
		for _, a := range fa.Keys {
			for _, b := range fb.Keys {
				if !clearOf(a.Plan, b.Plan) && !(a.Fixed && b.Fixed) {
					t.Fatalf("%s: keys at %g and %g lie over each other", name, a.S, b.S)
				}
			}
		}
		ours := judge(l, r, got[0]).sum(judge(m, r, got[1]))
		// All legal sets of each face, then all pairs of them. No key is a set too.
		var sets [2][][]float64
		var worths [2][]worth
		for f := range sides {
			must := false
			for _, s := range sides[f].Stations {
				must = must || s.Fixed
			}
			if !must {
				sets[f], worths[f] = append(sets[f], nil), append(worths[f], worth{})
			}
			line := sides[f].Line
			brute(sides[f].Stations, r, func(c []float64) {
				sets[f] = append(sets[f], append([]float64(nil), c...))
				worths[f] = append(worths[f], judge(line, r, c))
			})
		}
		byS := [2]map[float64]place.Station{{}, {}}
		for f := range sides {
			for _, s := range sides[f].Stations {
				byS[f][s.S] = s
			}
		}
		best, bestAt := ours, ""
		for x, a := range sets[0] {
			for y, b := range sets[1] {
				w := worths[0][x].sum(worths[1][y])
				if !w.beats(best) {
					continue
				}
				legal := true
				for _, p := range a {
					for _, q := range b {
						s, u := byS[0][p], byS[1][q]
						legal = legal && (s.Fixed && u.Fixed || clearOf(s.Plan, u.Plan))
					}
				}
				if pairs++; legal {
					best, bestAt = w, fmt.Sprint(a, b)
				}
			}
		}
		if bestAt != "" {
			t.Errorf("%s: %v is worth %+v, brute force finds %s, worth %+v", name, got, ours, bestAt, best)
		}
	}
	t.Logf("seed %d: 60 cases, %d better pairs looked at, none legal", seed, pairs)
}

func BenchmarkBoth400(b *testing.B) {
	l, r := straight()
	l.Path = geom.Polyline(geom.Pt(0, 0), geom.Pt(150, 8), geom.Pt(260, -5), geom.Pt(400, 0))
	st := place.Stations(l, butterfly(60, 26, 13), r, nil)
	b.ReportAllocs()
	for b.Loop() {
		place.SolveBoth(place.Side{Line: l, Stations: st}, place.Side{Line: l, Stations: st}, r, clearOf)
	}
}
