package job

import (
	"fmt"
	"slices"
	"sync"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/key"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// keyTool returns the tool for the keys of all sizes, as named or chosen, and the collar of an
// inlay set or 0. Where no follower makes key and recess alone, an inlay set of
// the rack is taken that leaves a glue gap, and a free path last of all.
func (s *solver) keyTool(specs []key.Spec, n tool.Need) (t tool.Tool, collar float64, err error) {
	k := s.d.Keys
	if k.Collar.Set() {
		t, err = s.rack.Pick(k.Cutter, n, k.At)
		return t, float64(k.Collar.V), err
	}
	n.Try = both(n.Try, func(t tool.Tool) string {
		return s.tryAll(specs, func(e key.Spec) (key.Fit, error) { return key.Make(e, t) })
	})
	if t, err = s.rack.WithoutFree().Pick(k.Cutter, n, k.At); err == nil || k.Cutter.Bit.Set() || k.Cutter.Bush.Set() || k.Cutter.Free.V {
		return t, 0, err
	}
	if t, collar, ok := s.inlaySet(specs, n); ok {
		return t, collar, nil
	}
	t, err = s.rack.Pick(k.Cutter, n, k.At)
	return t, 0, err
}

// tryAll says why one of several keys cannot be cut as it is drawn.
func (s *solver) tryAll(specs []key.Spec, draw func(key.Spec) (key.Fit, error)) string {
	for _, e := range specs {
		if why := s.tryKey(draw(e)); why != "" {
			return why
		}
	}
	return ""
}

// tryKey says why a key that was drawn with a tool cannot be cut with it.
func (s *solver) tryKey(f key.Fit, err error) string {
	if err != nil {
		return "cannot turn in the corners of the key"
	}
	if w := f.MaleWaist(); f.Inlay == nil && !f.Tool.Free() && w < limit.MaleWaist.Warn {
		return fmt.Sprintf("leaves a waist of %s mm on the key's template", design.MM(w))
	}
	female, male := f.Templates(1, s.sheet, webMargin) // no depth is looked at
	p, err := key.Prove(f, female, male)
	switch {
	case err != nil:
		return "cannot be proved"
	case !p.Recess.Left.Empty() || !p.Recess.Lost.Empty():
		return "does not make the recess"
	case f.Inlay == nil && (!p.Key.Left.Empty() || !p.Key.Lost.Empty()):
		return "does not make the key"
	}
	return ""
}

// inlaySet returns the bush with a collar, and the largest bit for it, that make
// key and recess from one opening with a gap for glue.
func (s *solver) inlaySet(specs []key.Spec, n tool.Need) (tool.Tool, float64, bool) {
	bits := slices.Clone(s.rack.Bits())
	slices.SortStableFunc(bits, func(a, b design.Bit) int {
		switch {
		case a.D.V > b.D.V:
			return -1
		case a.D.V < b.D.V:
			return 1
		}
		return 0
	})
	for _, b := range bits {
		for _, g := range s.rack.Bushes() {
			in := key.Inlay{Bush: float64(g.D.V), Collar: float64(g.Collar.V)}
			gap := in.Gap(float64(b.D.V))
			if !g.Collar.Set() || gap < limit.GapLeast || gap > limit.GapMost || in.Bush <= float64(b.D.V) {
				continue
			}
			t := tool.Tool{Bit: b.Name.V, Cutter: float64(b.D.V), Length: float64(b.Cut.V), Shank: float64(b.Shank.V), Reach: float64(b.Reach.V), Guide: tool.Bush,
				GuideOf: g.Name.V, Follower: in.Bush, Stands: float64(g.Reach.V), At: s.d.Keys.At, Drill: s.d.Keys.Cutter.Drill.V}
			if t.Reach > 0 && t.Reach < n.Depth+n.Template || t.ShankRubs(n.Depth) || t.Stands > n.Template || s.tryAll(specs, func(e key.Spec) (key.Fit, error) { return inlay(e, t, in.Collar) }) != "" {
				continue
			}
			t.Why = fmt.Sprintf("bit %q with inlay bush %q and its collar chosen: no bearing and no bush alone makes key and recess; bush + 2 bits − collar leave a gap of %s mm a side", t.Bit, t.GuideOf, design.MM(gap))
			return t, in.Collar, true
		}
	}
	return tool.Tool{}, 0, false
}

// inlay draws a key with the inlay set of a tool on a bush.
func inlay(spec key.Spec, t tool.Tool, collar float64) (key.Fit, error) {
	f, err := key.MakeInlay(spec, t.Bit, t.Cutter, key.Inlay{Bush: t.Follower, Collar: collar})
	f.Tool.Length, f.Tool.Shank, f.Tool.Reach, f.Tool.Stands, f.Tool.At, f.Tool.Drill = t.Length, t.Shank, t.Reach, t.Stands, t.At, t.Drill
	return f, err
}

// both joins two trials.
func both(a, b func(tool.Tool) string) func(tool.Tool) string {
	return func(t tool.Tool) string {
		if why := a(t); why != "" {
			return why
		}
		return b(t)
	}
}

// cuts returns what tries a tool on a void of the given plan by simulating its cut.
func (s *solver) cuts(plan geom.Region) func(tool.Tool) string {
	corner, _ := geom.TightestRadius(plan)
	return func(t tool.Tool) string {
		if least := t.LeastCorner(s.rin); least > corner.Radius+geom.Coincident {
			return fmt.Sprintf("leaves corners of radius %s mm, over %s", design.MM(least), design.MM(corner.Radius))
		}
		var c geom.Calc
		open := cut.OpeningFor(&c, plan, t)
		if c.Err() != nil || open.Empty() {
			return "does not enter"
		}
		p, err := cut.Prove(cut.Template{Shape: open, InsideRadius: s.rin, Tool: t,
			For: part.Part{Solids: []part.Solid{{Plan: plan, Floor: part.Level(1)}}}})
		switch {
		case err != nil:
			return "cannot be proved"
		case !p.Left.Empty():
			return "leaves wood in corners"
		case !p.Lost.Empty():
			return "takes wood over the line"
		case !p.Passes:
			return "does not pass the neck"
		}
		return ""
	}
}

// router solves what is known of the router: its base, how parts are trimmed on
// their outside, and what stands out of the templates.
func (s *solver) router() {
	d := s.d
	s.Base = s.length(d.Router.Base, "router.base", defaultBase, "diameter of the base, usual for a plunge router (common practice): measure yours")
	if s.Wide = float64(d.Router.Outrigger.V); s.Wide > 0 && s.Wide <= s.Base {
		s.fail(d.Router.Outrigger.At, "router.outrigger", design.MM(s.Wide)+" mm", "a plate larger than the base, "+design.MM(s.Base)+" mm", "measure it across, or leave it out")
	}
	s.ByHand = d.Router.Outside.V == "hand"
	if !d.Router.Outside.Set() {
		s.assume("router.outside", "table", "held by hand, more than half of the base would hang over a part's edge")
	}
	s.PinProud = s.length(d.Template.Proud, "template.pin_proud", 0, "pins are cut flush with the template, so that the base slides over them")
	for i, at := range d.Template.Screws.V {
		s.Screws = append(s.Screws, cut.Proud{Words: fmt.Sprintf("screw or clamp %d", i+1), At: at, D: defaultScrewHead})
	}
}

// Proud returns what stands out of a template's upper face: its pins where they
// are not cut flush, and on the shared pins the screws and clamps of the design.
func (j *Job) Proud(t cut.Template) []cut.Proud {
	var out []cut.Proud
	if j.PinProud > 0 {
		for _, p := range t.Pins {
			out = append(out, cut.Proud{Words: "pin " + p.Name, At: p.At, D: p.D})
		}
	}
	if t.Pinned() {
		out = append(out, j.Screws...)
	}
	return out
}

// sweeps works out where the base goes over each template, and lists what is
// assumed of the drills where waste is better drilled out first.
func (s *solver) sweeps() error {
	wants := false
	for i, t := range s.Templates {
		w, err := cut.NewSweep(t, s.Base)
		if err == nil && s.Wide > 0 && !t.Male && w.Worst().Share > limit.BaseOverhang {
			w, err = cut.NewSweep(t, s.Wide)
		}
		if err != nil {
			return err
		}
		s.Sweeps = append(s.Sweeps, w)
		wants = wants || s.wantsDrill(i)
	}
	if wants {
		for _, d := range s.rack.Drills() {
			for _, w := range d.Assumed {
				s.assume("drill", d.String()+" mm", w)
			}
		}
	}
	s.drilled = make([]drilled, len(s.Templates))
	s.held = make([]held, len(s.Templates))
	return nil
}

// wantsDrill reports whether the waste of a template is drilled out first: where
// the design says so, or where it saves the router a bite that is too deep or a
// third pass.
func (j *Job) wantsDrill(i int) bool {
	t := j.Templates[i]
	return !t.Male && (t.Tool.Drill || j.Routing(i).WantsDrill(t.Tool))
}

// drilled keeps the plan for drilling the waste of a template once it was asked
// for: each takes some ten milliseconds, and a check alone needs none of them.
type drilled struct {
	once sync.Once
	plan cut.DrillOut
}

// DrillOut returns the plan by which the waste of the template with index i is
// drilled out first; it has no holes where that helps nothing or no drill fits.
// Any number of goroutines may ask.
func (j *Job) DrillOut(i int) cut.DrillOut {
	if !j.wantsDrill(i) {
		return cut.DrillOut{}
	}
	rack, _ := tool.NewRack(j.Design)
	plan := func() cut.DrillOut {
		return cut.DrillWaste(j.waste(i), rack.Drills())
	}
	if i >= len(j.drilled) {
		return plan()
	}
	m := &j.drilled[i]
	m.once.Do(func() { m.plan = plan() })
	return m.plan
}
