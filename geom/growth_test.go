package geom

import (
	"fmt"
	"testing"
)

// How the cost of the operations grows with the number of segments:
// go test ./geom -run xxx -bench Growth -benchmem
//
// The outline is that of bodyLoop: chords of a wavy oval of about 1.1 m round.
// Subtract takes twelve rounded rectangles out of it; Union joins it with its
// own image moved by 40 mm, as many segments again.
func BenchmarkGrowth(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000, 50_000, 200_000} {
		r := Region{bodyLoop(n)}
		cuts := roundedRects(12)
		moved := Translate(Vec{40, 0}).Region(r)
		var c Calc
		for _, op := range []struct {
			name string
			do   func()
		}{
			{"OffsetIn", func() { c.Offset(r, -8, Round) }},
			{"OffsetOut", func() { c.Offset(r, 8, Round) }},
			{"Subtract", func() { c.Subtract(r, cuts...) }},
			{"Union", func() { c.Union(r, moved) }},
			{"RegionContains", func() { r.Contains(Pt(31, 17)) }},
			{"Check", func() { _ = r.Check() }},
		} {
			b.Run(fmt.Sprintf("%s/%d", op.name, n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					op.do()
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/seg")
			})
		}
		if c.Err() != nil || c.Fallbacks > 0 {
			b.Fatal(c.Err(), c.Fallbacks)
		}
	}
}
