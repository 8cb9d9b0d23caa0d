package sheet

import (
	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
)

// jigs draws the jigs that a job needs, beside the rails, and those of drilled holes.
func jigs(j *job.Job) []render.Sheet {
	var out []render.Sheet
	for _, h := range j.Jigs.Handles {
		out = append(out, handle(j, h))
	}
	if o := j.Jigs.Outrigger; o != nil {
		out = append(out, outrigger(j, o))
	}
	if c := j.Jigs.Neck; c != nil {
		out = append(out, neckCaul(j, c))
	}
	if c := j.Jigs.Cauls; c != nil {
		out = append(out, edgeCauls(j, c))
	}
	return out
}

// line draws a chain of straight lines.
func line(id, words string, k render.Kind, l render.Layer, ps ...geom.Point) render.Shape {
	return render.Shape{ID: id, Title: words, Path: geom.Polyline(ps...), Kind: k, Layer: l}
}

// boxOn draws a rectangle that stands on y, its middle on x.
func boxOn(id, words string, k render.Kind, l render.Layer, x, y, wide, tall float64) render.Shape {
	return render.Shape{ID: id, Title: words, Path: geom.Rect(geom.Pt(x, y+tall/2), wide, tall), Kind: k, Layer: l}
}
