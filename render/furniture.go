package render

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
)

// Measures of what stands round the window of a page, mm.
const (
	seamZone  = 4.0 // of the strip, next to the window: seam words, arms of crosses
	crossArm  = 4.0
	mapHigh   = 22.0
	mapRoom   = 36.0 // of the left strip: page name and map
	pageText  = 4.0  // capitals of the page's name
	wordsHigh = 3.2  // the outermost line of words
)

// page makes the page of cell c.
func (p *plan) page(c cellAt) Page {
	win := p.window(c)
	at := p.place(win)
	move := geom.Translate(at.Sub(win.Min))
	name := p.name(c)
	g := p.blankPage(strings.ToLower(name), name, p.d.Title+", page "+p.named(name))
	g.Window = geom.BoxOf(at, at.Add(geom.Vec{X: win.W(), Y: win.H()}))
	g.Tile = moveGroups(p.content[p.index(c)], move)
	if seams := p.seamGroups(c); len(seams) > 0 {
		g.Furniture = append(g.Furniture, Group{ID: "seams", Title: "where the pages join", Groups: moveGroups(seams, move)})
	}
	if p.s.rulers {
		g.Furniture = append(g.Furniture, p.strips(p.named(name)))
		g.Furniture = append(g.Furniture, p.corner(c, name))
	}
	return g
}

func (p *plan) blankPage(id, name, title string) Page {
	return Page{ID: p.d.ID + "-" + id, Name: name, Title: title, W: p.s.w, H: p.s.h, Factor: p.s.factor}
}

// place returns where on the page the lower left corner of a window lies: in the
// corner of the rulers, or centred where the drawing needs one page only.
func (p *plan) place(win geom.Box) geom.Point {
	at := p.s.win.Min
	if len(p.xs) == 1 {
		at.X += max(0, (p.s.win.W()-win.W())/2)
	}
	if len(p.ys) == 1 {
		at.Y += max(0, (p.s.win.H()-win.H())/2)
	}
	return at
}

// correctionWords says by what the page is corrected.
func (s pageSetup) correctionWords() string {
	if s.factor == (geom.Vec{X: 1, Y: 1}) {
		return "Not corrected: across × 1.0000, up × 1.0000."
	}
	return fmt.Sprintf("Corrected for this printer: across × %.4f, up × %.4f.", s.factor.X, s.factor.Y)
}

// rulerRoom returns the lengths of both rulers of a page.
func (s pageSetup) rulerRoom() (across, up float64) {
	return rulerLength(s.edge.W()), rulerLength(s.win.H() - mapRoom)
}

// strips draws the rulers and the words along the left and the lower edge.
func (p *plan) strips(name string) Group {
	s := p.s
	across, up := s.rulerRoom()
	g := Group{ID: "strips", Title: "rulers and how to check them"}
	base := s.win.Min.Sub(geom.Point{}).Sub(geom.Vec{X: seamZone + rulerSide, Y: seamZone + rulerSide})
	if across > 0 {
		g.Groups = append(g.Groups, ruler("page-ruler-across", geom.Pt(s.edge.Min.X+rulerLead, base.Y), geom.Vec{X: 1}, across))
	}
	if up > 0 {
		g.Groups = append(g.Groups, ruler("page-ruler-up", geom.Pt(base.X, s.win.Min.Y+rulerLead), geom.Vec{Y: 1}, up))
	}
	low := 0.32 * MinText // room for descenders
	below := fitWords(s.edge.W(), name+".  "+scaleWords(across, up), scaleWords(across, up), "Print at 100 %. Measure the rulers.")
	beside := fitWords(s.win.H()-mapRoom, p.d.Title+".  "+s.correctionWords(), s.correctionWords())
	g.Texts = append(g.Texts,
		Text{S: below, At: geom.Pt(s.edge.Min.X, s.edge.Min.Y+low), Size: MinText},
		Text{S: beside, At: geom.Pt(s.edge.Min.X+MinText+0.2, s.win.Min.Y+rulerLead), Size: MinText, Angle: 90 * geom.Degree})
	return g
}

// fitWords returns the first of the sentences that fits the room, else the
// beginning of the last.
func fitWords(room float64, sentences ...string) string {
	for _, s := range sentences {
		if TextWidth(s, MinText, false) <= room {
			return s
		}
	}
	last := sentences[len(sentences)-1]
	if lines := wrap(last, max(room, 10), MinText, false); len(lines) > 0 {
		return lines[0]
	}
	return ""
}

// corner draws the page's name and a small map at the top of the left strip.
func (p *plan) corner(c cellAt, name string) Group {
	s := p.s
	g := Group{ID: "page-map", Title: "page " + p.named(name)}
	x, top := s.edge.Min.X, s.edge.Max.Y
	g.Texts = append(g.Texts, Text{S: name, At: geom.Pt(x, top-pageText-0.3), Size: pageText, Bold: true})
	room := geom.BoxOf(geom.Pt(x, top-pageText-2-mapHigh), geom.Pt(x+stripWide-seamZone, top-pageText-2))
	g.Shapes = p.gridMap(room, &c)
	return g
}

// gridMap draws the pages as cells, the one at mark filled, left out ones not
// drawn.
func (p *plan) gridMap(room geom.Box, mark *cellAt) []Shape {
	cols, rows := float64(len(p.xs)), float64(len(p.ys))
	ratio := p.s.win.H() / p.s.win.W()
	w := min(room.W()/cols, room.H()/rows/ratio)
	w = min(w, 6)
	h := w * ratio
	var out []Shape
	for _, c := range p.cells() {
		lo := geom.Pt(room.Min.X+float64(c.col)*w, room.Max.Y-(rows-float64(c.row))*h)
		b := geom.BoxOf(lo, lo.Add(geom.Vec{X: w, Y: h}))
		s := Shape{Title: "page " + p.name(c), Kind: Frame, Path: boxPath(b)}
		out = append(out, s)
		if mark != nil && c == *mark {
			s.Path, s.Fill = boxPath(b.Grow(-min(0.4, min(w, h)/5))), true
			s.Title = "this page"
			out = append(out, s)
		}
	}
	return out
}

// seam is an edge that two pages share, a–b upward or to the right, in drawing
// coordinates. Left and lower edges of a page are cut (continuous), right and
// upper edges take the glue (dashed). The cut edge of one page lies on the dashed
// line of the other, and the crosses of both lie on that line.
type seam struct {
	a, b  geom.Point
	other string // the neighbour
	cut   bool
}

func (s seam) along() geom.Vec { return s.b.Sub(s.a).Unit() }

// flap returns the direction from the seam to the side that is glued under.
func (s seam) flap() geom.Vec {
	if s.a.X == s.b.X {
		return geom.Vec{X: 1}
	}
	return geom.Vec{Y: 1}
}

func (p *plan) seamsOf(c cellAt) []seam {
	win := p.window(c)
	var out []seam
	add := func(n cellAt, a, b geom.Point, cut bool) {
		if p.used(n) {
			out = append(out, seam{a, b, p.name(n), cut})
		}
	}
	right, above := cellAt{c.col + 1, c.row}, cellAt{c.col, c.row + 1}
	add(cellAt{c.col - 1, c.row}, win.Min, geom.Pt(win.Min.X, win.Max.Y), true)
	add(cellAt{c.col, c.row - 1}, win.Min, geom.Pt(win.Max.X, win.Min.Y), true)
	if right.col < len(p.xs) {
		x := p.xs[right.col]
		add(right, geom.Pt(x, win.Min.Y), geom.Pt(x, win.Max.Y), false)
	}
	if above.row < len(p.ys) {
		y := p.ys[above.row]
		add(above, geom.Pt(win.Min.X, y), geom.Pt(win.Max.X, y), false)
	}
	return out
}

// seamGroups draws the seams of a page: all lines and crosses first, then the
// words where they lie on none of them.
func (p *plan) seamGroups(c cellAt) []Group {
	seams := p.seamsOf(c)
	groups := make([]Group, len(seams))
	own := &ink{}
	for i, s := range seams {
		kind, title := Hidden, "glue page "+s.other+" on here"
		if s.cut {
			kind, title = Frame, "cut here and lay the edge on page "+s.other
		}
		groups[i] = Group{Title: title, Shapes: []Shape{{Title: title, Kind: kind, Path: geom.Path{geom.Line(s.a, s.b)}}}}
		for _, x := range p.crosses(s) {
			groups[i].Shapes = append(groups[i].Shapes, crossLines(x)...)
		}
	}
	own.addGroups(groups)
	// What is printed round the window is known by its place on the page.
	zone := geom.Vec{X: -seamZone, Y: -seamZone}
	if !p.s.rulers {
		zone = geom.Vec{}
	}
	room := geom.BoxOf(p.s.win.Min.Add(zone), p.s.edge.Max)
	at := p.place(p.window(c)).Sub(p.window(c).Min)
	room = geom.BoxOf(room.Min.Add(at.Neg()), room.Max.Add(at.Neg()))
	put := func(i int, t Text, onFlap bool) bool {
		box := t.Box()
		if !room.Holds(box.Bounds()) || !own.clear(box.Grow(0.3)) || onFlap && !p.ink.clear(box.Grow(0.4)) {
			return false
		}
		own.addWord(box)
		groups[i].Texts = append(groups[i].Texts, t)
		return true
	}
	for i, s := range seams {
		for j, x := range p.crosses(s) {
			for _, t := range s.crossWords(x, j == 1) {
				if put(i, t, !s.cut) {
					break
				}
			}
		}
	}
	for i, s := range seams {
		p.seamNote(s, func(t Text) bool { return put(i, t, !s.cut) })
	}
	return groups
}

// seamNote offers what to do at a seam, in the longest wording that finds room.
func (p *plan) seamNote(s seam, put func(Text) bool) {
	words := []string{"glue " + s.other + " here", "glue " + s.other}
	if s.cut {
		words = []string{"cut here, lay on " + s.other, "cut, lay on " + s.other, "on " + s.other}
	}
	for _, w := range words {
		for _, f := range [...]float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82} {
			if put(s.words(w, s.a.Lerp(s.b, f), -TextWidth(w, MinText, false)/2, s.cut)) {
				return
			}
		}
	}
}

func crossLabel(x geom.Point) string { return "x " + coordinate(x.X) + "  y " + coordinate(x.Y) }

// crossWords offers places for a cross's coordinates: toward the middle of the
// seam, then away from it; on the flap, then on the other side of the line.
func (s seam) crossWords(x geom.Point, last bool) []Text {
	l := crossLabel(x)
	in, away := 1.2, -1.2-TextWidth(l, MinText, false)
	if last {
		in, away = away, in
	}
	out := []Text{s.words(l, x, in, s.cut), s.words(l, x, away, s.cut)}
	if !s.cut {
		out = append(out, s.words(l, x, in, true), s.words(l, x, away, true))
	}
	return out
}

// words sets words along the seam, beside the point at moved by along: on the
// side of the rulers, else on the side of the flap.
func (s seam) words(w string, at geom.Point, along float64, ruler bool) Text {
	const air = 1.0 // clear of the seam
	u, side := s.along(), s.flap()
	if ruler {
		side = side.Neg()
	}
	at = at.Add(u.Mul(along)).Add(side.Mul(air))
	if side.Dot(u.Left()) < 0 { // the letters stand toward the seam
		at = at.Add(side.Mul(MinText))
	}
	return Text{S: w, At: at, Size: MinText, Angle: u.Angle()}
}

// crosses returns the places of the crosses of a seam: two, each near its end,
// moved toward the middle until the coordinates beside it lie on no line of the
// drawing. They depend on the seam alone, so that both pages have the same.
func (p *plan) crosses(s seam) []geom.Point {
	l, u := s.a.Dist(s.b), s.along()
	inset := min(p.s.overlap+crossArm+2, l/4)
	find := func(from, dir float64, last bool) geom.Point {
		for step := 0.0; step < l/2-inset-crossArm; step += 3 {
			x := s.a.Add(u.Mul(math.Round(from + dir*step)))
			for _, t := range (seam{a: s.a, b: s.b}).crossWords(x, last)[:2] {
				if p.ink.clear(t.Box().Grow(0.4)) {
					return x
				}
			}
		}
		return s.a.Add(u.Mul(math.Round(from)))
	}
	return []geom.Point{find(inset, 1, false), find(l-inset, -1, true)}
}

// crossLines draws a cross of two whole lines, whatever the seam's own line does.
func crossLines(x geom.Point) []Shape {
	title := "cross at " + crossLabel(x)
	var out []Shape
	for _, v := range [2]geom.Vec{{X: crossArm}, {Y: crossArm}} {
		out = append(out, Shape{Title: title, Kind: Frame, Path: geom.Path{geom.Line(x.Add(v.Neg()), x.Add(v))}})
	}
	return out
}
