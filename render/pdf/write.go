// Package pdf writes pages and whole drawings as PDF, true to size: straight
// lines, arcs as Bézier curves within 0.0001 mm, embedded fonts, bookmarks, and a
// word to viewers not to scale.
package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"routwright/geom"
	"routwright/render"
)

// Section is the pages of one sheet: a bookmark, with one below it for each page
// where there are several.
type Section struct {
	Title string
	Pages []render.Page
}

// largest is the side of a page, mm, beyond which some viewers show nothing:
// 14,400 units of 1/72 in (PDF 1.7, annex C).
const largest = 5080

// Tiled writes the pages of sections as one file. It returns what the reader
// should be told.
func Tiled(w io.Writer, title string, sections []Section) ([]string, error) {
	d := newDoc(title)
	for _, s := range sections {
		for i, p := range s.Pages {
			level := 1
			if i == 0 {
				d.mark(s.Title, 0, len(d.pages))
			}
			if len(s.Pages) > 1 {
				d.mark(p.Title, level, len(d.pages))
			}
			d.pages = append(d.pages, page{Page: p})
		}
	}
	return d.write(w)
}

// Whole writes one file with a page a drawing, each as large as its drawing.
func Whole(w io.Writer, title string, drawings []render.Drawing) ([]string, error) {
	d := newDoc(title)
	for _, g := range drawings {
		d.mark(g.Title, 0, len(d.pages))
		b := g.Bounds
		d.pages = append(d.pages, page{
			Page:   render.Page{Title: g.Title, W: b.W(), H: b.H(), Factor: geom.Vec{X: 1, Y: 1}, Furniture: g.Groups},
			origin: b.Min,
		})
	}
	return d.write(w)
}

// page is a page with the point of its content that lies at its lower left.
type page struct {
	render.Page
	origin geom.Point
}

type bookmark struct {
	text  string
	level int
	page  int
}

type doc struct {
	title string
	pages []page
	marks []bookmark

	f     *fpdf.Fpdf
	bold  bool
	size  float64 // of the font as set, pt
	stale bool    // the font state was put back by the end of a clip
	err   error
}

func newDoc(title string) *doc { return &doc{title: title} }

func (d *doc) mark(text string, level, page int) {
	d.marks = append(d.marks, bookmark{text, level, page})
}

const pt = 72 / 25.4 // points in a mm

// write draws every page. The library's own circles are not used: they are off
// by up to 0.1 mm. Content is written in mm, +Y up, by one matrix.
func (d *doc) write(w io.Writer) ([]string, error) {
	var notes []string
	if len(d.pages) == 0 {
		return nil, fmt.Errorf("no page to write")
	}
	first := d.pages[0]
	// A dummy size, and AddPageFormat for each page: else pages take over a
	// wrong media box.
	d.f = fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: first.W, Ht: first.H}})
	d.f.SetCatalogSort(true) // without it the order of objects differs from run to run
	fixed := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	d.f.SetCreationDate(fixed)
	d.f.SetModificationDate(fixed)
	d.f.SetProducer("routwright", true)
	d.f.SetTitle(d.title, true)
	d.f.SetAutoPageBreak(false, 0)
	d.f.SetMargins(0, 0, 0)
	d.f.AddUTF8FontFromBytes("go", "", goregular.TTF)
	d.f.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	d.f.SetFont("go", "", 10)
	last := d.pages[len(d.pages)-1]
	next := 0
	for i, p := range d.pages {
		if p.W > largest || p.H > largest {
			notes = append(notes, fmt.Sprintf("%s: a page of %.0f × %.0f mm: some viewers show nothing beyond %d mm", p.Title, p.W, p.H, largest))
		}
		d.f.AddPageFormat("P", fpdf.SizeType{Wd: p.W, Ht: p.H})
		for ; next < len(d.marks) && d.marks[next].page == i; next++ {
			m := d.marks[next]
			// The library measures from the top of the last page of the file.
			text, _ := render.Written(m.text)
			d.f.Bookmark(text, m.level, last.H-p.H)
		}
		d.page(p)
	}
	if d.err != nil {
		return nil, d.err
	}
	var b bytes.Buffer
	if err := d.f.Output(&b); err != nil {
		return nil, err
	}
	out, err := preferUnscaled(b.Bytes())
	if err != nil {
		return nil, err
	}
	_, err = w.Write(out)
	return notes, err
}

// raw writes operators of the content stream.
func (d *doc) raw(format string, a ...any) { d.f.RawWriteStr(fmt.Sprintf(format, a...)) }

// page draws one page: all within the calibration's matrix, the tile clipped.
func (d *doc) page(p page) {
	fx, fy := p.Factor.X, p.Factor.Y
	if fx == 0 || fy == 0 {
		fx, fy = 1, 1
	}
	d.raw("q %s 0 0 %s 0 0 cm", num(fx), num(fy))
	d.stale = true
	if !p.Window.Empty() {
		b := p.Window
		d.raw("q %s %s %s %s re W n", num(b.Min.X*pt), num(b.Min.Y*pt), num(b.W()*pt), num(b.H()*pt))
		d.groups(p.Tile, p.origin, p.H)
		d.raw("Q")
		d.stale = true
	}
	d.groups(p.Furniture, p.origin, p.H)
	d.raw("Q")
	d.stale = true
}

func (d *doc) groups(gs []render.Group, origin geom.Point, height float64) {
	for _, g := range gs {
		for _, s := range g.Shapes {
			d.shape(s, origin)
		}
		for _, t := range g.Texts {
			d.text(t, origin, height)
		}
		d.groups(g.Groups, origin, height)
	}
}

// num prints a number in points to 1e-4, far below what a printer resolves.
func num(v float64) string {
	s := fmt.Sprintf("%.5f", v)
	if s == "-0.00000" {
		return "0.00000"
	}
	return s
}

func (d *doc) shape(s render.Shape, o geom.Point) {
	if len(s.Path) == 0 || d.err != nil {
		return
	}
	st := s.Kind.Style()
	dash := ""
	for _, v := range st.Dash {
		dash += num(v*pt) + " "
	}
	at := func(p geom.Point) string { return num((p.X-o.X)*pt) + " " + num((p.Y-o.Y)*pt) }
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s w 1 J 1 j [%s] 0 d 0 G 0 g %s m\n", num(st.Width*pt), dash, at(s.Path[0].A))
	for _, e := range s.Path {
		if !e.A.IsFinite() || !e.B.IsFinite() {
			d.err = fmt.Errorf("line %q: a coordinate is not a finite number", s.ID)
			return
		}
		if !e.IsArc() {
			fmt.Fprintf(&b, "%s l\n", at(e.B))
			continue
		}
		for _, c := range beziers(e) {
			fmt.Fprintf(&b, "%s %s %s c\n", at(c[1]), at(c[2]), at(c[3]))
		}
	}
	op := "S"
	if s.Path.Closed() {
		op = "s"
	}
	if s.Fill {
		op = "b"
	}
	b.WriteString(op)
	d.f.RawWriteStr(b.String())
}

// beziers returns an arc as cubics of at most 30°, control points at
// 4/3·tan(Δ/4)·r: off by less than 5e-5 mm at a radius of 140 mm.
func beziers(s geom.Seg) []geom.Cubic {
	const most = math.Pi / 6
	sweep := float64(s.Sweep())
	n := int(math.Ceil(math.Abs(sweep)/most - 1e-9))
	if n < 1 {
		n = 1
	}
	k := 4.0 / 3 * math.Tan(sweep/float64(n)/4)
	out := make([]geom.Cubic, n)
	a := s.A
	for i := range out {
		b := s.At(float64(i+1) / float64(n))
		out[i] = geom.Cubic{a, a.Add(a.Sub(s.Center).Left().Mul(k)), b.Add(b.Sub(s.Center).Left().Mul(-k)), b}
		a = b
	}
	return out
}

// text writes words: the font is set in points, the matrix turns and places.
func (d *doc) text(t render.Text, o geom.Point, height float64) {
	s, _ := render.Written(t.S)
	if s == "" {
		return
	}
	size := render.FontSize(t.Size, t.Bold) * pt
	if d.stale || size != d.size || t.Bold != d.bold {
		style := ""
		if t.Bold {
			style = "B"
		}
		if d.stale { // make the library write the font anew
			d.f.SetFont("go", style, size+1)
		}
		d.f.SetFont("go", style, size)
		d.size, d.bold, d.stale = size, t.Bold, false
	}
	back := 0.0
	switch w := render.TextWidth(s, t.Size, t.Bold); t.Anchor {
	case render.Middle:
		back = w / 2
	case render.End:
		back = w
	}
	at := t.At.Add(t.Angle.Unit().Mul(-back))
	sin, cos := math.Sincos(float64(t.Angle))
	d.raw("q 0 g %s %s %s %s %s %s cm", num(cos), num(sin), num(-sin), num(cos), num((at.X-o.X)*pt), num((at.Y-o.Y)*pt))
	d.f.Text(0, height, s) // the library counts y from the top
	d.raw("Q")
}
