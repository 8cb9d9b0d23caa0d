package neck

import (
	"math"

	"routwright/geom"
)

// fold is the line where the head begins, bass end first, and how far its face
// tilts back there.
type fold struct {
	line geom.Seg
	tilt geom.Angle
}

// beyond returns how far p lies beyond the line, square to it, in the plane of
// the face; negative towards the body.
func (f fold) beyond(p geom.Point) float64 {
	return f.line.B.Sub(f.line.A).Unit().Cross(p.Sub(f.line.A))
}

// plan returns where a point of the face, laid flat about the line, is seen
// from the front: beyond the line the tilt foreshortens by its cosine.
func (f fold) plan(p geom.Point) geom.Point {
	h := f.beyond(p)
	if h <= 0 {
		return p
	}
	n := f.line.B.Sub(f.line.A).Unit().Left()
	return p.Add(n.Mul(-h * (1 - math.Cos(float64(f.tilt)))))
}

// flat returns the bend in the plane of the face that is seen from the front as
// the given one, the stretch between nut and line aside.
func (f fold) flat(bend geom.Angle) geom.Angle {
	return geom.Angle(math.Atan(math.Tan(float64(bend)) * math.Cos(float64(f.tilt))))
}
