// Package toml reads TOML 1.0 (toml.io/en/v1.0.0) into a tree of values that
// remember where they stand, and reports every error of a file in one run.
//
//	Parse       a whole file → Table, errors
//	Table       entries in the order of the file, each with the place of its key
//	Value       a string, number, boolean, date, array or table with its place
//	Error       what is wrong, what is allowed, the cure
//
// It knows nothing of guitars. After an error it goes on with the next line, so
// that one run tells all; what could not be read is a value of kind Broken,
// which a reader passes over in silence.
package toml

// Pos is a place in the file. Line and Col count from 1; Col counts characters,
// a tab as one.
type Pos struct{ Line, Col int }

// Error is one fault of the file.
type Error struct {
	At      Pos
	Key     string // key or table that it concerns; may be empty
	Given   string
	Allowed string
	Cure    string
}

// Error returns the three parts in one line.
func (e Error) Error() string {
	return e.Given + "; " + e.Allowed + "; " + e.Cure
}

// maxErrors ends the reading of a file that is not TOML at all.
const maxErrors = 50

// maxDepth is how deep arrays and inline tables may lie in one another: the
// reader is recursive. No design comes near it.
const maxDepth = 64
