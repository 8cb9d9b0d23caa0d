package cut_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
)

// Over a round opening the closed form is a²/R²: in the middle of an opening of
// radius a the plate that just keeps 60 % has the radius a/√0.4, where the opening
// lies wholly under it from every place that the bit reaches.
func TestOutriggerOverARoundOpening(t *testing.T) {
	for _, a := range []float64{50, 60, 75, 90} {
		open := geom.Region{geom.Circle(geom.Pt(40, -20), a)}
		sheet := func(web float64) geom.Region { return cut.SheetRound(open.Bounds(), web) }
		tpl := sheeted(open, nil, bearing(6, 6))
		o, ok, err := cut.OutriggerFor(tpl, 150, 40, sheet)
		if err != nil || !ok {
			t.Fatalf("radius %g: %v, %v", a, ok, err)
		}
		least := 2 * a / math.Sqrt(0.4)
		if least <= 150 {
			if o.D != 0 {
				t.Errorf("radius %g: a plate of %g, though the base is carried", a, o.D)
			}
			continue
		}
		if want := math.Ceil(least/5) * 5; math.Abs(o.D-want) > 1e-9 {
			t.Errorf("radius %g: a plate of %g, want %g (%g to the mm)", a, o.D, want, least)
		}
		tpl.Blank = o.Sheet
		if w := sweep(t, tpl, o.D).Worst(); w.Share > 0.4 || math.Abs(w.Share-o.Worst.Share) > 1e-9 {
			t.Errorf("radius %g: %+v hangs over, told %+v", a, w, o.Worst)
		}
	}
}

// The plate is the least: 5 mm less is not carried on a sheet of any size. It is the
// same wherever the opening lies, and in its mirror image.
func TestOutriggerIsTheLeast(t *testing.T) {
	for name, open := range map[string]geom.Region{
		"wide":   {geom.RoundedRect(geom.Pt(0, 0), 130, 90, 10)},
		"square": {geom.RoundedRect(geom.Pt(0, 0), 120, 120, 10)},
		"bent":   {geom.Polygon(geom.Pt(-60, -60), geom.Pt(90, -60), geom.Pt(90, 20), geom.Pt(20, 20), geom.Pt(20, 90), geom.Pt(-60, 90))},
	} {
		plate := func(open geom.Region) (cut.Outrigger, cut.Template) {
			tpl := sheeted(open, nil, bearing(6, 6))
			o, ok, err := cut.OutriggerFor(tpl, 120, 40, func(web float64) geom.Region { return cut.SheetRound(open.Bounds(), web) })
			if err != nil || !ok || o.D == 0 {
				t.Fatalf("%s: %+v, %v, %v", name, o, ok, err)
			}
			return o, tpl
		}
		o, tpl := plate(open)
		tpl.Blank = cut.SheetRound(open.Bounds(), 600)
		if w := sweep(t, tpl, o.D-5).Worst().Share; o.D > 125 && w <= 0.4 {
			t.Errorf("%s: %g would do, %g was told", name, o.D-5, o.D)
		}
		for _, m := range []geom.Transform{geom.MirrorX(), geom.Pose(geom.Pt(13, -7), math.Pi/2)} {
			if other, _ := plate(m.Region(open)); other.D != o.D {
				t.Errorf("%s: %g, moved %g", name, o.D, other.D)
			}
		}
	}
}

// No plate helps round a male template, nor over half a metre of nothing; a free
// path needs none.
func TestNoOutrigger(t *testing.T) {
	open := geom.Region{geom.Rect(geom.Pt(0, 0), 700, 500)}
	sheet := func(web float64) geom.Region { return cut.SheetRound(open.Bounds(), web) }
	male := cut.Template{ID: "m", Male: true, For: level(nil), Shape: open, Tool: bearing(6, 6), Sheet: 18}
	for name, tt := range map[string]struct {
		t  cut.Template
		ok bool
	}{"male": {male, false}, "huge": {sheeted(open, nil, bearing(6, 6)), false}, "free": {sheeted(open, nil, free(6)), true}} {
		o, ok, err := cut.OutriggerFor(tt.t, 150, 40, sheet)
		if err != nil || ok != tt.ok || o.D != 0 {
			t.Errorf("%s: %+v, %v, %v", name, o, ok, err)
		}
	}
}
