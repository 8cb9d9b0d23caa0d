package job

import (
	"math"

	"routwright/geom"
	"routwright/templates/cut"
)

// carry gives a template a sheet that carries the router's base, or else the plate
// under it.
func (s *solver) carry(t *cut.Template) error {
	for _, base := range []float64{s.Base, s.Wide} {
		if base == 0 {
			continue
		}
		on, ok, err := cut.Carried(*t, base, webMargin, s.sheetOf(*t))
		if err != nil {
			return err
		}
		if *t = on; ok {
			return nil
		}
	}
	return nil
}

// sheetOf returns what tells the outline of a template's sheet for a width of wood
// round the opening: one on the pins holds them too.
func (j *Job) sheetOf(t cut.Template) func(web float64) geom.Region {
	if t.Pinned() {
		return func(web float64) geom.Region { return j.sheetRound(t.Shape, web) }
	}
	return func(web float64) geom.Region { return cut.SheetRound(t.Shape.Bounds(), web) }
}

// sheetRound returns the template sheet: the rectangle that holds the opening
// with a web of wood round it and both pins with room.
func (j *Job) sheetRound(open geom.Region, web float64) geom.Region {
	b := open.Bounds().Grow(web)
	for _, p := range j.Pins {
		b = b.Union(geom.BoxOf(p.At).Grow(cut.PinRoom))
	}
	r := func(v, up float64) float64 { return math.Ceil(v*up) * up }
	lo, hi := geom.Pt(r(b.Min.X, -1), r(b.Min.Y, -1)), geom.Pt(r(b.Max.X, 1), r(b.Max.Y, 1))
	return geom.Region{geom.Rect(lo.Lerp(hi, 0.5), hi.X-lo.X, hi.Y-lo.Y)}
}
