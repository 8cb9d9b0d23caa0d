package place

import (
	"math"

	"routwright/geom"
)

// Stations returns the places along a crack, every step mm and at both ends of
// the reach of a tip, with a key of the given plan (about the origin, axis along
// +X) turned square to the crack, or by a fixed angle if one is given.
func Stations(l Line, plan geom.Region, r Rules, angle *geom.Angle) []Station {
	step := r.Step
	if step <= 0 {
		step = 1
	}
	n := int(math.Floor(l.Length()/step + 1e-9))
	out := make([]Station, 0, n+1)
	for i := 0; i <= n; i++ {
		s := float64(i) * step
		at, _ := l.At(s)
		turn := square(l.Heading(s, r.KeyLength/2))
		if angle != nil {
			turn = *angle
		}
		st := Station{S: s, At: at, Turn: turn, Plan: geom.Pose(at, turn).Region(plan)}
		st.Block = r.Allowed(st.Plan, at)
		out = append(out, st)
	}
	return out
}

// square returns the angle of an axis square to a crack that runs along v, in
// (−90°, 90°]: a key has no sense of direction.
func square(v geom.Vec) geom.Angle {
	a := v.Left().Angle()
	if a > math.Pi/2 {
		a -= math.Pi
	} else if a <= -math.Pi/2 {
		a += math.Pi
	}
	return a
}

// score orders sets: more tips, then more weight, then fewer keys, then a more
// even pitch (the sum of the squared pitches is least when they are even).
type score struct {
	tips    int
	weight  float64
	keys    int
	squares float64
}

// better reports whether a beats b. Weights within a thousandth of a mm² are
// equal.
func (a score) better(b score) bool {
	const same = 1e-3
	switch {
	case a.tips != b.tips:
		return a.tips > b.tips
	case math.Abs(a.weight-b.weight) > same:
		return a.weight > b.weight
	case a.keys != b.keys:
		return a.keys < b.keys
	}
	return a.squares < b.squares-same
}

// Solve returns the best set of keys over the stations of a crack, which lie in
// order along it. Fixed stations are always taken. Exact over the stations given,
// by dynamic programming: O(n²) for n stations, since the score of a set is the
// sum of what each key adds behind the one before it.
func Solve(l Line, stations []Station, r Rules) Set {
	var st []Station
	for _, s := range stations {
		if s.Block == nil || s.Fixed {
			st = append(st, s)
		}
	}
	w := newWeights(l)
	half := r.KeyLength / 2
	n := len(st)
	best := make([]score, n)
	from := make([]int, n)
	final, last := score{}, -1
	mustFrom := 0 // stations before this one may not be skipped over: a fixed key lies between
	for i := range st {
		lo := math.Max(0, st[i].S-half)
		hi := math.Min(l.Length(), st[i].S+half)
		from[i] = -2 // impossible
		if mustFrom == 0 {
			from[i] = -1
			best[i] = score{weight: w.between(lo, hi), keys: 1}
			if l.FirstTip && st[i].S <= r.Tip {
				best[i].tips++
			}
		}
		for k := i - 1; k >= 0; k-- {
			if from[k] != -2 && apart(st[k], st[i], r.Between) {
				c := best[k]
				c.weight += w.between(math.Max(lo, st[k].S+half), hi)
				c.keys++
				c.squares += (st[i].S - st[k].S) * (st[i].S - st[k].S)
				if from[i] == -2 || c.better(best[i]) {
					best[i], from[i] = c, k
				}
			}
			if st[k].Fixed {
				break
			}
		}
		if st[i].Fixed {
			mustFrom = i + 1
			final, last = score{}, -1
		}
		if from[i] == -2 {
			continue
		}
		c := best[i]
		if l.LastTip && l.Length()-st[i].S <= r.Tip {
			c.tips++
		}
		if last < 0 || c.better(final) {
			final, last = c, i
		}
	}
	set := Set{Tips: final.tips, Weight: final.weight}
	for i := last; i >= 0; i = from[i] {
		set.Keys = append(set.Keys, st[i])
	}
	for i, j := 0, len(set.Keys)-1; i < j; i, j = i+1, j-1 {
		set.Keys[i], set.Keys[j] = set.Keys[j], set.Keys[i]
	}
	set.bare(l, stations, half)
	return set
}

// apart reports whether two keys keep the least wood between them.
func apart(a, b Station, least float64) bool {
	gap := a.Plan.Bounds().Gap(b.Plan.Bounds())
	if gap >= least {
		return true
	}
	d, _, _ := geom.Distance(a.Plan, b.Plan)
	return d >= least
}

// bare fills in the covered length and the stretches without a key.
func (s *Set) bare(l Line, all []Station, half float64) {
	at := 0.0
	gap := func(from, to float64) {
		if to-from < 1 { // shorter than a station apart
			return
		}
		st := Stretch{From: from, To: to}
		mid, near := (from+to)/2, math.Inf(1)
		for _, x := range all {
			if d := math.Abs(x.S - mid); x.Block != nil && d < near && x.S >= from-half && x.S <= to+half {
				st.Block, near = x.Block, d
			}
		}
		s.Bare = append(s.Bare, st)
	}
	for _, k := range s.Keys {
		lo, hi := math.Max(at, k.S-half), math.Min(l.Length(), k.S+half)
		gap(at, lo)
		if hi > lo {
			s.Covered += hi - lo
		}
		at = math.Max(at, hi)
	}
	gap(at, l.Length())
}

// weights integrates the opening along a crack.
type weights struct {
	step float64
	sum  []float64
}

func newWeights(l Line) weights {
	const step = 0.5 // mm; the opening is known at a few places only
	n := int(math.Ceil(l.Length()/step)) + 1
	w := weights{step: step, sum: make([]float64, n+1)}
	for i := 0; i < n; i++ {
		w.sum[i+1] = w.sum[i] + step*l.OpeningAt((float64(i)+0.5)*step)
	}
	return w
}

// between returns the integral of the opening from a to b, 0 when b ≤ a.
func (w weights) between(a, b float64) float64 {
	if b <= a {
		return 0
	}
	at := func(s float64) float64 {
		t := s / w.step
		i := int(math.Max(0, math.Min(float64(len(w.sum)-2), math.Floor(t))))
		f := math.Min(1, t-float64(i))
		return w.sum[i]*(1-f) + w.sum[i+1]*f
	}
	return at(b) - at(a)
}
