package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/part"
)

// pickups solves the cavities that are cut from the front.
func (s *solver) pickups() {
	for i, p := range s.d.Pickup {
		s.pickup(p, fmt.Sprintf("pickup %d", i+1))
	}
}

func (s *solver) pickup(p design.Pickup, k string) {
	name := p.Name.V
	if name == "" {
		name = k
	}
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
}

// cavities solves the cavities that are cut from the back, each with its rebate
// and cover.
func (s *solver) cavities() {
	for i, c := range s.d.Cavity {
		s.cavity(c, fmt.Sprintf("cavity %d", i+1))
	}
}

func (s *solver) cavity(c design.Cavity, k string) {
	name := c.Name.V
	if name == "" {
		name = k
	}
	plan, corner, ok := s.cavityPlan(c, k)
	if !ok {
		return
	}
	depth := s.length(c.Depth, k+".depth", s.Thickness-defaultBackFor, "leaves "+design.MM(defaultBackFor)+" mm under the front")
	n := need(k+".cut", corner, depth, s.sheet)
	n.Try = both(n.Try, s.cuts(plan))
	t, err := s.rack.Pick(c.Cutter, n, c.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	if least := t.LeastCorner(s.rin); corner < least-geom.Coincident {
		s.fail(c.Corner.At, k+".corner", design.MM(corner)+" mm", "at least "+design.MM(least)+" mm, for the bit and the template", "use a larger corner radius or a smaller bit")
		return
	}
	from := s.Thickness - depth
	group := "cavity " + name
	s.addVoid(part.Part{
		ID: s.id("cavity " + name), Name: name, Kind: part.Cavity, Face: part.Back, Group: group, At: c.Table.At,
		Solids: []part.Solid{{Plan: plan, Top: part.Level(from), Floor: part.Level(s.Thickness)}},
	}, t, "back cavity "+name)
	s.cover(c, k, name, group, plan, corner)
}

// cavityPlan returns the plan of a back cavity and its corner radius.
func (s *solver) cavityPlan(c design.Cavity, k string) (geom.Region, float64, bool) {
	if !c.Outline.Set() || len(c.Outline.V) < 3 {
		s.fail(c.Table.At, k+".outline", fmt.Sprintf("%d corners", len(c.Outline.V)), "three corners [x, y] or more", "draw the cavity on the layout and read its corners")
		return nil, 0, false
	}
	p := geom.Polygon(c.Outline.V...)
	if p.Area() < 0 {
		p = p.Reversed()
	}
	if err := (geom.Region{p}).Check(); err != nil {
		s.fail(c.Outline.At, k+".outline", err.Error(), "corners in order, round an outline that does not cross itself", "put the corners in order")
		return nil, 0, false
	}
	corner := s.length(c.Corner, k+".corner", defaultCorner, "smooth for the router")
	q, err := p.FilletAll(corner)
	if err != nil {
		s.fail(c.Outline.At, k+".corner", design.MM(corner)+" mm: "+err.Error(), "a radius that the outline's sides have room for", "use a smaller radius")
		return nil, 0, false
	}
	return geom.Region{q}, corner, true
}

// cover solves the rebate round a back cavity and the cover that lies in it.
func (s *solver) cover(c design.Cavity, k, name, group string, plan geom.Region, corner float64) {
	if !c.Cover.Present {
		return
	}
	k += ".cover"
	thick := s.length(c.Cover.Thickness, k+".thickness", defaultCover, "measure the sheet")
	gap := s.length(c.Cover.Gap, k+".gap", defaultLidGap, "0.25–0.4 a side")
	ledge := s.length(c.Cover.Rebate, k+".rebate", defaultRebate, "5–6 wide")
	var calc geom.Calc
	rebate := calc.Offset(plan, ledge, geom.Round)
	lid := calc.Offset(rebate, -gap, geom.Round)
	if err := calc.Err(); err != nil {
		s.fail(c.Cover.Table.At, k, err.Error(), "a rebate round the cavity", "use a narrower rebate")
		return
	}
	deep := thick + coverRecess
	cutter := c.Cover.Cutter
	if !cutter.Bit.Set() && !cutter.Bush.Set() && !cutter.Free.V {
		cutter = c.Cutter
	}
	n := need(k+".cut", corner+ledge, deep, s.sheet)
	n.Try = both(n.Try, s.cuts(rebate))
	t, err := s.rack.Pick(cutter, n, c.Cover.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	s.addVoid(part.Part{
		ID: s.id("rebate " + name), Name: name, Kind: part.Rebate, Face: part.Back, Group: group, At: c.Cover.Table.At,
		Solids: []part.Solid{{Plan: rebate, Top: part.Level(s.Thickness - deep), Floor: part.Level(s.Thickness)}},
	}, t, "cover rebate "+name)
	s.addCover(part.Part{
		ID: s.id("cover " + name), Name: name, Kind: part.Cover, Face: part.Back, Adds: true, Group: group, At: c.Cover.Table.At,
		Solids: []part.Solid{{Plan: lid, Top: part.Level(s.Thickness - thick), Floor: part.Level(s.Thickness)}},
	})
}
