package design

import "fmt"

// Pos is a place in the design file. The zero Pos means that the file does not
// say it.
type Pos struct {
	File      string
	Line, Col int // from 1
}

// String returns file:line:column.
func (p Pos) String() string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col) }

// IsZero reports whether p is nowhere.
func (p Pos) IsZero() bool { return p == Pos{} }

// before reports whether p stands before q in one file.
func (p Pos) before(q Pos) bool { return p.Line < q.Line || p.Line == q.Line && p.Col < q.Col }

// Origin is how a value came about.
type Origin uint8

const (
	Missing Origin = iota // nobody said it, and nothing was assumed
	Given                 // written in the design file
	Default               // assumed; listed for the builder to confirm
	Solved                // computed from other values
)

// Val is a value that remembers where it came from.
type Val[T any] struct {
	V   T
	At  Pos // of the value in the file; zero unless Given
	How Origin
}

// Set reports whether v has a value of any origin.
func (v Val[T]) Set() bool { return v.How != Missing }

// Or returns v, or the given default when it is missing.
func (v Val[T]) Or(d T) Val[T] {
	if v.Set() {
		return v
	}
	return Val[T]{V: d, How: Default}
}
