package sheet

import (
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/wall"
)

// thinnestSection returns the line of a section through a wall: along it where
// it stands upright, else straight across the body.
func thinnestSection(j *job.Job, w wall.Wall) (job.Section, bool) {
	at := w.A.Lerp(w.B, 0.5).Flat()
	u := w.B.Flat().Sub(w.A.Flat()).Unit()
	if w.A.Flat().Dist(w.B.Flat()) < wall.Opens {
		u = geom.Vec{X: 1}
	}
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 {
		u = u.Neg()
	}
	cs := j.Outline.Chords(at, at.Add(u))
	if len(cs) == 0 {
		return job.Section{}, false
	}
	return job.Section{Name: "the thinnest wood", From: at.Add(u.Mul(cs[0][0])), To: at.Add(u.Mul(cs[len(cs)-1][1]))}, true
}
