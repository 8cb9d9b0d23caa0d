package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/jig"
	"routwright/templates/job"
	"routwright/templates/limit"
)

// corkWords says how a caul is lined.
func corkWords(cork float64) string {
	return fmt.Sprintf("%s mm cork sheet, glued on the whole face; wax it, so that glue does not hold", mm(cork))
}

// neckCaul draws the slices of the caul that presses a glued neck into its pocket,
// and the pad for the back.
func neckCaul(j *job.Job, c *job.NeckCaul) render.Sheet {
	s := render.Sheet{ID: jig.NeckCaulID, Title: "Clamping caul for the neck", View: "Seen along the strings"}
	n := len(c.Slices)
	flat := math.IsInf(c.Slices[0].Radius, 1)
	y := 0.0
	var radii string
	for i, q := range c.Slices {
		p := q.Path(c.Width)
		b := p.Bounds()
		// The place is of the hollow's ends: y is the slice's upper edge.
		m := geom.Translate(geom.Vec{Y: y - b.Max.Y})
		p = m.Path(p)
		b = p.Bounds()
		name := fmt.Sprintf("slice %d of %d", i+1, n)
		where := "between the others"
		switch {
		case n == 1:
			where = "the only one"
		case i == 0:
			where = "nearest the nut"
		case i == n-1:
			where = "nearest the bridge"
		}
		s.Groups = append(s.Groups, render.Group{ID: fmt.Sprintf("slice-%d", i+1), Title: name, Shapes: []render.Shape{
			{ID: fmt.Sprintf("cut-slice-%d", i+1), Title: "edge of " + name + ": saw outside it, file to it", Path: p, Kind: render.Cut, Layer: LayerOutside},
			line(fmt.Sprintf("axis-%d-above", i+1), "centre line of the board", render.Centre, LayerCentre, geom.Pt(0, b.Max.Y-4), geom.Pt(0, b.Max.Y+4)),
			line(fmt.Sprintf("axis-%d-below", i+1), "centre line of the board", render.Centre, LayerCentre, geom.Pt(0, b.Min.Y-4), geom.Pt(0, b.Min.Y+q.Sagitta+4))},
			Texts: []render.Text{
				{S: name, At: geom.Pt(0, b.Max.Y-11), Size: 3, Anchor: render.Middle, Bold: true},
				{S: where, At: geom.Pt(0, b.Max.Y-15), Size: 2.5, Anchor: render.Middle},
				{S: hollowWords(q.Radius, q.Sagitta), At: geom.Pt(0, b.Max.Y-20), Size: 2.5, Anchor: render.Middle}}})
		s.Keep = append(s.Keep, b)
		s.Dims = append(s.Dims, render.Dim{A: geom.Pt(b.Max.X, b.Max.Y-b.H()), B: b.Max, Along: geom.Vec{Y: 1}, Text: mm(b.H())})
		if i == 0 {
			s.Dims = append(s.Dims, render.Dim{A: geom.Pt(b.Min.X, b.Max.Y), B: b.Max, Along: geom.Vec{X: 1}, Text: mm(b.W())})
		}
		if i > 0 {
			radii += "; "
		}
		radii += fmt.Sprintf("%d: %s", i+1, hollowWords(q.Radius, q.Sagitta))
		y = b.Min.Y - 14
	}
	long := c.From - c.To
	pad := geom.Rect(geom.Pt(0, y-10-long/2), c.Width, long)
	s.Groups = append(s.Groups, render.Group{ID: "pad", Title: "pad for the back", Shapes: []render.Shape{
		{ID: "cut-pad", Title: "edge of the pad for the back: saw outside it", Path: pad, Kind: render.Cut, Layer: LayerOutside}},
		Texts: []render.Text{{S: "pad for the back", At: pad.Bounds().Center(), Size: 3.5, Anchor: render.Middle}}})
	for i, k := range [2]float64{0.25, 0.75} {
		s.Groups[n].Shapes = append(s.Groups[n].Shapes, render.Shape{ID: fmt.Sprintf("clamp-%d", i+1), Title: "place of a clamp", Path: geom.Circle(geom.Pt(0, pad.Bounds().Min.Y+k*long), 10), Kind: render.Mark, Layer: LayerMark})
	}
	s.Dims = append(s.Dims, render.Dim{A: pad.Bounds().Min, B: geom.Pt(pad.Bounds().Min.X, pad.Bounds().Max.Y), Along: geom.Vec{Y: 1}, Text: mm(long)})
	fit := fmt.Sprintf("the hollow and the surface over frets and cork lie at most %s mm apart, at the ends of a slice at the board's edges: the cork gives %s mm", mm(c.Off), mm(c.Cork*limit.CorkGives))
	if flat {
		fit = "the board is flat across, and so is the caul: no gap"
	}
	first, last := c.Slices[0], c.Slices[n-1]
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("%d slices of %s mm sheet glued into a block %s mm long, and a pad of the same sheet for the back", n, mm(c.Sheet), mm(long))},
		{Name: "Presses", Value: fmt.Sprintf("the board over the pocket, on %d frets: from %s to %s mm from the bridge line, along the board", c.Frets, mm(c.To), mm(c.From))},
		{Name: "Face", Value: "either face of a slice: it is alike on both; slice 1 towards the nut"},
		{Name: "Cut", Value: "on the line; saw outside it, file the hollow to the line"},
		{Name: "Offset", Value: fmt.Sprintf("included: the hollow is the board's radius, the fret of %s mm and %s mm of cork, about one axis", mm(j.Neck.Setup.Fret), mm(c.Cork))},
		{Name: "Hollow", Value: radii},
		{Name: "Lining", Value: corkWords(c.Cork)},
		{Name: "Upper side", Value: fmt.Sprintf("planed to fall %s° towards the bridge, from %s to %s mm over the crown of the hollow: level with the back, so that the clamps do not creep", mm(c.Tilt.Degrees()), mm(first.Tall), mm(last.Tall-math.Tan(float64(c.Tilt))*c.Sheet))},
		{Name: "Clamps", Value: fmt.Sprintf("two on the centre line, %s and %s mm from the end nearer the bridge", mm(long/4), mm(3*long/4))},
		{Name: "Datum", Value: fmt.Sprintf("the centre line of the board; the end nearer the nut lies %s mm from the body's edge", mm(j.Board.CentreScale()-j.Neck.Joint-c.From))},
		{Name: "Proof", Value: fit},
	}
	if c.Tilt == 0 {
		s.Block[7].Value = fmt.Sprintf("square, %s mm over the crown of the hollow: the board lies level with the back", mm(first.Tall))
	}
	s.Notes = []string{
		"Glue the slices one on the other, their centre lines and hollows in one line, and let them dry before the cork goes on.",
		"Rehearse with every clamp and no glue. Tighten little by little, and look at the string line each time: a neck skates on wet glue. More force than closes the joint starves it.",
		"Gloves and fresh air as the glue's data sheet asks. Eye and dust protection at the saw; follow its manual.",
	}
	return s
}

// hollowWords says how hollow a slice is.
func hollowWords(radius, sagitta float64) string {
	if math.IsInf(radius, 1) {
		return "flat"
	}
	return fmt.Sprintf("R %s, sagitta %s", mm(radius), mm(sagitta))
}

// edgeCauls draws the two cauls that press a crack, as they lie against the body.
func edgeCauls(j *job.Job, c *job.EdgeCauls) render.Sheet {
	s := render.Sheet{ID: jig.EdgeCaulID, Title: "Clamping cauls for the body's edge"}
	names := [2]string{"caul of the bass side", "caul of the treble side"}
	if math.Abs(c.Along.X) < math.Abs(c.Along.Y) {
		names = [2]string{"caul of the tail end", "caul of the neck end"}
	}
	g := render.Group{ID: "cauls", Title: "cauls"}
	var box geom.Box
	for i, e := range c.Two {
		id := fmt.Sprintf("caul-%d", i+1)
		g.Shapes = append(g.Shapes, shapes(e.Plan, id, "edge of the "+names[i]+": saw outside it", render.Cut, LayerOutside)...)
		b := e.Plan.Bounds()
		box = box.Union(b)
		a, z := e.Flat()
		s.Labels = append(s.Labels, render.Label{S: names[i], At: a.Lerp(z, 0.75).Add(e.In.Mul(e.Deep / 2))})
		mid := a.Lerp(z, 0.5)
		s.Dims = append(s.Dims,
			render.Dim{A: a, B: z, Text: mm(e.Span)},
			render.Dim{A: mid, B: mid.Add(e.In.Mul(e.Deep)), Text: mm(e.Deep)})
		s.Keep = append(s.Keep, b)
	}
	press := geom.Path{geom.Line(c.Ends[0].Add(c.Along.Mul(-45)), c.Ends[1].Add(c.Along.Mul(45)))}
	s.Groups = []render.Group{g,
		{ID: "clamps", Title: "line of the clamps", Shapes: []render.Shape{{ID: "clamp-line", Title: "line of the clamps, square to the crack", Path: press, Kind: render.Centre, Layer: LayerCentre}}},
		bodyNear(j, box), cracks(j, box, 0), datums(box)}
	s.Labels = append(s.Labels, datumLabels(box)...)
	s.Labels = append(s.Labels, render.Label{S: "clamps press along this line", At: c.Through})
	least, most := min(c.Two[0].Fit.Min, c.Two[1].Fit.Min), max(c.Two[0].Fit.Max, c.Two[1].Fit.Max)
	s.Block = []render.Field{
		{Name: "Jig", Value: fmt.Sprintf("two cauls, each %d of %s mm sheet, glued to %s mm, in the middle of the body's %s", c.Count, mm(c.Tall/float64(c.Count)), mm(c.Tall), mm(j.Thickness))},
		{Name: "For", Value: fmt.Sprintf("pressing the crack, or a key's glue line, once the outline is trimmed: its middle at x %s, y %s mm", mm(c.Through.X), mm(c.Through.Y))},
		{Name: "Face", Value: "FRONT up, as they lie against the body"},
		{Name: "Cut", Value: "on the line; saw outside it"},
		{Name: "Offset", Value: fmt.Sprintf("included: the hollow lies %s mm outside the finished outline, for the cork", mm(c.Two[0].Gap))},
		{Name: "Lining", Value: corkWords(c.Two[0].Gap)},
		{Name: "Outside", Value: "flat and square to the line of the clamps: both outsides lie parallel, so that the clamps do not creep"},
		{Name: "Datum", Value: fmt.Sprintf("the line of the clamps, on which the middle of each caul lies: draw it across the body from x %s, y %s to x %s, y %s mm", mm(c.Ends[0].X), mm(c.Ends[0].Y), mm(c.Ends[1].X), mm(c.Ends[1].Y))},
		{Name: "Proof", Value: fmt.Sprintf("from the body's edge to the caul %s to %s mm all along, for %s mm of cork; the clamps meet the edges within %s° of square (at most %d)", mm(least), mm(most), mm(c.Two[0].Gap), mm(c.Skew.Degrees()), limit.CaulSkew)},
	}
	s.Notes = []string{
		"Sawing the outline frees tension. Where crack or glue line has opened, run glue in again and close it as far as it comes with light force: never force a crack shut, the tension opens it elsewhere.",
		"A flat board across the crack on both faces, waxed paper under it, keeps them level while the clamps draw.",
		"Take the cauls before the edge is rounded: they lie on the square edge.",
		"Gloves and fresh air as the glue's data sheet asks. Eye and dust protection at the saw; follow its manual.",
	}
	return s
}
