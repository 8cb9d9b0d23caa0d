package drill_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/drill"
	"routwright/templates/part"
	"routwright/templates/space"
)

// From the neck pocket through the cavity of the neck pickup to that of the tail
// pickup: one hole that opens all four walls wholly and leaves the pocket's floor
// alone.
func TestThroughPickup(t *testing.T) {
	rect := func(y, w, h float64) geom.Region { return geom.Region{geom.RoundedRect(geom.Pt(0, y), w, h, 3)} }
	pocket := drill.Void{Name: "pocket", Plan: rect(218, 56, 76), Floor: 15, Open: true, Mouth: geom.Pt(0, 256)}
	neck := drill.Void{Name: "neck", Plan: rect(155, 74, 22), Floor: 17}
	tail := drill.Void{Name: "tail", Plan: rect(42, 72, 41), Floor: 19}
	post := part.Part{Kind: part.Post, Bores: []part.Bore{part.Down(geom.Pt(0, 90), part.Front, 25, 10, 45, "post")}}
	r := drill.Rules{Thickness: 45, D: 6, Length: 300, Chuck: 35, Stop: 3, Warn: 5, Through: []drill.Void{neck},
		Edge:      space.NewEdge(rect(80, 320, 400), 45, space.Profile{}, space.Profile{}),
		Obstacles: []drill.Obstacle{{Body: space.Of(post), Stop: 3, Warn: 5}}}
	p, ok := drill.Find(pocket, tail, r)
	if !ok || p.Back {
		t.Fatalf("no path from the pocket: %+v", p)
	}
	half := 3 / math.Cos(float64(p.Fall()))
	at := func(what string, v drill.Void, s float64) {
		if z := p.DepthAt(s); z-half < v.Top-1e-9 || z+half > v.Floor+1e-9 {
			t.Errorf("%s: axis %.3f deep in a wall from %g to %g", what, z, v.Top, v.Floor)
		}
	}
	near, far, ok := p.Crosses(neck)
	if !ok || far-near < 22 {
		t.Fatalf("passes the neck pickup by: %g to %g", near, far)
	}
	at("pocket", pocket, 0)
	at("neck, in", neck, near)
	at("neck, out", neck, far)
	at("tail", tail, p.Run())
	if d := geom.Line(p.From.Flat(), p.To.Flat()).Closest(geom.Pt(0, 90)).Dist(geom.Pt(0, 90)); d < 5+5+3-1e-6 {
		t.Errorf("%.3f mm from the post's middle", d)
	}
	// A neck cavity too shallow for the drill: no path.
	r.Through[0].Floor = 5
	if _, ok := drill.Find(pocket, tail, r); ok {
		t.Error("a hole of 6 opens a wall of 5 wholly")
	}
}
