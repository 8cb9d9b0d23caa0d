package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/render"
	"routwright/render/svg"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/sheet"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "run all checks, worst first",
		ArgsUsage: "FILE",
		Description: "Solves the design, simulates every cut and reports what a master would stop at,\n" +
			"each with the numbers, the place and the cure. Exit code 1 if any says stop. What the\n" +
			"design allows ([[allow]]) is a note with its reason. -o draws each finding at its place,\n" +
			"one SVG each. --set holds what the design marks as cut against the set that it was cut from.\n\nExample:  routwright check guitar.toml\n          routwright check guitar.toml -o findings\n          routwright check guitar.toml --json\n          routwright check guitar.toml --set guitar\n          routwright check --explain key-to-void",
		OnUsageError: usageError,
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "json", Usage: "print the findings as JSON"},
			&cli.StringFlag{Name: "o", Usage: "draw each finding at its place into folder `DIR`; an old set in it is replaced as a whole"},
			setFlag(),
			&cli.StringFlag{Name: "explain", Usage: "print what the check `ID` tests, with its limits; \"all\" for every check"},
		},
		Action: func(c *cli.Context) error {
			if c.IsSet("explain") {
				return explain(c.App.Writer, c.String("explain"))
			}
			name, err := oneArg(c, "the name of a design file")
			if err != nil {
				return err
			}
			old, err := recordOf(c.String("set"))
			if err != nil {
				return err
			}
			j, src, err := loadRound(kept(old), name, nil)
			if err != nil {
				return err
			}
			fs := check.Run(j)
			if c.Bool("json") {
				err = writeFindingsJSON(c.App.Writer, fs)
			} else {
				err = writeFindings(c.App.Writer, fs, isTerminal(c.App.Writer))
			}
			if err != nil {
				return failed(err)
			}
			if dir := c.String("o"); dir != "" {
				if err := drawFindings(c.App.ErrWriter, dir, src, j, fs); err != nil {
					return err
				}
			}
			if worst, ok := check.Worst(fs); ok && worst == check.Stop {
				return errStop
			}
			return nil
		},
	}
}

// drawFindings writes one picture a finding as a set, and says where.
func drawFindings(w io.Writer, dir string, src []byte, j *job.Job, fs []check.Finding) error {
	s := newSet(src)
	sheets := sheet.Findings(j, fs)
	err := inParallel(len(sheets), func(i int) error {
		d, err := render.Layout(sheets[i], render.LayoutOptions{})
		if err != nil {
			return fmt.Errorf("sheet %s: %w", sheets[i].ID, err)
		}
		return s.render(sheets[i].ID+".svg", func(b *bytes.Buffer) error { return svg.Write(b, d) })
	})
	if err != nil {
		return err
	}
	if err := s.write(dir); err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "note  %d findings drawn in %s\n", len(sheets), dir)
	return failed(err)
}

// colour of each level on a terminal: the word is printed as well.
var colour = map[check.Level]string{check.Stop: "\x1b[1;31m", check.Warn: "\x1b[33m", check.Note: "\x1b[36m"}

func writeFindings(w io.Writer, fs []check.Finding, coloured bool) error {
	var b strings.Builder
	count := map[check.Level]int{}
	for _, f := range fs {
		count[f.Level]++
		level := f.Level.String()
		if coloured {
			level = colour[f.Level] + level + "\x1b[0m"
		}
		where := ""
		if !f.At.IsZero() {
			where = f.At.String() + ": "
		}
		fmt.Fprintf(&b, "%s  %s%s  [%s]\n", level, where, f.Message, f.Check)
		for _, p := range f.Places {
			on := ""
			if f.Template != "" {
				on = ", on the axes of template " + f.Template
			}
			fmt.Fprintf(&b, "      at x %s, y %s mm%s: %s\n", design.MM(p.At.X), design.MM(p.At.Y), on, p.What)
		}
		fmt.Fprintf(&b, "      cure: %s\n", f.Cure)
	}
	fmt.Fprintf(&b, "%d stop, %d warn, %d note\n", count[check.Stop], count[check.Warn], count[check.Note])
	_, err := io.WriteString(w, b.String())
	return err
}

// jsonFinding is a finding as programs read it. Lengths in mm, places seen from
// the front, or on the axes of the template that is named.
type jsonFinding struct {
	Check   string      `json:"check"`
	Level   string      `json:"level"`
	Message string      `json:"message"`
	Got     float64     `json:"got"`
	Want    float64     `json:"want"`
	Cure    string      `json:"cure"`
	Allowed string      `json:"allowed,omitempty"`
	On      string      `json:"template,omitempty"`
	File    string      `json:"file,omitempty"`
	Line    int         `json:"line,omitempty"`
	Column  int         `json:"column,omitempty"`
	Places  []jsonPlace `json:"places"`
}

type jsonPlace struct {
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	What string  `json:"what"`
}

// findingList is findings as programs read them.
func findingList(fs []check.Finding) []jsonFinding {
	out := make([]jsonFinding, 0, len(fs))
	for _, f := range fs {
		j := jsonFinding{f.Check, f.Level.String(), f.Message, f.Got, f.Want, f.Cure, f.Allowed, f.Template, f.At.File, f.At.Line, f.At.Col, []jsonPlace{}}
		for _, p := range f.Places {
			j.Places = append(j.Places, jsonPlace{p.At.X, p.At.Y, p.What})
		}
		out = append(out, j)
	}
	return out
}

func writeFindingsJSON(w io.Writer, fs []check.Finding) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(map[string]any{"findings": findingList(fs)})
}

// explain prints what a check tests, its limits, and whether a design may allow
// other ones.
func explain(w io.Writer, id string) error {
	var ids []string
	found := false
	for _, r := range check.Rules() {
		ids = append(ids, r.ID)
		if id != "all" && id != r.ID {
			continue
		}
		found = true
		fmt.Fprintf(w, "%s\n    %s\n", r.ID, r.Tests)
		for _, l := range r.Named() {
			fmt.Fprintf(w, "    %s %s\n", l.Level, l.Words)
		}
		if why := r.Allowable(); why != "" {
			fmt.Fprintf(w, "    not to be changed by [[allow]]: %s\n", why)
		}
	}
	if !found {
		cure := "the checks are " + strings.Join(ids, ", ")
		if near := design.Nearest(id, ids); near != "" {
			cure = fmt.Sprintf("did you mean %q?", near)
		}
		return codedError{exitUsage, fmt.Errorf("no check %q; %s", id, cure)}
	}
	return nil
}

// isTerminal reports whether w is a terminal that shows colour.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("NO_COLOR") != "" {
		return false
	}
	st, err := f.Stat()
	return err == nil && st.Mode()&os.ModeCharDevice != 0
}
