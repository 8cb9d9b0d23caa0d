package geom

import (
	"fmt"
	"testing"
)

// How the cost grows from 100 to 200,000 segments:
// go test ./geom -run xxx -bench ReachGrowth -benchmem
func BenchmarkReachGrowth(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000, 50_000, 200_000} {
		p := chordsOf(Pt(0, 0), 200, 0.1, n)
		r, far := Region{p}, Region{Translate(Vec{480, 30}).Path(p)}
		idx := IndexOf(r)
		for _, op := range []struct {
			name string
			do   func()
		}{
			{"Moments", func() { r.Moments() }},
			{"IndexOf", func() { IndexOf(r) }},
			{"Contains", func() { idx.Contains(Pt(31, 17)) }},
			{"Closest", func() { idx.Closest(Pt(131, 117)) }},
			{"Distance", func() { Distance(r, far) }},
			{"LeastWall", func() { LeastWall(r) }},
			{"InscribedCircle", func() { InscribedCircle(r) }},
			{"EnclosingCircle", func() { EnclosingCircle(p) }},
		} {
			b.Run(fmt.Sprintf("%s/%d", op.name, n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					op.do()
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/seg")
			})
		}
	}
}
