package ingest

import (
	"errors"
	"fmt"
)

// Pos is a place in a file. Line and Col count from 1; 0 means not known.
type Pos struct {
	File      string
	Line, Col int
}

// String returns file:line:col without the parts that are not known.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Error is what is wrong with a drawing, and where.
type Error struct {
	At  Pos
	Msg string // what was found, what is allowed, the cure
	Is  error  // ErrRuler, or nil
}

// Error returns "file:line:col: message".
func (e *Error) Error() string { return e.At.String() + ": " + e.Msg }

// Unwrap returns Is, for errors.Is.
func (e *Error) Unwrap() error { return e.Is }

// ErrRuler is within the error of CSV for a table of half widths: HalfWidths
// reads those.
var ErrRuler = errors.New("a table of half widths")

func (p Pos) errorf(format string, args ...any) error {
	return &Error{At: p, Msg: fmt.Sprintf(format, args...)}
}
