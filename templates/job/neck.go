package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/neck"
	"routwright/templates/part"
)

// Neck is how the neck meets the body. Lengths in mm.
type Neck struct {
	neck.Setup
	neck.Solved
	Fret float64 // that lies over the body's edge
	// JointY is where the board's surface passes over the body's edge, from the
	// bridge line. The bridge line is where the uncompensated scale ends on
	// the body.
	JointY float64
	Glued  bool
	Board  float64 // thickness of the fretboard
	Under  float64 // underside of the board over the finished front at the joint

	Heel   Heel
	Pocket Pocket
	Bolts  *Bolts  // nil for a glued neck
	Fitted *Fitted // nil until the fitted neck is measured again
}

// Angled reports whether distances along the board differ from those on the
// body.
func (n *Neck) Angled() bool { return n != nil && n.Angle != 0 }

// NutY returns where the nut's string edge lies over the body, from the bridge
// line.
func (n *Neck) NutY() float64 {
	to, _ := n.OnBody(n.Angle, 0, 0)
	return n.JointY - to
}

// Heel is the heel as measured.
type Heel struct {
	End, Mouth float64 // width at its end, and Apart from it nearer the nut
	Apart      float64
	Length     float64 // from its end to the joint, along the board
	Thickness  float64 // without the board
	Corner     float64 // radius at its end
}

// Taper returns the angle of each side to the centre line, positive where the
// heel is wider at its end.
func (h Heel) Taper() geom.Angle { return geom.Angle(math.Atan2((h.End-h.Mouth)/2, h.Apart)) }

// Pocket is the pocket that the heel calls for.
type Pocket struct {
	ID     string  // of its part; empty without one
	EndY   float64 // end wall, from the bridge line
	Length float64 // from the end wall to the joint, on the body
	Gap    float64 // air a side when finished
	Film   float64 // of finish a side, for which the walls stand further apart
	// Corner is the radius of the corners at its end; Bit the radius that the bit
	// leaves there.
	Corner, Bit float64
	Floor       part.Plane // depth of the floor
	// Depth at the end wall and at the joint.
	DepthEnd, DepthJoint float64
	// Slide is how far the neck can slide along the strings before a side
	// touches: gap/tan of the taper. Infinite for a heel without taper.
	Slide float64
	// Aside is how far the neck can swing at the bridge line, to each side, within
	// the gap.
	Aside float64
}

// Fall returns how much deeper the floor is at the joint than at the end wall.
func (p Pocket) Fall() float64 { return p.DepthJoint - p.DepthEnd }

// DepthWords says how deep the pocket is, at both ends where its floor slopes.
func (p Pocket) DepthWords() string {
	if p.Fall() == 0 {
		return design.MM(p.DepthEnd) + " mm from the finished front, level"
	}
	return fmt.Sprintf("%s mm at the end wall, %s mm at the body's edge, from the finished front", design.MM(p.DepthEnd), design.MM(p.DepthJoint))
}

// SlopeWords says how a floor that slopes is cut after the level one; empty for a
// level floor.
func (p Pocket) SlopeWords() string {
	if p.Fall() == 0 {
		return ""
	}
	mm := design.MM
	return fmt.Sprintf("rout level on the pins down to %s mm, the depth at the end wall. Then lay two strips, wedges that fall by %s mm over %s mm, thick end towards the bridge, on the template and let the bearing run on the wall already cut: the floor then falls to %s mm at the body's edge", mm(p.DepthEnd), mm(p.Fall()), mm(p.Length), mm(p.DepthJoint))
}

// SlideWords says how far the heel can slide before its taper stops it; empty for a
// heel without taper.
func (p Pocket) SlideWords() string {
	if math.IsInf(p.Slide, 1) {
		return ""
	}
	return fmt.Sprintf("the gap of %s mm a side lets this taper slide by %s mm: push the neck to the end wall, which sets the scale", design.MM(p.Gap), design.MM(p.Slide))
}

// Bolts are the screws of a bolted neck.
type Bolts struct {
	At     []geom.Point
	Length float64 // under the head
	Name   string  // "wood screw, gauge 8", "machine screw M5 into an insert"
	Hole   float64 // clearance in the body
	Pilot  float64 // hole in the heel, for the screw or its insert
	Plate  float64 // thickness of the plate under the heads
	// Into is how far the shortest-held screw goes into the heel; Over the wood
	// between the deepest tip and the board's playing surface.
	Into, Over float64
	At0        design.Pos
}

// Fitted is what the dry-fitted neck measured.
type Fitted struct {
	// Shift is how far the bridge line moves, + to the neck; Aside where the
	// neck's centre line crosses it, + to the treble side as seen from the front.
	Shift, Aside float64
	// Saddle is the height of the saddles' tops that the action asks for; 0 when
	// neither angle nor surface was measured again.
	Saddle float64
}
