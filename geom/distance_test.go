package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestSegDistanceClosedForms(t *testing.T) {
	half := ArcAbout(Pt(0, 0), Pt(5, 0), Pt(-5, 0), 1) // upper half circle of radius 5
	tests := []struct {
		name string
		a, b Seg
		want float64
	}{
		{"parallel lines", Line(Pt(0, 0), Pt(10, 0)), Line(Pt(4, 3), Pt(20, 3)), 3},
		{"lines end to end", Line(Pt(0, 0), Pt(10, 0)), Line(Pt(13, 4), Pt(20, 9)), 5},
		{"end over line", Line(Pt(0, 0), Pt(10, 0)), Line(Pt(5, 2), Pt(6, 9)), 2},
		{"lines cross", Line(Pt(0, 0), Pt(10, 10)), Line(Pt(0, 10), Pt(10, 0)), 0},
		{"lines touch", Line(Pt(0, 0), Pt(10, 0)), Line(Pt(5, 0), Pt(6, 9)), 0},
		{"collinear, overlapping", Line(Pt(0, 0), Pt(10, 0)), Line(Pt(5, 0), Pt(16, 0)), 0},
		{"collinear, apart", Line(Pt(0, 0), Pt(10, 0)), Line(Pt(12, 0), Pt(16, 0)), 2},
		{"line over arc", Line(Pt(-9, 8), Pt(9, 8)), half, 3},
		{"line under the open side", Line(Pt(-2, -3), Pt(2, -3)), half, math.Hypot(3, 3)},
		{"chord inside", Line(Pt(-1, 1), Pt(1, 1)), half, 5 - math.Sqrt2},
		{"line through arc", Line(Pt(0, 0), Pt(0, 9)), half, 0},
		{"tangent line", Line(Pt(-9, 5), Pt(9, 5)), half, 0},
		{"arcs apart", half, ArcAbout(Pt(0, 12), Pt(-4, 12), Pt(4, 12), 1), 3},
		{"arcs back to back", half, ArcAbout(Pt(0, 12), Pt(4, 12), Pt(-4, 12), 1), math.Hypot(4, 12) - 5},
		{"arc within arc", half, ArcAbout(Pt(0, 1), Pt(2, 1), Pt(-2, 1), 1), 2},
		{"concentric arcs", half, ArcAbout(Pt(0, 0), Pt(2, 0), Pt(0, 2), 1), 3},
		{"arcs of one circle", half, ArcAbout(Pt(0, 0), Pt(-3, -4), Pt(3, -4), 1), Pt(3, -4).Dist(Pt(5, 0))},
		{"arcs cross", half, ArcAbout(Pt(5, 5), Pt(0, 5), Pt(10, 5), -1).Reversed(), 0},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			a, b := s.t.Seg(tt.a), s.t.Seg(tt.b)
			k := s.t.Factor()
			for _, rev := range []bool{false, true} {
				if rev {
					a, b = b.Reversed(), a.Reversed()
				}
				d, pa, pb := SegDistance(a, b)
				sameLength(t, tt.name+", "+s.name, d, tt.want*k, 2e-9*max(1, k)) // a tangency is found to √ε·… of the radius
				sameLength(t, tt.name+": witnesses", pa.Dist(pb), d, 1e-9*max(1, k))
				sameLength(t, tt.name+": witness on a", a.Closest(pa).Dist(pa), 0, 1e-9*max(1, k))
				sameLength(t, tt.name+": witness on b", b.Closest(pb).Dist(pb), 0, 1e-9*max(1, k))
			}
		}
	}
}

// bySampling is the least distance between dense points of a and the closest
// point of b: never below the truth, above it by less than step²/8 · curvature
// plus, at a crossing, step.
func bySampling(a, b Path, n int) float64 {
	d := math.Inf(1)
	for _, s := range a {
		for i := 0; i <= n; i++ {
			p := s.At(float64(i) / float64(n))
			for _, u := range b {
				d = math.Min(d, u.Closest(p).Dist(p))
			}
		}
	}
	return d
}

func TestSegDistanceAgainstSampling(t *testing.T) {
	rng := seeded(t, 7)
	for i := range 4000 {
		a, b := randomSeg(rng), randomSeg(rng)
		d, pa, pb := SegDistance(a, b)
		want := bySampling(Path{a}, Path{b}, 400)
		step := a.Length() / 400
		if d > want+1e-9 || d < want-step {
			t.Fatalf("case %d: %v to %v is %.9g, sampled %.9g", i, a, b, d, want)
		}
		if e := math.Max(a.Closest(pa).Dist(pa), b.Closest(pb).Dist(pb)); e > 1e-8 || math.Abs(pa.Dist(pb)-d) > 1e-9 {
			t.Fatalf("case %d: witnesses %v, %v off by %.3g, d = %g", i, pa, pb, e, d)
		}
	}
}

func randomSeg(rng *rand.Rand) Seg {
	p := func() Point { return Pt(math.Round(rng.Float64()*20)/2, math.Round(rng.Float64()*20)/2) }
	a, b := p(), p()
	for a == b {
		b = p()
	}
	switch rng.IntN(3) {
	case 0:
		return Line(a, b)
	case 1:
		return ArcBulge(a, b, math.Round(rng.Float64()*40-20)/10+0.05)
	}
	return ArcBulge(a, b, rng.Float64()*4-2)
}

func TestDistanceOfRegions(t *testing.T) {
	plate := Region{Rect(Pt(0, 0), 100, 60), Rect(Pt(10, 0), 40, 30).Reversed()}
	tests := []struct {
		name string
		a, b Region
		want float64
	}{
		{"apart", Region{Circle(Pt(0, 0), 10)}, Region{Circle(Pt(30, 40), 5)}, 35},
		{"overlapping", Region{Circle(Pt(0, 0), 10)}, Region{Circle(Pt(8, 6), 5)}, 0},
		{"one in the other", Region{Circle(Pt(0, 0), 10)}, Region{Circle(Pt(1, 2), 2)}, 0},
		{"in the hole", plate, Region{Circle(Pt(10, 0), 6)}, 9},
		{"in the solid beside the hole", plate, Region{Circle(Pt(-30, 0), 4)}, 0},
		{"round the whole", plate, Region{Rect(Pt(0, 0), 300, 200), Rect(Pt(0, 0), 110, 72).Reversed()}, 5},
		{"empty", plate, nil, math.Inf(1)},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			a, b, k := s.of(tt.a), s.of(tt.b), s.t.Factor()
			for range 2 {
				a, b = b, a
				d, pa, pb := Distance(a, b)
				sameLength(t, tt.name+", "+s.name, d, tt.want*k, 1e-9*max(1, k))
				if !math.IsInf(d, 1) {
					sameLength(t, tt.name+": witnesses", pa.Dist(pb), d, 1e-9*max(1, k))
				}
			}
		}
	}
}

func TestDistanceAgainstAllPairs(t *testing.T) {
	rng := seeded(t, 11)
	for i := range 300 {
		a := starOf(rng, Pt(0, 0), 20, 5+rng.IntN(60))
		b := starOf(rng, Pt(25+40*rng.Float64(), 10), 15, 5+rng.IntN(60))
		want := gap{d2: math.Inf(1)}
		for k := range a {
			for l := range b {
				want.segs(&a[k], &b[l])
			}
		}
		d, _, _ := PathDistance(a, b)
		sameLength(t, label(i, "paths"), d, math.Sqrt(want.d2), 1e-12)
		back, _, _ := PathDistance(b, a)
		sameLength(t, label(i, "paths, exchanged"), back, d, 1e-9)
		r, p, q := Distance(Region{a}, Region{b})
		sameLength(t, label(i, "regions"), r, d, 1e-12)
		sameLength(t, label(i, "witnesses"), p.Dist(q), r, 1e-12)
	}
}

func TestWindingAgainstFlattening(t *testing.T) {
	rng := seeded(t, 3)
	for i := range 60 {
		p := starOf(rng, Pt(0, 0), 20, 4+rng.IntN(30))
		tr := IndexOf(Region{p, Circle(Pt(0, 0), 4).Reversed()})
		flat := Polygon(p.Flatten(1e-5)...)
		for range 200 {
			q := Pt(rng.Float64()*70-35, rng.Float64()*70-35)
			if c := p; closestOf(c, q) < 1e-3 || math.Abs(q.Dist(Pt(0, 0))-4) < 1e-3 {
				continue
			}
			want := 0
			for k := range flat {
				want += flat[k].windingOf(q)
			}
			if q.Dist(Pt(0, 0)) < 4 {
				want--
			}
			if have := tr.windingAt(q); have != want {
				t.Fatalf("case %d: winding about %v is %d, want %d", i, q, have, want)
			}
		}
	}
}

func closestOf(p Path, q Point) float64 {
	d := math.Inf(1)
	for _, s := range p {
		d = math.Min(d, s.Closest(q).Dist(q))
	}
	return d
}

// The half-open rule holds on exact coordinates too: a point level with
// vertices, chords and arc ends has the winding of one of its two sides.
func TestWindingOnExactCoordinates(t *testing.T) {
	r := Region{RoundedRect(Pt(0, 0), 20, 10, 5), Circle(Pt(0, 0), 2).Reversed()}
	tr := IndexOf(r)
	for x := -12.0; x <= 12; x++ {
		for y := -6.0; y <= 6; y++ {
			p := Pt(x, y)
			if _, d2 := tr.closest(p, math.Inf(1)); d2 < 1e-18 {
				if w := tr.windingAt(p); w != 0 && w != 1 {
					t.Errorf("winding on the boundary at %v is %d", p, w)
				}
				continue
			}
			in := p.Dist(Pt(0, 0)) > 2 && Line(Pt(-5, 0), Pt(5, 0)).Closest(p).Dist(p) < 5
			if tr.Contains(p) != in {
				t.Errorf("%v within is %v, want %v", p, !in, in)
			}
		}
	}
}

func TestClosePairs(t *testing.T) {
	rng := seeded(t, 5)
	var rs []Region
	for range 60 {
		c := Pt(200*rng.Float64(), 200*rng.Float64())
		rs = append(rs, Region{Circle(c, 2+4*rng.Float64())})
	}
	rs[7] = nil
	have := ClosePairs(rs, 5)
	k := 0
	for i := range rs {
		for j := i + 1; j < len(rs); j++ {
			d, _, _ := Distance(rs[i], rs[j])
			if d > 5 {
				continue
			}
			if k >= len(have) || have[k].I != i || have[k].J != j || have[k].Dist != d || math.Abs(have[k].A.Dist(have[k].B)-d) > 1e-12 {
				t.Fatalf("pair %d, %d at %g is missing or wrong", i, j, d)
			}
			k++
		}
	}
	if k != len(have) {
		t.Errorf("%d pairs, want %d", len(have), k)
	}
	touch := []Region{{Rect(Pt(0, 0), 10, 10)}, {Rect(Pt(13, 0), 10, 10)}}
	if p := ClosePairs(touch, 3); len(p) != 1 {
		t.Errorf("a gap of exactly the threshold counts: got %v", p)
	}
}

func FuzzSegDistance(f *testing.F) {
	f.Add(0.0, 0.0, 10.0, 0.0, 0.5, 3.0, 3.0, 8.0, 9.0, -1.0)
	f.Add(0.0, 0.0, 10.0, 0.0, 0.0, 0.0, 5.0, 10.0, 5.0, 0.0)
	f.Fuzz(func(t *testing.T, ax, ay, bx, by, ba, cx, cy, dx, dy, bb float64) {
		for _, v := range []float64{ax, ay, bx, by, cx, cy, dx, dy} {
			if !(math.Abs(v) < 1e4) {
				return
			}
		}
		if !(math.Abs(ba) < 50) || !(math.Abs(bb) < 50) || ba != 0 && math.Abs(ba) < 1e-4 || bb != 0 && math.Abs(bb) < 1e-4 {
			return
		}
		a, b := ArcBulge(Pt(ax, ay), Pt(bx, by), ba), ArcBulge(Pt(cx, cy), Pt(dx, dy), bb)
		if a.A.Dist(a.B) < 1e-3 || b.A.Dist(b.B) < 1e-3 {
			return
		}
		d, pa, pb := SegDistance(a, b)
		e, _, _ := SegDistance(b.Reversed(), a.Reversed())
		if math.Abs(d-e) > 1e-5 || math.Abs(pa.Dist(pb)-d) > 1e-5 {
			t.Fatalf("%v, %v: %g, exchanged %g, witnesses %g apart", a, b, d, e, pa.Dist(pb))
		}
		if s := bySampling(Path{a}, Path{b}, 50); d > s+1e-6 {
			t.Fatalf("%v, %v: %g, but sampled %g", a, b, d, s)
		}
	})
}

func benchDistance(b *testing.B, p, q Path) {
	b.ReportAllocs()
	for b.Loop() {
		Distance(Region{p}, Region{q})
	}
}

func BenchmarkDistance5k(b *testing.B) {
	benchDistance(b, chordsOf(Pt(0, 0), 200, 0.1, 5000), chordsOf(Pt(480, 30), 200, 0.1, 5000))
}

func BenchmarkDistance266Arcs(b *testing.B) {
	benchDistance(b, outlineOf(Pt(0, 0), 200, 0.1, 266), outlineOf(Pt(480, 30), 200, 0.1, 266))
}

// The worst case for branch and bound: everything is about as near.
func BenchmarkDistanceConcentric5k(b *testing.B) {
	p := chordsOf(Pt(0, 0), 200, 0.1, 5000)
	benchDistance(b, p, append(Path{}, Scale(1.1).Path(p)...).Reversed())
}

func BenchmarkWithin5k(b *testing.B) {
	t := IndexOf(Region{chordsOf(Pt(0, 0), 200, 0.1, 5000)})
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		t.Contains(Pt(float64(i%400)-200, float64(i%300)-150))
	}
}

// Segments one behind the other on a line that lies askew are as far apart as
// their nearest ends, whatever the rounding of the products says.
func TestSegDistanceBehindEachOther(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	for range 200000 {
		at, u := Pt(rng.Float64()*2000-1000, rng.Float64()*2000-1000), Angle(rng.Float64()*7).Unit()
		var x [4]float64
		x[0] = rng.Float64() * 100
		for i := range 3 {
			x[i+1] = x[i] + 1e-3 + rng.Float64()*40
		}
		on := func(v float64) Point { return at.Add(u.Mul(v)) }
		a, b := Line(on(x[0]), on(x[1])), Line(on(x[2]), on(x[3]))
		if d, pa, pb := SegDistance(a, b); math.Abs(d-(x[2]-x[1])) > 1e-9 || pa != a.B || pb != b.A {
			t.Fatalf("%v and %v are %g apart, want %g", a, b, d, x[2]-x[1])
		}
	}
}
