package job_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

func partOf(t *testing.T, j *job.Job, id string) part.Part {
	t.Helper()
	p, ok := j.PartByID(id)
	if !ok {
		t.Fatalf("no part %s", id)
	}
	return p
}

// The cover lies in its rebate with its gap all round, over its cavity; the
// ledge is as wide as asked, and 10 at each screw.
func TestCoverInRebate(t *testing.T) {
	j := jobtest.File(t, "weirhouse.toml")
	cavity, rebate, lid, screws := partOf(t, j, "cavity-control"), partOf(t, j, "rebate-control"), partOf(t, j, "cover-control"), partOf(t, j, "screws-control")
	if d, _, _ := geom.PathDistance(lid.Plan()[0], rebate.Plan()[0]); math.Abs(d-0.3) > 1e-5 {
		t.Errorf("gap of %.5f, want 0.3", d)
	}
	// A gap that is the same all round: the rebate is the cover grown by it.
	var c geom.Calc
	if off := c.Xor(c.Offset(lid.Plan(), 0.3, geom.Round), rebate.Plan()).Area(); off > geom.Budget || c.Err() != nil {
		t.Errorf("the gap varies: %.4f mm² off, %v", off, c.Err())
	}
	if d, _, _ := geom.PathDistance(cavity.Plan()[0], rebate.Plan()[0]); math.Abs(d-6) > 1e-5 {
		t.Errorf("ledge of %.5f, want 6", d)
	}
	edge, wall := geom.IndexOf(rebate.Plan()), geom.IndexOf(cavity.Plan())
	for i, b := range screws.Bores {
		_, in := wall.Closest(b.From.Flat())
		_, out := edge.Closest(b.From.Flat())
		if in+out < 10-1e-6 || math.Abs(in-5) > 0.01 {
			t.Errorf("screw %d: %.3f from the cavity, %.3f from the rebate's edge", i+1, in, out)
		}
		// 44.5 less the cover's 2.5 and 0.1 more; 12.7 less 2.5 in the wood.
		if math.Abs(b.From.Z-41.9) > 1e-9 || math.Abs(b.Length()-10.2) > 1e-9 || b.D != 2 {
			t.Errorf("screw %d: %+v", i+1, b)
		}
		if h := lid.Bores[i]; h.From.Flat() != b.From.Flat() || h.D != 2.8 || math.Abs(h.Length()-2.5) > 1e-9 {
			t.Errorf("hole %d of the cover: %+v", i+1, h)
		}
	}
}

// A cover at hand fixes its rebate, its corners no tighter than the bit's.
func TestCoverAtHand(t *testing.T) {
	j := jobtest.File(t, "weirhouse.toml")
	rebate, lid := partOf(t, j, "rebate-switch"), partOf(t, j, "cover-switch")
	var c geom.Calc
	if off := c.Xor(c.Offset(lid.Plan(), 0.3, geom.Round), rebate.Plan()).Area(); off > geom.Budget {
		t.Errorf("rebate off by %.4f mm²", off)
	}
	j = jobtest.File(t, "weirhouse.toml", "corner = 7\nscrew", "corner = 1\nscrew")
	if in, _ := geom.TightestRadius(partOf(t, j, "rebate-switch").Plan()); math.Abs(in.Radius-3) > 1e-3 {
		t.Errorf("corners of radius %.4f, want the bit's 3", in.Radius)
	}
	for _, e := range j.Templates {
		if e.For.ID == "cover-switch" {
			t.Error("a template for a cover that is made already")
		}
	}
}

// The wood over a control: what the cavity leaves, or what its thread bears.
func TestWoodOverControls(t *testing.T) {
	j := jobtest.File(t, "weirhouse.toml")
	want := map[string]float64{"volume": 6.5, "tone": 6.5, "blend": 4, "selector": 6.5} // mini pot: thread 7 less 3
	for _, c := range j.Controls {
		if math.Abs(c.Wood-want[c.Name]) > 1e-9 {
			t.Errorf("%s: %g mm of wood, want %g", c, c.Wood, want[c.Name])
		}
	}
	seat := partOf(t, j, "seat-blend")
	if b := seat.Bores[0]; b.D != 22 || math.Abs(b.Length()-40.5) > 1e-9 || b.From.Z != 44.5 {
		t.Errorf("seat %+v", b)
	}
	for _, b := range partOf(t, j, "shafts-control").Bores {
		if wood := want[strings.TrimSuffix(b.Words, " shaft")]; math.Abs(b.Length()-wood) > 1e-9 || b.From.Z != 0 {
			t.Errorf("%s: %+v, want %g deep", b.Words, b, wood)
		}
	}
	slot := partOf(t, j, "slot-selector")
	if b := slot.Plan().Bounds(); math.Abs(b.H()-36) > 1e-9 || math.Abs(b.W()-2) > 1e-9 { // 34 between the ends' middles
		t.Errorf("slot of %g × %g", b.W(), b.H())
	}
	if d := slot.Bores[0].From.Flat().Dist(slot.Bores[1].From.Flat()); math.Abs(d-41.5) > 1e-9 {
		t.Errorf("screws %g apart", d)
	}
}

// Left-handed is the mirror image, controls, seats and screws too.
func TestControlsMirrored(t *testing.T) {
	right, left := jobtest.File(t, "weirhouse.toml"), jobtest.File(t, "weirhouse.toml", "units = \"mm\"", "units = \"mm\"\nhand = \"left\"")
	m := geom.MirrorX()
	near := cmpopts.EquateApprox(0, 1e-9)
	for i, c := range right.Controls {
		c.At, c.Body, c.Knob = m.Point(c.At), m.Region(c.Body), m.Region(c.Knob)
		l := left.Controls[i]
		c.Pos, l.Pos = design.Pos{}, design.Pos{}
		if d := cmp.Diff(c, l, near); d != "" {
			t.Error(d)
		}
	}
	for i, p := range right.Parts {
		l := left.Parts[i]
		for k, b := range p.Bores {
			if q := l.Bores[k]; math.Abs(b.From.X+q.From.X) > 1e-9 || b.From.Y != q.From.Y || b.From.Z != q.From.Z || b.D != q.D {
				t.Errorf("%s: bore %+v and %+v", p.ID, b, q)
			}
		}
	}
}

// The wood under a screw ends at the first void beside its axis, or at the front.
func TestWoodUnder(t *testing.T) {
	j := jobtest.File(t, "weirhouse.toml")
	for _, tt := range []struct {
		x, y float64
		want float64
		by   string
	}{
		{0, -80, 41.9, ""},                   // nothing there
		{0, 42, 41.9 - 19, "tail"},           // over the tail pickup
		{36.25 + 1.9, 42, 41.9 - 19, "tail"}, // just beside it: 71/2 + 0.75
		{36.25 + 2.1, 42, 41.9, ""},          // clear of it
		{78, -40, 0, "control"},              // over the cavity
		{-118, 15 + 41.5/2, 0, "switch"},     // over the other cavity
		{78 + 17.5 + 6 + 2.5, -62, 41.9, ""}, // clear of the rebate
	} {
		got, by := j.WoodUnder(geom.Pt(tt.x, tt.y), 41.9, 2, "")
		name := ""
		if by != nil {
			name = by.Name
		}
		if math.Abs(got-tt.want) > 1e-9 || name != tt.by {
			t.Errorf("x %g, y %g: %g over %q, want %g over %q", tt.x, tt.y, got, name, tt.want, tt.by)
		}
	}
}
