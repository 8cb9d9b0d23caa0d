package geom

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// Shapes and poses that the tests of measures, distances and reach share.

// outlineOf is a smooth closed outline of n arcs round c, radius about r: arcs
// through points of r·(1 + wave), so that it is closed and simple.
func outlineOf(c Point, r, wave float64, n int) Path {
	at := func(a float64) Point {
		k := r * (1 + wave*math.Cos(3*a) + wave/2*math.Sin(5*a))
		return Pt(c.X+k*math.Cos(a), c.Y+k*math.Sin(a))
	}
	p := make(Path, n)
	step := 2 * math.Pi / float64(n)
	for i := range p {
		a := float64(i) * step
		b := at(a + step)
		if i == n-1 {
			b = at(0)
		}
		p[i] = ArcThrough(at(a), at(a+step/2), b)
	}
	return p
}

// chordsOf is the same outline in n straight chords.
func chordsOf(c Point, r, wave float64, n int) Path {
	p := outlineOf(c, r, wave, n)
	for i := range p {
		p[i] = Line(p[i].A, p[i].B)
	}
	return p
}

// starOf is a random simple loop of n lines and arcs, star-shaped about c.
func starOf(rng *rand.Rand, c Point, r float64, n int) Path {
	v := make([]Point, n)
	for i := range v {
		a := Angle(float64(i)+0.6*rng.Float64()) * 2 * math.Pi / Angle(n)
		v[i] = c.Add(a.Unit().Mul(r * (0.5 + rng.Float64())))
	}
	p := make(Path, n)
	for i := range p {
		p[i] = Line(v[i], v[(i+1)%n])
		if rng.IntN(2) == 0 {
			// Not flatter than a radius of 250 chords: nobody draws those.
			b := 0.1 * (rng.Float64() - 0.3)
			p[i] = ArcBulge(p[i].A, p[i].B, b+math.Copysign(1e-3, b))
		}
	}
	return p
}

// reachPose is a similarity with the change it makes to a region's loops.
type reachPose struct {
	name string
	t    Transform
	from int // which segment every loop starts from
}

// reachPoses are rotated, mirrored, moved, scaled and restarted views.
func reachPoses() []reachPose {
	ps := []reachPose{
		{"as drawn", Transform{}, 0},
		{"turned 90", Rotate(90 * Degree), 1},
		{"turned 37", Rotate(37 * Degree), 2},
		{"mirrored", MirrorX(), 0},
		{"mirrored, turned", MirrorX().Then(Rotate(-71 * Degree)), 3},
		{"moved", Translate(Vec{900, -750}), 1},
		{"small", Scale(0.01), 0},
		{"large", Scale(100), 5},
	}
	return ps
}

func (s reachPose) of(r Region) Region {
	q := s.t.Region(r)
	for i := range q {
		q[i] = q[i].From(s.from)
	}
	return q
}

// sameLength fails unless have = want within tol, both scaled with the pose.
func sameLength(t *testing.T, what string, have, want, tol float64) {
	t.Helper()
	if math.IsInf(want, 1) && math.IsInf(have, 1) {
		return
	}
	if !(math.Abs(have-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g (off by %.3g)", what, have, want, have-want)
	}
}

func seeded(t *testing.T, n uint64) *rand.Rand {
	t.Helper()
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("seed %d", n)
		}
	})
	return rand.New(rand.NewPCG(n, 1))
}

func label(i int, s string) string { return fmt.Sprintf("case %d, %s", i, s) }
