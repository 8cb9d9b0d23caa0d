package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/balance"
	"routwright/templates/design"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// Thing is one piece of the instrument on the scales.
type Thing struct {
	Name string
	How  string // where its weight comes from
	Mass float64
	At   part.Point // its balance point
}

// Change is what a change of the design would do.
type Change struct {
	Words string
	Mass  float64 // of the whole after it, g
	Y     float64 // of the balance point
	Hang  geom.Angle
	Hangs bool
}

// Balance is the weight of the finished instrument and how it hangs.
type Balance struct {
	Things []Thing
	Mass   float64 // g
	At     part.Point
	Wood   balance.Bulk // of the body as cut, keys and covers aside
	// Hang is the angle of the centre line on the strap: the head up when
	// positive. Hangs is false without strap buttons.
	Hang  geom.Angle
	Hangs bool
	Strap float64 // length, mm
	// Level is where along the strap from the upper button the shoulder carries a
	// level instrument, mm; 0 where no place does. Share is the part of the weight
	// that the upper button carries when it is level.
	Level, Share float64
	Changes      []Change
}

// Weights, from memory of such parts on the scales: weigh yours and say so under
// [[hardware]]. Grams.
var (
	pickupGrams = map[string]float64{"single-coil": 60, "humbucker": 130, "soapbar": 120}
	bridgeGrams = map[string]float64{"fixed": 200, "two-post": 220, "wraparound": 130}
)

const (
	tunerGrams   = 35.0  // each
	controlGrams = 150.0 // pots, knobs, switch, jack, wires
	bodyDensity  = 600.0 // kg/m³, the middle of the woods that bodies are made of; common practice
	neckDensity  = 700.0 // kg/m³, sugar maple by the Wood Handbook: 0.63 · 1.12
	// A neck before it is drawn, from memory: 15 of wood under a board of 6, half
	// round; a head of 180 × 70 × 14.
	neckDeep, boardDeep        = 15.0, 6.0
	headLong, headWide, headUp = 180.0, 70.0, 14.0
	defaultStrapLong           = 1000.0 // from button to button; common practice 900–1200
)

// weigh works out weight and balance of the solved job.
func (s *solver) weigh() {
	if s.Outline == nil || len(s.errs) > 0 {
		return
	}
	b := &Balance{}
	s.weighWood(b)
	s.weighNeck(b)
	s.weighHardware(b)
	var all balance.Bulk
	for _, t := range b.Things {
		all = all.Plus(balance.At(t.Mass, t.At))
	}
	b.Mass, b.At = all.V, all.Centre()
	s.Balance = b
	s.solved("mass", fmt.Sprintf("%s kg, balance point x %s, y %s mm", design.MM(b.Mass/1000), design.MM(b.At.X), design.MM(b.At.Y)), "tables/balance.csv has every piece")
	if s.Strap == nil {
		return
	}
	b.Strap = s.length(s.d.Strap.Length, "strap.length", defaultStrapLong, "from button to button, as you wear it")
	up := -1.0 // solved for the right hand; the mirror turns it
	hang := func(upper geom.Point, at part.Point) (geom.Angle, bool) {
		return balance.Hang(upper, s.Strap.Tail.At, at.Flat(), b.Strap, up)
	}
	b.Hang, b.Hangs = hang(s.Strap.Upper.At, b.At)
	b.Level, _ = balance.Level(s.Strap.Upper.At, s.Strap.Tail.At, b.At.Flat(), b.Strap, up)
	b.Share = balance.Share(s.Strap.Upper.At, s.Strap.Tail.At, b.At.Flat())
	s.changes(b, hang)
}

// changes works out what moving, lightening or chambering would do.
func (s *solver) changes(b *Balance, hang func(geom.Point, part.Point) (geom.Angle, bool)) {
	all := balance.At(b.Mass, b.At)
	add := func(words string, off balance.Bulk, upper geom.Point) {
		left := all.Plus(off)
		c := Change{Words: words, Mass: left.V, Y: left.Centre().Y}
		c.Hang, c.Hangs = hang(upper, left.Centre())
		b.Changes = append(b.Changes, c)
	}
	up := s.Strap.Upper.At
	add("upper button 20 mm further towards the head", balance.Bulk{}, up.Add(geom.Vec{Y: 20}))
	low := s.Outline.Bounds().Min.Y
	add("100 g of wood less, chambered half way between bridge line and tail", balance.At(-100, part.Point{X: 0, Y: low / 2, Z: s.Thickness / 2}), up)
	add("100 g more at the tail end", balance.At(100, part.Point{Y: low, Z: s.Thickness / 2}), up)
	for _, t := range b.Things {
		if t.Name == "tuners" {
			add("tuners half as heavy", balance.At(-t.Mass/2, t.At), up)
		}
		if t.Name == "body" {
			add("a body one tenth lighter", balance.At(-t.Mass/10, t.At), up)
		}
	}
	density := s.slabDensity(nil)
	for _, c := range s.OfKind(part.Chamber) {
		add("without the "+c.String(), balance.OfAll(c.Solids).Times(density*1e-6), up)
	}
}

// slabDensity returns the density of the body's wood in kg/m³, and says where it
// comes from.
func (s *solver) slabDensity(how *string) float64 {
	return s.density(s.d.Slab.Wood, bodyDensity, how)
}

func (s *solver) density(v design.Val[string], def float64, how *string) float64 {
	d, words := def, fmt.Sprintf("%g kg/m³, a first guess: name the wood as the tables do", def)
	if v.Set() {
		if w, err := wood.Lookup(v.V); err == nil && w.Density > 0 {
			d, words = w.Density, fmt.Sprintf("%s at 12 %% moisture, %g kg/m³; %s", w.Name, w.Density, wood.Source)
		}
	}
	if how != nil {
		*how = words
	}
	return d
}

// weighWood weighs the body as it is cut, its keys and covers.
func (s *solver) weighWood(b *Balance) {
	var cut, later []part.Solid // what is cut away; without the recesses, which keys fill
	var drilled balance.Bulk
	var c geom.Calc
	for _, p := range s.Parts {
		if p.Adds || !inBody(p.Kind) {
			continue
		}
		for _, e := range p.Solids {
			e.Plan = c.Intersect(e.Plan, s.Outline)
			if e.Plan.Empty() {
				continue
			}
			cut = append(cut, e)
			if p.Kind != part.Recess {
				later = append(later, e)
			}
		}
		for _, h := range p.Bores {
			if !h.Square() {
				drilled = drilled.Plus(balance.OfBore(h))
				continue
			}
			e := part.Solid{Plan: geom.Region{geom.Circle(h.From.Flat(), h.D/2)}}
			e.Top = part.Level(math.Max(0, math.Min(h.From.Z, h.To.Z)))
			e.Floor = part.Level(math.Min(s.Thickness, math.Max(h.From.Z, h.To.Z)))
			cut, later = append(cut, e), append(later, e)
		}
	}
	pieces, err := balance.Carve(cut)
	if err == nil {
		err = c.Err()
	}
	if err != nil {
		s.fail(s.d.Body.At, "body", err.Error(), "parts whose volumes can be told", "move the parts that meet there a little")
		return
	}
	body := balance.Of(part.Solid{Plan: s.Outline, Top: part.Level(0), Floor: part.Level(s.Thickness)})
	body = body.Plus(balance.OfAll(pieces).Times(-1)).Plus(drilled.Times(-1))
	for _, f := range []part.Face{part.Front, part.Back} {
		if p := s.Edge.Faces[f]; p.Size() > 0 {
			body = body.Plus(balance.Rim(s.Outline, p, f, s.Thickness).Times(-1))
		}
	}
	b.Wood = body
	var how string
	d := s.slabDensity(&how)
	b.add("body", how, body, d)
	var keys, lids balance.Bulk
	for _, p := range s.Parts {
		switch p.Kind {
		case part.Key:
			for _, e := range p.Solids {
				left, err := balance.Less(e, later)
				if err != nil {
					left = p.Solids
				}
				keys = keys.Plus(balance.OfAll(left))
			}
		case part.Cover:
			lids = lids.Plus(balance.OfAll(p.Solids))
		}
	}
	b.add("covers", "of the body's wood", lids, d)
	if keys.V > 0 {
		d := s.density(s.d.Keys.Wood, neckDensity, &how)
		b.add("keys", how, keys, d)
	}
}

// add puts a bulk on the scales; density in kg/m³.
func (b *Balance) add(name, how string, v balance.Bulk, density float64) {
	if v.V > 0 {
		b.Things = append(b.Things, Thing{name, how, v.V * density * 1e-6, v.Centre()})
	}
}

// scale returns the distance from nut to bridge line on the centre line.
func (s *solver) scale() float64 {
	if s.Board != nil {
		return s.Board.CentreScale()
	}
	return defaultScale
}

// weighHardware puts the hardware on the scales: as weighed by the builder, else
// by a guess.
func (s *solver) weighHardware(b *Balance) {
	weighed := map[string]bool{}
	for _, h := range s.d.Hardware {
		weighed[h.For.V] = true
		b.Things = append(b.Things, Thing{h.Name.V, "weighed", h.Grams.V, part.Point{X: h.At.V.X, Y: h.At.V.Y, Z: float64(h.Z.V)}})
	}
	guess := func(what, name string, grams float64, at part.Point) {
		if !weighed[what] && grams > 0 {
			b.Things = append(b.Things, Thing{name, "from memory, weigh yours", grams, at})
		}
	}
	for i, p := range s.OfKind(part.Pickup) {
		kind := "humbucker"
		if i < len(s.d.Pickup) && s.d.Pickup[i].Kind.Set() {
			kind = s.d.Pickup[i].Kind.V
		}
		at := p.Plan().Centroid()
		guess("pickups", "pickup "+p.Name, pickupGrams[kind], part.Point{X: at.X, Y: at.Y, Z: p.Depth(s.Thickness) / 2})
	}
	if s.d.Bridge.Present {
		kind := s.d.Bridge.Kind.V
		if kind == "" {
			kind = "fixed"
		}
		guess("bridge", "bridge", bridgeGrams[kind], part.Point{})
	}
	if s.Board != nil {
		n := float64(defaultStrings)
		if v := s.d.Strings.Count; v.Set() {
			n = float64(v.V)
		}
		guess("tuners", "tuners", n*tunerGrams, s.tunersAt())
	}
	if at, ok := s.rodAt(); ok {
		guess("rod", "rod", rodGrams, at)
	}
	var at balance.Bulk
	for _, p := range s.OfKind(part.Cavity) {
		at = at.Plus(balance.OfAll(p.Solids))
	}
	if at.V > 0 {
		guess("controls", "controls", controlGrams, at.Centre())
	}
}
