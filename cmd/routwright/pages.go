package main

import (
	"bytes"
	"fmt"
	"strings"
	"sync"

	"routwright/render"
	"routwright/render/pdf"
	"routwright/render/svg"
	"routwright/templates/job"
	"routwright/templates/sheet"
)

// pages writes the PDF files: every sheet at full size, and tiled for each
// paper. It returns what the reader should be told.
func (s *set) pages(j *job.Job, drawings []render.Drawing, opt options) ([]string, error) {
	var mu sync.Mutex
	notes := make([][]string, len(opt.papers)+1)
	keep := func(i int, n []string) {
		mu.Lock()
		notes[i] = n
		mu.Unlock()
	}
	err := inParallel(len(opt.papers)+1, func(i int) error {
		if i == len(opt.papers) {
			return s.render("print/full-size.pdf", func(b *bytes.Buffer) error {
				n, err := pdf.Whole(b, j.Name, drawings)
				keep(i, n)
				return err
			})
		}
		paper, err := render.ParsePaper(opt.papers[i])
		if err != nil {
			return err
		}
		return s.render("print/"+strings.ToLower(paper.Name)+".pdf", func(b *bytes.Buffer) error {
			sections, err := tile(j, drawings, paper)
			if err != nil {
				return err
			}
			if opt.pageSVG {
				if err := s.pageSVG(strings.ToLower(paper.Name), sections); err != nil {
					return err
				}
			}
			n, err := pdf.Tiled(b, j.Name+", "+paper.Name, sections)
			keep(i, n)
			return err
		})
	})
	var all []string
	for _, n := range notes {
		all = append(all, n...)
	}
	return all, err
}

// tile cuts every drawing into pages. Each starts with a page that says how to
// print and join it, with its map; a drawing that fits one page needs none,
// the first of the file aside.
func tile(j *job.Job, drawings []render.Drawing, paper render.Paper) ([]pdf.Section, error) {
	opt := render.TileOptions{MarginMM: j.Print.Margin, OverlapMM: j.Print.Overlap, Measured: j.Print.Measured, Nominal: j.Print.Nominal}
	kept := drawings[:0:0]
	for _, d := range drawings { // a sheet of stock is for the cutter and the eye
		if !strings.HasPrefix(d.ID, sheet.StockPrefix) {
			kept = append(kept, d)
		}
	}
	drawings = kept
	sections := make([]pdf.Section, len(drawings))
	err := inParallel(len(drawings), func(i int) error {
		opt := opt
		opt.OneBare = i > 0
		pages, err := render.Tile(drawings[i], paper, opt)
		if err != nil {
			return fmt.Errorf("sheet %s on %s: %w", drawings[i].ID, paper.Name, err)
		}
		sections[i] = pdf.Section{Title: drawings[i].Title, Pages: pages}
		return nil
	})
	return sections, err
}

// pageSVG writes every page as a file of its own.
func (s *set) pageSVG(paper string, sections []pdf.Section) error {
	for _, sec := range sections {
		for _, p := range sec.Pages {
			if err := s.render("print/"+paper+"/"+p.ID+".svg", func(b *bytes.Buffer) error { return svg.WritePage(b, p) }); err != nil {
				return err
			}
		}
	}
	return nil
}
