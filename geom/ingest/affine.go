package ingest

import (
	"math"

	"routwright/geom"
)

// compose returns the map that does the last of ms first: a child's transform
// after its parent's in the list, as in an SVG transform attribute.
func compose(ms ...geom.Affine) geom.Affine {
	m := geom.Identity
	for _, n := range ms {
		m = n.Then(m)
	}
	return m
}

func det(m geom.Affine) float64 { return m[0]*m[3] - m[1]*m[2] }

func shift(x, y float64) geom.Affine { return geom.Affine{1, 0, 0, 1, x, y} }

func stretch(x, y float64) geom.Affine { return geom.Affine{x, 0, 0, y, 0, 0} }

func turn(a geom.Angle) geom.Affine {
	s, c := math.Sincos(float64(a))
	return geom.Affine{c, s, -s, c, 0, 0}
}

// axes returns the half axes, the longer first: the singular values of the
// matrix with the columns u and v.
func axes(e geom.Ellipse) (a, b float64) {
	uu, vv, uv := e.U.Dot(e.U), e.V.Dot(e.V), e.U.Dot(e.V)
	a = math.Sqrt((uu+vv)/2 + math.Hypot((uu-vv)/2, uv))
	if a == 0 {
		return 0, 0
	}
	return a, math.Abs(e.U.Cross(e.V)) / a
}

// part returns the piece of e from t0 to t1.
func part(e geom.Ellipse, t0, t1 float64) geom.Ellipse {
	e.Start, e.Sweep = e.Start+geom.Angle(t0)*e.Sweep, geom.Angle(t1-t0)*e.Sweep
	return e
}
