// Package cut makes templates for a part and simulates what a follower and a
// cutter leave from them.
//
//	Inside, Outside    what the router really cuts from a template
//	OpeningFor, MaleFor   the template that makes a part
//	Template, Prove    a template with its pins and the proof of its cut
//	Plan               the passes of a cut
//	Sweep              where the router's base goes, and what carries it
//	DrillWaste         the holes that take the waste out first
//
// A free path has no template. The path of the cutter's middle then stands where
// a template's edge does, with a follower of radius 0: opening = part ⊖ r,
// cut = path ⊕ r, and round a part the other way about. All that is proved of
// templates is proved of it by the same operations.
package cut

import (
	"routwright/geom"
	"routwright/templates/tool"
)

// Inside returns the recess that t cuts inside the opening: the middle of the
// follower can go wherever its disc fits, opening ⊖ R, and the cutter clears its
// own disc round every such place, ⊕ r.
func Inside(c *geom.Calc, opening geom.Region, t tool.Tool) geom.Region {
	return c.RollInside(opening, t.GuideRadius(), t.CutRadius())
}

// Outside returns the part that t leaves when it runs round a male template:
// (male ⊕ R) ⊖ r.
func Outside(c *geom.Calc, male geom.Region, t tool.Tool) geom.Region {
	return c.RollOutside(male, t.GuideRadius(), t.CutRadius())
}

// OpeningFor returns the opening from which t cuts as much of part as it can
// reach and, where no corner forbids it, nothing else: (part ⊖ r) ⊕ R. Prove
// tells what is left and what is lost.
func OpeningFor(c *geom.Calc, part geom.Region, t tool.Tool) geom.Region {
	return c.RollInside(part, t.CutRadius(), t.GuideRadius())
}

// MaleFor returns the male template from which t leaves part: (part ⊕ r) ⊖ R.
func MaleFor(c *geom.Calc, part geom.Region, t tool.Tool) geom.Region {
	return c.RollOutside(part, t.CutRadius(), t.GuideRadius())
}

// AsMade returns the shape that the template's maker gets when their own tool
// cannot make an inside corner tighter than r: corners of an opening are opened
// by r, inside corners of a male template filled with r.
func AsMade(c *geom.Calc, shape geom.Region, male bool, r float64) geom.Region {
	if r <= 0 {
		return shape
	}
	if male {
		return c.Close(shape, r)
	}
	return c.Open(shape, r)
}
