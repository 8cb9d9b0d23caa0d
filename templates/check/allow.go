package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
)

// Allowable returns "" when the builder may set another limit for r, else the
// reason why not.
func (r Rule) Allowable() string {
	switch {
	case r.Safety != "":
		return "a safety stop: " + r.Safety
	case r.Fixed != "":
		return r.Fixed
	case r.Limits == (Limits{}):
		return "it has no limit to change"
	}
	return ""
}

// UnitName returns the unit of the rule's limits.
func (r Rule) UnitName() string {
	if r.Unit == "" {
		return "mm"
	}
	return r.Unit
}

// Verify returns what is wrong with the [[allow]] tables of a design, as
// design.Errors: a check that is not there, one whose limit nobody may change, a
// limit that allows everything, two tables for one check.
func Verify(d *design.Design) error {
	var errs design.Errors
	ids := make([]string, len(rules))
	known := map[string]Rule{}
	for i, r := range rules {
		ids[i], known[r.ID] = r.ID, r
	}
	first := map[string]design.Pos{}
	for i, a := range d.Allow {
		k := fmt.Sprintf("allow %d", i+1)
		id := a.Check.V
		r, ok := known[id]
		if !ok {
			cure := "routwright check --explain all lists the checks"
			if near := design.Nearest(id, ids); near != "" {
				cure = fmt.Sprintf("did you mean %q?", near)
			}
			errs.Add(design.Errorf(a.Check.At, k+".check", strconv.Quote(id), "the id of a check", cure))
			continue
		}
		if why := r.Allowable(); why != "" {
			errs.Add(design.Errorf(a.Check.At, k+".check", fmt.Sprintf("%q: %s", id, why),
				"a check whose limit may be changed", "mend what it finds: "+lower(r.Tests)))
		}
		if at, twice := first[id]; twice {
			errs.Add(design.Errorf(a.Check.At, k+".check",
				fmt.Sprintf("%q a second time, first on line %d", id, at.Line), "each check once",
				"delete one of the two"))
		}
		if !r.Over && a.Limit.V <= 0 {
			errs.Add(design.Errorf(a.Limit.At, k+".limit", design.MM(a.Limit.V), "a limit over 0 "+r.UnitName(),
				"give the least that you accept"))
		}
		first[id] = a.Check.At
	}
	return errs.Err()
}

// lower returns a sentence as it stands after a colon, without its full stop.
func lower(s string) string {
	s = strings.TrimSuffix(s, ".")
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// find runs the rule on a job and takes into account what the design allows. A
// limit of the builder replaces those of the rule: a measure that keeps to it is
// noted with the reason, where the rule alone would have said more; one that
// does not keep to it is found, even where the rule alone would have been
// content.
func (r Rule) find(j *job.Job) []Finding {
	for _, a := range j.Design.Allow {
		if a.Check.V != r.ID || r.Allowable() != "" {
			continue
		}
		asked := r.stricter(a.Limit.V)
		found := asked.Find(asked, j)
		for i := range found {
			f := &found[i]
			short := a.Limit.V - f.Got
			if r.Over {
				short = -short
			}
			if short <= geom.Coincident {
				f.Level, f.Allowed = Note, a.Reason.V
				f.Message += fmt.Sprintf("; allowed to %s %s: %s", design.MM(a.Limit.V), r.UnitName(), a.Reason.V)
			}
		}
		return found
	}
	return r.Find(r, j)
}

// stricter returns r with its mildest limit moved to the builder's, where that
// asks for more.
func (r Rule) stricter(limit float64) Rule {
	mildest := &r.Stop
	if r.Note > 0 {
		mildest = &r.Note
	} else if r.Warn > 0 {
		mildest = &r.Warn
	}
	if r.Over {
		*mildest = math.Min(*mildest, limit)
	} else {
		*mildest = math.Max(*mildest, limit)
	}
	return r
}
