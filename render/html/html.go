// Package html writes a document as one self-contained HTML file: no network,
// pictures inside. It reads on a telephone, prints on A4 and Letter, and has
// headings, alternative texts and contrast for everyone (WCAG 2.2). Its one script
// keeps the ticks of its boxes; without scripts everything else is there. It is
// well-formed XML, too, so that any program can read it back.
package html

import (
	"errors"
	"fmt"
	"html/template"
	"io"
	"strings"

	"routwright/render"
)

// Picture writes a drawing in a format that stands alone, SVG.
type Picture func(w io.Writer, d render.Drawing) error

// Write writes d. Drawings become pictures by draw. The error is that of draw or
// of w, or names two sections of one id, or a table that leads to none.
func Write(w io.Writer, d render.Document, draw Picture) error {
	seen := map[string]bool{}
	var errs []error
	d.Walk(func(s render.Section, _ int) {
		if s.ID == "" || seen[s.ID] {
			errs = append(errs, fmt.Errorf("html: section %q: its id %q is empty or taken", s.Title, s.ID))
		}
		seen[s.ID] = true
	})
	d.Walk(func(s render.Section, _ int) {
		for _, b := range s.Blocks {
			t, _ := b.(render.Table)
			for _, to := range t.To {
				if to != "" && !seen[to] {
					errs = append(errs, fmt.Errorf("html: table %q leads to section %q, which is not there", t.Caption, to))
				}
			}
		}
	})
	if err := errors.Join(errs...); err != nil {
		return err
	}
	p := &page{draw: draw, keys: map[string]bool{}}
	for _, s := range d.Sections {
		p.contents.WriteString(fmt.Sprintf(`<li><a href="#%s">%s</a></li>`+"\n", esc(s.ID), esc(s.Title)))
	}
	for _, s := range d.Sections {
		p.section(s, 2)
		p.put("<p class=\"up\"><a href=\"#contents\">Contents</a></p>\n</section>\n")
	}
	if p.err != nil {
		return p.err
	}
	note, code := "", ""
	if p.ticks > 0 {
		note, code = tickNote, "<script>\n"+script+"</script>\n"
	}
	for _, text := range []string{fmt.Sprintf(head, esc(d.Title), style, esc(d.Title), esc(d.Lead)), p.contents.String(),
		"</ol>\n", note, "</nav>\n<main>\n", p.body.String(), "</main>\n", code, "</body>\n</html>\n"} {
		if _, err := io.WriteString(w, text); err != nil {
			return err
		}
	}
	return nil
}

const head = `<!DOCTYPE html>
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
<nav id="contents" aria-labelledby="contents-title">
<h2 id="contents-title">Contents</h2>
<ol>
`

// page collects the body.
type page struct {
	draw     Picture
	contents strings.Builder
	body     strings.Builder
	at       string          // id of the section being written
	keys     map[string]bool // of the boxes to tick
	ticks    int
	err      error
}

func esc(s string) string { return template.HTMLEscapeString(s) }

func (p *page) put(format string, a ...any) { fmt.Fprintf(&p.body, format, a...) }

// section writes a heading of the given rank, 2 to 6, and what is under it, and
// leaves the section open.
func (p *page) section(s render.Section, rank int) {
	class := ""
	if s.NewPage {
		class = ` class="new-page"`
	}
	rank = min(rank, 6)
	p.put("<section id=\"%s\"%s>\n<h%d>%s</h%d>\n", esc(s.ID), class, rank, esc(s.Title), rank)
	p.at = s.ID
	for i := 0; i < len(s.Blocks); {
		if n := abreast(s.Blocks[i:]); n > 1 {
			p.put("<div class=\"abreast\">\n")
			for _, b := range s.Blocks[i : i+n] {
				p.block(b)
			}
			p.put("</div>\n")
			i += n
			continue
		}
		p.block(s.Blocks[i])
		i++
	}
	for _, sub := range s.Sections {
		p.section(sub, rank+1)
		p.put("</section>\n")
	}
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
			p.put("<li>%s</li>\n", p.tick(s))
		} else {
			p.put("<li>%s</li>\n", esc(s))
		}
	}
	p.put("</%s>\n", tag)
}
