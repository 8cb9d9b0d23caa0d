package job

import (
	"fmt"
	"slices"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/part"
)

// Kept is what a set that was made before holds of the work: the parts, of which
// those that the design marks as cut are in the wood and stay as they are. Places
// are seen from the front, as they lie on the instrument: those of a left-handed
// one are mirrored already.
type Kept struct {
	Hand      string  // "right" or "left"
	Thickness float64 // of the finished body, mm
	Pins      []cut.Pin
	Parts     []KeptPart
	Keys      []KeptKey
	// AllKeys says that the design then marked the keys as a whole: those that it
	// had no mark for came later.
	AllKeys bool
}

// KeptPart is a part as a set made it.
type KeptPart struct {
	part.Part
	Cut bool // the design then said that it is cut
}

// KeptKey is where a key was placed.
type KeptKey struct {
	Name   string
	At     geom.Point
	Turn   geom.Angle
	Face   part.Face
	Length float64 // mm
	Meets  bool
}

// Locked is a part that the design marks as cut.
type Locked struct {
	Part  part.Part // what is in the wood, as the job has it
	Asked part.Part // what the design asks for
	// Held says that the set made then has the part: without it Part is what the
	// design asks for, and nobody knows whether the wood agrees.
	Held bool
	At   design.Pos // of the mark
}

// Hand returns the hand that the instrument is for: "right" or "left".
func (j *Job) Hand() string {
	if j.Design.Hand.V == "left" {
		return "left"
	}
	return "right"
}

// Marked reports whether the design marks the part with an id, or holes of it, as cut.
func (j *Job) Marked(id string) bool {
	return slices.ContainsFunc(j.Locked, func(l Locked) bool { return l.Part.ID == id })
}

// Cut reports whether the design marks the whole of the part with an id as cut.
func (j *Job) Cut(id string) bool {
	p, has := j.PartByID(id)
	return has && slices.ContainsFunc(j.Locked, func(l Locked) bool { return l.Part.ID == id && len(l.Part.Bores) == len(p.Bores) })
}

// PinsID is the id under which the pins are among the locked parts.
const PinsID = "pins"

// onto returns k for a body of another thickness: a surface or an end of a hole
// that lay on the back lies on the new one, since the wood between was planed off.
func (k *Kept) onto(thickness float64) *Kept {
	out := *k
	out.Parts = slices.Clone(k.Parts)
	back := func(z *float64) {
		if *z == k.Thickness {
			*z = thickness
		}
	}
	for i := range out.Parts {
		p := &out.Parts[i]
		p.Solids, p.Bores = slices.Clone(p.Solids), slices.Clone(p.Bores)
		for n := range p.Solids {
			for _, s := range []*part.Plane{&p.Solids[n].Top, &p.Solids[n].Floor} {
				if s.Level() {
					back(&s.Z)
				}
			}
		}
		for n := range p.Bores {
			back(&p.Bores[n].From.Z)
			back(&p.Bores[n].To.Z)
		}
	}
	out.Thickness = thickness
	return &out
}

// mirrored returns k reflected across the centre line.
func (k *Kept) mirrored() *Kept {
	m := geom.MirrorX()
	out := *k
	out.Pins, out.Parts, out.Keys = slices.Clone(k.Pins), slices.Clone(k.Parts), slices.Clone(k.Keys)
	for i := range out.Pins {
		out.Pins[i].At = m.Point(out.Pins[i].At)
	}
	for i := range out.Parts {
		out.Parts[i].Part = mirroredPart(out.Parts[i].Part, m)
	}
	for i := range out.Keys {
		out.Keys[i].At, out.Keys[i].Turn = m.Point(out.Keys[i].At), -out.Keys[i].Turn
	}
	return &out
}

// keep takes over what is in the wood, in the frame that the job is solved in:
// that of a right-handed instrument.
func (s *solver) keep() {
	if s.Kept == nil {
		return
	}
	s.Kept = s.Kept.onto(s.Thickness)
	s.kept = s.Kept
	if s.Hand() == "left" {
		s.kept = s.kept.mirrored()
	}
}

// held returns the part with an id as the set made then has it, where it is marked
// as cut: what the program is free to choose follows it.
func (s *solver) held(k part.Kind, id string, mark design.Val[bool]) (part.Part, bool) {
	if s.kept == nil || !mark.V {
		return part.Part{}, false
	}
	for _, p := range s.kept.Parts {
		if p.Kind == k && p.ID == id && likeMade(p.Part, p.Part) {
			return p.Part, true
		}
	}
	return part.Part{}, false
}

// settle returns a part as it is in the wood, where the design marks it as cut:
// what is solved after it goes round that. A check compares it with what the design
// asks for, p.
func (s *solver) settle(p part.Part, mark design.Val[bool]) part.Part {
	if !mark.V {
		return p
	}
	l := Locked{Part: p, Asked: p, At: mark.At}
	if s.kept != nil {
		for _, k := range s.kept.Parts {
			if k.ID == p.ID && k.Kind == p.Kind && likeMade(k.Part, p) {
				l.Held = true
				l.Part.Solids, l.Part.Bores = k.Solids, k.Bores
			}
		}
	}
	s.Locked = append(s.Locked, l)
	return l.Part
}

// likeMade reports whether a part of a set made before can stand for one of the
// design: its plans are sound, and both are made alike, routed, drilled or both.
func likeMade(a, b part.Part) bool {
	for _, s := range a.Solids {
		if s.Plan.Check() != nil {
			return false
		}
	}
	solids := len(a.Solids) == len(b.Solids) || a.Kind == part.Contour && len(a.Solids) > 0 && len(b.Solids) > 0
	return solids && (len(a.Bores) > 0) == (len(b.Bores) > 0)
}

// settleHoles is settle for a part of which single holes are marked: of the others
// the design decides.
func (s *solver) settleHoles(p part.Part, marks []design.Val[bool]) part.Part {
	asked, at := p, design.Val[bool]{}
	asked.Bores = nil
	var words []string
	for i, m := range marks {
		if m.V {
			asked.Bores, words, at = append(asked.Bores, p.Bores[i]), append(words, p.Bores[i].Words), m
		}
	}
	if !at.V {
		return p
	}
	l := Locked{Part: asked, Asked: asked, At: at.At}
	if s.kept != nil {
		for _, k := range s.kept.Parts {
			if k.ID != p.ID || k.Kind != p.Kind {
				continue
			}
			var was []part.Bore
			for _, b := range k.Bores {
				if slices.Contains(words, b.Words) {
					was = append(was, b)
				}
			}
			if l.Held = len(was) == len(words); l.Held {
				l.Part.Bores = was
			}
		}
	}
	s.Locked = append(s.Locked, l)
	p.Bores = slices.Clone(p.Bores)
	n := 0
	for i, m := range marks {
		if m.V {
			p.Bores[i] = l.Part.Bores[n]
			n++
		}
	}
	return p
}

// asCut is why something that the program solves is as it is.
const asCut = "as it is cut"

// depthOf returns the depth of a void from its own face, mm: the design's, else that
// of the void as it is cut, else the default, which is reported.
func (s *solver) depthOf(was part.Part, cutAlready bool, v design.Val[design.Length], key string, def float64, why string) float64 {
	if cutAlready && !v.Set() {
		top, floor := was.Range()
		s.solved(key, design.MM(floor-top)+" mm", asCut)
		return floor - top
	}
	return s.length(v, key, def, why)
}

// keptPins returns the pins as they are bored, and true, where a part of the body
// is cut: its template sat on them.
func (s *solver) keptPins() ([]cut.Pin, bool) {
	if s.kept == nil || len(s.kept.Pins) != 2 {
		return nil, false
	}
	for _, l := range s.Locked {
		if l.Held && !l.Part.Adds {
			return s.kept.Pins, true
		}
	}
	return nil, false
}

// lockPins takes the pins as they are bored, and says what the design asks for.
func (s *solver) lockPins(pins []cut.Pin) {
	at := s.d.Template.Pin.At
	p := part.Part{ID: PinsID, Name: "P and Q", Kind: part.Pins, At: at}
	asked := p
	for i, pin := range pins {
		b := part.Down(pin.At, part.Front, s.Thickness, pin.D, s.Thickness, "pin "+pin.Name)
		p.Bores = append(p.Bores, b)
		if i == 0 && s.d.Template.Pin.Set() {
			b.D = float64(s.d.Template.Pin.V)
		}
		asked.Bores = append(asked.Bores, b)
	}
	if at.IsZero() {
		at = s.Locked[0].At
	}
	s.Locked = append(s.Locked, Locked{Part: p, Asked: asked, Held: true, At: at})
	for _, pin := range pins {
		s.solved("pin "+pin.Name, fmt.Sprintf("x %s, y %s, d %s mm", design.MM(pin.At.X), design.MM(pin.At.Y), design.MM(pin.D)), "as it is bored: parts are cut on it")
	}
}

// mirrorLocked turns the locked parts.
func (s *solver) mirrorLocked(m geom.Transform) {
	for i := range s.Locked {
		l := &s.Locked[i]
		l.Part, l.Asked = mirroredPart(l.Part, m), mirroredPart(l.Asked, m)
	}
}
