package space_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"routwright/geom"
	"routwright/templates/part"
	"routwright/templates/space"
)

var pairs = flag.Int("pairs", 300, "random pairs of parts to measure")

// The oracle knows neither pieces nor supports: it projects points onto the
// bodies as they are described, over the segments of their plans, and goes to
// and fro between the two from many starts. What it finds is a distance of two
// real points, so that it can only be too long; where the program's distance is
// too short it cannot be reached, where it is too long it is undercut.

// project returns the point of a part nearest to q.
func project(p part.Part, q part.Point) part.Point {
	best, least := part.Point{}, math.Inf(1)
	try := func(c part.Point) {
		if d := c.Dist(q); d < least {
			best, least = c, d
		}
	}
	for i := range p.Solids {
		projectPrism(&p.Solids[i], q, try)
	}
	for _, b := range p.Bores {
		l := b.Length()
		u := part.Point{X: (b.To.X - b.From.X) / l, Y: (b.To.Y - b.From.Y) / l, Z: (b.To.Z - b.From.Z) / l}
		w := part.Point{X: q.X - b.From.X, Y: q.Y - b.From.Y, Z: q.Z - b.From.Z}
		t := w.X*u.X + w.Y*u.Y + w.Z*u.Z
		off := part.Point{X: w.X - t*u.X, Y: w.Y - t*u.Y, Z: w.Z - t*u.Z}
		r := math.Sqrt(off.X*off.X + off.Y*off.Y + off.Z*off.Z)
		k := 1.0
		if r > b.D/2 {
			k = b.D / 2 / r
		}
		t = math.Max(0, math.Min(l, t))
		try(part.Point{X: b.From.X + t*u.X + k*off.X, Y: b.From.Y + t*u.Y + k*off.Y, Z: b.From.Z + t*u.Z + k*off.Z})
	}
	return best
}

func projectPrism(s *part.Solid, q part.Point, try func(part.Point)) {
	clamp := func(p geom.Point) part.Point {
		return part.Point{X: p.X, Y: p.Y, Z: math.Max(s.Top.At(p), math.Min(s.Floor.At(p), q.Z))}
	}
	in := s.Plan.Contains(q.Flat())
	if in {
		try(clamp(q.Flat()))
	}
	for _, f := range []part.Plane{s.Top, s.Floor} { // foot on the surface
		n := 1 + f.DX*f.DX + f.DY*f.DY
		k := (q.Z - f.At(q.Flat())) / n
		p := geom.Pt(q.X+k*f.DX, q.Y+k*f.DY)
		if s.Plan.Contains(p) {
			try(clamp(p))
		}
	}
	for _, loop := range s.Plan {
		for _, e := range loop {
			// Along a segment the distance falls and rises few times: sample, then
			// close in on the best.
			const n = 24
			at := func(t float64) float64 { return clamp(e.At(t)).Dist(q) }
			k, least := 0, math.Inf(1)
			for i := 0; i <= n; i++ {
				if d := at(float64(i) / n); d < least {
					k, least = i, d
				}
			}
			lo, hi := math.Max(0, float64(k-1)/n), math.Min(1, float64(k+1)/n)
			for range 40 {
				a, b := lo+0.382*(hi-lo), lo+0.618*(hi-lo)
				if at(a) < at(b) {
					hi = b
				} else {
					lo = a
				}
			}
			try(clamp(e.At((lo + hi) / 2)))
		}
	}
}

// starts returns points spread over a part.
func starts(p part.Part) []part.Point {
	var out []part.Point
	for _, s := range p.Solids {
		b := s.Plan.Bounds()
		try := func(q geom.Point) {
			for _, t := range []float64{0, 0.5, 1} {
				z := s.Top.At(q) + t*(s.Floor.At(q)-s.Top.At(q))
				out = append(out, part.Point{X: q.X, Y: q.Y, Z: z})
			}
		}
		for _, loop := range s.Plan {
			for _, e := range loop {
				for _, t := range []float64{0, 0.2, 0.4, 0.6, 0.8} {
					try(e.At(t))
				}
			}
		}
		for i := range 5 {
			for k := range 5 {
				if q := geom.Pt(b.Min.X+b.W()*float64(i)/4, b.Min.Y+b.H()*float64(k)/4); s.Plan.Contains(q) {
					try(q)
				}
			}
		}
	}
	for _, b := range p.Bores {
		for i := range 20 {
			out = append(out, b.From.Lerp(b.To, float64(i)/19))
		}
	}
	return out
}

func oracle(a, b part.Part) float64 {
	type start struct {
		p part.Point
		d float64
	}
	var near []start // the nearest few
	for _, p := range starts(a) {
		d := project(b, p).Dist(p)
		i := len(near)
		for i > 0 && near[i-1].d > d {
			i--
		}
		near = append(near[:i], append([]start{{p, d}}, near[i:]...)...)
		near = near[:min(len(near), 6)]
	}
	least := math.Inf(1)
	for _, s := range near {
		p, was := s.p, math.Inf(1)
		for range 3000 { // near to parallel surfaces it creeps
			q := project(b, p)
			p = project(a, q)
			d := p.Dist(q)
			least = math.Min(least, d)
			if was-d < 1e-8 {
				break
			}
			was = d
		}
	}
	return least
}

// randomPart returns a prism, level or sloped, or one or two bores, within some
// 100 mm of the origin.
func randomPart(rng *rand.Rand, kind int) part.Part {
	f := func(lo, hi float64) float64 { return lo + rng.Float64()*(hi-lo) }
	if kind == 0 {
		var p part.Part
		for range 1 + rng.IntN(2) {
			a := part.Point{X: f(-60, 60), Y: f(-60, 60), Z: f(0, 45)}
			b := part.Point{X: a.X + f(-70, 70), Y: a.Y + f(-70, 70), Z: f(0, 45)}
			if rng.IntN(4) == 0 {
				b = part.Point{X: a.X, Y: a.Y, Z: a.Z + f(5, 40)}
			}
			p.Bores = append(p.Bores, part.Bore{From: a, To: b, D: f(2, 22)})
		}
		return p
	}
	turn := geom.Pose(geom.Pt(f(-60, 60), f(-60, 60)), geom.Angle(f(0, 7)))
	var plan geom.Region
	switch kind {
	case 1:
		plan = geom.Region{geom.RoundedRect(geom.Pt(0, 0), f(15, 80), f(15, 60), f(0.5, 8))}
	case 2: // a waist with hollow sides
		w := f(20, 40)
		plan = geom.Region{{
			geom.Line(geom.Pt(-w, -12), geom.Pt(w, -12)),
			geom.ArcThrough(geom.Pt(w, -12), geom.Pt(w-f(2, 10), 0), geom.Pt(w, 12)),
			geom.ArcThrough(geom.Pt(w, 12), geom.Pt(0, f(3, 9)), geom.Pt(-w, 12)),
			geom.ArcThrough(geom.Pt(-w, 12), geom.Pt(-w-f(2, 10), 0), geom.Pt(-w, -12)),
		}}
	case 3: // an ell, and a ring round a hole
		plan = geom.Region{geom.Polygon(geom.Pt(0, 0), geom.Pt(f(30, 60), 0), geom.Pt(f(30, 60), 15), geom.Pt(15, 18), geom.Pt(13, f(30, 60)), geom.Pt(0, 40))}
	default:
		r := f(12, 30)
		plan = geom.Region{geom.Circle(geom.Pt(0, 0), r), geom.Circle(geom.Pt(0, f(-1, 1)), r-f(3, 9)).Reversed()}
	}
	s := part.Solid{Plan: turn.Region(plan), Top: part.Level(f(0, 20))}
	s.Floor = part.Level(s.Top.Z + f(2, 25))
	if rng.IntN(2) == 0 { // slopes that keep top over floor within 200 mm
		k := func() float64 { return f(-0.15, 0.15) }
		s.Top.DX, s.Top.DY = k(), k()
		s.Floor.DX, s.Floor.DY = s.Top.DX+f(-0.006, 0.006), s.Top.DY+f(-0.006, 0.006)
	}
	return part.Part{Solids: []part.Solid{s}}
}

func TestDistanceAgainstProjections(t *testing.T) {
	n := *pairs
	if testing.Short() {
		n = min(n, 150)
	}
	rng := rand.New(rand.NewPCG(8, 1))
	var most, mean float64
	var spent time.Duration
	apart := 0
	for i := range n {
		a, b := randomPart(rng, rng.IntN(5)), randomPart(rng, rng.IntN(5))
		began := time.Now()
		g := space.Distance(a, b)
		spent += time.Since(began)
		want := oracle(a, b)
		off := math.Abs(g.D - want)
		if off > 0.02 {
			t.Errorf("pair %d: %.4f mm, projections find %.4f\n%#v\n%#v", i, g.D, want, a, b)
		}
		if d := g.A.Dist(g.B); math.Abs(d-g.D) > 1e-9 {
			t.Errorf("pair %d: witnesses %.6f mm apart, distance %.6f", i, d, g.D)
		}
		if da, db := project(a, g.A).Dist(g.A), project(b, g.B).Dist(g.B); da > 2e-3 || db > 2e-3 {
			t.Errorf("pair %d: witnesses %.4f and %.4f mm off their bodies", i, da, db)
		}
		if back := space.Distance(b, a); math.Abs(back.D-g.D) > space.Slack {
			t.Errorf("pair %d: %.5f one way, %.5f the other", i, g.D, back.D)
		}
		if g.D > 0 {
			apart++
		}
		most, mean = math.Max(most, off), mean+off/float64(n)
	}
	t.Logf("%d pairs, %d apart: off by %.5f mm at most, %.6f in the mean; %v a pair", n, apart, most, mean, spent/time.Duration(n))
}

// Closed forms. A level plan beside another: Pythagoras; skew cylinders: the
// distance of skew lines; a prism under a sloped floor: the distance of a point
// from a plane.
func TestDistanceClosedForms(t *testing.T) {
	square := func(x, y, w float64, top, floor part.Plane) part.Part {
		return part.Part{Solids: []part.Solid{{Plan: geom.Region{geom.Rect(geom.Pt(x, y), w, w)}, Top: top, Floor: floor}}}
	}
	bore := func(a, b part.Point, d float64) part.Part {
		return part.Part{Bores: []part.Bore{{From: a, To: b, D: d}}}
	}
	l := part.Level
	for _, tt := range []struct {
		what string
		a, b part.Part
		want float64
		z    float64 // depth of the middle
	}{
		{"beside and above", square(0, 0, 20, l(0), l(10)), square(33, 0, 20, l(14), l(30)), math.Hypot(13, 4), 12},
		{"above", square(0, 0, 20, l(0), l(10)), square(5, 0, 20, l(14), l(30)), 4, 12},
		{"sharing depths", square(0, 0, 20, l(0), l(10)), square(26, 0, 20, l(4), l(30)), 6, 7},
		{"into each other", square(0, 0, 20, l(0), l(10)), square(15, 0, 20, l(4), l(30)), 0, 7},
		{"crossing bores", bore(part.Point{X: -50, Z: 10}, part.Point{X: 50, Z: 10}, 8), bore(part.Point{Y: -50, Z: 30}, part.Point{Y: 50, Z: 30}, 6), 13, 0},
		{"skew bores", bore(part.Point{X: -50, Z: 10}, part.Point{X: 50, Z: 20}, 8), bore(part.Point{Y: -50, Z: 40}, part.Point{Y: 50, Z: 40}, 6),
			25*math.Cos(math.Atan(0.1)) - 7, -1},
		{"sloped floor over a square", square(0, 0, 40, l(0), part.Plane{Z: 10, DX: 0.2}), square(0, 0, 10, l(20), l(30)), 9 * math.Cos(math.Atan(0.2)), -1},
		{"a line over a square", bore(part.Point{X: -5, Y: 3, Z: 14}, part.Point{X: 5, Y: 3, Z: 14}, 0), square(0, 0, 20, l(0), l(10)), 4, 12},
		{"a line square to a face", bore(part.Point{X: 14, Z: 2}, part.Point{X: 14, Z: 9}, 0), square(0, 0, 20, l(0), l(10)), 4, -1},
		{"bore square to a wall", bore(part.Point{X: 60, Z: 8}, part.Point{X: 15, Z: 8}, 8), square(0, 0, 20, l(0), part.Plane{Z: 10, DX: 0.001}), 5, -1},
	} {
		g := space.Distance(tt.a, tt.b)
		if math.Abs(g.D-tt.want) > space.Slack {
			t.Errorf("%s: %.6f mm, want %.6f", tt.what, g.D, tt.want)
		}
		if tt.z > 0 && math.Abs(g.Depth()-tt.z) > 1e-9 {
			t.Errorf("%s: depth %.3f, want %.3f", tt.what, g.Depth(), tt.z)
		}
		if h := space.Of(tt.a).Within(space.Of(tt.b), tt.want); tt.want > 0 && h.D < tt.want-space.Slack {
			t.Errorf("%s: within %g: %.6f", tt.what, tt.want, h.D)
		}
		if h := space.Of(tt.a).Within(space.Of(tt.b), tt.want+0.01); tt.want > 0 && math.Abs(h.D-tt.want) > space.Slack {
			t.Errorf("%s: within a little more: %.6f, want %.6f", tt.what, h.D, tt.want)
		}
	}
}

// Depths of a round floor that slopes: centre ± radius times the slope; of a
// slanting bore: its end and the rim beyond it.
func TestDepths(t *testing.T) {
	p := part.Part{Solids: []part.Solid{{Plan: geom.Region{geom.Circle(geom.Pt(10, 20), 15)}, Top: part.Level(2), Floor: part.Plane{Z: 10, DX: 0.3, DY: 0.4}}}}
	top, floor := space.Of(p).Depths()
	if want := 10 + 0.3*10 + 0.4*20 + 15*0.5; top.Z != 2 || math.Abs(floor.Z-want) > 1e-9 {
		t.Errorf("prism: %.6f to %.6f, want 2 to %.6f", top.Z, floor.Z, want)
	}
	q := part.Part{Bores: []part.Bore{{From: part.Point{Z: 10}, To: part.Point{X: 30, Z: 50}, D: 10}}} // 3-4-5
	if g := space.Of(q).ToFace(part.Back, 60); math.Abs(g.D-(10-5*0.6)) > 1e-9 {
		t.Errorf("bore to the back: %.6f, want 7", g.D)
	}
	if g := space.Of(q).ToFace(part.Front, 60); math.Abs(g.D-(10-5*0.6)) > 1e-9 {
		t.Errorf("bore to the front: %.6f, want 7", g.D)
	}
}
