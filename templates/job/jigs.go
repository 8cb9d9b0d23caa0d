package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/jig"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/tool"
	"routwright/templates/wood"
)

// Jigs are what the job needs beside its templates: each only where it serves.
type Jigs struct {
	Handles   []Handle
	Outrigger *Outrigger // nil where the router's own base is carried everywhere and no plate is given
	Neck      *NeckCaul  // nil unless a neck is glued in under a board
	Cauls     *EdgeCauls // nil without a crack
	Cradle    *jig.Edge  // nil without a jack in the edge
}

// Handle is a handle block for the part of one template.
type Handle struct {
	jig.Handle
	Template int     // index
	Height   float64 // of the part that is trimmed, mm
	// Above reports whether the template lies on the part, as a bearing at the tip
	// wants it, and not under it.
	Above bool
	// Waste is wood over the part that the block is screwed to, and that the saw
	// takes; 0 where there is none. Packer lies between part and block instead.
	Waste      float64
	Packer     geom.Region
	PackerTall float64
	// Screw holds the part by its waste; nil where tape does.
	Screw *HoldScrew
	// Tip is how high over the table the tip of the bit stands, at least and at most;
	// 0 where it stands on neither.
	Tip [2]float64
	// Lifts is how often the bit is set to trim the whole height; 1 where its cutting
	// length is not known. Short is by how much a cutter that cannot be set twice is
	// too short, 0 where it is not.
	Lifts int
	Short float64
}

// HoldScrew is a wood screw through the block.
type HoldScrew struct {
	Gauge         int
	At            [2]geom.Point // under the block
	Length        float64
	Through, Into float64 // holes in the block and in the wood
}

// Outrigger is the plate under the router's base.
type Outrigger struct {
	jig.Outrigger
	Given bool // in the design; else it is what would carry
	// Thicker is by how much it may be thicker than the plate whose place it takes,
	// by the reach of bits and bushes; negative where the bit does not reach as it
	// is, +Inf where the rack tells neither. By names what limits it.
	Thicker float64
	By      string
}

// NeckCaul is the caul for a glued neck.
type NeckCaul struct {
	jig.Neck
	Frets int // that it presses on
}

// EdgeCauls are two cauls that press a crack.
type EdgeCauls struct {
	jig.Press
	Crack int // index
	Two   [2]jig.Edge
	Tall  float64 // sheets that make one, glued, mm
	Count int     // of these sheets
}

// Of jigs, mm; common practice where nothing else is said.
const (
	Cork         = 3.0 // lining of a caul
	caulSpan     = 100.0
	caulDeep     = 25.0 // wood between the clamp and the face
	neckCaulTall = 30.0
	cradleSpan   = 110.0
	cradleDeep   = 40.0
	keyProud     = 1.5  // a key stands 1 to 2 over its recess
	ResawKerf    = 1.5  // of a resaw blade
	holdBite     = 10.0 // of a screw in the waste over a part
	wasteOver    = 2.0  // wood over the tip of such a screw
	tipPast      = 1.0  // that the bit's tip stands past what it trims
	tipUnder     = 2.0  // that it stays under the block
	packerTall   = 6.0
	packerIn     = 2.0 // that a packer lies inside the part's edge
	bushIn       = 3.0 // of a guide bush on the template's edge, to follow it
	knobGauge    = 8   // of the screw of a knob
)

// holdGauges are the gauges of the screws that hold a part under a block, the first
// that the part has room for.
var holdGauges = []int{6, 4}

// KeyHeight returns how tall a key is when it is sawn off, mm: its recess before
// planing and what stands proud.
func (j *Job) KeyHeight() float64 {
	h := 0.0
	for _, f := range j.Keys.Faces() {
		h = max(h, j.RecessDepth(f))
	}
	return h + keyProud
}

// KeyBlank returns how tall the one blank is that a number of keys is sawn from, mm:
// n·h + (n − 1)·kerf.
func (j *Job) KeyBlank(n int) float64 {
	return float64(n)*j.KeyHeight() + float64(n-1)*ResawKerf
}

// KnobScrew returns gauge and hole of the screw that holds a knob, mm.
func KnobScrew() (gauge int, through float64) { return knobGauge, clearHole(knobGauge) }

// clearHole is the hole that a wood screw passes without gripping, mm.
func clearHole(gauge int) float64 {
	return math.Round((wood.ScrewDiameter(gauge)+boltClear)*10) / 10
}

// Guide returns the block that leads the drill of a channel from a face.
func (j *Job) Guide(c Channel) jig.Guide {
	from := c.From()
	return jig.NewGuide(c.D, c.Path.Angle(from), c.Path.Rim, c.Path.Entry, from.Plate)
}

// jigs solves the jigs, after the cuts are proved: a left-handed job is mirrored by
// then, and so are they.
func (s *solver) jigs() error {
	for i := range s.Templates {
		if err := s.handle(i); err != nil {
			return err
		}
	}
	if err := s.outrigger(); err != nil {
		return err
	}
	s.neckCaul()
	s.edgeCauls()
	if k := s.Jack; k != nil && !k.Front() {
		if e, err := jig.Along(s.Outline, k.At, k.In, cradleSpan, cradleDeep, 0); err == nil {
			s.Jigs.Cradle = &e
		}
	}
	return nil
}

// handle makes the block for a part that is too small to be held and that is trimmed
// on its outside on the router table.
func (s *solver) handle(i int) error {
	t := s.Templates[i]
	if !t.Male || t.Free() || s.ByHand || t.For.Kind != part.Key && t.For.Kind != part.Cover {
		return nil
	}
	work := t.For.Plan()
	if b := work.Bounds(); max(b.W(), b.H()) >= limit.HandHeld || s.Sweeps[i].Centre.Empty() {
		return nil
	}
	e, err := jig.NewHandle(work, t.Shape, s.Sweeps[i].Centre, t.Tool.CutRadius())
	if err != nil {
		return fmt.Errorf("handle block for %s: %w", t.ID, err)
	}
	h := Handle{Handle: e, Template: i, Height: t.For.Depth(s.Thickness), Above: t.Tool.AtTip, Lifts: 1}
	if t.For.Kind == part.Key {
		h.Height = s.KeyHeight()
	}
	switch {
	case h.Above: // tape holds part, template and block
	case t.For.Kind == part.Key: // screws into waste over it
		long := 5 * math.Ceil((s.sheet+holdBite)/5)
		h.Waste = long - s.sheet + wasteOver
		err = s.holdBy(&h, long)
	default:
		var c geom.Calc
		h.Packer, h.PackerTall = c.Offset(h.Work, -packerIn, geom.Round), packerTall
		err = c.Err()
	}
	if err != nil {
		return fmt.Errorf("handle block for %s: %w", t.ID, err)
	}
	if !h.Above {
		h.Tip = [2]float64{t.Sheet + h.Height + tipPast, t.Sheet + h.Height + h.Waste + h.PackerTall - tipUnder}
	}
	if past := h.Height + tipPast; t.Tool.Length > 0 && past > t.Tool.Length {
		if h.Lifts = int(math.Ceil(past / t.Tool.Length)); !t.Tool.OwnSize() {
			h.Lifts, h.Short = 1, past-t.Tool.Length
		}
	}
	s.Jigs.Handles = append(s.Jigs.Handles, h)
	b := h.Block.Bounds()
	s.solved("handle block, "+t.Name, fmt.Sprintf("%s × %s mm", design.MM(b.W()), design.MM(b.H())),
		fmt.Sprintf("the part is under %d mm: %d mm more on every side, knobs %d mm from the cutter", limit.HandHeld, limit.HandleRim, limit.HandClear))
	return nil
}

// holdBy gives a handle block the screws that hold the part, of a length; none where
// the part has no room for them.
func (s *solver) holdBy(h *Handle, long float64) error {
	at, room, err := h.Hold()
	if err != nil {
		return err
	}
	for _, g := range holdGauges {
		if room < jig.HoldRoom(wood.ScrewDiameter(g)) {
			continue
		}
		into, err := wood.Pilot(g, 0) // keys are hard
		if err != nil {
			continue
		}
		h.Screw = &HoldScrew{g, at, long, clearHole(g), into}
		break
	}
	return nil
}

// outrigger takes the plate that the design gives, or finds the one that would carry
// the router where its own base does not.
func (s *solver) outrigger() error {
	o := Outrigger{Thicker: math.Inf(1)}
	o.Base, o.D, o.Given = s.Base, s.Wide, s.Wide > 0
	for i, t := range s.Templates {
		w := s.Sweeps[i]
		if t.Free() || t.Male || w.Centre.Empty() {
			continue
		}
		if w.Base != s.Base { // the plate was needed
			alone, err := cut.NewSweep(t, s.Base)
			if err != nil {
				return err
			}
			o.Over = append(o.Over, jig.Over{Template: i, Alone: alone.Worst(), With: w.Worst(), Wide: jig.WidestCircle(t.Shape)})
		} else if s.Wide == 0 {
			if worst := w.Worst(); worst.Share > limit.BaseOverhang {
				o.Over = append(o.Over, jig.Over{Template: i, Alone: worst, With: worst, Wide: jig.WidestCircle(t.Shape)})
			}
		}
	}
	if len(o.Over) == 0 && !o.Given {
		return nil
	}
	if !o.Given {
		if err := s.plate(&o); err != nil || o.D == 0 {
			return err
		}
	}
	widest := 0.0
	for i, t := range s.Templates {
		if t.Free() || t.Male || len(o.Over) > 0 && !o.over(i) {
			continue
		}
		widest = max(widest, t.Tool.Cutter, t.Tool.Follower)
		s.thicker(&o, t)
	}
	for _, e := range o.Over {
		o.Rule = max(o.Rule, jig.LeastPlate(e.Wide))
	}
	o.Hole = jig.PlateHole(widest)
	s.Jigs.Outrigger = &o
	return nil
}

// over reports whether the template with index i needs the plate.
func (o *Outrigger) over(i int) bool {
	for _, e := range o.Over {
		if e.Template == i {
			return true
		}
	}
	return false
}

// plate finds the least plate that carries the router over every opening, each
// template on a sheet that is large enough for it.
func (s *solver) plate(o *Outrigger) error {
	on := func(e jig.Over, d float64) (cut.Template, bool, error) {
		t := s.Templates[e.Template]
		return cut.Carried(t, d, webMargin, s.sheetOf(t))
	}
	var err error
	o.D, err = jig.Carrying(s.Base, o.Over, func(e jig.Over, d float64) (bool, error) {
		_, ok, err := on(e, d)
		return ok, err
	})
	if err != nil || o.D == 0 {
		return err
	}
	for i, e := range o.Over {
		t, _, err := on(e, o.D)
		if err != nil {
			return err
		}
		w, err := cut.NewSweep(t, o.D)
		if err != nil {
			return err
		}
		o.Over[i].With = w.Worst()
	}
	s.solved("router.outrigger, proposed", design.MM(o.D)+" mm", "the least plate that carries the router where its own base does not; write it into the design once it is made")
	return nil
}

// thicker takes down how much thicker the plate may be for one template.
func (s *solver) thicker(o *Outrigger, t cut.Template) {
	take := func(d float64, by string) {
		if d < o.Thicker {
			o.Thicker, o.By = d, by
		}
	}
	if t.Tool.Reach > 0 {
		take(t.Tool.Reach-s.CutDepth(t)-t.Sheet, "the reach of bit "+t.Tool.Bit)
	}
	if t.Tool.Guide == tool.Bush && t.Tool.Stands > 0 {
		take(t.Tool.Stands-bushIn, fmt.Sprintf("guide bush %s, which must keep %s mm on the template's edge", t.Tool.GuideOf, design.MM(bushIn)))
	}
}

// neckCaul makes the caul that presses a glued neck into its pocket: over the heel,
// as far as the board lies on it.
func (s *solver) neckCaul() {
	n, b := s.Neck, s.Board
	if n == nil || b == nil || !n.Glued || n.Pocket.ID == "" {
		return
	}
	from := b.CentreScale() - n.Joint // along the board
	end := max(b.BassEdge.B.Y, b.TrebleEdge.B.Y, from-n.Heel.Length)
	e, ok := jig.NewNeck(b, jig.NeckSpec{From: from, To: end, Fret: n.Setup.Fret, Cork: Cork, Sheet: s.sheet, Tall: neckCaulTall, Tilt: n.Angle})
	if !ok {
		return
	}
	c := NeckCaul{Neck: e}
	for _, q := range b.Slots {
		if y := q.Line.At(0.5).Y; y <= e.From && y >= e.To && q.Fret > 0 {
			c.Frets++
		}
	}
	s.Jigs.Neck = &c
	s.cork()
	s.solved("caul for the neck", fmt.Sprintf("%d slices of %s mm sheet", len(e.Slices), design.MM(e.Sheet)), "the neck is glued in: hollow to the tops of the frets and the cork")
}

// toBass reports whether a way across the body runs to the bass side, or, where it
// runs along the strings rather than across them, to the tail end.
func (j *Job) toBass(v geom.Vec) bool {
	if math.Abs(v.X) < math.Abs(v.Y) {
		return v.Y < 0
	}
	return (v.X < 0) != (j.Design.Hand.V == "left")
}

// cork reports the lining of the cauls, once.
func (s *solver) cork() {
	const key = "lining of cauls"
	for _, a := range s.Assumed {
		if a.Key == key {
			return
		}
	}
	s.assume(key, design.MM(Cork)+" mm of cork", "the usual sheet")
}

// edgeCauls makes two cauls for the first crack that clamps can press square.
func (s *solver) edgeCauls() {
	if s.Outline == nil {
		return
	}
	why := ""
	for i, crack := range s.Cracks {
		path := crack.Front
		if path == nil {
			path = crack.Back
		}
		press, ok := jig.Across(s.Outline, path)
		if !ok {
			continue
		}
		if deg := press.Skew.Degrees(); deg > limit.CaulSkew {
			why = fmt.Sprintf("a clamp square to the crack meets the edge %.0f degrees off square, over %d: it would slide", deg, limit.CaulSkew)
			continue
		}
		if s.toBass(press.Along) { // from the bass side, or from the tail end
			press.Along, press.Ends[0], press.Ends[1] = press.Along.Neg(), press.Ends[1], press.Ends[0]
		}
		c := EdgeCauls{Press: press, Crack: i}
		var err error
		for k, way := range [2]float64{1, -1} {
			if c.Two[k], err = jig.Along(s.Outline, press.Ends[k], press.Along.Mul(way), caulSpan, caulDeep, Cork); err != nil {
				why = err.Error()
				break
			}
		}
		if err != nil {
			continue
		}
		c.Count = max(1, int(s.Thickness/s.sheet))
		c.Tall = float64(c.Count) * s.sheet
		s.Jigs.Cauls = &c
		s.cork()
		s.solved("edge cauls", fmt.Sprintf("on the line through x %s, y %s mm", design.MM(press.Through.X), design.MM(press.Through.Y)),
			"square to the crack, where both edges stand most nearly square to the clamps")
		return
	}
	if why != "" {
		s.solved("edge cauls", "none", why)
	}
}
