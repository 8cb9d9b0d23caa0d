package geom

import (
	"math"
	"testing"
)

func TestEnclosingCircleOfArcs(t *testing.T) {
	tests := []struct {
		name string
		p    Path
		want Disc
	}{
		{"circle", Circle(Pt(3, 4), 7), Disc{Pt(3, 4), 7}},
		{"slot", Stadium(Pt(0, 0), Pt(50, 0), 10), Disc{Pt(25, 0), 35}},
		// A corner arc is touched where the line from the middle through its centre leaves it.
		{"rounded rectangle", RoundedRect(Pt(1, 2), 120, 80, 15), Disc{Pt(1, 2), math.Hypot(45, 25) + 15}},
		{"half disc", Path{ArcAbout(Pt(0, 0), Pt(5, 0), Pt(-5, 0), 1), Line(Pt(-5, 0), Pt(5, 0))}, Disc{Pt(0, 0), 5}},
		// Less than half a disc: the chord alone rules.
		{"flat segment", Path{ArcThrough(Pt(-5, 0), Pt(0, 1), Pt(5, 0))}, Disc{Pt(0, 0), 5}},
		// A major arc: its own circle.
		{"major arc, open", Path{ArcSweep(Pt(2, 2), 9, 0, 300*Degree)}, Disc{Pt(2, 2), 9}},
		{"one line", Path{Line(Pt(0, 0), Pt(6, 8))}, Disc{Pt(3, 4), 5}},
		{"nothing", nil, Disc{}},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			if tt.p == nil && s.from > 0 {
				continue
			}
			p := s.t.Path(tt.p)
			if p.Closed() {
				p = p.From(s.from)
			}
			k := s.t.Factor()
			for _, q := range []Path{p, p.Reversed()} {
				d := EnclosingCircle(q)
				sameLength(t, tt.name+", "+s.name+": radius", d.Radius, tt.want.Radius*k, 1e-9*k*tt.want.Radius)
				if len(q) > 0 {
					// A centre is known to the root of the radius' precision only.
					sameLength(t, tt.name+", "+s.name+": centre", d.Center.Dist(s.t.Point(tt.want.Center)), 0, 1e-5*k*tt.want.Radius)
				}
			}
		}
	}
}

// On random outlines the circle holds everything, and it is the least: the
// points that touch it do not leave a half circle free.
func TestEnclosingCircleIsLeast(t *testing.T) {
	rng := seeded(t, 31)
	for i := range 400 {
		p := starOf(rng, Pt(5, -3), 30, 3+rng.IntN(40))
		d := EnclosingCircle(p)
		var touch []float64
		for _, s := range p {
			for k := 0; k <= 200; k++ {
				q := s.At(float64(k) / 200)
				e := q.Dist(d.Center)
				if e > d.Radius+1e-9 {
					t.Fatalf("case %d: %v lies %g outside", i, q, e-d.Radius)
				}
				if e > d.Radius-1e-3 {
					touch = append(touch, float64(q.Sub(d.Center).Angle()))
				}
			}
		}
		if g := widestGap(touch); g > math.Pi+0.05 {
			t.Errorf("case %d: nothing touches over %.4g rad, so that a smaller circle would do", i, g)
		}
	}
}

func widestGap(a []float64) float64 {
	g := 0.0
	for _, x := range a {
		next := 2 * math.Pi
		for _, y := range a {
			if d := math.Mod(y-x+4*math.Pi, 2*math.Pi); d > 1e-9 {
				next = math.Min(next, d)
			}
		}
		g = math.Max(g, next)
	}
	return g
}

func BenchmarkEnclosing266Arcs(b *testing.B) {
	p := outlineOf(Pt(0, 0), 200, 0.1, 266)
	b.ReportAllocs()
	for b.Loop() {
		EnclosingCircle(p)
	}
}
