package part_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
)

func pocket(at geom.Point, turn geom.Angle, depth float64) part.Part {
	return part.Part{Name: "p", Kind: part.Pickup, Solids: []part.Solid{{
		Plan: geom.Pose(at, turn).Region(geom.Region{geom.RoundedRect(geom.Pt(0, 0), 72, 40, 6)}), Floor: part.Level(depth)}}}
}

// A part that is moved and made deeper differs by just that, either way round.
func TestDifferMoved(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for i := range 100 {
		at, turn := geom.Pt(rng.Float64()*200-100, rng.Float64()*200-100), geom.Angle(rng.Float64()*6)
		v, deep := geom.Vec{X: rng.Float64()*6 - 3, Y: rng.Float64()*6 - 3}, rng.Float64()*4-2
		a, b := pocket(at, turn, 19), pocket(at.Add(v), turn, 19+deep)
		for _, p := range [][2]part.Part{{a, b}, {b, a}} {
			cs := part.Differ(p[0], p[1])
			if len(cs) != 2 || cs[0].What != part.Edge || cs[1].What != part.Depth {
				t.Fatalf("case %d: %+v", i, cs)
			}
			if d := cs[0].By; d > v.Len()+1e-9 || d < v.Len()-geom.FarSlack || math.Abs(cs[1].By-math.Abs(deep)) > 1e-12 {
				t.Errorf("case %d: moved by %g and %g, told %g and %g", i, v.Len(), deep, d, cs[1].By)
			}
		}
		if cs := part.Differ(a, a); len(cs) > 0 {
			t.Errorf("case %d: from itself %+v", i, cs)
		}
	}
}

func TestDiffer(t *testing.T) {
	bore := func(x, d float64, words string) part.Bore {
		return part.Down(geom.Pt(x, 0), part.Front, 20, d, 45, words)
	}
	holes := func(bs ...part.Bore) part.Part { return part.Part{Name: "h", Kind: part.Screw, Bores: bs} }
	row := holes(bore(0, 3, "a"), bore(10, 3, "a"), bore(20, 5, "b"))
	slope := pocket(geom.Pt(0, 0), 0, 19)
	slope.Solids[0].Floor = part.Plane{Z: 19, DY: 0.05} // 1 mm over the 20 mm to the upper edge
	two := pocket(geom.Pt(0, 0), 0, 19)
	two.Solids = append(two.Solids, two.Solids[0])
	for _, tt := range []struct {
		name    string
		was, is part.Part
		want    []string
	}{
		{"the same", row, row, nil},
		{"in another order", row, holes(bore(20, 5, "b"), bore(10, 3, "a"), bore(0, 3, "a")), nil},
		{"one moved", row, holes(bore(0, 3, "a"), bore(10.5, 3, "a"), bore(20, 5, "b")), []string{"hole moved by up to 0.5 mm, at x 10.5, y 0"}},
		{"one wider", row, holes(bore(0, 3, "a"), bore(10, 4, "a"), bore(20, 5, "b")), []string{"drill of 4 in place of 3 mm, at x 10, y 0"}},
		{"one more", row, holes(bore(0, 3, "a"), bore(10, 3, "a"), bore(20, 5, "b"), bore(30, 3, "a")), []string{"4 holes in place of 3"}},
		{"one less", row, holes(bore(0, 3, "a"), bore(20, 5, "b")), []string{"2 holes in place of 3"}},
		{"for another screw", row, holes(bore(0, 3, "a"), bore(10, 3, "c"), bore(20, 5, "b")), nil},
		{"sloped", pocket(geom.Pt(0, 0), 0, 19), slope, []string{"depth 18 in place of 19 mm, at x "}},
		{"in two surfaces", pocket(geom.Pt(0, 0), 0, 19), two, []string{"2 surfaces in place of 1"}},
		{"nothing left of it", pocket(geom.Pt(0, 0), 0, 19), part.Part{}, []string{"edge drawn anew", "0 surfaces in place of 1"}},
	} {
		cs := part.Differ(tt.was, tt.is)
		if len(cs) != len(tt.want) {
			t.Errorf("%s: %+v, want %v", tt.name, cs, tt.want)
			continue
		}
		for i, c := range cs {
			if w := c.Words(part.Front, 45); !strings.HasPrefix(w, tt.want[i]) {
				t.Errorf("%s: %s, want %s", tt.name, w, tt.want[i])
			}
		}
	}
	// Depths of the back are counted from the back.
	c := part.Change{What: part.Depth, By: 1, Was: 7, Is: 6}
	if w := c.Words(part.Back, 45); !strings.HasPrefix(w, "depth 39 in place of 38 mm") {
		t.Error(w)
	}
}
