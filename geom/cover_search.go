package geom

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// pool returns the places for discs of a set of radii, those that take most first.
func (s *coverSearch) pool(kinds []int) []spot {
	var out []spot
	for _, k := range kinds {
		out = append(out, s.spots[k]...)
	}
	slices.SortStableFunc(out, func(a, b spot) int { return -cmp.Compare(a.count, b.count) })
	return out
}

// share returns what a number of samples is of the region's area.
func (s *coverSearch) share(samples int) float64 {
	return float64(samples) * s.step * s.step / s.area
}

// mask returns the samples that a list of discs takes.
func (s *coverSearch) mask(list []spot) []uint64 {
	m := make([]uint64, s.words)
	for _, p := range list {
		for w := p.lo; w < p.hi; w++ {
			m[w] |= p.mask[w]
		}
	}
	return m
}

// taken counts the samples that a list of discs takes.
func (s *coverSearch) taken(list []spot) (n int) {
	for _, w := range s.mask(list) {
		n += bits.OnesCount64(w)
	}
	return n
}

// gain counts the samples that p takes and have does not.
func (p *spot) gain(have []uint64) (n int) {
	for w := p.lo; w < p.hi; w++ {
		n += bits.OnesCount64(p.mask[w] &^ have[w])
	}
	return n
}

// seated reports whether d and e may both be bored: the centre of the larger does not
// come too near to the rim of the smaller.
func (s *coverSearch) seated(d, e Disc) bool {
	if s.Seat == 0 {
		return true
	}
	apart := min(d.Radius, e.Radius) + s.Seat - Coincident
	v := d.Center.Sub(e.Center)
	return v.Dot(v) >= apart*apart
}

// beside reports whether d may be bored beside all of list but the one at skip.
func (s *coverSearch) beside(d Disc, list []spot, skip int) bool {
	for i := range list {
		if i != skip && !s.seated(d, list[i].Disc) {
			return false
		}
	}
	return true
}

// reach counts the samples that all discs of a set of radii can take together.
func (s *coverSearch) reach(kinds []int) (n int) {
	for w := range s.words {
		var m uint64
		for _, k := range kinds {
			m |= s.all[k][w]
		}
		n += bits.OnesCount64(m)
	}
	return n
}

// greedy returns the disc of the largest new area.
func (s *coverSearch) greedy(take, list []spot) (spot, bool) {
	have := s.mask(list)
	best, most := -1, 0
	for k := range take {
		p := &take[k]
		if p.count <= most {
			break // largest first
		}
		if g := p.gain(have); g > most && s.beside(p.Disc, list, -1) {
			best, most = k, g
		}
	}
	if best < 0 {
		return spot{}, false
	}
	return take[best], true
}

// exchange moves each disc of list in turn to the place where it adds most to the
// others, until none moves.
func (s *coverSearch) exchange(take, list []spot) {
	rounds := coverRounds
	if len(list) > coverMany {
		rounds = 1
	}
	for range rounds {
		moved := false
		for i := range list {
			others := make([]uint64, s.words)
			for k, p := range list {
				if k != i {
					for w := p.lo; w < p.hi; w++ {
						others[w] |= p.mask[w]
					}
				}
			}
			best, most := -1, list[i].gain(others)
			for k := range take {
				p := &take[k]
				if p.count <= most {
					break
				}
				if g := p.gain(others); g > most && s.beside(p.Disc, list, i) {
					best, most = k, g
				}
			}
			if best >= 0 {
				list[i], moved = take[best], true
			}
		}
		if !moved {
			return
		}
	}
}

// plan returns the best plan of as many discs as list has, from list and from
// starts of its own, moved uphill on the exact area.
func (s *coverSearch) plan(take, list []spot, kinds []int) coverPlan {
	n := len(list)
	starts := [][]spot{slices.Clone(list)}
	if n <= coverMany {
		for i, first := range s.firsts(take) {
			if i%2 == 0 { // the corners alone
				continue
			}
			l := []spot{first}
			for len(l) < n {
				next, ok := s.greedy(take, l)
				if !ok {
					break
				}
				l = append(l, next)
			}
			starts = append(starts, l)
		}
	}
	for _, l := range starts {
		s.exchange(take, l)
	}
	slices.SortStableFunc(starts, func(a, b []spot) int { return cmp.Compare(s.taken(b), s.taken(a)) })
	var discs []Disc
	area := 0.0
	try := func(l []spot) bool {
		d := make([]Disc, len(l))
		for i, p := range l {
			d[i] = p.Disc
		}
		s.climb(d)
		a := unionArea(d)
		if a <= area*(1+1e-6) {
			return false
		}
		discs, area = d, a
		return true
	}
	for i, l := range starts[:min(2, len(starts))] {
		if i == 0 || s.near(s.taken(l)) {
			try(l)
		}
	}
	if goal := s.goal * (1 - 1e-12); area < goal && area > goal-coverBlur*s.area && len(discs) <= coverMany {
		s.shake(take, &discs, func(l []spot) bool { return try(l) && area >= goal })
	}
	return coverPlan{discs: discs, area: area, kinds: len(kinds), done: area >= s.goal*(1-1e-12),
		cost: float64(len(discs)) + s.Change*float64(len(kinds)-1)}
}

// shake takes out each disc in turn and puts it where it adds most, until try says
// that it is enough.
func (s *coverSearch) shake(take []spot, discs *[]Disc, try func([]spot) bool) {
	for i := range *discs {
		l := s.spotsOf(slices.Delete(slices.Clone(*discs), i, i+1))
		s.exchange(take, l)
		next, ok := s.greedy(take, l)
		if !ok {
			continue
		}
		l = append(l, next)
		s.exchange(take, l)
		if try(l) {
			return
		}
	}
}

// firsts returns places to start from: of the largest discs, those that lie
// farthest out along the frame and across it.
func (s *coverSearch) firsts(take []spot) []spot {
	large := 0.0
	for _, p := range take {
		large = max(large, p.Radius)
	}
	var out []spot
	for a := range 8 {
		u := (Angle(a) * 45 * Degree).Unit()
		best, most := -1, math.Inf(-1)
		for k, p := range take {
			if v := (Vec{p.Center.X, p.Center.Y}).Dot(u); p.Radius == large && v > most+Coincident {
				best, most = k, v
			}
		}
		if best >= 0 {
			out = append(out, take[best])
		}
	}
	return out
}

// inOrderOfGain returns the discs in the order of the area that each adds.
func inOrderOfGain(discs []Disc) []Disc {
	rest := slices.Clone(discs)
	var out []Disc
	for len(rest) > 0 {
		best, most := 0, -1.0
		for i, d := range rest {
			if g := unionArea(append(slices.Clone(out), d)); g > most*(1+1e-9) {
				best, most = i, g
			}
		}
		out, rest = append(out, rest[best]), slices.Delete(rest, best, best+1)
	}
	return out
}
