package render

import "math"

// profile says, for each millimetre along an axis, how much a seam there would
// spoil.
type profile struct {
	from float64 // of the first step, mm
	cost []float64
}

// What a seam spoils: a slot that it runs along most, then a pocket or hole that
// it cuts in two, then words, then any other line. Only the order matters.
const (
	alongLine  = 40
	acrossHole = 12
	acrossWord = 4
	acrossLine = 1
	// keepClear is more than all else that a seam can cross: rather another page.
	keepClear = 1e4
	// extraPages is how many pages along an axis it may cost to keep clear.
	extraPages = 2
	// seamAir is how far from the end of a pocket or slot a seam should stay.
	seamAir = 2.0
	// smallPart is the largest side of a part that counts as a pocket.
	smallPart = 160.0
)

// profiles returns what seams across x and across y would cross in d.
func profiles(d Drawing) (x, y profile) {
	x, y = newProfile(d.Bounds.Min.X, d.Bounds.Max.X), newProfile(d.Bounds.Min.Y, d.Bounds.Max.Y)
	var walk func(gs []Group)
	walk = func(gs []Group) {
		for _, g := range gs {
			for _, s := range g.Shapes {
				if s.Kind == Hatch || s.Kind == Frame || s.Kind == Solid {
					continue
				}
				b := s.Path.Bounds()
				x.shape(s, b.Min.X, b.Max.X, b.H())
				y.shape(s, b.Min.Y, b.Max.Y, b.W())
			}
			for _, t := range g.Texts {
				b := t.Box().Bounds()
				x.add(b.Min.X, b.Max.X, acrossWord)
				y.add(b.Min.Y, b.Max.Y, acrossWord)
			}
			walk(g.Groups)
		}
	}
	walk(d.Groups)
	for _, k := range d.Keep {
		x.add(k.Min.X, k.Max.X, keepClear)
		y.add(k.Min.Y, k.Max.Y, keepClear)
	}
	return x, y
}

func newProfile(lo, hi float64) profile {
	return profile{from: lo, cost: make([]float64, int(math.Ceil(hi-lo))+2)}
}

// shape adds a line that reaches from lo to hi along the axis and is as long as
// other across it.
func (p *profile) shape(s Shape, lo, hi, other float64) {
	switch cuts := s.Kind == Cut || s.Kind == Edge || s.Kind == Mark || s.Kind == Hidden; {
	case cuts && hi-lo < 1 && other > 5:
		p.add(lo-seamAir, hi+seamAir, alongLine)
	case cuts && s.Path.Closed() && max(hi-lo, other) < smallPart:
		p.add(lo-seamAir, hi+seamAir, acrossHole)
	default:
		p.add(lo, hi, acrossLine)
	}
}

func (p *profile) add(lo, hi, cost float64) {
	a := max(0, int(math.Floor(lo-p.from)))
	b := min(len(p.cost)-1, int(math.Ceil(hi-p.from)))
	for i := a; i <= b; i++ {
		p.cost[i] += cost
	}
}

func (p profile) at(v float64) float64 {
	i := int(math.Round(v - p.from))
	if i < 0 || i >= len(p.cost) {
		return 0
	}
	return p.cost[i]
}

// count returns how many windows of u mm that share at least overlap cover l mm
// (one when l ≤ u).
func count(l, u, overlap float64) int {
	return max(1, int(math.Ceil((l-overlap)/(u-overlap)-1e-9)))
}

// seams chooses where the windows of u mm start along an axis from lo to hi: as
// few as possible, and of all ways to shift them the one whose seams spoil the
// least; among equals the most even. Where a seam must then cross what is to be
// kept clear, one or two pages more are tried. The search is exact on a grid of
// 1 mm, by dynamic programming over seams: O(pages · length · u).
//
//	starts[0]        starts[1]        starts[2]
//	├──────────────┬─┤                            ─ overlap of each pair
//	               ├──────────────┬─┤
func seams(p profile, lo, hi, u, overlap float64) (starts []float64, cost float64) {
	n := count(hi-lo, u, overlap)
	starts, cost = seamsOf(p, lo, hi, u, overlap, n)
	for more := 1; more <= extraPages && cost >= keepClear; more++ {
		if s, c := seamsOf(p, lo, hi, u, overlap, n+more); c < cost {
			starts, cost = s, c
		}
	}
	return starts, cost
}

// seamsOf chooses the starts of n windows.
func seamsOf(p profile, lo, hi, u, overlap float64, n int) (starts []float64, cost float64) {
	if n == 1 {
		return []float64{lo}, 0
	}
	step := u - overlap
	even := (hi - lo - overlap) / float64(n) // between seams, all alike
	// Seam k (1 … n−1) must lie where k pages before it and n − k behind it reach.
	first := func(k int) float64 { return max(lo+1, hi-u-float64(n-1-k)*step) }
	last := func(k int) float64 { return min(lo+float64(k)*step, hi-float64(n-k)) }
	type state struct {
		cost float64
		from int
	}
	best := make([][]state, n)
	grid := func(k int) int { return max(1, int(math.Floor(last(k)-first(k)+1e-9))+1) }
	for k := 1; k < n; k++ {
		best[k] = make([]state, grid(k))
		for i := range best[k] {
			x := first(k) + float64(i)
			// Little pulls of evenness decide between equals.
			own := p.at(x) + 1e-3*math.Pow((x-lo-float64(k)*even)/step, 2)
			best[k][i] = state{math.Inf(1), -1}
			if k == 1 {
				best[k][i] = state{own, -1}
				continue
			}
			for j := range best[k-1] {
				gap := x - (first(k-1) + float64(j))
				if gap > step+1e-9 || gap < 1 {
					continue
				}
				if c := best[k-1][j].cost + own; c < best[k][i].cost {
					best[k][i] = state{c, j}
				}
			}
		}
	}
	at := 0
	for i, s := range best[n-1] {
		if s.cost < best[n-1][at].cost {
			at = i
		}
	}
	cost = best[n-1][at].cost
	starts = make([]float64, n)
	for k := n - 1; k >= 1; k-- {
		starts[k] = first(k) + float64(at)
		at = best[k][at].from
	}
	starts[0] = lo
	return starts, cost
}
