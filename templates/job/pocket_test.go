package job

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/part"
)

// A drill may lie in the neck pocket as deep as its floor is everywhere: at its
// shallow end, where the floor slopes with the neck.
func TestPocketVoid(t *testing.T) {
	// Floor 16 at y = 180, falling 0.03 a mm towards the head, 76 long.
	pocket := part.Part{Kind: part.Pocket, Group: "pocket", Solids: []part.Solid{{
		Plan: geom.Region{geom.Rect(geom.Pt(0, 218), 56, 76)}, Floor: part.Plane{Z: 16 - 180*0.03, DY: 0.03}}}}
	s := solver{Job: &Job{Parts: []part.Part{pocket}}, d: &design.Design{}}
	v, group, ok := s.drillVoid("pocket")
	if !ok || group != "pocket" || !v.Open || math.Abs(v.Floor-16) > 1e-9 || v.Mouth != geom.Pt(0, 256) {
		t.Errorf("%+v, %q, %v", v, group, ok)
	}
	if _, _, ok := (&solver{Job: &Job{}, d: &design.Design{}}).drillVoid("pocket"); ok {
		t.Error("a pocket where there is none")
	}
}
