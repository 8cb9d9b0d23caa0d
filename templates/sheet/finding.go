package sheet

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/job"
	"routwright/templates/part"
)

// Findings draws each finding at its place, one sheet a finding in their order:
// the body with its parts, or the template that the finding is about, the places
// ringed and numbered, and the sentence. The id of a sheet begins with the number
// of its finding.
func Findings(j *job.Job, fs []check.Finding) []render.Sheet {
	out := make([]render.Sheet, len(fs))
	for i, f := range fs {
		out[i] = Finding(j, i+1, f)
	}
	return out
}

// ring is the radius of the circle round a place, mm: seen at arm's length and
// small beside a cavity.
const ring = 5

// Finding draws the finding with the number n.
func Finding(j *job.Job, n int, f check.Finding) render.Sheet {
	s := render.Sheet{
		ID:    fmt.Sprintf("%02d-%s-%s", n, f.Level, f.Check),
		Title: fmt.Sprintf("Finding %d: %s, %s", n, f.Check, f.Level),
		Notes: []string{upper(f.Message) + ".", "Cure: " + f.Cure + ".",
			"A picture, not a template: nothing is cut from this sheet."},
	}
	if f.Level == check.Stop {
		s.Warning = "STOP: " + f.Message
	}
	box := ground(&s, j, f)
	g := render.Group{ID: "places", Title: "places of the finding"}
	for i, p := range f.Places {
		g.Shapes = append(g.Shapes,
			render.Shape{ID: fmt.Sprintf("place-%d", i+1), Title: p.What, Path: geom.Circle(p.At, ring),
				Kind: render.Dimension, Layer: LayerMark},
			cross(fmt.Sprintf("place-%d-across", i+1), p.At,
				geom.Vec{X: 1}), cross(fmt.Sprintf("place-%d-up", i+1), p.At, geom.Vec{Y: 1}))
		s.Labels = append(s.Labels, render.Label{
			S: fmt.Sprintf("%d: %s, x %s, y %s", i+1, p.What, mm(p.At.X), mm(p.At.Y)), At: p.At.Add(geom.Vec{X: ring})})
		box = box.Extend(p.At)
	}
	s.Groups = append(s.Groups, g)
	if f.Template == "" {
		s.Groups = append(s.Groups, datums(box))
		s.Labels = append(s.Labels, datumLabels(box)...)
	} else {
		s.Groups = append(s.Groups, keyAxes(box))
	}
	s.Block = findingBlock(j, f)
	return s
}

// upper returns a sentence with a capital letter.
func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// cross is one line of the cross at a place.
func cross(id string, p geom.Point, u geom.Vec) render.Shape {
	const half = 1.5 * ring
	return render.Shape{ID: id, Title: "place of the finding", Kind: render.Dimension, Layer: LayerMark,
		Path: geom.Path{geom.Line(p.Add(u.Mul(-half)), p.Add(u.Mul(half)))}}
}

// findingBlock fills the title block.
func findingBlock(j *job.Job, f check.Finding) []render.Field {
	where, lines := "on the body, seen from the front", "wide: cut from the front; dashed: on the back; ringed: the places"
	switch {
	case f.Template != "":
		where, lines = "on the axes of template "+f.Template, "wide: the template's edge; ringed: the places"
	case len(f.Places) == 0:
		where = "no single place on the body"
	}
	b := []render.Field{
		{Name: "Instrument", Value: j.Name}, measures,
		{Name: "Check", Value: f.Check}, {Name: "Level", Value: f.Level.String()}, {Name: "Places", Value: where},
		{Name: "Lines", Value: lines},
	}
	if f.Allowed != "" {
		b = append(b, render.Field{Name: "Allowed", Value: f.Allowed})
	}
	if !f.At.IsZero() {
		b = append(b, render.Field{Name: "In the file", Value: fmt.Sprintf("line %d, column %d", f.At.Line, f.At.Col)})
	}
	return b
}

// ground draws what a finding lies on and returns its bounds.
func ground(s *render.Sheet, j *job.Job, f check.Finding) geom.Box {
	for _, t := range j.Templates {
		if f.Template == "" || t.ID != f.Template {
			continue
		}
		s.View = eitherFace
		g := render.Group{ID: "template-" + t.ID, Title: t.Name,
			Shapes: shapes(t.Shape, "shape-"+t.ID, "cut line of the template", render.Cut, LayerMark)}
		g.Shapes = append(g.Shapes, shapes(t.For.Plan(), "part-"+t.ID, "edge of the "+string(t.For.Kind), render.Mark,
			LayerMark)...)
		s.Groups = append(s.Groups, g)
		return t.Shape.Bounds()
	}
	s.Groups = append(s.Groups,
		render.Group{ID: "body", Title: "finished body",
			Shapes: shapes(j.Outline, "outline", "finished outline", render.Cut, LayerOutside)},
		cracks(j, j.Blank.Bounds(), part.Front))
	for _, p := range j.Parts {
		if g, ok := layoutPart(p); ok {
			s.Groups = append(s.Groups, g)
			if strings.Contains(f.Message, p.String()) {
				at := p.Plan().Bounds()
				s.Labels = append(s.Labels, render.Label{S: layoutWords(j, p), At: geom.Pt(at.Center().X, at.Max.Y)})
			}
		}
	}
	s.Holes = append(s.Holes, unnamed(boreHoles(j))...)
	return j.Outline.Bounds()
}

// unnamed returns holes without their words.
func unnamed(hs []render.Hole) []render.Hole {
	for i := range hs {
		hs[i].Text = ""
	}
	return hs
}
