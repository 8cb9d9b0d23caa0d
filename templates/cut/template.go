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
	Shape    geom.Region // the edge that the follower runs on, as drawn; of a free path, that path
	Blank    geom.Region // outline of the sheet; of a male template, its shape; of a free path none
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

// Free reports whether it is a path for the cutter's middle, not a template.
func (t Template) Free() bool { return t.Tool.Free() }

// Settled returns t with what does not belong to a free path taken off: there is
// no sheet, so it has no edge, no thickness and no maker.
func (t Template) Settled() Template {
	if t.Free() {
		t.Blank, t.Sheet, t.InsideRadius = nil, 0, 0
	}
	return t
}

// Extent returns the bounds of all that belongs to t: the sheet, or of a free
// path the part's edge with the path and the pins.
func (t Template) Extent() geom.Box {
	if !t.Free() {
		return t.Blank.Bounds()
	}
	b := t.Shape.Bounds().Union(t.For.Plan().Bounds())
	for _, p := range t.Pins {
		b = b.Union(geom.BoxOf(p.At).Grow(p.D))
	}
	return b
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
