// Package html writes a document as one self-contained HTML file: no script, no
// network, pictures inside. It reads on a telephone, prints on A4 and Letter,
// and has headings, alternative texts and contrast for everyone (WCAG 2.2). It is
// well-formed XML, too, so that any program can read it back.
package html

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io"
	"strings"

	"routwright/geom"
	"routwright/render"
)

// Picture writes a drawing in a format that stands alone, SVG.
type Picture func(w io.Writer, d render.Drawing) error

// Write writes d. Drawings become pictures by draw. The error is that of draw or
// of w, or names two sections of one id.
func Write(w io.Writer, d render.Document, draw Picture) error {
	seen := map[string]bool{}
	var errs []error
	d.Walk(func(s render.Section, _ int) {
		if s.ID == "" || seen[s.ID] {
			errs = append(errs, fmt.Errorf("html: section %q: its id %q is empty or taken", s.Title, s.ID))
		}
		seen[s.ID] = true
	})
	if err := errors.Join(errs...); err != nil {
		return err
	}
	p := &page{draw: draw}
	for _, s := range d.Sections {
		p.contents.WriteString(fmt.Sprintf(`<li><a href="#%s">%s</a></li>`+"\n", esc(s.ID), esc(s.Title)))
	}
	for _, s := range d.Sections {
		p.section(s, 2)
	}
	if p.err != nil {
		return p.err
	}
	_, err := fmt.Fprintf(w, frame, esc(d.Title), style, esc(d.Title), esc(d.Lead), p.contents.String(), p.body.String())
	return err
}

const frame = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<title>%s</title>
<style>
%s</style>
</head>
<body>
<header>
<h1>%s</h1>
<p class="lead">%s</p>
</header>
<nav aria-label="Contents">
<h2>Contents</h2>
<ol>
%s</ol>
</nav>
<main>
%s</main>
</body>
</html>
`

// page collects the body.
type page struct {
	draw     Picture
	contents strings.Builder
	body     strings.Builder
	ticks    int
	err      error
}

func esc(s string) string { return template.HTMLEscapeString(s) }

func (p *page) put(format string, a ...any) { fmt.Fprintf(&p.body, format, a...) }

// section writes a heading of the given rank, 2 to 6, and what is under it.
func (p *page) section(s render.Section, rank int) {
	class := ""
	if s.NewPage {
		class = ` class="new-page"`
	}
	rank = min(rank, 6)
	p.put("<section id=\"%s\"%s>\n<h%d>%s</h%d>\n", esc(s.ID), class, rank, esc(s.Title), rank)
	for _, b := range s.Blocks {
		p.block(b)
	}
	for _, sub := range s.Sections {
		p.section(sub, rank+1)
	}
	p.put("</section>\n")
}

func (p *page) block(b render.Block) {
	switch b := b.(type) {
	case render.Para:
		p.put("<p>%s</p>\n", esc(string(b)))
	case render.Caution:
		p.put("<p class=\"caution\" role=\"note\"><strong>%s:</strong> %s</p>\n", esc(b.Word), esc(b.Text))
	case render.List:
		p.list(b)
	case render.Facts:
		p.put("<dl>\n")
		for _, f := range b {
			p.put("<div><dt>%s</dt><dd>%s</dd></div>\n", esc(f.Name), esc(f.Value))
		}
		p.put("</dl>\n")
	case render.Table:
		p.table(b)
	case render.Figure:
		p.figure(b)
	}
}

func (p *page) list(l render.List) {
	tag := "ul"
	if l.Ordered && !l.Tick {
		tag = "ol"
	}
	class := ""
	if l.Tick {
		class = ` class="tick"`
	}
	p.put("<%s%s>\n", tag, class)
	for _, s := range l.Items {
		if l.Tick {
			p.put("<li>%s</li>\n", p.tick(esc(s)))
		} else {
			p.put("<li>%s</li>\n", esc(s))
		}
	}
	p.put("</%s>\n", tag)
}

// tick returns a box to tick, with its label.
func (p *page) tick(label string) string {
	p.ticks++
	return fmt.Sprintf(`<label><input type="checkbox" id="tick-%d"/> %s</label>`, p.ticks, label)
}

func (p *page) table(t render.Table) {
	p.put("<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"%s\"><table>\n", esc(t.Caption))
	if t.Caption != "" {
		p.put("<caption>%s</caption>\n", esc(t.Caption))
	}
	p.put("<thead><tr>")
	if t.Tick {
		p.put(`<th scope="col">done</th>`)
	}
	for i, h := range t.Head {
		p.put(`<th scope="col"%s>%s</th>`, number(t, i), esc(h))
	}
	p.put("</tr></thead>\n<tbody>\n")
	for _, r := range t.Rows {
		p.put("<tr>")
		if t.Tick {
			first := ""
			if len(r) > 0 {
				first = r[0]
			}
			p.ticks++
			p.put(`<td><input type="checkbox" id="tick-%d" aria-label="%s"/></td>`, p.ticks, esc(first))
		}
		for i, c := range r {
			p.put("<td%s>%s</td>", number(t, i), esc(c))
		}
		p.put("</tr>\n")
	}
	p.put("</tbody>\n</table></div>\n")
}

func number(t render.Table, column int) string {
	if column < len(t.Number) && t.Number[column] {
		return ` class="number"`
	}
	return ""
}

func (p *page) figure(f render.Figure) {
	var b bytes.Buffer
	kind := "image/png"
	var size geom.Vec
	if f.Drawing != nil {
		kind = "image/svg+xml"
		size = geom.Vec{X: f.Drawing.Bounds.W(), Y: f.Drawing.Bounds.H()}
		if err := p.draw(&b, *f.Drawing); err != nil && p.err == nil {
			p.err = fmt.Errorf("html: picture %q: %w", f.Alt, err)
			return
		}
	} else {
		b.Write(f.PNG)
	}
	style := ""
	switch {
	case f.WidthMM > 0:
		style = fmt.Sprintf(` style="width:%.1fmm"`, f.WidthMM)
	case size.X > 0:
		style = fmt.Sprintf(` style="width:%.1fmm"`, size.X)
	}
	p.put("<figure>\n<img alt=\"%s\"%s src=\"data:%s;base64,%s\"/>\n", esc(f.Alt), style, kind, base64.StdEncoding.EncodeToString(b.Bytes()))
	if f.Caption != "" {
		p.put("<figcaption>%s</figcaption>\n", esc(f.Caption))
	}
	p.put("</figure>\n")
}
