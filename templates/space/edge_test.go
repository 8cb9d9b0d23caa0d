package space_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
	"routwright/templates/space"
)

// A square of 200 and 45 thick; what lies in it is measured against its left
// side, x = −100.
func edgeOf(front, back space.Profile) *space.Edge {
	return space.NewEdge(geom.Region{geom.Rect(geom.Pt(0, 0), 200, 200)}, 45, front, back)
}

// Closed forms: straight walls; beside a quarter round of radius R about (R, R)
// the wall of a point is R less its distance from the centre, and from a cavity
// that opens at the face it is what the round leaves of the face.
func TestEdgeClosedForms(t *testing.T) {
	solid := func(in float64, top, floor part.Plane) part.Part {
		return part.Part{Solids: []part.Solid{{Plan: geom.Region{geom.Rect(geom.Pt(-100+in+10, 0), 20, 20)}, Top: top, Floor: floor}}}
	}
	bore := func(in, z0, z1, d float64) part.Part {
		return part.Part{Bores: []part.Bore{{From: part.Point{X: -100 + in, Y: -20, Z: z0}, To: part.Point{X: -100 + in, Y: 20, Z: z1}, D: d}}}
	}
	l := part.Level
	sq, r4, c4 := space.Profile{}, space.Profile{Roundover: 4}, space.Profile{Chamfer: 4}
	for _, tt := range []struct {
		what        string
		front, back space.Profile
		p           part.Part
		want        float64
	}{
		{"square edge", sq, sq, solid(7, l(0), l(20)), 7},
		{"open at a rounded face", r4, sq, solid(7, l(0), l(20)), 3},
		{"open at the other face", r4, sq, solid(7, l(20), l(45)), 7},
		{"open at a chamfered face", sq, c4, solid(7, l(20), l(45)), 3},
		{"below the round", r4, r4, solid(3, l(4), l(30)), 3},
		{"beside the end of the round", r4, r4, solid(7, l(4), l(30)), 5},
		{"corner under the round", r4, sq, solid(2, l(2), l(30)), 4 - 2*math.Sqrt2},
		{"corner under the chamfer", c4, sq, solid(3, l(3), l(30)), math.Sqrt2},
		{"out of the round", r4, sq, solid(0.5, l(1), l(30)), 0},
		{"sloped, open at the face", r4, r4, solid(7, l(0), part.Plane{Z: 20, DX: 0.1}), 3},
		{"sloped top under the round", r4, sq, solid(2, part.Plane{Z: 2 + 98*0.1, DX: 0.1}, l(30)), 4 - 2*math.Sqrt2},
		{"bore along the edge", r4, r4, bore(12, 20, 20, 8), 8},
		{"bore slanting along the edge", r4, r4, bore(12, 10, 30, 8), 8},
		{"bore under the round", r4, r4, bore(3, 3, 3, 2), 4 - math.Sqrt2 - 1},
	} {
		e := edgeOf(tt.front, tt.back)
		g := space.Of(tt.p).ToEdge(e)
		if math.Abs(g.D-tt.want) > space.Slack {
			t.Errorf("%s: %.5f mm, want %.5f", tt.what, g.D, tt.want)
		}
		if math.Abs(g.A.Dist(g.B)-g.D) > 1e-6 {
			t.Errorf("%s: witnesses %v and %v, %.5f mm apart, distance %.5f", tt.what, g.A, g.B, g.A.Dist(g.B), g.D)
		}
	}
}

// Inset is the section, turned over: every point of the edge has no wood before
// it, and one a hair further in has some.
func TestEdgeInset(t *testing.T) {
	e := edgeOf(space.Profile{Roundover: 5}, space.Profile{Chamfer: 3})
	for z := 0.0; z <= 45; z += 0.25 {
		in := e.Inset(z)
		if d := e.Wood(part.Point{X: -100 + in, Z: z}); d > 1e-9 {
			t.Errorf("at depth %g the edge lies %g in, with %g of wood before it", z, in, d)
		}
		if d := e.Wood(part.Point{X: -100 + in + 0.01, Z: z}); d <= 0 || d > 0.01+1e-9 {
			t.Errorf("at depth %g, 0.01 in from the edge: %g of wood", z, d)
		}
	}
}

// Against dense samples of the treated edge of a waisted outline: random parts
// in it, level, sloped and drilled. Slanting bores are sampled by their axis.
func TestEdgeAgainstSamples(t *testing.T) {
	outline := geom.Region{{
		geom.ArcThrough(geom.Pt(-100, -60), geom.Pt(0, -80), geom.Pt(100, -60)),
		geom.ArcThrough(geom.Pt(100, -60), geom.Pt(80, 0), geom.Pt(100, 60)),
		geom.ArcThrough(geom.Pt(100, 60), geom.Pt(0, 85), geom.Pt(-100, 60)),
		geom.ArcThrough(geom.Pt(-100, 60), geom.Pt(-75, 0), geom.Pt(-100, -60)),
	}}
	rng := rand.New(rand.NewPCG(8, 2))
	f := func(lo, hi float64) float64 { return lo + rng.Float64()*(hi-lo) }
	for trial := range 30 {
		front, back := space.Profile{Roundover: f(2, 6)}, space.Profile{Chamfer: f(1, 5)}
		e := space.NewEdge(outline, 45, front, back)
		var p part.Part
		switch trial % 3 {
		case 0, 1:
			s := part.Solid{Plan: geom.Pose(geom.Pt(f(-45, 45), f(-30, 30)), geom.Angle(f(0, 3))).Region(geom.Region{geom.RoundedRect(geom.Pt(0, 0), f(20, 60), f(10, 40), 3)})}
			s.Top, s.Floor = part.Level(f(0, 6)), part.Level(f(20, 44))
			if trial%3 == 1 {
				s.Top.DX, s.Floor.DY = f(-0.02, 0.02), f(-0.05, 0.05)
			}
			p.Solids = []part.Solid{s}
		default:
			p.Bores = []part.Bore{{From: part.Point{X: f(-60, 60), Y: f(-50, 50), Z: f(1, 44)}, To: part.Point{X: f(-60, 60), Y: f(-50, 50), Z: f(1, 44)}, D: 0.002}}
		}
		g := space.Of(p).ToEdge(e)
		// The edge, sampled: each place of the outline, moved in by the section.
		want := math.Inf(1)
		bounds := p.Plan().Bounds()
		for _, b := range p.Bores {
			bounds = geom.BoxOf(b.From.Flat(), b.To.Flat())
		}
		for _, loop := range outline {
			for _, s := range loop {
				n := int(s.Length() / 0.5)
				for i := range n {
					at := s.At(float64(i) / float64(n))
					in := s.Tangent(float64(i) / float64(n)).Left()
					for z := 0.0; z <= 45; z += 0.25 {
						q := at.Add(in.Mul(e.Inset(z)))
						pt := part.Point{X: q.X, Y: q.Y, Z: z}
						if d := bounds.Gap(geom.BoxOf(q)); d > want || d > g.D+0.1 {
							continue
						}
						want = math.Min(want, project(p, pt).Dist(pt))
					}
				}
			}
		}
		if g.D == 0 && want < 0.5 {
			continue
		}
		if g.D > want+space.Slack || g.D < want-0.06 { // samples lie up to 0.24 apart
			t.Errorf("trial %d: %.4f mm, samples find %.4f\n%+v", trial, g.D, want, p)
		}
	}
}
