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

// Book writes the pages of a composed document as one file, with a bookmark for
// every page that has a title.
func Book(w io.Writer, title string, pages []render.Page) ([]string, error) {
	d := newDoc(title)
	for _, p := range pages {
		if p.Title != "" {
			d.mark(p.Title, 0, len(d.pages))
		}
		d.pages = append(d.pages, page{Page: p})
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

	widths map[int][32]byte // of the pictures so far, with their sums
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
	d.f.SetCompression(false) // deflated does it
	d.f.SetCatalogSort(true)  // without it the order of objects differs from run to run
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
		if !(p.W > 0 && p.H > 0) || math.IsInf(p.W, 0) || math.IsInf(p.H, 0) {
			return nil, fmt.Errorf("%s: a page of %g × %g mm", p.Title, p.W, p.H)
		}
		if p.W > largest || p.H > largest {
			notes = append(notes, fmt.Sprintf("%s: a page of %.0f × %.0f mm: some viewers show nothing beyond %d mm", p.Title, p.W, p.H, largest))
		}
		d.f.AddPageFormat("P", fpdf.SizeType{Wd: p.W, Ht: p.H})
		for ; next < len(d.marks) && d.marks[next].page == i; next++ {
			m := d.marks[next]
			// The library measures from the top of the last page of the file.
			text, _ := render.Written(m.text)
			y := last.H - p.H
			if y == -1 {
				y = -1 + 1e-6 // −1 itself means something else to it
			}
			d.f.Bookmark(text, m.level, y)
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
	packed, err := deflated(b.Bytes())
	if err != nil {
		return nil, err
	}
	out, err := preferUnscaled(packed)
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
	if fx == 0 && fy == 0 {
		fx, fy = 1, 1
	}
	if !(fx > 0 && fy > 0) || math.IsInf(fx, 0) || math.IsInf(fy, 0) {
		d.err = fmt.Errorf("%s: a correction of %g and %g: finite and above 0 is possible", p.Title, fx, fy)
		return
	}
	// Nine decimals: with five the far end of an A0 page is 0.006 mm off.
	d.raw("q %.9f 0 0 %.9f 0 0 cm", fx, fy)
	d.stale = true
	if !p.Window.Empty() {
		b := p.Window
		d.raw("q %s %s %s %s re W n", num(b.Min.X*pt), num(b.Min.Y*pt), num(b.W()*pt), num(b.H()*pt))
		d.groups(p.Tile, p.origin, p.H)
		d.raw("Q")
		d.stale = true
	}
	for _, pic := range p.Pictures {
		d.picture(pic, p.H)
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
