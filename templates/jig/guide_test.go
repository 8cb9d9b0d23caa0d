package jig_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/jig"
)

// A drill of 8 out of a cavity 80 long, 14 below the face, goes down at 12.75 degrees:
// tan φ = (14 + 8/(2·cos φ))/80, common practice's own example. By hand: at the square
// end, 5 behind the rim, its middle stands 85·tan φ − 14 = 5.234 over the face.
func TestGuideByHand(t *testing.T) {
	g := jig.NewGuide(8, 12.75*geom.Degree, 80, 14, false)
	if g.Sole || math.Abs(g.Out.Y-5.234) > 1e-3 || g.Out.X != 0 {
		t.Errorf("out at %v", g.Out)
	}
	if d := g.Square().Degrees(); math.Abs(d-90) > 1e-9 {
		t.Errorf("the bore meets the tilted end at %v°", d)
	}
	// The entry lies 85 before the square end and 14 below the face.
	if want := math.Hypot(g.In.X+85, g.In.Y+14); math.Abs(g.Lead-want) > 1e-9 {
		t.Errorf("lead %v, want %v", g.Lead, want)
	}
	if want := g.Out.Y - 4/math.Cos(12.75*math.Pi/180); math.Abs(g.Wall-want) > 1e-9 {
		t.Errorf("wall %v, want %v", g.Wall, want)
	}
	// From a plate the drill comes out of the sole over its entry.
	p := jig.NewGuide(3, 40*geom.Degree, 0, 0, true)
	if !p.Sole || p.Out.Dist(geom.Pt(15, 0)) > 1e-9 || math.Abs(p.Lead-p.In.Dist(p.Out)) > 1e-9 {
		t.Errorf("plate: %+v", p)
	}
}

func TestGuideProperties(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 9))
	for range 200 {
		phi := geom.Angle(5+35*rnd.Float64()) * geom.Degree
		d, entry := 3+5*rnd.Float64(), 5+12*rnd.Float64()
		rim := (entry+d/2/math.Cos(float64(phi)))/math.Tan(float64(phi)) + 20*rnd.Float64()
		g := jig.NewGuide(d, phi, rim, entry, false)
		if math.Abs(g.Square().Degrees()-90) > 1e-9 {
			t.Errorf("%v° off square", g.Square().Degrees()-90)
		}
		in := geom.Region{g.Side}
		edge := geom.IndexOf(in)
		for _, o := range []float64{-d / 2, 0, d / 2} {
			a, b := g.Bore(o)
			for _, q := range []geom.Point{a, b} {
				if _, off := edge.Closest(q); off > 1e-9 {
					t.Errorf("bore ends at %v, off the block", q)
				}
			}
			if !edge.Contains(a.Lerp(b, 0.5)) {
				t.Error("bore runs outside the block")
			}
		}
		if a, _ := g.Bore(d / 2); math.Abs(a.Dist(g.Out)*math.Cos(float64(phi))-d/2) > 1e-9 {
			t.Errorf("the bore is not %v wide", d)
		}
		if g.Wall < 0 {
			t.Errorf("the bore breaks out of the block by %v", -g.Wall)
		}
	}
}
