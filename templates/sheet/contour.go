package sheet

import (
	"fmt"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
)

// contourMargin is how much of the body a contour's sheet shows round it, mm.
const contourMargin = 35

// contours draws a sheet for each bevel, cut or carved area: its edge and lines
// of equal depth to be drawn on the wood, and its section.
func contours(j *job.Job) []render.Sheet {
	var out []render.Sheet
	for _, c := range j.Contours {
		out = append(out, contour(j, c))
	}
	return out
}

func contour(j *job.Job, c job.Contour) render.Sheet {
	box := c.Plan.Bounds().Grow(contourMargin)
	s := render.Sheet{ID: c.ID, Title: "Contour: " + contourWords(c.Kind) + ", lines of equal depth", FromBack: c.Face == part.Back}
	lines := render.Group{ID: "lines-" + c.ID, Title: "edge and lines of equal depth"}
	lines.Shapes = shapes(c.Plan, "edge-"+c.ID, "edge of the contour, to be drawn on the face", render.Cut, LayerMark)
	for _, l := range c.Levels {
		for n, p := range l.Lines {
			lines.Shapes = append(lines.Shapes, render.Shape{ID: fmt.Sprintf("level-%s-%g-%d", c.ID, l.Depth, n+1), Title: mm(l.Depth) + " mm deep along this line", Path: p, Kind: render.Mark, Layer: LayerMark})
		}
		if len(l.Lines) > 0 && l.Depth > 0 {
			s.Labels = append(s.Labels, render.Label{S: mm(l.Depth) + " deep", At: l.Lines[0][0].A})
		}
	}
	s.Groups = append(s.Groups, bodyNear(j, box), lines)
	s.Labels = append(s.Labels, render.Label{S: mm(c.Depth) + " deep, the deepest", At: c.Deepest})
	if box.Min.X < 0 && box.Max.X > 0 || box.Min.Y < 0 && box.Max.Y > 0 {
		s.Groups = append(s.Groups, datums(box))
		s.Labels = append(s.Labels, datumLabels(box)...)
	}
	b := c.Plan.Bounds()
	s.Dims = []render.Dim{{A: geom.Pt(b.Min.X, b.Min.Y), B: geom.Pt(b.Min.X, b.Max.Y), Along: geom.Vec{Y: 1}, Text: mm(b.H())}}
	section := "level"
	if len(c.Profile) > 0 {
		g, dims := sectionOf(j, c, geom.Pt(b.Center().X, box.Min.Y-20))
		s.Groups = append(s.Groups, g)
		s.Dims = append(s.Dims, dims...)
		section = "flat, one plane: a straightedge square to the inner line lies on it"
		if c.Facets > 1 {
			section = fmt.Sprintf("round, in %d planes that lie up to %s mm deeper than the curve", c.Facets, mm(c.Out))
		}
	} else if len(c.Levels) > 0 {
		section = "one plane"
	}
	s.Grain = slabGrain
	s.Block = []render.Field{
		{Name: "Face", Value: c.Face.Words()},
		{Name: "Depth", Value: mm(c.Depth) + " mm at the deepest"},
		{Name: "Section", Value: section},
		{Name: "Lines", Value: "wide: where the contour ends on the face; narrow: as deep as it says; at the outline the depth shows on the side of the body"},
	}
	s.Notes = contourNotes(j, c)
	return s
}

func contourWords(kind string) string {
	return map[string]string{"forearm": "forearm bevel", "belly": "belly cut", "carved": "carved area"}[kind]
}

// bodyNear draws the stretches of the outline that a box shows.
func bodyNear(j *job.Job, box geom.Box) render.Group {
	g := render.Group{ID: "outline", Title: "finished outline"}
	n := 0
	for _, loop := range j.Outline {
		var run geom.Path
		end := func() {
			if len(run) > 0 {
				n++
				g.Shapes = append(g.Shapes, render.Shape{ID: fmt.Sprintf("outline-%d", n), Title: "finished outline", Path: run, Kind: render.Mark, Layer: LayerMark})
			}
			run = nil
		}
		for _, e := range loop {
			if e.Bounds().Overlaps(box) {
				run = append(run, e)
			} else {
				end()
			}
		}
		end()
	}
	return g
}

// sectionOf draws the section of a bevel square to its inner line, at a free
// place of the sheet.
func sectionOf(j *job.Job, c job.Contour, at geom.Point) (render.Group, []render.Dim) {
	last := c.Profile[len(c.Profile)-1]
	const inside = 30 // mm of the body shown beyond the inner line
	to := func(x, depth float64) geom.Point {
		return geom.Pt(at.X-(last.X-inside)/2+x, at.Y-depth)
	}
	g := render.Group{ID: "section", Title: "section square to the inner line"}
	line := func(id, words string, k render.Kind, ps ...geom.Point) {
		g.Shapes = append(g.Shapes, render.Shape{ID: id + "-" + c.ID, Title: words, Path: geom.Polyline(ps...), Kind: k, Layer: LayerMark})
	}
	cut := []geom.Point{to(-inside, 0)}
	for _, p := range c.Profile {
		cut = append(cut, to(p.X, p.Y))
	}
	line("section-cut", "section of the finished body", render.Cut, append(cut, to(last.X, j.Thickness), to(-inside, j.Thickness))...)
	line("section-was", "before the contour", render.Hidden, to(0, 0), to(last.X, 0), to(last.X, last.Y))
	return g, []render.Dim{
		{A: to(0, 0), B: to(last.X, 0), Along: geom.Vec{X: 1}, Text: mm(last.X)},
		{A: to(last.X, 0), B: to(last.X, last.Y), Along: geom.Vec{Y: 1}, Text: mm(last.Y)},
	}
}

// contourNotes says what must be done before the face is gone.
func contourNotes(j *job.Job, c job.Contour) []string {
	n := []string{"Cut this after every template and all drilling from this face: what it takes is no datum any more. Its own edges are eased by hand."}
	var under []string
	for _, t := range j.Templates {
		if t.For.Face != c.Face || t.Loose || t.Male || t.Blank.Empty() {
			continue
		}
		var calc geom.Calc
		if both := calc.Intersect(t.Blank, c.Plan); calc.Err() == nil && both.Area() > geom.Budget {
			under = append(under, t.Name)
		}
	}
	if len(under) > 0 {
		n = append(n, "These templates rest on wood that it takes, so they come first: "+strings.Join(under, ", ")+".")
	}
	for _, k := range j.OfKind(part.Recess) {
		if k.Face != c.Face {
			continue
		}
		p, _ := j.PartByID(c.ID)
		if left, _, ok := job.LeftUnder(k, p, j.Thickness); ok {
			n = append(n, fmt.Sprintf("Of %s %s mm of the depth stay.", k, mm(left)))
		}
	}
	return append(n, "Mark the lines, saw or rasp down to each, then fair the planes. With a router, step down along the lines and leave 0.5 mm for the rasp. Clamp the body, wear eye, ear and dust protection, and follow the tool's manual.")
}
