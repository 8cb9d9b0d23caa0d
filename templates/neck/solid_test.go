package neck

import (
	"math"
	"testing"

	"routwright/geom"
)

// The wood of a neck against counting small boxes: inside the plan, above the
// profile or the side, below the board; heads and channel as they stand. The curve
// under the nut, half the hollow of the heel and the hollow behind the head are
// what the two count differently.
func TestSolidAgainstVoxels(t *testing.T) {
	for _, kind := range []Kind{InLine, Split, Paddle} {
		for _, tilt := range []geom.Angle{0, 12 * geom.Degree} {
			s := common(640, 6, kind)
			s.Head.Tilt = tilt
			if tilt == 0 {
				s.Head.Step, s.Head.Sweep = 6, 25
			}
			sh, err := New(s)
			if err != nil {
				t.Fatal(err)
			}
			got := sh.Solid()
			want := voxels(sh)
			if off := math.Abs(got.Volume/want.Volume - 1); off > 0.015 {
				t.Errorf("%v, tilt %.0f°: %.0f mm³, boxes %.0f: off by %.2f %%", kind, tilt.Degrees(), got.Volume, want.Volume, 100*off)
			}
			if d := math.Max(math.Abs(got.X-want.X), math.Max(math.Abs(got.Y-want.Y)/4, math.Abs(got.Depth-want.Depth))); d > 0.5 {
				t.Errorf("%v, tilt %.0f°: centre %+v, boxes %+v", kind, tilt.Degrees(), got, want)
			}
			t.Logf("%v, tilt %.0f°: off by %.3f %% and %.2f mm along", kind, tilt.Degrees(), 100*(got.Volume/want.Volume-1), got.Y-want.Y)
		}
	}
}

// voxels counts boxes of the neck between the two faces of its side view.
func voxels(sh *Shape) Lump {
	const dx, dy, dz = 1.0, 2.0, 0.5
	var l Lump
	side := geom.IndexOf(geom.Region{sh.Side.Outline})
	plan := geom.IndexOf(geom.Region{sh.Plan})
	rod := geom.IndexOf(sh.Rod.Plan)
	fold, cos := sh.Side.Fold.Y, math.Cos(float64(sh.Spec.Head.Tilt))
	foot := sh.Spec.Heel.Joint + sh.Spec.Back.Foot
	b := sh.Plan.Bounds()
	for y := b.Min.Y + dy/2; y < fold+(b.Max.Y-fold)+dy; y += dy {
		at := y // on the plan, the head laid flat
		if y > fold {
			at = fold + (y-fold)/cos
		}
		var section *geom.Index
		if y > sh.Side.From && y < sh.Side.To {
			section = geom.IndexOf(sh.ProfileAt(y).Region())
		}
		middle := (xOf(sh.Spec.Board.Bass, y) + xOf(sh.Spec.Board.Treble, y)) / 2
		for z := dz / 2; z < 120; z += dz {
			if !side.Contains(geom.Pt(z, y)) {
				continue
			}
			// Half way along the hollow of the heel the oval begins.
			round := section
			if round == nil && y < fold && y > (foot+sh.Side.From)/2 {
				p := sh.ProfileAt(y)
				_, p.Depth = span(sh.Side.Back, y)
				round = geom.IndexOf(p.Region())
			}
			for x := b.Min.X + dx/2; x < b.Max.X; x += dx {
				p := geom.Pt(x, at)
				if !plan.Contains(p) || round != nil && !round.Contains(geom.Pt(x-middle, -z)) {
					continue
				}
				if rod.Contains(p) && z < sh.Spec.Rod.Depth {
					continue
				}
				hole := false
				for _, u := range sh.Tuners {
					hole = hole || u.Post.Dist(p) < sh.Spec.Head.Hole/2
				}
				if !hole {
					l.add(dx*dy*dz, x, y, z)
				}
			}
		}
	}
	return l
}

// A mirrored neck weighs as much on the other side.
func TestSolidMirrored(t *testing.T) {
	s := common(640, 6, InLine)
	sh, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	a, b := sh.Solid(), sh.Mirrored().Solid()
	if math.Abs(a.Volume-b.Volume) > 1e-6*a.Volume || math.Abs(a.X+b.X) > 1e-6 || math.Abs(a.Y-b.Y) > 1e-6 || math.Abs(a.Depth-b.Depth) > 1e-6 {
		t.Errorf("%+v mirrored is %+v", a, b)
	}
}
