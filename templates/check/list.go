package check

import (
	"fmt"
	"strings"

	"routwright/templates/design"
)

// NamedLimit is one limit of a rule in words: "under 4 mm".
type NamedLimit struct {
	Level Level
	Words string
}

// Named returns the limits of a rule, the worst first.
func (r Rule) Named() []NamedLimit {
	word := "under"
	if r.Over {
		word = "over"
	}
	var out []NamedLimit
	for _, l := range []struct {
		level Level
		v     float64
	}{{Stop, r.Stop}, {Warn, r.Warn}, {Note, r.Note}} {
		if l.v != 0 {
			out = append(out, NamedLimit{l.level, fmt.Sprintf("%s %s %s", word, design.MM(l.v), r.UnitName())})
		}
	}
	return out
}

// List returns the rules as a table for the documentation: id, what it tests, its
// limits, and whether a design may allow other ones.
func List() string {
	var b strings.Builder
	b.WriteString("| check | what it tests | limits | `[[allow]]` |\n|---|---|---|---|\n")
	for _, r := range rules {
		var limits []string
		for _, l := range r.Named() {
			limits = append(limits, fmt.Sprintf("%s %s", l.Level, l.Words))
		}
		may := "yes"
		switch {
		case r.Safety != "":
			may = "no: a safety stop"
		case r.Allowable() != "":
			may = "no"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", r.ID, r.Tests, strings.Join(limits, "; "), may)
	}
	return b.String()
}
