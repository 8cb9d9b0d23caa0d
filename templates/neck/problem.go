package neck

import (
	"fmt"
	"strings"

	"routwright/templates/design"
)

// Problem is one measure that no neck can be made from.
type Problem struct {
	Field   string // "head.length"
	Given   string
	Allowed string
	Cure    string
}

// Problems is every one of them, in the order they were found. It is an error.
type Problems []Problem

// Error lists all of them, one a line.
func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s: %s; allowed: %s; %s", p.Field, p.Given, p.Allowed, p.Cure)
	}
	return b.String()
}

func (ps *Problems) add(field, given, allowed, cure string) {
	*ps = append(*ps, Problem{field, given, allowed, cure})
}

// mm prints a length for people.
func mm(v float64) string { return design.MM(v) + " mm" }
