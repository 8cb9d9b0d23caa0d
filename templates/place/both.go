package place

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"routwright/geom"
)

// Side is a crack on one face of the slab, with the places for keys there. The
// same crack may run otherwise on the other face.
type Side struct {
	Line     Line
	Stations []Station
}

// SolveBoth returns the best sets for both faces of a crack together, where a key
// of one face can stand in the way of one of the other: apart tells whether two
// may lie as they do. The aims are those of Solve, summed over both faces, so that
// neither face is served at the other's cost: tips covered, crack covered, fewest
// keys, even pitches. Fixed stations are always taken. apart is asked only of keys
// within r.Between of each other.
//
// It tries each face first with the other after it, and both at once over coarser
// stations; from each start it improves one face after the other over all of its
// stations until nothing gets better. The result is never worse than serving one
// face first; over no more than bothStations of them on each face it is the best
// there is wherever only neighbours can come too close. O(n³) for n of those.
func SolveBoth(a, b Side, r Rules, apart func(a, b geom.Region) bool) (Set, Set) {
	p := pair{side: [2]Side{a, b}, rules: r, apart: apart, far: r.Between}
	for f := range p.side {
		p.weight[f], p.length[f] = newWeights(p.side[f].Line), p.side[f].Line.Length()
		p.side[f].Stations = slices.Clone(p.side[f].Stations)
	}
	p.banAgainstFixed()
	var found [4]sets // in the order in which they count where they are worth the same
	var wg sync.WaitGroup
	for f := range 2 {
		wg.Go(func() { found[f] = p.improve([2][]Station{}, f) })
	}
	start := p.together()
	for f := range 2 {
		wg.Go(func() { found[2+f] = p.improve(start, f) })
	}
	wg.Wait()
	best := found[0]
	for _, s := range found[1:] {
		if s.score.better(best.score) {
			best = s
		}
	}
	return best.of[0], best.of[1]
}

// sets are those of both faces, with what they are worth together.
type sets struct {
	of    [2]Set
	score score
}

// bothStations bounds the stations of a face that both faces are solved over at
// once, which keeps the search under a tenth of a second.
const bothStations = 60

// pair looks for the best sets of two faces.
type pair struct {
	side   [2]Side
	length [2]float64 // of the cracks, mm
	weight [2]weights
	rules  Rules
	apart  func(a, b geom.Region) bool
	far    float64 // keys of two faces further apart than this are never in each other's way, mm
}

// free reports whether stations of both faces may be taken together; those fixed
// by hand always may. f is the face of s.
func (p *pair) free(f int, s, t Station) bool {
	if s.Fixed && t.Fixed || s.bounds().Gap(t.bounds()) > p.far {
		return true
	}
	if f == 1 {
		s, t = t, s
	}
	return p.apart(s.Plan, t.Plan)
}

// banAgainstFixed blocks the stations of each face that a fixed key of the other
// one stands in the way of.
func (p *pair) banAgainstFixed() {
	for f := range p.side {
		p.block(f, fixed(p.side[1-f].Stations), p.side[f].Stations)
	}
}

func fixed(all []Station) (out []Station) {
	for _, s := range all {
		if s.Fixed {
			out = append(out, s)
		}
	}
	return out
}

// block blocks the stations of face f that keys of the other face forbid.
func (p *pair) block(f int, keys, stations []Station) {
	for i, s := range stations {
		if s.Block != nil || s.Fixed {
			continue
		}
		for _, k := range keys {
			if !p.free(f, s, k) {
				stations[i].Block = &Block{By: "a key of the other face"}
				break
			}
		}
	}
}

// solve returns the best set of face f with the other face's keys where they are.
func (p *pair) solve(f int, other []Station) Set {
	st := slices.Clone(p.side[f].Stations)
	p.block(f, other, st)
	return Solve(p.side[f].Line, st, p.rules)
}

// improve solves one face after the other, first face f against the keys of the
// start, until nothing gets better.
func (p *pair) improve(start [2][]Station, f int) sets {
	const most = 8 // rounds; two or three do
	of := [2]Set{{Keys: start[0]}, {Keys: start[1]}}
	of[f] = p.solve(f, of[1-f].Keys)
	of[1-f] = p.solve(1-f, of[f].Keys)
	sc := p.worth(of)
	for range most {
		next := of
		next[f] = p.solve(f, next[1-f].Keys)
		next[1-f] = p.solve(1-f, next[f].Keys)
		ns := p.worth(next)
		if !ns.better(sc) {
			break
		}
		of, sc = next, ns
	}
	return sets{of, sc}
}

// worth is the score of both sets together.
func (p *pair) worth(sets [2]Set) score {
	var sc score
	for f := range sets {
		sc.tips += sets[f].Tips
		sc.weight += math.Round(sets[f].Weight / grain)
		sc.keys += len(sets[f].Keys)
		for _, k := range sets[f].Keys {
			sc.waists += k.Waist
		}
		for i := 1; i < len(sets[f].Keys); i++ {
			d := sets[f].Keys[i].S - sets[f].Keys[i-1].S
			sc.squares += d * d
		}
	}
	return sc
}

// coarse returns a choice of the stations of face f: all those fixed, at a tip's
// reach and at the ends, and of the others some at even distances.
func (p *pair) coarse(f int) []Station {
	all := p.side[f].Stations
	l := p.side[f].Line.Length()
	step := l / bothStations
	next := map[int]float64{} // by size
	var out []Station
	for _, s := range all {
		if s.Block != nil && !s.Fixed {
			continue
		}
		special := s.Fixed || s.S == p.rules.Tip || s.S == l-p.rules.Tip || s.S == l
		if special || s.S >= next[s.Size]-geom.Coincident {
			out = append(out, s)
			if !special {
				next[s.Size] = s.S + step
			}
		}
	}
	return out
}

// spot is a coarse station in the order of both faces.
type spot struct {
	face, i int
	at      float64 // along the crack of the first face
}

// together solves both faces at once: a chain along both, of which the best to
// each pair of last keys follows from the best to the pairs before.
func (p *pair) together() [2][]Station {
	j := joint{pair: p}
	for f := range j.st {
		j.st[f] = p.coarse(f)
	}
	return j.solve()
}

// joint is the search over both faces at once. A state is the last key of each
// face, by its number + 1, 0 for none.
type joint struct {
	*pair
	st   [2][]Station
	best [][]score
	from [][]step
}

// step is where a state comes from: the last keys before, and whether it is one.
type step struct {
	last [2]int
	set  bool
}

func (j *joint) solve() [2][]Station {
	na, nb := len(j.st[0])+1, len(j.st[1])+1
	j.best, j.from = make([][]score, na), make([][]step, na)
	for i := range j.best {
		j.best[i], j.from[i] = make([]score, nb), make([]step, nb)
	}
	j.from[0][0].set = true
	near, cross := [2][][]bool{j.neighbours(0), j.neighbours(1)}, j.crossings()
	for _, s := range j.order() {
		f, k := s.face, s.i
		must := lastFixedBefore(j.st[f], k)
		for o := range len(j.st[1-f]) + 1 { // last key of the other face
			if o > 0 && !(f == 0 && cross[k][o-1] || f == 1 && cross[o-1][k]) {
				continue
			}
			for i := must; i <= k; i++ { // last key of this face
				was := [2]int{i, o}
				if f == 1 {
					was = [2]int{o, i}
				}
				if !j.from[was[0]][was[1]].set || i > 0 && !near[f][i-1][k] {
					continue
				}
				now := was
				now[f] = k + 1
				sc := j.add(j.best[was[0]][was[1]], f, i-1, k)
				if to := &j.from[now[0]][now[1]]; !to.set || sc.better(j.best[now[0]][now[1]]) {
					j.best[now[0]][now[1]], *to = sc, step{was, true}
				}
			}
		}
	}
	return j.chains()
}

// order lists the stations of both faces along the crack, those of a face in their
// own order.
func (j *joint) order() []spot {
	var out []spot
	for f := range j.st {
		last := 0.0
		for i, s := range j.st[f] {
			at := s.S
			if f == 1 {
				at, _ = j.side[0].Line.Nearest(s.At)
			}
			last = max(last, at)
			out = append(out, spot{f, i, last})
		}
	}
	slices.SortStableFunc(out, func(a, b spot) int { return cmp.Compare(a.at, b.at) })
	return out
}

// lastFixedBefore returns the number + 1 of the last fixed station before k, which
// no chain may skip; 0 without one.
func lastFixedBefore(st []Station, k int) int {
	for i := k - 1; i >= 0; i-- {
		if st[i].Fixed {
			return i + 1
		}
	}
	return 0
}

// add returns the score with key k of face f behind key i of it, −1 for none.
func (j *joint) add(sc score, f, i, k int) score {
	l, length, s := &j.side[f].Line, j.length[f], &j.st[f][k]
	half := s.half(j.rules)
	lo, hi := max(0, s.S-half), min(length, s.S+half)
	sc.keys++
	sc.waists += s.Waist
	if i < 0 {
		sc.weight += j.weight[f].between(lo, hi)
		if l.FirstTip && s.S <= j.rules.Tip+geom.Coincident {
			sc.tips++
		}
		return sc
	}
	before := j.st[f][i].S
	reached := min(length, before+j.st[f][i].half(j.rules))
	sc.weight += j.weight[f].between(max(lo, reached), hi)
	sc.squares += (s.S - before) * (s.S - before)
	return sc
}

// neighbours returns which keys of a face keep the wood between them.
func (j *joint) neighbours(f int) [][]bool {
	st := j.st[f]
	near := make([][]bool, len(st))
	for i := range st {
		near[i] = make([]bool, len(st))
		for k := i + 1; k < len(st); k++ {
			a, b := &st[i], &st[k]
			near[i][k] = a.Fixed && b.Fixed || a.bounds().Gap(b.bounds()) >= j.rules.Between ||
				!geom.Nearer(a.Plan, b.Plan, j.rules.Between)
		}
	}
	return near
}

// crossings returns which keys of the first face may lie with which of the other.
func (j *joint) crossings() [][]bool {
	cross := make([][]bool, len(j.st[0]))
	for a, s := range j.st[0] {
		cross[a] = make([]bool, len(j.st[1]))
		for b, t := range j.st[1] {
			cross[a][b] = j.free(0, s, t)
		}
	}
	return cross
}

// chains returns the keys of the best state in which no fixed key is left out.
func (j *joint) chains() [2][]Station {
	var must [2]int
	for f := range j.st {
		must[f] = lastFixedBefore(j.st[f], len(j.st[f]))
	}
	at, found, best := [2]int{}, false, score{}
	for a := must[0]; a < len(j.from); a++ {
		for b := must[1]; b < len(j.from[a]); b++ {
			if !j.from[a][b].set {
				continue
			}
			sc := j.best[a][b]
			for f, k := range [2]int{a, b} {
				l := j.side[f].Line
				if k > 0 && l.LastTip && l.Length()-j.st[f][k-1].S <= j.rules.Tip+geom.Coincident {
					sc.tips++
				}
			}
			if !found || sc.better(best) {
				at, best, found = [2]int{a, b}, sc, true
			}
		}
	}
	var out [2][]Station
	for at != [2]int{} {
		was := j.from[at[0]][at[1]].last
		for f := range out {
			if at[f] != was[f] {
				out[f] = append(out[f], j.st[f][at[f]-1])
			}
		}
		at = was
	}
	for f := range out {
		slices.Reverse(out[f])
	}
	return out
}
