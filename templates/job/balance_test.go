package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
)

const furnished = plain + `
[fretboard]
nut_width = 43
end_width = 57
[bridge]
kind = "fixed"
[body.edge]
roundover = 5
bearing = 9.5
[[body.contour]]
kind = "forearm"
y = -40
depth = 12
reach = 60
section = "round"
[[body.contour]]
kind = "belly"
y = 90
depth = 12
reach = 60
[[pickup]]
name = "tail"
kind = "humbucker"
at = 42
[[cavity]]
name = "control"
outline = [[66, -56], [114, -56], [114, 20], [66, 20]]
depth = 38
cover = {thickness = 2.5}
[[chamber]]
name = "bass"
outline = [[-110, 0], [-60, 0], [-60, 40], [-110, 40]]
cap = 12
depth = 20
`

// The wood of a whole body, with edges, bevels and cavities over one another,
// against counting voxels: volume and balance point to 0.1 %.
func TestWoodAgainstVoxels(t *testing.T) {
	j := must(t, furnished)
	type col struct {
		s     part.Solid
		index *geom.Index
	}
	var cut []col
	for _, p := range j.Parts {
		if p.Adds || p.Kind == part.Body {
			continue
		}
		for _, s := range p.Solids {
			cut = append(cut, col{s, geom.IndexOf(s.Plan)})
		}
	}
	outline := geom.IndexOf(j.Outline)
	box := j.Outline.Bounds()
	const step, dz = 1.0, 0.25
	n := int(j.Thickness / dz)
	var v, x, y, z float64
	gone := make([]bool, n)
	for px := box.Min.X + step/2; px < box.Max.X; px += step {
		for py := box.Min.Y + step/2; py < box.Max.Y; py += step {
			p := geom.Pt(px, py)
			if !outline.Contains(p) {
				continue
			}
			clear(gone)
			_, in := outline.Closest(p)
			if in < 5 { // the rounded edge: depth R − √(R² − (R − in)²)
				d := 5 - math.Sqrt(25-(5-in)*(5-in))
				for k := range n {
					if m := (float64(k) + 0.5) * dz; m < d || m > j.Thickness-d {
						gone[k] = true
					}
				}
			}
			for _, c := range cut {
				if c.index.Contains(p) {
					lo, hi := c.s.Top.At(p), c.s.Floor.At(p)
					for k := range n {
						if m := (float64(k) + 0.5) * dz; m > lo && m < hi {
							gone[k] = true
						}
					}
				}
			}
			for k := range n {
				if !gone[k] {
					v, x, y, z = v+1, x+px, y+py, z+(float64(k)+0.5)*dz
				}
			}
		}
	}
	want := part.Point{X: x / v, Y: y / v, Z: z / v}
	v *= step * step * dz
	// The closed forms take the whole rounded edge and the drilled holes; the
	// voxels take neither twice nor at all.
	got := j.Balance.Wood
	if off := math.Abs(got.V-v) / v; off > 1e-3 {
		t.Errorf("%.0f mm³, voxels %.0f: off by %.3f %%", got.V, v, 100*off)
	}
	if d := got.Centre().Dist(want); d > 0.4 { // 0.1 % of the body's length
		t.Errorf("balances at %v, voxels at %v", got.Centre(), want)
	}
	t.Logf("wood %.1f cm³, off by %.4f %%, centre off by %.3f mm", got.V/1000, 100*(got.V-v)/v, got.Centre().Dist(want))
}

// Heavier things move the balance point by their share; a chamber takes the
// weight of its wood.
func TestBalanceOfThings(t *testing.T) {
	a := must(t, furnished)
	b := must(t, furnished+"[[hardware]]\nname = \"lead\"\ngrams = 500\nat = [0, -100]\n")
	want := (a.Balance.At.Y*a.Balance.Mass - 500*100) / (a.Balance.Mass + 500)
	if math.Abs(b.Balance.At.Y-want) > 1e-9 || math.Abs(b.Balance.Mass-a.Balance.Mass-500) > 1e-9 {
		t.Errorf("balance %.4f, want %.4f", b.Balance.At.Y, want)
	}
	c := must(t, strings.Replace(furnished, "depth = 20", "depth = 10", 1))
	if gain := c.Balance.Mass - a.Balance.Mass; math.Abs(gain-10*chamberArea(a)*600e-6) > 1e-6 {
		t.Errorf("a chamber 10 mm shallower weighs %.3f g more, want %.3f", gain, 10*chamberArea(a)*600e-6)
	}
	// Weighed tuners stand in place of the guess.
	d := must(t, furnished+"[[hardware]]\nname = \"my tuners\"\ngrams = 210\nat = [0, 738]\nfor = \"tuners\"\n")
	if math.Abs(d.Balance.Mass-a.Balance.Mass) > 1e-9 {
		t.Errorf("weighed tuners of the guess's weight make %.3f g of %.3f", d.Balance.Mass, a.Balance.Mass)
	}
	l := must(t, strings.Replace(furnished, "units", "hand = \"left\"\nunits", 1))
	if math.Abs(l.Balance.At.X+a.Balance.At.X) > 1e-9 || l.Balance.Hang != a.Balance.Hang {
		t.Errorf("left-handed: balance %v, hangs %v; right %v, %v", l.Balance.At, l.Balance.Hang, a.Balance.At, a.Balance.Hang)
	}
}

func chamberArea(a interface{ OfKind(part.Kind) []part.Part }) float64 {
	return a.OfKind(part.Chamber)[0].Plan().Area()
}
