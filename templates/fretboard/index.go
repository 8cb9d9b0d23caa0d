package fretboard

import (
	"fmt"
	"math"
	"sort"

	"routwright/geom"
)

// IndexSpec is how a board is led past a saw that stands still, from slot to slot.
// A square board lies on a strip whose edge runs along a fence and whose notches
// drop on one pin; a fan lies on a carrier that also turns, on two pins that stand
// on a line along the saw. All in mm.
type IndexSpec struct {
	Holes  bool    // holes bored through, in place of notches in the edges
	Pin    float64 // diameter of the pin or pins; 0: the thickest usual one that leaves wood
	Offset float64 // from the middle of the pin to the middle of the kerf, positive when the saw is nearer the nut
	Span   float64 // between the middles of a carrier's two pins; 0: clear of the board
	Play   float64 // a notch or hole is this much wider than the pin, which is pressed against its side nearest the bridge
}

// Index is a laid-out strip or carrier, in the coordinates of the board, seen
// from the front. It lies under the board, or over it for a saw from below.
//
//	  ┌──────────┐
//	  │  ┌────┐  │   one pin in line with the saw, or Offset behind it;
//	◯═╡  ├────┤  │   notch n stands where slot n lies on the saw
//	◯═╡  ├────┤  │
//	  │  └────┘  │
//	  └──────────┘
type Index struct {
	Spec  IndexSpec
	Two   bool      // a carrier on two pins
	Plate geom.Path // outline, counter-clockwise, with its notches
	Seats []Seat    // by place from the nut
	Web   float64   // least wood between neighbouring notches or holes; +Inf for one
}

// Seat is one place of the strip or carrier.
type Seat struct {
	Name string
	Cut  geom.Seg // middle of the kerf that is sawn there, bass end first
	// Pins are the middles of the pins while it is sawn, bass side first; a strip
	// has one. Holes are the middles of the notches' widths there.
	Pins, Holes []geom.Point
}

// usualPins are diameters of dowels and drill rod, thickest first (common
// practice), and indexWeb the wood to leave between their notches.
var usualPins = []float64{6, 5, 4, 3, 2.5, 2}

const (
	indexWeb    = 3.0 // mm between notches, for choosing a pin
	indexClear  = 9.0 // from a pin's edge to the board: numbers stand there
	indexMargin = 12.0
	notchDeeper = 1.0 // past the pin, so that it bears on the side and not on the bottom
)

// NewIndex lays out the strip or the carrier of b. Each notch is placed from the
// nut, never from its neighbour. The error names a field of IndexSpec in Problems.
func (b *Board) NewIndex(s IndexSpec) (*Index, error) {
	b = b.original()
	var ps Problems
	if s.Pin != 0 {
		ps.within("index.pin", s.Pin, 1, 20, "diameter of the pin")
	}
	ps.within("index.offset", s.Offset, -300, 300, "from the middle of the pin to the middle of the kerf")
	ps.within("index.play", s.Play, 0, 1, "by which a notch is wider than the pin")
	if s.Span != 0 && !b.Fanned() {
		ps.add("index.span", "%s mm given, but a board with square slots is led by one pin and a fence: leave it out", decimals(s.Span))
	}
	if len(ps) > 0 {
		return nil, ps
	}
	if s.Pin != 0 {
		return b.index(s)
	}
	var x *Index
	var err error
	for _, s.Pin = range usualPins {
		if x, err = b.index(s); err == nil && x.Web >= indexWeb {
			return x, nil
		}
	}
	return x, err
}

func (b *Board) index(s IndexSpec) (*Index, error) {
	half := 0.0 // of the board, at its widest
	for _, p := range b.Outline.Vertices() {
		half = math.Max(half, math.Abs(p.X))
	}
	x := &Index{Spec: s, Two: b.Fanned()}
	slant := 0.0
	for _, sl := range b.Slots {
		slant = math.Max(slant, math.Abs(float64(sl.Angle)))
	}
	need := 2 * (half + s.Pin/2 + indexClear) / math.Cos(slant)
	if s.Span == 0 {
		s.Span = math.Ceil(need/5) * 5
	}
	if least := 2 * (half + s.Pin/2) / math.Cos(slant); s.Span < least {
		return nil, Problems{{"index.span", fmt.Sprintf("%s mm puts the pins under the board: give at least %.0f mm", decimals(s.Span), math.Ceil(need))}}
	}
	if x.Two {
		x.Spec.Span = s.Span
	}
	for _, c := range b.indexCuts() {
		u := c.Cut.B.Sub(c.Cut.A).Unit() // along the saw
		up := u.Left()                   // towards the nut
		pins := moved(c.Cut, -s.Offset)
		t, _, ok := meet(pins, geom.Line(geom.Pt(0, 0), geom.Pt(0, 1)))
		if !ok {
			continue // no slot runs along the centre line
		}
		m := pins.A.Lerp(pins.B, t)
		c.Pins = []geom.Point{m.Add(u.Mul(-s.Span / 2))}
		if x.Two {
			c.Pins = append(c.Pins, m.Add(u.Mul(s.Span/2)))
		}
		for _, p := range c.Pins {
			c.Holes = append(c.Holes, p.Add(up.Mul(s.Play/2)))
		}
		x.Seats = append(x.Seats, c)
	}
	x.layPlate(b, s.Span)
	return x, nil
}

// indexCuts returns what is sawn: every slot, and the nut's edge with the kerf
// behind it where that leaves wood beside the first slot.
func (b *Board) indexCuts() []Seat {
	nut := Seat{Name: "nut", Cut: moved(b.NutEdge, b.Spec.Slot.Kerf/2)}
	var out []Seat
	if !b.Spec.ZeroFret || b.Spec.Nut.Behind >= 2*usualPins[len(usualPins)-1]+indexWeb {
		out = append(out, nut)
	}
	done := map[float64]bool{}
	for _, sl := range b.Slots { // partial slots at one place share a notch
		if !done[sl.Fret] {
			done[sl.Fret] = true
			out = append(out, Seat{Name: sl.Name(), Cut: sl.Line})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Name == "nut" && out[j].Name != "nut" })
	return out
}

// layPlate draws the plate round board and seats, and measures its webs.
func (x *Index) layPlate(b *Board, span float64) {
	box := b.Outline.Bounds()
	r := (x.Spec.Pin + x.Spec.Play) / 2
	for _, s := range x.Seats {
		box = box.Union(geom.BoxOf(s.Holes...))
	}
	y0, y1 := box.Min.Y-indexMargin, box.Max.Y+indexMargin
	edge := span/2 + r + notchDeeper // beyond every pin: notches open here
	if x.Spec.Holes {
		edge = span/2 + indexMargin
	}
	x.Web = math.Inf(1)
	right := []geom.Seg{}
	at := geom.Pt(edge, y0)
	if x.Two && !x.Spec.Holes {
		for i := len(x.Seats) - 1; i >= 0; i-- {
			n := x.notch(i, 1, edge)
			right = append(right, geom.Line(at, n[0].A))
			right = append(right, n...)
			at = n[len(n)-1].B
		}
	}
	right = append(right, geom.Line(at, geom.Pt(edge, y1)))
	var left []geom.Seg
	at = geom.Pt(-edge, y1)
	if !x.Spec.Holes {
		for i := range x.Seats {
			n := x.notch(i, 0, edge)
			left = append(left, geom.Line(at, n[0].A))
			left = append(left, n...)
			at = n[len(n)-1].B
		}
	}
	left = append(left, geom.Line(at, geom.Pt(-edge, y0)))
	x.Plate = geom.Path{geom.Line(geom.Pt(-edge, y0), geom.Pt(edge, y0))}
	x.Plate = append(x.Plate, right...)
	x.Plate = append(x.Plate, geom.Line(geom.Pt(edge, y1), geom.Pt(-edge, y1)))
	x.Plate = append(x.Plate, left...)
	for k := range x.pinCount() {
		for i := 1; i < len(x.Seats); i++ {
			x.Web = math.Min(x.Web, x.axis(i-1, k, edge).gap(x.axis(i, k, edge))-2*r)
		}
	}
}

func (x *Index) pinCount() int {
	if x.Two {
		return 2
	}
	return 1
}

// stroke is the middle line of a notch, from its bottom to the plate's edge; of a
// hole, a point.
type stroke geom.Seg

// gap returns the distance between two strokes that do not cross; less than 0
// where they do.
func (s stroke) gap(t stroke) float64 {
	d := math.Inf(1)
	a, b := geom.Seg(s), geom.Seg(t)
	if a.Length() > 0 && b.Length() > 0 {
		if u, v, ok := meet(a, b); ok && u >= 0 && u <= 1 && v >= 0 && v <= 1 {
			return -1
		}
	}
	for _, p := range []struct {
		p geom.Point
		s geom.Seg
	}{{a.A, b}, {a.B, b}, {b.A, a}, {b.B, a}} {
		d = math.Min(d, p.p.Dist(p.s.Closest(p.p)))
	}
	return d
}

// axis returns the stroke of notch i at pin k of a plate whose edges lie at ±edge.
func (x *Index) axis(i, k int, edge float64) stroke {
	s := x.Seats[i]
	h := s.Holes[k]
	if x.Spec.Holes {
		return stroke(geom.Line(h, h))
	}
	out := s.Cut.A.Sub(s.Cut.B).Unit()
	side := -1.0
	if k == 1 {
		out, side = out.Neg(), 1
	}
	bottom := h.Add(out.Mul(-notchDeeper))
	return stroke(geom.Line(bottom, h.Add(out.Mul((side*edge-h.X)/out.X))))
}

// notch returns notch i at pin k as the outline runs through it,
// counter-clockwise round the plate: two sides along the saw and a round bottom.
func (x *Index) notch(i, k int, edge float64) []geom.Seg {
	a := geom.Seg(x.axis(i, k, edge))
	r := (x.Spec.Pin + x.Spec.Play) / 2
	out := a.B.Sub(a.A).Unit()
	v := out.Left().Mul(r)
	mouth := func(w geom.Vec) geom.Point {
		p := a.A.Add(w)
		return geom.Pt(a.B.X, p.Y+out.Y/out.X*(a.B.X-p.X))
	}
	// Out of the mouth one sees the plate's edge run from right to left.
	first, last := a.A.Add(v.Neg()), a.A.Add(v)
	return []geom.Seg{geom.Line(mouth(v.Neg()), first), geom.ArcAbout(a.A, first, last, -1), geom.Line(last, mouth(v))}
}
