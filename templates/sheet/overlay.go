package sheet

import (
	"fmt"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/holes"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/wall"
)

// OverlayID is the id of the overlay sheet.
const OverlayID = "overlay"

// overlay draws front and back over each other, seen from the front: the front
// continuous, the back and what lies in the wood dashed, the lines of the
// sections and the thinnest wood.
func overlay(j *job.Job, cs cuts) render.Sheet {
	s := render.Sheet{ID: OverlayID, Title: "Overlay: front and back together, seen from the front"}
	s.Groups = append(s.Groups,
		render.Group{ID: "body", Title: "finished body", Shapes: shapes(j.Outline, "outline", "finished outline", render.Edge, LayerMark)},
		cracks(j, j.Blank.Bounds(), part.Front))
	if g := rimLine(j, part.Front, j.Outline); len(g.Shapes) > 0 {
		s.Groups = append(s.Groups, g)
	}
	bored := holes.Of(j)
	for _, p := range j.Parts {
		g, at := overlayPart(j, p)
		if len(g.Shapes) == 0 {
			continue
		}
		s.Groups = append(s.Groups, g)
		if words := overlayWords(j, bored, p); words != "" {
			s.Labels = append(s.Labels, render.Label{S: words, At: at})
		}
	}
	s.Holes = pinHoles(j.Pins)
	for i := range s.Holes {
		s.Holes[i].Kind, s.Holes[i].Layer = render.Mark, LayerMark // drilled from the drill map
		s.Holes[i].Text = "pin " + j.Pins[i].Name
	}
	s.Labels = append(s.Labels, crackLabels(j)...)
	box := j.Outline.Bounds()
	s.Groups = append(s.Groups, datums(box))
	s.Labels = append(s.Labels, datumLabels(box)...)
	s.Grain = slabGrain
	s.Block = []render.Field{
		{Name: "Face", Value: "FRONT up; the back is seen through the wood"},
		{Name: "Lines", Value: "wide: the outline and what is cut from the front; dashed: cut from the back, " +
			"or hidden in the wood; narrow: keys, cracks on the front, edges that run out softly"},
		{Name: "Body", Value: mm(j.Thickness) + " mm thick when finished"},
	}
	for i, l := range cs.lines {
		s.Groups = append(s.Groups, trace(l, letter(i)))
	}
	if cs.found {
		name := letter(len(cs.lines) - 1)
		s.Block = append(s.Block, render.Field{Name: "Thinnest",
			Value: fmt.Sprintf("%s mm %s: section %s–%s", mm(cs.least.D), cs.least.Words(), name, name)})
		at := cs.least.A.Lerp(cs.least.B, 0.5).Flat()
		s.Labels = append(s.Labels, render.Label{S: "thinnest wood: " + mm(cs.least.D), At: at})
	}
	s.Notes = []string{"A picture to look through, not a template: nothing is cut from this sheet."}
	if len(cs.lines) > 0 {
		s.Notes = append(s.Notes, "Lines with a letter at each end are those of the sections; "+
			"the arrows look the way the section is seen.")
	}
	return s
}

// rimLine draws how far the roundover or chamfer of a face reaches in from the
// outline, which may be mirrored.
func rimLine(j *job.Job, f part.Face, outline geom.Region) render.Group {
	w := edgeOf(j, f).Size()
	g := render.Group{ID: "rim", Title: "inner end of the worked edge"}
	if w <= 0 {
		return g
	}
	var c geom.Calc
	inner := c.Offset(outline, -w, geom.Round)
	if c.Err() == nil {
		g.Shapes = shapes(inner, "rim", "inner end of the worked edge", render.Mark, LayerMark)
	}
	return g
}

// contourPlan returns the area of a contour, which may be cut in many facets.
func contourPlan(j *job.Job, p part.Part) geom.Region {
	for _, c := range j.Contours {
		if c.ID == p.ID {
			return c.Plan
		}
	}
	var c geom.Calc
	plans := make([]geom.Region, len(p.Solids))
	for i, s := range p.Solids {
		plans[i] = s.Plan
	}
	return c.Union(plans...)
}

// overlayPart draws one part and says where its label belongs.
func overlayPart(j *job.Job, p part.Part) (render.Group, geom.Point) {
	g := render.Group{ID: p.ID, Title: p.String()}
	kind, layer := render.Edge, LayerMark
	switch {
	case p.Face == part.Back:
		kind, layer = render.Hidden, LayerHidden
	case p.Kind == part.Key, p.Kind == part.Contour:
		kind = render.Mark
	}
	switch st := p.Stage(); {
	case st == part.Slab, st == part.Recessed, st == part.Elsewhere:
		return g, geom.Point{} // the key stands for its recess, the rebate for its cover
	case p.Kind == part.Contour:
		g.Shapes = append(g.Shapes, offOutline(j.Outline, contourPlan(j, p), p.String(), kind, layer)...)
	default:
		g.Shapes = append(g.Shapes, solidShapes(p, kind, layer)...)
	}
	at := labelPlace(j, p)
	for _, b := range p.Bores {
		k, l := render.Hidden, LayerHidden
		if lo, _ := b.Range(); b.Square() && lo <= geom.Coincident {
			k, l = render.Edge, LayerMark
		}
		title := b.Words
		if title == "" {
			title = p.String()
		}
		g.Shapes = append(g.Shapes, boreShapes(b, title, k, l)...)
	}
	return g, at
}

// labelPlace returns the point that a part's label belongs to: on its edge under
// the middle of its upper side, in the midst of a contour, or on its first hole.
func labelPlace(j *job.Job, p part.Part) geom.Point {
	if p.Kind == part.Contour {
		return geom.InscribedCircle(contourPlan(j, p)).Center
	}
	if len(p.Solids) > 0 {
		b := p.Plan().Bounds()
		at, _ := geom.IndexOf(p.Plan()).Closest(geom.Pt(b.Center().X, b.Max.Y))
		return at
	}
	if len(p.Bores) > 0 {
		b := p.Bores[0]
		return b.From.Lerp(b.To, 0.5).Flat()
	}
	return geom.Point{}
}

// offOutline draws the edges of a plan that do not run along the outline.
func offOutline(outline, plan geom.Region, title string, k render.Kind, l render.Layer) []render.Shape {
	edge := geom.IndexOf(outline)
	var out []render.Shape
	for _, loop := range plan {
		var run geom.Path
		flush := func() {
			if run != nil {
				out = append(out, render.Shape{Title: title, Path: run, Kind: k, Layer: l})
			}
			run = nil
		}
		for _, s := range loop {
			if _, d := edge.Closest(s.At(0.5)); d < wall.Opens {
				flush()
				continue
			}
			run = append(run, s)
		}
		flush()
	}
	return out
}

// overlayWords names a part with its depth, a part of holes with their numbers
// on the drill maps.
func overlayWords(j *job.Job, l holes.List, p part.Part) string {
	if p.Kind == part.Key {
		return fmt.Sprintf("key %s, %s deep from the %s", p.Name, mm(p.Depth(j.Thickness)), p.Face)
	}
	if len(p.Solids) > 0 {
		return fmt.Sprintf("%s, %s deep from the %s", partWords(p), mm(p.Depth(j.Thickness)), p.Face)
	}
	first, last := 0, 0
	for _, h := range l.Holes {
		if h.Part != p.ID {
			continue
		}
		if first == 0 || h.Number < first {
			first = h.Number
		}
		last = max(last, h.Number)
	}
	switch {
	case first == 0:
		return ""
	case first == last:
		return fmt.Sprintf("%s, %s", partWords(p), numbered(first))
	}
	return fmt.Sprintf("%s, %s–%s", partWords(p), numbered(first), numbered(last))
}

// partWords names a part: its kind, and its own name where that says more.
func partWords(p part.Part) string {
	if p.Name == "" || strings.Contains(string(p.Kind), p.Name) {
		return string(p.Kind)
	}
	return string(p.Kind) + " " + p.Name
}

// Measures of a section's line on the overlay, mm (ISO 128-3, from memory of it:
// a long-dash-dot line, wide at both ends, arrows where it is looked from).
const (
	tracePast   = 6.0
	traceWide   = 8.0
	traceArrow  = 9.0
	traceLetter = 3.5
)

// trace draws the line of a section with its letter at both ends.
func trace(l job.Section, letter string) render.Group {
	u := l.To.Sub(l.From).Unit()
	look := u.Left()
	a, b := l.From.Add(u.Mul(-tracePast)), l.To.Add(u.Mul(tracePast))
	title := "line of section " + letter + "–" + letter
	g := render.Group{ID: "section-line-" + strings.ToLower(letter), Title: title}
	g.Shapes = append(g.Shapes, render.Shape{Title: title,
		Path: geom.Path{geom.Line(a, b)}, Kind: render.Centre, Layer: LayerCentre})
	for _, e := range [2]struct {
		at geom.Point
		in geom.Vec
	}{{a, u}, {b, u.Neg()}} {
		tip := e.at.Add(look.Mul(traceArrow))
		foot := tip.Add(look.Mul(-3))
		n := u.Mul(0.4) // half width at the foot: an arrow of 15°, as of dimensions
		wide := geom.Path{geom.Line(e.at, e.at.Add(e.in.Mul(traceWide)))}
		arrow := geom.Polygon(tip, foot.Add(n), foot.Add(n.Neg()))
		g.Shapes = append(g.Shapes,
			render.Shape{Title: title, Path: wide, Kind: render.Edge, Layer: LayerMark},
			render.Shape{Title: "seen this way", Path: geom.Path{geom.Line(e.at, foot)}, Kind: render.Mark, Layer: LayerMark},
			render.Shape{Title: "seen this way", Path: arrow, Kind: render.Mark, Layer: LayerMark, Fill: true})
		c := e.at.Add(e.in.Mul(-4))
		g.Texts = append(g.Texts, render.Text{S: letter, At: geom.Pt(c.X, c.Y-traceLetter/2),
			Size: traceLetter, Bold: true, Anchor: render.Middle})
	}
	return g
}
