package job

import (
	"fmt"
	"math"
	"sync"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// solver carries a job while it is being solved. Every step adds its errors to
// errs and goes on with what can still be solved, so that one run tells all.
type solver struct {
	*Job
	d      *design.Design
	files  Files
	rack   tool.Rack
	errs   design.Errors
	ids    map[string]bool
	memory *Memory  // nil without one
	sheet  float64  // template thickness
	rin    float64  // smallest inside radius of the template's maker
	lids   []func() // covers that wait for the jack
}

// Solve turns a design into a job. The error is design.Errors: everything that
// is wrong, sorted by place. A design that solves may still break a rule of the
// trade: package check tells.
func Solve(d *design.Design, files Files) (*Job, error) { return solveWith(d, files, nil) }

func solveWith(d *design.Design, files Files, m *Memory) (*Job, error) {
	s := &solver{
		Job: &Job{Design: d}, d: d, files: files, ids: map[string]bool{}, memory: m,
	}
	var bits []string
	s.rack, bits = tool.NewRack(d)
	for _, b := range bits {
		s.assume("bit", b, "no bit was given: measure yours")
	}
	s.recalibrate()
	s.general()
	s.board()
	s.setup()
	s.strings()
	s.body()
	s.meetEdge()
	s.edge()
	s.contours() // before the keys, which must keep wood under them
	s.cracks()
	s.blank()
	s.cracksInSlab()
	s.joint()
	s.bridge()
	s.pickups()
	s.cavities()
	s.chambers()
	s.jack()
	s.covers() // after the jack, which their screws keep away from
	s.strap()
	s.keys()     // after the voids, which they must keep away from
	s.channels() // past all of them
	s.bodyTemplate()
	s.neckParts()
	s.sections()
	s.pins()
	s.weigh()
	if err := s.errs.Err(); err != nil {
		return nil, err
	}
	if d.Hand.V == "left" {
		s.mirror()
	}
	s.stock() // of the templates as they come out
	if err := s.errs.Err(); err != nil {
		return nil, err
	}
	if err := s.prove(); err != nil {
		return nil, err
	}
	if err := s.jigs(); err != nil {
		return nil, err
	}
	return s.Job, nil
}

// prove simulates the cut of every template; a key and its recess are proved
// together.
func (s *solver) prove() error {
	if err := s.proveKeys(); err != nil {
		return err
	}
	for _, t := range s.Templates {
		var p cut.Proof
		var err error
		switch z := s.Keys.Of(t.ID); {
		case z == nil:
			p, err = cut.Prove(t)
		case t.Male:
			p = z.Proof.Key
		default:
			p = z.Proof.Recess
		}
		if err != nil {
			return err
		}
		s.Proofs = append(s.Proofs, p)
	}
	if err := s.keepOuts(); err != nil {
		return err
	}
	return s.sweeps()
}

func (s *solver) general() {
	d := s.d
	s.Name = d.Name.V
	if !d.Name.Set() {
		s.Name = "Untitled"
		s.assume("name", s.Name, "no name was given")
	}
	s.Revision = d.Revision.V
	if !d.Revision.Set() {
		s.Revision = "-"
	}
	s.Rough = s.length(d.Slab.Rough, "slab.rough", defaultThickness, "measure the slab")
	s.PlaneOff = [2]float64{
		s.length(d.Slab.Plane.Front, "slab.plane.front", 0, "nothing more comes off"),
		s.length(d.Slab.Plane.Back, "slab.plane.back", 0, "nothing more comes off"),
	}
	s.Thickness = s.Rough - s.PlaneOff[0] - s.PlaneOff[1]
	if s.Thickness < 20 { // the thinnest slab that any cavity of the trade fits; common practice
		s.fail(d.Slab.Rough.At, "slab.rough", fmt.Sprintf("%s mm less %s mm planed off", design.MM(s.Rough), design.MM(s.PlaneOff[0]+s.PlaneOff[1])), "a finished body of at least 20 mm", "plane less, or start from a thicker slab")
	}
	s.solved("body thickness", design.MM(s.Thickness)+" mm", "rough slab less what is planed off")
	s.sheet = s.length(d.Template.Thickness, "template.thickness", defaultSheet, "measure the sheet")
	s.rin = s.length(d.Template.Inside, "template.smallest_inside_radius", defaultInside, "a template that is sawn and filed")
	s.router()
	s.print()
	for _, a := range d.Allow {
		s.Assumed = append(s.Assumed, Assumption{"allow " + a.Check.V, "limit " + design.MM(a.Limit.V), "allowed", a.Reason.V})
	}
}

// recalibrate reports the bits whose true diameter a test slot tells.
func (s *solver) recalibrate() {
	for _, b := range s.d.Bit {
		if !b.TestSlot.Set() {
			continue
		}
		is, was := float64(b.TestSlot.V), float64(b.D.V)
		if math.Abs(is-was) > tool.SlotOff {
			s.fail(b.TestSlot.At, "bit.test_slot", fmt.Sprintf("a slot of %s mm from bit %q of %s mm", design.MM(is), b.Name.V, design.MM(was)), fmt.Sprintf("within %s mm of the bit's diameter", design.MM(tool.SlotOff)), "measure both again")
			continue
		}
		s.solved("bit "+b.Name.V, design.MM(is)+" mm", fmt.Sprintf("true cutter diameter from its test slot, in place of %s mm", design.MM(was)))
	}
}

// ruler is the length in mm that is measured on a print when the file does not
// say another.
const ruler = 100

func (s *solver) print() {
	p := s.d.Print
	s.Print = Print{Paper: p.Paper.V, Margin: float64(p.Margin.V), Overlap: float64(p.Overlap.V)}
	if p.Measured.Set() {
		s.Print.Measured = geom.Vec{X: p.Measured.V[0], Y: p.Measured.V[1]}
		s.Print.Nominal = geom.Vec{X: ruler, Y: ruler}
		if p.Of.Set() {
			s.Print.Nominal = geom.Vec{X: float64(p.Of.V[0]), Y: float64(p.Of.V[1])}
		}
		for i, k := range [2]float64{s.Print.Nominal.X / s.Print.Measured.X, s.Print.Nominal.Y / s.Print.Measured.Y} {
			if off := math.Abs(k - 1); off > render.MaxCorrection {
				s.fail(p.Measured.At, "print.measured", fmt.Sprintf("%g mm %s for %g mm, a correction of %.1f %%", p.Measured.V[i], [2]string{"across", "up"}[i], p.Measured.V[i]*k, 100*off), fmt.Sprintf("at most %g %%", 100*render.MaxCorrection), "print at 100 % and measure again; say what it should be with of = [across, up]")
			}
		}
	}
}

// fail records an error at a place of the design file.
func (s *solver) fail(at design.Pos, key, given, allowed, cure string) {
	s.errs.Add(design.Errorf(at, key, given, allowed, cure))
}

// assume records a value that nobody gave.
func (s *solver) assume(key, value, why string) {
	s.Assumed = append(s.Assumed, Assumption{key, value, "assumed", why})
}

func (s *solver) solved(key, value, why string) {
	s.Assumed = append(s.Assumed, Assumption{key, value, "solved", why})
}

// length returns a given length in mm, or the default, which it reports.
func (s *solver) length(v design.Val[design.Length], key string, def float64, why string) float64 {
	if v.Set() {
		return float64(v.V)
	}
	s.assume(key, design.MM(def)+" mm", why)
	return def
}

// id returns a file name for a part, unique in the job.
func (s *solver) id(name string) string {
	base := design.Slug(name)
	id := base
	for n := 2; s.ids[id]; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	s.ids[id] = true
	return id
}

// addVoid adds a part with its template: a sheet with an opening on the two
// shared pins.
func (s *solver) addVoid(p part.Part, t tool.Tool, words string) {
	s.Parts = append(s.Parts, p)
	var c geom.Calc
	open := cut.OpeningFor(&c, p.Plan(), t)
	if err := c.Err(); err != nil {
		s.fail(p.At, p.ID, err.Error(), "a plan that a template can be made for", "change the shape")
		return
	}
	if open.Empty() {
		s.fail(p.At, p.ID, fmt.Sprintf("a %s that a bit of %s mm does not enter", p.Kind, design.MM(t.Cutter)), "a bit narrower than the cavity", "name a smaller bit")
		return
	}
	s.Templates = append(s.Templates, cut.Template{
		ID: p.ID, Name: words, For: p, Shape: open,
		Sheet: s.sheet, InsideRadius: s.rin, Tool: t,
	})
	if t.Why != "" {
		s.solved(p.ID+" bit", t.Bit, t.Why)
	}
}

// pins solves the two shared pins and the sheets that they locate, once every
// opening is known.
func (s *solver) pins() {
	if s.Outline == nil || s.Blank == nil {
		return
	}
	var boxes []geom.Box
	for _, t := range s.Templates {
		if t.Pinned() && !t.Free() {
			boxes = append(boxes, t.Shape.Bounds().Grow(webMargin))
		}
	}
	var cracks []geom.Path
	for _, c := range s.Cracks {
		for _, p := range []geom.Path{c.Front, c.Back} {
			if p != nil {
				cracks = append(cracks, p)
			}
		}
	}
	d := s.length(s.d.Template.Pin, "template.pin", defaultPin, "the thicker of two dowels")
	pins, err := cut.SolvePins(s.Blank, s.taken(), cracks, boxes, d)
	if err != nil {
		s.fail(s.d.Slab.Blank.At, "slab.blank", err.Error(), "room for the pins", "use a larger slab")
		return
	}
	s.Pins = pins
	for _, p := range pins {
		s.solved("pin "+p.Name, fmt.Sprintf("x %s, y %s, d %s mm", design.MM(p.At.X), design.MM(p.At.Y), design.MM(p.D)), "in the waste of the slab")
	}
	var wg sync.WaitGroup
	errs := make([]error, len(s.Templates))
	for i, t := range s.Templates {
		wg.Go(func() {
			if t.Pinned() {
				t.Pins = pins
				errs[i] = s.carry(&t)
			}
			s.Templates[i] = t.Settled()
		})
	}
	wg.Wait()
	for i, err := range errs {
		if t := s.Templates[i]; err != nil {
			s.fail(t.For.At, t.ID, err.Error(), "a template that carries the router's base", "change the shape")
		}
	}
}

// taken returns the outline with the voids that run past it: where no pin may
// stand.
func (s *solver) taken() geom.Region {
	all := []geom.Region{s.Outline}
	for _, v := range s.OfKind(part.Pocket) {
		all = append(all, v.Plan())
	}
	if len(all) == 1 {
		return s.Outline
	}
	var c geom.Calc
	u := c.Union(all...)
	if c.Err() != nil {
		return s.Outline
	}
	return u
}
