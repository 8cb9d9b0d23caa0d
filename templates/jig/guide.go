package jig

import (
	"math"

	"routwright/geom"
)

// Measures of a drill guide, mm; common practice.
const (
	GuideLong   = 60.0 // of the block along the drill: eight drills and more
	GuideBehind = 5.0  // from the rim, so that the edge shows
	guideCover  = 12.0 // wood over the bore
	guideWide   = 40.0 // of the block at the least, for a clamp
	guidePlate  = 15.0 // from the block's square end to the entry, where the drill comes out of its sole
)

// Guide is a block that leads a long drill: it stands on the face, and the end that
// the drill enters is tilted to stand square to the drill. Its side lies with the sole
// on y = 0 and the square end, which is nearer to the entry, on x = 0.
type Guide struct {
	Angle      geom.Angle
	D          float64 // of the drill
	High, Wide float64
	Side       geom.Path
	// In and Out are where the axis of the bore goes in, on the tilted end, and comes
	// out, of the square end or of the sole.
	In, Out geom.Point
	// Sole reports whether it comes out of the sole.
	Sole bool
	// Lead is how much of the drill is used up before it meets the wood: from the
	// tilted end to the entry.
	Lead float64
	// Wall is the wood round the bore where it is thinnest: over it, and to the sole
	// where it comes out of the square end.
	Wall float64
}

// NewGuide returns the guide of a drill of diameter d that goes down at an angle to
// the face, to an entry so far below the face, the rim so far behind it in plan. From a
// plate there is no rim: the drill comes out of the sole over its entry.
func NewGuide(d float64, angle geom.Angle, rim, entry float64, plate bool) Guide {
	g := Guide{Angle: angle, D: d}
	tan, cos := math.Tan(float64(angle)), math.Cos(float64(angle))
	from := rim + GuideBehind // of the square end from the entry, in plan
	if plate {
		from, entry = -guidePlate, 0
	}
	h := from*tan - entry // of the axis over the face at the square end
	g.High = math.Ceil(h + GuideLong*tan + d/2/cos + guideCover)
	g.Wide = math.Ceil(math.Max(guideWide, 4*d))
	g.Side = geom.Polygon(geom.Pt(0, 0), geom.Pt(GuideLong, 0), geom.Pt(GuideLong-g.High*tan, g.High), geom.Pt(0, g.High))
	g.Out, g.In = g.line(h)
	g.Sole = h < 0
	// Along the axis, from the tilted end down to the entry: In lies so high over it.
	run := g.In.X + from
	g.Lead = math.Hypot(run, run*tan)
	g.Wall = g.High - h - g.In.X*tan - d/2/cos
	if !g.Sole {
		g.Wall = math.Min(g.Wall, h-d/2/cos)
	}
	return g
}

// line returns where a line at the guide's angle, h over the face at the square end,
// comes out of the block and goes in: (long − y·tan, y) on the tilted end, with
// y = h + x·tan.
func (g Guide) line(h float64) (out, in geom.Point) {
	tan := math.Tan(float64(g.Angle))
	y := (h + GuideLong*tan) / (1 + tan*tan)
	out, in = geom.Pt(0, h), geom.Pt(GuideLong-y*tan, y)
	if h < 0 {
		out = geom.Pt(-h/tan, 0)
	}
	return out, in
}

// Bore returns the two ends of the line that lies off beside the axis, mm, upwards.
func (g Guide) Bore(off float64) (out, in geom.Point) {
	h := g.Out.Y
	if g.Sole {
		h = -g.Out.X * math.Tan(float64(g.Angle))
	}
	return g.line(h + off/math.Cos(float64(g.Angle)))
}

// Square returns the angle between the axis of the bore and the tilted end.
func (g Guide) Square() geom.Angle {
	end := g.Side[1]
	return between(end.B.Sub(end.A).Unit(), g.Out.Sub(g.In).Unit())
}
