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

	Neck      Kind = "neck"
	Headstock Kind = "headstock"
	NeckSide  Kind = "side of the neck"
)

// Plane is a surface at depth Z + DX·x + DY·y mm below the finished front.
type Plane struct{ Z, DX, DY float64 }

// Level returns the level surface at depth z.
func Level(z float64) Plane { return Plane{Z: z} }

// At returns the depth in mm below the finished front at p.
func (s Plane) At(p geom.Point) float64 { return s.Z + s.DX*p.X + s.DY*p.Y }

// Level reports whether the surface is level.
func (s Plane) Level() bool { return s.DX == 0 && s.DY == 0 }

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

// Plan returns the plan of the part: the union of its solids' plans, nil for a
// part of bores alone.
func (p Part) Plan() geom.Region {
	switch len(p.Solids) {
	case 0:
		return nil
	case 1:
		return p.Solids[0].Plan
	}
	var c geom.Calc
	plans := make([]geom.Region, len(p.Solids))
	for i, s := range p.Solids {
		plans[i] = s.Plan
	}
	all := c.Union(plans...)
	if c.Err() != nil {
		return p.Solids[0].Plan
	}
	return all
}

// Range returns the least and greatest depth of the part's solids, in mm below
// the finished front: exact over sloped surfaces and round plans. A part of
// bores alone has the depths of their axes.
func (p Part) Range() (top, floor float64) {
	first := true
	span := func(t, f float64) {
		if first || t < top {
			top = t
		}
		if first || f > floor {
			floor = f
		}
		first = false
	}
	for _, s := range p.Solids {
		t, f := s.Extremes()
		span(t.Z, f.Z)
	}
	if len(p.Solids) == 0 {
		for _, b := range p.Bores {
			span(min(b.From.Z, b.To.Z), max(b.From.Z, b.To.Z))
		}
	}
	return top, floor
}

// SharesDepth reports whether two parts have depths in common, wherever they lie.
func (p Part) SharesDepth(q Part) bool {
	pt, pf := p.Range()
	qt, qf := q.Range()
	return pt < qf && qt < pf
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
