package pdf

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// text writes words: the font is set in points, the matrix turns and places.
func (d *doc) text(t render.Text, o geom.Point, height float64) {
	s, _ := render.Written(t.S)
	if s == "" || d.err != nil {
		return
	}
	if !t.At.IsFinite() || !(t.Size > 0) || math.IsInf(t.Size, 0) || math.IsNaN(float64(t.Angle)) || math.IsInf(float64(t.Angle), 0) {
		d.err = fmt.Errorf("text %q: its place, height or angle is not a finite number above 0", t.S)
		return
	}
	size := render.FontSize(t.Size, t.Bold) * pt
	if d.stale || size != d.size || t.Bold != d.bold {
		style := ""
		if t.Bold {
			style = "B"
		}
		if d.stale { // make the library write the font anew
			d.f.SetFont("go", style, size+1)
		}
		d.f.SetFont("go", style, size)
		d.size, d.bold, d.stale = size, t.Bold, false
	}
	back := 0.0
	switch w := render.TextWidth(s, t.Size, t.Bold); t.Anchor {
	case render.Middle:
		back = w / 2
	case render.End:
		back = w
	}
	at := t.At.Add(t.Angle.Unit().Mul(-back))
	sin, cos := math.Sincos(float64(t.Angle))
	d.raw("q 0 g %s %s %s %s %s %s cm", num(cos), num(sin), num(-sin), num(cos), num((at.X-o.X)*pt), num((at.Y-o.Y)*pt))
	d.f.Text(0, height, s) // the library counts y from the top
	d.raw("Q")
}
