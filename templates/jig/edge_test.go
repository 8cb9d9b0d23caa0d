package jig_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/jig"
)

// wavy returns a body of smooth bouts and waists: a circle whose radius swings n
// times by a share.
func wavy(rnd *rand.Rand) geom.Region {
	n, amp, phase := 1+rnd.IntN(3), 0.1*rnd.Float64(), 2*math.Pi*rnd.Float64()
	base := 120 + 60*rnd.Float64()
	var ps []geom.Point
	for i := range 240 {
		a := 2 * math.Pi * float64(i) / 240
		r := base * (1 + amp*math.Cos(float64(n)*a+phase))
		ps = append(ps, geom.Pt(r*math.Cos(a), r*math.Sin(a)))
	}
	p, err := geom.FitPolyline(ps, true, 0.01, 30*geom.Degree)
	if err != nil {
		panic(err)
	}
	return geom.Region{p}
}

// place returns a place of the edge and the way into the body there, turned off
// square by at most 10 degrees.
func place(rnd *rand.Rand, body geom.Region) (geom.Point, geom.Vec) {
	e := body[0][rnd.IntN(len(body[0]))]
	t := rnd.Float64()
	return e.At(t), e.Tangent(t).Unit().Left().Rotate(geom.Angle(20*(rnd.Float64()-0.5)) * geom.Degree)
}

// xor returns the area in which two regions differ.
func xor(t *testing.T, a, b geom.Region) float64 {
	t.Helper()
	var c geom.Calc
	d := c.Xor(a, b).Area()
	if err := c.Err(); err != nil {
		t.Fatal(err)
	}
	return d
}

// Against a round body of radius 150 the face of a caul is an arc of 153, and its
// area that of the rectangle less the circle's: closed form.
func TestEdgeOfACircle(t *testing.T) {
	body := geom.Region{geom.Circle(geom.Pt(150, 0), 150)}
	e, err := jig.Along(body, geom.Pt(0, 0), geom.Vec{X: 1}, 100, 25, 3)
	if err != nil {
		t.Fatal(err)
	}
	const r, h = 153.0, 50.0
	want := (25+3+150)*100 - (h*math.Sqrt(r*r-h*h) + r*r*math.Asin(h/r))
	if got := e.Plan.Area(); math.Abs(got-want) > 1e-6 {
		t.Errorf("area %v, want %v", got, want)
	}
	if e.Skew > 1e-9 || math.Abs(e.Fit.Min-3) > 1e-6 || math.Abs(e.Fit.Max-3) > 1e-6 || math.Abs(e.Fit.Mean-3) > 1e-6 {
		t.Errorf("skew %v, fit %+v", e.Skew, e.Fit)
	}
	a, b := e.Flat()
	if a.Dist(geom.Pt(-28, 50)) > 1e-9 || b.Dist(geom.Pt(-28, -50)) > 1e-9 {
		t.Errorf("flat outside from %v to %v", a, b)
	}
	// Horns as long as the circle falls away over the half span: 150 − √(153² − 50²).
	if long, wide := e.Size(); math.Abs(long-100) > 1e-9 || math.Abs(wide-(28+150-math.Sqrt(r*r-h*h))) > 1e-9 {
		t.Errorf("size %v × %v", long, wide)
	}
}

// In a square hollow corner the lining cannot fill the corner: the body's corner lies
// the gap times √2 from the caul's.
func TestEdgeInAHollowCorner(t *testing.T) {
	body := geom.Region{geom.Polygon(geom.Pt(-100, -100), geom.Pt(100, -100), geom.Pt(100, 0), geom.Pt(0, 0), geom.Pt(0, 100), geom.Pt(-100, 100))}
	e, err := jig.Along(body, geom.Pt(0, 0), geom.Vec{X: -1, Y: -1}, 60, 40, 3)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(e.Fit.Max-3*math.Sqrt2) > 1e-6 || math.Abs(e.Fit.Min-3) > 1e-6 {
		t.Errorf("fit %+v, want 3 to %v", e.Fit, 3*math.Sqrt2)
	}
}

// A caul with its lining never stands in the body, lies on it all along, and does not
// change with the vertex that the outline starts at; a mirrored body has a mirrored
// caul.
func TestEdgeProperties(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	made := 0
	for range 40 {
		body := wavy(rnd)
		at, in := place(rnd, body)
		gap := []float64{0, 2, 3}[rnd.IntN(3)]
		e, err := jig.Along(body, at, in, 60+40*rnd.Float64(), 25, gap)
		if err != nil {
			continue
		}
		made++
		var c geom.Calc
		lined := e.Plan
		if gap > 0 {
			lined = c.Offset(e.Plan, gap-1e-3, geom.Round)
		}
		if a := c.Intersect(lined, body).Area(); a > 1e-6 {
			t.Errorf("gap %v: %v mm² of caul and lining stand in the body", gap, a)
		}
		if err := c.Err(); err != nil {
			t.Fatal(err)
		}
		if e.Fit.Max > gap+1e-3 || e.Fit.Min < gap-1e-3 {
			t.Errorf("gap %v: the face lies %v to %v mm off", gap, e.Fit.Min, e.Fit.Max)
		}
		turned := geom.Region{body[0].From(rnd.IntN(len(body[0])))}
		if f, err := jig.Along(turned, at, in, e.Span, 25, gap); err != nil || xor(t, e.Plan, f.Plan) > 1e-6 {
			t.Errorf("another first vertex makes another caul: %v", err)
		}
		m := geom.MirrorX()
		if f, err := jig.Along(m.Region(body), m.Point(at), m.Vec(in), e.Span, 25, gap); err != nil || xor(t, m.Region(e.Plan), f.Plan) > 1e-6 || math.Abs(float64(e.Skew-f.Skew)) > 1e-9 {
			t.Errorf("a mirrored body has another caul: %v", err)
		}
	}
	if made < 30 {
		t.Errorf("only %d of 40 cauls were made", made)
	}
}

// A block whose flat outside would cut into the body is refused.
func TestEdgeThatCannotBe(t *testing.T) {
	body := geom.Region{geom.Rect(geom.Pt(0, 0), 200, 200)}
	if e, err := jig.Along(body, geom.Pt(-100, 0), geom.Vec{X: 1, Y: 1.2}, 100, 25, 3); err == nil {
		t.Errorf("made %v", e.Plan)
	}
}

// The angle that is told is that of the edge which stands farther off square, on
// whichever side it is.
func TestAcrossASlantedEdge(t *testing.T) {
	tan := math.Tan(15 * math.Pi / 180)
	body := geom.Region{geom.Polygon(geom.Pt(-100, -100), geom.Pt(100-100*tan, -100), geom.Pt(100+100*tan, 100), geom.Pt(-100, 100))}
	crack := geom.Polyline(geom.Pt(-20, -50), geom.Pt(-20, 50))
	for _, m := range []geom.Transform{{}, geom.MirrorX()} {
		p, ok := jig.Across(m.Region(body), m.Path(crack))
		if !ok || math.Abs(p.Skew.Degrees()-15) > 1e-9 || math.Abs(p.Through.Y) > 1.01 {
			t.Errorf("%v %v, want 15°", p, ok)
		}
	}
}

// Over a crack beside the middle of a round body the line of the clamps runs through
// the centre, where it is square to both edges.
func TestAcrossACircle(t *testing.T) {
	body := geom.Region{geom.Circle(geom.Pt(0, 0), 160)}
	crack := geom.Polyline(geom.Pt(-60, -90), geom.Pt(-60, 40))
	p, ok := jig.Across(body, crack)
	if !ok || math.Abs(p.Through.Y) > 1.01 || math.Abs(math.Abs(p.Along.X)-1) > 1e-9 {
		t.Fatalf("%v %v", p, ok)
	}
	// A chord at height y meets the circle at asin(y/R) off square.
	if want := math.Asin(math.Abs(p.Through.Y) / 160); math.Abs(float64(p.Skew)-want) > 1e-9 {
		t.Errorf("skew %v, want %v", p.Skew, want)
	}
	for _, q := range p.Ends {
		if math.Abs(q.Dist(geom.Pt(0, 0))-160) > 1e-9 {
			t.Errorf("%v does not lie on the edge", q)
		}
	}
	m := geom.MirrorX()
	q, ok := jig.Across(m.Region(body), m.Path(crack))
	if !ok || q.Through.Dist(m.Point(p.Through)) > 1e-9 {
		t.Errorf("mirrored: %v, want %v", q.Through, m.Point(p.Through))
	}
	if _, ok := jig.Across(body, geom.Polyline(geom.Pt(200, 0), geom.Pt(200, 50))); ok {
		t.Error("a crack outside the body has clamps")
	}
}
