package fretboard

import (
	"fmt"
	"math"
	"strings"
)

// Problem is one fault of a Spec. Field names the value as in Spec, in lower
// case with dots ("strings.nut"), so that a caller can point to a key or flag.
type Problem struct{ Field, Text string }

func (p Problem) Error() string { return p.Field + ": " + p.Text }

// Problems is every fault of a Spec that could be found at once, never empty
// when returned as an error.
type Problems []Problem

func (ps Problems) Error() string {
	s := make([]string, len(ps))
	for i, p := range ps {
		s[i] = p.Error()
	}
	return strings.Join(s, "\n")
}

func (ps *Problems) add(field, format string, a ...any) {
	*ps = append(*ps, Problem{field, fmt.Sprintf(format, a...)})
}

// within reports a value outside lo … hi, both allowed; NaN is outside.
func (ps *Problems) within(field string, v, lo, hi float64, cure string) bool {
	if v >= lo && v <= hi {
		return true
	}
	if cure != "" {
		cure = ": " + cure
	}
	ps.add(field, "%s mm given, allowed are %g to %g mm%s", decimals(v), lo, hi, cure)
	return false
}

// decimals writes a given number as briefly as it can.
func decimals(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.6g", v), ".0") }

// Limits. They stop slips of the pen (inches for millimetres, a point
// forgotten), not instruments: common practice runs from 300 to 900 mm of scale.
const (
	minScale, maxScale = 100, 2000
	minFrets, maxFrets = 1, 200
	minCount, maxCount = 1, 14
	maxSpread          = 400
	maxMargin          = 100
	maxKerf            = 3
	maxDepth           = 15
	maxRadius          = 5000
	minRadius          = 30
	maxSlant           = 45 // degrees off square; built fans stay well under 30 (common practice)
)

// check returns the faults that show before anything is laid out.
func (s Spec) check() Problems {
	var ps Problems
	s.checkScale(&ps)
	if s.Frets < minFrets || s.Frets > maxFrets {
		ps.add("frets", "%d given, allowed are %d to %d", s.Frets, minFrets, maxFrets)
	}
	s.checkStrings(&ps)
	s.checkEdges(&ps)
	ps.within("nut.width", s.Nut.Width, 0, 20, "width of the slot for the nut")
	ps.within("nut.behind", s.Nut.Behind, 0, 50, "from the zero fret to the nut")
	if s.Nut.Behind > 0 && !s.ZeroFret {
		ps.add("nut.behind", "%s mm given without a zero fret: the strings would leave the nut there, and every fret would be wrong; ask for the zero fret or leave this out", decimals(s.Nut.Behind))
	}
	ps.within("nut.shelf", s.Nut.Shelf, 0, 200, "board left behind the nut")
	ps.within("end.overhang", s.End.Overhang, 0, 200, "board past the last slot")
	if s.End.Radius != 0 {
		ps.within("end.radius", s.End.Radius, 1, maxRadius, "0 leaves the end straight")
	}
	ps.within("slot.kerf", s.Slot.Kerf, 0.1, maxKerf, "the width of slot that the saw makes")
	ps.within("slot.depth", s.Slot.Depth, 0, maxDepth, "")
	ps.within("slot.binding", s.Slot.Binding, 0, 20, "how far inside the edge the slot stops")
	s.Radius.check(&ps)
	s.checkParts(&ps)
	return ps
}

func (s Spec) checkScale(ps *Problems) {
	if s.Fan == nil {
		ps.within("scale", s.Scale, minScale, maxScale, "nut edge to bridge line")
		return
	}
	f := *s.Fan
	b := ps.within("fan.bass", f.Bass, minScale, maxScale, "nut to saddle along the bass string")
	t := ps.within("fan.treble", f.Treble, minScale, maxScale, "nut to saddle along the treble string")
	if b && t && f.Treble > f.Bass {
		ps.add("fan.treble", "treble scale %s mm is longer than bass scale %s mm: the bass string must be the longer; exchange the two", decimals(f.Treble), decimals(f.Bass))
	}
	if !(math.Abs(f.Square) <= 2*maxFrets) {
		ps.add("fan.square", "%s given: name the fret that is square to the centre line, %d to %d; 6.5 or −2 are allowed", decimals(f.Square), -2*maxFrets, 2*maxFrets)
	}
	if s.Strings.Count == 1 {
		ps.add("strings.count", "1 string cannot have two scales: give a single scale")
	}
}

func (s Spec) checkStrings(ps *Problems) {
	c := s.Strings
	if c.Count < minCount || c.Count > maxCount {
		ps.add("strings.count", "%d given, allowed are %d to %d", c.Count, minCount, maxCount)
		return
	}
	if c.Count == 1 {
		if c.Nut != 0 || c.Bridge != 0 {
			ps.add("strings.nut", "one string has no spread: leave both spreads out")
		}
	} else {
		ps.within("strings.nut", c.Nut, 1, maxSpread, "between the middles of the outer strings at the nut")
		ps.within("strings.bridge", c.Bridge, 1, maxSpread, "between the middles of the outer strings at the bridge")
	}
	if len(c.Gauges) != 0 && len(c.Gauges) != c.Count {
		ps.add("strings.gauges", "%d gauges for %d strings: give one for each, the highest string first", len(c.Gauges), c.Count)
		return
	}
	for i, g := range c.Gauges {
		if !(g > 0 && g <= 10) {
			ps.add("strings.gauges", "string %d is %s mm thick: allowed are above 0 and up to 10 mm", i+1, decimals(g))
			return
		}
	}
	if c.EqualGaps && c.Count > 1 {
		if len(c.Gauges) == 0 {
			ps.add("strings.gauges", "equal gaps between the strings need every string's gauge")
			return
		}
		for _, at := range []struct {
			field  string
			spread float64
		}{{"strings.nut", c.Nut}, {"strings.bridge", c.Bridge}} {
			if air := c.air(at.spread); air <= 0 {
				ps.add(at.field, "%s mm holds the strings' own thickness and no gap between them (short by %.2f mm): widen the spread", decimals(at.spread), -air)
			}
		}
	}
}

func (s Spec) checkEdges(ps *Problems) {
	e := s.Edges
	if !e.ByWidths() {
		for _, m := range []struct {
			field string
			v     float64
		}{{"edges.bassnut", e.BassNut}, {"edges.treblenut", e.TrebleNut}, {"edges.bassend", e.BassEnd}, {"edges.trebleend", e.TrebleEnd}} {
			ps.within(m.field, m.v, 0, maxMargin, "from the middle of the outer string to the board's edge; the spread must not be wider than the board")
		}
		if s.Strings.Count == 1 && (e.BassNut == 0 || e.TrebleNut == 0 || e.BassEnd == 0 || e.TrebleEnd == 0) {
			ps.add("edges.bassnut", "a board for one string needs margins above 0: the board would have no width")
		}
		return
	}
	if ps.within("edges.nutwidth", e.NutWidth, 1, maxSpread+2*maxMargin, "width of the board at the nut") && s.Strings.Nut >= e.NutWidth {
		ps.add("strings.nut", "spread %s mm is wider than the board at the nut, %s mm: narrow the spread or widen the board", decimals(s.Strings.Nut), decimals(e.NutWidth))
	}
	ps.within("edges.endwidth", e.EndWidth, 1, maxSpread+2*maxMargin, "width of the board at its end")
}

func (s Spec) checkParts(ps *Problems) {
	for i, p := range s.Partials {
		field := fmt.Sprintf("partials[%d]", i)
		if !(p.Fret > 0 && p.Fret <= maxFrets) {
			ps.add(field, "fret %s: a partial fret lies above 0 and up to %d", decimals(p.Fret), maxFrets)
		}
		if p.From < 1 || p.To < p.From || p.To > s.Strings.Count {
			ps.add(field, "strings %d to %d: name two of 1 to %d, the lower number first", p.From, p.To, s.Strings.Count)
		}
	}
	x := s.Extra
	if x.Frets < 0 || s.Frets+x.Frets > maxFrets {
		ps.add("extra.frets", "%d extra frets after %d: allowed are 0 to %d in all", x.Frets, s.Frets, maxFrets)
	}
	if x.Frets > 0 && (x.Strings < 1 || x.Strings >= s.Strings.Count) {
		ps.add("extra.strings", "%d given: extra frets serve 1 to %d of %d strings; for all of them ask for more frets", x.Strings, s.Strings.Count-1, s.Strings.Count)
	}
	if x.Frets > 0 && s.End.Radius != 0 {
		ps.add("end.radius", "a curved end and extra frets on one side do not go together: leave one out")
	}
}
