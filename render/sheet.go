package render

import "routwright/geom"

// Sheet is what one sheet shows, before layout, in the coordinates of the work
// (mm, +Y up, seen from the front). Layout turns it into a Drawing.
type Sheet struct {
	ID    string // file name without ending: a–z, 0–9, -
	Title string // "Template: tail pickup cavity"

	// FromBack mirrors everything that has a place across x = 0, once, here:
	// the sheet lies on the back. Words stay readable.
	FromBack bool

	// View is written at the right of the title. Empty, it says "Seen from the
	// front" or, with FromBack, "Seen from the back"; a jig or a table may have
	// other words, or a space for none.
	View string

	Groups []Group // lines, and words with fixed places
	Labels []Label // words that Layout finds room for
	Dims   []Dim
	Holes  []Hole
	Waste  []Waste
	Solids []CutFace

	// Keep is what no seam of a tiled print may cross, though it cost a page.
	Keep []geom.Box

	// Grain is the direction of the grain; Layout finds room for an arrow. The
	// zero vector draws none.
	Grain geom.Vec

	// Meaning says in words what kinds of line mean on this sheet, where it is not
	// what the list of lines says of them elsewhere.
	Meaning map[Kind]string

	Block []Field  // rows of the title block, in order
	Notes []string // under the title block, wrapped
	// Warning is printed across the top in bold, for instance on a sheet that
	// was made although a check says stop.
	Warning string
}

// Label is a short text that belongs to a point; Layout places it near, with a
// leader line where needed, never over a cut line or another text.
type Label struct {
	S  string
	At geom.Point

	clear float64 // radius round At that belongs to the point itself, mm
}

// Dim is a linear dimension between two points, or a radius.
type Dim struct {
	A, B geom.Point
	// Along is the direction that is measured: {1,0} for a horizontal distance,
	// {0,1} vertical, the zero vector for the true distance A–B.
	Along geom.Vec
	Text  string // what is written, with its unit

	// Radial draws a radius instead: A is the arc's centre, B a point of the arc,
	// the arrow stands at B. Along is not read.
	Radial bool
}

// Hole is a round hole: centre cross, circle and the drill's size beside it.
type Hole struct {
	ID    string
	At    geom.Point
	D     float64 // diameter, mm
	Text  string  // "drill 9 through"
	Kind  Kind    // of the circle: Cut or Mark, Hidden
	Layer Layer
}

// Waste is hatched on the side that goes away: Region itself.
type Waste struct{ Region geom.Region }

// CutFace is a face of material that a section cuts through: hatched wholly, with
// lines that rise at Angle from the horizontal. Pieces that touch want unlike
// angles (ISO 128-3: 45° first).
type CutFace struct {
	Region geom.Region
	Angle  geom.Angle // 0 means 45°
	Title  string     // what is cut, in words
}

// Field is one row of a title block.
type Field struct{ Name, Value string }
