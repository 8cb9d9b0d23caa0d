package tool

import (
	"fmt"
	"math"

	"routwright/templates/design"
)

// Kind is the kind of a drill.
type Kind string

const (
	Forstner Kind = "Forstner drill"
	Twist    Kind = "twist drill"
)

// Drill is a drill for waste. Lengths in mm.
type Drill struct {
	Kind   Kind
	D      float64
	Length float64 // how deep it drills at most, 0 when not known
	// Point is how far its point stands ahead of its rim: what it reaches deeper
	// than the hole's full width.
	Point   float64
	Assumed []string // what of it the design did not say, in words
}

// String returns the drill in words: "Forstner drill 25".
func (d Drill) String() string { return fmt.Sprintf("%s %s", d.Kind, mm(d.D)) }

// Points of drills that the design does not measure. The centre of a Forstner
// drill stands 2 to 4 mm ahead of its rim; common practice. A twist drill is
// ground to a point of 118°, common practice for wood and metal alike.
const (
	forstnerPoint = 3
	twistAngle    = 118.0 // degrees
)

// usualForstners are the diameters of a small set, mm; common practice. They go
// as deep as any body is thick.
var usualForstners = []float64{16, 20, 25, 35}

const usualForstnerLength = 60 // mm; common practice

// fromSmallSet marks a drill that the design does not name.
const fromSmallSet = "from a small set"

// Drills returns the drills at hand, Forstner drills first, each kind in the
// order of the design. Without any Forstner drill the usual small set stands in,
// each marked as assumed.
func (r Rack) Drills() []Drill { return r.drills }

func drills(d *design.Design) []Drill {
	var out []Drill
	for _, f := range d.Forstner {
		out = append(out, drill(Forstner, f))
	}
	if len(out) == 0 {
		for _, v := range usualForstners {
			out = append(out, Drill{Kind: Forstner, D: v, Length: usualForstnerLength, Point: forstnerPoint, Assumed: []string{fromSmallSet}})
		}
	}
	for _, t := range d.Drill {
		out = append(out, drill(Twist, t))
	}
	return out
}

func drill(k Kind, g design.Drill) Drill {
	d := Drill{Kind: k, D: float64(g.D.V), Length: float64(g.Length.V), Point: float64(g.Point.V)}
	if !g.Point.Set() {
		d.Point = forstnerPoint
		if k == Twist {
			d.Point = d.D / 2 / math.Tan(twistAngle/2*math.Pi/180)
		}
		d.Assumed = append(d.Assumed, fmt.Sprintf("point %s mm ahead of its rim", mm(d.Point)))
	}
	return d
}
