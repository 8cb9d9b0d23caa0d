// Package holes lists the holes of a job as a builder drills them: numbered,
// each with its place from two datums and from the edges of the squared blank,
// and rows of equal holes with their pitch.
//
//	Of      every hole of a body, numbered, in a fixed order
//	Hole    one hole as one drill makes it
//	Row     equal holes in a straight line, evenly apart
package holes

import (
	"fmt"
	"math"
	"sort"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// Side is where a hole is drilled from.
type Side uint8

const (
	FromFront Side = iota
	FromBack
	FromEdge   // from the edge of the body
	FromInside // from the wall of a cavity
)

// String returns the side in words.
func (s Side) String() string {
	return [...]string{"front", "back", "edge", "cavity wall"}[s]
}

// Hole is one hole as one drill makes it. Holes of unlike drills on one axis
// share their number.
type Hole struct {
	Number int
	Part   string // id of its part
	Words  string // what it is for
	From   Side
	D      float64 // of the drill, mm
	Depth  float64 // along the drill, from where it enters, mm
	Start  float64 // where the drill enters, mm below the face it is drilled from
	Opens  [2]bool // front, back
	Into   bool    // the drill comes out in a cavity
	Lean   geom.Angle
	Toward string // where an oblique drill leads, in words
	Bore   part.Bore
	Row    int // from 1; 0 when in none
}

// Through reports whether the hole opens both faces.
func (h Hole) Through() bool { return h.Opens[part.Front] && h.Opens[part.Back] }

// At returns the middle of the hole where it opens a face: where the drill
// enters, or where it comes out.
func (h Hole) At(f part.Face) geom.Point {
	if h.From == FromFront && f == part.Back || h.From == FromBack && f == part.Front {
		return h.Bore.To.Flat()
	}
	return h.Bore.From.Flat()
}

// Enters reports whether the hole is drilled from the face.
func (h Hole) Enters(f part.Face) bool { return h.From == Side(f) }

// DepthWords says how deep the hole goes.
func (h Hole) DepthWords() string {
	switch {
	case h.Through():
		return "through"
	case h.Into:
		return "into the cavity"
	}
	return design.MM(h.Depth) + " deep"
}

// DrillWords says what is drilled from where: "3.2 through, from the front".
func (h Hole) DrillWords() string {
	w := fmt.Sprintf("%s mm %s", design.MM(h.D), h.DepthWords())
	if h.Start > onFace && (h.From == FromFront || h.From == FromBack) {
		w += fmt.Sprintf(", from %s below the %s", design.MM(h.Start), h.From)
	}
	return w
}

// Row is a run of holes of one drill and depth in a straight line, evenly apart.
type Row struct {
	First, Last int // indices of Holes
	Pitch       float64
}

// List is every hole of a job.
type List struct {
	Holes []Hole
	Rows  []Row
}

// even is how unlike the steps of one row may be, mm: below what is marked.
const even = 0.005

// leastRow is how many holes make a row.
const leastRow = 3

// onFace is how near to a face a drill must enter to count as drilled from it, mm.
const onFace = 1e-6

// Of lists the holes of the body: part by part in the order of the job, and
// within a part from the neck to the tail and from the bass to the treble side.
// Holes of parts that lie beside the body, covers and boards, are not in it.
func Of(j *job.Job) List {
	var l List
	numbers := map[[2]int64]int{}
	next := 1
	for _, p := range j.Parts {
		if p.Stage() != part.Machined {
			continue
		}
		hs := make([]Hole, 0, len(p.Bores))
		for _, b := range p.Bores {
			if b.Length() > 0 && b.D > 0 {
				hs = append(hs, holeOf(j, p, b))
			}
		}
		order(j, hs)
		first := len(l.Holes)
		for _, h := range hs {
			key := axis(h.Bore)
			n, ok := numbers[key]
			if !ok || !h.Bore.Square() {
				n = next
				next++
				if h.Bore.Square() {
					numbers[key] = n
				}
			}
			h.Number = n
			l.Holes = append(l.Holes, h)
		}
		l.rows(first)
	}
	return l
}

// axis returns the place of a square hole to a thousandth of a millimetre.
func axis(b part.Bore) [2]int64 {
	return [2]int64{int64(math.Round(b.From.X * 1e3)), int64(math.Round(b.From.Y * 1e3))}
}

// order sorts the holes of one part: equal drills together, the wider first, so
// that a counterbore comes before its hole; then from the neck to the tail and
// from bass to treble.
func order(j *job.Job, hs []Hole) {
	bass := 1.0
	if left(j) {
		bass = -1
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < even }
	sort.SliceStable(hs, func(i, k int) bool {
		a, b := hs[i], hs[k]
		switch {
		case a.From != b.From:
			return a.From < b.From
		case !near(a.D, b.D):
			return a.D > b.D
		case a.Words != b.Words:
			return a.Words < b.Words
		case !near(a.Bore.From.Y, b.Bore.From.Y):
			return a.Bore.From.Y > b.Bore.From.Y
		}
		return bass*a.Bore.From.X < bass*b.Bore.From.X
	})
}

func left(j *job.Job) bool { return j.Design != nil && j.Design.Hand.V == "left" }

func holeOf(j *job.Job, p part.Part, b part.Bore) Hole {
	h := Hole{Part: p.ID, Words: b.Words, D: b.D, Depth: b.Length(), Bore: b, Lean: b.Lean()}
	if h.Words == "" {
		h.Words = string(p.Kind)
	}
	down := b.To.Z > b.From.Z
	switch {
	case b.From.Z <= onFace && down:
		h.From = FromFront
	case b.From.Z >= j.Thickness-onFace && !down:
		h.From = FromBack
	case b.Steep() && down:
		h.From, h.Start = FromFront, b.From.Z
	case b.Steep():
		h.From, h.Start = FromBack, j.Thickness-b.From.Z
	case j.Outline.Contains(b.From.Flat()) && edgeDistance(j, b.From.Flat()) > 1:
		h.From, h.Start = FromInside, b.From.Z
	default:
		h.From, h.Start = FromEdge, b.From.Z
	}
	lo, hi := math.Min(b.From.Z, b.To.Z), math.Max(b.From.Z, b.To.Z)
	if h.From == FromFront || h.From == FromBack {
		// A drill that starts on a floor opens the face that lies over that floor
		// only in the void, where there is no wood left to mark.
		h.Opens = [2]bool{lo <= onFace, hi >= j.Thickness-onFace}
	}
	h.Into = !h.Through() && comesOut(j, b)
	if !b.Square() {
		h.Toward = Towards(j, b.To.Flat().Sub(b.From.Flat()))
	}
	return h
}

// comesOut reports whether a drill of full width stands in a void past its end:
// there is no wood just beyond the middle and round the rim.
func comesOut(j *job.Job, b part.Bore) bool {
	const beyond, rim = 0.05, 0.45 // mm; of the diameter
	end := b.From.Lerp(b.To, 1+beyond/b.Length())
	if !j.Outline.Contains(end.Flat()) {
		return false
	}
	ux, uy, uz := (b.To.X-b.From.X)/b.Length(), (b.To.Y-b.From.Y)/b.Length(), (b.To.Z-b.From.Z)/b.Length()
	// Two directions square to the axis, one of them level.
	ax, ay := 1.0, 0.0
	if n := math.Hypot(ux, uy); n > 1e-9 {
		ax, ay = uy/n, -ux/n
	}
	for k := range 9 {
		s, c := math.Sincos(float64(k) * math.Pi / 4)
		r := rim * b.D
		if k == 8 {
			r = 0
		}
		q := part.Point{X: end.X + r*(c*ax-s*ay*uz), Y: end.Y + r*(c*ay+s*ax*uz), Z: end.Z + r*s*(ux*ay-uy*ax)}
		if part.WoodAt(j.Parts, q) {
			return false
		}
	}
	return true
}

func edgeDistance(j *job.Job, p geom.Point) float64 {
	_, d := geom.IndexOf(j.Outline).Closest(p)
	return d
}

// Towards says where v points, seen from the front: degrees from straight to the neck, and to which
// side.
func Towards(j *job.Job, v geom.Vec) string {
	if left(j) {
		v.X = -v.X
	}
	a := geom.Angle(math.Atan2(v.X, v.Y)).Degrees() // from the neck, + to the treble side
	side := "treble"
	if a < 0 {
		a, side = -a, "bass"
	}
	switch r := math.Round(a*100) / 100; {
	case r == 0:
		return "towards the neck"
	case r == 180:
		return "towards the tail"
	case r == 90:
		return "towards the " + side + " side"
	case r < 90:
		return fmt.Sprintf("towards the neck, %s° to the %s side", design.MM(a), side)
	}
	return fmt.Sprintf("towards the tail, %s° to the %s side", design.MM(180-a), side)
}

// rows finds the rows among the holes from first on.
func (l *List) rows(first int) {
	for i := first; i < len(l.Holes); {
		k := i + 1
		for k < len(l.Holes) && l.continues(i, k) {
			k++
		}
		if k-i >= leastRow {
			r := Row{First: i, Last: k - 1, Pitch: l.step(i).Len()}
			l.Rows = append(l.Rows, r)
			for n := i; n < k; n++ {
				l.Holes[n].Row = len(l.Rows)
			}
			i = k
			continue
		}
		i++
	}
}

// continues reports whether hole k goes on with the row that starts at i.
func (l *List) continues(i, k int) bool {
	a, b := l.Holes[i], l.Holes[k]
	if a.D != b.D || a.Words != b.Words || a.From != b.From || !a.Bore.Square() || !b.Bore.Square() {
		return false
	}
	if math.Abs(a.Depth-b.Depth) > even || math.Abs(a.Start-b.Start) > even {
		return false
	}
	if k == i+1 {
		return true
	}
	d := l.step(i).Sub(l.step(k - 1))
	return d.Len() < even
}

// step returns the way from hole i to the next.
func (l *List) step(i int) geom.Vec {
	return l.Holes[i+1].Bore.From.Flat().Sub(l.Holes[i].Bore.From.Flat())
}

// OnFace returns the indices of the holes that a drill map of the face shows:
// those drilled from it, in the floor of a cavity too, then those whose drill
// comes out of it.
func (l List) OnFace(f part.Face) []int {
	var out, through []int
	for i, h := range l.Holes {
		switch {
		case h.Enters(f):
			out = append(out, i)
		case (h.From == FromFront || h.From == FromBack) && h.Opens[f]:
			through = append(through, i)
		}
	}
	return append(out, through...)
}

// Aside returns the indices of the holes drilled from the edge or from the wall
// of a cavity.
func (l List) Aside() []int {
	var out []int
	for i, h := range l.Holes {
		if h.From == FromEdge || h.From == FromInside {
			out = append(out, i)
		}
	}
	return out
}

// Place is where a hole lies: from the two datums, and from the edges of the
// squared blank as a rule laid against them reads. All mm.
type Place struct {
	Centre float64 // from the centre line, + to the treble side
	Bridge float64 // from the bridge line, + to the neck
	Bass   float64 // from the blank's edge on the bass side
	Tail   float64 // from the blank's edge at the tail
}

// PlaceOf returns where p lies.
func PlaceOf(j *job.Job, p geom.Point) Place {
	b := j.Blank.Bounds()
	if left(j) {
		return Place{-p.X, p.Y, b.Max.X - p.X, p.Y - b.Min.Y}
	}
	return Place{p.X, p.Y, p.X - b.Min.X, p.Y - b.Min.Y}
}

// CentreWords says how far from the centre line on which side.
func (p Place) CentreWords() string {
	switch w := design.MM(math.Abs(p.Centre)); {
	case w == "0":
		return "0"
	case p.Centre > 0:
		return w + " treble"
	default:
		return w + " bass"
	}
}
