package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
)

// Control is a pot, a switch or a jack that stands in a back cavity, its shaft
// through the front.
type Control struct {
	Name, Kind string
	Group      string // of its cavity
	At         geom.Point
	Body       geom.Region // under the wood
	Knob       geom.Region // over the wood, what a hand moves
	Deep       float64     // how far it stands below the wood, mm; 0 when not given
	Thread     float64     // length of its bushing, mm; 0 without one
	Wood       float64     // over it, mm
	Pos        design.Pos
}

// String returns the control in words: `pot "volume"`.
func (c Control) String() string { return fmt.Sprintf("%s %q", c.Kind, c.Name) }

// controlSize is what a control of a kind measures: common practice, to be
// measured on the one in hand. A body is round, or l × w.
type controlSize struct {
	body   float64 // diameter; 0 when it is not round
	l, w   float64
	thread float64 // 0 for a switch that is held by screws
	hole   float64 // of a blade switch the width of its slot
	knob   float64
}

var controlSizes = map[string]controlSize{
	"pot":          {body: 25, thread: 9.5, hole: 9.5, knob: 20},     // body 24–25, knob 18–25
	"mini pot":     {body: 16.5, thread: 7, hole: 7.5, knob: 20},     // hole 7–8, thread 6.5–7.5
	"toggle":       {l: 34, w: 20, thread: 10, hole: 12.5, knob: 10}, // hole 12–12.7
	"blade switch": {l: 60, w: 15, thread: 0, hole: 2, knob: 10},     // slot 34 × 2, screws 41–42 apart
	"jack":         {body: 22, thread: 8, hole: 9.5, knob: 16},       // the plug's handle counts as its knob
}

const (
	boxCorner     = 1.0  // corner of a body that is not round, mm; common practice
	bladeSlot     = 34.0 // length of a blade switch's slot, mm; common practice
	bladeScrews   = 41.5 // between its screws, 41–42; common practice
	bladeHole     = 3.4  // clearance for M3, ISO 273 medium fit
	defaultWall   = 5.0  // room from a control's body to the wall of its cavity, mm; common practice
	wireRoom      = 8.0  // least width of a cavity that wires run through, mm; common practice
	seatRoom      = 1.0  // round a body in its seat, mm; common practice
	samePlace     = 1.0  // two controls whose middles lie nearer are one place, mm
	overTheCutter = 0.5  // wider than the bit by this, so that the follower passes without a warning, mm
)

// control is a control as it is being solved.
type control struct {
	Control
	key   string
	place geom.Transform
	body  float64 // diameter, 0 when not round
	l, w  float64
	hole  float64
	wood  design.Val[design.Length]
	cut   design.Val[bool]
	given bool // the thread was given
	at    design.Pos
}

// controls reads the controls of a cavity. What cannot stand where it is said
// is an error, and left out.
func (s *solver) controls(c design.Cavity, k, name, group string) []control {
	var out []control
	for i, e := range c.Control {
		key := fmt.Sprintf("%s.control %d", k, i+1)
		one, ok := s.control(e, key, name, i)
		if !ok {
			continue
		}
		one.Group = group
		if s.misplaced(one, out) {
			continue
		}
		out = append(out, one)
	}
	return out
}

func (s *solver) control(e design.Control, k, cavity string, i int) (control, bool) {
	kind := e.Kind.V
	if !e.Kind.Set() {
		kind = "pot"
		s.assume(k+".kind", kind, "no kind was given")
	}
	if !e.At.Set() {
		return control{}, false // told by the reader
	}
	z := controlSizes[kind]
	usual := "usual for a " + kind + ": measure yours"
	one := control{key: k, at: e.Table.At, wood: e.Wood, cut: e.Cut, given: e.Thread.Set()}
	one.Name, one.Kind, one.At, one.Pos = e.Name.V, kind, e.At.V, e.Table.At
	if one.Name == "" {
		one.Name = fmt.Sprintf("%s %d", cavity, i+1)
	}
	one.place = geom.Pose(one.At, geom.Angle(e.Angle.V)*geom.Degree)
	switch {
	case e.Size.Set() && e.Body.Set():
		s.fail(e.Size.At, k+".size", "size and body, both", "one of them",
			"give body for a round one, size for any other")
		return control{}, false
	case e.Size.Set():
		one.l, one.w = float64(e.Size.V[0]), float64(e.Size.V[1])
	case e.Body.Set() || z.body > 0:
		one.body = s.length(e.Body, k+".body", z.body, usual)
	default:
		one.l, one.w = z.l, z.w
		s.assume(k+".size", fmt.Sprintf("%s × %s mm", design.MM(z.l), design.MM(z.w)), usual)
	}
	if one.body > 0 {
		one.Body = geom.Region{geom.Circle(one.At, one.body/2)}
	} else {
		one.Body = geom.Region{one.place.Path(geom.RoundedRect(geom.Pt(0, 0), one.l, one.w, boxCorner))}
	}
	if z.thread > 0 {
		one.Thread = s.length(e.Thread, k+".thread", z.thread, usual)
	} else if e.Thread.Set() {
		one.Thread = float64(e.Thread.V)
	}
	one.Deep = float64(e.Deep.V)
	one.hole = s.length(e.Hole, k+".hole", z.hole, usual)
	knob := s.length(e.Knob, k+".knob", z.knob, usual)
	one.Knob = geom.Region{geom.Circle(one.At, knob/2)}
	if kind == "blade switch" { // its tip runs along the slot
		a, b := slotEnds(one.place)
		one.Knob = geom.Region{geom.Stadium(a, b, knob/2)}
	}
	return one, true
}

// slotEnds returns the ends of a blade switch's slot.
func slotEnds(place geom.Transform) (a, b geom.Point) {
	return place.Point(geom.Pt(-bladeSlot/2, 0)), place.Point(geom.Pt(bladeSlot/2, 0))
}

// misplaced reports a control outside the body or in the place of another one.
func (s *solver) misplaced(c control, before []control) bool {
	if s.Outline != nil && !s.Outline.Contains(c.At) {
		_, d := geom.IndexOf(s.Outline).Closest(c.At)
		s.fail(c.at, c.key+".at",
			fmt.Sprintf("%s at x %s, y %s, %s mm outside the body", c.Control, design.MM(c.At.X), design.MM(c.At.Y),
				design.MM(d)),
			"a place on the body", "measure x from the centre line and y from the bridge line, seen from the front")
		return true
	}
	all := append([]Control(nil), s.Controls...)
	for _, b := range before {
		all = append(all, b.Control)
	}
	for _, b := range all {
		if d := b.At.Dist(c.At); d < samePlace {
			s.fail(c.at, c.key+".at",
				fmt.Sprintf("%s at x %s, y %s, %s mm from %s on line %d", c.Control, design.MM(c.At.X),
					design.MM(c.At.Y), design.MM(d), b, b.Pos.Line),
				"one control in a place", "move one of them, or delete it")
			return true
		}
	}
	return false
}

// rooms returns the room that each control needs in its cavity, for a cutter
// that leaves corners of radius corner and passes no neck under neck mm.
func rooms(cs []control, wall, corner, neck float64) []geom.Region {
	var out []geom.Region
	for _, c := range cs {
		if c.body > 0 {
			out = append(out, roundRoom(c.At, c.body, wall, math.Max(corner, neck/2)))
		} else {
			out = append(out, boxRoom(c.place, c.l, c.w, boxCorner, wall, corner, neck/2))
		}
	}
	return out
}

// addControls adds the shaft holes of a cavity's controls, and the seats where
// the wood over one is thinned. from is how much wood the cavity leaves.
func (s *solver) addControls(cs []control, name, group string, plan geom.Region, from float64) {
	shafts := part.Part{ID: s.id("shafts " + name), Name: name, Kind: part.Shaft, Face: part.Front, Group: group}
	var made []design.Val[bool] // marks of the shafts' holes
	for _, c := range cs {
		if shafts.At.IsZero() {
			shafts.At = c.at
		}
		wood, ok := s.woodOver(c, from)
		if !ok {
			continue
		}
		c.Wood = wood
		if wood < from-geom.Coincident {
			s.addSeat(c, plan)
		}
		if c.Kind == "blade switch" {
			s.addSlot(c, group, wood)
		} else {
			shafts.Bores = append(shafts.Bores, part.Down(c.At, part.Front, wood, c.hole, s.Thickness, c.Name+" shaft"))
			made = append(made, c.cut)
		}
		s.Controls = append(s.Controls, c.Control)
	}
	if len(shafts.Bores) > 0 {
		s.Parts = append(s.Parts, s.settleHoles(shafts, made))
	}
}

// addSlot adds the slot and the screw holes of a blade switch. The slot is
// drilled in a row, sawn and filed: no router bit is that thin.
func (s *solver) addSlot(c control, group string, wood float64) {
	a, b := slotEnds(c.place)
	p := part.Part{ID: s.id("slot " + c.Name), Name: c.Name, Kind: part.Shaft, Face: part.Front, Group: group, At: c.at,
		Solids: []part.Solid{{Plan: geom.Region{geom.Stadium(a, b, c.hole/2)}, Top: part.Level(0),
			Floor: part.Level(wood)}}}
	for _, x := range []float64{-bladeScrews / 2, bladeScrews / 2} {
		p.Bores = append(p.Bores, part.Down(c.place.Point(geom.Pt(x, 0)), part.Front, wood, bladeHole, s.Thickness,
			c.Name+" screw"))
	}
	s.Parts = append(s.Parts, s.settle(p, c.cut))
	s.assume(c.key+" slot",
		fmt.Sprintf("%s × %s mm, screws %s mm apart", design.MM(bladeSlot), design.MM(c.hole), design.MM(bladeScrews)),
		"usual for a blade switch: measure yours; drill a row of holes, then saw and file")
}

// woodOver returns how much wood stays over a control whose cavity leaves from
// mm: what the builder says, or what its thread bears.
func (s *solver) woodOver(c control, from float64) (float64, bool) {
	most := c.Thread - limit.ThreadOver
	switch {
	case c.wood.Set():
		wood := float64(c.wood.V)
		if wood > from+geom.Coincident {
			s.fail(c.wood.At, c.key+".wood", design.MM(wood)+" mm",
				fmt.Sprintf("at most the %s mm that the cavity leaves", design.MM(from)),
				"make the cavity shallower, or leave less wood")
			return 0, false
		}
		return wood, true
	case c.Thread == 0 || from <= most+geom.Coincident:
		return from, true
	case most < limit.Floor.Stop:
		s.fail(c.at, c.key+".thread",
			fmt.Sprintf("a thread of %s mm under %s mm of wood", design.MM(c.Thread), design.MM(from)),
			fmt.Sprintf(
				"a thread of at least %s mm: the wood is thinned to %s mm at the least, and %s mm must stand out for washer and nut",
				design.MM(limit.Floor.Stop+limit.ThreadOver), design.MM(limit.Floor.Stop), design.MM(limit.ThreadOver)),
			"use a control with a longer thread, or let it into the front")
		return 0, false
	}
	s.solved(c.key+".wood", design.MM(most)+" mm",
		fmt.Sprintf("thinned from %s mm: the thread of %s mm less %s for washer and nut", design.MM(from),
			design.MM(c.Thread), design.MM(limit.ThreadOver)))
	return most, true
}

// addSeat adds the place where the wood over a control is thinned: a flat bore
// from the back, as wide as the body and some room. It is bored before the
// cavity is routed round it, while its centre mark is there to be seen.
func (s *solver) addSeat(c control, plan geom.Region) {
	deep := s.Thickness - c.Wood
	if c.body == 0 {
		s.fail(c.at, c.key,
			fmt.Sprintf("a seat under %s mm of wood for a body of %s × %s mm", design.MM(c.Wood), design.MM(c.l),
				design.MM(c.w)),
			"a round body, whose seat a Forstner bit makes",
			fmt.Sprintf("make the whole cavity deeper: depth = %s", design.MM(deep)))
		return
	}
	d := s.seatDrill(c, plan)
	s.Parts = append(s.Parts, s.settle(part.Part{
		ID: s.id("seat " + c.Name), Name: c.Name, Kind: part.Seat, Face: part.Back, Group: c.Group, At: c.at,
		Solids: []part.Solid{{Plan: geom.Region{geom.Circle(c.At, d/2)}, Top: part.Level(c.Wood),
			Floor: part.Level(s.Thickness)}},
		Bores: []part.Bore{part.Down(c.At, part.Back, deep, d, s.Thickness, c.Name+" seat, flat")},
	}, c.cut))
}

// seatDrill returns the diameter of the flat drill for a seat: the smallest at
// hand that gives the body room and stays inside the cavity, else the one to
// get.
func (s *solver) seatDrill(c control, plan geom.Region) float64 {
	want := c.body + 2*seatRoom
	_, wall := geom.IndexOf(plan).Closest(c.At)
	best := 0.0
	for _, f := range s.d.Forstner {
		d := float64(f.D.V)
		reaches := !f.Length.Set() || float64(f.Length.V) >= s.Thickness-c.Wood
		if d >= want && d <= 2*wall && reaches && (best == 0 || d < best) {
			best = d
		}
	}
	if best > 0 {
		s.solved(c.key+" seat", "Forstner bit of "+design.MM(best)+" mm",
			fmt.Sprintf("the smallest at hand over the body of %s mm; bore it before the cavity is routed",
				design.MM(c.body)))
		return best
	}
	best = math.Max(c.body, math.Min(math.Ceil(want), 2*wall))
	s.assume(c.key+" seat", "Forstner bit of "+design.MM(best)+" mm",
		fmt.Sprintf(
			"no [[forstner]] at hand is over the body of %s mm and inside the cavity; bore it before the cavity is routed",
			design.MM(c.body)))
	return best
}

// mirrorControls turns the controls.
func (s *solver) mirrorControls(m geom.Transform) {
	for i := range s.Controls {
		c := &s.Controls[i]
		c.At, c.Body, c.Knob = m.Point(c.At), m.Region(c.Body), m.Region(c.Knob)
	}
}
