// Package wall finds the wood that is left: between two voids, between a void and
// a face, and between a void and the finished edge, each at its thinnest.
//
//	Of        all walls up to a thickness, the thinnest first
//	Thinnest  the thinnest of all
package wall

import (
	"fmt"
	"math"
	"sort"

	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// Wall is the wood between two things, at its thinnest. D of the gap is its
// thickness in mm, A and B are the places it stands between.
type Wall struct {
	space.Gap
	Between, And string // in words: `pickup cavity "tail"`, "the front"
}

// Words says what the wall stands between.
func (w Wall) Words() string { return fmt.Sprintf("between %s and %s", w.Between, w.And) }

// Opens is how near two voids must come to be one, mm: wood thinner than the
// finest line drawn is none.
const Opens = 0.1

// Of returns the walls of a job's body that are at most as thick as within, mm,
// the thinnest first. Voids that meet, or that are made to, have none between
// them; nor is there one where the nearest places have air between them.
func Of(j *job.Job, within float64) []Wall {
	var out []Wall
	each(j, func() float64 { return within }, func(w Wall) { out = append(out, w) })
	sort.SliceStable(out, func(i, k int) bool { return out[i].D < out[k].D })
	return out
}

// Thinnest returns the thinnest wall of a job's body; found is false when it has
// no void.
func Thinnest(j *job.Job) (least Wall, found bool) {
	least.D = math.Inf(1)
	each(j, func() float64 { return least.D }, func(w Wall) {
		if w.D < least.D {
			least, found = w, true
		}
	})
	return least, found
}

// each calls take for the walls up to a limit, which may sink meanwhile.
func each(j *job.Job, limit func() float64, take func(Wall)) {
	offer := func(g space.Gap, a part.Part, b string) {
		// Between a screw in the floor of a rebate and the face is air, not wood.
		if g.D > Opens && g.D <= limit() && part.WoodAt(j.Parts, g.A.Lerp(g.B, 0.5)) {
			take(Wall{g, a.String(), b})
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
				offer(a.ToFace(f, j.Thickness), a.Part, "the "+f.String())
			}
			offer(a.ToEdge(rim), a.Part, "the edge of the body")
		}
		for _, b := range voids[i+1:] {
			if a.Part.Group == "" || a.Part.Group != b.Part.Group {
				offer(a.Within(b, limit()), a.Part, b.Part.String())
			}
		}
	}
}
