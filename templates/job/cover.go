package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// lid is a cover as it is being solved.
type lid struct {
	design.Cover
	key, name, group string
	cavity           geom.Region // that it covers
	thick, gap       float64
	ledge            float64 // width of what it rests on
	least            float64 // tightest inside corner that the rebate's bit leaves
	base, plan       geom.Region
	rebate           geom.Region
	deep             float64 // of the rebate, from the back
	gauge            int     // of the screws
	long             float64 // from the face of the cover to the tip
}

// covers solves the covers of all cavities.
func (s *solver) covers() {
	for _, lid := range s.lids {
		lid()
	}
}

// cover solves the rebate round a back cavity, the cover that lies in it and the
// screws that hold it.
func (s *solver) cover(c design.Cavity, k, name, group string, plan geom.Region, corner float64) {
	if !c.Cover.Present {
		return
	}
	l := &lid{Cover: c.Cover, key: k + ".cover", name: name, group: group, cavity: plan}
	l.thick = s.length(c.Cover.Thickness, l.key+".thickness", defaultCover, "measure the sheet")
	l.gap = s.length(c.Cover.Gap, l.key+".gap", defaultLidGap, "0.25–0.4 a side")
	l.deep = l.thick + coverRecess
	if s.gaps == nil {
		s.gaps = map[string]float64{}
	}
	s.gaps[group] = l.gap
	cutter := c.Cover.Cutter
	if !cutter.Bit.Set() && !cutter.Bush.Set() && !cutter.Free.V {
		cutter = c.Cutter
	}
	var t tool.Tool
	var ok bool
	if c.Cover.Outline.Set() {
		t, ok = s.coverAtHand(l, cutter)
	} else {
		t, ok = s.coverRound(l, cutter, corner)
	}
	if !ok || !s.reaches(l) {
		return
	}
	screws, ok := s.coverScrews(l)
	if !ok || !s.shapeRebate(l, screws, t) {
		return
	}
	s.addVoid(part.Part{
		ID: s.id("rebate " + name), Name: name, Kind: part.Rebate, Face: part.Back, Group: group, At: c.Cover.Table.At,
		Solids: []part.Solid{{Plan: l.rebate, Top: part.Level(s.Thickness - l.deep), Floor: part.Level(s.Thickness)}},
	}, t, "cover rebate "+name)
	cover := part.Part{
		ID: s.id("cover " + name), Name: name, Kind: part.Cover, Face: part.Back, Adds: true, Group: group, At: c.Cover.Table.At,
		Solids: []part.Solid{{Plan: l.plan, Top: part.Level(s.Thickness - l.thick), Floor: part.Level(s.Thickness)}},
	}
	s.addScrews(l, &cover, screws)
	if c.Cover.Outline.Set() {
		s.Parts = append(s.Parts, cover) // made already: it needs no template
		return
	}
	s.addCover(cover)
}

// coverRound lays a cover round its cavity: both follow from its outline and the
// width of the ledge.
func (s *solver) coverRound(l *lid, cutter design.Cutter, corner float64) (tool.Tool, bool) {
	l.ledge = s.length(l.Rebate, l.key+".rebate", defaultRebate, "5–6 wide")
	var c geom.Calc
	l.base = c.Offset(l.cavity, l.ledge, geom.Round)
	l.plan = c.Offset(l.base, -l.gap, geom.Round)
	if !s.sound(l, c.Err()) {
		return tool.Tool{}, false
	}
	n := need(l.key+".cut", corner+l.ledge, l.deep, s.sheet)
	n.Try = both(n.Try, s.cuts(l.base))
	t, err := s.rack.Pick(cutter, n, l.Table.At)
	if err != nil {
		s.errs.Add(err)
		return t, false
	}
	if l.least = t.LeastCorner(s.rin); corner+l.ledge < l.least-geom.Coincident {
		s.fail(l.Table.At, l.key+".cut", fmt.Sprintf("corners of %s mm for bit %q", design.MM(corner+l.ledge), t.Bit),
			"corners of at least "+design.MM(l.least)+" mm, for the bit and the template",
			"name a smaller bit, or give the cavity larger corners")
		return t, false
	}
	return t, true
}

// coverAtHand takes a cover that the builder has: the rebate follows from it,
// its corners no tighter than the bit leaves them.
func (s *solver) coverAtHand(l *lid, cutter design.Cutter) (tool.Tool, bool) {
	corner := s.length(l.Corner, l.key+".corner", 0, "sharp corners: measure the cover")
	plan, ok := s.outlined(l.Outline, l.key, corner)
	if !ok {
		return tool.Tool{}, false
	}
	n := need(l.key+".cut", corner+l.gap, l.deep, s.sheet)
	if !cutter.Bit.Set() { // no bit for so tight a corner: the smallest, and a check tells
		for i, b := range s.rack.Bits() {
			if r := float64(b.D.V) / 2; i == 0 || r < n.Corner {
				n.Corner = math.Max(r, corner+l.gap)
			}
		}
	}
	t, err := s.rack.Pick(cutter, n, l.Table.At)
	if err != nil {
		s.errs.Add(err)
		return t, false
	}
	l.least = t.LeastCorner(s.rin)
	var c geom.Calc
	l.plan = plan
	l.base = c.Open(c.Offset(plan, l.gap, geom.Round), l.least)
	if !s.sound(l, c.Err()) {
		return t, false
	}
	l.ledge = edgeGap(l.base, l.cavity)
	return t, true
}

// sound reports a cover whose geometry failed.
func (s *solver) sound(l *lid, err error) bool {
	if err != nil || l.base.Empty() || l.plan.Empty() {
		given := "a cover of no size"
		if err != nil {
			given = err.Error()
		}
		s.fail(l.Table.At, l.key, given, "a rebate round the cavity", "use a narrower rebate")
		return false
	}
	return true
}

// edgeGap returns the least distance between the edges of two regions, mm.
func edgeGap(a, b geom.Region) float64 {
	d := math.Inf(1)
	for _, p := range a {
		for _, q := range b {
			e, _, _ := geom.PathDistance(p, q)
			d = math.Min(d, e)
		}
	}
	return d
}

// reaches reports whether a cover lies over its cavity all round.
func (s *solver) reaches(l *lid) bool {
	var c geom.Calc
	open := c.Subtract(l.cavity, l.plan)
	if c.Err() == nil && open.Area() <= geom.Budget {
		return true
	}
	edge := geom.IndexOf(l.plan)
	var most float64
	var at geom.Point
	for _, loop := range open {
		for _, v := range loop.Vertices() {
			if _, d := edge.Closest(v); d > most {
				most, at = d, v
			}
		}
	}
	b, q := l.plan.Bounds(), l.cavity.Bounds()
	cure := "make the rebate wider than the gap"
	if l.Outline.Set() {
		cure = "measure the cover again, or make the cavity smaller"
	}
	s.fail(l.Table.At, l.key,
		fmt.Sprintf("a cover of %s × %s mm that ends %s mm inside its cavity of %s × %s mm, near x %s, y %s",
			design.MM(b.W()), design.MM(b.H()), design.MM(most), design.MM(q.W()), design.MM(q.H()), design.MM(at.X),
			design.MM(at.Y)),
		"a cover that lies over its cavity all round", cure)
	return false
}

// shapeRebate widens the ledge at the screws and lays the cover into it.
func (s *solver) shapeRebate(l *lid, screws []geom.Point, t tool.Tool) bool {
	l.rebate = l.base
	if l.Outline.Set() {
		return true
	}
	var c geom.Calc
	all := []geom.Region{l.base}
	if l.ledge < bossWidth {
		for _, p := range screws {
			all = append(all, geom.Region{geom.Circle(p, s.bossRadius(l))})
		}
	}
	// Hollows between the bosses are filled to a radius that every bit runs
	// round, in the rebate's template and on the cover.
	l.rebate = solid(c.Close(c.Union(all...), math.Max(bossHollow, t.Offset()+blunted)))
	l.plan = c.Offset(l.rebate, -l.gap, geom.Round)
	if n := len(l.rebate.Components()); c.Err() == nil && n != 1 {
		s.fail(l.Screw.At.At, l.key+".screw.at", "a screw beside the ledge",
			fmt.Sprintf("places within %s mm of the cavity", design.MM(l.ledge+s.bossRadius(l))),
			"move the screw to the ledge")
		return false
	}
	return s.sound(l, c.Err())
}

// bossRadius returns the radius in mm of the wider ledge round a screw.
func (s *solver) bossRadius(l *lid) float64 { return math.Max(bossWidth/2, l.least) }

// addCover adds a cover and its male template. Any bit with a bearing of its
// own size trims it: the template is the cover.
func (s *solver) addCover(p part.Part) {
	s.Parts = append(s.Parts, p)
	n := need(p.ID+" bit", tightest(p.Plan()), 0, s.sheet)
	n.Blind = false // trimmed through
	t, err := s.rack.Pick(design.Cutter{}, n, p.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	var c geom.Calc
	male := cut.MaleFor(&c, p.Plan(), t)
	if err := c.Err(); err != nil {
		s.fail(p.At, p.ID, err.Error(), "a cover that a template can be made for", "change the cavity")
		return
	}
	s.Templates = append(s.Templates, cut.Template{
		ID: p.ID, Name: "cover " + p.Name, For: p, Male: true, Loose: true, Shape: male, Blank: male,
		Sheet: s.sheet, InsideRadius: s.rin, Tool: t,
	})
}

// tightest returns the smallest radius of a plan's edge where it turns into the
// wood: a cutter running round the outside must be no larger. 0 if there is
// none, so that any bit will do.
func tightest(r geom.Region) float64 {
	_, outside := geom.TightestRadius(r)
	if math.IsInf(outside.Radius, 1) {
		return 0
	}
	return outside.Radius
}
