package main

import (
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/templates/design"
	"routwright/templates/fretboard"
)

// fretsFlags are strings where a person writes numbers, so that a bad one is
// told in the same words everywhere, and all of them in one run.
func fretsFlags() []cli.Flag {
	text := func(name, usage string) cli.Flag { return &cli.StringFlag{Name: name, Usage: usage} }
	return []cli.Flag{
		text("scale", "`LENGTH` from the nut to the bridge line, on the centre line"),
		text("bass", "fan: scale `LENGTH` along the bass string"),
		text("treble", "fan: scale `LENGTH` along the treble string"),
		text("square", "fan: the `FRET` that is square to the centre line; 6.5 and -2 are allowed"),
		text("frets", "`NUMBER` of frets"),
		text("divisions", "equal steps to the octave, `N`; 12 unless given"),
		text("cents", "read the steps of the octave from `FILE`: one a line, rising: cents (701.955) or ratio (3/2)"),
		&cli.BoolFlag{Name: "zero-fret", Usage: "a slot at the nut line, too"},
		text("nut-behind", "with a zero fret: `LENGTH` from it to the nut"),
		&cli.StringSliceFlag{Name: "partial", Usage: "a slot under some strings, `FRET:FROM-TO`, as 3.5:1-3; may be repeated"},
		text("extra", "slots past the last fret under the treble strings, `FRETS:STRINGS`, as 2:3, or 2:3:bass"),
		text("strings", "`NUMBER` of strings, 1 to 14"),
		text("nut-spread", "`LENGTH` between the middles of the outer strings at the nut"),
		text("bridge-spread", "`LENGTH` between the middles of the outer strings at the bridge"),
		text("gauges", "string diameters, highest string first, `G,G,…`; the gaps between strings are then equal"),
		text("margin", "`LENGTH` from the middle of an outer string to the board's edge"),
		text("nut-width", "`LENGTH` across the board at the nut, in place of margins"),
		text("end-width", "`LENGTH` across the board at its end, in place of margins"),
		text("nut-slot", "`LENGTH` along the board of the slot for the nut"),
		text("shelf", "`LENGTH` of board behind the nut"),
		text("overhang", "`LENGTH` of board past the last slot"),
		text("end-radius", "`LENGTH` of the radius of a curved end"),
		text("radius", "`LENGTH` of the surface's radius; two, as \"254,305\", for a cone from nut to last fret"),
		text("kerf", "`LENGTH` across the slot that the saw makes"),
		text("depth", "`LENGTH` of the slot below the surface"),
		text("binding", "`LENGTH` inside the edge at which the slot stops"),
		&cli.BoolFlag{Name: "markers", Usage: "draw the position markers"},
		text("units", "`mm` or in: of plain numbers and of the table"),
		text("csv", "write the table to `FILE`"),
		text("svg", "write the full-size sheet to `FILE`"),
		text("dxf", "write the sheet as DXF in mm to `FILE`"),
		text("table", "write the table as a sheet to read at the saw, SVG, to `FILE`"),
		text("sagittas", "write radius, sagittas and depths of the slots to `FILE` as CSV"),
		&cli.BoolFlag{Name: "json", Usage: "print the slots as JSON"},
	}
}

// fretsInput reads the flags of one run and keeps every fault.
type fretsInput struct {
	c       *cli.Context
	unit    fretboard.Unit
	faults  []error
	io      error    // a file that could not be read
	assumed []string // all that no flag gave: for a drawing
	matters []string // those of them that change the distances of a fan
}

func newFretsInput(c *cli.Context) *fretsInput {
	f := &fretsInput{c: c, unit: fretboard.MM}
	switch u := c.String("units"); u {
	case "", "mm":
	case "in":
		f.unit = fretboard.Inch
	default:
		f.fail("units", fmt.Errorf("%q given; allowed: mm, in", u))
	}
	return f
}

func (f *fretsInput) fail(flag string, err error) {
	for _, line := range strings.Split(err.Error(), "\n") {
		f.faults = append(f.faults, fmt.Errorf("--%s: %s", flag, line))
	}
}

// err returns what was wrong with the flags, all of it.
func (f *fretsInput) err() error {
	if f.io != nil {
		return failed(errors.Join(append(f.faults, f.io)...))
	}
	if len(f.faults) > 0 {
		return codedError{exitUsage, errors.Join(f.faults...)}
	}
	return nil
}

// length sets v from a flag when it is given and reports whether it was.
func (f *fretsInput) length(flag string, v *float64) bool {
	if !f.c.IsSet(flag) {
		return false
	}
	*v = f.parse(flag, f.c.String(flag))
	return true
}

// parse reads a length in mm. String gauges are often written .010: the 0 before
// the point may be left out.
func (f *fretsInput) parse(flag, s string) float64 {
	if t := strings.TrimSpace(s); strings.HasPrefix(t, ".") {
		s = "0" + t
	}
	l, err := design.ParseLength(s, string(f.unit))
	if err != nil {
		f.fail(flag, err)
	}
	return float64(l)
}

// number sets v from a flag that counts.
func (f *fretsInput) number(flag string, v *int) bool {
	if !f.c.IsSet(flag) {
		return false
	}
	n, err := strconv.Atoi(strings.TrimSpace(f.c.String(flag)))
	if err != nil {
		f.fail(flag, fmt.Errorf("%q is no whole number", f.c.String(flag)))
	}
	*v = n
	return true
}

// real sets v from a flag that may lie between whole numbers.
func (f *fretsInput) real(flag, s string, v *float64) {
	x, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		f.fail(flag, fmt.Errorf("%q is no number such as 7, 6.5 or -2", s))
	}
	*v = x
}

// assume notes a value that no flag gave.
func (f *fretsInput) assume(flag, format string, a ...any) {
	note := fmt.Sprintf(format, a...) + " (--" + flag + ")"
	f.assumed = append(f.assumed, note)
	switch flag {
	case "square", "nut-spread", "bridge-spread":
		f.matters = append(f.matters, note)
	}
}

// notes returns the assumptions that what is written rests on. Distances on a
// single scale rest on none.
func (f *fretsInput) notes(outs []*output, fanned bool) []string {
	for _, o := range outs {
		if o.flag != "csv" && o.flag != "table" && o.flag != "print" {
			return f.assumed
		}
	}
	if fanned {
		return f.matters
	}
	return nil
}

// spec reads the flags into a board's description.
func (f *fretsInput) spec() fretboard.Spec {
	count := 6
	if !f.number("strings", &count) {
		f.assume("strings", "%d strings", count)
	}
	s := fretboard.Common(0, 0, count)
	f.scale(&s)
	if !f.number("frets", &s.Frets) {
		f.faults = append(f.faults, errors.New("--frets is missing: give the number of frets"))
	}
	f.tuning(&s)
	f.board(&s)
	s.ZeroFret = f.c.Bool("zero-fret")
	for _, p := range f.c.StringSlice("partial") {
		if part, ok := parsePartial(p); ok {
			s.Partials = append(s.Partials, part)
		} else {
			f.fail("partial", fmt.Errorf("%q: write the fret and the strings that it serves, as 3.5:1-3", p))
		}
	}
	if x := f.c.String("extra"); x != "" {
		var ok bool
		if s.Extra, ok = parseExtra(x); !ok {
			f.fail("extra", fmt.Errorf("%q: write how many frets and how many strings, as 2:3, or 2:3:bass for the bass side", x))
		}
	}
	return s
}

// scale reads one scale or two.
func (f *fretsInput) scale(s *fretboard.Spec) {
	var fan fretboard.Fan
	one := f.length("scale", &s.Scale)
	bass, treble := f.length("bass", &fan.Bass), f.length("treble", &fan.Treble)
	square := f.c.IsSet("square")
	switch {
	case one && (bass || treble || square):
		f.faults = append(f.faults, errors.New("--scale is for a single scale and --bass, --treble, --square for two: give one or the other"))
	case bass != treble:
		f.faults = append(f.faults, errors.New("a fan needs both --bass and --treble"))
	case square && !bass:
		f.faults = append(f.faults, errors.New("--square is for two scales: give --bass and --treble, too"))
	case !one && !bass:
		f.faults = append(f.faults, errors.New("the scale is missing: give --scale, or --bass and --treble for two"))
	}
	if !bass || !treble {
		return
	}
	if square {
		f.real("square", f.c.String("square"), &fan.Square)
	} else {
		fan.Square = 7 // common practice: the middle of the hand's work
		f.assume("square", "fret 7 square to the centre line")
	}
	s.Fan = &fan
}

// tuning reads the temperament.
func (f *fretsInput) tuning(s *fretboard.Spec) {
	n := 0
	equal, name := f.number("divisions", &n), f.c.String("cents")
	if equal {
		t, err := fretboard.Equal(n)
		if err != nil {
			f.fail("divisions", err)
		}
		s.Tuning = t
	}
	if name == "" {
		return
	}
	if equal {
		f.faults = append(f.faults, errors.New("--divisions and --cents both divide the octave: give one"))
	}
	file, err := os.Open(name)
	if err != nil {
		f.io = fmt.Errorf("--cents: %w", err)
		return
	}
	defer file.Close()
	t, err := fretboard.ReadTuning(file)
	var path *os.PathError
	switch {
	case errors.As(err, &path): // the file itself could not be read
		f.io = fmt.Errorf("--cents: %w", err)
	case err != nil:
		f.fail("cents", fmt.Errorf("%s: %s", name, strings.ReplaceAll(err.Error(), "\n", "\n"+name+": ")))
	}
	s.Tuning = t
}

// board reads the strings' spread and the board round them.
func (f *fretsInput) board(s *fretboard.Spec) {
	many := s.Strings.Count != 1
	say := func(mm float64) string { return fretboard.Say(mm, f.unit) }
	spreadNut, spreadBridge := f.length("nut-spread", &s.Strings.Nut), f.length("bridge-spread", &s.Strings.Bridge)
	if g := f.lengths("gauges"); g != nil {
		s.Strings.Gauges, s.Strings.EqualGaps = g, true
	}
	switch f.c.String("spacing") {
	case "", "gaps":
	case "centres":
		s.Strings.EqualGaps = false
	default:
		f.fail("spacing", fmt.Errorf("%q given; allowed: gaps, centres", f.c.String("spacing")))
	}
	m := s.Edges.BassNut
	margin := f.length("margin", &m)
	nut, end := f.length("nut-width", &s.Edges.NutWidth), f.length("end-width", &s.Edges.EndWidth)
	switch {
	case nut != end:
		f.faults = append(f.faults, errors.New("--nut-width and --end-width belong together: give both, or --margin"))
	case nut && margin:
		f.faults = append(f.faults, errors.New("--margin and the board's widths both set its edges: give one"))
	case !nut && !margin:
		f.assume("margin", "edges %s outside the outer strings", say(m))
	}
	s.Edges.BassNut, s.Edges.TrebleNut, s.Edges.BassEnd, s.Edges.TrebleEnd = m, m, m, m
	if !f.length("overhang", &s.End.Overhang) {
		f.assume("overhang", "board %s past the last slot", say(s.End.Overhang))
	}
	if nut && !spreadNut && !spreadBridge {
		s.FitStrings()
	}
	if !spreadNut && many {
		f.assume("nut-spread", "outer strings %s apart at the nut", say(s.Strings.Nut))
	}
	if !spreadBridge && many {
		f.assume("bridge-spread", "outer strings %s apart at the bridge", say(s.Strings.Bridge))
	}
	if !f.length("kerf", &s.Slot.Kerf) {
		f.assume("kerf", "kerf %s", say(s.Slot.Kerf))
	}
	f.length("nut-behind", &s.Nut.Behind)
	f.length("nut-slot", &s.Nut.Width)
	f.length("shelf", &s.Nut.Shelf)
	f.length("end-radius", &s.End.Radius)
	f.length("depth", &s.Slot.Depth)
	f.length("binding", &s.Slot.Binding)
	switch r := f.lengths("radius"); len(r) {
	case 0:
	case 1:
		s.Radius = fretboard.Radius{Nut: r[0], End: r[0]}
	case 2:
		s.Radius = fretboard.Radius{Nut: r[0], End: r[1]}
	default:
		f.fail("radius", fmt.Errorf("%d lengths given: one for a cylinder, two for a cone", len(r)))
	}
}

// lengths reads a list of lengths, nil when the flag is not given.
func (f *fretsInput) lengths(flag string) []float64 {
	if !f.c.IsSet(flag) {
		return nil
	}
	var out []float64
	for _, w := range strings.Split(f.c.String(flag), ",") {
		out = append(out, f.parse(flag, w))
	}
	return out
}

func parsePartial(p string) (fretboard.Partial, bool) {
	fret, span, ok := strings.Cut(p, ":")
	from, to, both := strings.Cut(span, "-")
	if !both {
		to = from
	}
	x, err1 := strconv.ParseFloat(fret, 64)
	a, err2 := strconv.Atoi(from)
	b, err3 := strconv.Atoi(to)
	return fretboard.Partial{Fret: x, From: a, To: b}, ok && err1 == nil && err2 == nil && err3 == nil
}

func parseExtra(x string) (fretboard.Extra, bool) {
	x, bass := strings.CutSuffix(x, ":bass")
	a, b, ok := strings.Cut(strings.TrimSuffix(x, ":treble"), ":")
	n, err1 := strconv.Atoi(a)
	k, err2 := strconv.Atoi(b)
	return fretboard.Extra{Frets: n, Strings: k, Bass: bass}, ok && err1 == nil && err2 == nil
}

// outputs lists what the run makes.
func (f *fretsInput) outputs() []*output {
	var outs []*output
	seen := map[string]string{}
	take := func(flag, name string) {
		if name == "/dev/stdout" { // may lead to a file, which must not be replaced
			name = "-"
		}
		if other := seen[name]; other != "" {
			where := "the same file " + name
			if name == "-" {
				where = "standard output"
			}
			f.faults = append(f.faults, fmt.Errorf("--%s and --%s would both go to %s: name different files", other, flag, where))
		}
		seen[name] = flag
		outs = append(outs, &output{flag: flag, name: name})
	}
	for _, flag := range []string{"csv", "svg", "dxf", "table", "sagittas", "strip", "strip-dxf", "radius-gauges", "tension"} {
		if !f.c.IsSet(flag) {
			continue
		}
		name := f.c.String(flag)
		if name == "" {
			f.faults = append(f.faults, fmt.Errorf("--%s needs the name of a file, or - for standard output", flag))
			continue
		}
		take(flag, name)
	}
	if f.c.Bool("json") {
		take("json", "-")
	}
	if len(outs) == 0 {
		take("print", "-")
	}
	return outs
}

// fieldFlags says which flag a part of the board's description comes from.
var fieldFlags = map[string]string{
	"scale": "scale", "fan.bass": "bass", "fan.treble": "treble", "fan.square": "square",
	"frets":         "frets",
	"strings.count": "strings", "strings.nut": "nut-spread", "strings.bridge": "bridge-spread", "strings.gauges": "gauges",
	"edges.bassnut": "margin", "edges.treblenut": "margin", "edges.bassend": "margin", "edges.trebleend": "margin",
	"edges.nutwidth": "nut-width", "edges.endwidth": "end-width",
	"nut.width": "nut-slot", "nut.behind": "nut-behind", "nut.shelf": "shelf",
	"end.overhang": "overhang", "end.radius": "end-radius",
	"slot.kerf": "kerf", "slot.depth": "depth", "slot.binding": "binding",
	"radius.nut": "radius", "radius.end": "radius",
	"extra.frets": "extra", "extra.strings": "extra", "partials": "partial",
}

// blame words the problems of a board by their flags, each once.
func (f *fretsInput) blame(err error) error {
	var ps fretboard.Problems
	if !errors.As(err, &ps) {
		return err
	}
	seen := map[string]bool{}
	for _, p := range ps {
		field, _, _ := strings.Cut(p.Field, "[")
		flag, ok := fieldFlags[field]
		if !ok {
			flag = field
		}
		if key := flag + p.Text; !seen[key] {
			seen[key] = true
			f.fail(flag, errors.New(p.Text))
		}
	}
	return f.err()
}
