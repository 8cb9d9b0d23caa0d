package render

import (
	"fmt"
	"math"

	"routwright/geom"
)

// blockID is the id of the title block in every drawing.
const blockID = "title-block"

// Measures of the title block, mm.
const (
	titleText  = 3.5
	fieldText  = 2.5
	nameText   = 2.2
	rowPitch   = 4.6
	blockPad   = 3.0
	columnWide = 82.0 // about the width of a column of fields or notes
	noteGap    = 1.4  // below a note
	sampleLen  = 14.0 // of a line in the list of lines
)

// block is a table that grows downward from its upper left corner.
type block struct {
	g    Group
	x, y float64 // upper left corner of the next row
	w    float64
	top  float64
}

func (b *block) rule() {
	b.g.Shapes = append(b.g.Shapes, frameLine(geom.Pt(b.x, b.y), geom.Pt(b.x+b.w, b.y)))
}

func frameLine(p, q geom.Point) Shape {
	return Shape{Title: "frame", Kind: Frame, Path: geom.Path{geom.Line(p, q)}}
}

func (b *block) text(x, y float64, s string, size float64, isBold bool, a Anchor) {
	b.g.Texts = append(b.g.Texts, Text{S: s, At: geom.Pt(x, y), Size: size, Bold: isBold, Anchor: a})
}

// heading writes the title, wrapped, with the view at the right.
func (b *block) heading(title, view string) {
	w := b.w - 2*blockPad - TextWidth(view, titleText, true) - 8
	y := b.y - blockPad - titleText
	b.text(b.x+b.w-blockPad, y, view, titleText, true, End)
	for _, l := range wrap(title, w, titleText, true) {
		b.text(b.x+blockPad, y, l, titleText, true, Start)
		b.y, y = y, y-titleText*1.6
	}
	b.y -= blockPad
}

// entry is one item of a column: lines with their texts, or a sample line.
type entry struct {
	name   string
	lines  []string
	indent float64 // of the lines, mm
	gap    float64 // below, mm
	kind   Kind
	line   bool // show a sample of kind before the lines
}

func (e entry) height() float64 { return float64(max(1, len(e.lines)))*rowPitch + e.gap }

// columns sets entries in n columns of equal width, filled one after another to
// about the same height.
func (b *block) columns(entries []entry, n int) (height float64) {
	var total float64
	for _, e := range entries {
		total += e.height()
	}
	col, y := 0, 0.0
	cw := b.w / float64(n)
	for _, e := range entries {
		if y > 0 && y+e.height()/2 > total/float64(n) && col < n-1 {
			col, y = col+1, 0
		}
		b.entry(e, b.x+float64(col)*cw, b.y-blockPad-y)
		y += e.height()
		height = max(height, y)
	}
	return height
}

func (b *block) entry(e entry, x, top float64) {
	base := top - fieldText
	if e.line {
		b.sample(geom.Pt(x+blockPad, base+fieldText/2), e.kind)
	}
	if e.name != "" {
		b.text(x+blockPad, base, e.name, nameText, false, Start)
	}
	for i, l := range e.lines {
		b.text(x+blockPad+e.indent, base-float64(i)*rowPitch, l, fieldText, false, Start)
	}
}

// sample shows a kind of line from at to the right.
func (b *block) sample(at geom.Point, k Kind) {
	add := func(p, q geom.Point) {
		s := frameLine(p, q)
		s.Kind, s.Layer, s.Title = k, LegendLayer, "sample: "+k.Style().Words
		b.g.Shapes = append(b.g.Shapes, s)
	}
	if k != Hatch && k != Solid {
		add(at, at.Add(geom.Vec{X: sampleLen}))
		return
	}
	const h = 2.6
	for x := 0.0; x+h <= sampleLen; x += hatchPitch * math.Sqrt2 / 2 {
		p := at.Add(geom.Vec{X: x, Y: -h / 2})
		add(p, p.Add(geom.Vec{X: h, Y: h}))
	}
}

// split draws the upright rules between n columns and moves below them.
func (b *block) split(n int, height float64) {
	bottom := b.y - height - 2*blockPad + rowPitch - fieldText
	for i := 1; i < n; i++ {
		cx := b.x + b.w*float64(i)/float64(n)
		b.g.Shapes = append(b.g.Shapes, frameLine(geom.Pt(cx, b.y), geom.Pt(cx, bottom)))
	}
	b.y = bottom
}

// fields sets the rows of the title block.
func (o *office) fields(b *block, fs []Field) {
	if len(fs) == 0 {
		return
	}
	n := max(1, min(len(fs), int(b.w/columnWide)))
	indent := 0.0
	names := make([]string, len(fs))
	for i, f := range fs {
		names[i] = o.written(f.Name)
		indent = max(indent, TextWidth(names[i], nameText, false))
	}
	indent = min(indent+3, b.w/float64(n)/2)
	var es []entry
	for i, f := range fs {
		lines := wrap(o.written(f.Value), b.w/float64(n)-indent-2*blockPad, fieldText, false)
		es = append(es, entry{name: names[i], lines: lines, indent: indent})
	}
	b.split(n, b.columns(es, n))
	b.rule()
}

// lineWords says in words what each kind of line means, and what to do with it.
var lineWords = [...]string{
	Cut:       "cut on the middle of the line",
	Mark:      "mark only, do not cut",
	Centre:    "centre line, axis or bridge line",
	Hidden:    "on the other face or hidden below",
	Dimension: "dimensions and leaders",
	Hatch:     "waste: this side goes away",
	Frame:     "frame and rulers",
	Edge:      "visible edge: nothing is cut from this sheet",
	Solid:     "wood, cut through",
}

// legend lists the kinds of line that the sheet shows, with its own words where
// it has some.
func legend(used map[Kind]bool, meaning map[Kind]string) []entry {
	var es []entry
	for _, k := range []Kind{Cut, Edge, Mark, Centre, Hidden, Hatch, Solid} {
		if used[k] {
			words := lineWords[k]
			if w, ok := meaning[k]; ok {
				words = w
			}
			es = append(es, entry{lines: []string{words}, indent: sampleLen + 3, kind: k, line: true})
		}
	}
	return es
}

func kindsOf(groups []Group, used map[Kind]bool) map[Kind]bool {
	for _, g := range groups {
		for _, s := range g.Shapes {
			used[s.Kind] = true
		}
		kindsOf(g.Groups, used)
	}
	return used
}

// lower sets the list of lines, the notes and the numbered notes.
func (o *office) lower(b *block, notes []string, used map[Kind]bool, meaning map[Kind]string) {
	n := max(1, int(b.w/columnWide))
	width := b.w/float64(n) - 2*blockPad
	es := legend(used, meaning)
	for i := range es {
		es[i].lines = wrap(o.written(es[i].lines[0]), width-es[i].indent, fieldText, false)
	}
	if len(es) > 0 {
		es[len(es)-1].gap = noteGap
	}
	for _, s := range notes {
		es = append(es, entry{lines: wrap(o.written(s), width, fieldText, false), gap: noteGap})
	}
	for i, s := range o.numbered {
		es = append(es, entry{lines: wrap(fmt.Sprintf("(%d) %s", i+1, s), width, fieldText, false)})
	}
	b.split(n, b.columns(es, n))
}

// Least measures of a sheet, mm. The width is what an A4 or Letter page shows
// beside its ruler, so that a small template comes on one page.
const (
	leastWidth  = 172.0
	leastHeight = 60.0
	sheetPad    = 6.0
	longRuler   = 300.0 // the longest steel rule that every shop has
	sheetEdge   = 0.5   // outside the frame
)

// sheet draws frame, warning, rulers and title block round the laid out work and
// sets the bounds.
func (o *office) sheet(d *Drawing, s Sheet) {
	work := d.Bounds
	if work.Empty() {
		work = geom.BoxOf(geom.Point{})
	}
	strip := rulerHeight + 2
	inner := work.Grow(sheetPad)
	if w := leastWidth - strip; inner.W() < w {
		c := inner.Center().X
		inner = inner.Union(geom.BoxOf(geom.Pt(c-w/2, inner.Min.Y), geom.Pt(c+w/2, inner.Max.Y)))
	}
	if inner.H() < leastHeight {
		c := inner.Center().Y
		inner = inner.Union(geom.BoxOf(geom.Pt(inner.Min.X, c-leastHeight/2), geom.Pt(inner.Max.X, c+leastHeight/2)))
	}
	left, right := inner.Min.X-strip, inner.Max.X
	frame := Group{ID: o.unique("frame"), Title: "frame"}
	top := inner.Max.Y
	if s.Warning != "" {
		top = o.banner(&frame, left, right, top, s.Warning)
	}
	bottom := inner.Min.Y - strip
	across := min(longRuler, rulerLength(right-left-strip))
	up := min(longRuler, rulerLength(inner.Max.Y-inner.Min.Y))
	corner := geom.Pt(left+1+rulerSide, bottom+1+rulerSide)
	rulers := Group{ID: o.unique("rulers"), Title: "rulers to check the scale", Groups: []Group{
		ruler(o.unique("ruler-across"), corner.Add(geom.Vec{X: rulerSide + 1.5}), geom.Vec{X: 1}, across),
		ruler(o.unique("ruler-up"), corner.Add(geom.Vec{Y: rulerSide + 1.5}), geom.Vec{Y: 1}, up),
	}}
	b := &block{g: Group{ID: o.unique(blockID), Title: "title block"}, x: left, y: bottom, w: right - left}
	b.rule()
	b.heading(d.Title, o.written(s.view()))
	b.rule()
	o.fields(b, s.Block)
	notes := append([]string{scaleWords(across, up)}, s.Notes...)
	o.lower(b, notes, kindsOf(d.Groups, map[Kind]bool{}), s.Meaning)
	edge := geom.BoxOf(geom.Pt(left, b.y), geom.Pt(right, top))
	frame.Shapes = append(frame.Shapes, Shape{Title: "frame", Kind: Frame, Path: boxPath(edge)})
	d.Groups = append(d.Groups, frame, rulers, b.g)
	d.Bounds = edge.Grow(sheetEdge)
}

// view says from where the sheet is seen.
func (s Sheet) view() string {
	switch {
	case s.View != "":
		return s.View
	case s.FromBack:
		return "Seen from the back"
	}
	return "Seen from the front"
}

func boxPath(b geom.Box) geom.Path { return geom.Rect(b.Center(), b.W(), b.H()) }

// banner writes a warning across the top and returns the new upper edge.
func (o *office) banner(g *Group, left, right, bottom float64, warning string) float64 {
	const size, pitch, pad = 4.0, 6.5, 4.0
	lines := wrap(o.written(warning), right-left-4*pad, size, true)
	top := bottom + float64(len(lines))*pitch - (pitch - size) + 2*pad
	for i, l := range lines {
		y := top - pad - size - float64(i)*pitch
		g.Texts = append(g.Texts, Text{S: l, At: geom.Pt((left+right)/2, y), Size: size, Bold: true, Anchor: Middle})
	}
	b := geom.BoxOf(geom.Pt(left+1.2, bottom+1.2), geom.Pt(right-1.2, top-1.2))
	g.Shapes = append(g.Shapes, frameLine(geom.Pt(left, bottom), geom.Pt(right, bottom)),
		Shape{Title: "warning", Kind: Frame, Path: boxPath(b)})
	return top
}
