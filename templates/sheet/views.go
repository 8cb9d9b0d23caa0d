package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/wall"
)

// ViewsID is the id of the sheet with the views of the finished body.
const ViewsID = "views"

// Scales of ISO 5455, from memory of it: what is smaller than full size is drawn
// 1 : 2, 1 : 5 or 1 : 10.
var viewScales = [...]float64{1, 2, 5, 10}

// Measures of the views, mm on paper.
const (
	viewsWide = 250.0 // all four beside each other on a page of a book, lying
	viewGap   = 14.0
	viewUnder = 8.0 // from a view to its name
	viewWords = 2.5
)

// ViewsScale returns how many times smaller than the work the views are drawn.
func ViewsScale(j *job.Job) float64 {
	box := j.Outline.Bounds()
	for _, s := range viewScales {
		if 2*(box.W()+j.Thickness)/s+3*viewGap <= viewsWide {
			return s
		}
	}
	return viewScales[len(viewScales)-1]
}

// Views draws the finished body from the front, from both sides and from the
// back, beside one another at a reduced scale.
func Views(j *job.Job) render.Sheet {
	box, scale := j.Outline.Bounds(), ViewsScale(j)
	v := drawing{j: j, k: 1 / scale}
	s := render.Sheet{ID: ViewsID, Title: "The finished body: front, back and both sides", View: fmt.Sprintf("Scale 1 : %g", scale)}
	x := 0.0
	add := func(id, name string, wide float64, shapes []render.Shape, from float64) {
		move := geom.Scale(v.k).Then(geom.Translate(geom.Vec{X: x - from*v.k, Y: -box.Min.Y * v.k}))
		g := render.Group{ID: id, Title: name}
		for _, e := range shapes {
			e.Path = v.clean(move.Path(e.Path))
			if len(e.Path) > 0 {
				g.Shapes = append(g.Shapes, e)
			}
		}
		g.Texts = []render.Text{{S: name, At: geom.Pt(x+wide*v.k/2, -viewUnder), Size: viewWords, Anchor: render.Middle}}
		s.Groups = append(s.Groups, g)
		x += wide*v.k + viewGap
	}
	low, high := "bass side", "treble side"
	if j.Design.Hand.V == "left" {
		low, high = high, low
	}
	add("view-low", low, j.Thickness, v.side(-1), -j.Thickness)
	at := x
	add("view-front", "front", box.W(), v.face(part.Front), box.Min.X)
	add("view-high", high, j.Thickness, v.side(1), 0)
	add("view-back", "back", box.W(), v.face(part.Back), -box.Max.X)
	lower, upper := geom.Pt(at, 0), geom.Pt(at+box.W()*v.k, box.H()*v.k)
	s.Dims = []render.Dim{
		{A: geom.Pt(lower.X, upper.Y), B: upper, Along: geom.Vec{X: 1}, Text: mm(box.W())},
		{A: geom.Pt(0, 0), B: geom.Pt(0, upper.Y), Along: geom.Vec{Y: 1}, Text: mm(box.H())},
		{A: geom.Pt(0, upper.Y), B: geom.Pt(j.Thickness*v.k, upper.Y), Along: geom.Vec{X: 1}, Text: mm(j.Thickness)},
	}
	s.Block = []render.Field{
		{Name: "Scale", Value: fmt.Sprintf("1 : %g (ISO 5455); the rulers show the size of the paper", scale)},
		{Name: "Views", Value: "each beside the front as it is seen from its own side; " +
			"of the side views the front lies towards the front view"},
		{Name: "Body", Value: mm(j.Thickness) + " mm thick"},
	}
	s.Notes = []string{"A picture, not a template: nothing is cut from this sheet. " +
		"Covers are on; hidden edges are not drawn."}
	return s
}

// drawing draws the body at a scale.
type drawing struct {
	j *job.Job
	k float64 // paper over wood
}

// clean drops what the scale makes too short for a line.
func (v drawing) clean(p geom.Path) geom.Path {
	for _, s := range p {
		if s.A.Dist(s.B) < geom.Coincident && s.Length() < geom.Coincident {
			return nil
		}
	}
	return p
}

func (v drawing) line(title string, k render.Kind, paths ...geom.Path) []render.Shape {
	var out []render.Shape
	for _, p := range paths {
		out = append(out, render.Shape{Title: title, Path: p, Kind: k, Layer: LayerMark})
	}
	return out
}

// face draws what is seen of a face; of the back as it lies with that face up.
func (v drawing) face(f part.Face) []render.Shape {
	up := facing{f, v.j.Thickness}
	outline := up.region(v.j.Outline)
	out := v.line("outline", render.Edge, outline...)
	for _, s := range rimLine(v.j, f, outline).Shapes {
		out = append(out, v.line(s.Title, render.Mark, s.Path)...)
	}
	covered := map[string]bool{}
	for _, p := range v.j.Parts {
		if p.Kind == part.Cover && p.Face == f {
			covered[p.Group] = true
			out = append(out, v.line(p.String(), render.Edge, up.region(p.Plan())...)...)
			for _, b := range p.Bores {
				out = append(out, v.line(b.Words, render.Edge, geom.Circle(up.bore(b).From.Flat(), b.D/2))...)
			}
		}
	}
	for _, p := range v.j.Parts {
		st := p.Stage()
		hidden := p.Group != "" && covered[p.Group] && p.Kind != part.Rebate
		if st != part.Machined && st != part.Filled || hidden {
			continue
		}
		if p.Kind == part.Contour {
			if p.Face == f {
				out = append(out, offOutline(outline, up.region(contourPlan(v.j, p)), p.String(), render.Mark, LayerMark)...)
			}
			continue
		}
		for _, s := range p.Solids {
			s = up.solid(s)
			switch least, _ := s.Top.Over(s.Plan); {
			case p.Face != f || least > geom.Coincident:
			case st == part.Filled:
				out = append(out, v.line(p.String(), render.Mark, s.Plan...)...)
			default:
				out = append(out, v.line(p.String(), render.Edge, s.Plan...)...)
			}
		}
		for _, b := range p.Bores {
			b = up.bore(b)
			lo, _ := b.Range()
			under := b.Steep() && b.To.Z > b.From.Z && b.From.Z > geom.Coincident && p.Face == f // in the floor of a void
			if lo <= geom.Coincident && b.Steep() || under {
				at := b.From.Flat()
				if b.To.Z < b.From.Z {
					at = b.To.Flat()
				}
				out = append(out, v.line(b.Words, render.Edge, geom.Circle(at, b.D/2))...)
			}
		}
	}
	return out
}

// sideStep is how far apart the places are at which a side is looked at, mm.
const sideStep = 2.0

// side draws the body from a side: way −1 from −X, +1 from +X. In the drawing Y
// runs as on the body and X is how deep below the front, negative from −X, so
// that the front lies towards the front view on both.
func (v drawing) side(way float64) []render.Shape {
	box, t := v.j.Outline.Bounds(), v.j.Thickness
	out := v.line("outline", render.Edge, geom.Rect(geom.Pt(way*t/2, box.Center().Y), t, box.H()))
	ef, eb := edgeOf(v.j, part.Front).Size(), edgeOf(v.j, part.Back).Size()
	front, back := v.contours(part.Front), v.contours(part.Back)
	const bevelled, worked = "edge of the contour", "inner end of the worked edge"
	lines := []*sideLine{
		{title: bevelled, kind: render.Edge}, {title: bevelled, kind: render.Edge},
		{title: worked, kind: render.Mark}, {title: worked, kind: render.Mark},
	}
	last := math.NaN()
	for y := box.Min.Y + sideStep/2; y < box.Max.Y; y += sideStep {
		x, ok := v.rim(y, way)
		if !ok {
			continue
		}
		zf, zb := front(geom.Pt(x, y)), t-back(geom.Pt(x, y))
		// Where another part of the body begins, its end is an edge.
		if at, ok := v.springs(y-sideStep, y, way, last, x); ok {
			for _, l := range lines {
				l.end()
			}
			end := geom.Path{geom.Line(geom.Pt(way*zf, at), geom.Pt(way*zb, at))}
			out = append(out, v.line("end of what stands before the rest", render.Edge, end)...)
		}
		last = x
		for i, l := range [4]struct {
			seen bool
			z    float64
		}{{zf > wall.Opens, zf}, {zb < t-wall.Opens, zb}, {ef > 0 && zf <= wall.Opens, ef}, {eb > 0 && zb >= t-wall.Opens, t - eb}} {
			lines[i].put(l.seen, geom.Pt(way*l.z, y))
		}
	}
	for _, l := range lines {
		l.end()
		out = append(out, v.line(l.title, l.kind, l.paths...)...)
	}
	return append(out, v.sideBores(way)...)
}

// sideLine is an edge along the side, gathered place by place while it is seen.
type sideLine struct {
	title string
	kind  render.Kind
	run   []geom.Point
	paths []geom.Path
}

// put adds a place where the edge is seen, or ends it where it is not.
func (l *sideLine) put(seen bool, p geom.Point) {
	if seen {
		l.run = append(l.run, p)
	} else {
		l.end()
	}
}

// end closes the stretch that is open.
func (l *sideLine) end() {
	if len(l.run) > 1 {
		l.paths = append(l.paths, geom.Polyline(l.run...))
	}
	l.run = nil
}

// occludes is by how much the rim must spring back for another part of the body
// to be seen behind it, mm.
const occludes = 2

// springs reports whether the rim springs, between two heights at which it lies
// at x0 and x1, from one part of the body to another behind it, and at what
// height: a rim that only runs off fast closes up when it is halved.
func (v drawing) springs(y0, y1, way, x0, x1 float64) (y float64, ok bool) {
	for y1-y0 > geom.Coincident && math.Abs(x1-x0) > occludes {
		m := (y0 + y1) / 2
		x, in := v.rim(m, way)
		if !in {
			return 0, false
		}
		if math.Abs(x-x0) > math.Abs(x-x1) {
			y1, x1 = m, x
		} else {
			y0, x0 = m, x
		}
	}
	return (y0 + y1) / 2, math.Abs(x1-x0) > occludes
}

// rim returns the outermost place of the outline at y on a side.
func (v drawing) rim(y, way float64) (x float64, ok bool) {
	cs := v.j.Outline.Chords(geom.Pt(0, y), geom.Pt(1, y))
	if len(cs) == 0 {
		return 0, false
	}
	if way < 0 {
		return cs[0][0], true
	}
	return cs[len(cs)-1][1], true
}

// contours returns how deep the contours of a face lie below it.
func (v drawing) contours(f part.Face) func(geom.Point) float64 {
	up := facing{f, v.j.Thickness}
	var solids []part.Solid
	for _, p := range v.j.OfKind(part.Contour) {
		if p.Face == f {
			for _, s := range p.Solids {
				solids = append(solids, up.solid(s))
			}
		}
	}
	return func(p geom.Point) float64 {
		if f == part.Back {
			p.X = -p.X
		}
		z := 0.0
		for _, s := range solids {
			// The place lies on the outline, which is an edge of the plan: ask a hair
			// further in.
			in := p.Add(geom.Vec{X: -math.Copysign(wall.Opens, p.X)})
			if s.Plan.Contains(in) {
				z = math.Max(z, s.Floor.At(p))
			}
		}
		return z
	}
}

// sideBores draws the holes bored into the edge that are seen from a side: a
// circle looked at aslant.
func (v drawing) sideBores(way float64) []render.Shape {
	var out []render.Shape
	for _, p := range v.j.Parts {
		if p.Stage() != part.Machined {
			continue
		}
		for _, b := range p.Bores {
			d := b.To.Flat().Sub(b.From.Flat()).Unit()
			if b.Steep() || d.X*way >= 0 {
				continue
			}
			if x, ok := v.rim(b.From.Y, way); !ok || math.Abs(x-b.From.X) > b.D {
				continue
			}
			path, err := part.Ellipse(geom.Pt(way*b.From.Z, b.From.Y), geom.Vec{X: b.D / 2}, geom.Vec{Y: b.D / 2 * math.Abs(d.X)})
			if err == nil {
				out = append(out, v.line(b.Words, render.Edge, path)...)
			}
		}
	}
	return out
}
