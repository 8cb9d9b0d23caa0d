package geom

import (
	"fmt"
	"math/rand"
	"testing"
)

// BenchmarkOperations measures what the other benchmarks leave out, on a body of
// 266 arcs or what is named: go test ./geom -run xxx -bench Operations -benchmem
func BenchmarkOperations(b *testing.B) {
	body := Region{bodyArcs(266)}
	moved := Translate(Vec{70, 20}).Region(body)
	star := starRegion(rand.New(rand.NewSource(1)))
	square := Rect(Pt(0, 0), 40, 30)
	spline := NURBS{Degree: 3, Knots: []float64{0, 0, 0, 0, 1, 2, 2, 2, 2}, Points: []Point{{0, 0}, {30, 60}, {80, 20}, {90, -40}, {150, 0}}}
	knots := make([]Knot, 12)
	for i := range knots {
		knots[i].At = Pt(0, 0).Add((Angle(i) * 30 * Degree).Unit().Mul(100 + 20*float64(i%3)))
	}
	pockets := roundedRects(12)
	var c Calc
	for _, op := range []struct {
		name string
		do   func() error
	}{
		{"Union", func() error { c.Union(body, moved); return c.Err() }},
		{"Intersect", func() error { c.Intersect(body, moved); return c.Err() }},
		{"Xor", func() error { c.Xor(body, moved); return c.Err() }},
		{"OffsetPath", func() error { c.OffsetPath(body[0][:100], 3); return c.Err() }},
		{"OffsetMitre", func() error { c.Offset(star, 3, Mitre); return c.Err() }},
		{"Close", func() error { c.Close(body, 8); return c.Err() }},
		{"RollInside", func() error { c.RollInside(body, 8, 3); return c.Err() }},
		{"RollOutside", func() error { c.RollOutside(body, 8, 3); return c.Err() }},
		{"LargestClearing", func() error { LargestClearing(body); return nil }},
		{"TightestRadius", func() error { TightestRadius(body); return nil }},
		{"ClosePairs12", func() error { ClosePairs(pockets, 10); return nil }},
		{"PathDistance", func() error { PathDistance(body[0], moved[0]); return nil }},
		{"FilletAll4", func() error { _, err := square.FilletAll(5); return err }},
		{"Hobby12", func() error { _, err := Hobby(knots, true); return err }},
		{"FitSpline", func() error { _, err := FitCurve(spline, 0); return err }},
		{"FitEllipse", func() error { _, err := FitCurve(EllipticArc(Pt(0, 0), 80, 50, 0, 0, 6), 0); return err }},
	} {
		b.Run(op.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := op.do(); err != nil {
					b.Fatal(fmt.Errorf("%s: %w", op.name, err))
				}
			}
		})
	}
}
