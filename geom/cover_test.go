package geom

import (
	"math"
	"slices"
	"testing"
)

func TestUnionArea(t *testing.T) {
	rng := seeded(t, 81)
	for i := range 200 {
		var ds []Disc
		var rs []Region
		for range 1 + rng.IntN(9) {
			d := Disc{Pt(30*rng.Float64(), 30*rng.Float64()), 1 + 9*rng.Float64()}
			ds, rs = append(ds, d), append(rs, Region{d.Path()})
		}
		var c Calc
		want := c.Union(rs...).Area()
		if c.Err() != nil {
			continue // the kernel's own tests say so
		}
		sameLength(t, label(i, "union"), unionArea(ds), want, 1e-4)
	}
	d := Disc{Pt(3, 4), 5}
	sameLength(t, "twice the same", unionArea([]Disc{d, d}), d.Area(), 1e-9)
	sameLength(t, "one in the other", unionArea([]Disc{d, {Pt(4, 4), 2}}), d.Area(), 1e-9)
	sameLength(t, "nothing", unionArea(nil), 0, 0)
}

// checkCover checks what Cover promises, whatever the discs.
func checkCover(t *testing.T, what string, r Region, diameters []float64, margin float64, discs []Disc, removed float64) {
	t.Helper()
	idx := IndexOf(r)
	for _, d := range discs {
		if !slices.Contains(diameters, 2*d.Radius) {
			t.Errorf("%s: a disc of %g mm is not at hand", what, 2*d.Radius)
		}
		if _, e := idx.Closest(d.Center); !idx.Contains(d.Center) || e-d.Radius < margin-2*OffsetSlack {
			t.Errorf("%s: %v stays %g inside, want %g", what, d, e-d.Radius, margin)
		}
	}
	sameLength(t, what+": share", removed, unionArea(discs)/r.Area(), 1e-12)
}

var forstnerBits = []float64{35, 30, 25, 20, 15, 10, 8}

func TestCoverOfPocket(t *testing.T) {
	r := Region{Rect(Pt(0, 0), 92, 40)}
	for _, s := range reachPoses()[:6] {
		for _, margin := range []float64{0, 1} {
			q := s.of(r)
			discs, removed := Cover(q, CoverRules{Diameters: forstnerBits, Margin: margin, Share: 0.9})
			checkCover(t, s.name, q, forstnerBits, margin, discs, removed)
			t.Logf("%s, margin %g: %d discs, %.4f removed", s.name, margin, len(discs), removed)
			if margin == 0 && (len(discs) > 12 || removed < 0.9) {
				t.Errorf("%s: %d discs remove %.4f, want at most 12 for 0.9", s.name, len(discs), removed)
			}
			again, _ := Cover(q, CoverRules{Diameters: forstnerBits, Margin: margin, Share: 0.9})
			if !slices.Equal(discs, again) {
				t.Errorf("%s: another answer the second time", s.name)
			}
		}
	}
}

func TestCoverEdges(t *testing.T) {
	one, share := Cover(Region{Circle(Pt(3, 4), 17.5)}, CoverRules{Diameters: forstnerBits, Share: 0.999})
	if len(one) != 1 || one[0].Radius != 17.5 || one[0].Center.Dist(Pt(3, 4)) > 1e-5 || math.Abs(share-1) > 1e-6 {
		t.Errorf("a round pocket takes one disc: %v, %g", one, share)
	}
	for _, tt := range []struct {
		name string
		r    Region
		d    []float64
		m, s float64
	}{
		{"nothing", nil, forstnerBits, 0, 0.9},
		{"no diameters", Region{Rect(Pt(0, 0), 92, 40)}, nil, 0, 0.9},
		{"diameters of no size", Region{Rect(Pt(0, 0), 92, 40)}, []float64{0, -3, math.NaN()}, 0, 0.9},
		{"too narrow", Region{Rect(Pt(0, 0), 92, 7)}, forstnerBits, 0, 0.9},
		{"too wide a margin", Region{Rect(Pt(0, 0), 92, 40)}, forstnerBits, 17, 0.9},
		{"no share", Region{Rect(Pt(0, 0), 92, 40)}, forstnerBits, 0, 0},
	} {
		if d, s := Cover(tt.r, CoverRules{Diameters: tt.d, Margin: tt.m, Share: tt.s}); len(d) != 0 || s != 0 {
			t.Errorf("%s: %v, %g", tt.name, d, s)
		}
	}
	all, s := Cover(Region{Rect(Pt(0, 0), 92, 40)}, CoverRules{Diameters: []float64{35, 12}, Margin: 0.5, Share: 1})
	if s < 0.9 || s >= 1 || len(all) > 60 {
		t.Errorf("a share out of reach: %d discs, %g", len(all), s)
	}
}

func TestCoverOfOutlines(t *testing.T) {
	rng := seeded(t, 91)
	for i := range 6 {
		r := Region{roundStar(rng, 5+rng.IntN(6)), Circle(Pt(0, 0), 6).Reversed()}
		if r.Check() != nil {
			continue
		}
		discs, removed := Cover(r, CoverRules{Diameters: forstnerBits, Margin: 0.5, Share: 0.8})
		checkCover(t, label(i, "blob"), r, forstnerBits, 0.5, discs, removed)
	}
}

func BenchmarkCoverPocket(b *testing.B) {
	r := Region{Rect(Pt(0, 0), 92, 40)}
	b.ReportAllocs()
	for b.Loop() {
		Cover(r, CoverRules{Diameters: forstnerBits, Share: 0.9})
	}
}
