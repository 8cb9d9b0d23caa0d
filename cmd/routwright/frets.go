package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/render"
	"routwright/render/dxf"
	"routwright/render/svg"
	"routwright/templates/fretboard"
)

func fretsCommand() *cli.Command {
	return &cli.Command{
		Name:  "frets",
		Usage: "slot table and slot lines from flags alone, without a design file",
		Description: "Prints the table of the slots, or writes what is asked for: --csv, --json, --svg, --dxf.\n" +
			"A plain number is in --units; a length may carry its own: \"25 1/2 in\", \"648 mm\".\n" +
			"A file named - is standard output.\n\n" +
			"CSV: fret,from_nut,from_previous,to_bridge with five decimals in mm, six in inches; for a\n" +
			"fan the three columns of the bass string, the three of the treble string, and angle_deg.\n" +
			"JSON: mm and degrees; slots lists each slot's fret, distances and ends, end 1 the bass end.\n\n" +
			"Example:  routwright frets --scale 648 --frets 22\n" +
			"          routwright frets --scale \"25 1/2 in\" --frets 24 --csv slots.csv --svg slots.svg\n" +
			"          routwright frets --bass 686 --treble 648 --square 7 --frets 24 --dxf slots.dxf",
		OnUsageError:    usageError,
		HideHelpCommand: true,
		Flags:           append(fretsFlags(), jigFlags()...),
		Action:          runFrets,
	}
}

// output is one file of a run: rendered first, written when all are.
type output struct {
	flag, name string
	data       bytes.Buffer
}

func runFrets(c *cli.Context) error {
	if c.Args().Present() {
		return codedError{exitUsage, fmt.Errorf("frets takes no argument, only flags: %q is none; a length with spaces needs quotes: --scale \"25 1/2 in\"", c.Args().First())}
	}
	f := newFretsInput(c)
	spec := f.spec()
	outs := f.outputs()
	if err := f.err(); err != nil {
		return err
	}
	b, err := fretboard.New(spec)
	if err != nil {
		return f.blame(err)
	}
	for _, o := range outs {
		err := f.render(o, b)
		if ferr := f.err(); ferr != nil { // faults of single flags, told by their names
			return ferr
		}
		if err != nil {
			return codedError{exitUsage, fmt.Errorf("--%s: %w", o.flag, err)}
		}
	}
	for _, a := range f.notes(outs, b.Fanned()) {
		fmt.Fprintln(c.App.ErrWriter, "note  assumed: "+a)
	}
	return writeOutputs(c.App.Writer, c.App.ErrWriter, outs)
}

// render makes one output in memory.
func (f *fretsInput) render(o *output, b *fretboard.Board) error {
	switch o.flag {
	case "csv":
		return b.WriteCSV(&o.data, f.unit)
	case "json":
		return b.WriteJSON(&o.data)
	case "sagittas":
		return b.WriteDepths(&o.data, f.unit)
	case "print":
		return b.WriteText(&o.data, f.unit)
	case "tension":
		return f.tension(&o.data, b)
	}
	opt := fretboard.SheetOptions{Unit: f.unit, Assumed: f.assumed}
	if f.c.Bool("markers") {
		opt.Markers = fretboard.CommonMarker
	}
	s := fretboard.Sheet(b, opt)
	if o.flag == "table" {
		opt.Assumed = f.notes(nil, b.Fanned())
		s = fretboard.TableSheet(b, opt)
	}
	if o.flag == "strip" || o.flag == "strip-dxf" {
		x, err := f.jig(b)
		if err != nil {
			return err
		}
		opt.Assumed, opt.Markers = f.assumed, 0
		s = fretboard.IndexSheet(b, x, opt)
	}
	if o.flag == "radius-gauges" {
		var curved bool
		if s, curved = fretboard.RadiusSheet(b, opt); !curved {
			f.fail("radius-gauges", errors.New("the board is flat: give --radius, too"))
			return f.err()
		}
	}
	d, err := render.Layout(s, render.LayoutOptions{})
	if err != nil {
		return err
	}
	if o.flag == "dxf" || o.flag == "strip-dxf" {
		return dxf.Write(&o.data, d, dxf.Options{})
	}
	return svg.Write(&o.data, d)
}

// writeOutputs writes what was rendered: files all or none, each by renaming a
// complete one into place; then what goes to standard output.
func writeOutputs(stdout, stderr io.Writer, outs []*output) error {
	type ready struct{ temp, name string }
	var files []ready
	defer func() {
		for _, f := range files {
			os.Remove(f.temp) // those not renamed
		}
	}()
	for _, o := range outs {
		if o.name == "-" {
			continue
		}
		name, regular, err := target(o.name)
		if err != nil {
			return failed(err)
		}
		if !regular { // a pipe or a device: nothing to rename over
			if err := os.WriteFile(name, o.data.Bytes(), 0o666); err != nil {
				return failed(err)
			}
			continue
		}
		temp, err := writeTemp(name, o.data.Bytes())
		if err != nil {
			return failed(err)
		}
		files = append(files, ready{temp, name})
	}
	for _, f := range files {
		if err := os.Rename(f.temp, f.name); err != nil {
			return failed(err)
		}
	}
	for _, o := range outs {
		if o.name == "-" {
			if _, err := stdout.Write(o.data.Bytes()); err != nil {
				return failed(err)
			}
			continue
		}
		fmt.Fprintf(stderr, "%s written\n", o.name)
	}
	return nil
}

// target follows links to the file that would be written and reports whether it
// is, or would be, a regular file.
func target(name string) (string, bool, error) {
	st, err := os.Stat(name)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return name, true, nil
	case err != nil:
		return "", false, err
	case st.IsDir():
		return "", false, fmt.Errorf("%s is a folder: name a file in it", name)
	case !st.Mode().IsRegular():
		return name, false, nil
	}
	real, err := filepath.EvalSymlinks(name)
	return real, true, err
}

// writeTemp writes data to a new file beside name, with the rights that a new
// file gets, and returns its name.
func writeTemp(name string, data []byte) (string, error) {
	dir, base := filepath.Split(name)
	for i := 0; ; i++ {
		temp := filepath.Join(dir, fmt.Sprintf(".%s.routwright-%d", strings.TrimPrefix(base, "."), os.Getpid()+i))
		f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, os.ErrExist) && i < 100 {
			continue
		}
		if err != nil {
			return "", fmt.Errorf("cannot write %s: %w", name, err)
		}
		_, err = f.Write(data)
		if cerr := f.Close(); err == nil {
			err = cerr
		}
		if err != nil {
			os.Remove(temp)
			return "", fmt.Errorf("cannot write %s: %w", name, err)
		}
		return temp, nil
	}
}
