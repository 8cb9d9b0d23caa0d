package render

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"routwright/geom"
)

// The length of all hatch lines times their pitch is the area (Cavalieri), and
// every line lies inside: checked on shapes whose area is a closed form.
func TestHatchCoversTheRegion(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := geom.Pt(rapid.Float64Range(-300, 300).Draw(rt, "x"), rapid.Float64Range(-300, 300).Draw(rt, "y"))
		w, h := rapid.Float64Range(20, 400).Draw(rt, "w"), rapid.Float64Range(20, 400).Draw(rt, "h")
		r := rapid.Float64Range(0, 9.9).Draw(rt, "r")
		region := geom.Region{geom.RoundedRect(c, w, h, r), geom.Circle(c, 7).Reversed()}
		u := (45 * geom.Degree).Unit()
		var sum float64
		for _, row := range hatchRows(region, u, u.Left()) {
			for i := 0; i+1 < len(row.ts); i += 2 {
				l := row.ts[i+1] - row.ts[i]
				sum += l * hatchPitch
				m := row.o.Add(u.Mul((row.ts[i] + row.ts[i+1]) / 2)).Sub(c)
				if math.Abs(m.X) > w/2+1e-9 || math.Abs(m.Y) > h/2+1e-9 || m.Len() < 7-1e-9 { // a row may be tangent
					rt.Fatalf("a hatch line runs outside at %v", m)
				}
			}
		}
		// Midpoint rule across the hatching: off by at most one line of the width.
		if want := region.Area(); math.Abs(sum-want) > 2*hatchPitch*math.Sqrt2*math.Min(w, h) {
			rt.Fatalf("hatched %.1f mm², want %.1f", sum, want)
		}
	})
}

// A line through the very corner and along the very edge.
func TestHatchThroughCorners(t *testing.T) {
	u := (45 * geom.Degree).Unit()
	for _, p := range []geom.Path{
		geom.Polygon(geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(50, 50), geom.Pt(0, 50)),
		geom.Polygon(geom.Pt(0, 0), geom.Pt(50, -50), geom.Pt(100, 0), geom.Pt(50, 50)),
		geom.RoundedRect(geom.Pt(0, 0), 40, 40, 20),
		geom.Circle(geom.Pt(0, 0), hatchPitch*4),
	} {
		rows := hatchRows(geom.Region{p}, u, u.Left())
		var sum float64
		for _, row := range rows {
			for i := 0; i+1 < len(row.ts); i += 2 {
				sum += (row.ts[i+1] - row.ts[i]) * hatchPitch
			}
		}
		if a := p.Area(); math.Abs(sum-a) > 0.1*a {
			t.Errorf("%v: hatched %.1f mm², want about %.1f", p.Bounds(), sum, a)
		}
	}
}
