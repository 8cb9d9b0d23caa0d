package job

import (
	"fmt"

	"routwright/templates/design"
	"routwright/templates/strings"
)

// A set of six as many shops stock it, and how it is tuned: common practice,
// used only where the design names neither gauges nor pitches.
var (
	usualGauges  = []design.Length{0.25, 0.33, 0.43, 0.66, 0.91, 1.17}
	usualPitches = []string{"E4", "B3", "G3", "D3", "A2", "E2"}
)

// strings solves tension and compensation of every string. Without gauges or
// pitches it needs six strings, whose usual set it assumes; other instruments
// have no usual one and are left without.
func (s *solver) strings() {
	if s.Board == nil {
		return
	}
	st, n := s.d.Strings, s.Board.Spec.Strings.Count
	at := func(v design.Val[[]design.Length]) []float64 {
		var out []float64
		for _, l := range v.V {
			out = append(out, float64(l))
		}
		return out
	}
	set := strings.Set{Diameters: at(st.Gauges), Cores: at(st.Cores), Winding: strings.Winding(st.Winding.V)}
	for _, p := range st.Pitches.V {
		set.Pitches = append(set.Pitches, float64(p))
	}
	for _, g := range st.Masses.V {
		set.Masses = append(set.Masses, g/1000)
	}
	if st.Wound.Set() {
		set.Wound = &st.Wound.V
	}
	if n == len(usualGauges) {
		if !st.Gauges.Set() {
			for _, g := range usualGauges {
				set.Diameters = append(set.Diameters, float64(g))
			}
			s.assume("strings.gauges", fmt.Sprintf("%g mm", set.Diameters), "a usual set of six: give your own")
		}
		if !st.Pitches.Set() {
			for _, p := range usualPitches {
				hz, _ := strings.ParsePitch(p)
				set.Pitches = append(set.Pitches, hz)
			}
			s.assume("strings.pitches", fmt.Sprint(usualPitches), "the usual tuning of six strings")
		}
	}
	if len(set.Diameters) == 0 || len(set.Pitches) == 0 {
		return // nothing to tell of the strings, and no usual set
	}
	all, notes, err := set.Strings()
	if err != nil {
		s.fail(s.stringsAt(), "strings.gauges", err.Error(), "strings that can be wound and tuned", "measure the strings again")
		return
	}
	for _, o := range notes {
		s.assume("strings.gauges", fmt.Sprintf("string %d: %s", o.String, o.Text), "give strings.wound, cores or masses")
	}
	u := strings.Setup{Frets: max(s.Board.Spec.Frets, 12)}
	if s.Neck != nil && s.Neck.Action > 0 { // solved with the neck
		u.AtNut, u.Action12 = s.Neck.Nut, s.Neck.Action
	} else {
		u.AtNut = s.length(st.Action.Nut, "strings.action.nut", defaultNutAction, "0.3 to 0.5 over the plane of the frets")
		u.Action12 = s.length(st.Action.Twelfth, "strings.action.fret_12", defaultAction, "1.5 to 2")
	}
	rows, err := strings.Table(all, s.Board.Lengths(), u)
	if err != nil {
		s.fail(s.stringsAt(), "strings", err.Error(), "strings that hold their pitch on this scale", "check gauges, pitches and action")
		return
	}
	s.Strings = rows
	for i := len(rows) - 1; i >= 0; i-- {
		s.Compensation = append(s.Compensation, rows[i].Saddle)
	}
	if s.d.Bridge.Present { // told with the bridge, whose saddles take it
		return
	}
	s.solved("compensation", fmt.Sprintf("%s mm bass, %s mm treble", design.MM(rows[n-1].Saddle), design.MM(rows[0].Saddle)), "an estimate from stiffness and action: leave the saddles room to move")
}

// stringsAt returns the place that a fault of the strings is told at.
func (s *solver) stringsAt() design.Pos {
	st := s.d.Strings
	for _, at := range []design.Pos{st.Gauges.At, st.Pitches.At, st.At} {
		if !at.IsZero() {
			return at
		}
	}
	return s.d.Board.At
}

// listsFit reports every list whose length is not the number of strings.
func (s *solver) listsFit(n int) bool {
	st, ok := s.d.Strings, true
	for _, l := range []struct {
		key string
		at  design.Pos
		set bool
		len int
	}{
		{"strings.gauges", st.Gauges.At, st.Gauges.Set(), len(st.Gauges.V)},
		{"strings.pitches", st.Pitches.At, st.Pitches.Set(), len(st.Pitches.V)},
		{"strings.cores", st.Cores.At, st.Cores.Set(), len(st.Cores.V)},
		{"strings.masses", st.Masses.At, st.Masses.Set(), len(st.Masses.V)},
	} {
		if l.set && l.len != n {
			s.fail(l.at, l.key, fmt.Sprintf("%d values for %d strings", l.len, n), fmt.Sprintf("%d values", n), "give one for each string, the highest string first")
			ok = false
		}
	}
	if w := st.Wound; w.Set() && w.V > n {
		s.fail(w.At, "strings.wound", fmt.Sprintf("%d of %d strings", w.V, n), fmt.Sprintf("0 to %d", n), "count the wound strings")
		ok = false
	}
	return ok
}
