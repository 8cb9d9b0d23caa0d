package check

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// keyUnderContour measures how much of a key a contour of its own face leaves.
func keyUnderContour(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, k := range j.OfKind(part.Recess) {
		for _, c := range j.OfKind(part.Contour) {
			if c.Face != k.Face {
				continue
			}
			left, at, ok := job.LeftUnder(k, c, j.Thickness)
			if !ok {
				continue
			}
			if l, want, bad := r.below(left); bad {
				msg := fmt.Sprintf("%s leaves %s mm of the depth of %s, less than %s", c, mm(left), k, mm(want))
				if left <= 0 {
					msg = fmt.Sprintf("%s cuts through %s, which is %s mm deep", c, k, mm(faceDepth(j, k)))
				}
				out = append(out, r.finding(l, left, want, msg, "move the key, make it deeper, or let the contour reach less far", k.At, Place{at, "key under contour"}))
			}
		}
	}
	return out
}

// opensOn reports whether a part is open on a face.
func opensOn(j *job.Job, p part.Part, f part.Face) bool {
	top, floor := p.Range()
	if f == part.Back {
		return floor >= j.Thickness-geom.Budget
	}
	return top <= geom.Budget
}

// edgeTreated compares the edge's profile with the walls that it takes from, and
// with what needs the face or the edge whole: covers, and the neck in its
// pocket. Contours take faces too.
func edgeTreated(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, f := range []part.Face{part.Front, part.Back} {
		p := j.Edge.Faces[f]
		if p.Size() == 0 {
			continue
		}
		at, word := j.Design.Body.Edge.At, "roundover"
		if p.Chamfer > 0 {
			word = "chamfer"
		}
		for _, v := range j.Voids() {
			if !opensOn(j, v, f) {
				continue
			}
			g := space.Of(v).ToEdge(squareEdge(j))
			switch {
			case v.Kind == part.Pocket && g.D == 0:
				out = append(out, r.finding(Warn, p.Size(), 0, fmt.Sprintf("the %s of %s mm on the %s runs over the mouth of %s, whose edge the neck needs", word, mm(p.Size()), f, v), "end it before the pocket", at, Place{g.A.Flat(), "mouth of the pocket"}))
			case v.Kind != part.Pocket && p.Size() > g.D/2:
				out = append(out, r.finding(Warn, p.Size(), g.D/2, fmt.Sprintf("the %s of %s mm on the %s takes more than half of the wall of %s mm beside %s", word, mm(p.Size()), f, mm(g.D), v), fmt.Sprintf("use at most %s mm, or move the cavity inward", mm(g.D/2)), at, Place{g.A.Flat(), "thin wall"}))
			}
		}
	}
	for _, c := range j.OfKind(part.Contour) {
		for _, v := range j.Parts {
			if v.Face != c.Face || !restsOnFace(v.Kind) {
				continue
			}
			if both := overlap(v, c); !both.Empty() {
				out = append(out, r.finding(Warn, both.Area(), 0, fmt.Sprintf("%s takes %s mm² of the face that %s needs flat", c, mm(both.Area()), v), "move one of them", c.At, spots(both, "face needed")...))
			}
		}
	}
	return out
}

// restsOnFace reports whether a part of this kind needs the face round it flat:
// what lies on it or flush with it.
func restsOnFace(k part.Kind) bool {
	switch k {
	case part.Pickup, part.Rebate, part.Pocket, part.Post:
		return true
	}
	return false
}

// squareEdge returns the edge before it is treated.
func squareEdge(j *job.Job) *space.Edge {
	return space.NewEdge(j.Outline, j.Thickness, space.Profile{}, space.Profile{})
}

// edgeReach notes the inside curves of the outline that the bearing bridges.
func edgeReach(r Rule, j *job.Job) []Finding {
	if j.EdgeBit == nil {
		return nil
	}
	var out []Finding
	edge := geom.IndexOf(j.Outline)
	for _, piece := range j.EdgeBit.Missed.Components() {
		deep, at := bridged(piece, edge)
		if deep <= r.Note {
			continue
		}
		out = append(out, r.finding(Note, deep, r.Note, fmt.Sprintf("the bearing of %s mm bridges an inside curve of the outline and stays %s mm off it", mm(j.EdgeBit.Bearing), mm(deep)), "finish that stretch by hand, or use a smaller bearing", j.Design.Body.Edge.At, Place{at, "edge by hand"}))
	}
	return out
}

// bridged returns how far the bearing's side of a missed piece stays off the
// outline, and where on the outline.
func bridged(piece geom.Region, outline *geom.Index) (deep float64, at geom.Point) {
	const marks = 16 // along an arc of a bearing, whose distance rises and falls once
	for _, loop := range piece {
		for _, e := range loop {
			for i := 1; i < marks; i++ {
				if q, d := outline.Closest(e.At(float64(i) / marks)); d > deep {
					deep, at = d, q
				}
			}
		}
	}
	return deep, at
}
