// Package limit holds the thresholds of the trade that solving and checking
// share, so that the program cannot propose what it would then refuse. Every
// value is common practice; mm.
package limit

// Limits are the thresholds of one measure: below Stop it stops, below Warn it
// warns, below Note it is noted.
type Limits struct{ Stop, Warn, Note float64 }

// Wood that stays round keys and voids.
var (
	KeyToVoid     = Limits{4, 6, 10} // on the same face
	KeyOverVoid   = Limits{Stop: 4}  // over a void of the other face
	KeyOverKey    = Limits{Stop: 4}  // between keys of both faces
	KeyInContour  = Limits{3, 6, 0}  // depth of a key left under a contour
	KeyInOutline  = Limits{6, 10, 0}
	KeyToKey      = Limits{8, 20, 0}
	VoidToVoid    = Limits{4, 6, 0}
	VoidToOutline = Limits{6, 10, 0}
	BetweenFaces  = Limits{4, 6, 0}
	Floor         = Limits{3, 6, 0}
	Channel       = Limits{3, 5, 0} // round a drilled channel: to faces, keys, screws
	JackWall      = Limits{Stop: 4} // round the bore of a jack
	IndexWeb      = Limits{1, 2, 0} // between notches of a slotting strip
	CoverLedge    = Limits{3, 5, 0}
)

// Most returns the greatest of the thresholds: what is farther is sound.
func (l Limits) Most() float64 { return max(l.Stop, l.Warn, l.Note) }

// MaleWaist is the waist of the template of a key.
var MaleWaist = Limits{Stop: 0, Warn: 6}

// Least and greatest glue gap between a key and its recess, a side.
const (
	GapLeast = 0.03
	GapMost  = 0.15
)

// TipToKey is how far a true tip of a crack may lie from the nearest key.
const TipToKey = 25

// BaseOverhang is the greatest share of a router's base that may hang over the
// edge of what carries it.
const BaseOverhang = 0.4

// OneAngle is how much a crack may bend, in degrees, before keys over it no longer
// share one angle.
const OneAngle = 15

// The neck.
var (
	UnderRod  = Limits{Stop: 2.5, Warn: 3.5} // wood under the rod's channel
	TunerWall = Limits{Stop: 6}              // from the hole's rim to the edge of the head
	StringAir = Limits{Warn: 1}              // between a string and another string's post
)

// NutBend is the most that a string may bend at the nut, seen from the front,
// degrees: more wears its slot and puts it out of tune.
const NutBend = 10

// NeckAngle is the largest usual neck angle, degrees.
const NeckAngle = 5

// Neck and bridge.
var (
	NeckFloor   = Limits{Stop: 12, Warn: 18}   // wood under the pocket of a bolted neck
	BoltOver    = Limits{Stop: 3}              // from the tip of a neck screw to the board's top, or the rod
	SaddleSpare = Limits{Stop: 0, Warn: 1}     // travel left beyond the place that a saddle needs
	LinesApart  = Limits{Stop: 0.5, Warn: 0.2} // centre lines of neck and bridge; more is worse
	StringHole  = Limits{Stop: 3}              // string hole to void, rod or key
	PoleOff     = Limits{Warn: 1}              // string off its pole; more is worse
)

// Controls and covers.
var (
	ControlsApart = Limits{Stop: 2}          // bodies, and knobs
	ControlInside = Limits{Stop: 0, Warn: 1} // from a body to the wall of its cavity
	ControlUnder  = Limits{Stop: 1, Warn: 3} // from a control's lugs to the cover: the wires need it
	ScrewWood     = Limits{Stop: 8}          // that a screw holds in
	ScrewTip      = Limits{Stop: 3}          // wood beyond the tip of a screw
	ScrewToKey    = Limits{Stop: 4}          // from a screw to the line of a key
)

// ThreadOver is by how much the thread of a control must be longer than the wood
// over it, for washer and nut.
const ThreadOver = 3

// Jigs.
const (
	// HandHeld is the least length of a piece that is held by hand at a bit, mm.
	HandHeld = 150
	// HandClear is how far a hand stays from a turning cutter, mm: three inches.
	HandClear = 75
	// HandleRim is the block round a small part on every side, mm: it covers the
	// cutter.
	HandleRim = 60
	// BearingMargin is what a plate under the router's base rests on beside an
	// opening, on both sides of it, mm.
	BearingMargin = 25
	// CaulSkew is how far from square to the edge a clamp may press, degrees: beyond
	// it a caul lined with cork may slide.
	CaulSkew = 20
	// CorkGives is the share of its thickness by which a cork lining evens out what
	// does not fit.
	CorkGives = 1.0 / 3
)
