package job_test

import (
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
)

// Every template lies whole on its sheet, as it is cut, and none on another.
func TestStockHoldsEveryTemplate(t *testing.T) {
	text := strings.Replace(withNeck, "[body]", "[template]\nstock = [1220, 610]\n[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = 42\n[[cavity]]\nname = \"control\"\noutline = [[66, -56], [104, -56], [104, 20], [66, 20]]\n[body]", 1)
	j := must(t, text)
	if j.Stock == nil || len(j.Stock.Pieces) != len(j.Templates) {
		t.Fatalf("%+v", j.Stock)
	}
	sheet := geom.BoxOf(geom.Pt(10-1e-6, 10-1e-6), geom.Pt(1210+1e-6, 600+1e-6))
	for i, p := range j.Stock.Pieces {
		q := j.Templates[p.Template]
		b := p.Move.Region(q.Blank).Bounds()
		if !sheet.Contains(b.Min) || !sheet.Contains(b.Max) {
			t.Errorf("%s lies at %v", q.ID, b)
		}
		if p.Move.Mirrored() != (q.For.Face == part.Back) {
			t.Errorf("%s of the %s: mirrored %v", q.ID, q.For.Face, p.Move.Mirrored())
		}
		for k, o := range j.Stock.Pieces[:i] {
			if j.Stock.Places[k].Sheet == j.Stock.Places[i].Sheet && b.Grow(1.99).Overlaps(o.Move.Region(j.Templates[o.Template].Blank).Bounds().Grow(1.99)) {
				t.Errorf("%s and %s are nearer than the kerf", q.ID, j.Templates[o.Template].ID)
			}
		}
	}
	if _, err := solve(t, strings.Replace(text, "[1220, 610]", "[300, 200]", 1)); err == nil || !strings.Contains(err.Error(), "template.stock: piece ") {
		t.Errorf("a sheet that is too small: %v", err)
	}
}
