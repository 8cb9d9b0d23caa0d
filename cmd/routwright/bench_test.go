package main

import (
	"fmt"
	"os"
	"testing"

	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/fretboard"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
)

const demo = "../../testdata/millrace.toml"

// BenchmarkDemo says where the time of `make demo` goes, step by step.
func BenchmarkDemo(b *testing.B) {
	src, err := os.ReadFile(demo)
	if err != nil {
		b.Fatal(err)
	}
	d, err := design.Parse(demo, src)
	if err != nil {
		b.Fatal(err)
	}
	j, err := job.Solve(d, nil)
	if err != nil {
		b.Fatal(err)
	}
	sheets := sheet.All(j, "")
	var drawings []render.Drawing
	for _, s := range sheets {
		g, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			b.Fatal(err)
		}
		drawings = append(drawings, g)
	}
	opt := options{papers: []string{"A4"}}
	steps := []struct {
		name string
		run  func() error
	}{
		{"read", func() error { _, err := design.Parse(demo, src); return err }},
		{"solve and prove", func() error { _, err := job.Solve(d, nil); return err }},
		{"check", func() error { check.Run(j); return nil }},
		{"sheets", func() error { sheet.All(j, ""); return nil }},
		{"layout", func() error {
			for _, s := range sheets {
				if _, err := render.Layout(s, render.LayoutOptions{}); err != nil {
					return err
				}
			}
			return nil
		}},
		{"svg and dxf", func() error {
			s := newSet(nil)
			for i, g := range drawings {
				if err := s.sheet(sheets[i].ID, g, opt); err != nil {
					return err
				}
			}
			return nil
		}},
		{"pdf", func() error { _, err := newSet(nil).pages(j, drawings, opt); return err }},
		{"whole set", func() error {
			s := newSet(src)
			if _, err := s.fill(j, nil, opt); err != nil {
				return err
			}
			return s.write(b.TempDir())
		}},
	}
	for _, s := range steps {
		b.Run(s.name, func(b *testing.B) {
			for b.Loop() {
				if err := s.run(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkCheck is routwright check on a design with everything: read, solved,
// proved and checked.
func BenchmarkCheck(b *testing.B) {
	for b.Loop() {
		j, _, err := load("../../testdata/weirhouse.toml", nil)
		if err != nil {
			b.Fatal(err)
		}
		check.Run(j)
	}
}

// BenchmarkFortySheets makes forty sheets, laid out, as SVG, DXF and PDF for A4.
func BenchmarkFortySheets(b *testing.B) {
	j, sheets := demoSheets(b)
	var many []render.Sheet
	for len(many) < 40 {
		for _, s := range sheets {
			if len(many) < 40 {
				s.ID = fmt.Sprintf("%s-%d", s.ID, len(many))
				many = append(many, s)
			}
		}
	}
	opt := options{papers: []string{"A4"}}
	for b.Loop() {
		s := newSet(nil)
		drawings := make([]render.Drawing, len(many))
		err := inParallel(len(many), func(i int) error {
			d, err := render.Layout(many[i], render.LayoutOptions{})
			if err != nil {
				return err
			}
			drawings[i] = d
			return s.sheet(many[i].ID, d, opt)
		})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := s.pages(j, drawings, opt); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLongNeck tiles the longest board there is, 1.6 m with sixty slots, on A4.
func BenchmarkLongNeck(b *testing.B) {
	spec := fretboard.Common(1400, 60, 4)
	spec.End.Overhang = 20
	spec.Nut.Shelf = 200
	board, err := fretboard.New(spec)
	if err != nil {
		b.Fatal(err)
	}
	opt := options{papers: []string{"A4"}}
	for b.Loop() {
		d, err := render.Layout(fretboard.Sheet(board, fretboard.SheetOptions{}), render.LayoutOptions{})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := newSet(nil).pages(&job.Job{Name: "Long"}, []render.Drawing{d}, opt); err != nil {
			b.Fatal(err)
		}
	}
}

func demoSheets(b *testing.B) (*job.Job, []render.Sheet) {
	b.Helper()
	j := jobtest.File(b, "millrace.toml")
	return j, sheet.All(j, "")
}
