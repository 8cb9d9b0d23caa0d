package geom

import (
	"math"
	"math/bits"
	"slices"
)

const (
	rowsMost    = 12  // rows beside each other
	rowsPitches = 6   // distances in a row that are tried
	rowsSample  = 0.6 // mm, of where a row may run
)

// layout is a list of discs and the samples that they take.
type layout struct {
	discs []spot
	got   int
}

// inRows returns, by their number, the discs of one radius laid in rows that take
// most: as they are laid by hand. edge bounds where centres may lie, b its bounds;
// spots are single places to add.
func (s *coverSearch) inRows(spots []spot, edge *Index, b Box, radius float64) []layout {
	best := []layout{{}}
	scratch := make([]uint64, s.words)
	offer := func(discs []Disc) {
		clear(scratch)
		got := 0
		for _, d := range discs {
			s.spot(d, scratch)
		}
		for _, w := range scratch {
			got += bits.OnesCount64(w)
		}
		for len(best) <= len(discs) {
			best = append(best, layout{})
		}
		if got > best[len(discs)].got {
			best[len(discs)] = layout{s.spotsOf(discs), got}
		}
	}
	near := radius + s.Seat
	if edge == nil {
		return best
	}
	for _, upright := range []bool{false, true} {
		across, along := b.H(), b.W()
		if upright {
			across, along = along, across
		}
		for k := 1; k <= min(rowsMost, 2+int(across/near)); k++ {
			lines := s.lines(edge, b, k, upright)
			for i := range rowsPitches {
				pitch := near + (2*radius-near)*float64(i)/(rowsPitches-1)
				if pitch > along && i > 0 {
					break
				}
				for shift := range 2 * rowsWays {
					if shift == 2*rowsStraight+1 {
						continue
					}
					if l := s.layRows(lines, radius, pitch, shift/2, shift%2, upright); len(l) > 0 {
						offer(l)
					}
				}
			}
		}
	}
	// Where no rows have a number: one more than the row before, or one less than the
	// next.
	for n := 1; n < len(best); n++ {
		l := best[n-1].discs
		if len(l) != n-1 {
			continue
		}
		if next, ok := s.greedy(spots, l); ok {
			l = append(slices.Clone(l), next)
			if got := s.taken(l); got > best[n].got {
				best[n] = layout{l, got}
			}
		}
	}
	for n := len(best) - 1; n > 1; n-- {
		if len(best[n].discs) == n {
			l := s.shorter(best[n].discs)
			if got := s.taken(l); got > best[n-1].got {
				best[n-1] = layout{l, got}
			}
		}
	}
	return best
}

// spotsOf returns discs with their samples.
func (s *coverSearch) spotsOf(discs []Disc) []spot {
	out := make([]spot, len(discs))
	masks := make([]uint64, len(discs)*s.words)
	for i, d := range discs {
		out[i] = s.spot(d, masks[i*s.words:(i+1)*s.words])
	}
	return out
}

// shorter returns a list without the disc that adds least.
func (s *coverSearch) shorter(l []spot) []spot {
	once, twice := make([]uint64, s.words), make([]uint64, s.words)
	for _, p := range l {
		for w := p.lo; w < p.hi; w++ {
			twice[w] |= once[w] & p.mask[w]
			once[w] |= p.mask[w]
		}
	}
	drop, least := 0, math.MaxInt
	for i := range l {
		if g := l[i].gain(twice); g < least {
			drop, least = i, g
		}
	}
	return slices.Delete(slices.Clone(l), drop, drop+1)
}

// row is a stretch on which centres may lie.
type row struct{ from, to, at float64 }

// lines returns where k rows run, evenly spread across the bounds of where centres
// may lie: along x, or upright along y.
func (s *coverSearch) lines(edge *Index, b Box, k int, upright bool) [][]row {
	lo, hi, from, to := b.Min.Y, b.Max.Y, b.Min.X, b.Max.X
	if upright {
		lo, hi, from, to = from, to, lo, hi
	}
	place := func(along, across float64) Point {
		if upright {
			return Pt(across, along)
		}
		return Pt(along, across)
	}
	// A hair inside, where rounding does not decide.
	const hair = 1e-4
	lo, hi, from, to = lo+hair, hi-hair, from+hair, to-hair
	out := make([][]row, k)
	for i := range k {
		at := (lo + hi) / 2
		if k > 1 {
			at = lo + (hi-lo)*float64(i)/float64(k-1)
		}
		n := max(2, int(math.Ceil((to-from)/rowsSample)))
		in := false
		for j := 0; j <= n; j++ {
			x := from + (to-from)*float64(j)/float64(n)
			switch ok := edge.Contains(place(x, at)); {
			case ok && !in:
				out[i] = append(out[i], row{x, x, at})
			case ok:
				out[i][len(out[i])-1].to = x
			}
			in = edge.Contains(place(x, at))
		}
	}
	return out
}

// Ways in which rows lie beside each other. Each comes twice, from either side, so
// that a mirrored region is laid alike.
const (
	rowsStraight = iota // alike
	rowsBetween         // every second row with one disc less, between those of its neighbours
	rowsSkew            // every second row pushed along, until its discs clear their neighbours
	rowsWays
)

// layRows lays discs evenly along each row, no nearer than pitch; nil where there
// would be more than coverMost.
func (s *coverSearch) layRows(lines [][]row, radius, pitch float64, way, odd int, upright bool) []Disc {
	var out []Disc
	push := 0.0
	if way == rowsSkew && len(lines) > 1 && len(lines[0]) > 0 && len(lines[1]) > 0 {
		apart := lines[1][0].at - lines[0][0].at
		push = math.Sqrt(max(0, math.Pow(radius+s.Seat, 2)-apart*apart))
	}
	for k, line := range lines {
		for _, r := range line {
			switch {
			case push >= r.to-r.from:
			case k%2 == odd:
				r.to -= push
			default:
				r.from += push
			}
			length := r.to - r.from
			n := int(length/pitch+1e-9) + 1
			start, step := r.from, 0.0
			switch {
			case way == rowsBetween && k%2 != odd && n > 1:
				n--
				step = length / float64(n)
				start += step / 2
			case n > 1:
				step = length / float64(n-1)
			default:
				start = (r.from + r.to) / 2
			}
			for i := range n {
				p := Pt(start+step*float64(i), r.at)
				if upright {
					p = Pt(r.at, p.X)
				}
				d := Disc{p, radius}
				if s.fits(p, radius) && !slices.ContainsFunc(out, func(e Disc) bool { return !s.seated(d, e) }) {
					if len(out) == coverMost {
						return nil // more than anybody bores
					}
					out = append(out, d)
				}
			}
		}
	}
	return out
}

// lists returns, by their number, discs of the given radii to start from, up to
// most: rows of the largest, and those that grow from rows and from the ends of the
// region by the largest gain.
func (s *coverSearch) lists(take []spot, kinds []int, most int) []layout {
	rows := s.rows[kinds[0]]
	out := []layout{{}}
	offer := func(l []spot, got int) {
		for len(out) <= len(l) {
			out = append(out, layout{})
		}
		if got > out[len(l)].got {
			out[len(l)] = layout{slices.Clone(l), got}
		}
	}
	var starts [][]spot
	if firsts := s.firsts(take); s.fewest(s.radii[kinds[0]]) <= coverMany/2 {
		for _, p := range firsts {
			starts = append(starts, []spot{p})
		}
	} else if len(firsts) > 0 {
		starts = append(starts, firsts[:1])
	}
	large, small := s.radii[kinds[0]], s.radii[kinds[len(kinds)-1]]
	for n := 1; n < len(rows) && n <= most; n++ {
		if len(rows[n].discs) != n {
			continue
		}
		offer(rows[n].discs, rows[n].got)
		can := math.Pi * (float64(n)*large*large + float64(most-n)*small*small)
		if len(kinds) > 1 && n < most && can >= s.goal {
			starts = append(starts, rows[n].discs)
		}
	}
	for _, l := range starts {
		l = slices.Clone(l)
		got := s.taken(l)
		offer(l, got)
		for tried := false; len(l) < most && s.share(got) < s.Share+coverBlur; {
			next, ok := s.greedy(take, l)
			if !ok && tried {
				break
			}
			if tried = !ok; tried {
				s.exchange(take, l) // makes room, perhaps
				continue
			}
			l = append(l, next)
			was := got
			if got = s.taken(l); s.share(got-was)*s.area < s.Least/2 {
				break
			}
			offer(l, got)
		}
	}
	for n := range out { // where a list comes close, move single discs
		if len(out[n].discs) == n && n > 0 && s.share(out[n].got) > s.Share-3*coverBlur {
			s.exchange(take, out[n].discs)
			out[n].got = s.taken(out[n].discs)
		}
	}
	return out
}
