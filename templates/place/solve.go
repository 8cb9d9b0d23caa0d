package place

import (
	"slices"

	"routwright/geom"
)

// Solve returns the best set of keys over the stations of a crack, which lie in
// order along it. Fixed stations are always taken, also where a rule forbids them:
// the checks tell. All other keys keep r.Between from each other and from them.
//
// Exact over the stations given where only neighbours along the crack can come
// too close and all keys are of one size, in O(n²) for n stations. Of keys of
// several sizes a large one may reach past a small one next to it; the stretch past
// it is then counted twice. Where a crack folds back on itself, keys
// far apart along it can meet too; then up to foldTries sets are tried, and the
// result is legal, but perhaps not the best.
func Solve(l Line, stations []Station, r Rules) Set {
	f := finder{line: l, length: l.Length(), rules: r, weight: newWeights(l)}
	for _, s := range stations {
		if s.Block == nil || s.Fixed {
			f.st = append(f.st, s)
		}
	}
	given := make([]state, len(f.st))
	for i, s := range f.st {
		if s.Fixed {
			given[i] = taken
		}
	}
	for i, s := range f.st {
		if s.Fixed {
			f.ban(given, i)
		}
	}
	f.search(given)
	set := Set{Tips: f.best.tips, Weight: f.best.weight * grain}
	for _, i := range f.chain {
		set.Keys = append(set.Keys, f.st[i])
	}
	set.bare(l, stations, r)
	return set
}

// foldTries bounds the sets tried on a crack that folds back, which keeps the
// search under a tenth of a second for a crack of 400 mm.
const foldTries = 60

// state says what is settled of a station.
type state uint8

const (
	open state = iota
	taken
	banned
)

// finder looks for the best chain of stations.
type finder struct {
	line   Line
	length float64 // of the crack, mm
	rules  Rules
	weight weights
	st     []Station

	tries int
	chain []int // best legal one so far
	best  score
}

// search finds the best chain with the given states. Where two keys of it that
// are not neighbours come too close, one of them is in the best legal chain, or
// it is not: both are tried.
func (f *finder) search(s []state) {
	if f.tries++; f.tries > foldTries && f.chain != nil {
		return
	}
	chain, sc := f.chainOf(s)
	if len(chain) == 0 || f.chain != nil && !sc.better(f.best) {
		return
	}
	i, k := f.clash(chain)
	if i < 0 {
		f.chain, f.best = chain, sc
		return
	}
	if s[i] == taken {
		i = k
	}
	with := append([]state(nil), s...)
	with[i] = taken
	f.ban(with, i)
	f.search(with)
	without := append([]state(nil), s...)
	without[i] = banned
	f.search(without)
}

// ban bans all stations that come too close to station i, those taken excepted.
func (f *finder) ban(s []state, i int) {
	for k := range s {
		if s[k] == open && k != i && !f.apart(i, k) {
			s[k] = banned
		}
	}
}

// clash returns two keys of a chain that are too close, or −1. Keys that the
// builder has fixed may be.
func (f *finder) clash(chain []int) (int, int) {
	for a := range chain {
		for b := a + 2; b < len(chain); b++ {
			if !f.apart(chain[a], chain[b]) {
				return chain[a], chain[b]
			}
		}
	}
	return -1, -1
}

// chainOf returns the best chain of stations, all those taken among them, in
// which neighbours keep their distance: the score of a chain is the sum of what
// each key adds behind the one before it, so the best chain to each station
// follows from the best to those before.
func (f *finder) chainOf(s []state) ([]int, score) {
	n := len(f.st)
	best, from := make([]score, n), make([]int, n)
	final, last := score{}, -1
	first := true // nothing is taken before this station
	for i := range f.st {
		from[i] = none
		if s[i] == banned {
			continue
		}
		if first {
			best[i], from[i] = f.alone(i), start
		}
		f.extend(s, best, from, i)
		if s[i] == taken {
			first = false
			final, last = score{}, -1
		}
		if from[i] == none {
			continue
		}
		c := best[i]
		if f.line.LastTip && f.length-f.st[i].S <= f.rules.Tip+geom.Coincident {
			c.tips++
		}
		if last < 0 || c.better(final) {
			final, last = c, i
		}
	}
	var chain []int
	for i := last; i >= 0; i = from[i] {
		chain = append(chain, i)
	}
	slices.Reverse(chain)
	return chain, final
}

// Ends of a chain: the first key, and a key that no chain reaches.
const (
	start = -1
	none  = -2
)

// alone returns the score of key i as the first one.
func (f *finder) alone(i int) score {
	lo, hi := f.covers(i)
	c := score{weight: f.weight.between(lo, hi), keys: 1, waists: f.st[i].Waist}
	if f.line.FirstTip && f.st[i].S <= f.rules.Tip+geom.Coincident {
		c.tips++
	}
	return c
}

// extend finds the best key to come before key i.
func (f *finder) extend(s []state, best []score, from []int, i int) {
	lo, hi := f.covers(i)
	for k := i - 1; k >= 0; k-- {
		if from[k] != none && s[k] != banned {
			pitch := f.st[i].S - f.st[k].S
			c := best[k]
			_, reached := f.covers(k)
			c.weight += f.weight.between(max(lo, reached), hi)
			c.keys++
			c.waists += f.st[i].Waist
			c.squares += pitch * pitch
			// The distance is the costly question, so it comes last.
			if (from[i] == none || c.better(best[i])) && (s[i] == taken && s[k] == taken || f.apart(k, i)) {
				best[i], from[i] = c, k
			}
		}
		if s[k] == taken {
			return
		}
	}
}

// covers returns the stretch of crack within half a key of station i, mm.
func (f *finder) covers(i int) (lo, hi float64) {
	half := f.st[i].half(f.rules)
	return max(0, f.st[i].S-half), min(f.length, f.st[i].S+half)
}

// apart reports whether two keys keep the least wood between them. Two keys
// fixed by hand always do.
func (f *finder) apart(i, k int) bool {
	a, b := &f.st[i], &f.st[k]
	if a.Fixed && b.Fixed || a.bounds().Gap(b.bounds()) >= f.rules.Between {
		return true
	}
	return !geom.Nearer(a.Plan, b.Plan, f.rules.Between)
}
