package cut_test

import (
	"math"
	"testing"

	"routwright/templates/cut"
	"routwright/templates/tool"
)

// A router's base rides on the template, so that a cut of 13 under 18 mm of template is
// set to 31 (geometry). With a cutter of 19 and a bearing 5 high, the bearing's upper
// edge passes below the face when the tip is deeper than 24: from then on the template
// may come off.
func TestSetting(t *testing.T) {
	pattern := tool.Tool{Cutter: 12.7, Follower: 12.7, Length: 19, Height: 5}
	r := cut.Plan(pattern, 38, 18)
	if got := r.Setting(r.Wanted); got != 56 {
		t.Errorf("setting %g, want 56", got)
	}
	n := r.TemplateOff()
	if n < 1 || n >= len(r.Passes) {
		t.Fatalf("the template comes off after pass %d of %d", n, len(r.Passes))
	}
	for i, p := range r.Passes {
		if off := p.Depth > 24; off != (i >= n) {
			t.Errorf("pass %d at %g mm: the template is off %v", i+1, p.Depth, i >= n)
		}
	}
	if n := cut.Plan(pattern, 18, 18).TemplateOff(); n != 0 {
		t.Errorf("of a cut of 18 mm the template comes off after pass %d", n)
	}
	if got := cut.Plan(tool.Tool{Cutter: 6, Guide: tool.Free}, 10, 0).Setting(10); got != 10 {
		t.Errorf("a free path is set to %g, want 10", got)
	}
}

// A trimmed edge is cut past its lower face, or as deep as the bearing asks for on the
// template: 19 − (18 − 5) = 6 for a piece of 2.5.
func TestTrim(t *testing.T) {
	pattern := tool.Tool{Cutter: 12.7, Follower: 12.7, Length: 19, Height: 5}
	for _, c := range []struct{ thick, want float64 }{{2.5, 6}, {14.5, 15.5}, {44.5, 45.5}} {
		r := cut.Trim(pattern, c.thick, 18)
		last := r.Passes[len(r.Passes)-1].Depth
		if r.Problem != "" || math.Abs(last-c.want) > 1e-9 {
			t.Errorf("%g mm thick: %s, the last pass %g deep, want %g", c.thick, r.Problem, last, c.want)
		}
		for _, p := range r.Passes {
			if p.Bite > math.Max(pattern.Cutter/2, r.FirstBite)+1e-9 {
				t.Errorf("%g mm thick: a bite of %g", c.thick, p.Bite)
			}
		}
	}
}
