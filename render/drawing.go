package render

import "routwright/geom"

// Kind is what a line means, after ISO 128: the width and the dashes say it,
// never the colour alone.
type Kind uint8

const (
	Cut       Kind = iota // continuous wide: an edge of the finished cut or template
	Mark                  // continuous narrow: to be marked, not cut
	Centre                // long-dash-dot narrow: centre line, axis, bridge line
	Hidden                // dashed narrow: lies on the other face or under something
	Dimension             // continuous narrow: dimension, extension and leader lines
	Hatch                 // continuous narrow: waste side
	Frame                 // continuous narrow: frame, title block, rulers
	Edge                  // continuous wide: visible edge on a picture, from which nothing is cut
	Solid                 // continuous narrow: hatching of material that is cut through
)

// Shape is one path on a drawing.
type Shape struct {
	ID    string // found by this name in an SVG; unique in the drawing when not empty
	Title string // in words, what the line is: "cut line, inside edge"
	Path  geom.Path
	Kind  Kind
	Layer Layer // operation, in cutter files
	Fill  bool  // filled with the line's colour (arrow heads, pin centres)
	// Led says that the middle of a cutter is led along the path, in its
	// direction: it goes into cutter files though it is no cut line, and never as a
	// circle, which has no direction.
	Led bool
}

// Layer names an operation in cutter files: A–Z, 0–9, _ and -, at most 31.
type Layer string

// LegendLayer holds the samples in a sheet's list of lines. They look like what
// they explain, but are never cut: cutter files leave this layer out.
const LegendLayer Layer = "LEGEND"

// Anchor is the point of a text that Text.At fixes.
type Anchor uint8

const (
	Start Anchor = iota // left end of the base line
	Middle
	End
)

// Text is one line of words at a fixed place.
type Text struct {
	S      string
	At     geom.Point // on the base line
	Size   float64    // height of a capital letter, mm; never under 2.2 on paper
	Angle  geom.Angle
	Anchor Anchor
	Bold   bool
}

// Group is what belongs together on a drawing.
type Group struct {
	ID, Title string
	Shapes    []Shape
	Texts     []Text
	Groups    []Group
}

// Drawing is a finished sheet: mm, +Y up, every line and word in its place.
type Drawing struct {
	ID, Title string
	Bounds    geom.Box // of the sheet, frame included
	Groups    []Group
	Keep      []geom.Box // no seam crosses these where a page or two more can help it

	// Remarks say what a person should know of how the sheet came out: letters
	// that the font lacks, labels that became numbered notes.
	Remarks []string
}
