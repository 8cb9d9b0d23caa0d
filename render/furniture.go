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
	seams := Group{ID: "seams", Title: "where the pages join"}
	for _, s := range p.seamsOf(c) {
		seams.Groups = append(seams.Groups, moveGroups([]Group{s}, move)...)
	}
	g.Furniture = append(g.Furniture, seams)
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
		at.X += math.Max(0, (p.s.win.W()-win.W())/2)
	}
	if len(p.ys) == 1 {
		at.Y += math.Max(0, (p.s.win.H()-win.H())/2)
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
	if lines := wrap(last, math.Max(room, 10), MinText, false); len(lines) > 0 {
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
	w := math.Min(room.W()/cols, room.H()/rows/ratio)
	w = math.Min(w, 6)
	h := w * ratio
	var out []Shape
	for _, c := range p.cells() {
		lo := geom.Pt(room.Min.X+float64(c.col)*w, room.Max.Y-(rows-float64(c.row))*h)
		b := geom.BoxOf(lo, lo.Add(geom.Vec{X: w, Y: h}))
		s := Shape{Title: "page " + p.name(c), Kind: Frame, Path: boxPath(b)}
		out = append(out, s)
		if mark != nil && c == *mark {
			s.Path, s.Fill = boxPath(b.Grow(-math.Min(0.4, w/5))), true
			s.Title = "this page"
			out = append(out, s)
		}
	}
	return out
}

// seamsOf returns the four edges of a page that other pages share, in drawing
// coordinates: left and lower edges are cut (continuous), right and upper edges
// take the glue (dashed). The cut edge of one page lies on the dashed line of
// the other, and the crosses of both lie on that line.
func (p *plan) seamsOf(c cellAt) []Group {
	win := p.window(c)
	var out []Group
	add := func(n cellAt, a, b geom.Point, cut bool) {
		if p.used(n) {
			out = append(out, p.seam(a, b, p.name(n), cut))
		}
	}
	left, right := cellAt{c.col - 1, c.row}, cellAt{c.col + 1, c.row}
	below, above := cellAt{c.col, c.row - 1}, cellAt{c.col, c.row + 1}
	add(left, win.Min, geom.Pt(win.Min.X, win.Max.Y), true)
	add(below, win.Min, geom.Pt(win.Max.X, win.Min.Y), true)
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

// seam draws one shared edge from a to b (upward or to the right) with two
// crosses and its words. The crosses depend on the seam alone, so that both
// pages have the same.
func (p *plan) seam(a, b geom.Point, other string, cut bool) Group {
	g := Group{Title: "glue page " + other + " on here"}
	kind, words := Hidden, []string{"glue " + other + " here", "glue " + other}
	if cut {
		g.Title = "cut here and lay the edge on page " + other
		kind, words = Frame, []string{"cut here, lay on " + other, "cut, lay on " + other, other}
	}
	u := b.Sub(a).Unit()
	out := geom.Vec{X: -1} // toward the strip
	if u.Y == 0 {
		out = geom.Vec{Y: -1}
	}
	g.Shapes = append(g.Shapes, Shape{Title: g.Title, Kind: kind, Path: geom.Path{geom.Line(a, b)}})
	var taken []TextBox
	for i, x := range p.crosses(a, b) {
		g.Shapes = append(g.Shapes, crossLines(x)...)
		if t, ok := p.crossWords(x, u, out, cut, i == 1); ok {
			g.Texts = append(g.Texts, t)
			taken = append(taken, t.Box())
		}
	}
	if t, ok := p.seamNote(words, a, b, out, cut, taken); ok {
		g.Texts = append(g.Texts, t)
	}
	return g
}

// seamNote says what to do at a seam, in the first wording that finds room
// between the crosses.
func (p *plan) seamNote(words []string, a, b geom.Point, out geom.Vec, cut bool, taken []TextBox) (Text, bool) {
	for _, w := range words {
		for _, f := range [...]float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74} {
			t, ok := p.seamWords(w, a.Lerp(b, f), b.Sub(a).Unit(), out, cut, -TextWidth(w, MinText, false)/2)
			for _, k := range taken {
				ok = ok && !k.Grow(1).Overlaps(t.Box())
			}
			if ok {
				return t, true
			}
		}
	}
	return Text{}, false
}

// crossWords sets a cross's coordinates beside it, toward the middle of the seam.
func (p *plan) crossWords(x geom.Point, u, out geom.Vec, cut, last bool) (Text, bool) {
	s := "x " + coordinate(x.X) + "  y " + coordinate(x.Y)
	along := 1.2
	if last {
		along = -1.2 - TextWidth(s, MinText, false)
	}
	return p.seamWords(s, x, u, out, cut, along)
}

// seamWords sets words along a seam, from at moved by along: outside the window
// on the page that is cut there, on the flap of the other page, if they lie on
// no line there.
func (p *plan) seamWords(s string, at geom.Point, u, out geom.Vec, cut bool, along float64) (Text, bool) {
	t := Text{S: s, Size: MinText, Angle: u.Angle()}
	up := u.Left() // the words' own upward direction
	base := 1.0    // clear of the seam
	at = at.Add(u.Mul(along))
	side := out
	if !cut {
		side = out.Neg()
	}
	if side.Dot(up) > 0 {
		t.At = at.Add(side.Mul(base))
	} else {
		t.At = at.Add(side.Mul(base + MinText))
	}
	if cut {
		return t, true
	}
	return t, p.ink.clear(t.Box().Grow(0.4))
}

// crosses returns the places of the crosses of the seam a–b: two, each near its
// end of the seam, moved inward until the coordinates beside it lie on no line.
func (p *plan) crosses(a, b geom.Point) []geom.Point {
	l := a.Dist(b)
	u := b.Sub(a).Unit()
	in := geom.Vec{X: 1}
	if u.Y == 0 {
		in = geom.Vec{Y: 1}
	}
	inset := math.Min(p.s.overlap+crossArm+2, l/4)
	find := func(from, dir float64, last bool) geom.Point {
		for step := 0.0; step < l/2-inset-crossArm; step += 3 {
			x := a.Add(u.Mul(math.Round(from + dir*step)))
			if _, ok := p.crossWords(x, u, in.Neg(), false, last); ok {
				return x
			}
		}
		return a.Add(u.Mul(math.Round(from)))
	}
	return []geom.Point{find(inset, 1, false), find(l-inset, -1, true)}
}

// crossLines draws a cross of two whole lines, whatever the seam's own line does.
func crossLines(x geom.Point) []Shape {
	title := "cross at x " + coordinate(x.X) + ", y " + coordinate(x.Y)
	var out []Shape
	for _, v := range [2]geom.Vec{{X: crossArm}, {Y: crossArm}} {
		out = append(out, Shape{Title: title, Kind: Frame, Path: geom.Path{geom.Line(x.Add(v.Neg()), x.Add(v))}})
	}
	return out
}
