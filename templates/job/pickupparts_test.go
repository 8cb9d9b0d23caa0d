package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
)

const legged = withNeck + `
[[pickup]]
name = "tail"
kind = "humbucker"
at = 42
slant = 10
length = 71
width = 40
room = 0.75
depth = 19
corner = 6.35
legs = {length = 88, width = 18, depth = 24.5}
screws = [[-40, 0], [40, 0]]
screw = {gauge = 4, length = 12}
cut = {bit = "small", drill = true}
[[bit]]
name = "small"
d = 6.35
cut = 12
shank = 6.35
bearing = {d = 6.35, height = 4}
`

// The legs of a pickup get a recess of their own depth, turned with it, with a
// template and a proof; its screws stand on the floor of that recess.
func TestLegsAndScrewsOfAPickup(t *testing.T) {
	j := must(t, legged)
	var legs, screws *part.Part
	for i := range j.Parts {
		switch p := &j.Parts[i]; {
		case p.Kind == part.Pickup && strings.HasSuffix(p.Name, "legs"):
			legs = p
		case p.Kind == part.Screw && p.Group == "pickup tail":
			screws = p
		}
	}
	if legs == nil || screws == nil {
		t.Fatal("no legs, or no screws")
	}
	if d := legs.Depth(j.Thickness); d != 24.5 {
		t.Errorf("the legs' recess is %g mm deep", d)
	}
	back := geom.Rotate(10 * geom.Degree).Region(geom.Translate(geom.Vec{Y: -42}).Region(legs.Plan())) // positive slant turns clockwise
	if b := back.Bounds(); math.Abs(b.W()-89.5) > 1e-6 || math.Abs(b.H()-19.5) > 1e-6 {
		t.Errorf("the recess measures %.4f × %.4f mm, want 89.5 × 19.5", b.W(), b.H())
	}
	for i, q := range j.Templates {
		if q.ID == legs.ID && (!j.Proofs[i].Left.Empty() || !j.Proofs[i].Lost.Empty()) {
			t.Errorf("the recess is not cut true")
		}
	}
	sin, cos := math.Sincos(10 * math.Pi / 180)
	for i, x := range []float64{-40, 40} {
		b := screws.Bores[i]
		if want := (part.Point{X: x * cos, Y: 42 - x*sin, Z: 24.5}); b.From.Dist(want) > 1e-9 || math.Abs(b.To.Z-36.5) > 1e-9 {
			t.Errorf("screw %d from %+v to %g deep, want from %+v", i+1, b.From, b.To.Z, want)
		}
	}
	left := must(t, strings.Replace(legged, "design = 1", "design = 1\nhand = \"left\"", 1))
	if a, b := left.OfKind(part.Screw), j.OfKind(part.Screw); len(a) != len(b) {
		t.Errorf("left-handed: %d screws of %d", len(a), len(b))
	}
}

func TestPickupErrors(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"legs = {length = 88", "legs = {length = 70", "pickup 1.legs.length: 70 mm over the legs"},
		{"gauge = 4, length = 12", "gauge = 4, length = 30", "pickup 1.screw.length: 30 mm from 24.5 mm deep"},
		{"gauge = 4, length = 12", "gauge = 13, length = 12", "pickup 1.screw.gauge: 13"},
		{"[bridge.posts]", "[bridge.tailpiece]\ndepth = 50\n[bridge.posts]", "bridge.tailpiece.depth: 50 mm in a body of 45 mm"},
		{"kind = \"two-post\"", "kind = \"fixed\"\nscrews = [[0, -40]]\nscrew = {length = 60}", "bridge.screw.length: 60 mm in a body of 45 mm"},
	} {
		if !strings.Contains(legged, c.old) {
			t.Fatalf("no %q", c.old)
		}
		_, err := solve(t, strings.Replace(legged, c.old, c.new, 1))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v\nwant %s", c.new, err, c.want)
		}
	}
}
