package cut_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/tool"
)

var set = []tool.Drill{
	{Kind: tool.Forstner, D: 16, Length: 60, Point: 3}, {Kind: tool.Forstner, D: 25, Length: 60, Point: 3},
	{Kind: tool.Forstner, D: 35, Length: 20, Point: 4}, {Kind: tool.Twist, D: 3, Length: 60, Point: 0.9},
}

// Every hole stays the margin inside the line and its point above the floor; the
// share is what a fine grid of points counts; no drill is used that is too short.
func TestDrillWaste(t *testing.T) {
	for _, tt := range []struct {
		name  string
		plan  geom.Region
		depth float64
		least float64 // share
	}{
		{"pickup", geom.Region{geom.RoundedRect(geom.Pt(20, 30), 72.7, 41.3, 6.35)}, 19, 0.7},
		{"deep", geom.Region{geom.RoundedRect(geom.Pt(0, 0), 92, 40, 6)}, 38, 0.7},
		{"key", geom.Region{geom.Polygon(geom.Pt(-30, -13), geom.Pt(0, -6.5), geom.Pt(30, -13), geom.Pt(30, 13), geom.Pt(0, 6.5), geom.Pt(-30, 13))}, 12, 0.35},
	} {
		d := cut.DrillWaste(tt.plan, tt.depth, set)
		if len(d.Holes) == 0 || d.Share < tt.least {
			t.Errorf("%s: %d holes take %.2f", tt.name, len(d.Holes), d.Share)
		}
		edge := geom.IndexOf(tt.plan)
		for _, h := range d.Holes {
			_, e := edge.Closest(h.At)
			if !edge.Contains(h.At) || e-h.Drill.D/2 < cut.DrillMargin-1e-6 {
				t.Errorf("%s: a hole of %g at %v comes to %g of the line", tt.name, h.Drill.D, h.At, e-h.Drill.D/2)
			}
			if h.Stop+h.Drill.Point > tt.depth-0.5+1e-9 || h.Stop < tt.depth-h.Drill.Point-0.6-1e-9 {
				t.Errorf("%s: stop at %g with a point of %g in a depth of %g", tt.name, h.Stop, h.Drill.Point, tt.depth)
			}
			if h.Drill.Length < h.Stop || h.Drill.D < 6 {
				t.Errorf("%s: drill %v", tt.name, h.Drill)
			}
		}
		in, all := 0, 0
		b := tt.plan.Bounds()
		for x := b.Min.X; x < b.Max.X; x += 0.2 {
			for y := b.Min.Y; y < b.Max.Y; y += 0.2 {
				p := geom.Pt(x, y)
				if !edge.Contains(p) {
					continue
				}
				all++
				for _, h := range d.Holes {
					if h.At.Dist(p) <= h.Drill.D/2 {
						in++
						break
					}
				}
			}
		}
		if got := float64(in) / float64(all); math.Abs(got-d.Share) > 5e-3 {
			t.Errorf("%s: share %.4f, counted %.4f", tt.name, d.Share, got)
		}
	}
}

// Where drilling helps nothing there are no holes: too shallow for the point, too
// narrow for any drill, no drill at hand.
func TestNoDrillWaste(t *testing.T) {
	wide := geom.Region{geom.Rect(geom.Pt(0, 0), 80, 50)}
	for name, d := range map[string]cut.DrillOut{
		"shallow":  cut.DrillWaste(wide, 5, set),
		"narrow":   cut.DrillWaste(geom.Region{geom.Rect(geom.Pt(0, 0), 80, 12)}, 20, set),
		"no drill": cut.DrillWaste(wide, 20, nil),
		"no plan":  cut.DrillWaste(nil, 20, set),
	} {
		if len(d.Holes) > 0 || d.Share != 0 {
			t.Errorf("%s: %+v", name, d)
		}
	}
}
