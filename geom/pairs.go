package geom

import (
	"cmp"
	"slices"
)

// Pair is two regions of a list that come close: their indices (I < J), their
// distance in mm and the places (A on I, B on J). Dist is 0 when they overlap.
type Pair struct {
	I, J int
	Dist float64
	A, B Point
}

// ClosePairs returns all pairs of regions at most within mm apart, sorted by I
// and J. A sweep over the boxes finds the candidates, so that the cost follows
// the number of regions that really are near each other.
func ClosePairs(rs []Region, within float64) []Pair {
	trees := make([]*Index, len(rs))
	var order []int
	for i, r := range rs {
		trees[i] = IndexOf(r)
		if !trees[i].empty() {
			order = append(order, i)
		}
	}
	box := func(i int) *bounds { return &trees[i].boxes[1] }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(box(a).x0, box(b).x0) })
	limit := within + Coincident // the threshold itself counts
	var out []Pair
	for k, i := range order {
		for _, j := range order[k+1:] {
			if box(j).x0-box(i).x1 > within {
				break
			}
			if box(i).gap2(box(j)) > limit*limit {
				continue
			}
			a, b := min(i, j), max(i, j)
			if d, pa, pb := trees[a].distance(trees[b], limit); d <= within {
				out = append(out, Pair{a, b, d, pa, pb})
			}
		}
	}
	slices.SortFunc(out, func(p, q Pair) int {
		return cmp.Or(cmp.Compare(p.I, q.I), cmp.Compare(p.J, q.J))
	})
	return out
}
