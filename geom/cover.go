package geom

import (
	"cmp"
	"math"
	"slices"
)

const (
	coverCells   = 12000 // sample places over the bounds: area to 1 part in 1000
	coverCentres = 700   // grid of centres over the bounds
	coverLeast   = 1e-3  // a disc that adds less than this share of the area is not worth boring
	coverMost    = 200   // nobody bores more holes than this for one pocket
	coverThin    = 60    // above this many, leaving one out saves little and costs much
)

// Cover returns few discs of the given diameters (mm) that together take away
// at least the given share (0 to 1) of r, each staying margin mm or more inside
// it: the holes to drill before a pocket is routed. removed is the share that
// they really take, exact to rounding. The discs come largest new area first,
// in the order in which to bore them.
//
// Where the share is out of reach the discs go on for as long as each adds a
// thousandth of the area, up to 200 of them; removed tells how far they came.
// Diameters not above 0 do not count.
//
// The fewest discs are hard to find (it is a set cover): this is the greedy
// choice of the largest new area over a grid and the corners of the insets,
// improved by moving single discs and by leaving discs out. The same input gives
// the same discs. Some 10 to 50 ms for a dozen discs, half a second for a
// hundred.
func Cover(r Region, diameters []float64, margin, share float64) (discs []Disc, removed float64) {
	s := newCoverSearch(r, diameters, margin)
	if s == nil || !(share > 0) {
		return nil, 0
	}
	s.goal = min(share, 1) * r.Area()
	s.greedy()
	s.polish(6)
	s.extend()
	s.thin()
	s.sort()
	return s.discs, unionArea(s.discs) / s.area
}

// coverSearch samples r on a grid and knows how many discs cover each sample.
type coverSearch struct {
	idx    *Index
	area   float64
	goal   float64
	margin float64
	radii  []float64 // largest first
	spots  []Disc    // where discs may go, each the largest that fits there
	discs  []Disc

	x0, y0, step float64
	nx, ny       int
	count        []int16 // −1 outside r
	open         []int32 // per row, running count of samples in r that no disc covers

	gains []int32 // of the spots with all discs in, where known
	known []bool
}

func newCoverSearch(r Region, diameters []float64, margin float64) *coverSearch {
	s := &coverSearch{idx: IndexOf(r), area: r.Area(), margin: max(0, margin)}
	for _, d := range diameters {
		if d > 0 && isFinite(d) {
			s.radii = append(s.radii, d/2)
		}
	}
	slices.SortFunc(s.radii, func(a, b float64) int { return -cmp.Compare(a, b) })
	s.radii = slices.Compact(s.radii)
	if !(s.area > 0) || len(s.radii) == 0 {
		return nil
	}
	b := r.Bounds()
	s.step = math.Sqrt(b.W() * b.H() / coverCells)
	s.nx, s.ny = int(b.W()/s.step)+1, int(b.H()/s.step)+1
	s.x0, s.y0 = b.Center().X-s.step*float64(s.nx-1)/2, b.Center().Y-s.step*float64(s.ny-1)/2
	s.count = make([]int16, s.nx*s.ny)
	s.open = make([]int32, (s.nx+1)*s.ny)
	for j := range s.ny {
		for i := range s.nx {
			if !s.idx.Contains(Pt(s.x0+s.step*float64(i), s.y0+s.step*float64(j))) {
				s.count[j*s.nx+i] = -1
			}
		}
		s.tally(j)
	}
	s.findSpots(r, b)
	return s
}

// findSpots collects centres: a grid, and the corners of r's inset for every
// diameter, where a disc nestles between two walls.
func (s *coverSearch) findSpots(r Region, b Box) {
	pitch := math.Sqrt(b.W() * b.H() / coverCentres)
	nx, ny := int(b.W()/pitch)+1, int(b.H()/pitch)+1
	for j := range ny {
		for i := range nx {
			s.addSpot(Pt(b.Center().X+pitch*(float64(i)-float64(nx-1)/2), b.Center().Y+pitch*(float64(j)-float64(ny-1)/2)))
		}
	}
	for _, radius := range s.radii {
		var c Calc
		for _, p := range c.Offset(r, -radius-s.margin, Round) {
			for i := range p {
				s.addSpot(p[i].A)
				n := min(20, int(p[i].Length()/pitch))
				for k := 1; k < n; k++ {
					s.addSpot(p[i].At(float64(k) / float64(n)))
				}
			}
		}
	}
	slices.SortStableFunc(s.spots, func(a, b Disc) int { return -cmp.Compare(a.Radius, b.Radius) })
	s.gains, s.known = make([]int32, len(s.spots)), make([]bool, len(s.spots))
}

func (s *coverSearch) addSpot(p Point) {
	if d, ok := s.fit(p); ok {
		s.spots = append(s.spots, d)
	}
}

// fit returns the largest disc at p. A corner of an inset is taken for the
// disc that it is the inset of, hence the slack of an offset.
func (s *coverSearch) fit(p Point) (Disc, bool) {
	_, d := s.idx.Closest(p)
	for _, r := range s.radii {
		if r+s.margin <= d+OffsetSlack {
			return Disc{p, r}, s.idx.Contains(p)
		}
	}
	return Disc{}, false
}

func (s *coverSearch) tally(row int) {
	open := s.open[row*(s.nx+1):]
	for i, c := range s.count[row*s.nx : (row+1)*s.nx] {
		open[i+1] = open[i]
		if c == 0 {
			open[i+1]++
		}
	}
}

// span calls f with the rows that d touches and the columns from lo up to hi.
func (s *coverSearch) span(d Disc, f func(row, lo, hi int)) {
	k := 1 / s.step
	cx, cy, r := (d.Center.X-s.x0)*k, (d.Center.Y-s.y0)*k, d.Radius*k
	for j := max(0, int(cy-r)); j <= min(s.ny-1, int(cy+r)); j++ {
		y := float64(j) - cy
		h := math.Sqrt(r*r - y*y)
		lo, hi := max(0, int(cx-h+1)), min(s.nx, int(cx+h+1))
		if h >= 0 && lo < hi { // h is NaN in a row beside the disc
			f(j, lo, hi)
		}
	}
}

// gain returns how many samples d would cover that no disc covers yet. It is
// span written out: the search spends its time here.
func (s *coverSearch) gain(d Disc) int32 {
	k := 1 / s.step
	cx, cy, r := (d.Center.X-s.x0)*k, (d.Center.Y-s.y0)*k, d.Radius*k
	from, to := max(0, int(cy-r)), min(s.ny-1, int(cy+r))
	var n int32
	for j := from; j <= to; j++ {
		y := float64(j) - cy
		h2 := r*r - y*y
		if h2 < 0 {
			continue
		}
		h := math.Sqrt(h2)
		lo, hi := max(0, int(cx-h+1)), min(s.nx, int(cx+h+1))
		if lo < hi {
			open := s.open[j*(s.nx+1):]
			n += open[hi] - open[lo]
		}
	}
	return n
}

// samples returns how many samples d can cover at most.
func (s *coverSearch) samples(d Disc) int32 {
	return int32(math.Pi * (d.Radius/s.step + 1) * (d.Radius/s.step + 1))
}

// put adds (+1) or takes away (−1) the samples of d.
func (s *coverSearch) put(d Disc, by int16) {
	s.span(d, func(row, lo, hi int) {
		c := s.count[row*s.nx:]
		for i := lo; i < hi; i++ {
			if c[i] >= 0 {
				c[i] += by
			}
		}
		s.tally(row)
	})
}

// greedy adds the disc of the largest new area until the goal is reached.
func (s *coverSearch) greedy() {
	least := int32(coverLeast * s.area / (s.step * s.step))
	for len(s.discs) < coverMost && unionArea(s.discs) < s.goal {
		best, most := -1, least
		for k, c := range s.spots {
			if !s.known[k] {
				s.gains[k], s.known[k] = s.gain(c), true
			}
			if s.gains[k] > most {
				best, most = k, s.gains[k]
			}
		}
		if best < 0 {
			return
		}
		s.discs = append(s.discs, s.spots[best])
		s.put(s.spots[best], 1)
		s.touch(s.spots[best])
	}
}

// extend polishes and adds discs in turn until the goal is reached.
func (s *coverSearch) extend() {
	for range 50 {
		n := len(s.discs)
		s.greedy()
		if len(s.discs) == n {
			return
		}
		s.polish(2)
	}
}

// polish moves each disc in turn to where it adds most to the others, until
// none moves: first to the best spot of all, then by ever smaller steps.
func (s *coverSearch) polish(rounds int) {
	for range rounds {
		moved := false
		for i, d := range s.discs {
			s.put(d, -1)
			best, most := d, s.gain(d)
			for k, c := range s.spots { // largest first
				if s.samples(c) <= most {
					break
				}
				if g := s.gainBeside(k, d); g > most {
					best, most = c, g
				}
			}
			best = s.nudge(best, most)
			s.put(best, 1)
			if best != d {
				s.discs[i], moved = best, true
				s.touch(d)
				s.touch(best)
			}
		}
		if !moved {
			return
		}
	}
}

// gainBeside returns the gain of spot k while d is taken out. Away from d that is
// what it was with d in, and remembered.
func (s *coverSearch) gainBeside(k int, d Disc) int32 {
	c := s.spots[k]
	if c.meets(d) {
		return s.gain(c)
	}
	if !s.known[k] {
		s.gains[k], s.known[k] = s.gain(c), true
	}
	return s.gains[k]
}

// touch forgets the gains of the spots that d meets.
func (s *coverSearch) touch(d Disc) {
	for k, c := range s.spots {
		if s.known[k] && c.meets(d) {
			s.known[k] = false
		}
	}
}

func (d Disc) meets(e Disc) bool {
	v, r := d.Center.Sub(e.Center), d.Radius+e.Radius
	return v.Dot(v) < r*r
}

// nudge moves d, of the given gain, uphill by small steps.
func (s *coverSearch) nudge(d Disc, most int32) Disc {
	for k := 4 * s.step; k > 0.4*s.step; {
		better := false
		for a := range 8 {
			e, ok := s.fit(d.Center.Add((Angle(a) * 45 * Degree).Unit().Mul(k)))
			if !ok {
				continue
			}
			if g := s.gain(e); g > most {
				d, most, better = e, g, true
			}
		}
		if !better {
			k /= 2
		}
	}
	return d
}

// thin leaves discs out for as long as the rest, moved, still reach the goal.
func (s *coverSearch) thin() {
	for len(s.discs) > 1 && len(s.discs) <= coverThin && unionArea(s.discs) >= s.goal {
		keep := slices.Clone(s.discs)
		if !s.without() {
			s.set(keep)
			return
		}
	}
}

// without tries to reach the goal with one disc less, leaving out one of the
// three that add least.
func (s *coverSearch) without() bool {
	keep := slices.Clone(s.discs)
	order := make([]int, len(keep))
	alone := make([]int32, len(keep))
	for i, d := range keep {
		s.put(d, -1)
		alone[i], order[i] = s.gain(d), i
		s.put(d, 1)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(alone[a], alone[b]) })
	for _, i := range order[:min(3, len(order))] {
		s.set(slices.Delete(slices.Clone(keep), i, i+1))
		s.polish(4)
		if unionArea(s.discs) >= s.goal {
			return true
		}
	}
	return false
}

// set replaces all discs.
func (s *coverSearch) set(discs []Disc) {
	for _, d := range s.discs {
		s.put(d, -1)
		s.touch(d)
	}
	s.discs = discs
	for _, d := range discs {
		s.put(d, 1)
		s.touch(d)
	}
}

// sort puts the discs in the order of the area that each adds.
func (s *coverSearch) sort() {
	rest := slices.Clone(s.discs)
	s.set(nil)
	for len(rest) > 0 {
		best, most := 0, int32(-1)
		for i, d := range rest {
			if g := s.gain(d); g > most {
				best, most = i, g
			}
		}
		s.put(rest[best], 1)
		s.discs = append(s.discs, rest[best])
		rest = slices.Delete(rest, best, best+1)
	}
}
