package part

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
)

func randomPlan(rnd *rand.Rand) geom.Region {
	r := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	turn := geom.Pose(geom.Pt(r(-30, 30), r(-30, 30)), geom.Angle(r(0, 6)))
	return turn.Region(geom.Region{geom.RoundedRect(geom.Pt(0, 0), r(8, 60), r(8, 60), r(0, 20))})
}

// The extremes of a surface over a plan against points walked along its edge.
func TestPlaneOver(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		plan := randomPlan(rnd)
		s := Plane{Z: 20 * rnd.Float64(), DX: rnd.Float64() - 0.5, DY: rnd.Float64() - 0.5}
		lo, hi := s.Over(plan)
		wl, wh := math.Inf(1), math.Inf(-1)
		for _, p := range plan[0].Flatten(1e-5) {
			wl, wh = math.Min(wl, s.At(p)), math.Max(wh, s.At(p))
		}
		if math.Abs(lo-wl) > 1e-4 || math.Abs(hi-wh) > 1e-4 {
			t.Fatalf("%+v: %g to %g, walked %g to %g", s, lo, hi, wl, wh)
		}
	}
	if lo, hi := (Plane{Z: 5}).Over(nil); lo != 0 || hi != 0 {
		t.Errorf("over nothing: %g to %g", lo, hi)
	}
}

// A wedge: half the box round it.
func TestSolidVolume(t *testing.T) {
	s := Solid{Plan: geom.Region{geom.Rect(geom.Pt(5, 0), 10, 8)}, Floor: Plane{DX: 0.3}}
	if got := s.Volume(); math.Abs(got-10*8*3/2.0) > 1e-9 {
		t.Errorf("%g mm³, want 120", got)
	}
}

// holdsPoint says whether q lies in the cylinder by its definition: at most half
// the diameter from the axis, between the ends.
func holdsPoint(b Bore, q Point) bool {
	l := b.Length()
	ux, uy, uz := (b.To.X-b.From.X)/l, (b.To.Y-b.From.Y)/l, (b.To.Z-b.From.Z)/l
	wx, wy, wz := q.X-b.From.X, q.Y-b.From.Y, q.Z-b.From.Z
	along := wx*ux + wy*uy + wz*uz
	return along >= 0 && along <= l && wx*wx+wy*wy+wz*wz-along*along <= b.D*b.D/4
}

func randomBore(rnd *rand.Rand) Bore {
	r := func() float64 { return 40 * rnd.Float64() }
	b := Bore{From: Point{r(), r(), r()}, To: Point{r(), r(), r()}, D: 2 + 12*rnd.Float64()}
	switch rnd.IntN(5) {
	case 0: // square
		b.To.X, b.To.Y = b.From.X, b.From.Y
	case 1: // along the faces
		b.To.Z = b.From.Z
	}
	return b
}

func TestBoreColumn(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 2))
	hits := 0
	for range 400 {
		b := randomBore(rnd)
		box := b.Bounds()
		p := geom.Pt(box.Min.X+rnd.Float64()*box.W(), box.Min.Y+rnd.Float64()*box.H())
		top, floor, ok := b.Column(p)
		wt, wf := math.Inf(1), math.Inf(-1)
		const step = 0.01
		for z := -20.0; z < 60; z += step {
			if holdsPoint(b, Point{p.X, p.Y, z}) {
				wt, wf = math.Min(wt, z), math.Max(wf, z)
			}
		}
		if wf < wt {
			if ok && floor-top > 2*step {
				t.Fatalf("%+v at %v: %g to %g, sampled nothing", b, p, top, floor)
			}
			continue
		}
		hits++
		if !ok || math.Abs(top-wt) > 2*step || math.Abs(floor-wf) > 2*step {
			t.Fatalf("%+v at %v: %g to %g %v, sampled %g to %g", b, p, top, floor, ok, wt, wf)
		}
		lo, hi := b.Range()
		if lo > wt+step || hi < wf-step {
			t.Fatalf("%+v: range %g to %g, sampled %g to %g", b, lo, hi, wt, wf)
		}
	}
	if hits < 100 {
		t.Errorf("only %d lines met their bore", hits)
	}
}

// The box of a bore is tight: points of its end discs come to within a hair of
// every side, and none beyond.
func TestBoreBounds(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 3))
	for range 200 {
		b := randomBore(rnd)
		l := b.Length()
		ux, uy, uz := (b.To.X-b.From.X)/l, (b.To.Y-b.From.Y)/l, (b.To.Z-b.From.Z)/l
		// Two directions square to the axis.
		ax, ay, az := uy, -ux, 0.0
		if n := math.Hypot(ax, ay); n > 1e-9 {
			ax, ay = ax/n, ay/n
		} else {
			ax, ay = 1, 0
		}
		bx, by := uy*az-uz*ay, uz*ax-ux*az
		var box geom.Box
		for k := range 3600 {
			s, c := math.Sincos(float64(k) * math.Pi / 1800)
			for _, e := range [2]Point{b.From, b.To} {
				box = box.Extend(geom.Pt(e.X+b.D/2*(c*ax+s*bx), e.Y+b.D/2*(c*ay+s*by)))
			}
		}
		got := b.Bounds()
		for _, d := range [4]float64{got.Min.X - box.Min.X, got.Min.Y - box.Min.Y, got.Max.X - box.Max.X, got.Max.Y - box.Max.Y} {
			if math.Abs(d) > 1e-4 {
				t.Fatalf("%+v: box %v, walked %v", b, got, box)
			}
		}
	}
}

// A drill at an angle has cleared its whole opening in a level face once it is
// carried outward: every point of the face within the ellipse is bored.
func TestEnteredClearsTheOpening(t *testing.T) {
	b := Bore{From: Point{0, 0, 0}, To: Point{10, 0, 20}, D: 8}
	e := b.Entered()
	tan := 0.5
	// The mantle meets the face z = 0 in an ellipse, half axes D/2·√(1 + tan²) and D/2.
	long := 4 * math.Sqrt(1+tan*tan)
	for k := range 100 {
		s, c := math.Sincos(float64(k) * math.Pi / 50)
		q := Point{0.999 * long * c, 0.999 * 4 * s, 0}
		if !holdsPoint(e, q) {
			t.Fatalf("%v of the opening is not bored", q)
		}
	}
	if sq := (Bore{From: Point{1, 2, 0}, To: Point{1, 2, 9}, D: 5}); sq.Entered() != sq {
		t.Error("a square bore was moved")
	}
}
