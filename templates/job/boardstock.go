package job

import "math"

// BoardStock is the fretboard as it is bought and as it is cut, and the wire for it.
// mm.
type BoardStock struct {
	Long, Wide, Thick float64 // finished: along the strings, at its wider end, in its middle; Thick is 0 where the design does not say
	Nut               float64 // width at its narrow end
	Wire              float64 // length of fret wire for all slots, with what is cut off at both ends
	Slots             int
	Edge              float64 // how far its surface lies lower at the edge than in the middle, at the most
}

// fretPast is how far a fret is cut longer than its slot at each end, mm. Common
// practice.
const fretPast = 3.0

// BoardStock returns the measures of the fretboard; ok is false without one.
func (j *Job) BoardStock() (s BoardStock, ok bool) {
	b := j.Board
	if b == nil {
		return s, false
	}
	box := b.Outline.Bounds()
	s = BoardStock{Long: box.H(), Wide: box.W(), Nut: b.NutLine.A.Dist(b.NutLine.B), Slots: len(b.Slots), Thick: float64(j.Design.Board.Thickness.V)}
	if j.Neck != nil {
		s.Thick = j.Neck.Board
	}
	for _, q := range b.Slots {
		s.Wire += q.Line.A.Dist(q.Line.B) + 2*fretPast
	}
	if !b.Spec.Radius.Flat() {
		for _, e := range b.Outline {
			if d := b.Drop(e.A); !math.IsNaN(d) {
				s.Edge = math.Max(s.Edge, d)
			}
		}
	}
	return s, true
}
