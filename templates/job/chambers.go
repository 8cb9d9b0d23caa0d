package job

import (
	"cmp"
	"fmt"

	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
)

// chambers solves the wood that is taken out to make the body lighter, each with
// its template.
func (s *solver) chambers() {
	for i, c := range s.d.Chamber {
		s.chamber(c, fmt.Sprintf("chamber %d", i+1))
	}
}

func (s *solver) chamber(c design.Chamber, k string) {
	name := cmp.Or(c.Name.V, k)
	if !c.Outline.Set() {
		s.fail(c.Table.At, k+".outline", "nothing", "corners [x, y] of an outline", "draw the chamber on the layout and read its corners")
		return
	}
	corner := s.length(c.Corner, k+".corner", defaultCorner, "smooth for the router")
	plan, ok := s.outlined(c.Outline, k, corner)
	if !ok {
		return
	}
	face := part.Front
	if c.Face.V == "back" {
		face = part.Back
	}
	lid := s.length(c.Cap, k+".cap", 0, "it stays open")
	depth := s.length(c.Depth, k+".depth", s.Thickness-lid-defaultBackFor, "leaves "+design.MM(defaultBackFor)+" mm under it")
	if most := s.Thickness - lid; depth >= most {
		s.fail(c.Depth.At, k+".depth", design.MM(depth)+" mm under a plate of "+design.MM(lid)+" mm, in a body of "+design.MM(s.Thickness)+" mm", fmt.Sprintf("less than %s mm, better %s", design.MM(most), design.MM(most-limit.Floor.Warn)), "make it shallower")
		return
	}
	n := need(k+".cut", corner, depth, s.sheet)
	n.Try = both(n.Try, s.cuts(plan))
	t, err := s.rack.Pick(c.Cutter, n, c.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	if _, ok := s.cornerFits(t, corner, c.Corner.At, k); !ok {
		return
	}
	top, floor := lid, lid+depth
	if face == part.Back {
		top, floor = s.Thickness-floor, s.Thickness-top
	}
	s.addVoid(part.Part{
		ID: s.id("chamber " + name), Name: name, Kind: part.Chamber, Face: face, Group: "chamber " + name, At: c.Table.At,
		Solids: []part.Solid{{Plan: plan, Top: part.Level(top), Floor: part.Level(floor)}},
	}, t, "chamber "+name)
}
