// Package steps puts the work in order: what each step needs, what it makes and
// what it takes away, so that nothing is destroyed that a later step needs.
//
//	Step    one operation at the bench
//	Thing   what steps need, make and take away
//	Order   the steps in an order that works, or why there is none
//	Of      the steps of a job
package steps

import (
	"routwright/render"
	"routwright/templates/part"
)

// Thing is a datum, a state of the stock or a piece, in the words that are
// printed: "the locating pins", "the flat front".
type Thing string

// Step is one operation at the bench.
type Step struct {
	ID    string // name for the builder to refer to: a–z, 0–9, -
	Title string
	Stage Stage

	Needs   []Thing
	Makes   []Thing
	Removes []Thing

	Face     string // "front", "back", "either face", "edge", "bench": where the work is done
	Datum    string // what it is measured from
	Tool     string // bit, drill, saw
	Depth    string // how deep, from where
	Do       []string
	Caution  string
	Template string // id of the template, empty without one
	// Sheets are the ids of the sheets that lie on the bench, the template's own aside;
	// one that the set does not hold is passed over.
	Sheets []string
	Jigs   []string // ids of the sheets of the jigs that it uses
	Parts  []string
	Facts  []render.Field // passes, direction, speed and whatever else has a name
	Tables []render.Table
}

// Stage is a chapter of the work.
type Stage uint8

const (
	Prepare Stage = iota
	Stabilise
	Joint
	FrontWork
	Drilling
	BackWork
	Shape
	NeckWork
	Assembly
)

// String returns the title of the chapter.
func (s Stage) String() string {
	return [...]string{"Slab, templates and jigs", "Crack and keys", "Neck joint", "Cuts from the front", "Drilling",
		"Cuts from the back", "Outline, edge and contours", "Neck and fretboard", "Assembly and finish"}[s]
}

// on returns the words for the face of a part.
func on(f part.Face) string { return f.String() }
