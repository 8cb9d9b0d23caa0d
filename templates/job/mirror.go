package job

import (
	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/part"
	"routwright/templates/space"
)

// mirror turns a solved job into a left-handed one: everything is reflected
// across the centre line, once, before the cuts are proved. Measures of the
// design file count towards the treble side, which then lies at −X.
func (s *solver) mirror() {
	m := geom.MirrorX()
	s.mirrorControls(m)
	s.Outline, s.Blank = m.Region(s.Outline), m.Region(s.Blank)
	for i := range s.Cracks {
		s.Cracks[i].Front, s.Cracks[i].Back = m.Path(s.Cracks[i].Front), m.Path(s.Cracks[i].Back)
	}
	for i := range s.Pins {
		s.Pins[i].At = m.Point(s.Pins[i].At)
	}
	for i := range s.Sections {
		s.Sections[i].From, s.Sections[i].To = m.Point(s.Sections[i].From), m.Point(s.Sections[i].To)
	}
	for i := range s.Screws {
		s.Screws[i].At = m.Point(s.Screws[i].At)
	}
	for i := range s.Parts {
		s.Parts[i] = mirroredPart(s.Parts[i], m)
	}
	for i := range s.Templates {
		t := &s.Templates[i]
		t.Shape, t.Blank, t.For = m.Region(t.Shape), m.Region(t.Blank), mirroredPart(t.For, m)
		if t.Pinned() {
			t.Pins = s.Pins
		}
		hand := make([]cut.HandWork, len(t.Hand))
		for k, h := range t.Hand {
			h.Zone = m.Region(h.Zone)
			hand[k] = h
		}
		t.Hand = hand
	}
	s.mirrorLocked(m)
	s.mirrorEdges(m)
	if s.Shape != nil {
		s.Shape = s.Shape.Mirrored()
	}
	s.mirrorDrilled(m)
	s.mirrorBridge(m)
	if s.Board != nil {
		s.Board = s.Board.Mirrored()
	}
	if s.Keys == nil {
		return
	}
	for i := range s.Keys.Poses {
		p := &s.Keys.Poses[i]
		// A key's axis has no sense, so the mirror image of an angle is its
		// negative; the key itself is its own image.
		p.At, p.Turn = m.Point(p.At), -p.Turn
	}
	for i := range s.Keys.Bare {
		s.Keys.Bare[i].At = m.Point(s.Keys.Bare[i].At)
	}
}

// mirrorEdges turns the edge of the body and the contours.
func (s *solver) mirrorEdges(m geom.Transform) {
	if e := s.Edge; e != nil {
		s.Edge = space.NewEdge(m.Region(e.Outline), e.Thickness, e.Faces[part.Front], e.Faces[part.Back])
	}
	if s.EdgeBit != nil {
		s.EdgeBit.Missed = m.Region(s.EdgeBit.Missed)
	}
	for i := range s.Contours {
		c := &s.Contours[i]
		c.Plan, c.Deepest, c.At, c.In = m.Region(c.Plan), m.Point(c.Deepest), m.Point(c.At), m.Vec(c.In)
		for k := range c.Levels {
			for n, l := range c.Levels[k].Lines {
				c.Levels[k].Lines[n] = m.Path(l)
			}
		}
	}
}

// mirrorDrilled turns the channels, the jack, the strap buttons and the balance.
func (s *solver) mirrorDrilled(m geom.Transform) {
	for i := range s.Channels {
		c := &s.Channels[i]
		c.Path.From.X, c.Path.To.X = -c.Path.From.X, -c.Path.To.X
		for k := range c.Ends {
			c.Ends[k].Plan, c.Ends[k].Mouth = m.Region(c.Ends[k].Plan), m.Point(c.Ends[k].Mouth)
		}
		for k := range c.Pass {
			c.Pass[k].Plan = m.Region(c.Pass[k].Plan)
		}
	}
	if k := s.Jack; k != nil {
		k.At, k.In = m.Point(k.At), m.Vec(k.In)
	}
	if b := s.Balance; b != nil {
		b.At.X, b.Wood.X = -b.At.X, -b.Wood.X
		for i := range b.Things {
			b.Things[i].At.X = -b.Things[i].At.X
		}
	}
	if st := s.Strap; st != nil {
		for _, b := range []*Button{&st.Upper, &st.Tail} {
			b.At, b.In = m.Point(b.At), m.Vec(b.In)
		}
	}
}

func mirroredPart(p part.Part, m geom.Transform) part.Part {
	solids := make([]part.Solid, len(p.Solids))
	for i, b := range p.Solids {
		b.Plan = m.Region(b.Plan)
		b.Top.DX, b.Floor.DX = -b.Top.DX, -b.Floor.DX
		solids[i] = b
	}
	p.Solids = solids
	bores := make([]part.Bore, len(p.Bores))
	for i, b := range p.Bores {
		b.From.X, b.To.X = -b.From.X, -b.To.X
		bores[i] = b
	}
	p.Bores = bores
	return p
}

// mirrorBridge mirrors where neck and bridge meet the body, not the bridge's own
// measures.
func (s *solver) mirrorBridge(m geom.Transform) {
	if n := s.Neck; n != nil && n.Bolts != nil {
		for i := range n.Bolts.At {
			n.Bolts.At[i] = m.Point(n.Bolts.At[i])
		}
	}
	if b := s.Bridge; b != nil {
		b.Plate = m.Region(b.Plate)
		for i := range b.Lines {
			b.Lines[i].At = m.Point(b.Lines[i].At)
		}
		for i := range b.Posts {
			b.Posts[i] = m.Point(b.Posts[i])
		}
	}
}
