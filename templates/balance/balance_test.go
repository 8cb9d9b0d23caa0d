package balance_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"routwright/geom"
	"routwright/templates/balance"
	"routwright/templates/part"
	"routwright/templates/space"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// Closed forms of any handbook of solids: a box; a cylinder cut by a sloped
// plane, volume π·r²·h at its middle and its centre moved by h₁·r²/4h; a wedge,
// whose centre lies a third from its high side.
func TestClosedForms(t *testing.T) {
	box := balance.Of(part.Solid{Plan: geom.Region{geom.Rect(geom.Pt(3, -4), 20, 10)}, Top: part.Level(2), Floor: part.Level(8)})
	near(t, "box", box.V, 1200, 1e-9)
	near(t, "box x", box.Centre().X, 3, 1e-9)
	near(t, "box z", box.Centre().Z, 5, 1e-9)

	const r, h, k = 7.0, 12.0, 0.6
	hoof := balance.Of(part.Solid{Plan: geom.Region{geom.Circle(geom.Pt(100, 0), r)}, Floor: part.Plane{Z: h - 100*k, DX: k}})
	near(t, "cut cylinder", hoof.V, math.Pi*r*r*h, 1e-8)
	near(t, "cut cylinder x", hoof.Centre().X, 100+k*r*r/(4*h), 1e-9)
	near(t, "cut cylinder z", hoof.Centre().Z, h/2+k*k*r*r/(8*h), 1e-9)

	wedge := balance.Of(part.Solid{Plan: geom.Region{geom.Rect(geom.Pt(15, 0), 30, 10)}, Floor: part.Plane{DX: 0.2}})
	near(t, "wedge", wedge.V, 30*6*10/2, 1e-9)
	near(t, "wedge x", wedge.Centre().X, 20, 1e-9)
	near(t, "wedge z", wedge.Centre().Z, 2, 1e-9)

	// A disc of radius R with its edge rounded by ρ: the ring that is taken, by
	// integration of its own radii: ∫ π(R² − (R − u)²) dz, u = ρ − √(ρ² − (ρ − z)²).
	const R, rho = 50.0, 6.0
	var want, wantZ float64
	const n = 200000
	for i := range n {
		z := (float64(i) + 0.5) * rho / n
		u := rho - math.Sqrt(rho*rho-(rho-z)*(rho-z))
		dv := math.Pi * (R*R - (R-u)*(R-u)) * rho / n
		want, wantZ = want+dv, wantZ+dv*z
	}
	rim := balance.Rim(geom.Region{geom.Circle(geom.Pt(0, 0), R)}, space.Profile{Roundover: rho}, part.Back, 45)
	near(t, "rounded rim", rim.V, want, want*1e-5)
	near(t, "rounded rim z", rim.Centre().Z, 45-wantZ/want, 0.05)
	// A chamfered disc: a cone's frustum less than a cylinder.
	frustum := math.Pi * rho / 3 * (R*R + R*(R-rho) + (R-rho)*(R-rho))
	cham := balance.Rim(geom.Region{geom.Circle(geom.Pt(0, 0), R)}, space.Profile{Chamfer: rho}, part.Front, 45)
	near(t, "chamfered rim", cham.V, math.Pi*R*R*rho-frustum, 1e-6)
}

// Solids that overlap at random, level and sloped: what they fill together,
// against counting voxels.
func TestCarveAgainstVoxels(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 4))
	f := func(lo, hi float64) float64 { return lo + rng.Float64()*(hi-lo) }
	for trial := range 12 {
		var solids []part.Solid
		for range 2 + rng.IntN(4) {
			s := part.Solid{Plan: geom.Pose(geom.Pt(f(-20, 20), f(-20, 20)), geom.Angle(f(0, 3))).Region(geom.Region{geom.RoundedRect(geom.Pt(0, 0), f(20, 60), f(20, 50), f(1, 9))})}
			s.Top, s.Floor = part.Level(f(3, 15)), part.Level(f(22, 40))
			if rng.IntN(3) > 0 {
				s.Top.DX, s.Top.DY, s.Floor.DX, s.Floor.DY = f(-0.02, 0.02), f(-0.02, 0.02), f(-0.02, 0.02), f(-0.02, 0.02)
			}
			solids = append(solids, s)
		}
		pieces, err := balance.Carve(solids)
		if err != nil {
			t.Fatal(err)
		}
		got := balance.OfAll(pieces)
		const step = 0.25
		want := columns(solids, step)
		if math.Abs(got.V-want.V) > 1e-3*want.V || got.Centre().Dist(want.Centre()) > 0.02 {
			t.Errorf("trial %d: %.1f mm³ at %v, voxels %.1f at %v", trial, got.V, got.Centre(), want.V, want.Centre())
		}
	}
}

// columns counts what solids fill together, column by column over a grid, each
// column's stretches joined.
func columns(solids []part.Solid, step float64) balance.Bulk {
	var box geom.Box
	for _, s := range solids {
		box = box.Union(s.Plan.Bounds())
	}
	index := make([]*geom.Index, len(solids))
	for i, s := range solids {
		index[i] = geom.IndexOf(s.Plan)
	}
	var b balance.Bulk
	for x := box.Min.X + step/2; x < box.Max.X; x += step {
		for y := box.Min.Y + step/2; y < box.Max.Y; y += step {
			p := geom.Pt(x, y)
			var ends [][2]float64
			for i, s := range solids {
				if index[i].Contains(p) {
					ends = append(ends, [2]float64{s.Top.At(p), s.Floor.At(p)})
				}
			}
			sort.Slice(ends, func(i, k int) bool { return ends[i][0] < ends[k][0] })
			done := math.Inf(-1)
			for _, e := range ends {
				lo := math.Max(e[0], done)
				if e[1] > lo {
					b = b.Plus(balance.At(step*step*(e[1]-lo), part.Point{X: x, Y: y, Z: (lo + e[1]) / 2}))
					done = e[1]
				}
			}
		}
	}
	return b
}

// Hanging, by hand: buttons in line with the strings, the hook h beside their
// middle; a balance point e towards the head sinks it by atan(e/h).
func TestHang(t *testing.T) {
	u, l := geom.Pt(0, 300), geom.Pt(0, -100)
	h := math.Sqrt(1000*1000-400*400) / 2
	for _, e := range []float64{0, 30, -20} {
		got, ok := balance.Hang(u, l, geom.Pt(0, 100+e), 1000, -1)
		if !ok {
			t.Fatal("does not hang")
		}
		near(t, "hangs", got.Degrees(), -math.Atan2(e, h)*180/math.Pi, 1e-9)
		mirrored, _ := balance.Hang(geom.Pt(5, 300), geom.Pt(-2, -100), geom.Pt(3, 100+e), 1000, 1)
		same, _ := balance.Hang(geom.Pt(-5, 300), geom.Pt(2, -100), geom.Pt(-3, 100+e), 1000, -1)
		near(t, "mirrored", mirrored.Degrees(), same.Degrees(), 1e-9)
	}
	if _, ok := balance.Hang(u, l, geom.Pt(0, 0), 399, -1); ok {
		t.Error("a strap shorter than the buttons are apart hangs")
	}
	// Level: the hook straight over the balance point, both legs the strap.
	for _, y := range []float64{100, 150, 250} {
		from, ok := balance.Level(u, l, geom.Pt(10, y), 1000, -1)
		if !ok {
			t.Fatal("no level place")
		}
		x := math.Sqrt(from*from - (300-y)*(300-y))
		near(t, "legs", from+math.Hypot(x, y+100), 1000, 1e-6)
	}
	if _, ok := balance.Level(u, l, geom.Pt(0, 320), 1000, -1); ok {
		t.Error("level with the balance point beyond the upper button")
	}
	near(t, "share", balance.Share(u, l, geom.Pt(0, 200)), 0.75, 1e-12)
}
