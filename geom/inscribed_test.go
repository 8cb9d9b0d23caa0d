package geom

import (
	"math"
	"testing"
)

func TestInscribedCircleClosedForms(t *testing.T) {
	tests := []struct {
		name string
		r    Region
		want float64
	}{
		{"circle", Region{Circle(Pt(3, 4), 7)}, 7},
		{"rectangle", Region{Rect(Pt(0, 0), 120, 80)}, 40},
		{"square", Region{Rect(Pt(0, 0), 80, 80)}, 40},
		{"slot", Region{Stadium(Pt(0, 0), Pt(50, 0), 10)}, 10},
		{"long slot", Region{Stadium(Pt(0, 0), Pt(900, 0), 3)}, 3},
		// r = 2·area/perimeter: sides 3, 4, 5.
		{"triangle", Region{Polygon(Pt(0, 0), Pt(4, 0), Pt(0, 3))}, 1},
		{"annulus", Region{Circle(Pt(0, 0), 30), Circle(Pt(0, 0), 20).Reversed()}, 5},
		{"eccentric hole", Region{Circle(Pt(0, 0), 30), Circle(Pt(4, 3), 10).Reversed()}, (30 + 5 - 10) / 2.0},
		{"hexagon", Region{regular(6, 40)}, 40 * math.Cos(math.Pi/6)},
		// Touching the two outer sides and the inner corner: r = (√2·30 + …): the
		// disc at (x, x) from the outer corner with x = r and corner at (30, 30):
		// √2·(30 − r) = r.
		{"L of two arms", Region{Polygon(Pt(0, 0), Pt(90, 0), Pt(90, 30), Pt(30, 30), Pt(30, 90), Pt(0, 90))}, 30 * math.Sqrt2 / (1 + math.Sqrt2)},
		{"sliver", Region{Rect(Pt(0, 0), 100, 2e-3)}, 1e-3},
		{"there and back", Region{Polygon(Pt(0, 0), Pt(10, 3))}, 0},
		{"nothing", nil, 0},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			k := s.t.Factor()
			d := InscribedCircle(s.of(tt.r))
			sameLength(t, tt.name+", "+s.name, d.Radius, k*tt.want, 1e-6)
		}
	}
}

// On random outlines with holes: the disc is inside, and no point of a dense
// grid is farther from the boundary.
func TestInscribedCircleAgainstGrid(t *testing.T) {
	rng := seeded(t, 41)
	for i := range 40 {
		r := Region{starOf(rng, Pt(0, 0), 30, 3+rng.IntN(30))}
		if i%2 == 0 {
			r = append(r, Circle(Pt(2, 1), 3).Reversed())
		}
		d := InscribedCircle(r)
		tr := IndexOf(r)
		if _, d2 := tr.closest(d.Center, math.Inf(1)); !tr.Contains(d.Center) || math.Abs(math.Sqrt(d2)-d.Radius) > 1e-9 {
			t.Fatalf("case %d: %v is not inside", i, d)
		}
		for x := -45.0; x < 45; x += 0.5 {
			for y := -45.0; y < 45; y += 0.5 {
				if !tr.Contains(Pt(x, y)) {
					continue
				}
				if _, d2 := tr.closest(Pt(x, y), math.Inf(1)); math.Sqrt(d2) > d.Radius+1e-6 {
					t.Fatalf("case %d: %.9g at (%g, %g), but found %.9g", i, math.Sqrt(d2), x, y, d.Radius)
				}
			}
		}
	}
}

func BenchmarkInscribed(b *testing.B) {
	for _, c := range []struct {
		name string
		r    Region
	}{
		{"266Arcs", Region{outlineOf(Pt(0, 0), 200, 0.1, 266)}},
		{"5kChords", Region{chordsOf(Pt(0, 0), 200, 0.1, 5000)}},
		{"Slot", Region{Stadium(Pt(0, 0), Pt(300, 40), 6)}},
		{"Annulus", Region{Circle(Pt(0, 0), 30), Circle(Pt(0, 0), 20).Reversed()}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				InscribedCircle(c.r)
			}
		})
	}
}
