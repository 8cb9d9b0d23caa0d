// Package tool holds router tools as measured: a cutter and whatever follows
// the template with it.
package tool

import (
	"fmt"
	"math"

	"routwright/templates/design"
)

// Guide is what follows the edge of a template.
type Guide uint8

const (
	Bearing Guide = iota
	Bush
	// Free follows nothing: a numerically controlled router leads the middle of
	// the cutter along a path, which stands in the place of the template's edge.
	// Its follower has the radius 0.
	Free
)

// Tool is a router bit with its follower. Lengths in mm.
type Tool struct {
	Bit      string  // name of the bit
	Cutter   float64 // diameter
	Length   float64 // cutting length, 0 when not given
	Shank    float64 // diameter of the shank, 0 when not given
	Guide    Guide
	GuideOf  string  // name of the guide bush; empty for a bearing
	Follower float64 // diameter of the bearing or outside diameter of the bush; 0 for a free path
	Height   float64 // of the bearing, 0 when not given
	Reach    float64 // from the base to the tip of the bit at most, 0 when not given
	Stands   float64 // how far a guide bush stands out of the base, 0 when not given
	AtTip    bool    // the bearing runs below the cutter
	Drill    bool    // the design has the waste drilled out first
	Why      string  // reason, when the program chose the tool
	At       design.Pos
}

// CutRadius returns the radius of the cutter.
func (t Tool) CutRadius() float64 { return t.Cutter / 2 }

// GuideRadius returns the radius of whatever follows the template: 0 where the
// middle of the cutter itself is led.
func (t Tool) GuideRadius() float64 { return t.Follower / 2 }

// Offset returns k, by how much the follower is larger than the cutter a side:
// the distance between the edge of the template and the edge of the cut. Of a free
// path it is −r: the path lies the cutter's radius inside the cut.
func (t Tool) Offset() float64 { return (t.Follower - t.Cutter) / 2 }

// Alike is the offset in mm a side up to which bearing and cutter count as of one
// size: a worn bit, or the play of a calliper. A wall that the bearing runs on is off
// by no more. Common practice.
const Alike = 0.05

// OwnSize reports whether a bearing of the cutter's own size follows, which may run
// on a wall that is cut already.
func (t Tool) OwnSize() bool { return t.Guide == Bearing && math.Abs(t.Offset()) <= Alike }

// Free reports whether no template leads the tool.
func (t Tool) Free() bool { return t.Guide == Free }

// LeastCorner returns the smallest inside radius in mm that the tool leaves in a
// cut when the template's maker cannot cut inside corners tighter than maker:
// the cutter's own, or what the template's corner leaves.
func (t Tool) LeastCorner(maker float64) float64 {
	if t.Free() {
		return t.CutRadius()
	}
	return math.Max(t.CutRadius(), maker-t.Offset())
}

// ShankRubs reports whether a cut of the given depth is deeper than the cutter is
// long and narrower than its shank. A bearing keeps its own shank off the wall.
func (t Tool) ShankRubs(depth float64) bool {
	return t.Guide != Bearing && t.Shank > t.Cutter && t.Length > 0 && depth > t.Length
}

// FirstBite returns the shallowest first cut in mm that keeps the whole bearing
// on a template of the given thickness: with the bearing's top level with the
// template's the cutter stands c − (t − b) deep. 0 when any depth will do, or
// when cutting length or bearing height are not known.
func (t Tool) FirstBite(template float64) float64 {
	if t.Guide != Bearing || t.AtTip || t.Length <= 0 || t.Height <= 0 {
		return 0
	}
	return math.Max(0, t.Length-(template-t.Height))
}

// String returns the tool in words for a title block.
func (t Tool) String() string {
	if t.Free() {
		return fmt.Sprintf("bit %s, d %s; no follower: the machine leads the middle of the bit", t.Bit, mm(t.Cutter))
	}
	if t.Guide == Bush {
		return fmt.Sprintf("bit %s, d %s; guide bush %s, d %s", t.Bit, mm(t.Cutter), t.GuideOf, mm(t.Follower))
	}
	where := "on the shank side"
	if t.AtTip {
		where = "at the tip"
	}
	return fmt.Sprintf("bit %s, d %s; bearing d %s %s", t.Bit, mm(t.Cutter), mm(t.Follower), where)
}

// OffsetWords says whether the template already holds an offset.
func (t Tool) OffsetWords() string {
	if t.Free() {
		return fmt.Sprintf("included: the path runs %s mm beside the part's edge; add no compensation for the tool", mm(t.CutRadius()))
	}
	switch k := t.Offset(); {
	case k > 0:
		return fmt.Sprintf("included: template edge %s mm outside the cut", mm(k))
	case k < 0:
		return fmt.Sprintf("included: template edge %s mm inside the cut", mm(-k))
	}
	return "none: the cut follows the template's edge"
}

// mm prints a length with two decimals, without trailing zeros.
func mm(v float64) string { return design.MM(v) }
