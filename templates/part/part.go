// Package part holds the parts of an instrument in depth: what is wood, what is
// void, on which face and how deep. Parts are the single truth: templates,
// checks, drawings and tables all come from the same part.
//
//	Part    one void or one piece of wood
//	Solid   a plan and the two surfaces between which it lies
//	Bore    a drilled hole
//	Plane   a surface, level or sloped
//	Face    front or back
package part

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/design"
)

// Face is the face of the body that a part is cut from.
type Face uint8

const (
	Front Face = iota
	Back
)

// String returns "front" or "back".
func (f Face) String() string {
	if f == Back {
		return "back"
	}
	return "front"
}

// Words returns the face as it is printed on a sheet.
func (f Face) Words() string {
	if f == Back {
		return "BACK, this face up"
	}
	return "FRONT, this face up"
}

// Kind is what a part is, in the words that are printed.
type Kind string

const (
	Body   Kind = "body"
	Recess Kind = "key recess"
	Key    Kind = "key"
	Pickup Kind = "pickup cavity"
	Cavity Kind = "back cavity"
	Rebate Kind = "cover rebate"
	Cover  Kind = "cover"
	Board  Kind = "fretboard"

	Pocket     Kind = "neck pocket"
	Chamber    Kind = "chamber"
	Contour    Kind = "contour"
	Channel    Kind = "wire channel"
	JackHole   Kind = "jack hole"
	Shaft      Kind = "shaft hole"   // of a pot or switch, through the front
	Seat       Kind = "control seat" // where the wood over a control is thinned
	Post       Kind = "bridge post"
	StringHole Kind = "string hole"
	Screw      Kind = "screw hole"
)

// Plane is a surface at depth Z + DX·x + DY·y mm below the finished front.
type Plane struct{ Z, DX, DY float64 }

// Level returns the level surface at depth z.
func Level(z float64) Plane { return Plane{Z: z} }

// At returns the depth in mm below the finished front at p.
func (s Plane) At(p geom.Point) float64 { return s.Z + s.DX*p.X + s.DY*p.Y }

// Solid is the space over Plan between Top and Floor, Top the nearer to the
// front.
type Solid struct {
	Plan       geom.Region
	Top, Floor Plane
}

// Part is a void to be cut, or with Adds a piece of wood that is put in. All
// parts, those of the back too, are stored as seen from the front.
type Part struct {
	ID    string // file name without ending: a–z, 0–9, -
	Name  string // as the builder calls it
	Kind  Kind
	Face  Face
	Adds  bool
	Group string // parts of one group may meet: a cavity and its rebate

	Solids []Solid
	Bores  []Bore // drilled holes; a part may have both, as a pocket with its screws
	At     design.Pos
}

// Plan returns the plan of the part: that of its first solid. Parts so far have
// one solid each.
func (p Part) Plan() geom.Region {
	if len(p.Solids) == 0 {
		return nil
	}
	return p.Solids[0].Plan
}

// Range returns the least and greatest depth, in mm below the finished front,
// of the part's surfaces at the corners of its bounds.
func (p Part) Range() (top, floor float64) {
	for i, s := range p.Solids {
		b := s.Plan.Bounds()
		for j, q := range []geom.Point{b.Min, b.Max, {X: b.Min.X, Y: b.Max.Y}, {X: b.Max.X, Y: b.Min.Y}} {
			t, f := s.Top.At(q), s.Floor.At(q)
			if i == 0 && j == 0 || t < top {
				top = t
			}
			if i == 0 && j == 0 || f > floor {
				floor = f
			}
		}
	}
	return top, floor
}

// Depth returns the depth of the part in mm from its own face of a body of the
// given thickness.
func (p Part) Depth(thickness float64) float64 {
	top, floor := p.Range()
	if p.Face == Back {
		return thickness - top
	}
	return floor
}

// String returns the part in words: `pickup cavity "tail"`.
func (p Part) String() string { return fmt.Sprintf("%s %q", p.Kind, p.Name) }
