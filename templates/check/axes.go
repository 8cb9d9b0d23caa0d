package check

import (
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/part"
)

// findingOn is finding for places of a template: those of a loose one, covers
// aside, lie on its own axes.
func (r Rule) findingOn(t cut.Template, l Level, got, want float64, message, cure string, at design.Pos,
	places ...Place) Finding {
	f := r.finding(l, got, want, message, cure, at, places...)
	if t.Loose && t.For.Kind != part.Cover {
		f.Template = t.ID
	}
	return f
}
