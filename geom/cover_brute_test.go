package geom

import (
	"fmt"
	"math"
	"math/bits"
	"testing"
)

// bruteCover tries every choice of n discs of one diameter with their centres on a
// grid of the given pitch, and returns the greatest share of r that one takes: by
// counting places 0.5 mm apart, with nothing of what Cover uses but the distance to
// the edge.
func bruteCover(r Region, diameter, margin, seat, pitch float64, n int) float64 {
	idx, b := IndexOf(r), r.Bounds()
	const step = 0.5
	var places []Point
	for y := b.Min.Y + step/2; y < b.Max.Y; y += step {
		for x := b.Min.X + step/2; x < b.Max.X; x += step {
			if p := Pt(x, y); idx.Contains(p) {
				places = append(places, p)
			}
		}
	}
	type disc struct {
		at   Point
		mask []uint64
	}
	var all []disc
	for y := b.Min.Y; y <= b.Max.Y; y += pitch {
		for x := b.Min.X; x <= b.Max.X; x += pitch {
			p := Pt(x, y)
			if _, d := idx.Closest(p); !idx.Contains(p) || d < diameter/2+margin {
				continue
			}
			m := make([]uint64, (len(places)+63)/64)
			for i, q := range places {
				if q.Dist(p) <= diameter/2 {
					m[i/64] |= 1 << (i % 64)
				}
			}
			all = append(all, disc{p, m})
		}
	}
	best, share := 0, 0.0
	var choose func(from int, have []uint64, list []Point)
	choose = func(from int, have []uint64, list []Point) {
		count := 0
		for _, w := range have {
			count += bits.OnesCount64(w)
		}
		if count > best {
			var discs []Disc
			for _, p := range list {
				discs = append(discs, Disc{p, diameter / 2})
			}
			best, share = count, unionArea(discs)/r.Area() // the count alone is a little off
		}
		if len(list) == n {
			return
		}
		next := make([]uint64, len(have))
		for k := from; k < len(all); k++ {
			ok := true
			for _, q := range list {
				ok = ok && q.Dist(all[k].at) >= diameter/2+seat
			}
			if !ok {
				continue
			}
			for i := range next {
				next[i] = have[i] | all[k].mask[i]
			}
			choose(k+1, next, append(list, all[k].at))
		}
	}
	choose(0, make([]uint64, (len(places)+63)/64), nil)
	return share
}

// Whatever share some choice of up to four discs on a grid reaches, Cover reaches with
// no more discs, within half a per cent of the area.
func TestCoverAgainstBruteForce(t *testing.T) {
	rng := seeded(t, 83)
	type small struct {
		name     string
		r        Region
		diameter float64
		pitch    float64
		most     int
	}
	cases := []small{
		{"square", Region{Rect(Pt(0, 0), 30, 30)}, 14, 1, 4},
		{"row", Region{RoundedRect(Pt(5, 5), 60, 22, 6)}, 16, 1, 4},
		{"wide row", Region{RoundedRect(Pt(0, 0), 46, 27, 6)}, 18, 1, 4},
		{"corner", Region{Polygon(Pt(0, 0), Pt(45, 0), Pt(45, 20), Pt(20, 20), Pt(20, 45), Pt(0, 45))}, 15, 1.5, 4},
		{"triangle", Region{Polygon(Pt(0, 0), Pt(50, 0), Pt(10, 42))}, 12, 1.5, 4},
		{"waist", Region{Polygon(Pt(-30, -13), Pt(0, -7), Pt(30, -13), Pt(30, 13), Pt(0, 7), Pt(-30, 13))}, 10, 1.5, 3},
	}
	for i := range 6 {
		p := roundStar(rng, 5+rng.IntN(4))
		b := p.Bounds()
		k := 36 / math.Max(b.W(), b.H())
		cases = append(cases, small{fmt.Sprintf("blob %d", i), Region{Scale(k).Path(p)}, 9 + 4*rng.Float64(), 1.5, 3})
	}
	for _, tt := range cases {
		if tt.r.Check() != nil {
			continue
		}
		for n := 1; n <= tt.most; n++ {
			share := bruteCover(tt.r, tt.diameter, 1.5, 1.5, tt.pitch, n)
			if share == 0 {
				continue
			}
			discs, removed := Cover(tt.r, CoverRules{Diameters: []float64{tt.diameter}, Margin: 1.5, Seat: 1.5, Share: share - 0.005, Least: 1})
			if len(discs) > n || removed < share-0.005-1e-9 {
				t.Errorf("%s: %d discs of %.3g take %.4f; by trying all, %d take %.4f", tt.name, len(discs), tt.diameter, removed, n, share)
			}
		}
	}
}
