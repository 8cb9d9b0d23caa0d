package design

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"
)

// Error is one fault of a design, told to the person who wrote it: the place,
// the key, what was given, what is allowed, the cure. Any part may be empty.
type Error struct {
	Pos     Pos
	Key     string
	Given   string
	Allowed string
	Cure    string
	Err     error // cause, when another package found it
}

// Errorf returns an error at a place of the design file, so that solving tells
// its errors as reading does.
func Errorf(at Pos, key, given, allowed, cure string) Error {
	return Error{Pos: at, Key: key, Given: given, Allowed: allowed, Cure: cure}
}

// Error returns file:line:column: key: given; allowed; cure. Parts that are
// missing are left out.
func (e Error) Error() string {
	var b strings.Builder
	switch {
	case e.Pos.Line > 0:
		b.WriteString(e.Pos.String() + ": ")
	case e.Pos.File != "":
		b.WriteString(e.Pos.File + ": ")
	}
	if e.Key != "" {
		b.WriteString(e.Key + ": ")
	}
	parts := make([]string, 0, 4)
	for _, p := range []string{e.Given, allowedWords(e.Allowed), e.Cure} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	if len(parts) == 0 && e.Err != nil {
		parts = append(parts, e.Err.Error())
	}
	b.WriteString(strings.Join(parts, "; "))
	return b.String()
}

func allowedWords(s string) string {
	if s == "" {
		return ""
	}
	return "allowed: " + s
}

// Unwrap returns the cause, if another package found the error.
func (e Error) Unwrap() error { return e.Err }

// Errors is every fault found in one run. The zero value is ready to use.
type Errors []Error

// Add takes in an error: one of ours, several, or any other. Nil is passed over.
func (es *Errors) Add(err error) {
	if err == nil {
		return
	}
	var many Errors
	var one Error
	switch {
	case errors.As(err, &many):
		*es = append(*es, many...)
	case errors.As(err, &one):
		*es = append(*es, one)
	default:
		*es = append(*es, Error{Err: err})
	}
}

// Err returns the errors sorted by place, each once, or nil when there are none.
// Errors without a place come last.
func (es Errors) Err() error {
	if len(es) == 0 {
		return nil
	}
	sorted := slices.Clone(es)
	slices.SortStableFunc(sorted, func(a, b Error) int {
		if an, bn := a.Pos.Line == 0, b.Pos.Line == 0; an != bn {
			if an {
				return 1
			}
			return -1
		}
		return cmp.Or(strings.Compare(a.Pos.File, b.Pos.File), cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Col, b.Pos.Col))
	})
	return slices.CompactFunc(sorted, func(a, b Error) bool { return a.Error() == b.Error() })
}

// maxShown is how many errors a person is shown at once.
const maxShown = 50

// Error returns one error a line.
func (es Errors) Error() string {
	var lines []string
	for i, e := range es {
		if i == maxShown {
			lines = append(lines, "… and "+strconv.Itoa(len(es)-maxShown)+" more errors")
			break
		}
		lines = append(lines, e.Error())
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns each error, for errors.Is and errors.As.
func (es Errors) Unwrap() []error {
	out := make([]error, len(es))
	for i, e := range es {
		out[i] = e
	}
	return out
}
