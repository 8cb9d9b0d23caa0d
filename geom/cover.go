package geom

import (
	"cmp"
	"math"
	"slices"
)

// CoverRules say how a region is bored out. Lengths in mm.
type CoverRules struct {
	Diameters []float64 // of the discs at hand; those not above 0 do not count
	Margin    float64   // least distance from a rim to the edge of the region
	Share     float64   // of the area that the discs should take, 0 to 1
	// Seat is the least distance from the centre of a disc to the rim of every other
	// that is no larger: bored from the smallest to the largest, the point of the drill
	// always stands in what it can hold in. 0 lets centres lie anywhere.
	Seat float64
	// Change is what one more diameter costs, counted in discs. 0 makes diameters
	// free.
	Change float64
	// Least is the area in mm² that a further disc must add to be worth it; the last
	// that reaches Share may add less. 0 means a thousandth of the area.
	Least float64
	// Reach is how many discs more it is worth to reach Share, where fewer would take
	// what is worth it. 0 means as many as it takes.
	Reach float64
}

const (
	coverBits   = 1600 // sample places over the bounds
	coverGrid   = 300  // grid of centres over the bounds, for each diameter
	coverLeast  = 1e-3
	coverMost   = 200  // nobody bores more holes than this for one pocket
	coverKinds  = 2    // of diameters together, where they cost something
	coverRounds = 6    // of exchanging discs
	coverBeside = 1    // numbers of discs beside the best that are looked at too
	coverMany   = 24   // above this many discs one start must do
	coverBlur   = 0.02 // how far the samples may be off, as a share of the area
)

// Cover returns few discs of the diameters at hand that together take away the
// share of r that is asked for, each keeping the margin to its edge: the holes to
// bore before a pocket is routed. removed is the share that they really take, exact
// to rounding. The discs come largest new area first.
//
// Sought is the least of discs + Change · (diameters − 1) that reaches Share, and
// among plans that cost as much the one that takes most. Where Share is out of
// reach, discs go on for as long as each is worth it: what counts then is the area
// less Least for each disc and Change · Least for each change, up to 200 discs; so
// too where reaching it takes more than Reach discs more.
//
// The fewest discs are hard to find (it is a set cover): this is the greedy choice
// of the largest new area over a grid, the edge of where centres may lie and the
// middle of the widest circle, improved by exchanging discs one at a time and then
// by moving them uphill on the exact area, from several starts, for every set of
// one, two or three diameters that could cost less. The grid lies along the main
// direction of r, so that a region which is turned, moved or mirrored is bored
// alike. The same input gives the same discs. Some 2 to 20 ms for a dozen discs.
func Cover(r Region, rules CoverRules) (discs []Disc, removed float64) {
	s := newCoverSearch(r, rules)
	if s == nil {
		return nil, 0
	}
	var best coverPlan
	for _, kinds := range s.kinds() {
		s.improve(&best, kinds)
	}
	if len(best.discs) == 0 {
		return nil, 0
	}
	discs = inOrderOfGain(best.discs)
	for i := range discs {
		discs[i].Center = s.back.Point(discs[i].Center)
	}
	return discs, unionArea(discs) / s.area
}

// coverPlan is a list of discs and what it is worth.
type coverPlan struct {
	discs []Disc
	kinds int
	area  float64
	cost  float64
	done  bool // the share is reached
}

// coverSearch looks for discs in a frame along the main direction of the region.
type coverSearch struct {
	CoverRules
	back  Transform // from the frame to the region as given
	idx   *Index    // of the region in the frame
	area  float64
	goal  float64
	radii []float64  // largest first
	spots [][]spot   // where discs of each radius may go
	all   [][]uint64 // what all discs of a radius together take
	edges []*Index   // of where the centres of each radius may lie
	rows  [][]layout // of each radius, by their number: the best in rows

	x0, y0, step  float64
	nx, ny, words int
}

// spot is a place for a disc, with the samples that it takes.
type spot struct {
	Disc
	mask   []uint64
	lo, hi int // words of the mask that are not 0
	count  int // samples
}

func newCoverSearch(r Region, rules CoverRules) *coverSearch {
	s := &coverSearch{CoverRules: rules, area: r.Area()}
	for _, d := range rules.Diameters {
		if d > 0 && isFinite(d) {
			s.radii = append(s.radii, d/2)
		}
	}
	slices.SortFunc(s.radii, func(a, b float64) int { return -cmp.Compare(a, b) })
	s.radii = slices.Compact(s.radii)
	if !(s.area > 0) || len(s.radii) == 0 || !(rules.Share > 0) {
		return nil
	}
	s.Margin, s.Seat, s.Change = max(0, s.Margin), max(0, s.Seat), max(0, s.Change)
	if !(s.Least > 0) {
		s.Least = coverLeast * s.area
	}
	s.goal = min(s.Share, 1) * s.area
	along := MainDirection(r)
	box := Rotate(-along).Region(r).Bounds().Center()
	s.back = Translate(box.Sub(Pt(0, 0))).Then(Rotate(along))
	frame := Rotate(-along).Then(Translate(Pt(0, 0).Sub(box)))
	r = frame.Region(r)
	s.idx = IndexOf(r)
	b := r.Bounds()
	s.step = math.Sqrt(b.W() * b.H() / coverBits)
	s.nx, s.ny = max(1, int(b.W()/s.step)), max(1, int(b.H()/s.step))
	s.x0, s.y0 = b.Center().X-s.step*float64(s.nx-1)/2, b.Center().Y-s.step*float64(s.ny-1)/2
	s.words = (s.nx*s.ny + 63) / 64
	s.findSpots(r, b)
	return s
}

// findSpots collects the places for the discs of each radius: a grid, the edge of
// where their centres may lie, its corners, where a disc nestles between two walls,
// and the middle of the widest circle. A radius that does not fit is left out.
func (s *coverSearch) findSpots(r Region, b Box) {
	pitch := math.Sqrt(b.W() * b.H() / coverGrid)
	nx, ny := int(b.W()/pitch)+1, int(b.H()/pitch)+1
	widest := InscribedCircle(r).Center
	var fit []float64
	for _, radius := range s.radii {
		var c Calc
		inset := c.Offset(r, -radius-s.Margin, Round)
		at := []Point{widest, b.Center()}
		var edge *Index // nil where at most single places are wide enough
		if !inset.Empty() {
			edge = IndexOf(inset)
			for _, p := range inset {
				for _, e := range p {
					at = append(at, e.A)
					n := math.Ceil(2 * e.Length() / pitch)
					for k := 1.0; k < n; k++ {
						at = append(at, e.At(k/n))
					}
				}
			}
			for j := range ny {
				for i := range nx {
					p := Pt(b.Center().X+pitch*(float64(i)-float64(nx-1)/2), b.Center().Y+pitch*(float64(j)-float64(ny-1)/2))
					if edge.Contains(p) {
						at = append(at, p)
					}
				}
			}
		}
		spots := make([]spot, 0, len(at))
		masks := make([]uint64, len(at)*s.words)
		for _, p := range at {
			if s.fits(p, radius) {
				spots = append(spots, s.spot(Disc{p, radius}, masks[len(spots)*s.words:(len(spots)+1)*s.words]))
			}
		}
		if len(spots) > 0 {
			fit, s.spots, s.edges, s.all = append(fit, radius), append(s.spots, spots), append(s.edges, edge), append(s.all, s.mask(spots))
			s.rows = append(s.rows, s.inRows(spots, edge, inset.Bounds(), radius))
		}
	}
	s.radii = fit
}

// fits reports whether a disc keeps the margin. A corner of an inset is taken for
// the disc that it is the inset of, hence the slack of an offset.
func (s *coverSearch) fits(p Point, radius float64) bool {
	_, d := s.idx.Closest(p)
	return radius+s.Margin <= d+OffsetSlack && s.idx.Contains(p)
}

// spot returns a disc with the samples that it takes, kept in mask.
func (s *coverSearch) spot(d Disc, mask []uint64) spot {
	p := spot{Disc: d, mask: mask, lo: s.words}
	k := 1 / s.step
	cx, cy, r := (d.Center.X-s.x0)*k, (d.Center.Y-s.y0)*k, d.Radius*k
	for j := max(0, int(math.Ceil(cy-r))); j <= min(s.ny-1, int(cy+r)); j++ {
		y := float64(j) - cy
		h2 := r*r - y*y
		if h2 < 0 {
			continue
		}
		h := math.Sqrt(h2)
		lo, hi := max(0, int(math.Ceil(cx-h))), min(s.nx-1, int(math.Floor(cx+h)))
		for b := j*s.nx + lo; b <= j*s.nx+hi; {
			n := min(64-b&63, j*s.nx+hi-b+1) // so many bits of this word
			mask[b>>6] |= (^uint64(0) >> (64 - n)) << (b & 63)
			p.lo, p.hi, p.count = min(p.lo, b>>6), b>>6+1, p.count+n
			b += n
		}
	}
	return p
}

// kinds returns the sets of radii to be tried, as indexes: the single ones first,
// where a change costs something, and all together where it costs nothing.
func (s *coverSearch) kinds() [][]int {
	n := len(s.radii)
	if s.Change == 0 {
		all := make([]int, n)
		for i := range all {
			all[i] = i
		}
		return [][]int{all}
	}
	most := min(coverKinds, n)
	if n > 0 && s.fewest(s.radii[0]) > coverMany/2 { // so many that another drill pays nothing
		most = 1
	}
	var out [][]int
	for size := 1; size <= most; size++ {
		out = choices(out, nil, 0, n, size)
	}
	return out
}

// fewest returns how many discs of a radius can take the share at best.
func (s *coverSearch) fewest(radius float64) int {
	return int(math.Ceil(s.goal/(math.Pi*radius*radius) - 1e-9))
}

// choices adds to out every choice of size more of the numbers from..n−1.
func choices(out [][]int, have []int, from, n, size int) [][]int {
	if size == 0 {
		return append(out, slices.Clone(have))
	}
	for i := from; i <= n-size; i++ {
		out = choices(out, append(have, i), i+1, n, size-1)
	}
	return out
}

// improve replaces best where a set of radii gives a better plan.
func (s *coverSearch) improve(best *coverPlan, kinds []int) {
	if len(kinds) == 0 {
		return
	}
	change := s.Change * float64(len(kinds)-1)
	most := coverMost
	if best.done { // no more discs than make it as good
		most = int(best.cost - change + 1e-9)
		if len(kinds) > best.kinds { // as many of more diameters are no better
			most = int(math.Ceil(best.cost-change-1e-9)) - 1
		}
	}
	if most < 1 || best.done && (s.fewest(s.radii[kinds[0]]) > most || !s.near(s.reach(kinds))) {
		return
	}
	take := s.pool(kinds)
	lists := s.lists(take, kinds, most)
	for n := 1; n < len(lists); n++ {
		if len(lists[n].discs) != n || s.share(lists[n].got) < s.Share-2*coverBlur {
			continue
		}
		p := s.plan(take, lists[n].discs, kinds)
		s.offer(best, p)
		if p.done || s.share(lists[n].got) > s.Share+coverBlur {
			return
		}
	}
	if best.done {
		return
	}
	// Out of reach: as many as are worth it.
	worth := func(n int) float64 {
		if n < 1 || n >= len(lists) || len(lists[n].discs) != n {
			return math.Inf(-1)
		}
		return s.share(lists[n].got)*s.area - s.Least*(float64(n)+change)
	}
	pick := 1
	for n := range lists {
		if worth(n) > worth(pick) {
			pick = n
		}
	}
	for n := pick - coverBeside; n <= pick+coverBeside; n++ {
		if worth(n) > s.worth(*best)-coverBlur*s.area {
			s.offer(best, s.plan(take, lists[n].discs, kinds))
		}
	}
}

// near reports whether so many samples may be the share that is asked for.
func (s *coverSearch) near(samples int) bool {
	return s.share(samples) >= min(s.Share, 1)-coverBlur
}

// worth returns what a plan is worth, mm²: what it takes of the share, less what its
// discs and diameters cost, and what it is worth that it reaches the share.
func (s *coverSearch) worth(p coverPlan) float64 {
	w := min(p.area, s.goal) - s.Least*p.cost
	switch {
	case len(p.discs) == 0:
		return math.Inf(-1)
	case !p.done:
		return w
	case s.Reach > 0:
		return w + s.Least*s.Reach
	}
	return w + s.Least*coverMost + s.area
}

// offer takes a plan where it is better than the best.
func (s *coverSearch) offer(best *coverPlan, p coverPlan) {
	better := false
	switch {
	case len(p.discs) == 0:
	case len(best.discs) == 0:
		better = true
	case p.done != best.done || !p.done:
		better = s.worth(p) > s.worth(*best)+Coincident
	case math.Abs(p.cost-best.cost) > 1e-9:
		better = p.cost < best.cost
	case p.kinds != best.kinds:
		better = p.kinds < best.kinds
	default:
		better = p.area > best.area*(1+1e-9)
	}
	if better {
		*best = p
	}
}
