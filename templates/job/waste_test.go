package job_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

// In every design: no hole nearer to the line than the margin, no point through the
// floor or into what is left under it, every middle in wood when its turn comes. The
// humbucker cavities lose 80 % and the control cavity of the demo 75 % with no more
// holes than two rows have.
func TestWasteOfAllDesigns(t *testing.T) {
	humbuckers := 0
	for name, j := range jobtest.Solved(t, "slab.toml", "weirhouse.toml") {
		for i, e := range j.Templates {
			d := j.DrillOut(i)
			edge := geom.IndexOf(e.For.Plan())
			for n, h := range d.Holes {
				if _, far := edge.Closest(h.At); !edge.Contains(h.At) || far-h.Drill.D/2 < cut.DrillMargin-1e-5 {
					t.Errorf("%s, %s: hole %d comes to %g of the line", name, e.ID, n+1, far-h.Drill.D/2)
				}
				if deep := h.Stop + h.Drill.Point; deep > j.CutDepth(e)-cut.DrillFloor+1e-9 || deep > j.Thickness+j.PlaneOff[e.For.Face]-cut.DrillFloor {
					t.Errorf("%s, %s: the point of hole %d goes %g deep", name, e.ID, n+1, deep)
				}
				for k, o := range d.Holes[:n] {
					if h.At.Dist(o.At) < o.Drill.D/2+cut.DrillSeat-1e-5 {
						t.Errorf("%s, %s: the point of hole %d stands in hole %d", name, e.ID, n+1, k+1)
					}
				}
			}
			if len(d.Holes) > 0 {
				t.Logf("%s, %s: %d holes take %.0f %%", name, e.ID, len(d.Holes), 100*d.Share)
			}
			b := e.For.Plan().Bounds()
			if e.For.Kind == part.Pickup && math.Min(b.W(), b.H()) > 40 && len(d.Holes) > 0 {
				humbuckers++
				if d.Share < 0.8 || len(d.Holes) > 10 {
					t.Errorf("%s, %s: %d holes take %.3f", name, e.ID, len(d.Holes), d.Share)
				}
			}
			if e.ID == "cavity-control" && (name == "slab.toml" || name == "millrace.toml") && (d.Share < 0.75 || len(d.Holes) > 9) {
				t.Errorf("%s, %s: %d holes take %.3f", name, e.ID, len(d.Holes), d.Share)
			}
		}
	}
	if humbuckers < 6 {
		t.Errorf("%d cavities of humbuckers", humbuckers)
	}
}

// A left-handed job is drilled as much as a right-handed one.
func TestWasteOfALeftHandedJob(t *testing.T) {
	shares := func(hand string) (out []float64) {
		src, err := os.ReadFile("../../testdata/slab.toml")
		if err != nil {
			t.Fatal(err)
		}
		j := solved(t, strings.Replace(string(src), "hand = \"right\"", "hand = \""+hand+"\"", 1))
		for i := range j.Templates {
			out = append(out, j.DrillOut(i).Share)
		}
		return out
	}
	right, left := shares("right"), shares("left")
	for i := range right {
		if math.Abs(right[i]-left[i]) > 0.015 {
			t.Errorf("template %d: %.3f, left-handed %.3f", i, right[i], left[i])
		}
	}
}

// What an earlier cut has taken is no waste: the legs of a pickup are drilled beside
// its cavity, and a cavity in a rebate is drilled from the rebate's floor.
func TestWasteAfterEarlierCuts(t *testing.T) {
	j := solved(t, hand+"[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = 42\ncorner = 6.4\ndepth = 18\nlegs = {depth = 24}\n")
	cavity := func(id string) (int, geom.Region) {
		for i, e := range j.Templates {
			if e.ID == id {
				return i, e.For.Plan()
			}
		}
		t.Fatalf("no %s", id)
		return 0, nil
	}
	_, plan := cavity("pickup-tail")
	legs, _ := cavity("pickup-tail-legs")
	for n, h := range j.DrillOut(legs).Holes {
		if plan.Contains(h.At) {
			t.Errorf("hole %d of the legs stands in the cavity", n+1)
		}
	}
	demo := jobtest.Solved(t, "slab.toml", "weirhouse.toml")["slab.toml"]
	for i, e := range demo.Templates {
		if d := demo.DrillOut(i); len(d.Holes) > 0 {
			want := 0.0
			if e.For.Kind == part.Cavity {
				for _, r := range demo.OfKind(part.Rebate) {
					want = r.Depth(demo.Thickness)
				}
			}
			if math.Abs(d.Start-want) > 1e-9 {
				t.Errorf("%s: the holes start %g below the face, want %g", e.ID, d.Start, want)
			}
		}
	}
}
