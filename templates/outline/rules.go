package outline

import "fmt"

// rule says how one measure of a body limits another: low plus by is at most
// high. Measures that a family does not have, it does not bind.
type rule struct {
	low, high string
	by        float64
	doc       string
}

// rules hold for every family that has both measures. Their distances keep the
// curves fair over the whole range of every measure; they are our own choice.
var rules = []rule{
	{"waist", "upper", 24, "the waist is at least 24 mm narrower than the upper bout"},
	{"waist", "lower", 40, "the waist is at least 40 mm narrower than the lower bout"},
	{"lower_at", "waist_at", 80, "the waist lies at least 80 mm nearer the neck than the lower bout"},
	{"waist_at", "upper_at", 60, "the upper bout lies at least 60 mm nearer the neck than the waist"},
	{"upper_at", "neck_at", 20, "the body ends at the neck at least 20 mm beyond the upper bout"},
	{"neck_at", "upper_at", -110, "the body ends at the neck at most 110 mm beyond the upper bout"},
	{"upper", "lower", -20, "the upper bout is at most 20 mm wider than the lower bout"},
}

// Rules returns, as sentences, what must hold between measures of f.
func (f Family) Rules() []string {
	has := map[string]bool{}
	for _, m := range f.Measures {
		has[m.Key] = true
	}
	var out []string
	for _, r := range rules {
		if has[r.low] && has[r.high] {
			out = append(out, r.doc)
		}
	}
	for _, h := range horns {
		if has[h.horn] && has[h.cut] {
			out = append(out, h.doc())
		}
	}
	return out
}

// hornRule asks for room between a horn's tip and the bottom of its cutaway, and
// between the tip and the widest place of the upper bout.
type hornRule struct{ horn, cut string }

var horns = []hornRule{{"horn", "cutaway"}, {"bass_horn", "bass_cutaway"}, {"treble_horn", "treble_cutaway"}}

// Distances in mm along the centre line: less is no horn, more is a finger that
// breaks off. Our own choice.
const (
	hornLeast, hornMost = 36, 110
	tipLeast, tipMost   = 50, 150
)

func (h hornRule) doc() string {
	return fmt.Sprintf("%s + %s is %d to %d mm, and the tip lies %d to %d mm beyond the widest place of the upper bout", h.horn, h.cut, hornLeast, hornMost, tipLeast, tipMost)
}

// related returns the problems between measures.
func related(m map[string]float64) problems {
	var bad problems
	for _, r := range rules {
		low, oka := m[r.low]
		high, okb := m[r.high]
		if oka && okb && low > high-r.by {
			bad = append(bad, Problem{r.low, fmt.Sprintf("%g mm, with %s = %g mm", low, r.high, high), fmt.Sprintf("at most %g mm", high-r.by), r.doc + "; change either"})
		}
	}
	for _, h := range horns {
		horn, oka := m[h.horn]
		cut, okb := m[h.cut]
		if !oka || !okb {
			continue
		}
		if s := horn + cut; s < hornLeast || s > hornMost {
			bad = append(bad, Problem{h.horn, fmt.Sprintf("%g mm, with %s = %g mm", horn, h.cut, cut), fmt.Sprintf("%g to %g mm", hornLeast-cut, hornMost-cut), "change either, so that the horn stands out enough and not too far"})
		}
		widest := m["upper_at"] + m["offset"]/2*h.sign()
		if s := m["neck_at"] + horn - widest; s < tipLeast || s > tipMost {
			bad = append(bad, Problem{h.horn, fmt.Sprintf("%g mm, with neck_at = %g mm and the upper bout widest at %g mm", horn, m["neck_at"], widest), fmt.Sprintf("%g to %g mm", tipLeast+widest-m["neck_at"], tipMost+widest-m["neck_at"]), "change it, or upper_at or neck_at"})
		}
	}
	return bad
}

// sign returns +1 for the bass side, which an offset moves towards the neck, −1
// for the treble side, 0 for both.
func (h hornRule) sign() float64 {
	switch h.horn {
	case "bass_horn":
		return 1
	case "treble_horn":
		return -1
	}
	return 0
}
