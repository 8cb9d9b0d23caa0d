// Package check holds the rules of the trade: each tests the solved job, says
// what it measured, what it wants, where, and what to do about it.
//
//	Rule      one rule, with its thresholds
//	Rules     all of them
//	Run       the findings of a job, worst first
//	Verify    what is wrong with the [[allow]] tables of a design
package check

import (
	"slices"
	"sort"
	"sync"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/limit"
)

// Level is how bad a finding is.
type Level uint8

const (
	Note Level = iota // information
	Warn              // think again
	Stop              // the cut would fail or be unsafe
)

// String returns "note", "warn" or "stop".
func (l Level) String() string { return [...]string{"note", "warn", "stop"}[l] }

// Place is where a finding lies, seen from the front.
type Place struct {
	At   geom.Point
	What string // "nearest point of the key"
}

// Finding is one thing that a rule has to say.
type Finding struct {
	Check   string // id of the rule
	Level   Level
	Message string // whole sentence with the numbers
	Got     float64
	Want    float64
	Places  []Place
	Cure    string
	At      design.Pos // of the part in the design file
	// Allowed is the builder's reason for accepting the fault, "" where none is
	// given: the finding is then a note.
	Allowed string
	// Template is the id of the loose template on whose own axes the places lie;
	// "" for places on the body.
	Template string
}

// Limits are the thresholds of a rule. For rules that bound from above they are
// read the other way round. mm unless the rule says otherwise.
type Limits = limit.Limits

// below returns the level of a measure that must not be small, and the limit it
// fell short of; ok is false when all is well.
func (r Rule) below(v float64) (Level, float64, bool) {
	switch {
	case v < r.Stop:
		return Stop, r.Stop, true
	case v < r.Warn:
		return Warn, r.Warn, true
	case v < r.Note:
		return Note, r.Note, true
	}
	return 0, 0, false
}

// Rule is one rule of the trade.
type Rule struct {
	ID    string // in words: a–z and -
	Tests string // what it tests, a whole sentence
	Limits
	Over bool   // the limits bound from above: more is worse
	Unit string // of the limits; "" is mm
	// Safety says why nobody may allow what it stops; "" where they may.
	Safety string
	// Fixed says why its limits cannot be changed; "" where they can.
	Fixed string
	// Axes is the id of the loose template on whose axes all its places lie; "" for
	// the body's, and where each finding says it.
	Axes string
	Find func(r Rule, j *job.Job) []Finding
}

// Rules returns every rule, in the order of the work.
func Rules() []Rule { return rules }

// Run returns all findings of a job, worst first, then by rule and place. What
// the design allows is taken into account.
func Run(j *job.Job) []Finding {
	found := make([][]Finding, len(rules)) // rules only look at the job: all at once
	var wg sync.WaitGroup
	for i, r := range rules {
		wg.Go(func() { found[i] = r.find(j) })
	}
	wg.Wait()
	all := slices.Concat(found...)
	sort.SliceStable(all, func(a, b int) bool { return all[a].Level > all[b].Level })
	return all
}

// Worst returns the highest level of the findings; ok is false without any.
func Worst(fs []Finding) (worst Level, ok bool) {
	for _, f := range fs {
		if !ok || f.Level > worst {
			worst, ok = f.Level, true
		}
	}
	return worst, ok
}

// finding starts a finding of r.
func (r Rule) finding(l Level, got, want float64, message, cure string, at design.Pos, places ...Place) Finding {
	return Finding{Template: r.Axes, Check: r.ID, Level: l, Message: message, Got: got, Want: want, Cure: cure, At: at, Places: places}
}
