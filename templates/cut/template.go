package cut

import (
	"routwright/geom"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// Pin is a round locating pin, bored square through template and blank.
type Pin struct {
	Name string
	At   geom.Point // seen from the front
	D    float64    // diameter, mm
}

// Template is a sheet with one opening to be followed from the inside, or a
// male template to be followed round its outside. Seen from the front.
type Template struct {
	ID, Name string
	For      part.Part   // the part it makes
	Male     bool        // followed round the outside
	Shape    geom.Region // the edge that the follower runs on, as drawn
	Blank    geom.Region // outline of the sheet; of a male template, its shape
	Pins     []Pin
	Sheet    float64 // thickness, mm
	// InsideRadius is the smallest inside radius that its maker can cut. The
	// proof starts from the shape that this leaves.
	InsideRadius float64
	Tool         tool.Tool
	Hand         []HandWork // what is finished by hand after the cut
	// Loose is true for a template that is set to lines on the work instead of
	// the pins, as the shared key template is.
	Loose bool
}

// Pinned reports whether the template sits on the two shared pins.
func (t Template) Pinned() bool { return !t.Male && !t.Loose }

// HandWork is a place that the router cannot make and that is declared to be
// worked by hand.
type HandWork struct {
	Words string // "square the corner with a chisel"
	Zone  geom.Region
}

// Range is the smallest, largest and mean of a measure in mm.
type Range struct {
	Min, Max, Mean float64
	AtMin, AtMax   geom.Point
}
