package strings

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// Winding is the metal wound round the core of the low strings.
type Winding string

const (
	Steel  Winding = "steel"
	Nickel Winding = "nickel"
	Bronze Winding = "bronze"
)

// density of the metal in kg/m³, from memory of engineering handbooks: nickel
// 8900, bronze for wire 8800. Nickel-plated steel weighs as steel.
func (w Winding) density() float64 {
	switch w {
	case Nickel:
		return 8900
	case Bronze:
		return 8800
	}
	return SteelDensity
}

// Assumed where a set does not say it, common practice, no published source.
const (
	// ThickestPlain is the diameter in mm over which a string is taken to be
	// wound: plain ones end at 0.50 to 0.55.
	ThickestPlain = 0.55
	// CorePart is the core of a wound string as a part of its diameter: 0.35 to
	// 0.5, less for thick ones.
	CorePart = 0.4
)

// Set is the strings of an instrument, the highest first. Lists that are nil or
// hold 0 leave a value to be assumed.
type Set struct {
	Diameters []float64 // mm, one for each string
	Pitches   []float64 // Hz, one for each string
	Wound     *int      // how many of the lowest strings are wound; nil: by diameter
	Cores     []float64 // mm, of wound strings
	Masses    []float64 // kg/m
	Winding   Winding   // "": steel
}

// Note is something that a set left open: of which string, or 0 for all.
type Note struct {
	String int
	Text   string
}

// Strings returns the strings of the set and what was assumed of them. A wound
// string without its mass gets that of a round core closely wound with one layer
// of round wire. The error joins all that is wrong.
func (s Set) Strings() ([]String, []Note, error) {
	n := len(s.Diameters)
	var errs []error
	for _, l := range []struct {
		what string
		list []float64
		need bool
	}{{"pitches", s.Pitches, true}, {"cores", s.Cores, false}, {"masses", s.Masses, false}} {
		if len(l.list) != n && (l.need || len(l.list) != 0) {
			errs = append(errs, fmt.Errorf("%d %s for %d strings: give one for each, the highest string first", len(l.list), l.what, n))
		}
	}
	if w := s.Wound; w != nil && (*w < 0 || *w > n) {
		errs = append(errs, fmt.Errorf("%d wound strings of %d", *w, n))
	}
	if len(errs) > 0 {
		return nil, nil, errors.Join(errs...)
	}
	out := make([]String, n)
	var notes []Note
	for i := range out {
		t := String{Diameter: s.Diameters[i], Pitch: s.Pitches[i]}
		core, mass := at(s.Cores, i), at(s.Masses, i)
		wound := core > 0 && core < t.Diameter
		switch {
		case s.Wound != nil:
			wound = i >= n-*s.Wound
		case !wound && mass == 0 && t.Diameter > ThickestPlain:
			wound = true
			notes = append(notes, Note{i + 1, fmt.Sprintf("wound, as over %g mm thick", ThickestPlain)})
		}
		if core > 0 && !wound && core != t.Diameter {
			errs = append(errs, fmt.Errorf("string %d has a core of %g mm but is plain: give 0, or count it among the wound strings", i+1, core))
			continue
		}
		t.Mass = mass
		if wound {
			if t.Core = core; core == 0 {
				t.Core = CorePart * t.Diameter
				notes = append(notes, Note{i + 1, fmt.Sprintf("core %.2f mm, %g of its thickness", t.Core, CorePart)})
			}
			if mass == 0 && t.Core < t.Diameter {
				t.Mass = WoundMass(t.Diameter, t.Core, s.Winding.density())
				notes = append(notes, Note{i + 1, fmt.Sprintf("%.3g g a metre, one layer of round wire on its core", 1000*t.Mass)})
			}
		}
		if err := t.Check(); err != nil {
			errs = append(errs, fmt.Errorf("string %d: %w", i+1, err))
		}
		out[i] = t
	}
	if len(errs) > 0 {
		return nil, nil, errors.Join(errs...)
	}
	return out, notes, nil
}

func at(list []float64, i int) float64 {
	if i < len(list) {
		return list[i]
	}
	return 0
}

// WoundMass returns the mass per length in kg/m of a round steel core (mm) with
// one close layer of round wire of a density in kg/m³ over it, outside diameter
// in mm. Derived: the wire is w = (D − c)/2 thick; a turn is π(c + w) long and
// takes w of the string's length, so the winding weighs ρ·(π·w²/4)·π(c + w)/w =
// ρ·π²·w·(c + w)/4 a length, its slope left out.
func WoundMass(diameter, core, density float64) float64 {
	c, w := core/1000, (diameter-core)/2000
	return WireMass(core, SteelDensity) + density*math.Pi*math.Pi/4*w*(c+w)
}

// Row is what one string does on the instrument.
type Row struct {
	Number  int // 1 is the highest
	Length  float64
	String  String
	Tension float64 // N, by the textbook formula of a string without stiffness

	// Saddle is how far the saddle lies beyond the scale length so that fret 12 is
	// the octave, mm: with ends that turn with the string. Least and Most are the
	// same for hinged and for clamped ends.
	Saddle, Least, Most float64
	Worst               float64 // cents, the largest error of any fret with Saddle alone

	// NutShift and SaddleWithNut are the shifts where the nut may move, too, and
	// WorstWithNut is what remains, in cents.
	NutShift, SaddleWithNut, WorstWithNut float64
}

// Table estimates every string: lengths in mm, the highest string first, and how
// they run over the frets. u.Scale, u.Nut and u.Ends are set for each. An error
// names the string.
func Table(set []String, lengths []float64, u Setup) ([]Row, error) {
	rows := make([]Row, len(set))
	for i, s := range set {
		u.Scale = lengths[i]
		r := Row{Number: i + 1, Length: lengths[i], String: s, Tension: Tension(s.MassPerLength(), lengths[i], s.Pitch)}
		est := func(ends Ends, nut bool) (Estimate, error) {
			u.Ends, u.Nut = ends, nut
			return Compensate(s, u)
		}
		alone, err1 := est(Carried, false)
		least, err2 := est(Hinged, false)
		most, err3 := est(Clamped, false)
		both, err4 := est(Carried, true)
		for _, err := range []error{err1, err2, err3, err4} {
			if err != nil {
				return nil, fmt.Errorf("string %d: %w", i+1, err)
			}
		}
		r.Saddle, r.Least, r.Most, r.Worst = alone.Saddle, least.Saddle, most.Saddle, worst(alone.Cents)
		r.NutShift, r.SaddleWithNut, r.WorstWithNut = both.Nut, both.Saddle, worst(both.Cents)
		rows[i] = r
	}
	return rows, nil
}

func worst(cents []float64) float64 {
	w := 0.0
	for _, c := range cents {
		w = math.Max(w, math.Abs(c))
	}
	return w
}

// Head names the columns of the table of the strings: mm, g/m, Hz, N, pounds
// force and cents.
var Head = []string{"string", "pitch", "pitch_hz", "gauge", "core", "mass_g_per_m", "length", "tension_n", "tension_lbf",
	"saddle_behind", "saddle_least", "saddle_most", "worst_cents", "nut_forward", "saddle_with_nut", "worst_cents_with_nut"}

// Cells returns a row of the table as words under Head; num writes a number.
func (r Row) Cells(num func(float64) string) []string {
	s := r.String
	out := []string{strconv.Itoa(r.Number), PitchName(s.Pitch)}
	for _, v := range []float64{s.Pitch, s.Diameter, s.core(), 1000 * s.MassPerLength(), r.Length, r.Tension, r.Tension / NewtonsPerPoundForce,
		r.Saddle, r.Least, r.Most, r.Worst, r.NutShift, r.SaddleWithNut, r.WorstWithNut} {
		out = append(out, num(v))
	}
	return out
}
