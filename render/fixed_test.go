package render_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"routwright/render"
)

// AppendFixed writes what the standard library writes: numbers of any size, halves
// and their neighbours, zeros of both signs, what is no number.
func TestAppendFixedAgainstStrconv(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 9))
	check := func(v float64) {
		for d := range 10 {
			got, want := string(render.AppendFixed([]byte("x"), v, d)), "x"+strconv.FormatFloat(v, 'f', d, 64)
			if got != want {
				t.Fatalf("%b with %d decimals: %s, want %s", v, d, got, want)
			}
		}
	}
	for _, v := range []float64{0, math.Copysign(0, -1), 0.5, 1.5, 2.5, 0.05, 0.15, 0.25, 1e-9, -1e-9, 0.99999, 9.999999999, 999999.9999995,
		1e14, 1e15, 1e16, 1e22, 1e300, math.MaxFloat64, math.SmallestNonzeroFloat64, math.Inf(1), math.Inf(-1), math.NaN()} {
		check(v)
		check(-v)
	}
	for range 200_000 {
		v := (rnd.Float64() - 0.5) * math.Pow(10, float64(rnd.IntN(12)))
		switch rnd.IntN(4) {
		case 0: // a half of some decimal, or next to it
			p := math.Pow(10, float64(rnd.IntN(10)))
			v = (math.Floor(v*p) + 0.5) / p
			if n := rnd.IntN(3); n > 0 {
				v = math.Nextafter(v, math.Inf(2*n-3))
			}
		case 1:
			v = math.Float64frombits(rnd.Uint64())
		}
		check(v)
	}
}

func BenchmarkAppendFixed(b *testing.B) {
	var buf [32]byte
	b.Run("fixed", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			render.AppendFixed(buf[:0], float64(i)*1.2345678, 5)
		}
	})
	b.Run("strconv", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			strconv.AppendFloat(buf[:0], float64(i)*1.2345678, 'f', 5, 64)
		}
	})
}
