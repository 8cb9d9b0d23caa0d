// Package drill finds and judges the paths of long drills through the wood: from
// the wall of one cavity to another, past everything that must stay.
//
//	Void    a cavity as a drill meets it
//	Rules   what a path must keep to
//	Path    where a drill goes in, where it comes out, how it is led
//	Find    the shortest path that keeps to the rules
//	Judge   what a path keeps away from, and by how much
//
// A drill leaves a cavity that is open on a face slantwise: it comes down over
// the rim behind it, and goes into the wall before it. With the cavity ℓ long
// along the drill, the middle of the hole d below the face and a drill of
// diameter q at angle φ to the face, the drill clears the rim when
//
//	ℓ·tan φ ≥ d + q / (2·cos φ)
package drill

import (
	"math"

	"routwright/geom"
	"routwright/templates/part"
	"routwright/templates/space"
)

// Void is a cavity as a drill meets it: walls over a plan, from Top to Floor mm
// below the finished front.
type Void struct {
	Name       string
	Plan       geom.Region
	Top, Floor float64
	Face       part.Face // that it opens on
	// Side is a hole that opens at the edge of the body: the drill is led through
	// it, from Mouth, where it opens, along the hole.
	Side  bool
	Mouth geom.Point
	// Open is a void that opens on its face and, at Mouth, at the edge of the body
	// too, as a neck pocket does: the drill lies in it.
	Open bool
	// Plate is a place on a face, under a plate: a drill goes down from it
	// anywhere in Plan.
	Plate bool
}

// Obstacle is what a path must keep away from.
type Obstacle struct {
	Body *space.Body
	// Round is the radius of an obstacle whose body is its axis alone, as that of
	// another path: both then count alike, from axis to axis. 0 for any other.
	Round float64
	// Stop and Warn are the least wood between the hole and the obstacle, mm.
	Stop, Warn float64
}

// Rules are what paths keep to. mm.
type Rules struct {
	Thickness  float64
	D          float64 // of the drill
	Length     float64 // of the drill
	Chuck      float64 // diameter of what holds it
	Stop, Warn float64 // wood between the hole and a face or the edge
	Edge       *space.Edge
	Obstacles  []Obstacle
	Through    []Void // that the drill passes on its way, opening both walls wholly
}

// Skew is how far from square to the wall a drill may meet it: beyond it skids;
// common practice.
const Skew = 60 * geom.Degree

// Path is a drilled hole from one void to another.
type Path struct {
	From, To part.Point // on the axis, where it enters the wood and where it leaves it
	Back     bool       // drilled from the second void to the first
	Rim      float64    // from the entry back to the rim, in plan, ℓ; 0 from a plate, +Inf through a side hole
	Entry    float64    // depth of the entry below the face that the drill comes from, d
}

// Run returns the length of the hole in plan, mm.
func (p Path) Run() float64 { return p.From.Flat().Dist(p.To.Flat()) }

// Length returns the length of the hole, mm.
func (p Path) Length() float64 { return p.From.Dist(p.To) }

// Heading returns the direction of the drill in plan.
func (p Path) Heading() geom.Vec { return p.To.Flat().Sub(p.From.Flat()).Unit() }

// Fall returns the angle of the drill to the faces: positive towards the back.
func (p Path) Fall() geom.Angle { return geom.Angle(math.Atan2(p.To.Z-p.From.Z, p.Run())) }

// Angle returns how steeply the drill goes down from the face that it comes
// from; never negative for a drill that comes over a rim.
func (p Path) Angle(from Void) geom.Angle {
	if from.Face == part.Back {
		return -p.Fall()
	}
	return p.Fall()
}

// Bore returns the hole.
func (p Path) Bore(d float64) part.Bore { return part.Bore{From: p.From, To: p.To, D: d} }

// Crosses returns between which distances from its entry, in plan, the axis of a
// path runs in a void that it passes; ok is false where it passes it by.
func (p Path) Crosses(v Void) (near, far float64, ok bool) {
	ts := Ray(v.Plan, p.From.Flat(), p.Heading(), 0)
	if len(ts) < 2 || len(ts)%2 == 1 || ts[1] > p.Run() {
		return 0, 0, false
	}
	return ts[0], ts[1], true
}

// DepthAt returns how deep below the finished front the axis runs so far from
// its entry in plan.
func (p Path) DepthAt(s float64) float64 {
	return p.From.Z + s*math.Tan(float64(p.Fall()))
}

// Skewed returns how far from square to the wall of the void that it comes from
// the drill meets it in plan; 0 from a plate.
func (p Path) Skewed(from Void) geom.Angle {
	if from.Plate {
		return 0
	}
	var out geom.Vec
	least := math.Inf(1)
	for _, loop := range from.Plan {
		for _, e := range loop {
			q := e.Closest(p.From.Flat())
			if d := q.Dist(p.From.Flat()); d < least {
				least = d
				out = e.Tangent(0).Left().Neg()
				if e.IsArc() {
					out = q.Sub(e.Center).Unit().Mul(float64(e.Turn))
				}
			}
		}
	}
	return geom.Angle(math.Acos(max(-1, min(1, out.Dot(p.Heading())))))
}

// RimClear returns by how much the drill clears the rim behind it, mm straight
// up over the face; negative when it hits it. +Inf where there is no rim.
func (p Path) RimClear(from Void, d float64) float64 {
	if from.Side || from.Open || from.Plate {
		return math.Inf(1)
	}
	phi := float64(p.Angle(from))
	return p.Rim*math.Tan(phi) - p.Entry - d/(2*math.Cos(phi))
}

// ChuckClear returns how high the chuck stands over the face when the hole is
// through, mm; negative when it would hit it. +Inf through a side hole, before
// which there is only air, if the drill is long enough.
func (p Path) ChuckClear(from Void, r Rules) float64 {
	phi := float64(p.Angle(from))
	out := r.Length - p.Length() // what stands out of the wood
	if from.Side || from.Open {
		if out < p.From.Flat().Dist(from.Mouth) {
			return out - p.From.Flat().Dist(from.Mouth)
		}
		return math.Inf(1)
	}
	return out*math.Sin(phi) - p.Entry - r.Chuck/2*math.Cos(phi)
}

// Clear is how near a path comes to something.
type Clear struct {
	What       string
	D          float64 // wood between the hole and it, mm
	At         part.Point
	Stop, Warn float64
}

// Judge returns what a path comes near to: the faces, the edge, the obstacles;
// only what lies nearer than its warning. The hole counts from its axis, where
// it runs in the wood; its ends are the two voids.
func (r Rules) Judge(p Path, from, to Void) []Clear {
	var out []Clear
	near := func(what string, d float64, at part.Point, stop, warn float64) {
		if d < warn-1e-9 {
			out = append(out, Clear{what, d, at, stop, warn})
		}
	}
	half := r.D / 2
	for _, f := range []part.Face{part.Front, part.Back} {
		if f == from.Face && from.Plate || f == to.Face && to.Plate {
			continue // where it comes out of
		}
		d, at := p.From.Z, p.From
		if p.To.Z < d {
			d, at = p.To.Z, p.To
		}
		if f == part.Back {
			d, at = r.Thickness-p.From.Z, p.From
			if e := r.Thickness - p.To.Z; e < d {
				d, at = e, p.To
			}
		}
		near("the "+f.String(), d-half, at, r.Stop, r.Warn)
	}
	axis := r.axis(p)
	if r.Edge != nil && !r.Edge.Far(p.From.Flat(), p.To.Flat(), r.Warn+half) {
		if g := axis.ToEdge(r.Edge); g.D-half < r.Warn {
			near("the edge of the body", g.D-half, g.A, r.Stop, r.Warn)
		}
	}
	for _, o := range r.Obstacles {
		d, at := o.gap(axis, half, o.Warn)
		near(o.Body.Part.String(), d, at, o.Stop, o.Warn)
	}
	return out
}

// gap returns the wood between a hole of radius half about an axis and the
// obstacle, mm, and where on the axis; +Inf from within mm on.
func (o Obstacle) gap(axis *space.Body, half, within float64) (float64, part.Point) {
	g := axis.Within(o.Body, within+half+o.Round)
	return g.D - half - o.Round, g.A
}

// axis returns the axis of a path as a body of no width.
func (r Rules) axis(p Path) *space.Body {
	return space.Of(part.Part{Bores: []part.Bore{{From: p.From, To: p.To}}})
}

// Ray returns the distances from o along u at which the boundary of a region is
// crossed, in order, those over least only.
func Ray(region geom.Region, o geom.Point, u geom.Vec, least float64) []float64 {
	return ray(nil, region, o, u, least)
}

// ray is Ray into memory that is at hand: ts is empty.
func ray(ts []float64, region geom.Region, o geom.Point, u geom.Vec, least float64) []float64 {
	add := func(t float64) {
		if t <= least {
			return
		}
		i := len(ts)
		ts = append(ts, t)
		for i > 0 && ts[i-1] > t {
			ts[i] = ts[i-1]
			i--
		}
		ts[i] = t
	}
	for _, loop := range region {
		for i := range loop {
			e := &loop[i]
			a, b := e.A.Sub(o), e.B.Sub(o)
			ca, cb := u.Cross(a), u.Cross(b)
			if e.Turn == 0 {
				if (ca < 0) != (cb < 0) {
					k := ca / (ca - cb)
					add(u.Dot(a) + k*(u.Dot(b)-u.Dot(a)))
				}
				continue
			}
			c := e.Center.Sub(o)
			h, m := u.Cross(c), u.Dot(c)
			if math.Abs(h) >= e.Radius {
				continue
			}
			w := math.Sqrt((e.Radius - h) * (e.Radius + h))
			for _, t := range [2]float64{m - w, m + w} {
				if onSweep(e, u.Mul(t).Sub(c)) {
					add(t)
				}
			}
		}
	}
	return ts
}

// onSweep reports whether an arc passes the direction v from its centre.
func onSweep(e *geom.Seg, v geom.Vec) bool {
	a, b := e.A.Sub(e.Center), e.B.Sub(e.Center)
	if e.Turn < 0 {
		a, b = b, a
	}
	ab, av, vb := a.Cross(b), a.Cross(v), v.Cross(b)
	if ab > 0 || ab == 0 && a.Dot(b) > 0 { // at most a half turn
		return av >= 0 && vb > 0
	}
	return av >= 0 || vb > 0
}
