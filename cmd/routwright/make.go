package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"sort"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/render"
	"routwright/render/dxf"
	"routwright/render/svg"
	"routwright/templates/check"
	"routwright/templates/fretboard"
	"routwright/templates/job"
	"routwright/templates/sheet"
	"routwright/templates/table"
)

func makeCommand() *cli.Command {
	return &cli.Command{
		Name:      "make",
		Usage:     "check, then write the whole set of sheets, cutter files and tables",
		ArgsUsage: "FILE -o DIR",
		Description: "Writes sheets/*.svg (full size), cut/*.dxf (cut lines), drawing/*.dxf (everything),\n" +
			"print/*.pdf (tiled pages for each paper, and one file at full size), tables/*.csv,\n" +
			"pictures/*.png (the machined body, lit from the upper left) and manifest.json. With a stop it writes nothing unless --anyway, and then every sheet says so.\n\n" +
			"Example:  routwright make guitar.toml -o guitar\n          routwright make guitar.toml -o guitar --paper A4 --paper A3 --flatten 0.01",
		OnUsageError: usageError,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "o", Usage: "folder to write; an old set in it is replaced as a whole", Required: false},
			&cli.BoolFlag{Name: "anyway", Usage: "write the set although a check says stop; every sheet says so"},
			&cli.StringSliceFlag{Name: "paper", Usage: "paper `SIZE` of the tiled PDF, in place of the design's; may be repeated"},
			&cli.Float64Flag{Name: "flatten", Usage: "write DXF arcs as straight pieces within `MM` of them; 0 keeps arcs"},
			&cli.BoolFlag{Name: "page-svg", Usage: "write every page as an SVG of its own, too"},
			&cli.BoolFlag{Name: "r12", Usage: "write DXF for old programs (R12) in place of R2000"},
		},
		Action: runMake,
	}
}

func runMake(c *cli.Context) error {
	name, err := oneArg(c, "the name of a design file")
	if err != nil {
		return err
	}
	dir := c.String("o")
	if dir == "" {
		return codedError{exitUsage, fmt.Errorf("make needs -o DIR, the folder to write")}
	}
	if f := c.Float64("flatten"); f < 0 || f > 1 {
		return codedError{exitUsage, fmt.Errorf("--flatten %g: a deviation of 0 to 1 mm", f)}
	}
	j, src, err := load(name, nil)
	if err != nil {
		return err
	}
	fs := check.Run(j)
	worst, _ := check.Worst(fs)
	if len(fs) > 0 {
		if err := writeFindings(c.App.ErrWriter, fs, isTerminal(c.App.ErrWriter)); err != nil {
			return failed(err)
		}
	}
	warning := ""
	if worst == check.Stop {
		if !c.Bool("anyway") {
			return codedError{exitStop, fmt.Errorf("nothing written: a check says stop; mend the design, or give --anyway")}
		}
		warning = stopWarning(fs)
	}
	s := newSet(src)
	opt := options{warning: warning, papers: papers(c, j), pageSVG: c.Bool("page-svg"), dxf: dxf.Options{FlattenMM: c.Float64("flatten")}}
	if c.Bool("r12") {
		opt.dxf.Version = dxf.R12
	}
	notes, err := s.fill(j, fs, opt)
	if err != nil {
		return err
	}
	if err := s.write(dir); err != nil {
		return err
	}
	for _, n := range notes {
		fmt.Fprintln(c.App.ErrWriter, "note  "+n)
	}
	return failed(report(c.App.Writer, dir, s))
}

// stopWarning is printed on every sheet of a design that a check stops.
func stopWarning(fs []check.Finding) string { return "A CHECK SAYS STOP: " + stops(fs) }

// stops names the checks that say stop.
func stops(fs []check.Finding) string {
	var ids []string
	seen := map[string]bool{}
	for _, f := range fs {
		if f.Level == check.Stop && !seen[f.Check] {
			seen[f.Check] = true
			ids = append(ids, f.Check)
		}
	}
	return strings.Join(ids, ", ")
}

// options of one set.
type options struct {
	warning string
	papers  []string
	pageSVG bool
	dxf     dxf.Options
}

// defaultPapers are made when neither the design nor the command line names one.
var defaultPapers = []string{"A4", "Letter", "A3", "Tabloid"}

func papers(c *cli.Context, j *job.Job) []string {
	if p := c.StringSlice("paper"); len(p) > 0 {
		return p
	}
	if len(j.Print.Paper) > 0 {
		return j.Print.Paper
	}
	return defaultPapers
}

// fill makes every file of the set and returns what the reader should know.
func (s *set) fill(j *job.Job, fs []check.Finding, opt options) ([]string, error) {
	sheets := sheet.All(j, opt.warning)
	drawings := make([]render.Drawing, len(sheets))
	var notes []string
	err := inParallel(len(sheets), func(i int) error {
		d, err := render.Layout(sheets[i], render.LayoutOptions{})
		if err != nil {
			return fmt.Errorf("sheet %s: %w", sheets[i].ID, err)
		}
		drawings[i] = d
		return s.sheet(sheets[i].ID, d, opt)
	})
	if err != nil {
		return nil, err
	}
	var more []string
	err = inParallel(2, func(i int) (err error) {
		if i == 0 { // the longer of the two first
			more, err = s.pages(j, drawings, opt)
			return err
		}
		if err := s.pictures(j); err != nil {
			return err
		}
		return s.book(j, fs, sheets, opt)
	})
	if err != nil {
		return nil, err
	}
	notes = append(notes, more...)
	if j.Board != nil {
		if err := s.render("tables/frets.csv", func(b *bytes.Buffer) error { return j.Board.WriteCSV(b, fretboard.MM) }); err != nil {
			return nil, err
		}
	}
	for _, t := range table.All(j, fs) {
		if err := s.render("tables/"+t.Name+".csv", func(b *bytes.Buffer) error { return t.WriteCSV(b) }); err != nil {
			return nil, err
		}
	}
	return notes, nil
}

// sheet writes one drawing as SVG and as two DXF files.
func (s *set) sheet(id string, d render.Drawing, opt options) error {
	if err := s.render("sheets/"+id+".svg", func(b *bytes.Buffer) error { return svg.Write(b, d) }); err != nil {
		return err
	}
	all, cut := opt.dxf, opt.dxf
	cut.CutOnly = true
	if !sheet.MarksOnly(id) {
		if err := s.render("cut/"+id+"_mm.dxf", func(b *bytes.Buffer) error { return dxf.Write(b, d, cut) }); err != nil {
			return err
		}
	}
	return s.render("drawing/"+id+"_mm.dxf", func(b *bytes.Buffer) error { return dxf.Write(b, d, all) })
}

// report says where each thing lies.
func report(w io.Writer, dir string, s *set) error {
	count := map[string]int{}
	for name := range s.files {
		count[filepath.Dir(name)]++
	}
	words := map[string]string{
		"sheets": "full-size sheets, SVG", "cut": "cut lines, DXF in mm", "drawing": "everything, DXF in mm",
		"print": "to print, PDF", "tables": "tables, CSV", ".": "the shop book, HTML", "pictures": "the machined body, PNG",
	}
	var dirs []string
	for d := range count {
		dirs = append(dirs, d)
	}
	sort.Strings(dirs)
	var b strings.Builder
	for _, d := range dirs {
		fmt.Fprintf(&b, "%-28s %3d  %s\n", filepath.Join(dir, d), count[d], words[d])
	}
	fmt.Fprintf(&b, "%-28s %3d  every file with its SHA-256\n", filepath.Join(dir, manifestName), 1)
	_, err := io.WriteString(w, b.String())
	return err
}
