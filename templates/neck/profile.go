package neck

import (
	"math"

	"routwright/geom"
)

// Profile is the back of the neck at one place, seen along the neck: the wood
// under the board, from its underside on one edge round to the other.
//
// It is a family of ovals from three arcs that meet smoothly: a shoulder of
// radius r on either side, whose tangent at the board stands square to it, and
// a crown of radius R about the centre line. With half width a, depth d and
// r = Shoulder · d, the arcs touch where
//
//	(a − r)² + (R − d)² = (R − r)²    so    R = (a² + d² − 2ar) / 2(d − r)
//
// A small Shoulder is a slim neck, near to a single arc; one near 1 a full neck
// with a flat back. More Shoulder gives more wood everywhere. An oval must be
// flatter than half a circle: where d is more than ovalMost of a, the rest is
// made up by straight sides below the board.
//
//	 ───────────  underside of the board
//	│           │
//	(     d     )
//	 `·._____.·´
//	   ← 2a →
type Profile struct {
	Half     float64 // half width at the underside of the board, mm
	Depth    float64 // from there to the back on the centre line, mm
	Shoulder float64 // 0.05 to 0.95
}

// ovalMost is the deepest oval as a part of its half width.
const ovalMost = 0.9

// Least and largest Shoulder: beyond them an arc is too short or too flat to
// draw.
const (
	LeastShoulder   = 0.05
	LargestShoulder = 0.95
)

// arcs returns the length of the straight sides, and the radii of shoulder and
// crown.
func (p Profile) arcs() (side, r, crown float64) {
	d := math.Min(p.Depth, ovalMost*p.Half)
	r = p.Shoulder * d
	return p.Depth - d, r, (p.Half*p.Half + d*d - 2*p.Half*r) / (2 * (d - r))
}

// Radii returns the radius of the shoulders and of the crown, mm.
func (p Profile) Radii() (shoulder, crown float64) {
	_, r, c := p.arcs()
	return r, c
}

// Path returns the profile as an open path with the board's underside at y = 0
// and the wood below it: from (−Half, 0) over (0, −Depth) to (Half, 0).
func (p Profile) Path() geom.Path {
	side, r, R := p.arcs()
	a, d := p.Half, p.Depth
	// Shoulder's and crown's centres on the right; they touch on their line.
	c1, c2 := geom.Pt(a-r, -side), geom.Pt(0, R-d)
	t := c2.Add(c1.Sub(c2).Unit().Mul(R))
	m := geom.Pt(-t.X, t.Y)
	var out geom.Path
	if side > geom.Coincident {
		out = append(out, geom.Line(geom.Pt(-a, 0), geom.Pt(-a, -side)))
	} else {
		side = 0
		c1.Y = 0
	}
	out = append(out,
		geom.ArcAbout(geom.Pt(-c1.X, c1.Y), geom.Pt(-a, -side), m, 1),
		geom.ArcAbout(c2, m, t, 1),
		geom.ArcAbout(c1, t, geom.Pt(a, -side), 1))
	if side > 0 {
		out = append(out, geom.Line(geom.Pt(a, -side), geom.Pt(a, 0)))
	}
	return out
}

// Region returns the wood under the board.
func (p Profile) Region() geom.Region {
	q := p.Path()
	return geom.Region{append(q, geom.Line(q[len(q)-1].B, q[0].A))}
}

// Gauge returns the female gauge of a profile: a plate with a web of so many mm
// round the curve, whose two ends come level with the underside of the board.
func (p Profile) Gauge(web float64) geom.Path {
	a, d := p.Half, p.Depth
	out := p.Path().Reversed() // clockwise over the hollow: wood lies outside it
	return append(out,
		geom.Line(geom.Pt(-a, 0), geom.Pt(-a-web, 0)),
		geom.Line(geom.Pt(-a-web, 0), geom.Pt(-a-web, -d-web)),
		geom.Line(geom.Pt(-a-web, -d-web), geom.Pt(a+web, -d-web)),
		geom.Line(geom.Pt(a+web, -d-web), geom.Pt(a+web, 0)),
		geom.Line(geom.Pt(a+web, 0), geom.Pt(a, 0)))
}
