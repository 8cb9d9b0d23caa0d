package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
)

// Whatever follows the rails, the cut between them is the pocket, and the rails are
// as long as the pocket and the router's base ask for.
func TestRailsMakeThePocket(t *testing.T) {
	const rack = `
[router]
base = 160
[[bit]]
name = "own"
d = 12.7
cut = 19
shank = 12.7
bearing = {d = 12.7, height = 5}
[[bit]]
name = "wide"
d = 12.7
cut = 30
shank = 12.7
bearing = {d = 15.9, height = 5}
[[bit]]
name = "spiral"
d = 8
cut = 32
shank = 8
[[bush]]
name = "large"
d = 20
reach = 8
`
	for _, c := range []struct {
		cut  string
		shim float64
	}{{`{bit = "own", drill = true}`, 0.1}, {`{bit = "wide", drill = true}`, 0.1 + 1.6}, {`{bit = "spiral", bush = "large"}`, 0.1 + 6}} {
		j := must(t, strings.Replace(withNeck, "corner = 6.35\n", "corner = 6.35\ncut = "+c.cut+"\n", 1)+rack)
		r, ok, err := j.Rails()
		if err != nil || !ok {
			t.Fatalf("%s: %v, %v", c.cut, ok, err)
		}
		if !r.Proof.Left.Empty() || !r.Proof.Lost.Empty() {
			t.Errorf("%s: %.3f mm² left, %.3f lost", c.cut, r.Proof.Left.Area(), r.Proof.Lost.Area())
		}
		if math.Abs(r.Shim-c.shim) > 1e-9 {
			t.Errorf("%s: shims of %g mm, want %g", c.cut, r.Shim, c.shim)
		}
		// By hand: the rail's edge lies the shim from the heel's side.
		n := j.Neck
		side := geom.Pt(n.Heel.End/2+r.Shim, n.Pocket.EndY+0.001)
		if _, d := geom.IndexOf(geom.Region{r.Pieces[1]}).Closest(side); d > 0.01 {
			t.Errorf("%s: the rail stands %.4f mm from heel and shim", c.cut, d)
		}
		if l := r.Pieces[0].Bounds().H(); l < n.Pocket.Length+160 {
			t.Errorf("%s: rails of %.1f mm for a pocket of %.1f", c.cut, l, n.Pocket.Length)
		}
		for i, p := range r.Pieces {
			for _, q := range r.Pieces[:i] {
				var calc geom.Calc
				if a := calc.Intersect(geom.Region{p}, geom.Region{q}).Area(); a > 1e-6 {
					t.Errorf("%s: two pieces lie on each other by %g mm²", c.cut, a)
				}
			}
		}
		if pk := j.OfKind(part.Pocket); len(pk) != 1 {
			t.Errorf("%d pockets", len(pk))
		}
	}
}
