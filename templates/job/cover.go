package job

import (
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/part"
)

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
