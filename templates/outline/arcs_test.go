package outline

import (
	"math"
	"testing"

	"routwright/geom"
)

// An outline of 1.45 m takes at most 240 arcs within a thousandth of a millimetre;
// the number goes with the cube root of the size.
func TestArcsOfOutlines(t *testing.T) {
	const tol = 1e-3
	for _, f := range families {
		m, _, _ := f.measures(nil)
		p, err := geom.FitCubics(f.build(m), tol)
		if err != nil {
			t.Fatal(err)
		}
		n := float64(len(p)) * math.Cbrt(1450/p.Length())
		t.Logf("%s: %d arcs, %.0f mm; at 1450 mm %.0f", f.Name, len(p), p.Length(), n)
		if n > 240 {
			t.Errorf("%s: %.0f arcs at 1450 mm, want 240 at most", f.Name, n)
		}
	}
}
