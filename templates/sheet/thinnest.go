package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// wall is the wood between two things, at its thinnest.
type wall struct {
	space.Gap
	words string // "between the neck pocket and the tail pickup"
}

// opens is how near two voids must come to be one, mm: wood thinner than the
// finest line drawn is none.
const opens = 0.1

// thinnest returns the thinnest wood of the body: between two voids that are not
// made to meet, under a void to the other face, and between a void and the
// finished edge. found is false when there is no void.
func thinnest(j *job.Job) (least wall, found bool) {
	least.D = math.Inf(1)
	take := func(g space.Gap, words string) {
		// Between a screw in the floor of a rebate and the face is air, not wood.
		if g.D > opens && g.D < least.D && part.WoodAt(j.Parts, g.A.Lerp(g.B, 0.5)) {
			least, found = wall{g, words}, true
		}
	}
	var voids []*space.Body
	for _, p := range j.Parts {
		if p.Stage() == part.Machined && len(p.Solids)+len(p.Bores) > 0 {
			voids = append(voids, space.Of(p))
		}
	}
	rim := j.Edge
	if rim == nil {
		rim = space.NewEdge(j.Outline, j.Thickness, space.Profile{}, space.Profile{})
	}
	for i, a := range voids {
		if a.Part.Kind != part.Contour {
			for _, f := range [2]part.Face{part.Front, part.Back} {
				take(a.ToFace(f, j.Thickness), fmt.Sprintf("between %s and the %s", a.Part, f))
			}
			take(a.ToEdge(rim), fmt.Sprintf("between %s and the edge of the body", a.Part))
		}
		for _, b := range voids[i+1:] {
			if a.Part.Group != "" && a.Part.Group == b.Part.Group {
				continue
			}
			take(a.Within(b, least.D), fmt.Sprintf("between %s and %s", a.Part, b.Part))
		}
	}
	return least, found
}

// thinnestSection returns the line of a section through a wall: along it where
// it stands upright, else straight across the body.
func thinnestSection(j *job.Job, w wall) (job.Section, bool) {
	at := w.A.Lerp(w.B, 0.5).Flat()
	u := w.B.Flat().Sub(w.A.Flat()).Unit()
	if w.A.Flat().Dist(w.B.Flat()) < opens {
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
