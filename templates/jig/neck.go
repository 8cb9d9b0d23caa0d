package jig

import (
	"math"

	"routwright/geom"
	"routwright/templates/fretboard"
)

// Neck is a caul that presses a fretted board into its pocket: slices of sheet
// glued into a block, each hollow to the tops of the frets and the cork on them.
type Neck struct {
	From, To float64 // stretch of the board that it presses, from the bridge line: nearer the nut, nearer the bridge
	Width    float64 // of the slices: of the board where it is narrowest under the caul
	Sheet    float64 // thickness of a slice
	Cork     float64 // thickness of the lining
	Tilt     geom.Angle
	Slices   []Slice // from the nut's end
	// Off is the most by which the hollow and the surface that it should follow lie
	// apart at the board's edges, of all slices: what the cork takes up.
	Off float64
}

// Slice is one slice of the caul, as seen along the strings.
type Slice struct {
	From, To float64 // from the bridge line
	Radius   float64 // of its hollow; +Inf when flat
	Tall     float64 // over the crown of the hollow, at the end where it is taller
	Sagitta  float64 // of its hollow over its width
	Off      float64 // least fit: at one of its two faces
}

// Path returns the outline of a slice, its hollow below, about the middle of the
// chord between the ends of the hollow: counter-clockwise.
func (s Slice) Path(width float64) geom.Path {
	h := width / 2
	left, right := geom.Pt(-h, 0), geom.Pt(h, 0)
	top := s.Sagitta + s.Tall
	low := geom.Line(left, right)
	if !math.IsInf(s.Radius, 1) {
		low = geom.ArcAbout(geom.Pt(0, s.Sagitta-s.Radius), left, right, -1)
	}
	return geom.Path{low, geom.Line(right, geom.Pt(h, top)), geom.Line(geom.Pt(h, top), geom.Pt(-h, top)), geom.Line(geom.Pt(-h, top), left)}
}

// NeckSpec is what a caul for the neck is made from.
type NeckSpec struct {
	From, To float64    // stretch of the board over the pocket, from the bridge line
	Fret     float64    // height of the frets over the board
	Cork     float64    // thickness of the lining
	Sheet    float64    // thickness of the slices
	Tall     float64    // wood over the crown at the lower end
	Tilt     geom.Angle // by which the board leans back
}

// NewNeck returns the caul for a board. The tops of its frets lie on R(y) + fret,
// about the same axis as the board's surface, and the cork on R(y) + fret + cork;
// each slice takes the radius of its middle. ok is false where the stretch is shorter
// than a slice or the surface does not reach across the board.
func NewNeck(b *fretboard.Board, s NeckSpec) (n Neck, ok bool) {
	n = Neck{From: s.From, To: s.To, Sheet: s.Sheet, Cork: s.Cork, Tilt: s.Tilt}
	count := math.Floor((s.From - s.To) / s.Sheet)
	if !(s.Sheet > 0) || count < 1 {
		return n, false
	}
	long := count * s.Sheet
	n.From = (s.From+s.To)/2 + long/2
	n.To = n.From - long
	n.Width = min(narrow(b, n.From), narrow(b, n.To))
	if !(n.Width > 0) {
		return n, false
	}
	tan := math.Tan(float64(s.Tilt))
	radius := func(y float64) float64 { return b.RadiusAt(y) + s.Fret + s.Cork }
	for i := range int(count) {
		q := Slice{From: n.From - float64(i)*s.Sheet}
		q.To = q.From - s.Sheet
		q.Radius = radius((q.From + q.To) / 2)
		if !(q.Radius > n.Width/2) {
			return n, false
		}
		q.Sagitta = fretboard.Sagitta(q.Radius, n.Width/2)
		// The board rises towards the bridge: the caul is tallest at the nut's end,
		// so that its upper side lies level with the back.
		q.Tall = s.Tall + (q.From-n.To)*math.Max(0, tan)
		if tan < 0 {
			q.Tall = s.Tall + (q.To-n.From)*tan
		}
		for _, y := range [2]float64{q.From, q.To} {
			q.Off = math.Max(q.Off, math.Abs(fretboard.Sagitta(radius(y), n.Width/2)-q.Sagitta))
		}
		n.Off = math.Max(n.Off, q.Off)
		n.Slices = append(n.Slices, q)
	}
	return n, true
}

// narrow returns twice the least distance from the centre line to an edge of the
// board at height y: the width about the centre line that lies on the board.
func narrow(b *fretboard.Board, y float64) float64 {
	x := func(e geom.Seg) float64 { return e.A.X + (e.B.X-e.A.X)*(y-e.A.Y)/(e.B.Y-e.A.Y) }
	return 2 * min(math.Abs(x(b.BassEdge)), math.Abs(x(b.TrebleEdge)))
}
