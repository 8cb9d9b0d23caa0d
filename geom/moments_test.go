package geom

import (
	"math"
	"testing"
)

// The moments of arcs against those of a fine flattening, whose formulas (the
// polygon's) the reference file checks.
func TestMomentsAgainstFlattening(t *testing.T) {
	rng := seeded(t, 21)
	for i := range 60 {
		p := starOf(rng, Pt(30, -20), 20, 3+rng.IntN(12))
		for k := range p {
			if k%3 == 0 {
				p[k] = ArcBulge(p[k].A, p[k].B, []float64{1e-7, -1e-5, 1e-3, 0.2, -0.3, 1, 3}[rng.IntN(7)])
			}
		}
		const tol = 1e-6
		a, b := p.Moments(), Polygon(p.Flatten(tol)...).Moments()
		size := p.Bounds().W() + p.Bounds().H()
		slack := tol * p.Length() // of the area
		sameLength(t, label(i, "area"), a.Area, b.Area, slack)
		sameLength(t, label(i, "area again"), a.Area, p.Area(), 1e-9*size*size)
		sameLength(t, label(i, "centroid"), a.Centroid.Dist(b.Centroid)*math.Abs(a.Area), 0, slack*size)
		sameLength(t, label(i, "Ixx"), a.Ixx, b.Ixx, slack*size*size)
		sameLength(t, label(i, "Iyy"), a.Iyy, b.Iyy, slack*size*size)
		sameLength(t, label(i, "Ixy"), a.Ixy, b.Ixy, slack*size*size)
	}
}

// The series and the closed forms of the circular segment meet at their border.
func TestCircularSegmentBranches(t *testing.T) {
	a0, q0, u0, v0 := circularSegment(0.5)
	a1, q1, u1, v1 := circularSegment(math.Nextafter(0.5, 1))
	for _, p := range [][2]float64{{a0, a1}, {q0, q1}, {u0, u1}, {v0, v1}} {
		if math.Abs(p[0]-p[1]) > 1e-12*p[0] {
			t.Errorf("series %.17g, closed form %.17g", p[0], p[1])
		}
	}
	// Leading terms of a flat segment: a parabola's.
	h := 1e-4
	a, q, u, v := circularSegment(h)
	for _, p := range [][2]float64{
		{a, 2.0 / 3 * math.Pow(h, 3)}, {q, 2.0 / 15 * math.Pow(h, 5)},
		{u, 2.0 / 15 * math.Pow(h, 5)}, {v, 4.0 / 105 * math.Pow(h, 7)},
	} {
		if math.Abs(p[0]-p[1]) > 1e-7*p[1] {
			t.Errorf("flat segment: %.12g, want %.12g", p[0], p[1])
		}
	}
}

// Under a rotation by θ the tensor turns, a mirror flips Ixy, a scale k counts
// with its fourth power; a translation and the start vertex change nothing.
func TestMomentsUnderSymmetry(t *testing.T) {
	r := Region{outlineOf(Pt(12, 5), 40, 0.15, 24), Stadium(Pt(0, 0), Pt(15, 10), 6).Reversed()}
	m := r.Moments()
	for _, s := range reachPoses() {
		n := s.of(r).Moments()
		k := s.t.Factor()
		u, v := s.t.Vec(Vec{1, 0}).Mul(1/k), s.t.Vec(Vec{0, 1}).Mul(1/k)
		k4 := k * k * k * k
		xx := k4 * (m.Iyy*u.X*u.X + m.Ixx*v.X*v.X + 2*m.Ixy*u.X*v.X)
		yy := k4 * (m.Iyy*u.Y*u.Y + m.Ixx*v.Y*v.Y + 2*m.Ixy*u.Y*v.Y)
		xy := k4 * (m.Iyy*u.X*u.Y + m.Ixx*v.X*v.Y + m.Ixy*(u.X*v.Y+u.Y*v.X))
		tol := 1e-10 * k4 * m.Ixx
		sameLength(t, s.name+": area", n.Area, m.Area*k*k, 1e-11*k*k*m.Area)
		sameLength(t, s.name+": centroid", n.Centroid.Dist(s.t.Point(m.Centroid)), 0, 1e-10*max(1, k))
		sameLength(t, s.name+": Iyy", n.Iyy, xx, tol)
		sameLength(t, s.name+": Ixx", n.Ixx, yy, tol)
		sameLength(t, s.name+": Ixy", n.Ixy, xy, tol)
	}
	back := Region{r[0].Reversed(), r[1].Reversed()}.Moments()
	sameLength(t, "reversed area", back.Area, -m.Area, 1e-9)
	sameLength(t, "reversed Ixx", back.Ixx, -m.Ixx, 1e-9*m.Ixx)
}

func TestMomentsOfNothing(t *testing.T) {
	if m := (Region{}).Moments(); m != (Moments{}) {
		t.Errorf("empty region: %v", m)
	}
	flat := Polygon(Pt(0, 0), Pt(10, 0))
	if m := flat.Moments(); m.Area != 0 || m.Centroid != Pt(5, 0) {
		t.Errorf("a path without area: %v", m)
	}
}

func BenchmarkMoments266Arcs(b *testing.B) {
	r := Region{outlineOf(Pt(0, 0), 200, 0.1, 266)}
	b.ReportAllocs()
	for b.Loop() {
		r.Moments()
	}
}
