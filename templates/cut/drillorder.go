package cut

import (
	"cmp"
	"math"
	"slices"

	"routwright/geom"
)

// seatSlack is what rounding may take off a seat, mm.
const seatSlack = 1e-5

// turn is a hole with the share of its rim that runs in wood when its turn comes.
type turn struct {
	geom.Disc
	rim float64
}

// inTurn puts holes in the order in which to bore them: drill by drill, since each
// wants its own stop, and row by row as the plan lies. The largest drill comes first,
// while all of its rim is held, where every point then stands in wood and every rim
// runs in it by DrillRim; else the smallest, or the order that holds the rims best.
func inTurn(discs []geom.Disc, along geom.Angle) []turn {
	var best []turn
	least := -1.0
	try := func(l []geom.Disc) bool {
		held := 1.0
		out := make([]turn, len(l))
		for i, d := range l {
			for _, e := range l[:i] {
				if d.Center.Dist(e.Center) < e.Radius+DrillSeat-seatSlack {
					return false
				}
			}
			out[i] = turn{d, rimInWood(l[:i], d)}
			held = math.Min(held, out[i].rim)
		}
		if held > least+1e-9 {
			best, least = out, held
		}
		return least >= DrillRim
	}
	for _, small := range []bool{false, true} {
		for _, across := range []bool{false, true} {
			if try(rowByRow(discs, along, small, across)) {
				return best
			}
		}
	}
	for _, small := range []bool{false, true} {
		if try(heldBest(rowByRow(discs, along, small, false))) {
			return best
		}
	}
	return best
}

// heldBest puts holes, drill by drill, in the order in which the least share of a rim
// that runs in wood is greatest: from the last to the first, each time the one that
// all the others leave most of. Taking a hole out of those before leaves more of each
// rim, so that no other order does better.
func heldBest(l []geom.Disc) []geom.Disc {
	rest := slices.Clone(l)
	out := make([]geom.Disc, len(l))
	for n := len(l) - 1; n >= 0; n-- {
		best, most := n, -1.0
		for i := range rest {
			if rest[i].Radius != rest[n].Radius {
				continue
			}
			others := slices.Delete(slices.Clone(rest), i, i+1)
			if h := rimInWood(others, rest[i]); h > most+1e-9 {
				best, most = i, h
			}
		}
		out[n] = rest[best]
		rest = slices.Delete(rest, best, best+1)
	}
	return out
}

// rowByRow sorts holes by drill, the largest first or the smallest, then by row along
// a direction or across it.
func rowByRow(discs []geom.Disc, along geom.Angle, small, across bool) []geom.Disc {
	u := along.Unit()
	v := u.Left().Neg() // rows from the top down
	if across {
		u, v = v.Neg(), u
	}
	at := func(d geom.Disc, w geom.Vec) float64 { return d.Center.Sub(geom.Pt(0, 0)).Dot(w) }
	l := slices.Clone(discs)
	slices.SortStableFunc(l, func(a, b geom.Disc) int {
		c := -cmp.Compare(a.Radius, b.Radius)
		if small {
			c = -c
		}
		return cmp.Or(c, cmp.Compare(at(a, v), at(b, v)))
	})
	for i := 0; i < len(l); {
		k := i + 1 // of one row: less than half a hole farther down
		for k < len(l) && l[k].Radius == l[i].Radius && at(l[k], v)-at(l[i], v) < l[i].Radius/2 {
			k++
		}
		slices.SortStableFunc(l[i:k], func(a, b geom.Disc) int { return cmp.Compare(at(a, u), at(b, u)) })
		i = k
	}
	return l
}

// rimInWood returns the share of the rim of d that no earlier hole has taken.
func rimInWood(before []geom.Disc, d geom.Disc) float64 {
	return geom.BareRim(append(slices.Clone(before), d), len(before)) / (2 * math.Pi)
}
