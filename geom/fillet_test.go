package geom

import (
	"math"
	"strings"
	"testing"
)

// poses are the symmetries under which a construction must not change.
func poses() []Transform {
	return []Transform{{}, Rotate(0.7), MirrorX(), Translate(Vec{950, -720}), Scale(0.01), Scale(30).Then(Rotate(2)).Then(Translate(Vec{1, 2}))}
}

func TestFilletSquare(t *testing.T) {
	for _, tr := range poses() {
		f := tr.Factor()
		p := tr.Path(Rect(Pt(0, 0), 40, 30))
		q, err := p.FilletAll(6 * f)
		if err != nil {
			t.Fatal(err)
		}
		// Each right corner loses (1 − π/4)·r².
		want := (1200 - 4*(1-math.Pi/4)*36) * f * f
		if got := math.Abs(q.Area()); math.Abs(got-want) > 1e-9*want || len(q) != 8 {
			t.Errorf("%v: area %.9g, want %.9g, %d segments", tr, got, want, len(q))
		}
		if err := q.Check(); err != nil {
			t.Error(err)
		}
		if k, c := kinks(q); k > 1e-9 || c > 0 {
			t.Errorf("kink %g, %d corners", k, c)
		}
		all, err := p.FilletAll(15 * f) // the short sides are used up whole
		if err != nil {
			t.Fatal(err)
		}
		if want := (10*30 + math.Pi*225) * f * f; math.Abs(math.Abs(all.Area())-want) > 1e-6*want {
			t.Errorf("stadium: area %.9g, want %.9g", all.Area(), want)
		}
		if err := all.Check(); err != nil {
			t.Error(err)
		}
	}
}

// TestFilletArcs rounds the corners of a half disc (line and arc) and of a lens
// (arc and arc), whose fillet centres have closed forms.
func TestFilletArcs(t *testing.T) {
	const R, r = 50.0, 8.0
	half := Path{Line(Pt(-R, 0), Pt(R, 0)), ArcAbout(Pt(0, 0), Pt(R, 0), Pt(-R, 0), 1)}
	// Two circles of radius R about (±30, 0) meet at (0, ±40).
	lens := Path{ArcAbout(Pt(30, 0), Pt(0, 40), Pt(0, -40), 1), ArcAbout(Pt(-30, 0), Pt(0, -40), Pt(0, 40), 1)}
	for _, tt := range []struct {
		name string
		p    Path
		want Point // centre of the fillet at vertex 1
	}{
		// r above the line and R − r from the centre.
		{"half disc", half, Pt(math.Sqrt((R-r)*(R-r)-r*r), r)},
		{"lens", lens, Pt(0, -math.Sqrt((R-r)*(R-r)-900))},
	} {
		for _, tr := range poses() {
			q, err := tr.Path(tt.p).Fillet(1, r*tr.Factor())
			if err != nil {
				t.Fatalf("%s: %v", tt.name, err)
			}
			if d := q[1].Center.Dist(tr.Point(tt.want)); d > 1e-9*math.Max(1, tr.Factor()) || len(q) != 3 {
				t.Errorf("%s: centre %v, %g off; %d segments", tt.name, q[1].Center, d, len(q))
			}
			if err := q.Check(); err != nil {
				t.Error(tt.name, err)
			}
			for _, i := range []int{1, 2} {
				if k := math.Abs(turn(q[i-1].Tangent(1), q[i].Tangent(0))); k > 1e-8 {
					t.Errorf("%s: kink %g", tt.name, k)
				}
			}
		}
	}
}

func TestFilletErrors(t *testing.T) {
	p := Rect(Pt(0, 0), 40, 30)
	_, err := p.Fillet(2, 31)
	if err == nil || !strings.Contains(err.Error(), "vertex 2") || !(strings.Contains(err.Error(), "is 30 mm") || strings.Contains(err.Error(), "is 29.99 mm")) {
		t.Errorf("%v; want the vertex and 30 mm", err)
	}
	for _, r := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := p.Fillet(0, r); err == nil {
			t.Errorf("radius %g: no error", r)
		}
	}
	if _, err := p.Fillet(4, 1); err == nil {
		t.Error("vertex 4 of 4: no error")
	}
	if q, err := Circle(Pt(0, 0), 5).FilletAll(3); err != nil || len(q) != 2 {
		t.Errorf("a smooth path changed: %v, %v", q, err)
	}
}
