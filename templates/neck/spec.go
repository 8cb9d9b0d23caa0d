package neck

import "routwright/geom"

// Spec is what a neck is shaped from. All lengths in mm. Places are in the plan
// frame of the board: y along the board from the bridge line to the nut, x from
// the centre line to the treble side.
type Spec struct {
	Board Board
	Heel  Heel
	Head  Head
	Rod   *Rod // nil without one
	Back  Back
}

// Board is what the neck takes over from the fretboard.
type Board struct {
	Bass, Treble geom.Seg   // its edges, nut end first; only their lines count
	Nut          geom.Seg   // the nut's string edge, bass end first
	Strings      []geom.Seg // nut to saddle, string 1 (treble) first
	Thickness    float64    // in its middle
	First        float64    // y of the first fret on the centre line
	Octave       float64    // y of the fret at half the string, on the centre line
	OctaveFret   int        // its number
}

// Heel is the end of the neck that lies in the body.
type Heel struct {
	End, Joint           float64 // y of its end, and of the body's edge
	WidthEnd, WidthJoint float64 // there
	Thickness            float64 // without the board
	Corner               float64 // radius of its two end corners
}

// Kind is how the tuners stand.
type Kind uint8

const (
	InLine Kind = iota // in one row
	Split              // on both sides
	Paddle             // none: to be drilled later
)

// String returns the kind as a builder writes it.
func (k Kind) String() string { return [...]string{"in-line", "split", "paddle"}[k] }

// Radius is a radius that the builder gave, or one that may give way where it
// does not fit.
type Radius struct {
	R     float64
	Given bool
}

// Head is the headstock. Its outline is drawn in the plane of its face, laid
// flat about the line where the head begins.
type Head struct {
	Kind Kind
	// Behind is from the nut's string edge to the line, parallel to it, where the
	// head begins to widen and its face to tilt or step: the nut stands on it.
	Behind    float64
	Thickness float64
	Tilt      geom.Angle // of the face back from the board's plane; 0 with a step
	Step      float64    // face below the underside of the board, when it does not tilt
	Sweep     float64    // radius of the curve from the nut down to a stepped face

	// Bass and Treble are how many tuners stand on either side. Strings go to
	// them from the outside in, the outermost to the tuner nearest the nut.
	Bass, Treble int
	First        float64 // from the nut's string edge to the first post, along the centre line
	Pitch        float64 // from post to post of a row
	Hole         float64 // diameter through the head
	Post         float64 // diameter where the string winds on
	// Along and Inward are the tuner's body behind the head: its width along the
	// row, and how far it reaches from the post's middle to the centre line.
	Along, Inward float64
	Edge          float64 // wood asked for from the hole's rim to the head's edge

	// Deflection is how far each string may bend outward at the nut, seen from
	// the front; nil lets New find the least that keeps the tuners apart.
	Deflection *geom.Angle
	// Widths are those of the head at its shoulders and at its tip. Nil lets the
	// edges follow the tuners.
	Widths           *[2]float64
	Length, Shoulder float64 // from the nut to the tip, and to the widest place; 0: New finds them
	Crown            float64 // how far the tip bulges between its corners

	NeckRadius, ShoulderRadius, TipRadius Radius // where the neck runs into the head, at its widest place, at its tip
}

// Access is the end at which the rod is turned.
type Access uint8

const (
	AtHead Access = iota
	AtHeel
)

// String returns "head" or "heel".
func (a Access) String() string { return [...]string{"head", "heel"}[a] }

// Rod is the channel of the truss rod: on the centre line, open to the board.
type Rod struct {
	Single bool // pulls one way, so that its channel may run along an arc
	Access Access
	Width  float64
	Depth  float64 // below the underside of the board, at its ends
	Bow    float64 // how much deeper it lies in its middle, along an arc; 0: level
	// Length is from the nut's string edge, or with access at the heel from the
	// heel's end, to the channel's blind end; 0: New takes what the neck holds.
	Length float64
	// AccessLength and AccessWidth are the opening for the key that turns it: past
	// the line where the head begins, or from the heel's end.
	AccessLength, AccessWidth float64
}

// Back is the shape of the back of the neck.
type Back struct {
	// Thickness at the first fret and at the octave, from the board's surface to
	// the back, on the centre line, frets aside. Straight between, and beyond.
	Thickness [2]float64
	Shoulder  [2]float64 // fullness of the profile there, see Profile
	Foot      float64    // from the body's edge to where the heel ends
	Sweep     float64    // radius of the hollow from the heel to the back
	Throat    float64    // radius of the hollow from the back to the head
	Scarf     float64    // thickness of the blank where the scarf is sawn; 0: New finds it
}
