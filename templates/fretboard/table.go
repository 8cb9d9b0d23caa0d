package fretboard

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"routwright/templates/design"
)

// Row is one slot of the table.
type Row struct {
	Fret   string  // "12", "3.5"
	Bass   Along   // along the bass string of a fan; on the centre line otherwise
	Treble Along   // along the treble string of a fan; the same as Bass otherwise
	Angle  float64 // degrees, as Slot.Angle
	Serves string  // "strings 1 to 3" for a partial slot, else empty
}

// Along is where a slot lies along one string, in mm.
type Along struct {
	FromNut, FromPrevious, ToBridge float64
}

// Rows returns the table, nut first, partial slots in their places. FromPrevious
// counts from the row above, for the first row from the nut.
func (b *Board) Rows() []Row {
	lb, lt := b.Scales()
	var rows []Row
	var before Slot
	for _, s := range b.Slots {
		r := Row{
			Fret:   s.Name(),
			Bass:   Along{s.BassFromNut, s.BassFromNut - before.BassFromNut, lb - s.BassFromNut},
			Treble: Along{s.TrebleFromNut, s.TrebleFromNut - before.TrebleFromNut, lt - s.TrebleFromNut},
			Angle:  s.Angle.Degrees(),
		}
		if s.Partial {
			r.Serves = fmt.Sprintf("strings %d to %d", s.From, s.To)
		}
		rows = append(rows, r)
		before = s
	}
	return rows
}

// Unit is the unit of a table.
type Unit string

const (
	MM   Unit = "mm"
	Inch Unit = "in"
)

// tableDecimals is how many decimals tables carry for a machine (CSV) and for
// the eye. 1e-6 in is 2.5e-5 mm, the grain of the five decimals of a millimetre.
var tableDecimals = map[Unit]struct{ csv, eye int }{
	MM:   {design.TableDecimals, design.PaperDecimals},
	Inch: {6, 4},
}

// in returns a length in mm in the unit.
func (u Unit) in(mm float64) float64 {
	if u == Inch {
		return mm / MMPerInch
	}
	return mm
}

func fixed(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-") // no minus zero
	}
	return s
}

// WriteCSV writes the table: for a single scale the columns
//
//	fret,from_nut,from_previous,to_bridge
//
// and for a fan the three columns of the bass string, the three of the treble
// string, and angle_deg. Five decimals in mm, six in inches, lines end with LF.
func (b *Board) WriteCSV(w io.Writer, u Unit) error {
	d := tableDecimals[u].csv
	along := func(a Along) []string {
		return []string{fixed(u.in(a.FromNut), d), fixed(u.in(a.FromPrevious), d), fixed(u.in(a.ToBridge), d)}
	}
	c := csv.NewWriter(w)
	if !b.Fanned() {
		c.Write([]string{"fret", "from_nut", "from_previous", "to_bridge"})
	} else {
		c.Write([]string{"fret", "bass_from_nut", "bass_from_previous", "bass_to_bridge",
			"treble_from_nut", "treble_from_previous", "treble_to_bridge", "angle_deg"})
	}
	for _, r := range b.Rows() {
		rec := append([]string{r.Fret}, along(r.Bass)...)
		if b.Fanned() {
			rec = append(append(rec, along(r.Treble)...), fixed(r.Angle, 6))
		}
		c.Write(rec)
	}
	c.Flush()
	return c.Error()
}

// WriteDepths writes the radius, the sagittas and the depths of the slots, one
// line a slot, with the decimals of WriteCSV: how far the surface at each end of
// the slot lies under its crown, and how deep the floor lies under the crown's
// plane where the surface is highest and at the ends. A flat board has no radius.
func (b *Board) WriteDepths(w io.Writer, u Unit) error {
	d := tableDecimals[u].csv
	c := csv.NewWriter(w)
	c.Write([]string{"fret", "radius", "width", "sagitta_bass", "sagitta_treble", "depth_crown", "depth_bass", "depth_treble"})
	for i, x := range b.Depths() {
		rec := []string{b.Slots[i].Name(), ""}
		if !b.Spec.Radius.Flat() {
			rec[1] = fixed(u.in(x.Radius), d)
		}
		for _, v := range []float64{x.Width, x.Bass, x.Treble, x.Crown, x.AtBass, x.AtTreble} {
			rec = append(rec, fixed(u.in(v), d))
		}
		c.Write(rec)
	}
	c.Flush()
	return c.Error()
}

// jsonSlot is one slot for a program to read. Lengths in mm; the ends are those
// of the sawn line, end 1 the bass end.
type jsonSlot struct {
	Fret    float64 `json:"fret"`
	Bass    float64 `json:"bass_from_nut"`
	Treble  float64 `json:"treble_from_nut"`
	Angle   float64 `json:"angle_deg"`
	X1      float64 `json:"x1"`
	Y1      float64 `json:"y1"`
	X2      float64 `json:"x2"`
	Y2      float64 `json:"y2"`
	Strings []int   `json:"strings,omitempty"` // first and last string of a partial slot
}

// WriteJSON writes one object: the scales, what the coordinates mean, and the
// list slots, each with its distances along the outer strings (on a single
// scale: on the centre line), its angle and its ends. mm and degrees, at full
// precision.
func (b *Board) WriteJSON(w io.Writer) error {
	b = b.original() // its coordinates run to the treble side
	bass, treble := b.Scales()
	doc := struct {
		Units       string     `json:"units"`
		Origin      string     `json:"origin"`
		Temperament string     `json:"temperament"`
		Bass        float64    `json:"bass_scale"`
		Treble      float64    `json:"treble_scale"`
		Square      *float64   `json:"square_fret,omitempty"`
		Slots       []jsonSlot `json:"slots"`
	}{
		Units: "mm", Origin: "centre line at the bridge line; x to the treble side, y to the nut",
		Temperament: b.Spec.Tuning.String(), Bass: bass, Treble: treble,
	}
	if b.Fanned() {
		doc.Square = &b.Spec.Fan.Square
	}
	for _, s := range b.Slots {
		l := s.Line
		j := jsonSlot{Fret: s.Fret, Bass: s.BassFromNut, Treble: s.TrebleFromNut, Angle: s.Angle.Degrees(), X1: l.A.X, Y1: l.A.Y, X2: l.B.X, Y2: l.B.Y}
		if s.Partial {
			j.Strings = []int{s.From, s.To}
		}
		doc.Slots = append(doc.Slots, j)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(doc)
}
