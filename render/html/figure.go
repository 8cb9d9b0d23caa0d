package html

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"strings"

	"routwright/geom"
	"routwright/render"
)

// leastText is the least size of letters in a picture on a screen, CSS pixels. Under
// 12 px text counts as too small to read on a telephone: Lighthouse, audit "Document
// uses legible font sizes". A picture that is wider for it scrolls in its own box.
const leastText = 12.0

// halfPage is how wide a picture may be for two to stand side by side on A4 and
// Letter, mm.
const halfPage = 90.0

// abreast returns how many pictures at the start of blocks are narrow enough to stand
// side by side.
func abreast(blocks []render.Block) int {
	for i, b := range blocks {
		if f, ok := b.(render.Figure); !ok || width(f) == 0 || width(f) > halfPage {
			return i
		}
	}
	return len(blocks)
}

// width returns how wide a picture is printed, mm; 0: as the page allows.
func width(f render.Figure) float64 {
	switch {
	case f.WidthMM > 0:
		return f.WidthMM
	case f.Drawing != nil:
		return f.Drawing.Bounds.W()
	}
	return 0
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
	var look []string
	if w := width(f); w > 0 {
		look = append(look, fmt.Sprintf("width:%.1fmm", w))
	}
	if t := smallest(f.Drawing); t > 0 {
		look = append(look, fmt.Sprintf("--legible:%.0fpx", size.X*leastText/t))
	}
	style := ""
	if len(look) > 0 {
		style = ` style="` + strings.Join(look, ";") + `"`
	}
	p.put("<figure>\n<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"Picture\">")
	p.put("<img alt=\"%s\"%s src=\"data:%s;base64,", esc(f.Alt), style, kind)
	p.body.WriteString(base64.StdEncoding.EncodeToString(b.Bytes()))
	p.put("\"/></div>\n")
	if f.Caption != "" {
		p.put("<figcaption>%s</figcaption>\n", esc(f.Caption))
	}
	p.put("</figure>\n")
}

// smallest returns the size of the smallest letters of a drawing, mm; 0 without any.
func smallest(d *render.Drawing) float64 {
	least := 0.0
	var look func(gs []render.Group)
	look = func(gs []render.Group) {
		for _, g := range gs {
			for _, t := range g.Texts {
				if s := render.FontSize(t.Size, t.Bold); least == 0 || s < least {
					least = s
				}
			}
			look(g.Groups)
		}
	}
	if d != nil {
		look(d.Groups)
	}
	return least
}
