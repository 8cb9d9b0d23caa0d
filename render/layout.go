package render

import (
	"fmt"
	"strings"

	"routwright/geom"
)

// LayoutOptions say how a sheet is set. The zero value sets a full sheet.
type LayoutOptions struct {
	// Bare leaves out frame, title block and rulers: lines, dimensions, labels
	// and hatching only.
	Bare bool
}

// office is the state of one layout: what is drawn and what room is left.
type office struct {
	ink     ink
	content geom.Box // of what the sheet was given

	work     []Group
	holes    Group
	dims     Group
	labels   Group
	hatching Group

	numbered []string // labels that became numbered notes
	remarks  []string
	ids      map[string]int
	lacking  map[rune]bool
}

// Layout sets a sheet: everything gets its place, and no word lies on a line or
// on another word. FromBack mirrors across x = 0, once, here. Letters that the
// embedded font lacks are written as U+XXXX; those, and labels that became
// numbered notes, are told in Remarks. The same sheet gives the same drawing.
//
// Errors name the line or hole that cannot be drawn (a number that is not
// finite, a broken path, a hole of no size).
func Layout(s Sheet, opt LayoutOptions) (Drawing, error) {
	if err := s.check(); err != nil {
		return Drawing{}, fmt.Errorf("sheet %q: %w", s.ID, err)
	}
	if s.FromBack {
		s = s.mirrored()
	}
	o := &office{ids: map[string]int{}, lacking: map[rune]bool{}}
	o.holes = Group{ID: "holes", Title: "holes"}
	o.dims = Group{ID: "dimensions", Title: "dimensions"}
	o.labels = Group{ID: "labels", Title: "labels"}
	o.hatching = Group{ID: "hatching", Title: "waste side, hatched"}
	if len(s.Solids) > 0 {
		o.hatching.Title = "hatching"
	}

	for _, g := range s.Groups {
		o.work = append(o.work, o.group(g))
	}
	labels := append([]Label(nil), s.Labels...)
	for _, h := range s.Holes {
		labels = append(labels, o.hole(h)...)
	}
	for _, w := range s.Waste {
		o.content = o.content.Union(w.Region.Bounds())
	}
	for _, f := range s.Solids {
		o.content = o.content.Union(f.Region.Bounds())
	}
	for _, d := range s.Dims {
		o.content = o.content.Union(geom.BoxOf(d.A, d.B))
	}
	o.placeDims(s.Dims)
	o.placeLabels(labels)
	o.placeGrain(s.Grain)
	for _, w := range s.Waste {
		o.hatching.Shapes = append(o.hatching.Shapes, hatchShapes(w.Region, o.ink.words)...)
	}
	for _, f := range s.Solids {
		o.hatching.Shapes = append(o.hatching.Shapes, f.hatched(o.ink.words)...)
	}
	d := Drawing{ID: s.ID, Title: o.written(s.Title), Keep: s.Keep}
	for _, g := range append([]Group{o.hatching}, append(o.work, o.holes, o.dims, o.labels)...) {
		if len(g.Shapes)+len(g.Texts)+len(g.Groups) > 0 {
			d.Groups = append(d.Groups, g)
		}
	}
	d.Bounds = boundsOf(d.Groups)
	if !opt.Bare {
		o.sheet(&d, s)
	}
	d.Remarks = o.remarks
	return d, nil
}

// hatchShapes joins the hatch lines of a region in one shape a line.
func hatchShapes(r geom.Region, words []word) []Shape {
	var out []Shape
	for _, p := range hatch(r, wasteHatch, words) {
		out = append(out, Shape{Title: "hatching: waste side", Path: p, Kind: Hatch})
	}
	return out
}

// group enters the sheet's own lines and words in the ink and makes every id
// unique.
func (o *office) group(g Group) Group {
	g.ID = o.unique(g.ID)
	g.Title = o.written(g.Title)
	shapes := g.Shapes
	g.Shapes = nil
	for _, s := range shapes {
		s.ID, s.Title = o.unique(s.ID), o.written(s.Title)
		g.Shapes = append(g.Shapes, s)
		o.ink.addPath(s.Path, s.Kind)
		o.content = o.content.Union(s.Path.Bounds())
	}
	texts := g.Texts
	g.Texts = nil
	o.words(&g, texts...)
	for _, t := range g.Texts {
		o.content = o.content.Union(t.Box().Bounds())
	}
	subs := g.Groups
	g.Groups = nil
	for _, sub := range subs {
		g.Groups = append(g.Groups, o.group(sub))
	}
	return g
}

func (o *office) unique(id string) string {
	if id == "" {
		return ""
	}
	o.ids[id]++
	if n := o.ids[id]; n > 1 {
		return o.unique(fmt.Sprintf("%s-%d", id, n))
	}
	return id
}

// crossPast is how far a centre cross runs past its hole, mm.
const crossPast = 2.0

// hole draws a hole with its centre cross and returns its label.
func (o *office) hole(h Hole) []Label {
	name := strings.TrimSpace(h.ID + " " + h.Text)
	r := h.D / 2
	c := Shape{ID: o.unique(h.ID), Title: o.written("hole " + name), Path: geom.Circle(h.At, r), Kind: h.Kind, Layer: h.Layer}
	o.holes.Shapes = append(o.holes.Shapes, c)
	o.ink.addPath(c.Path, h.Kind)
	o.content = o.content.Union(c.Path.Bounds())
	l := r + crossPast
	for _, v := range [2]geom.Vec{{X: l}, {Y: l}} {
		o.line(&o.holes, geom.Line(h.At.Add(v.Neg()), h.At.Add(v)), Mark, "centre of "+name)
	}
	if h.Text == "" {
		return nil
	}
	// The label belongs to the edge of the hole, so that a leader ends there.
	return []Label{{S: h.Text, At: h.At, clear: r}}
}

// line draws one line, titled in words, and remembers where it lies.
func (o *office) line(g *Group, s geom.Seg, k Kind, title string) {
	g.Shapes = append(g.Shapes, Shape{Title: o.written(title), Path: geom.Path{s}, Kind: k})
	o.ink.addSeg(s, k)
}

// words draws texts and remembers where they lie.
func (o *office) words(g *Group, ts ...Text) {
	for _, t := range ts {
		t.S = o.written(t.S)
		t.Size = max(t.Size, MinText)
		g.Texts = append(g.Texts, t)
		o.ink.addWord(t.Box())
	}
}

// written returns s as the font can write it and remembers what it cannot.
func (o *office) written(s string) string {
	w, lacking := Written(s)
	for _, r := range lacking {
		if !o.lacking[r] {
			o.lacking[r] = true
			o.remark(fmt.Sprintf("the font of the sheets has no letter %q: written as U+%04X", r, r))
		}
	}
	return w
}

func (o *office) remark(s string) { o.remarks = append(o.remarks, s) }

// boundsOf returns the least box round all lines and words.
func boundsOf(groups []Group) geom.Box {
	var b geom.Box
	for _, g := range groups {
		for _, s := range g.Shapes {
			b = b.Union(s.Path.Bounds())
		}
		for _, t := range g.Texts {
			b = b.Union(t.Box().Bounds())
		}
		b = b.Union(boundsOf(g.Groups))
	}
	return b
}
