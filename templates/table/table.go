// Package table makes the tables of a job: rows of words and numbers for CSV
// files. Lengths in mm with five decimals, seen from the front.
package table

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"routwright/templates/check"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// Table is one table with its head.
type Table struct {
	Name string // file name without ending
	Head []string
	Rows [][]string
}

// WriteCSV writes t as comma-separated values with a head line (RFC 4180, LF).
func (t Table) WriteCSV(w io.Writer) error {
	c := csv.NewWriter(w)
	if err := c.Write(t.Head); err != nil {
		return err
	}
	if err := c.WriteAll(t.Rows); err != nil {
		return err
	}
	c.Flush()
	return c.Error()
}

// All returns the tables of a job and its findings.
func All(j *job.Job, fs []check.Finding) []Table {
	all := []Table{rack(j), parts(j), pins(j), poses(j), proofs(j), passes(j), findings(fs), assumed(j)}
	if t := drillOut(j); len(t.Rows) > 0 {
		all = append(all, t)
	}
	if len(j.Channels) > 0 {
		all = append(all, channels(j))
	}
	if j.Balance != nil {
		all = append(all, balanceTable(j))
	}
	if j.Keys != nil && j.Keys.Fit.Spec.Border > 0 {
		all = append(all, strips(j))
	}
	if j.Strings != nil {
		all = append(all, stringTable(j))
	}
	if j.Board != nil && j.Markers > 0 {
		all = append(all, markers(j))
	}
	if j.Index != nil {
		all = append(all, seats(j))
	}
	if j.Shape != nil {
		all = append(all, tuners(j), neckBack(j))
	}
	for _, t := range []Table{drills(j), walls(j), jigs(j)} {
		if len(t.Rows) > 0 {
			all = append(all, t)
		}
	}
	return all
}

// num prints a number, never as −0.
func num(v float64) string {
	s := strconv.FormatFloat(v, 'f', design.TableDecimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

func parts(j *job.Job) Table {
	t := Table{Name: "parts", Head: []string{"part", "kind", "name", "face", "depth", "x_min", "x_max", "y_min", "y_max", "area"}}
	for _, p := range j.Parts {
		b := p.Bounds()
		depth := num(p.Depth(j.Thickness))
		if p.Kind == part.Cover || p.Kind == part.Body {
			top, floor := p.Range()
			depth = num(floor - top)
		}
		t.Rows = append(t.Rows, []string{p.ID, string(p.Kind), p.Name, p.Face.String(), depth,
			num(b.Min.X), num(b.Max.X), num(b.Min.Y), num(b.Max.Y), num(p.Plan().Area())})
	}
	return t
}

func pins(j *job.Job) Table {
	t := Table{Name: "pins", Head: []string{"pin", "x", "y", "diameter"}}
	for _, p := range j.Pins {
		t.Rows = append(t.Rows, []string{p.Name, num(p.At.X), num(p.At.Y), num(p.D)})
	}
	return t
}

// poses lists the wrong ways to lay a template on the pins.
func poses(j *job.Job) Table {
	t := Table{Name: "poses", Head: []string{"laid", "seats", "misses_by", "askew_deg"}}
	for _, p := range cut.Poses(j.Pins) {
		t.Rows = append(t.Rows, []string{p.Words, strconv.FormatBool(p.Seats), num(p.Miss), num(p.Askew)})
	}
	return t
}

// proofs lists what the simulated cut of each template leaves.
func proofs(j *job.Job) Table {
	t := Table{Name: "proofs", Head: []string{"template", "part", "bit", "cutter", "follower", "wood_left", "wood_lost", "by_hand", "left_reach", "lost_depth", "gap_min", "gap_max", "gap_mean"}}
	for i, p := range j.Proofs {
		tool := j.Templates[i].Tool
		row := []string{p.Template, p.Part, tool.Bit, num(tool.Cutter), num(tool.Follower),
			num(p.Left.Area()), num(p.Lost.Area()), num(p.ByHand.Area()), num(p.LeftReach), num(p.LostDepth), "", "", ""}
		if z := j.Keys.Of(p.Template); z != nil {
			g := z.Gap
			row[10], row[11], row[12] = num(g.Min), num(g.Max), num(g.Mean)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// strips is the cut list of the border strips of all keys. Lengths are those of
// the outer face; both ends as they are mitred.
func strips(j *job.Job) Table {
	t := Table{Name: "strips", Head: []string{"where", "count", "thickness", "width", "length", "first_end", "second_end"}}
	width := 0.0 // as deep as the deepest recess before planing
	for _, f := range j.Keys.Faces() {
		width = max(width, j.RecessDepth(f))
	}
	for i, z := range j.Keys.Sizes {
		for _, s := range z.Fit.Strips() {
			t.Rows = append(t.Rows, []string{s.Where, strconv.Itoa(s.Count * j.Keys.Count(i)), num(z.Fit.Spec.Border), num(width), num(s.Length), s.Mitres[0].Words, s.Mitres[1].Words})
		}
	}
	return t
}

func findings(fs []check.Finding) Table {
	t := Table{Name: "findings", Head: []string{"level", "check", "got", "want", "message", "cure", "line"}}
	for _, f := range fs {
		line := ""
		if !f.At.IsZero() {
			line = strconv.Itoa(f.At.Line)
		}
		t.Rows = append(t.Rows, []string{f.Level.String(), f.Check, num(f.Got), num(f.Want), f.Message, f.Cure, line})
	}
	return t
}

// assumed lists every value that the builder did not give, chapter by chapter.
func assumed(j *job.Job) Table {
	t := Table{Name: "assumed", Head: []string{"key", "value", "how", "why", "about"}}
	for _, a := range job.ByAbout(j.Assumed) {
		t.Rows = append(t.Rows, []string{a.Key, a.Value, a.How, a.Why, a.About().String()})
	}
	return t
}
