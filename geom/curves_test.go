package geom

import (
	"math"
	"math/rand"
	"testing"
)

// TestEllipse compares the fit of a 60 × 35 ellipse with its closed forms:
// area π·a·b, perimeter 4a·E(m) = 303.641157808527 (textbook closed form).
func TestEllipse(t *testing.T) {
	for _, tol := range []float64{1e-2, 1e-3, 1e-4} {
		for _, turns := range []Angle{1, -1} {
			e := EllipticArc(Pt(7, -3), 60, 35, 0.4, 1, turns*2*math.Pi)
			p, err := FitCurve(e, tol)
			if err != nil {
				t.Fatal(err)
			}
			if !p.Closed() || p.Check() != nil {
				t.Fatalf("closed %v, %v", p.Closed(), p.Check())
			}
			l, a := p.Length(), p.Area()*float64(turns)
			if math.Abs(l-303.641157808527) > 2*tol || math.Abs(a-math.Pi*60*35) > 304*tol {
				t.Errorf("tol %g: length %.6f, area %.6f", tol, l, a)
			}
			there, _ := fitErrors(p, []Curve{e})
			if k, c := kinks(p); k > 1e-6 || c > 0 || there > tol {
				t.Errorf("tol %g: kink %g, corners %d, error %g", tol, k, c, there)
			}
			t.Logf("tol %g: %d arcs", tol, len(p))
		}
	}
	// The closed path starts and ends in one point, bit for bit.
	if p, err := FitCurve(EllipticArc(Pt(0, 0), 10, 10, 0, 0, 2*math.Pi), 0); err != nil || len(p) > 4 || !p.Closed() {
		t.Errorf("circle as an ellipse: %v, %v; want few arcs", p, err)
	}
}

func TestAffine(t *testing.T) {
	m, n := Affine{2, 0.3, -0.5, 1.1, 4, -7}, Affine{0.2, -1, 1, 0.4, 3, 3}
	c := Cubic{{0, 0}, {10, 30}, {40, -20}, {60, 5}}
	e := EllipticArc(Pt(1, 2), 5, 3, 0.3, 0.2, 2)
	mn := m.Then(n)
	for k := 0.0; k <= 1; k += 0.125 {
		if d := mn.Cubic(c).At(k).Dist(n.Point(m.Point(c.At(k)))); d > 1e-12 {
			t.Errorf("cubic at %g: %g", k, d)
		}
		if d := mn.Ellipse(e).At(k).Dist(n.Point(m.Point(e.At(k)))); d > 1e-12 {
			t.Errorf("ellipse at %g: %g", k, d)
		}
	}
	if _, _, ok := m.Similar(); ok {
		t.Error("a stretch taken for a similarity")
	}
	if s, mir, ok := (Affine{0, 3, 3, 0, 1, 1}).Similar(); s != 3 || !mir || !ok {
		t.Errorf("mirror by 3: %g %v %v", s, mir, ok)
	}
}

func TestCubic(t *testing.T) {
	c := Cubic{{0, 0}, {10, 30}, {40, -20}, {60, 5}}
	a, b := c.Split(0.3)
	for k := 0.0; k <= 1; k += 0.25 {
		if d := a.At(k).Dist(c.At(0.3 * k)); d > 1e-12 {
			t.Errorf("first part at %g: %g", k, d)
		}
		if d := b.Reversed().At(k).Dist(c.At(1 - 0.7*k)); d > 1e-12 {
			t.Errorf("second part at %g: %g", k, d)
		}
		const h = 1e-6
		want := c.At(k + h).Sub(c.At(k - h)).Mul(1 / (2 * h))
		if d := c.Deriv(k).Sub(want).Len(); d > 1e-6 {
			t.Errorf("derivative at %g: %g", k, d)
		}
	}
	q := QuadraticCubic(Pt(0, 0), Pt(4, 8), Pt(10, 0))
	// A quadratic Bézier at 1/2 is (a + 2b + c)/4.
	if got := q.At(0.5); got.Dist(Pt(4.5, 4)) > 1e-12 {
		t.Errorf("quadratic at 1/2: %v", got)
	}
	// Textbook handles of a quarter circle: at most 2.7253e-4 of the radius off.
	const k = 0.552284749830793
	quarter := Cubic{{100, 0}, {100, 100 * k}, {100 * k, 100}, {0, 100}}
	p, err := FitCurve(quarter, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for _, s := range p {
		for u := 0.0; u <= 1; u += 0.125 {
			most = math.Max(most, s.At(u).Dist(Pt(0, 0))-100)
		}
	}
	if math.Abs(most-0.027253) > 2e-4 {
		t.Errorf("quarter circle %.6f off, want 0.027253", most)
	}
	// Its length: 1.57101669807386 radii (from memory of no source: integrated).
	if l := p.Length(); math.Abs(l-157.101669807386) > 2e-4 {
		t.Errorf("length %.9f", l)
	}
}

func TestFitCorners(t *testing.T) {
	for _, tt := range []struct {
		name    string
		cs      []Cubic
		corners int
		lines   int
		most    int
	}{
		{"straight", []Cubic{{{0, 0}, {10, 5}, {20, 10}, {60, 30}}}, 0, 1, 1},
		{"straight in two", []Cubic{{{0, 0}, {10, 5}, {20, 10}, {40, 20}}, {{40, 20}, {44, 22}, {50, 25}, {60, 30}}}, 0, 1, 1},
		{"handles at the ends", []Cubic{{{0, 0}, {0, 0}, {60, 30}, {60, 30}}}, 0, 1, 1},
		{"cusp", []Cubic{{{0, 0}, {100, 100}, {0, 100}, {100, 0}}}, 1, 0, 200},
		{"corner between", []Cubic{{{0, 0}, {10, 0}, {20, 5}, {30, 5}}, {{30, 5}, {30, 15}, {35, 20}, {40, 20}}}, 1, 0, 100},
		{"loop", []Cubic{{{0, 0}, {100, 80}, {-40, 80}, {60, 0}}}, 0, 0, 200},
		{"line then curve", []Cubic{{{0, 0}, {10, 0}, {20, 0}, {30, 0}}, {{30, 0}, {40, 0}, {60, 10}, {60, 30}}}, 0, 1, 60},
	} {
		p, err := FitCubics(tt.cs, 1e-3)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if err := p.Check(); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		k, c := kinks(p)
		lines := 0
		for _, s := range p {
			if !s.IsArc() {
				lines++
			}
		}
		there, back := fitErrors(p, curvesOf(tt.cs))
		if k > 1e-6 || c != tt.corners || lines < tt.lines || len(p) > tt.most || there > 1.01e-3 || back > 2e-3 {
			t.Errorf("%s: kink %g, corners %d, lines %d of %d, errors %g %g", tt.name, k, c, lines, len(p), there, back)
		}
		if p[0].A != tt.cs[0][0] || p[len(p)-1].B.Dist(tt.cs[len(tt.cs)-1][3]) > 1e-9 {
			t.Errorf("%s: ends moved", tt.name)
		}
	}
}

// TestFitVariants fits one chain in every pose, reversed and from every joint:
// the tolerance must hold in each.
func TestFitVariants(t *testing.T) {
	cs := smoothChain(rand.New(rand.NewSource(11)), 6)
	for i := range cs {
		v := append(append([]Cubic{}, cs[i:]...), cs[:i]...)
		checkFit(t, v)
		r := make([]Cubic, len(v))
		for k := range v {
			r[len(v)-1-k] = v[k].Reversed()
		}
		checkFit(t, r)
		for k := range v {
			v[k] = v[k].Transform(Affine{-0.6, 0.8, 0.8, 0.6, 900, 700})
		}
		checkFit(t, v)
	}
}

func checkFit(t *testing.T, cs []Cubic) {
	t.Helper()
	p, err := FitCubics(cs, 2e-3)
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for _, c := range cs {
		for i := 0; i < 200; i++ {
			q, d := c.At(float64(i)/200), math.Inf(1)
			for _, s := range p {
				d = math.Min(d, s.Closest(q).Dist(q))
			}
			most = math.Max(most, d)
		}
	}
	if k, c := kinks(p); k > 1e-6 || c > 0 || most > 2e-3 || !p.Closed() {
		t.Errorf("kink %g, corners %d, error %g, closed %v", k, c, most, p.Closed())
	}
}

func TestFitErrors(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		name string
		cs   []Cubic
		tol  float64
	}{
		{"NaN", []Cubic{{{0, 0}, {nan, 0}, {1, 1}, {2, 2}}}, 1e-3},
		{"infinite", []Cubic{{{0, 0}, {math.Inf(1), 0}, {1, 1}, {2, 2}}}, 1e-3},
		{"huge", []Cubic{{{0, 0}, {1e200, 0}, {1, 1}, {2e300, 2}}}, 1e-3},
		{"gap", []Cubic{{{0, 0}, {1, 0}, {2, 0}, {3, 0}}, {{3.1, 0}, {4, 0}, {5, 0}, {6, 0}}}, 1e-3},
		{"none", nil, 1e-3},
		{"a point", []Cubic{{}, {}}, 1e-3},
		{"tolerance", []Cubic{{{0, 0}, {1, 0}, {2, 0}, {3, 0}}}, -1},
		{"tolerance NaN", []Cubic{{{0, 0}, {1, 0}, {2, 0}, {3, 0}}}, nan},
	} {
		if p, err := FitCubics(tt.cs, tt.tol); err == nil {
			t.Errorf("%s: no error, %v", tt.name, p)
		}
	}
}

// TestNURBS fits a circle of radius 40, the textbook's quadratic of nine points.
func TestNURBS(t *testing.T) {
	w := math.Sqrt2 / 2
	n := NURBS{
		Degree:  2,
		Knots:   []float64{0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4},
		Weights: []float64{1, w, 1, w, 1, w, 1, w, 1},
		Points:  []Point{{40, 0}, {40, 40}, {0, 40}, {-40, 40}, {-40, 0}, {-40, -40}, {0, -40}, {40, -40}, {40, 0}},
	}
	if err := n.Check(); err != nil {
		t.Fatal(err)
	}
	const h = 1e-6
	for k := 0.01; k < 1; k += 0.0371 {
		if d := math.Abs(n.At(k).Dist(Pt(0, 0)) - 40); d > 1e-12 {
			t.Errorf("at %g: %g off the circle", k, d)
		}
		want := n.At(k + h).Sub(n.At(k - h)).Mul(1 / (2 * h))
		if d := n.Deriv(k).Sub(want).Len(); d > 1e-5 {
			t.Errorf("derivative at %g: %v, want %v", k, n.Deriv(k), want)
		}
	}
	p, err := FitCurve(n, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	if len(p) > 8 || !p.Closed() || math.Abs(p.Area()-math.Pi*1600) > 1e-3 {
		t.Errorf("%d segments, closed %v, area %g", len(p), p.Closed(), p.Area())
	}
	// A cubic Bézier as a B-spline is the same curve.
	c := Cubic{{0, 0}, {10, 30}, {40, -20}, {60, 5}}
	b := NURBS{Degree: 3, Knots: []float64{2, 2, 2, 2, 5, 5, 5, 5}, Points: c[:]}
	for k := 0.0; k <= 1; k += 0.125 {
		if d := b.At(k).Dist(c.At(k)) + b.Deriv(k).Sub(c.Deriv(k)).Len(); d > 1e-9 {
			t.Errorf("Bézier at %g: %g", k, d)
		}
	}
	// A polyline is a B-spline of degree 1: its corners stay.
	z := NURBS{Degree: 1, Knots: []float64{0, 0, 1, 2, 3, 3}, Points: []Point{{0, 0}, {10, 0}, {10, 10}, {30, 10}}}
	if p, err := FitCurve(z, 1e-3); err != nil || len(p) != 3 || math.Abs(p.Length()-40) > 1e-4 {
		t.Errorf("polyline: %v, %v", p, err)
	}
}

func TestNURBSErrors(t *testing.T) {
	ps := []Point{{0, 0}, {1, 1}, {2, 0}, {3, 1}}
	for _, n := range []NURBS{
		{},
		{Degree: 3, Knots: []float64{0, 0, 0, 1, 1, 1}, Points: ps},
		{Degree: 3, Knots: []float64{0, 0, 0, 0, 0, 0, 0, 0}, Points: ps},
		{Degree: 3, Knots: []float64{0, 0, 0, 2, 1, 3, 3, 3}, Points: ps},
		{Degree: 1, Knots: []float64{0, 0, 1, 1, 2, 2}, Points: ps},
		{Degree: 3, Knots: []float64{0, 0, 0, 0, 1, 1, 1, 1}, Points: ps, Weights: []float64{1, 0, 1, 1}},
		{Degree: 3, Knots: []float64{0, 0, 0, 0, 1, 1, 1, math.NaN()}, Points: ps},
		{Degree: 99, Knots: nil, Points: ps},
	} {
		if n.Check() == nil {
			t.Errorf("%+v: no error", n)
		}
		if _, err := FitCurve(n, 1e-3); err == nil {
			t.Errorf("%+v: fitted", n)
		}
	}
}

func FuzzFitCubics(f *testing.F) {
	f.Add(0.0, 0.0, 10.0, 30.0, 40.0, -20.0, 60.0, 5.0)
	f.Add(0.0, 0.0, 100.0, 100.0, 0.0, 100.0, 100.0, 0.0)
	f.Add(0.0, 0.0, 1e-7, 0.0, 0.0, 1e-7, 1e-7, 1e-7)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		p, err := FitCubics([]Cubic{{{a, b}, {c, d}, {e, g}, {h, i}}}, 1e-3)
		if err != nil {
			return
		}
		for k, s := range p {
			if !s.A.IsFinite() || !s.B.IsFinite() || !s.Center.IsFinite() || k > 0 && p[k-1].B != s.A {
				t.Fatalf("segment %d of %v", k, p)
			}
		}
	})
}
