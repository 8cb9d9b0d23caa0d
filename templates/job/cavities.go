package job

import (
	"cmp"
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// pickups solves the cavities that are cut from the front.
func (s *solver) pickups() {
	for i, p := range s.d.Pickup {
		s.pickup(p, fmt.Sprintf("pickup %d", i+1))
	}
}

func (s *solver) pickup(p design.Pickup, k string) {
	name := cmp.Or(p.Name.V, k)
	size, ok := pickupSizes[p.Kind.V]
	if !ok {
		size = pickupSizes["humbucker"]
		if !p.Kind.Set() {
			s.assume(k+".kind", "humbucker", "no kind was given")
		}
	}
	if !p.From.Set() {
		s.fail(p.Table.At, k+".at", "nothing", "a distance from the bridge line", "measure where the middle of the pickup goes")
		return
	}
	kind := p.Kind.V
	room := s.length(p.Room, k+".room", defaultRoom, "0.5–1 a side")
	l := s.length(p.Length, k+".length", size.length, "usual for a "+kind+": measure yours") + 2*room
	w := s.length(p.Width, k+".width", size.width, "usual for a "+kind+": measure yours") + 2*room
	depth := s.length(p.Depth, k+".depth", size.depth, "usual for a "+kind+": measure yours")
	corner := size.corner
	if p.Corner.Set() {
		corner = float64(p.Corner.V)
	}
	if most := math.Min(l, w) / 2; corner > most {
		s.fail(p.Corner.At, k+".corner", design.MM(corner)+" mm", "at most half of the shorter side, "+design.MM(most)+" mm", "use a smaller radius")
		return
	}
	t, err := s.rack.Pick(p.Cutter, need(k+".cut", corner, depth, s.sheet), p.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	if t.Cutter > math.Min(l, w) {
		s.fail(t.At, k+".cut.bit", fmt.Sprintf("bit %q of %s mm", t.Bit, design.MM(t.Cutter)), fmt.Sprintf("a bit narrower than the cavity, %s mm", design.MM(math.Min(l, w))), "name a smaller bit")
		return
	}
	// The corner is never under the bit's radius, nor under what the template's
	// own corner leaves.
	least := t.LeastCorner(s.rin)
	if p.Corner.Set() && corner < least-geom.Coincident {
		s.fail(p.Corner.At, k+".corner", design.MM(corner)+" mm", fmt.Sprintf("at least %s mm: bit %q has a radius of %s mm, the template's inside corners %s mm", design.MM(least), t.Bit, design.MM(t.CutRadius()), design.MM(s.rin)), "use a larger corner radius or a smaller bit")
		return
	}
	if !p.Corner.Set() {
		corner = math.Max(corner, least)
		s.assume(k+".corner", design.MM(corner)+" mm", "3.2–6.4, never under the bit's radius")
	}
	// Positive slant brings the treble end (+X) nearer the bridge (−Y).
	place := geom.Pose(geom.Pt(0, float64(p.From.V)), -geom.Angle(p.Slant.V)*geom.Degree)
	s.addVoid(part.Part{
		ID: s.id("pickup " + name), Name: name, Kind: part.Pickup, Face: part.Front, Group: "pickup " + name, At: p.Table.At,
		Solids: []part.Solid{{
			Plan: geom.Region{place.Path(geom.RoundedRect(geom.Pt(0, 0), l, w, corner))},
			Top:  part.Level(0), Floor: part.Level(depth),
		}},
	}, t, "pickup cavity "+name)
	s.legs(p, k, name, l, room, corner, place)
	on := depth
	if p.Legs.Present { // the legs' screws stand on the floor of their recess
		on = float64(p.Legs.Depth.Or(legsDepth).V)
	}
	s.pickupScrews(p, k, name, on, place)
}

// cavities solves the cavities that are cut from the back, each with its rebate
// and cover.
func (s *solver) cavities() {
	for i, c := range s.d.Cavity {
		s.cavity(c, fmt.Sprintf("cavity %d", i+1))
	}
}

func (s *solver) cavity(c design.Cavity, k string) {
	name := cmp.Or(c.Name.V, k)
	group := "cavity " + name
	cs := s.controls(c, k, name, group)
	if !c.Outline.Set() && len(cs) == 0 {
		if len(c.Control) == 0 {
			s.fail(c.Table.At, k+".outline", "nothing",
				"corners [x, y] of an outline, or a [[cavity.control]] that it is grown round",
				"say where the pots and switches stand, or draw the cavity on the layout and read its corners")
		}
		return
	}
	corner := s.length(c.Corner, k+".corner", defaultCorner, "smooth for the router")
	var plan geom.Region
	if c.Outline.Set() {
		var ok bool
		if plan, ok = s.outlined(c.Outline, k, corner); !ok {
			return
		}
	}
	depth := s.length(c.Depth, k+".depth", s.Thickness-defaultBackFor,
		"leaves "+design.MM(defaultBackFor)+" mm under the front")
	n := need(k+".cut", corner, depth, s.sheet)
	if plan != nil { // a grown outline follows from the bit
		n.Try = both(n.Try, s.cuts(plan))
	}
	t, err := s.rack.Pick(c.Cutter, n, c.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	least, ok := s.cornerFits(t, corner, c.Corner.At, k)
	if !ok {
		return
	}
	if plan == nil {
		var ok bool
		if plan, ok = s.grown(c, k, cs, corner, least, t); !ok {
			return
		}
	}
	from := s.Thickness - depth
	s.addVoid(part.Part{
		ID: s.id("cavity " + name), Name: name, Kind: part.Cavity, Face: part.Back, Group: group, At: c.Table.At,
		Solids: []part.Solid{{Plan: plan, Top: part.Level(from), Floor: part.Level(s.Thickness)}},
	}, t, "back cavity "+name)
	s.addControls(cs, name, group, plan, from)
	s.lids = append(s.lids, func() { s.cover(c, k, name, group, plan, corner) })
}

// cornerFits reports whether tool and template leave a corner as small as asked
// for, and the smallest radius that they leave, mm.
func (s *solver) cornerFits(t tool.Tool, corner float64, at design.Pos, k string) (least float64, ok bool) {
	least = t.LeastCorner(s.rin)
	if corner < least-geom.Coincident {
		s.fail(at, k+".corner", design.MM(corner)+" mm", "at least "+design.MM(least)+" mm, for the bit and the template", "use a larger corner radius or a smaller bit")
		return least, false
	}
	return least, true
}

// outlined returns the region inside corners that the builder gives, rounded.
func (s *solver) outlined(v design.Val[[]geom.Point], k string, corner float64) (geom.Region, bool) {
	p := geom.Polygon(v.V...)
	if p.Area() < 0 {
		p = p.Reversed()
	}
	if err := (geom.Region{p}).Check(); err != nil {
		s.fail(v.At, k+".outline", err.Error(), "corners in order, round an outline that does not cross itself",
			"put the corners in order")
		return nil, false
	}
	q, err := p.FilletAll(corner)
	if err != nil {
		s.fail(v.At, k+".corner", design.MM(corner)+" mm: "+err.Error(),
			"a radius that the outline's sides have room for", "use a smaller radius")
		return nil, false
	}
	return geom.Region{q}, true
}

// grown returns the outline of a cavity round its controls: the smallest that
// keeps the wall from each body, is one, and that the tool passes.
func (s *solver) grown(c design.Cavity, k string, cs []control, corner, least float64, t tool.Tool) (geom.Region, bool) {
	wall := s.length(c.Wall, k+".wall", defaultWall, "room round each body")
	neck := math.Max(2*least+overTheCutter, wireRoom)
	hollow := math.Max(corner, t.Offset()+blunted)
	var calc geom.Calc
	plan, radius, ok := grow(&calc, rooms(cs, wall, corner, neck), hollow, neck)
	if !ok {
		given := "controls too far apart for one cavity"
		if err := calc.Err(); err != nil {
			given = err.Error()
		}
		s.fail(c.Table.At, k+".control", given, "controls that one cavity holds",
			"give the rest a [[cavity]] of their own, or draw the outline")
		return nil, false
	}
	s.solved(k+".outline", fmt.Sprintf("round %d controls, %s mm²", len(cs), design.MM(math.Round(plan.Area()))),
		fmt.Sprintf("%s mm from each body, hollows of radius %s mm, the smallest that leaves no neck under %s mm",
			design.MM(wall), design.MM(radius), design.MM(neck)))
	return plan, true
}

// blunted is the least radius in mm that a corner of the wood keeps on a
// template whose follower is larger than the cutter; common practice.
const blunted = 1
