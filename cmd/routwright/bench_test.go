package main

import (
	"os"
	"testing"

	"routwright/render"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
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
