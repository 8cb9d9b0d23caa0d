package job

import (
	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/part"
)

// mirror turns a solved job into a left-handed one: everything is reflected
// across the centre line, once, before the cuts are proved. Measures of the
// design file count towards the treble side, which then lies at −X.
func (s *solver) mirror() {
	m := geom.MirrorX()
	s.Outline, s.Blank = m.Region(s.Outline), m.Region(s.Blank)
	for i := range s.Cracks {
		s.Cracks[i].Front, s.Cracks[i].Back = m.Path(s.Cracks[i].Front), m.Path(s.Cracks[i].Back)
	}
	for i := range s.Pins {
		s.Pins[i].At = m.Point(s.Pins[i].At)
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

func mirroredPart(p part.Part, m geom.Transform) part.Part {
	solids := make([]part.Solid, len(p.Solids))
	for i, b := range p.Solids {
		b.Plan = m.Region(b.Plan)
		b.Top.DX, b.Floor.DX = -b.Top.DX, -b.Floor.DX
		solids[i] = b
	}
	p.Solids = solids
	return p
}
