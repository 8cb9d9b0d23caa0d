package render

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"

	"routwright/geom"
)

// Compose sets a document on pages of paper, with a head and a page number on
// each. The same document gives the same pages. Sections with NewPage start one;
// Page.Title is set on the first page of every top section and empty on the
// others, for bookmarks.
//
// Errors: a paper without a fixed length or too narrow to set words on, a
// picture that is no PNG.
func Compose(d Document, paper Paper) ([]Page, error) {
	if paper.Roll() || paper.W < 3*composeMargin+40 || paper.H < 3*composeMargin+80 {
		return nil, fmt.Errorf("%s: a book needs sheets of at least %d × %d mm", paper.Name, 3*composeMargin+40, 3*composeMargin+80)
	}
	c := &composer{doc: d, paper: paper}
	c.turn(d.Title)
	c.text(d.Title, 5.5, true, 0)
	c.gap(2)
	c.text(d.Lead, bodySize, false, 0)
	c.gap(4)
	for i, s := range d.Sections {
		if s.NewPage && i > 0 {
			c.turn(s.Title)
		} else if c.page().Title == "" {
			c.page().Title = s.Title
		}
		c.section(s, 1)
	}
	for i := range c.pages {
		c.furnish(i)
	}
	return c.pages, c.err
}

// Sizes of a composed page, mm. Common practice for a manual: capitals of
// 2.2 mm are letters of 9 points, the smallest that this program writes.
const (
	composeMargin = 15
	bodySize      = MinText
	lineHeight    = 1.95 // of the capitals' height
	cellPad       = 1.0
	tickBox       = 3.2
)

type composer struct {
	doc   Document
	paper Paper
	pages []Page
	y     float64 // lower edge of what is set, from the bottom of the paper
	err   error
}

func (c *composer) page() *Page    { return &c.pages[len(c.pages)-1] }
func (c *composer) left() float64  { return composeMargin }
func (c *composer) width() float64 { return c.paper.W - 2*composeMargin }
func (c *composer) top() float64   { return c.paper.H - composeMargin - 6 }

const composeFoot = composeMargin + 4 // nothing is set below

// turn begins a page.
func (c *composer) turn(title string) {
	n := len(c.pages) + 1
	c.pages = append(c.pages, Page{
		ID: fmt.Sprintf("book-%d", n), Name: fmt.Sprint(n), Title: title,
		W: c.paper.W, H: c.paper.H, Factor: geom.Vec{X: 1, Y: 1},
		Furniture: []Group{{ID: "text"}},
	})
	c.y = c.top()
}

// room begins a page when h mm do not fit on this one; it reports whether it did.
func (c *composer) room(h float64) bool {
	if c.y-h >= composeFoot || c.y == c.top() {
		return false
	}
	c.turn("")
	return true
}

func (c *composer) gap(h float64) {
	if c.y < c.top() {
		c.y = max(c.y-h, composeFoot)
	}
}

// word sets one line of words at a place.
func (c *composer) word(s string, x, y, size float64, bold bool, a Anchor) {
	s, _ = Written(s)
	g := &c.page().Furniture[0]
	g.Texts = append(g.Texts, Text{S: s, At: geom.Pt(x, y), Size: size, Bold: bold, Anchor: a})
}

// line sets a straight line.
func (c *composer) line(a, b geom.Point, k Kind) {
	g := &c.page().Furniture[0]
	g.Shapes = append(g.Shapes, Shape{Path: geom.Path{geom.Line(a, b)}, Kind: k})
}

// text sets words in lines, indented by in.
func (c *composer) text(s string, size float64, bold bool, in float64) {
	for _, l := range wrapTo(s, size, bold, c.width()-in) {
		c.room(size * lineHeight)
		c.y -= size * lineHeight
		c.word(l, c.left()+in, c.y, size, bold, Start)
	}
}

// headSizes are the heights of capitals of headings by depth.
var headSizes = []float64{4.2, 3.2, 2.6, bodySize}

func (c *composer) section(s Section, depth int) {
	size := headSizes[min(depth, len(headSizes))-1]
	c.gap(2.2 * size)
	c.room(c.start(s, depth))
	c.text(s.Title, size, true, 0)
	if depth == 1 {
		c.y -= 1.2
		c.line(geom.Pt(c.left(), c.y), geom.Pt(c.left()+c.width(), c.y), Frame)
	}
	c.gap(1.4)
	for _, b := range s.Blocks {
		c.block(b)
	}
	for _, sub := range s.Sections {
		if sub.NewPage && c.y < c.top() {
			c.turn("")
		}
		c.section(sub, depth+1)
	}
}

func (c *composer) block(b Block) {
	switch b := b.(type) {
	case Para:
		c.text(string(b), bodySize, false, 0)
	case Caution:
		c.caution(b)
	case List:
		c.list(b)
	case Facts:
		c.facts(b)
	case Table:
		c.table(b)
	case Figure:
		c.figure(b)
	}
	c.gap(1.8)
}

const cautionIndent = 4

func (c *composer) cautionLines(b Caution) []string {
	return wrapTo(b.Word+": "+b.Text, bodySize, true, c.width()-2*cautionIndent)
}

func (c *composer) cautionHeight(b Caution) float64 {
	return float64(len(c.cautionLines(b)))*bodySize*lineHeight + 3
}

func (c *composer) caution(b Caution) {
	const in = cautionIndent
	lines := c.cautionLines(b)
	h := c.cautionHeight(b)
	c.room(h)
	box := geom.BoxOf(geom.Pt(c.left(), c.y-h), geom.Pt(c.left()+c.width(), c.y))
	g := &c.page().Furniture[0]
	g.Shapes = append(g.Shapes,
		Shape{Path: geom.Rect(box.Center(), box.W(), box.H()), Kind: Frame},
		Shape{Path: geom.Rect(geom.Pt(box.Min.X+0.9, box.Center().Y), 1.8, box.H()), Kind: Frame, Fill: true})
	y := c.y - 0.4
	for _, l := range lines {
		y -= bodySize * lineHeight
		c.word(l, c.left()+in, y+0.6, bodySize, true, Start)
	}
	c.y -= h
}

const listIndent = 7

func (c *composer) list(l List) {
	const in = listIndent
	for i, s := range l.Items {
		lines := wrapTo(s, bodySize, false, c.width()-in)
		c.room(float64(min(len(lines), 3)) * bodySize * lineHeight)
		base := c.y - bodySize*lineHeight
		switch {
		case l.Tick:
			c.box(c.left(), base-0.4)
		case l.Ordered:
			c.word(fmt.Sprintf("%d.", i+1), c.left()+in-1.6, base, bodySize, false, End)
		default:
			c.word("–", c.left()+in-3.4, base, bodySize, false, Start)
		}
		c.text(s, bodySize, false, in)
	}
}

// box draws a box to tick, its lower left corner given.
func (c *composer) box(x, y float64) {
	g := &c.page().Furniture[0]
	g.Shapes = append(g.Shapes, Shape{Title: "box to tick", Path: geom.Rect(geom.Pt(x+tickBox/2, y+tickBox/2), tickBox, tickBox), Kind: Frame})
}

func (c *composer) facts(fs Facts) {
	name := 0.0
	for _, f := range fs {
		name = max(name, TextWidth(f.Name, bodySize, true))
	}
	name = min(name+4, 0.34*c.width())
	for _, f := range fs {
		names, values := wrapTo(f.Name, bodySize, true, name-2), wrapTo(f.Value, bodySize, false, c.width()-name)
		n := max(len(names), len(values))
		c.room(float64(n) * bodySize * lineHeight)
		for i := range n {
			c.room(bodySize * lineHeight)
			c.y -= bodySize * lineHeight
			if i < len(names) {
				c.word(names[i], c.left(), c.y, bodySize, true, Start)
			}
			if i < len(values) {
				c.word(values[i], c.left()+name, c.y, bodySize, false, Start)
			}
		}
	}
}

// placed is the size of a figure on the page.
type placed struct {
	w, h    float64  // as it comes, mm
	k       float64  // to be multiplied with
	under   float64  // for the caption, mm
	caption []string // in lines
}

// place returns the size of a figure on the page; ok is false for one without
// extent or that is no picture.
func (c *composer) place(f Figure) (p placed, ok bool) {
	if f.Drawing != nil {
		p.w, p.h = f.Drawing.Bounds.W(), f.Drawing.Bounds.H()
	} else {
		cfg, err := png.DecodeConfig(bytes.NewReader(f.PNG))
		if err != nil {
			if c.err == nil {
				c.err = fmt.Errorf("picture %q: %w", f.Alt, err)
			}
			return p, false
		}
		p.w = c.width()
		p.h = p.w * float64(cfg.Height) / float64(cfg.Width)
	}
	if !(p.w > 0 && p.h > 0) {
		return p, false
	}
	p.k = min(1, c.width()/p.w)
	if f.WidthMM > 0 {
		p.k = min(p.k, f.WidthMM/p.w)
	}
	p.caption = wrapTo(f.Caption, bodySize, false, c.width())
	p.under = float64(len(p.caption))*bodySize*lineHeight + 1
	p.k = min(p.k, (c.top()-composeFoot-p.under)/p.h)
	return p, true
}

func (c *composer) figure(f Figure) {
	s, ok := c.place(f)
	if !ok {
		return
	}
	c.room(s.k*s.h + s.under)
	at := geom.BoxOf(geom.Pt(c.left(), c.y-s.k*s.h), geom.Pt(c.left()+s.k*s.w, c.y))
	p := c.page()
	if f.Drawing != nil {
		m := geom.Scale(s.k).Then(geom.Translate(at.Min.Sub(geom.Scale(s.k).Point(f.Drawing.Bounds.Min))))
		p.Furniture = append(p.Furniture, scaledGroups(f.Drawing.Groups, m, s.k)...)
	} else {
		p.Pictures = append(p.Pictures, Picture{At: at, PNG: f.PNG, Alt: f.Alt})
	}
	c.y = at.Min.Y - 1
	for _, l := range s.caption {
		c.y -= bodySize * lineHeight
		c.word(l, c.left(), c.y, bodySize, false, Start)
	}
}

// scaledGroups moves groups and shrinks their words with them.
func scaledGroups(gs []Group, m geom.Transform, k float64) []Group {
	out := moveGroups(gs, m)
	var shrink func(gs []Group)
	shrink = func(gs []Group) {
		for _, g := range gs {
			for i := range g.Texts {
				g.Texts[i].Size *= k
			}
			shrink(g.Groups)
		}
	}
	shrink(out)
	return out
}

// furnish sets the head and the number of page i.
func (c *composer) furnish(i int) {
	g := Group{ID: "page", Title: "head and number"}
	y := c.paper.H - composeMargin - 1
	title, _ := Written(c.doc.Title)
	g.Texts = append(g.Texts,
		Text{S: title, At: geom.Pt(c.left(), y), Size: MinText},
		Text{S: fmt.Sprintf("%d of %d", i+1, len(c.pages)), At: geom.Pt(c.left()+c.width(), y), Size: MinText, Anchor: End})
	c.pages[i].Furniture = append(c.pages[i].Furniture, g)
}

// wrapTo breaks s into lines of at most w mm. A word that is wider is broken
// anywhere.
func wrapTo(s string, size float64, bold bool, w float64) []string {
	s, _ = Written(s)
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		try := strings.TrimSpace(line + " " + word)
		if TextWidth(try, size, bold) <= w {
			line = try
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; TextWidth(line, size, bold) > w && len([]rune(line)) > 1; {
			r := []rune(line)
			n := len(r) - 1
			for n > 1 && TextWidth(string(r[:n]), size, bold) > w {
				n--
			}
			lines = append(lines, string(r[:n]))
			line = string(r[n:])
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
