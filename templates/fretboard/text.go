package fretboard

import (
	"bytes"
	"fmt"
	"io"
	"text/tabwriter"
)

// WriteText writes the table for the eye: what is measured from where, then one
// line a slot with the distances in the unit, the distance from the nut in the
// other unit, and the nearest 64th of an inch with how much too long it is. A
// fan has a block of columns for each outer string.
func (b *Board) WriteText(w io.Writer, u Unit) error {
	var buf bytes.Buffer
	for _, l := range b.Heading(u) {
		fmt.Fprintln(&buf, l)
	}
	fmt.Fprintln(&buf)
	t := tabwriter.NewWriter(&buf, 0, 0, 2, ' ', tabwriter.AlignRight)
	d, other := tableDecimals[u].eye, Inch
	if u == Inch {
		other = MM
	}
	sides := []string{""}
	if b.Fanned() {
		sides = []string{"bass ", "treble "}
	}
	fmt.Fprint(t, "fret\t")
	for _, s := range sides {
		fmt.Fprintf(t, "%sfrom nut\tprevious\tto bridge\t%s\t64ths\terror in\t", s, other)
	}
	if b.Fanned() {
		fmt.Fprint(t, "angle °\t")
	}
	fmt.Fprintln(t, b.servesHead())
	for _, r := range b.Rows() {
		fmt.Fprintf(t, "%s\t", r.Fret)
		for i := range sides {
			a := r.Bass
			if i == 1 {
				a = r.Treble
			}
			f := Nearest64th(a.FromNut)
			fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t", fixed(u.in(a.FromNut), d), fixed(u.in(a.FromPrevious), d), fixed(u.in(a.ToBridge), d),
				fixed(other.in(a.FromNut), tableDecimals[other].eye), f, f.ErrorWords())
		}
		if b.Fanned() {
			fmt.Fprintf(t, "%s\t", fixed(r.Angle, 3))
		}
		if b.servesHead() != "" {
			fmt.Fprintf(t, "%s\t", r.Serves)
		}
		fmt.Fprintln(t)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	_, err := w.Write(buf.Bytes())
	return err
}

// errorWords explains the last columns of the table.
const errorWords = "64ths: the nearest 64th of an inch to the distance from the nut; error: how much longer it is, in inches."

// words returns the unit as a word.
func (u Unit) words() string {
	if u == Inch {
		return "inches"
	}
	return string(u)
}

func (b *Board) servesHead() string {
	for _, s := range b.Slots {
		if s.Partial {
			return "under\t"
		}
	}
	return ""
}

// Heading returns the lines that stand above a table: scale, temperament, and
// what the distances are measured from.
func (b *Board) Heading(u Unit) []string {
	bass, treble := b.Scales()
	const tail = "to the middle of the slot. Mark every slot from there, not from the one before."
	if !b.Fanned() {
		return []string{
			fmt.Sprintf("Scale %s, %d frets, %s.", Say(bass, u), b.Spec.Frets, b.Spec.Tuning),
			fmt.Sprintf("Distances in %s on the centre line from %s %s", u.words(), b.datum(), tail),
			errorWords,
		}
	}
	return []string{
		fmt.Sprintf("Scales %s bass, %s treble, fret %s square, %d frets, %s.", Say(bass, u), Say(treble, u), decimals(b.Spec.Fan.Square), b.Spec.Frets, b.Spec.Tuning),
		fmt.Sprintf("Distances in %s along the outer strings from %s %s", u.words(), b.datum(), tail),
		errorWords,
		"Angle to the square of the centre line, positive when the treble end lies nearer the bridge.",
	}
}
