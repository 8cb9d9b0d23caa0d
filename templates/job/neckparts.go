package job

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/fretboard"
	"routwright/templates/neck"
	"routwright/templates/part"
)

// Ids of the neck's parts and templates.
const (
	NeckID = "neck"
	HeadID = "headstock"
	SideID = "neck-side"
)

// Values assumed for a neck that is to be made; common practice.
const (
	neckJoint  = 16 // fret over the body's edge, where the body does not tell
	heelCorner = 6.0

	headBehind    = 6.0
	headThickness = 14.0 // 13–15
	headTilt      = 12.0 // degrees, 10–14
	headStep      = 7.0
	headSweep     = 25.0
	headFirst     = 40.0
	headInLine    = 25.0 // pitch, 24–27
	headSplit     = 40.0 // pitch, 38–42
	headHole      = 10.0
	headPost      = 6.0
	headAlong     = 18.0
	headInward    = 9.0
	headEdge      = 8.0
	headCrown     = 4.0
	headNeckR     = 20.0
	headShoulderR = 10.0
	headTipR      = 8.0
	paddleWider   = 40.0 // than the nut, at its shoulders
	paddleTip     = 30.0 // than the nut, at its tip

	rodWidth  = 6.35
	rodDepth  = 9.5
	rodBow    = 2.0 // of a channel along an arc
	rodOpen   = 20.0
	rodOpenW  = 12.0
	backFirst = 20.5 // 19–22 with the board
	backLater = 22.5
	backFull  = 0.5
	backFoot  = 5.0
	backHeelR = 25.0
	throatR   = 20.0
)

// neckParts shapes the neck that is to be made and its templates. A design asks
// for one with any of [neck.head], [neck.rod] and [neck.back]; a bought neck
// needs none of them.
func (s *solver) neckParts() {
	n := s.d.Neck
	if s.Board == nil || !n.Head.Present && !n.Rod.Present && !n.Back.Present {
		return
	}
	if n.Heel.Present && s.Neck != nil && !(s.Neck.Heel.End > 0 && s.Neck.Heel.Mouth > 0) {
		return // told already
	}
	before := len(s.errs)
	spec := neck.Spec{Board: s.neckBoard()}
	spec.Heel = s.neckHeel(spec.Board)
	spec.Head = s.neckHead(spec.Board)
	spec.Rod = s.neckRod()
	spec.Back = s.neckBack()
	if len(s.errs) > before {
		return
	}
	sh, err := neck.New(spec)
	if err != nil {
		var ps neck.Problems
		if !errors.As(err, &ps) {
			s.errs.Add(err)
			return
		}
		for _, p := range ps {
			s.fail(s.neckAt(p.Field), "neck."+p.Field, p.Given, p.Allowed, p.Cure)
		}
		return
	}
	s.Shape = sh
	s.neckSolved()
	s.neckTemplates()
}

// once is length for a key that another step may have assumed already.
func (s *solver) once(v design.Val[design.Length], key string, def float64, why string) float64 {
	for _, a := range s.Assumed {
		if a.Key == key && !v.Set() {
			return def
		}
	}
	return s.length(v, key, def, why)
}

// neckBoard takes over what the neck needs of the fretboard.
func (s *solver) neckBoard() neck.Board {
	b := s.Board
	centre := geom.Line(geom.Pt(0, 0), geom.Pt(0, 1))
	along := func(f float64) float64 { // y of the fraction f of the strings on the centre line
		l := geom.Line(b.Bass().At(f), b.Treble().At(f))
		if l.A.Dist(l.B) < geom.Coincident {
			return l.A.Y
		}
		return linesMeet(l, centre).Y
	}
	out := neck.Board{Bass: b.BassEdge, Treble: b.TrebleEdge, Nut: b.NutEdge,
		Thickness: s.once(s.d.Board.Thickness, "fretboard.thickness", defaultBoard, "measure the board in its middle"),
		First:     along(b.Spec.Tuning.Fraction(1)), Octave: along(0.5), OctaveFret: octaveFret(b)}
	for _, l := range b.Strings {
		nut := linesMeet(geom.Line(l.Nut, l.Saddle), b.NutEdge)
		out.Strings = append(out.Strings, geom.Line(nut, l.Saddle))
	}
	return out
}

// octaveFret returns the number of the fret nearest to half the string.
func octaveFret(b *fretboard.Board) int {
	best := 1
	for i := 1; i <= 100; i++ {
		if math.Abs(b.Spec.Tuning.Fraction(float64(i))-0.5) < math.Abs(b.Spec.Tuning.Fraction(float64(best))-0.5)-1e-12 {
			best = i
		}
	}
	return best
}

// linesMeet returns where two lines that are not parallel cross.
func linesMeet(a, b geom.Seg) geom.Point {
	d, e := a.B.Sub(a.A), b.B.Sub(b.A)
	return a.A.Add(d.Mul(b.A.Sub(a.A).Cross(e) / d.Cross(e)))
}

// neckHeel returns the heel in the plan frame of the board: as measured, where
// the design has a [neck.heel], else as wide as the board over it.
func (s *solver) neckHeel(b neck.Board) neck.Heel {
	d := s.d.Neck.Heel
	var out neck.Heel
	if s.Neck != nil && s.Neck.Joint > 0 {
		out.Joint = s.Neck.Scale - s.Neck.Joint
	} else {
		s.assume("neck.joint.fret", fmt.Sprint(neckJoint), "fret over the body's edge")
		t := s.Board.Spec.Tuning.Fraction(neckJoint)
		out.Joint = linesMeet(geom.Line(s.Board.Bass().At(t), s.Board.Treble().At(t)), geom.Line(geom.Pt(0, 0), geom.Pt(0, 1))).Y
	}
	if s.Neck != nil && s.Neck.Heel.Length > 0 {
		h := s.Neck.Heel
		out.End, out.Thickness, out.Corner = out.Joint-h.Length, h.Thickness, h.Corner
		out.WidthEnd, out.WidthJoint = h.End, h.End+(h.Mouth-h.End)*h.Length/h.Apart
		return out
	}
	out.Thickness = s.once(d.Thickness, "neck.heel.thickness", defaultHeelThick, "without the board")
	out.Corner = s.once(d.Corner, "neck.heel.corner", heelCorner, "of the two corners at its end")
	out.End = out.Joint - s.once(d.Length, "neck.heel.length", defaultHeelLength, "from its end to the body's edge")
	width := func(y float64) float64 {
		at := func(e geom.Seg) float64 { return e.A.X + (y-e.A.Y)/(e.B.Y-e.A.Y)*(e.B.X-e.A.X) }
		return at(b.Treble) - at(b.Bass)
	}
	out.WidthEnd, out.WidthJoint = width(out.End), width(out.Joint)
	s.assume("neck.heel.widths", design.MM(out.WidthEnd)+" and "+design.MM(out.WidthJoint)+" mm", "as wide as the board over it")
	return out
}

// SaddleRange returns the least and the greatest height of the saddles' tops over
// the front; ok is false when nothing is known of them.
func (j *Job) SaddleRange() (lo, hi float64, ok bool) {
	if j.Bridge != nil && j.Bridge.Height != ([2]float64{}) {
		return j.Bridge.Height[0], j.Bridge.Height[1], true
	}
	h := j.Design.Bridge.Height
	return float64(h.V[0]), float64(h.V[1]), h.Set()
}

// neckHead returns the head as asked for.
func (s *solver) neckHead(b neck.Board) neck.Head {
	d, n := s.d.Neck.Head, len(b.Strings)
	kinds := map[string]neck.Kind{"in-line": neck.InLine, "split": neck.Split, "paddle": neck.Paddle}
	word := d.Kind.V
	if !d.Kind.Set() {
		word = "split"
		s.assume("neck.head.kind", word, "tuners on both sides")
	}
	h := neck.Head{Kind: kinds[word]}
	least := s.Board.Spec.Nut.Width + s.Board.Spec.Nut.Shelf
	h.Behind = s.length(d.Behind, "neck.head.behind_nut", math.Max(headBehind, least), "room for the nut")
	h.Thickness = s.length(d.Thickness, "neck.head.thickness", headThickness, "13–15")
	switch {
	case d.Tilt.Set() && d.Tilt.V > 0 && d.Step.Set() && d.Step.V > 0:
		s.fail(d.Step.At, "neck.head.step", design.MM(float64(d.Step.V))+" mm with a tilt", "one of tilt and step", "delete one of the two")
	case d.Tilt.Set():
		h.Tilt = geom.Angle(d.Tilt.V) * geom.Degree
	case d.Step.Set():
	case h.Kind == neck.InLine:
		s.assume("neck.head.tilt", "0°", "a stepped head, for tuners in line")
	default:
		h.Tilt = headTilt * geom.Degree
		s.assume("neck.head.tilt", fmt.Sprintf("%g°", headTilt), "10–14")
	}
	if h.Tilt == 0 {
		h.Step = s.length(d.Step, "neck.head.step", headStep, "face of the head below the underside of the board")
		h.Sweep = s.length(d.Sweep, "neck.head.sweep", headSweep, "radius of your sanding drum")
	}
	h.Crown = s.length(d.Crown, "neck.head.crown", headCrown, "bulge of the tip")
	for _, r := range []struct {
		v   design.Val[design.Length]
		key string
		def float64
		to  *neck.Radius
	}{{d.NeckR, "neck_radius", headNeckR, &h.NeckRadius}, {d.ShoulderR, "shoulder_radius", headShoulderR, &h.ShoulderRadius}, {d.TipR, "tip_radius", headTipR, &h.TipRadius}} {
		*r.to = neck.Radius{R: s.length(r.v, "neck.head."+r.key, r.def, "less where its sides are too short"), Given: r.v.Set()}
	}
	h.Length, h.Shoulder = float64(d.Length.V), float64(d.Shoulder.V)
	if d.Widths.Set() {
		h.Widths = &[2]float64{float64(d.Widths.V[0]), float64(d.Widths.V[1])}
	}
	if h.Kind == neck.Paddle {
		if h.Widths == nil {
			w := b.Nut.Length()
			h.Widths = &[2]float64{w + paddleWider, w + paddleTip}
			s.assume("neck.head.widths", design.MM(h.Widths[0])+" and "+design.MM(h.Widths[1])+" mm", "a paddle to draw a head on")
		}
		return h
	}
	h.Bass, h.Treble = n, 0
	if h.Kind == neck.Split {
		h.Bass, h.Treble = (n+1)/2, n/2
	}
	if d.Sides.Set() {
		h.Bass, h.Treble = d.Sides.V[0], d.Sides.V[1]
	} else {
		s.assume("neck.head.sides", fmt.Sprintf("%d on the bass side, %d on the treble side", h.Bass, h.Treble), "by the number of strings")
	}
	pitch := headInLine
	if h.Kind == neck.Split {
		pitch = headSplit
	}
	h.First = s.length(d.First, "neck.head.first", headFirst, "nut to first post")
	h.Pitch = s.length(d.Pitch, "neck.head.pitch", pitch, "24–27 in line, 38–42 on both sides")
	h.Hole = s.length(d.Hole, "neck.head.hole", headHole, "measure the tuner")
	h.Post = s.length(d.Post, "neck.head.post", headPost, "measure the tuner")
	h.Edge = s.length(d.Edge, "neck.head.edge", headEdge, "wood from the hole to the edge")
	h.Along, h.Inward = headAlong, headInward
	if d.Body.Set() {
		h.Along, h.Inward = float64(d.Body.V[0]), float64(d.Body.V[1])
	} else {
		s.assume("neck.head.body", fmt.Sprintf("%g along the row, %g mm inward", headAlong, headInward), "measure the tuner")
	}
	if d.Deflection.Set() {
		a := geom.Angle(d.Deflection.V) * geom.Degree
		h.Deflection = &a
	} else if h.Kind == neck.InLine {
		s.assume("neck.head.deflection", "0°", "the strings run straight on to their posts")
	}
	return h
}

// neckRod returns the rod, or nil without [neck.rod].
func (s *solver) neckRod() *neck.Rod {
	d := s.d.Neck.Rod
	if !d.Present {
		return nil
	}
	r := &neck.Rod{Single: d.Kind.V == "single"}
	if !d.Kind.Set() {
		s.assume("neck.rod.kind", "double", "pulls both ways, in a level channel")
	}
	if d.Access.V == "heel" {
		r.Access = neck.AtHeel
	} else if !d.Access.Set() {
		s.assume("neck.rod.access", "head", "turned from the head")
	}
	r.Width = s.once(d.Width, "neck.rod.width", rodWidth, "measure the rod")
	r.Depth = s.once(d.Depth, "neck.rod.depth", rodDepth, "measure the rod")
	if r.Single {
		r.Bow = s.length(d.Bow, "neck.rod.bow", rodBow, "a rod that pulls one way lies deeper in its middle")
	} else if r.Bow = float64(d.Bow.V); r.Bow > 0 {
		s.fail(d.Bow.At, "neck.rod.bow", design.MM(r.Bow)+" mm under a rod that pulls both ways", "0, or kind = \"single\"", "such a rod lies in a level channel")
	}
	r.Length = float64(d.Length.V)
	r.AccessLength, r.AccessWidth = rodOpen, rodOpenW
	if d.Open.Set() {
		r.AccessLength, r.AccessWidth = float64(d.Open.V[0]), float64(d.Open.V[1])
	} else {
		s.assume("neck.rod.opening", fmt.Sprintf("%g long, %g mm wide", rodOpen, rodOpenW), "room for the key")
	}
	return r
}

// neckBack returns the shape of the back.
func (s *solver) neckBack() neck.Back {
	d := s.d.Neck.Back
	b := neck.Back{Thickness: [2]float64{backFirst, backLater}, Shoulder: [2]float64{backFull, backFull}}
	if d.Thickness.Set() {
		b.Thickness = [2]float64{float64(d.Thickness.V[0]), float64(d.Thickness.V[1])}
	} else {
		s.assume("neck.back.thickness", fmt.Sprintf("%g and %g mm", backFirst, backLater), "with the board, at the first fret and at the octave")
	}
	if d.Shoulder.Set() {
		b.Shoulder = d.Shoulder.V
	} else {
		s.assume("neck.back.shoulder", fmt.Sprint(backFull), "between slim and full")
	}
	b.Foot = s.length(d.Foot, "neck.back.foot", backFoot, "the heel ends a little outside the body")
	b.Sweep = s.length(d.HeelR, "neck.back.heel_radius", backHeelR, "hollow from the heel to the back")
	b.Throat = s.length(d.ThroatR, "neck.back.throat_radius", throatR, "hollow from the back to the head")
	b.Scarf = float64(d.Scarf.V)
	return b
}

// neckAt returns where the design file says a field of the neck's spec, or its
// table.
func (s *solver) neckAt(field string) design.Pos {
	n := s.d.Neck
	h, r, b := n.Head, n.Rod, n.Back
	at := map[string]design.Pos{
		"head.sides": h.Sides.At, "head.thickness": h.Thickness.At, "head.sweep": h.Sweep.At, "head.pitch": h.Pitch.At,
		"head.length": h.Length.At, "head.widths": h.Widths.At, "head.deflection": h.Deflection.At, "head.tilt": h.Tilt.At,
		"head.neck_radius": h.NeckR.At, "head.shoulder_radius": h.ShoulderR.At, "head.tip_radius": h.TipR.At,
		"rod.length": r.Length.At, "rod.width": r.Width.At, "rod.depth": r.Depth.At,
		"back.thickness": b.Thickness.At, "back.heel_radius": b.HeelR.At, "back.throat_radius": b.ThroatR.At, "back.scarf_blank": b.Scarf.At,
		"heel.corner": n.Heel.Corner.At, "heel.length": n.Heel.Length.At, "joint.fret": n.Joint.Fret.At,
	}[field]
	if !at.IsZero() {
		return at
	}
	table, _, _ := strings.Cut(field, ".")
	at = map[string]design.Pos{"head": h.Table.At, "rod": r.Table.At, "back": b.Table.At, "heel": n.Heel.Table.At, "joint": n.Joint.Table.At}[table]
	if at.IsZero() {
		return n.Table.At
	}
	return at
}

// neckSolved reports what the shape found.
func (s *solver) neckSolved() {
	sh, h := s.Shape, s.d.Neck.Head
	if !h.Length.Set() {
		s.solved("neck.head.length", design.MM(sh.Length)+" mm", "nut to tip, past the last tuner")
	}
	if len(sh.Tuners) > 0 && !h.Deflection.Set() && sh.Spec.Head.Kind == neck.Split && !h.Widths.Set() {
		s.solved("neck.head.deflection", fmt.Sprintf("%.2f°", sh.Bend.Degrees()), "as little as keeps the tuners apart")
	}
	if c := sh.Rod; c != nil && !s.d.Neck.Rod.Length.Set() {
		s.solved("neck.rod.length", design.MM(c.Length)+" mm", "what the neck holds")
	}
	if sc := sh.Side.Scarf; sc != nil {
		s.solved("scarf", fmt.Sprintf("%s mm long", design.MM(sc.Length)), fmt.Sprintf("blank of %s mm / sin %.4g°", design.MM(sc.Thickness), sh.Spec.Head.Tilt.Degrees()))
	}
}

// neckTemplates adds the parts and male templates of the neck: neck and head in
// one where the head is stepped, each its own where it tilts, since the head's is
// then laid on its face. The side gets one where a bit is named for it; else it
// is sawn.
func (s *solver) neckTemplates() {
	sh, head := s.Shape, s.d.Neck.Head
	deep := math.Max(sh.Spec.Heel.Thickness, sh.WoodAt(sh.Side.From))
	if sh.Spec.Head.Tilt == 0 {
		s.addNeck(NeckID, "neck with its head", part.Neck, sh.Plan, deep, head.Cutter, head.Table.At)
	} else {
		s.addNeck(NeckID, "neck from heel to nut", part.Neck, sh.Shaft, deep, head.Cutter, head.Table.At)
		s.addNeck(HeadID, "head, on its face", part.Headstock, sh.Head, sh.Spec.Head.Thickness, head.Cutter, head.Table.At)
	}
	if b := s.d.Neck.Back; b.Cutter.Bit.Set() {
		s.addNeck(SideID, "neck, from the side", part.NeckSide, sh.Side.Outline, sh.Spec.Heel.WidthEnd, b.Cutter, b.Table.At)
	}
}

// addNeck adds one part of the neck with its male template.
func (s *solver) addNeck(id, words string, k part.Kind, outline geom.Path, depth float64, c design.Cutter, at design.Pos) {
	if at.IsZero() {
		at = s.d.Neck.Table.At
	}
	p := part.Part{ID: s.id(id), Name: words, Kind: k, Adds: true, Group: NeckID, At: at,
		Solids: []part.Solid{{Plan: geom.Region{outline}, Top: part.Level(0), Floor: part.Level(depth)}}}
	p = s.settle(p, c.Done)
	s.Parts = append(s.Parts, p)
	key := "neck.head.cut"
	if k == part.NeckSide {
		key = "neck.back.cut"
	}
	n := need(key, s.neckCorner(p), 0, s.sheet)
	n.Blind, n.Try = false, nil // sawn first and trimmed through
	t, err := s.rack.Pick(c, n, at)
	if err != nil {
		s.errs.Add(err)
		return
	}
	var calc geom.Calc
	male := cut.MaleFor(&calc, p.Plan(), t)
	if err := calc.Err(); err != nil {
		s.fail(at, "neck", err.Error(), "an outline that a template can be made for", "change the head or the heel")
		return
	}
	tm := cut.Template{ID: p.ID, Name: words, For: p, Male: true, Loose: true, Shape: male, Blank: male,
		Sheet: s.sheet, InsideRadius: s.rin, Tool: t}
	r := 1.5 * math.Max(t.CutRadius(), s.rin) // past the tangent points of what a round cutter leaves
	for _, q := range s.neckSharp(p) {
		tm.Hand = append(tm.Hand, cut.HandWork{Words: "square the corners with saw and chisel", Zone: geom.Region{geom.Circle(q, r)}})
	}
	s.Templates = append(s.Templates, tm)
	if t.Why != "" {
		s.solved(key+".bit", t.Bit, t.Why)
	}
}

// neckSharp returns the corners of a part of the neck that point into the wood
// and are sharp by intention.
func (s *solver) neckSharp(p part.Part) []geom.Point {
	if p.Kind != part.Neck {
		return nil
	}
	return s.Shape.Square
}

// neckCorner returns the least radius that a cutter round the part must fit into,
// sharp corners that are made by hand aside.
func (s *solver) neckCorner(p part.Part) float64 {
	least := math.Inf(1)
	for _, loop := range p.Plan() {
		for _, e := range loop {
			if e.Turn < 0 {
				least = math.Min(least, e.Radius)
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}
