// Package jig makes the jigs of the shop from the parts that they serve, and
// proves what each of them claims.
//
//	Handle     holds a small part over its template on the router table
//	Outrigger  a plate that carries the router over a large opening
//	Neck       a caul that presses a fretted board into its pocket
//	Edge       a block whose inside follows the body's edge: caul, cradle
//	Press      where two clamps across the body press square to a crack
//	Guide      a block that leads a long drill
//
// All is in mm, seen from the front of the body where nothing else is said. A jig
// that cannot be made is told by ok or an error, never drawn wrong.
package jig

// Ids of the sheets that jigs are drawn on. That of a handle block ends in the id of
// its template, that of a drill guide in the id of its channel.
const (
	RailsID     = "rails-neck-pocket"
	HandleID    = "handle-"
	GuideID     = "guide-"
	OutriggerID = "outrigger"
	NeckCaulID  = "caul-neck"
	EdgeCaulID  = "caul-edge"
	CradleID    = "cradle-jack"
	IndexID     = "slotting-strip"
	RadiusID    = "radius-gauges"
)
