package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestLeastWallClosedForms(t *testing.T) {
	plate := Rect(Pt(0, 0), 120, 80)
	tests := []struct {
		name string
		r    Region
		want float64
	}{
		{"circle", Region{Circle(Pt(3, 4), 7)}, 14},
		{"rectangle", Region{Rect(Pt(0, 0), 120, 80)}, 80},
		{"square", Region{Rect(Pt(0, 0), 80, 80)}, 80},
		{"slot", Region{Stadium(Pt(0, 0), Pt(50, 0), 10)}, 20},
		{"annulus", Region{Circle(Pt(0, 0), 30), Circle(Pt(0, 0), 20).Reversed()}, 10},
		{"eccentric hole", Region{Circle(Pt(0, 0), 30), Circle(Pt(4, 3), 10).Reversed()}, 15},
		{"two holes", Region{plate, Circle(Pt(-10, 0), 6).Reversed(), Circle(Pt(9, 0), 6).Reversed()}, 7},
		{"hole near the edge", Region{plate, Circle(Pt(50, 5), 6).Reversed()}, 4},
		{"pocket corner to pocket corner", Region{plate, Rect(Pt(-20, -15), 30, 20).Reversed(), Rect(Pt(14, 9), 30, 20).Reversed()}, math.Hypot(4, 4)},
		{"pocket beside pocket", Region{plate, Rect(Pt(-20, -5), 30, 20).Reversed(), Rect(Pt(14, 9), 30, 20).Reversed()}, 4},
		{"waist of a key", Region{Polygon(Pt(-25, -12.5), Pt(0, -5), Pt(25, -12.5), Pt(25, 12.5), Pt(0, 5), Pt(-25, 12.5))}, 10},
		{"heel that tapers", Region{Polygon(Pt(-27.7, 0), Pt(27.7, 0), Pt(28, 76), Pt(-28, 76))}, 55.4},
		{"one side tapers", Region{Polygon(Pt(0, 0), Pt(50, 0), Pt(51, 90), Pt(0, 90))}, 50},
		{"triangle", Region{Polygon(Pt(0, 0), Pt(40, 0), Pt(20, 30))}, math.Inf(1)},
		{"slender wedge", Region{Polygon(Pt(0, 0), Pt(100, 0), Pt(0, 3))}, math.Inf(1)},
		{"L", Region{Polygon(Pt(0, 0), Pt(100, 0), Pt(100, 30), Pt(40, 30), Pt(40, 80), Pt(0, 80))}, 30},
		{"nothing", nil, math.Inf(1)},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			k := s.t.Factor()
			w, a, b := LeastWall(s.of(tt.r))
			sameLength(t, tt.name+", "+s.name, w, tt.want*k, 1e-8*max(1, k))
			if !math.IsInf(w, 1) {
				sameLength(t, tt.name+", "+s.name+": witnesses", a.Dist(b), w, 1e-9*max(1, k))
			}
		}
	}
}

// A heel with rounded corners keeps its least width at the end of its sides.
func TestLeastWallOfRoundedTaper(t *testing.T) {
	tests := []struct{ r float64 }{{2}, {6.35}, {12}}
	for _, tt := range tests {
		p := Polygon(Pt(-27.7, 0), Pt(27.7, 0), Pt(28, 76), Pt(-28, 76))
		q := filletAll(p, tt.r)
		w, a, b := LeastWall(Region{q})
		// Half width at the tangent point, r·tan(45° − δ/2)·cos δ up the side.
		d := math.Atan(0.3 / 76)
		up := tt.r * math.Tan(math.Pi/4-d/2)
		want := 2 * (27.7 + up*math.Sin(d))
		if math.Abs(w-want) > 1e-6 {
			t.Errorf("radius %g: %.9g between %v and %v, want %.9g", tt.r, w, a, b, want)
		}
	}
}

// filletAll rounds the corners of a polygon.
func filletAll(p Path, r float64) Path {
	n := len(p)
	var out Path
	type fillet struct{ a, b, c Point }
	ends := make([]fillet, n)
	turns := make([]int8, n)
	for i := range p {
		u, v := p[(i+n-1)%n].Tangent(1), p[i].Tangent(0)
		turn := math.Atan2(u.Cross(v), u.Dot(v))
		t := r * math.Tan(math.Abs(turn)/2)
		a, b := p[i].A.Add(u.Mul(-t)), p[i].A.Add(v.Mul(t))
		turns[i] = int8(math.Copysign(1, turn))
		ends[i] = fillet{a, b, a.Add(u.Left().Mul(math.Copysign(r, turn)))}
	}
	for i := range p {
		e, f := ends[i], ends[(i+1)%n]
		out = append(out, ArcAbout(e.c, e.a, e.b, turns[i]), Line(e.b, f.a))
	}
	return out
}

// roundStar is a smooth random outline round the origin: a star of k points within
// 20 and 40 mm, its corners rounded by 1 to 4 mm.
func roundStar(rng *rand.Rand, k int) Path {
	for {
		v := make([]Point, k)
		for i := range v {
			a := Angle(float64(i)+0.4*rng.Float64()) * 2 * math.Pi / Angle(k)
			v[i] = Pt(0, 0).Add(a.Unit().Mul(20 + 20*rng.Float64()))
		}
		p := filletAll(Polygon(v...), 1+3*rng.Float64())
		ok := true
		for i := 1; i < len(p); i += 2 { // the lines keep their direction
			a, b := v[i/2], v[(i/2+1)%k]
			ok = ok && p[i].B.Sub(p[i].A).Dot(b.Sub(a)) > 0
		}
		if ok {
			return p
		}
	}
}

// rolling returns the least radius over dense boundary places of the largest
// disc that touches there from inside: every other place x must stay out of it,
// so its radius is at most |x − p|²/2n·(x − p).
func rolling(r Region, step float64) float64 {
	type place struct {
		p Point
		n Vec
	}
	var ps []place
	for _, l := range r {
		for _, s := range l {
			k := max(1, int(math.Ceil(s.Length()/step)))
			for i := range k {
				x := (float64(i) + 0.5) / float64(k)
				ps = append(ps, place{s.At(x), s.Tangent(x).Left()})
			}
		}
	}
	least := math.Inf(1)
	for _, a := range ps {
		for _, b := range ps {
			v := b.p.Sub(a.p)
			if h := v.Dot(a.n); h > 1e-9 {
				least = math.Min(least, v.Dot(v)/(2*h))
			}
		}
	}
	return least
}

// On smooth outlines the disc that just rolls everywhere is the largest that
// clears.
func TestLargestClearingAgainstRolling(t *testing.T) {
	rng := seeded(t, 51)
	for i := range 25 {
		r := Region{roundStar(rng, 3+rng.IntN(9))}
		if i%2 == 0 {
			c := Pt(0, 0).Add((Angle(i)).Unit().Mul(9 * rng.Float64()))
			if d, _, _ := PathDistance(Circle(c, 5), r[0]); d > 0.5 {
				r = append(r, Circle(c, 5).Reversed())
			}
		}
		have, _ := LargestClearing(r)
		want := rolling(r, 0.12)
		if have > want*1.0001 || have < want*0.99 {
			t.Errorf("case %d: clears with %.6g, rolling finds %.6g", i, have, want)
		}
	}
}

func TestLargestClearingClosedForms(t *testing.T) {
	tests := []struct {
		name string
		r    Region
		want float64
	}{
		{"rectangle", Region{Rect(Pt(0, 0), 120, 80)}, 0},
		{"rounded rectangle", Region{RoundedRect(Pt(0, 0), 120, 80, 15)}, 15},
		{"slot", Region{Stadium(Pt(0, 0), Pt(50, 0), 10)}, 10},
		{"plate with holes", Region{RoundedRect(Pt(0, 0), 120, 80, 15), Circle(Pt(-10, 0), 6).Reversed(), Circle(Pt(9, 0), 6).Reversed()}, 3.5},
		{"nothing", nil, 0},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			k := s.t.Factor()
			have, _ := LargestClearing(s.of(tt.r))
			sameLength(t, tt.name+", "+s.name, have, tt.want*k, 1e-9*max(1, k))
		}
	}
}

func TestTightestRadius(t *testing.T) {
	inf := math.Inf(1)
	tests := []struct {
		name    string
		r       Region
		in, out float64
	}{
		{"rectangle", Region{Rect(Pt(0, 0), 9, 5)}, 0, inf},
		{"rounded", Region{RoundedRect(Pt(0, 0), 9, 5, 1.5)}, 1.5, inf},
		{"rounded with a hole", Region{RoundedRect(Pt(0, 0), 9, 5, 1.5), Circle(Pt(0, 0), 1).Reversed()}, 1.5, 1},
		{"with a square hole", Region{Circle(Pt(0, 0), 9), Rect(Pt(0, 0), 2, 2).Reversed()}, 9, 0},
		{"nothing", nil, inf, inf},
	}
	for _, tt := range tests {
		for _, s := range reachPoses() {
			k := s.t.Factor()
			in, out := TightestRadius(s.of(tt.r))
			sameLength(t, tt.name+", "+s.name+": inside", in.Radius, tt.in*k, 1e-9*max(1, k))
			sameLength(t, tt.name+", "+s.name+": outside", out.Radius, tt.out*k, 1e-9*max(1, k))
		}
	}
}

func BenchmarkLeastWall(b *testing.B) {
	for _, c := range []struct {
		name string
		r    Region
	}{
		{"266Arcs", Region{outlineOf(Pt(0, 0), 200, 0.1, 266)}},
		{"5kChords", Region{chordsOf(Pt(0, 0), 200, 0.1, 5000)}},
		{"PlateWithHoles", Region{outlineOf(Pt(0, 0), 200, 0.1, 266), Circle(Pt(-10, 0), 6).Reversed(), Circle(Pt(9, 0), 6).Reversed()}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				LeastWall(c.r)
			}
		})
	}
}

// The neck of a peanut, r = 40·(1 + cos(2a)/2), is 40 wide, drawn in arcs or in
// chords (which cut across the hollow by their sagitta).
func TestLeastWallOfCurvesInChords(t *testing.T) {
	at := func(a float64) Point {
		return Pt(0, 0).Add(Angle(a).Unit().Mul(40 * (1 + math.Cos(2*a)/2)))
	}
	for _, n := range []int{30, 37, 100, 1001, 5000} {
		var arcs, chords Path
		step := 2 * math.Pi / float64(n)
		for i := range n {
			a, b := float64(i)*step, float64(i+1)*step
			if i == n-1 {
				b = 0
			}
			arcs = append(arcs, ArcThrough(at(a), at(a+step/2), at(b)))
			chords = append(chords, Line(at(a), at(b)))
		}
		for _, s := range reachPoses()[:6] {
			w, a, b := LeastWall(s.of(Region{arcs}))
			sameLength(t, label(n, "arcs, "+s.name), w, 40, 2000/float64(n*n*n))
			if y := a.Lerp(b, 0.5).Dist(s.t.Point(Pt(0, 0))); y > 0.5 {
				t.Errorf("%d arcs, %s: the neck is %g beside its place", n, s.name, y)
			}
			w, _, _ = LeastWall(s.of(Region{chords}))
			sameLength(t, label(n, "chords, "+s.name), w, 40, 2000/float64(n*n))
		}
	}
}
