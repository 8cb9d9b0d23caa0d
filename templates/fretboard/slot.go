package fretboard

import (
	"fmt"
	"math"
	"sort"
	"strconv"

	"routwright/geom"
)

// Slot is one fret slot. End A of its lines is the bass end.
type Slot struct {
	Fret     float64  // 0 for a zero fret; 3.5 for a partial fret between two
	Partial  bool     // under some of the strings only
	From, To int      // strings served, 1 … count for a whole slot
	Line     geom.Seg // the middle of the kerf, as sawn; ends on the edges, or Binding inside them
	Edge     geom.Seg // the same line from edge to edge (for a partial slot, to the middle between two strings)

	// BassFromNut and TrebleFromNut are the distances from the nut line along the
	// outer strings of a fan; on a single scale both are measured on the centre line.
	BassFromNut, TrebleFromNut float64

	// Angle to the square of the centre line, positive when the treble end lies
	// nearer the bridge.
	Angle geom.Angle
}

// Name returns the fret's number as written on paper: "12", "3.5".
func (s Slot) Name() string { return strconv.FormatFloat(s.Fret, 'f', -1, 64) }

// meet returns the parameters along a and along b where their unbounded lines
// cross; ok is false when they are parallel.
func meet(a, b geom.Seg) (t, u float64, ok bool) {
	d, e, w := a.B.Sub(a.A), b.B.Sub(b.A), b.A.Sub(a.A)
	den := d.Cross(e)
	if math.Abs(den) < 1e-9*d.Len()*e.Len() { // within 6e-8 degree of parallel
		return 0, 0, false
	}
	return w.Cross(e) / den, w.Cross(d) / den, true
}

// lane returns the line that bounds string lane i: 0 is the treble edge, count
// the bass edge, i the middle between strings i and i+1.
func (b *Board) lane(i int) geom.Seg {
	switch n := len(b.Strings); i {
	case 0:
		return b.TrebleEdge
	case n:
		return b.BassEdge
	default:
		p, q := b.Strings[i-1], b.Strings[i]
		return geom.Line(p.Nut.Lerp(q.Nut, 0.5), p.Saddle.Lerp(q.Saddle, 0.5))
	}
}

// inset returns lane i moved inward by the binding when it is an edge.
func (b *Board) inset(i int) geom.Seg {
	l := b.lane(i)
	d := b.Spec.Slot.Binding
	if d == 0 || i != 0 && i != len(b.Strings) {
		return l
	}
	v := l.B.Sub(l.A).Unit().Left().Mul(d) // edges run towards −Y: left is the treble side
	if i == 0 {
		v = v.Neg()
	}
	return geom.Line(l.A.Add(v), l.B.Add(v))
}

// cutAt returns the piece of line l between two bounds, bass end first.
func cutAt(l, bass, treble geom.Seg) (geom.Seg, bool) {
	t0, u0, ok0 := meet(l, bass)
	t1, u1, ok1 := meet(l, treble)
	if !ok0 || !ok1 || !(t0 < t1) {
		return geom.Seg{}, false
	}
	p, q := bass.A.Lerp(bass.B, u0), treble.A.Lerp(treble.B, u1)
	if l.A.Y == l.B.Y { // square slots lie at one height, bit for bit
		p.Y, q.Y = l.A.Y, l.A.Y
	}
	return geom.Line(p, q), true
}

// slot lays the slot at place x under strings from … to; ok is false when its
// line does not cross the board from edge to edge.
func (b *Board) slot(x float64, from, to int, partial bool) (Slot, bool) {
	l := b.across(x)
	edge, ok := cutAt(l, b.lane(to), b.lane(from-1))
	if !ok {
		return Slot{}, false
	}
	line, ok := cutAt(l, b.inset(to), b.inset(from-1))
	if !ok {
		return Slot{}, false
	}
	f := b.Spec.Tuning.Fraction(x)
	lb, lt := b.Scales()
	d := l.B.Sub(l.A)
	return Slot{
		Fret: x, Partial: partial, From: from, To: to, Line: line, Edge: edge,
		BassFromNut: lb * f, TrebleFromNut: lt * f,
		Angle: geom.Angle(math.Atan2(-d.Y, d.X) + 0), // +0: no minus zero
	}, true
}

// laySlots lays all the slots.
func (b *Board) laySlots(ps *Problems) {
	n := len(b.Strings)
	lay := func(field string, x float64, from, to int, partial bool) {
		s, ok := b.slot(x, from, to, partial)
		if !ok {
			ps.add(field, "slot %s does not cross the board from edge to edge: it lies too far off square; choose a square fret nearer the middle of the board", decimals(x))
			return
		}
		b.Slots = append(b.Slots, s)
	}
	field := "frets"
	if b.Fanned() {
		field = "fan.square"
	}
	first := 1
	if b.Spec.ZeroFret {
		first = 0
	}
	for i := first; i <= b.Spec.Frets && len(*ps) == 0; i++ {
		lay(field, float64(i), 1, n, false)
	}
	from, to := 1, b.Spec.Extra.Strings
	if b.Spec.Extra.Bass {
		from, to = n-b.Spec.Extra.Strings+1, n
	}
	for i := 1; i <= b.Spec.Extra.Frets && len(*ps) == 0; i++ {
		lay(field, float64(b.Spec.Frets+i), from, to, true)
	}
	for i, p := range b.Spec.Partials {
		lay(fmt.Sprintf("partials[%d]", i), p.Fret, p.From, p.To, true)
	}
	sort.SliceStable(b.Slots, func(i, j int) bool { return b.Slots[i].Fret < b.Slots[j].Fret })
}

// checkSlots reports slots that leave the board, cross, or lie so close that
// their kerfs run into one.
func (b *Board) checkSlots(ps *Problems) {
	field := "frets"
	if b.Fanned() {
		field = "fan.square"
	}
	n := len(b.Strings)
	for _, s := range b.Slots {
		if a := math.Abs(s.Angle.Degrees()); a > maxSlant {
			ps.add(field, "slot %s would lie %.1f° off square, allowed are up to %d°: choose a square fret nearer the middle of the board, or scales closer together", s.Name(), a, maxSlant)
			return
		}
		last := b.Spec.Frets
		if x := b.Spec.Extra; x.Frets > 0 && (!x.Bass && s.To <= x.Strings || x.Bass && s.From > n-x.Strings) {
			last += x.Frets
		}
		if s.Fret > float64(last) {
			ps.add("partials", "slot %s lies past the last slot %d of the board under strings %d to %d: give the board more frets", s.Name(), last, s.From, s.To)
		}
	}
	if len(*ps) > 0 {
		return
	}
	for i, s := range b.Slots {
		for _, u := range b.Slots[i+1:] {
			lo, hi := max(s.From, u.From)-1, min(s.To, u.To)
			if hi <= lo {
				continue
			}
			for _, k := range []int{lo, hi} {
				if !b.apart(ps, field, s, u, k) {
					return // one is enough: a wrong square fret spoils them all
				}
			}
		}
	}
	b.checkEnds(ps, field)
}

// apart reports whether slot u lies on the bridge side of slot s by more than
// the kerf at bound k, and adds the problem if not.
func (b *Board) apart(ps *Problems, field string, s, u Slot, k int) bool {
	l := b.lane(k)
	_, v, _ := meet(s.Edge, l)
	_, w, _ := meet(u.Edge, l)
	gap := (w - v) * l.Length() // along the bound
	along := gap
	if gap > 0 {
		gap *= math.Cos(float64(s.Angle)) // square to the slot, near enough for a limit
	}
	if gap > b.Spec.Slot.Kerf {
		return true
	}
	side := b.boundWords(k)
	switch {
	case along <= 0 && s.Fret == u.Fret:
		ps.add("partials", "slot %s is asked for twice under the same string: leave one out", s.Name())
	case along <= 0:
		ps.add(field, "slots %s and %s cross on the board, %s: choose a square fret nearer the middle of the board, or scales closer together", s.Name(), u.Name(), side)
	default:
		cure := "fewer frets fit on this scale"
		switch {
		case along > b.Spec.Slot.Kerf:
			cure = "choose a square fret nearer the middle of the board"
		case s.Partial || u.Partial:
			field, cure = "partials", "leave the partial fret out or move it"
		default:
			field = "frets"
		}
		ps.add(field, "slots %s and %s lie %.2f mm apart %s, no more than the kerf of %s mm: %s", s.Name(), u.Name(), gap, side, decimals(b.Spec.Slot.Kerf), cure)
	}
	return false
}

// boundWords says where bound k of the lanes lies.
func (b *Board) boundWords(k int) string {
	switch k {
	case 0:
		return "at the treble edge"
	case len(b.Strings):
		return "at the bass edge"
	}
	return fmt.Sprintf("between strings %d and %d", k, k+1)
}
