package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
)

// holdMarks draws what the router asks of a template: the edge of what its base
// passes over, the place where most of it hangs over, the way it is led, and where
// the template is held.
func holdMarks(j *job.Job, i int, fromBack bool) (g render.Group, labels []render.Label) {
	t, s := j.Templates[i], j.Sweeps[i]
	g = render.Group{ID: "router-" + t.ID, Title: "router and clamps"}
	if t.Free() || t.Male || s.Base == 0 || t.Shape.Empty() {
		return g, nil
	}
	mark := func(id, title string, p geom.Path) {
		g.Shapes = append(g.Shapes, render.Shape{ID: id, Title: title, Path: p, Kind: render.Mark, Layer: LayerMark})
	}
	cross := func(id, title string, at geom.Point, arm float64) {
		mark(id+"-x", title, geom.Path{geom.Line(at.Add(geom.Vec{X: -arm, Y: -arm}), at.Add(geom.Vec{X: arm, Y: arm}))})
		mark(id+"-y", title, geom.Path{geom.Line(at.Add(geom.Vec{X: -arm, Y: arm}), at.Add(geom.Vec{X: arm, Y: -arm}))})
	}
	if under, err := s.Under(); err == nil {
		var longest geom.Seg
		for k, p := range within(under, t.Blank) {
			mark(fmt.Sprintf("sweep-%s-%d", t.ID, k+1), "edge of what the router's base passes over", p)
			for _, e := range p {
				if e.Length() > longest.Length()+geom.Weld {
					longest = e
				}
			}
		}
		if longest.Length() > 0 {
			labels = append(labels, render.Label{S: "edge of the base's sweep", At: longest.At(0.5)})
		}
	}
	if w := s.Worst(); w.Share > 0 {
		cross("tips-"+t.ID, "where most of the base hangs over", w.At, 2)
		labels = append(labels, render.Label{S: fmt.Sprintf("%.0f %% of the base hangs over here, at most", 100*w.Share), At: w.At})
	}
	const inside = 3 // mm from the edge to the arrow
	var c geom.Calc
	if way := c.Offset(t.Shape, -inside, geom.Round); c.Err() == nil && !way.Empty() {
		head := arrow(directed(way, false, fromBack)[0], "feed-"+t.ID)
		g.Shapes = append(g.Shapes, head)
		labels = append(labels, render.Label{S: "feed", At: head.Path[0].A})
	}
	h := j.HoldOf(i)
	for k, q := range h.Clamps {
		id := fmt.Sprintf("clamp-%s-%d", t.ID, k+1)
		mark(id, fmt.Sprintf("pad of clamp %d", k+1), geom.Circle(q.At, cut.ClampFoot/2))
		labels = append(labels, render.Label{S: fmt.Sprintf("clamp %d, pad %s", k+1, mm(cut.ClampFoot)), At: q.At})
	}
	for k, q := range h.Screws {
		id := fmt.Sprintf("screw-%s-%d", t.ID, k+1)
		mark(id, fmt.Sprintf("screw %d into the waste", k+1), geom.Circle(q, cut.ScrewShank/2))
		cross(id, "its middle", q, 3)
		labels = append(labels, render.Label{S: fmt.Sprintf("screw %d into the waste", k+1), At: q})
	}
	return g, labels
}

// within returns the pieces of a region's edge that run inside a sheet, off its own
// edge.
func within(r, sheet geom.Region) []geom.Path {
	var c geom.Calc
	both := c.Intersect(r, sheet)
	if c.Err() != nil {
		return nil
	}
	edge := geom.IndexOf(sheet)
	var out []geom.Path
	for _, loop := range both {
		var run geom.Path
		for _, e := range loop {
			if _, d := edge.Closest(e.At(0.5)); d > geom.Weld {
				run = append(run, e)
				continue
			}
			if run != nil {
				out, run = append(out, run), nil
			}
		}
		if run != nil {
			out = append(out, run)
		}
	}
	return out
}

// holdFields are the rows of a title block that tell how the template is held and
// carried.
func holdFields(j *job.Job, i int) []render.Field {
	var f []render.Field
	for _, e := range []render.Field{{Name: "Hold", Value: j.HoldWords(i)}, {Name: "Tipping", Value: j.TipWords(i)}, {Name: "Prop", Value: j.PropWords(i)}} {
		if e.Value != "" {
			f = append(f, e)
		}
	}
	return f
}
