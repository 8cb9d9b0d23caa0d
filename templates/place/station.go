package place

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"

	"routwright/geom"
)

// Stations returns the places along a crack in order: every step mm, the end,
// and where the reach of a tip begins, so that a tip is not lost between two
// steps. A key of the given plan (about the origin, axis along +X) stands square
// to the crack there, or at a fixed angle if one is given.
func Stations(l Line, plan geom.Region, r Rules, angle *geom.Angle) []Station {
	places := along(l.Length(), r)
	out := make([]Station, len(places))
	build := func(i int) {
		at, _ := l.At(places[i])
		turn := square(l.Heading(places[i], r.KeyLength/2))
		if angle != nil {
			turn = *angle
		}
		st := Station{S: places[i], At: at, Turn: turn, Plan: geom.Pose(at, turn).Region(plan)}
		st.bounds()
		if r.Allowed != nil {
			st.Block = r.Allowed(st.Plan, at)
		}
		out[i] = st
	}
	var wg sync.WaitGroup
	n := min(len(places), runtime.GOMAXPROCS(0))
	for k := range n {
		wg.Go(func() {
			for i := k; i < len(places); i += n {
				build(i)
			}
		})
	}
	wg.Wait()
	return out
}

// Merge joins the stations of one crack for keys of several sizes, in order along
// it, those of the first list first where they stand at one place.
func Merge(lists ...[]Station) []Station {
	var out []Station
	for _, l := range lists {
		out = append(out, l...)
	}
	slices.SortStableFunc(out, func(a, b Station) int { return cmp.Compare(a.S, b.S) })
	return out
}

// along returns where the stations of a crack of the given length lie, mm.
func along(length float64, r Rules) []float64 {
	step := r.Step
	if !(step > 0) {
		step = 1
	}
	n := int(math.Floor(length/step + 1e-9))
	ss := make([]float64, 0, n+4)
	for i := 0; i <= n; i++ {
		ss = append(ss, min(length, float64(i)*step))
	}
	for _, s := range [...]float64{r.Tip, length - r.Tip, length} {
		if s >= 0 && s <= length {
			ss = append(ss, s)
		}
	}
	slices.Sort(ss)
	return slices.CompactFunc(ss, func(a, b float64) bool { return math.Abs(b-a) < geom.Coincident })
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

// Square returns the angle square to a crack as a whole, midway between the two
// extremes of its direction over the length of a key, and by how much the
// direction turns between them. half is half of the key's length, mm.
func (l Line) Square(half float64) (mean, bend geom.Angle) {
	const step = 1.0 // mm; the crack is straight between its points
	first := l.Heading(0, half)
	least, most := 0.0, 0.0
	for s := 0.0; s <= l.Length(); s += step {
		v := l.Heading(s, half)
		a := math.Atan2(first.Cross(v), first.Dot(v))
		least, most = min(least, a), max(most, a)
	}
	return square(first.Rotate(geom.Angle((least + most) / 2))), geom.Angle(most - least)
}
