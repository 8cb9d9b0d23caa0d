package render

import (
	"testing"

	"routwright/geom"
)

// No seam runs through what is to be kept clear, though it cost a page: a strip
// with notches of 8 mm every 12 mm, as long as many pitches.
func TestSeamsKeepClear(t *testing.T) {
	for _, long := range []float64{300, 480, 530, 611, 780} {
		s := Sheet{ID: "strip", Title: "Strip", Groups: []Group{{ID: "g", Shapes: []Shape{{Path: geom.Rect(geom.Pt(0, long/2), 100, long)}}}}}
		for y := 10.0; y < long-10; y += 12 {
			s.Keep = append(s.Keep, geom.BoxOf(geom.Pt(-50, y-4), geom.Pt(-40, y+4)))
		}
		d, err := Layout(s, LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"A4", "Letter", "A3", "210 x 700 mm"} {
			paper, err := ParsePaper(name)
			if err != nil {
				t.Fatal(err)
			}
			ways, err := setups(d, paper, TileOptions{})
			if err != nil {
				t.Fatal(err)
			}
			across, up := profiles(d)
			var best *plan
			for _, w := range ways {
				if p := w.plan(d, across, up); best == nil || p.better(best) {
					best = p
				}
			}
			for _, k := range s.Keep {
				for _, y := range best.ys[1:] {
					if y > k.Min.Y && y < k.Max.Y {
						t.Errorf("%g mm on %s: a seam at %.1f crosses %v", long, name, y, k)
					}
				}
				for _, x := range best.xs[1:] {
					if x > k.Min.X && x < k.Max.X {
						t.Errorf("%g mm on %s: a seam at x %.1f crosses %v", long, name, x, k)
					}
				}
			}
			for i := 1; i < len(best.ys); i++ {
				if g := best.ys[i] - best.ys[i-1]; !(g > 0) || best.ys[i] >= d.Bounds.Max.Y {
					t.Errorf("%g mm on %s: pages start at %v", long, name, best.ys)
				}
			}
		}
	}
}
