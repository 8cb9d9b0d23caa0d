package main

import (
	"bytes"
	"strings"

	"routwright/render"
	"routwright/render/html"
	"routwright/render/pdf"
	"routwright/render/svg"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/job"
)

// book writes the shop book, as one HTML file and as a PDF.
func (s *set) book(j *job.Job, fs []check.Finding, sheets []render.Sheet, opt options) error {
	d, err := book.Of(book.Input{Job: j, Findings: fs, Sheets: sheets, Warning: opt.warning,
		Front: s.file("pictures/front.png"), Back: s.file("pictures/back.png")})
	if err != nil {
		return err
	}
	return inParallel(2, func(i int) error {
		if i == 0 {
			return s.render("book.html", func(b *bytes.Buffer) error { return html.Write(b, d, svg.Write) })
		}
		paper, err := render.ParsePaper(bookPaper(opt.papers))
		if err != nil {
			return err
		}
		pages, err := render.Compose(d, paper)
		if err != nil {
			return err
		}
		return s.render("print/book.pdf", func(b *bytes.Buffer) error {
			_, err := pdf.Book(b, d.Title, pages)
			return err
		})
	})
}

// bookPaper is Letter where it is the first of the two that a design names, else
// A4: what a printer at home takes.
func bookPaper(papers []string) string {
	for _, p := range papers {
		if strings.EqualFold(p, "Letter") {
			return "Letter"
		}
		if strings.EqualFold(p, "A4") {
			break
		}
	}
	return "A4"
}
