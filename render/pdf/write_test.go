package pdf

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
)

func drawing() render.Drawing {
	return render.Drawing{ID: "d", Title: "Größe Ж <&>", Bounds: geom.BoxOf(geom.Pt(-20, -10), geom.Pt(230, 170)), Groups: []render.Group{{Shapes: []render.Shape{
		{ID: "square", Path: geom.Rect(geom.Pt(80, 70), 100, 100), Kind: render.Cut},
		{ID: "arc", Path: geom.Circle(geom.Pt(180, 70), 30), Kind: render.Hidden},
		{ID: "axis", Path: geom.Polyline(geom.Pt(0, 0), geom.Pt(200, 0)), Kind: render.Centre},
		{ID: "head", Path: geom.Polygon(geom.Pt(0, 0), geom.Pt(5, 1), geom.Pt(5, -1)), Kind: render.Mark, Fill: true},
	}, Texts: []render.Text{
		{S: "control cavity, Größe Ж Ω", At: geom.Pt(30, 130), Size: 4, Bold: true},
		{S: "up", At: geom.Pt(10, 60), Size: 3, Angle: 90 * geom.Degree, Anchor: render.Middle},
		{S: "漢", At: geom.Pt(10, 20), Size: 3},
	}}}}
}

func TestWhole(t *testing.T) {
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if notes, err := Whole(w, "Test", []render.Drawing{drawing(), drawing()}); err != nil || notes != nil {
			t.Fatal(notes, err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("twice, not the same bytes")
	}
	s := a.String()
	for _, want := range []string{"%PDF-1.7", "/PrintScaling /None", "/MediaBox [0 0 708.66 510.24]"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %s", want)
		}
	}
}

func TestLargePageIsReported(t *testing.T) {
	d := drawing()
	d.Bounds = geom.BoxOf(geom.Pt(0, 0), geom.Pt(6000, 200))
	notes, err := Whole(&bytes.Buffer{}, "Test", []render.Drawing{d})
	if err != nil || len(notes) != 1 {
		t.Errorf("notes %q, %v", notes, err)
	}
}

func TestRefusesNaN(t *testing.T) {
	d := drawing()
	d.Groups[0].Shapes[0].Path = geom.Polyline(geom.Pt(0, math.NaN()), geom.Pt(1, 1))
	if _, err := Whole(&bytes.Buffer{}, "Test", []render.Drawing{d}); err == nil {
		t.Error("a NaN was written")
	}
}

// The Bézier curves of an arc stay within 0.0001 mm of it.
func TestBeziers(t *testing.T) {
	for _, s := range []geom.Seg{
		geom.ArcSweep(geom.Pt(3, 4), 140, 0.3, 5.9),
		geom.ArcSweep(geom.Pt(3, 4), 140, 0.3, -0.4),
		geom.ArcSweep(geom.Pt(0, 0), 3, 1, math.Pi),
	} {
		for _, c := range beziers(s) {
			for i := 0; i <= 20; i++ {
				p := c.At(float64(i) / 20)
				if e := math.Abs(p.Dist(s.Center) - s.Radius); e > 1e-4 {
					t.Errorf("radius %g: off by %g", s.Radius, e)
				}
			}
		}
	}
}
