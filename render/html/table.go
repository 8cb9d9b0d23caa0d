package html

import (
	"strings"
	"unicode/utf8"

	"routwright/render"
)

// longWords is how many letters a cell of words may have before its table is laid
// out row by row on a telephone: three columns of as many fill 360 px.
const longWords = 24

// shortRows is how many rows a table may have that is never parted in print: a third
// of a page.
const shortRows = 14

func (p *page) table(t render.Table) {
	class := ""
	if wordy(t) {
		class = ` class="wordy"`
	}
	box := "wide"
	if len(t.Rows) <= shortRows {
		box = "wide short"
	}
	p.put("<div class=\"%s\" tabindex=\"0\" role=\"group\" aria-label=\"%s\"><table%s>\n", box, esc(t.Caption), class)
	if t.Caption != "" {
		p.put("<caption>%s</caption>\n", esc(t.Caption))
	}
	p.put("<thead><tr>")
	if t.Tick {
		p.put(`<th scope="col" class="tick">done</th>`)
	}
	for i, h := range t.Head {
		p.put(`<th scope="col"%s>%s</th>`, number(t, i), esc(h))
	}
	p.put("</tr></thead>\n<tbody>\n")
	for k, r := range t.Rows {
		p.put("<tr>")
		if t.Tick {
			first := ""
			if len(r) > 0 {
				first = r[0]
			}
			p.put(`<td class="tick">%s</td>`, p.tickAlone(first, t.Caption+"\n"+strings.Join(r, "\n")))
		}
		for i, c := range r {
			words := esc(c)
			if i == 0 && k < len(t.To) && t.To[k] != "" {
				words = `<a href="#` + esc(t.To[k]) + `">` + words + `</a>`
			}
			switch {
			case i == 0:
				p.put(`<th scope="row"%s>%s</th>`, number(t, i), words)
			case class != "" && i < len(t.Head):
				p.put(`<td data-head="%s"%s>%s</td>`, esc(t.Head[i]), number(t, i), words)
			default:
				p.put("<td%s>%s</td>", number(t, i), words)
			}
		}
		p.put("</tr>\n")
	}
	p.put("</tbody>\n</table></div>\n")
}

// wordy tells a table to read from one to look numbers up in.
func wordy(t render.Table) bool {
	if len(t.Head) < 2 {
		return false
	}
	for _, r := range t.Rows {
		for i, c := range r {
			if number(t, i) == "" && utf8.RuneCountInString(c) > longWords {
				return true
			}
		}
	}
	return false
}

func number(t render.Table, column int) string {
	if column < len(t.Number) && t.Number[column] {
		return ` class="number"`
	}
	return ""
}
