package main

import (
	"bytes"

	"routwright/render"
	"routwright/render/pdf"
	"routwright/templates/job"
)

// pages writes the PDF files: every sheet at full size, and tiled for each
// paper. It returns what the reader should be told.
func (s *set) pages(j *job.Job, drawings []render.Drawing, opt options) ([]string, error) {
	var notes []string
	err := s.render("print/full-size.pdf", func(b *bytes.Buffer) error {
		n, err := pdf.Whole(b, j.Name, drawings)
		notes = append(notes, n...)
		return err
	})
	return notes, err
}
