package drill_test

import (
	"math/rand/v2"
	"testing"

	"routwright/templates/drill"
)

func BenchmarkFind(b *testing.B) {
	rng := rand.New(rand.NewPCG(8, 3))
	var ls []layout
	for range 40 {
		ls = append(ls, randomLayout(rng))
	}
	for b.Loop() {
		for _, l := range ls {
			drill.Find(l.a, l.b, l.rules)
		}
	}
}
