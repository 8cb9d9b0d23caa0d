package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/part"
)

// Button is a strap button in the edge of the body. Its pilot hole is a bore of
// the part of kind part.Screw with the ID "strap-buttons".
type Button struct {
	Name string // "tail" or "upper"
	At   geom.Point
	In   geom.Vec // square into the body
	Z    float64
}

// Strap is the two strap buttons.
type Strap struct {
	Upper, Tail  Button
	Pilot, Depth float64
}

// Pilot 2.5 and 25 of solid wood: common practice.
const (
	defaultPilot     = 2.5
	defaultStrapDeep = 25.0
	// besideNeck is how far from the centre line the upper button is looked for:
	// not on the neck.
	besideNeck = 35.0
)

// strap solves where the strap buttons sit: at the tip of the bass horn and on
// the centre line at the tail, or where the builder measured them.
func (s *solver) strap() {
	if s.Outline == nil {
		return
	}
	d := s.d.Strap
	upper, tail := s.tip(), s.tailPlace()
	was, drilled := s.held(part.Screw, "strap-buttons", d.Cut)
	for i, at := range []*geom.Point{&upper, &tail} {
		if drilled && len(was.Bores) == 2 {
			*at = was.Bores[i].From.Flat()
		}
	}
	for _, p := range []struct {
		v   design.Val[geom.Point]
		key string
		at  *geom.Point
	}{{d.Upper, "strap.upper", &upper}, {d.Tail, "strap.tail", &tail}} {
		if !p.v.Set() {
			continue
		}
		q, off := geom.IndexOf(s.Outline).Closest(p.v.V)
		if off > 10 { // more than a slip of the ruler
			s.fail(p.v.At, p.key, fmt.Sprintf("[%s, %s], %s mm off the outline", design.MM(p.v.V.X), design.MM(p.v.V.Y), design.MM(off)), fmt.Sprintf("a place on the outline, as [%s, %s]", design.MM(q.X), design.MM(q.Y)), "measure again")
			return
		}
		*p.at = q
	}
	if !d.Present && !s.d.Bridge.Present && len(s.d.Hardware) == 0 {
		return
	}
	st := &Strap{
		Upper: s.button("upper", upper), Tail: s.button("tail", tail),
		Pilot: s.length(d.Pilot, "strap.pilot", defaultPilot, "the screw's root"),
		Depth: s.length(d.Depth, "strap.depth", defaultStrapDeep, "solid wood for the screw"),
	}
	for _, b := range []struct {
		v        design.Val[geom.Point]
		key, why string
		at       geom.Point
	}{{d.Upper, "strap.upper", "tip of the bass horn", upper}, {d.Tail, "strap.tail", "on the centre line", tail}} {
		if b.v.Set() {
			continue
		}
		if drilled {
			b.why = asCut
		}
		s.assume(b.key, fmt.Sprintf("x %s, y %s mm", design.MM(b.at.X), design.MM(b.at.Y)), b.why)
	}
	s.Strap = st
	p := part.Part{ID: s.id("strap buttons"), Name: "strap buttons", Kind: part.Screw, Group: "strap", At: d.Table.At}
	for _, b := range []Button{st.Upper, st.Tail} {
		end := b.At.Add(b.In.Mul(st.Depth))
		p.Bores = append(p.Bores, part.Bore{From: part.Point{X: b.At.X, Y: b.At.Y, Z: b.Z}, To: part.Point{X: end.X, Y: end.Y, Z: b.Z}, D: st.Pilot, Words: "strap button, " + b.Name})
	}
	p = s.settle(p, d.Cut)
	for i, b := range []*Button{&st.Upper, &st.Tail} {
		if len(p.Bores) != 2 { // as nothing makes them
			break
		}
		if q := p.Bores[i]; q.From.Flat() != b.At {
			b.At, b.In, b.Z = q.From.Flat(), q.To.Flat().Sub(q.From.Flat()).Unit(), q.From.Z
		}
	}
	s.Parts = append(s.Parts, p)
}

// tip returns the place of the outline furthest towards the head on the bass
// side, clear of the neck.
func (s *solver) tip() geom.Point {
	best := geom.Pt(0, math.Inf(-1))
	for _, loop := range s.Outline {
		for _, e := range loop {
			try := []geom.Point{e.A}
			if e.IsArc() {
				try = append(try, e.Closest(e.Center.Add(geom.Vec{Y: 2 * e.Radius})))
			}
			for _, p := range try {
				if p.X < -besideNeck && p.Y > best.Y {
					best = p
				}
			}
		}
	}
	return best
}

// tailPlace returns where the outline crosses the centre line behind the bridge.
func (s *solver) tailPlace() geom.Point {
	far := geom.Pt(0, s.Outline.Bounds().Min.Y-1)
	return far.Add(geom.Vec{Y: firstInto(s.Outline, far, geom.Vec{Y: 1})})
}

// button returns a strap button at a place of the outline, square to it there.
func (s *solver) button(name string, at geom.Point) Button {
	b := Button{Name: name, At: at, In: geom.Vec{Y: 1}, Z: s.Thickness / 2}
	least := math.Inf(1)
	for _, loop := range s.Outline {
		for _, e := range loop {
			q := e.Closest(at)
			if d := q.Dist(at); d < least-geom.Coincident {
				least = d
				if e.IsArc() {
					c := q.Sub(e.Center).Unit()
					b.In = c.Mul(-float64(e.Turn)) // towards the left of travel
					continue
				}
				b.In = e.Tangent(0.5).Left()
			}
		}
	}
	return b
}
