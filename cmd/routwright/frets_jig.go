package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"routwright/templates/design"
	"routwright/templates/fretboard"
	"routwright/templates/limit"
	physics "routwright/templates/strings"
)

// jigFlags are those of the slotting strip and of the strings.
func jigFlags() []cli.Flag {
	text := func(name, usage string) cli.Flag { return &cli.StringFlag{Name: name, Usage: usage} }
	return []cli.Flag{
		text("strip", "write the slotting strip, for a fan its carrier, full size as SVG to `FILE`"),
		text("strip-dxf", "write the strip or carrier as DXF in mm to `FILE`"),
		text("pin", "strip: `LENGTH` across the pin beside the saw"),
		text("offset", "strip: `LENGTH` from the pin's middle to the kerf's, positive when the saw is nearer the nut"),
		text("pin-span", "carrier: `LENGTH` between the middles of its two pins"),
		text("play", "strip: `LENGTH` by which a notch is wider than the pin"),
		&cli.BoolFlag{Name: "holes", Usage: "strip: bored holes in place of notches"},
		text("radius-gauges", "write gauges and block ends for the radius, full size as SVG, to `FILE`"),
		text("spacing", "with --gauges: `gaps` of one width between the strings, or centres evenly spaced"),
		text("tension", "write tension and compensation of the strings to `FILE` as CSV; needs --gauges and --pitches"),
		text("pitches", "open strings, highest first, `P,P,…`, as E4,B3 or in Hz"),
		text("wound", "`NUMBER` of the lowest strings that are wound"),
		text("cores", "core diameters, highest string first, 0 for a plain one, `C,C,…`"),
		text("masses", "grams that a metre of each string weighs, highest first, 0 where not weighed, `M,M,…`"),
		text("winding", "metal of the winding: `steel`, nickel or bronze"),
		text("action", "`LENGTH` under a string at fret 12"),
		text("nut-action", "`LENGTH` under a string at the nut, over the plane of the fret tops"),
	}
}

// jig lays out the strip or carrier that the flags ask for.
func (f *fretsInput) jig(b *fretboard.Board) (*fretboard.Index, error) {
	s := fretboard.IndexSpec{Holes: f.c.Bool("holes")}
	f.length("pin", &s.Pin)
	if !f.length("offset", &s.Offset) {
		f.assume("offset", "the pin in line with the saw")
	}
	f.length("pin-span", &s.Span)
	f.length("play", &s.Play)
	if err := f.err(); err != nil {
		return nil, err
	}
	x, err := b.NewIndex(s)
	var ps fretboard.Problems
	if errors.As(err, &ps) {
		for _, p := range ps {
			flag := strings.TrimPrefix(p.Field, "index.")
			if flag == "span" {
				flag = "pin-span"
			}
			f.fail(flag, errors.New(p.Text))
		}
		return nil, f.err()
	}
	if err == nil && x.Web < limit.IndexWeb.Stop {
		f.fail("pin", fmt.Errorf("%s leaves %.2f mm of wood between two places of the strip: use a thinner pin", fretboard.Say(x.Spec.Pin, f.unit), max(x.Web, 0)))
		return nil, f.err()
	}
	return x, err
}

// numbers reads a list of plain numbers.
func (f *fretsInput) numbers(flag string) []float64 {
	if !f.c.IsSet(flag) {
		return nil
	}
	var out []float64
	for _, w := range strings.Split(f.c.String(flag), ",") {
		var v float64
		f.real(flag, w, &v)
		out = append(out, v)
	}
	return out
}

// tension writes the table of the strings.
func (f *fretsInput) tension(w io.Writer, b *fretboard.Board) error {
	set := physics.Set{Diameters: f.lengths("gauges"), Cores: f.lengths("cores"), Winding: physics.Winding(f.c.String("winding"))}
	for _, g := range f.numbers("masses") {
		set.Masses = append(set.Masses, g/1000)
	}
	if f.c.IsSet("pitches") {
		for _, p := range strings.Split(f.c.String("pitches"), ",") {
			hz, err := physics.ParsePitch(p)
			if err != nil {
				f.fail("pitches", err)
			}
			set.Pitches = append(set.Pitches, hz)
		}
	}
	if n := 0; f.number("wound", &n) {
		set.Wound = &n
	}
	for _, flag := range []string{"gauges", "pitches"} {
		if !f.c.IsSet(flag) {
			f.fail("tension", fmt.Errorf("give --%s, too", flag))
		}
	}
	switch set.Winding {
	case "", physics.Steel, physics.Nickel, physics.Bronze:
	default:
		f.fail("winding", fmt.Errorf("%q given; allowed: steel, nickel, bronze", set.Winding))
	}
	u := physics.Setup{Frets: max(b.Spec.Frets, 12), AtNut: 0.4, Action12: 1.7} // common practice
	if !f.length("action", &u.Action12) {
		f.assume("action", "%s under the strings at fret 12", fretboard.Say(u.Action12, f.unit))
	}
	if !f.length("nut-action", &u.AtNut) {
		f.assume("nut-action", "%s under the strings at the nut", fretboard.Say(u.AtNut, f.unit))
	}
	if err := f.err(); err != nil {
		return err
	}
	all, notes, err := set.Strings()
	if err != nil {
		f.fail("tension", err)
		return f.err()
	}
	for _, o := range notes {
		f.assume("gauges", "string %d: %s", o.String, o.Text)
	}
	rows, err := physics.Table(all, b.Lengths(), u)
	if err != nil {
		f.fail("tension", err)
		return f.err()
	}
	f.assume("tension", "compensation is an estimate: leave the saddles room to move")
	c := csv.NewWriter(w)
	c.Write(physics.Head)
	for _, r := range rows {
		c.Write(r.Cells(func(v float64) string { return strconv.FormatFloat(v+0, 'f', design.TableDecimals, 64) }))
	}
	c.Flush()
	return c.Error()
}
