package sheet

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/holes"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/wall"
)

const sectionPrefix = "section-"

// SectionID returns the id of the n-th section's sheet, from 0.
func SectionID(n int) string { return sectionPrefix + strings.ToLower(letter(n)) }

// letter is the name of the n-th section, from 0: A to Z, then AA, AB and on.
func letter(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return letter(n/26-1) + letter(n%26)
}

// cuts are the lines along which a body is drawn cut: those that the builder
// named, then, with found, that through the thinnest wood.
type cuts struct {
	lines []job.Section
	least wall.Wall
	found bool
}

func cutsOf(j *job.Job) cuts {
	c := cuts{lines: append([]job.Section(nil), j.Sections...)}
	var ok bool
	if c.least, ok = wall.Thinnest(j); !ok {
		return c
	}
	if s, ok := thinnestSection(j, c.least); ok {
		c.lines, c.found = append(c.lines, s), true
	}
	return c
}

// sections draws every section.
func sections(j *job.Job, cs cuts) []render.Sheet {
	var out []render.Sheet
	for i, l := range cs.lines {
		c := cutAlong(j, l)
		s := c.sheet(j, i)
		if cs.found && i == len(cs.lines)-1 {
			c.markThinnest(&s, cs.least)
		}
		out = append(out, s)
	}
	return out
}

// piece is what one part is in a section.
type piece struct {
	part.Part
	region geom.Region
}

// cutFace is the body cut along a line: X from the line's start, Y up from the
// finished front.
type cutFace struct {
	geom.Calc
	line    job.Section
	outline geom.Region
	plane   part.Section
	length  float64
	wood    geom.Region // of the slab
	whole   geom.Region // slab and keys as one, without the glue lines
	keys    []piece
	lids    []piece
	voids   []piece
	failed  []string // parts that could not be cut, by name
}

// overFace is how far beyond the faces the section looks, mm.
const overFace = 100

// cutAlong cuts every part of the body along a line.
func cutAlong(j *job.Job, l job.Section) *cutFace {
	c := &cutFace{line: l, outline: j.Outline, plane: part.Section{A: l.From, B: l.To}, length: l.From.Dist(l.To)}
	window := geom.Region{geom.Rect(geom.Pt(c.length/2, -j.Thickness/2), c.length, j.Thickness+2*overFace)}
	var slab, recesses geom.Region
	for _, p := range j.Parts {
		r := c.of(p)
		if r = c.Intersect(r, window); r.Empty() {
			continue
		}
		switch p.Stage() {
		case part.Slab:
			slab = c.Union(slab, r)
		case part.Recessed:
			recesses = c.Union(recesses, r)
		case part.Filled:
			c.keys = append(c.keys, piece{p, r})
		case part.Machined:
			c.voids = append(c.voids, piece{p, r})
		case part.Elsewhere:
			if p.Kind == part.Cover {
				c.lids = append(c.lids, piece{p, r})
			}
		}
	}
	cuts := append([]geom.Region{}, c.rims(j)...)
	for _, v := range c.voids {
		cuts = append(cuts, v.region)
	}
	c.whole = c.Subtract(slab, cuts...)
	c.wood = c.Subtract(c.whole, recesses)
	kept := c.keys[:0]
	for _, k := range c.keys {
		if k.region = c.Subtract(k.region, cuts...); !k.region.Empty() {
			kept = append(kept, k)
		}
	}
	c.keys = kept
	for i := range c.voids { // what of a void lies in the body
		c.voids[i].region = c.Intersect(c.voids[i].region, slab)
	}
	return c
}

// of returns where the plane cuts a part: all that it takes away, or the wood that
// it adds less the holes in that.
func (c *cutFace) of(p part.Part) geom.Region {
	var solids, bores []geom.Region
	for _, s := range p.Solids {
		if r := c.plane.Solid(s); !r.Empty() {
			solids = append(solids, r)
		}
	}
	for _, b := range p.Bores {
		r, err := c.plane.Bore(b.Entered())
		if err != nil {
			c.failed = append(c.failed, fmt.Sprintf("%s of %s", b.Words, p))
			continue
		}
		if !r.Empty() {
			bores = append(bores, r)
		}
	}
	switch {
	case p.Adds && len(bores) > 0:
		return c.Subtract(c.Union(solids...), bores...)
	case p.Adds:
		return c.Union(solids...)
	}
	return c.Union(append(solids, bores...)...)
}

// rimStep is how far apart the points are at which the worked edge of the body
// is taken, mm: between them it is out by less than 0.02 mm at a radius of 3.
const rimStep = 0.25

// rims returns what the roundover or chamfer takes off both faces.
func (c *cutFace) rims(j *job.Job) []geom.Region {
	edges := [2]edge{edgeOf(j, part.Front), edgeOf(j, part.Back)}
	if edges[0].Size()+edges[1].Size() <= 0 {
		return nil
	}
	outline := geom.IndexOf(j.Outline)
	wide := math.Max(edges[0].Size(), edges[1].Size())
	u := c.line.To.Sub(c.line.From).Unit()
	var out []geom.Region
	for _, iv := range j.Outline.Chords(c.line.From, c.line.To) {
		n := max(2, int(math.Ceil((iv[1]-iv[0])/rimStep)))
		var runs [2][]geom.Point
		for k := 0; k <= n; k++ {
			x := iv[0] + (iv[1]-iv[0])*float64(k)/float64(n)
			_, d := outline.Closest(c.line.From.Add(u.Mul(x)))
			if k == 0 || k == n {
				d = 0 // on the outline
			}
			for f := range edges {
				z := edges[f].depth(d)
				if z > 0 || len(runs[f]) > 0 {
					runs[f] = append(runs[f], geom.Pt(x, z))
				}
				if (z == 0 || k == n) && len(runs[f]) > 1 {
					y, down := 0.0, 1.0
					if part.Face(f) == part.Back {
						y, down = -j.Thickness, -1
					}
					out = append(out, rim(runs[f], y, down))
					runs[f] = nil
				}
			}
			// Nothing comes off until the outline is near again: the way there is no
			// shorter than the distance.
			if skip := int((d-wide)/rimStep) - 1; skip > 0 {
				k = min(k+skip, n-1)
			}
		}
	}
	return out
}

// rim closes a run of depths to what is taken off a face at height y; down is +1
// where depth counts downward from it.
func rim(run []geom.Point, y, down float64) geom.Region {
	ps := make([]geom.Point, 0, len(run)+2)
	for _, p := range run {
		ps = append(ps, geom.Pt(p.X, y-down*p.Y))
	}
	ps = append(ps, geom.Pt(run[len(run)-1].X, y+down), geom.Pt(run[0].X, y+down))
	loop := geom.Polygon(ps...)
	if loop.Area() < 0 {
		loop = loop.Reversed()
	}
	return geom.Region{loop}
}

// Angles of hatching: the slab at 45°, what is let into it the other way
// (ISO 128-3, from memory of it).
const (
	slabHatch = 45 * geom.Degree
	keyHatch  = 135 * geom.Degree
)

// sheet draws the cut faces.
func (c *cutFace) sheet(j *job.Job, n int) render.Sheet {
	a := letter(n)
	s := render.Sheet{ID: SectionID(n), Title: fmt.Sprintf("Section %s–%s: %s", a, a, c.line.Name),
		View: "Seen " + holes.Towards(j, c.line.To.Sub(c.line.From).Left())}
	face := func(id, title string, r geom.Region, angle geom.Angle) {
		g := render.Group{ID: id, Title: title}
		for _, loop := range r {
			g.Shapes = append(g.Shapes, c.edges(loop, title)...)
		}
		s.Groups = append(s.Groups, g)
		s.Solids = append(s.Solids, render.CutFace{Region: r, Angle: angle, Title: title})
	}
	face("slab", "wood of the slab, cut through", c.wood, slabHatch)
	for _, k := range c.keys {
		face(k.ID, k.String()+", cut through", k.region, keyHatch)
	}
	for _, k := range c.lids {
		face(k.ID, k.String()+", cut through", k.region, keyHatch)
	}
	s.Labels = c.labels(j)
	s.Dims = c.dims(j)
	box := geom.BoxOf(geom.Pt(0, 0), geom.Pt(c.length, -j.Thickness))
	g, datums := c.datums(box)
	cracks, named := c.cracks(j)
	s.Groups = append(s.Groups, g, cracks)
	s.Labels = append(append(append(s.Labels, c.faceLabels(j)...), datums...), named...)
	from, to := holes.PlaceOf(j, c.line.From), holes.PlaceOf(j, c.line.To)
	s.Block = []render.Field{
		{Name: "Scale", Value: "1 : 1, along the line and in depth"},
		{Name: "Line", Value: fmt.Sprintf("from %s of the centre line, %s from the bridge line, at the left, "+
			"to %s, %s, at the right; + to the neck", from.CentreWords(), mm(from.Bridge), to.CentreWords(), mm(to.Bridge))},
		{Name: "Hatching", Value: "rising to the right: wood of the slab; rising to the left: keys and covers"},
		{Name: "Dimensions", Value: "wood that is left in this plane, finished; depths of voids from their own face"},
		{Name: "Body", Value: mm(j.Thickness) + " mm thick when finished"},
	}
	if err := c.Err(); err != nil {
		s.Notes = append(s.Notes, "This section is not complete: "+err.Error())
	}
	for _, f := range c.failed {
		s.Notes = append(s.Notes, "Not drawn, because the kernel could not cut it: "+f)
	}
	return s
}

// edges draws a loop: what is wood's end wide, where only the section ends
// narrow.
func (c *cutFace) edges(loop geom.Path, title string) []render.Shape {
	var out []render.Shape
	var run geom.Path
	flush := func() {
		if run != nil {
			out = append(out, render.Shape{Title: "edge of " + title, Path: run, Kind: render.Edge, Layer: LayerMark})
		}
		run = nil
	}
	for _, s := range loop {
		if c.openEnd(s.A) && c.openEnd(s.B) && math.Abs(s.A.X-s.B.X) < c.length/2 {
			flush()
			out = append(out, render.Shape{Title: "the section ends here, the wood does not",
				Path: geom.Path{s}, Kind: render.Mark, Layer: LayerMark})
			continue
		}
		run = append(run, s)
	}
	flush()
	return out
}

// overDatum is how far a datum stands out over the faces, mm.
const overDatum = 8

// goesOn reports whether the body goes on past an end of the line: past its start
// for way −1, past its end for +1.
func (c *cutFace) goesOn(way float64) bool {
	p := c.line.From
	if way > 0 {
		p = c.line.To
	}
	return c.outline.Contains(p.Add(c.line.To.Sub(c.line.From).Unit().Mul(way * wall.Opens)))
}

// datums draws where the plane meets the centre line and the bridge line.
func (c *cutFace) datums(b geom.Box) (render.Group, []render.Label) {
	g := render.Group{ID: "datums", Title: "centre line and bridge line"}
	var labels []render.Label
	for _, d := range [2]struct {
		id, name string
		datum    geom.Seg
	}{
		{"centre-line", "centre line", geom.Line(geom.Pt(0, -farDatum), geom.Pt(0, farDatum))},
		{"bridge-line", "bridge line", geom.Line(geom.Pt(-farDatum, 0), geom.Pt(farDatum, 0))},
	} {
		for _, x := range c.crosses(geom.Path{d.datum}) {
			g.Shapes = append(g.Shapes, render.Shape{ID: d.id, Title: d.name, Kind: render.Centre, Layer: LayerCentre,
				Path: geom.Path{geom.Line(geom.Pt(x, b.Max.Y+overDatum), geom.Pt(x, b.Min.Y-overDatum))}})
			labels = append(labels, render.Label{S: d.name, At: geom.Pt(x, b.Max.Y+overDatum)})
		}
	}
	return g, labels
}

// farDatum is farther than any body reaches, mm.
const farDatum = 1e4

// crosses returns where along the section its line crosses an open path.
func (c *cutFace) crosses(p geom.Path) []float64 {
	u := c.line.To.Sub(c.line.From).Unit()
	var out []float64
	for _, s := range p {
		h, k := u.Cross(s.A.Sub(c.line.From)), u.Cross(s.B.Sub(c.line.From))
		if (h > 0) == (k > 0) {
			continue
		}
		if x := s.A.Lerp(s.B, h/(h-k)).Sub(c.line.From).Dot(u); x >= 0 && x <= c.length {
			out = append(out, x)
		}
	}
	return out
}

// cracks draws where the plane meets the cracks: from face to face where both
// traces cross it, a short stroke where one does.
func (c *cutFace) cracks(j *job.Job) (render.Group, []render.Label) {
	const stroke = 3 // mm
	g := render.Group{ID: "cracks", Title: "cracks as measured"}
	var labels []render.Label
	for i, k := range j.Cracks {
		front, back := c.crosses(k.Front), c.crosses(k.Back)
		name := fmt.Sprintf("crack %d", i+1)
		draw := func(a, b geom.Point) {
			l, u := a.Dist(b), b.Sub(a).Unit()
			longest := 0.0
			var at geom.Point
			for _, w := range c.wood.Chords(a, b) { // not in keys, nor in the air
				if lo, hi := math.Max(w[0], 0), math.Min(w[1], l); hi-lo > wall.Opens {
					p, q := a.Add(u.Mul(lo)), a.Add(u.Mul(hi))
					g.Shapes = append(g.Shapes, render.Shape{Title: name,
						Path: geom.Path{geom.Line(p, q)}, Kind: render.Mark, Layer: LayerMark})
					if hi-lo > longest {
						longest, at = hi-lo, p.Lerp(q, 0.5)
					}
				}
			}
			if longest > 0 {
				labels = append(labels, render.Label{S: name, At: at})
			}
		}
		if len(front) == 1 && len(back) == 1 {
			draw(geom.Pt(front[0], 0), geom.Pt(back[0], -j.Thickness))
			continue
		}
		for _, x := range front {
			draw(geom.Pt(x, 0), geom.Pt(x, -stroke))
		}
		for _, x := range back {
			draw(geom.Pt(x, stroke-j.Thickness), geom.Pt(x, -j.Thickness))
		}
	}
	return g, labels
}

// labels names every void with its depth, key and cover, in what of it no other
// covers.
func (c *cutFace) labels(j *job.Job) []render.Label {
	var out []render.Label
	name := func(p piece, rest geom.Region) {
		if rest.Empty() {
			rest = p.region
		}
		best, most := geom.Region(nil), 0.0
		for _, r := range rest.Components() {
			if a := r.Area(); a > most {
				best, most = r, a
			}
		}
		if best != nil {
			words := partWords(p.Part)
			if d := c.depth(j, p); p.Stage() == part.Machined && len(p.Solids) > 0 && d > wall.Opens && d < j.Thickness-wall.Opens {
				words += fmt.Sprintf(", %s deep", mm(d))
			}
			out = append(out, render.Label{S: words, At: geom.InscribedCircle(best).Center})
		}
	}
	for i, v := range c.voids {
		var others []geom.Region
		for k, w := range c.voids {
			if k != i {
				others = append(others, w.region)
			}
		}
		for _, l := range c.lids {
			others = append(others, l.region)
		}
		name(v, c.Subtract(v.region, others...))
	}
	for _, k := range append(append([]piece(nil), c.keys...), c.lids...) {
		name(k, k.region)
	}
	return out
}

// faceLabels says which face is which, over the wood at the left.
func (c *cutFace) faceLabels(j *job.Job) []render.Label {
	box := c.whole.Bounds()
	x := box.Min.X + math.Min(25, box.W()/3)
	return []render.Label{{S: "front", At: geom.Pt(x, 0)}, {S: "back", At: geom.Pt(x, -j.Thickness)}}
}

// markThinnest gives the wall that the section was laid through.
func (c *cutFace) markThinnest(s *render.Sheet, w wall.Wall) {
	u := c.line.To.Sub(c.line.From).Unit()
	at := func(p part.Point) geom.Point { return geom.Pt(p.Flat().Sub(c.line.From).Dot(u), -p.Z) }
	a, b := at(w.A), at(w.B)
	s.Labels = append(s.Labels, render.Label{S: "thinnest: " + mm(w.D), At: a.Lerp(b, 0.5)})
	s.Block = append(s.Block, render.Field{Name: "Thinnest", Value: fmt.Sprintf("%s mm %s", mm(w.D), w.Words())})
}
