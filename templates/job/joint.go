package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
)

// pocketOpen is how far the pocket's plan runs past the body's edge, mm: the
// router enters and leaves there. Common practice.
const pocketOpen = 15.0

// joint solves the pocket of the neck, from the heel as measured.
func (s *solver) joint() {
	n := s.Neck
	if n == nil || n.ToSaddle == 0 || s.Outline == nil {
		return
	}
	d := s.d.Neck.Heel
	if !d.Present {
		return
	}
	if !s.heel(d) {
		return
	}
	h := n.Heel
	tan := math.Tan(float64(h.Taper()))
	p := &n.Pocket
	p.Gap = s.length(d.Gap, "neck.heel.gap", s.neckGap(), "0.05–0.1 a side")
	p.Film = s.length(s.d.Slab.Film, "slab.film", 0, "no film of finish in the pocket: mask it")
	// The heel's end stands square to the board: its lower edge, heel and board
	// below the surface, reaches furthest towards the bridge.
	p.Length, _ = n.OnBody(n.Angle, n.Joint+h.Length, h.Thickness+n.Board)
	p.EndY = n.JointY - p.Length
	p.Slide = math.Inf(1)
	if tan != 0 {
		p.Slide = p.Gap / math.Abs(tan)
	}
	p.Aside = 2 * p.Gap / p.Length * (n.JointY - p.Length/2) // it turns about the middle of the pocket
	s.pocketFloor()
	wide := h.End/2 + p.Gap + p.Film
	mouth := wide - tan*(p.Length+pocketOpen) // to where the plan ends, past the joint
	top := n.JointY + pocketOpen
	t, err := s.rack.Pick(d.Cutter, need("neck.heel.cut", math.Max(h.Corner, 0), math.Max(p.DepthEnd, p.DepthJoint), s.sheet), d.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	p.Bit = t.LeastCorner(s.rin)
	p.Corner = h.Corner
	plan := geom.Polygon(geom.Pt(-wide, p.EndY), geom.Pt(wide, p.EndY), geom.Pt(mouth, top), geom.Pt(-mouth, top))
	plan, err = s.roundPocket(plan, p.Corner, p.Bit)
	if err != nil {
		s.fail(d.Corner.At, "neck.heel.corner", design.MM(p.Corner)+" mm: "+err.Error(), "a corner that the heel's end has room for", "measure the corner again, or name a smaller bit")
		return
	}
	p.ID = s.id("neck pocket")
	pocket := s.settle(part.Part{
		ID: p.ID, Name: "neck", Kind: part.Pocket, Face: part.Front, Group: "neck", At: d.Table.At,
		Solids: []part.Solid{{Plan: geom.Region{plan}, Top: part.Level(0), Floor: p.Floor}},
	}, d.Cutter.Done)
	s.addVoid(pocket, t, "neck pocket")
	if len(pocket.Solids) == 1 && pocket.Solids[0].Floor != p.Floor { // as it is cut
		p.Floor = pocket.Solids[0].Floor
		p.DepthEnd, p.DepthJoint = p.Floor.At(geom.Pt(0, p.EndY)), p.Floor.At(geom.Pt(0, n.JointY))
	}
	s.pocketCorners(wide)
	s.tellPocket()
	if !n.Glued {
		s.bolts()
	}
	s.fitted()
}

// heel takes the heel as measured.
func (s *solver) heel(d design.Heel) bool {
	n := s.Neck
	h := &n.Heel
	before := len(s.errs)
	if d.Widths.Set() {
		h.End, h.Mouth = float64(d.Widths.V[0]), float64(d.Widths.V[1])
	} else {
		s.fail(d.Table.At, "neck.heel.widths", "nothing", "widths = [at its end, nearer the nut]", "measure the heel with the calliper at two places")
	}
	h.Length = s.length(d.Length, "neck.heel.length", defaultHeelLength, "72–90")
	if d.FromNut.Set() {
		h.Length = float64(d.FromNut.V) - n.Joint
		if d.Length.Set() && math.Abs(h.Length-float64(d.Length.V)) > ruleSlack {
			s.fail(d.FromNut.At, "neck.heel.from_nut", fmt.Sprintf("%s mm, which leaves %s mm beyond the joint", design.MM(float64(d.FromNut.V)), design.MM(h.Length)), fmt.Sprintf("the %s mm of neck.heel.length", design.MM(float64(d.Length.V))), "give one of them, or measure again")
		}
	}
	h.Apart = s.length(d.Apart, "neck.heel.apart", h.Length, "measured at the two ends of the pocket")
	h.Thickness = s.length(d.Thickness, "neck.heel.thickness", defaultHeelThick, "measure it without the board")
	h.Corner = s.length(d.Corner, "neck.heel.corner", 0, "square corners: measure them")
	if t := math.Abs(h.Taper().Degrees()); d.Widths.Set() && t > heelTaper {
		s.fail(d.Widths.At, "neck.heel.widths", fmt.Sprintf("%s and %s mm over %s mm, a taper of %.1f degrees a side", design.MM(h.End), design.MM(h.Mouth), design.MM(h.Apart), t), fmt.Sprintf("at most %g degrees", float64(heelTaper)), "measure the widths and the distance between them again")
	}
	if h.Length >= n.Scale-n.Joint {
		s.fail(d.Length.At, "neck.heel.length", design.MM(h.Length)+" mm", fmt.Sprintf("less than the %s mm from the joint to the bridge line", design.MM(n.Scale-n.Joint)), "measure it again")
	}
	return len(s.errs) == before
}

// Of a heel; common practice.
const (
	defaultHeelLength = 76.0 // 72–90
	defaultHeelThick  = 25.4 - 6.35
	heelTaper         = 6.0  // degrees a side, more is a slip of the calliper
	defaultNeckGap    = 0.05 // a side, 0.05–0.1
	defaultGlueGap    = 0.1  // a side, for a glued neck
)

// neckGap returns the usual gap a side.
func (s *solver) neckGap() float64 {
	if s.Neck.Glued {
		return defaultGlueGap
	}
	return defaultNeckGap
}

// pocketFloor solves the floor: the heel's underside lies its thickness square
// under the board's, which leans by the neck angle. At the place x from the joint
// towards the bridge along the body, with Under the underside of the board over
// the front at the joint, the floor lies
//
//	depth = thickness/cos φ − Under − x·tan φ
//
// since the board rises towards the bridge. It is deepest at the joint.
func (s *solver) pocketFloor() {
	n := s.Neck
	p := &n.Pocket
	cos, tan := math.Cos(float64(n.Angle)), math.Tan(float64(n.Angle))
	p.DepthJoint = n.Heel.Thickness/cos - n.Under
	p.DepthEnd = p.DepthJoint - p.Length*tan
	p.Floor = part.Plane{Z: p.DepthJoint - n.JointY*tan, DY: tan}
	if p.DepthEnd <= 0 {
		s.fail(s.d.Neck.Heel.Thickness.At, "neck.heel.thickness", fmt.Sprintf("%s mm, %s mm of it over the front at the joint and a fall of %s mm", design.MM(n.Heel.Thickness), design.MM(n.Under), design.MM(p.Fall())), "a pocket that is cut into the body", "measure the heel, the board and the height of the board again")
	}
	if deep := math.Max(p.DepthEnd, p.DepthJoint); deep >= s.Thickness {
		s.fail(s.d.Neck.Heel.Thickness.At, "neck.heel.thickness", fmt.Sprintf("a pocket of %s mm", design.MM(deep)), fmt.Sprintf("less than the body's %s mm", design.MM(s.Thickness)), "use a thinner heel, or raise the board over the body")
	}
}

// roundPocket rounds the corners of a pocket's plan: those at its end wall, the
// first two, by r, those past the body's edge by what the bit leaves.
func (s *solver) roundPocket(p geom.Path, r, bit float64) (geom.Path, error) {
	for i := 3; i >= 0; i-- { // from the last, so that the numbers of the others stay
		by := r
		if i > 1 {
			by = bit
		}
		q, err := p.Fillet(i, by)
		if err != nil {
			return nil, err
		}
		p = q
	}
	return p, nil
}

// pocketCorners declares the chisel work where the bit leaves more than the heel's
// own corners.
func (s *solver) pocketCorners(wide float64) {
	p := s.Neck.Pocket
	i := len(s.Templates) - 1
	if p.Corner >= p.Bit-geom.Coincident || i < 0 || s.Templates[i].ID != p.ID {
		return
	}
	words := fmt.Sprintf("cut the two corners at the pocket's end to the heel's radius of %s mm with a chisel, or round the heel to %s mm", design.MM(p.Corner), design.MM(p.Bit))
	for _, x := range [2]float64{-wide, wide} {
		at := geom.Pt(x, p.EndY)
		s.Templates[i].Hand = append(s.Templates[i].Hand, cut.HandWork{Words: words, Zone: geom.Region{geom.Rect(at, 2*p.Bit+1, 2*p.Bit+1)}})
	}
	s.solved("neck.heel corner", design.MM(p.Bit)+" mm", "what the bit leaves: "+words)
}

// tellPocket reports what was solved.
func (s *solver) tellPocket() {
	n := s.Neck
	p, h := n.Pocket, n.Heel
	s.solved("neck pocket depth", fmt.Sprintf("%.3f mm at its end, %.3f mm at the body's edge", p.DepthEnd, p.DepthJoint), fmt.Sprintf("the floor follows the neck angle of %.3f°", n.Angle.Degrees()))
	s.solved("neck pocket length", design.MM(p.Length)+" mm", fmt.Sprintf("of the heel's %s mm along the board; its lower edge reaches furthest at this angle", design.MM(h.Length)))
	if !math.IsInf(p.Slide, 1) {
		s.solved("neck slide", design.MM(p.Slide)+" mm", fmt.Sprintf("what a gap of %s mm a side lets the taper of %.2f° slide: the end wall sets the scale, not the sides", design.MM(p.Gap), math.Abs(h.Taper().Degrees())))
	}
	s.solved("neck swing", design.MM(p.Aside)+" mm at the bridge line", "to each side, within the gap: lay the string line before you mark the bridge")
}

// bolts solves the screws of a bolted neck.
func (s *solver) bolts() {
	n, d := s.Neck, s.d.Neck.Bolts
	h, p := n.Heel, n.Pocket
	count := d.Count.Or(4)
	if !d.Count.Set() {
		s.assume("neck.bolts.count", "4", "in a rectangle")
	}
	across := s.length(d.Across, "neck.bolts.across", math.Min(boltAcross, h.End-2*boltEdge), "the usual plate")
	along := s.length(d.Along, "neck.bolts.along", math.Min(boltAlong, p.Length-2*boltEdge), "the usual plate")
	first := s.length(d.FromEnd, "neck.bolts.from_end", (p.Length-along)/2, "in the middle of the pocket")
	if first+along > p.Length || across > h.End || first < 0 {
		s.fail(d.Table.At, "neck.bolts", fmt.Sprintf("screws up to %s mm from the heel's end, %s mm apart across", design.MM(first+along), design.MM(across)), fmt.Sprintf("inside the pocket, %s × %s mm", design.MM(p.Length), design.MM(h.End)), "move them closer together")
		return
	}
	b := &Bolts{At0: d.Table.At, Plate: s.length(d.Plate, "neck.bolts.plate", boltPlate, "a steel plate under the heads")}
	y0, y1 := p.EndY+first, p.EndY+first+along
	switch count.V {
	case 2:
		b.At = []geom.Point{geom.Pt(0, y0), geom.Pt(0, y1)}
	case 3:
		b.At = []geom.Point{geom.Pt(0, y0), geom.Pt(-across/2, y1), geom.Pt(across/2, y1)}
	default:
		b.At = []geom.Point{geom.Pt(-across/2, y0), geom.Pt(across/2, y0), geom.Pt(-across/2, y1), geom.Pt(across/2, y1)}
	}
	if !s.boltHoles(b, d) {
		return
	}
	n.Bolts = b
	s.boltLength(b, d)
	holes := part.Part{ID: s.id("neck screws"), Name: "neck", Kind: part.Screw, Face: part.Back, Group: "neck", At: d.Table.At}
	for _, q := range b.At {
		holes.Bores = append(holes.Bores, part.Bore{
			From: part.Point{X: q.X, Y: q.Y, Z: s.Thickness}, To: part.Point{X: q.X, Y: q.Y, Z: p.Floor.At(q)},
			D: b.Hole, Words: "neck screw, clear"})
	}
	holes = s.settle(holes, d.Cut)
	for i, q := range holes.Bores {
		if i < len(b.At) {
			b.At[i] = q.From.Flat()
		}
	}
	s.Parts = append(s.Parts, holes)
}

// Of the screws of a neck; common practice.
const (
	boltAcross = 38.0 // between the rows of the usual plate
	boltAlong  = 51.0
	boltEdge   = 8.0 // from a screw to the edge of the heel
	boltPlate  = 1.5
	boltGauge  = 8
	boltOver   = 4.0 // wood over the tips that the program leaves; a check stops at 3
	boltClear  = 0.3 // added to a wood screw's shank in the body, so that the thread does not grip
)

// boltHoles solves the holes: clear in the body, pilot in the heel.
func (s *solver) boltHoles(b *Bolts, d design.Bolts) bool {
	if d.Thread.Set() {
		b.Name = "machine screw " + d.Thread.V + " into an insert"
		b.Hole = clearance[d.Thread.V]
		b.Pilot = s.length(d.Insert.D, "neck.bolts.insert.d", b.Hole+2, "measure the insert")
		s.solved("neck.bolts hole", design.MM(b.Hole)+" mm", "clearance for "+d.Thread.V+", ISO 273 medium")
		return true
	}
	gauge := d.Gauge.Or(boltGauge)
	if !d.Gauge.Set() {
		s.assume("neck.bolts.gauge", fmt.Sprint(boltGauge), "the usual wood screw of a neck")
	}
	return s.woodBolt(b, gauge.V, d.Gauge.At)
}

// clearance are the medium clearance holes of ISO 273 for the threads that necks
// are screwed on with, mm.
var clearance = map[string]float64{"M4": 4.5, "M5": 5.5, "M6": 6.6, "M8": 9}

// boltLength takes the screws' length or solves it: through plate and body into
// the heel as far as the wood over the tips allows, to whole five millimetres.
func (s *solver) boltLength(b *Bolts, d design.Bolts) {
	n := s.Neck
	room := func(q geom.Point) (toHeel, toTop float64) { // from the plate's outside
		floor := n.Pocket.Floor.At(q)
		toHeel = b.Plate + s.Thickness - floor
		cos := math.Cos(float64(n.Angle))
		return toHeel, toHeel + (n.Heel.Thickness+n.Board)/cos
	}
	least := math.Inf(1)
	for _, q := range b.At {
		_, top := room(q)
		least = math.Min(least, top)
	}
	if d.Length.Set() {
		b.Length = float64(d.Length.V)
	} else {
		b.Length = 5 * math.Floor((least-boltOver)/5)
		s.solved("neck.bolts.length", design.MM(b.Length)+" mm", "the longest of whole 5 mm that leaves "+design.MM(boltOver)+" mm under the playing surface")
	}
	b.Into, b.Over = math.Inf(1), math.Inf(1)
	for _, q := range b.At {
		heel, top := room(q)
		b.Into, b.Over = math.Min(b.Into, b.Length-heel), math.Min(b.Over, top-b.Length)
	}
	if b.Over <= 0 {
		s.fail(d.Length.At, "neck.bolts.length", design.MM(b.Length)+" mm", fmt.Sprintf("less than %s mm, where it comes out of the board; at least %s mm must stay", design.MM(least), design.MM(limit.BoltOver.Stop)), "use shorter screws")
	}
	if b.Into <= 0 {
		s.fail(d.Length.At, "neck.bolts.length", design.MM(b.Length)+" mm, which does not reach the heel", fmt.Sprintf("more than %s mm", design.MM(b.Length-b.Into)), "use longer screws")
	}
}

// fitted takes the measures of the neck as it was fitted dry: the bridge is
// solved again from them.
func (s *solver) fitted() {
	n, d := s.Neck, s.d.Neck.Fit
	if !d.Present {
		return
	}
	f := &Fitted{Aside: float64(d.Aside.V)}
	if d.NutToMark.Set() != d.Mark.Set() {
		s.fail(d.Table.At, "neck.fitted", "one of nut_to_mark and mark", "both: the distance, and where the mark is", "add the other")
		return
	}
	if d.NutToMark.Set() {
		// The rule runs from the nut's edge, which stands over the front, straight
		// to the mark on the front.
		_, high := n.OnBody(n.Angle, 0, 0)
		l := float64(d.NutToMark.V)
		if l <= math.Abs(high) {
			s.fail(d.NutToMark.At, "neck.fitted.nut_to_mark", design.MM(l)+" mm", fmt.Sprintf("more than the %s mm that the nut stands off the front's plane", design.MM(math.Abs(high))), "measure again")
			return
		}
		f.Shift = float64(d.Mark.V) + math.Sqrt(l*l-high*high) - n.NutY()
		s.solved("bridge line, as fitted", fmt.Sprintf("%+.2f mm", f.Shift), "from the layout's bridge line, + to the neck: the nut lies that much off its drawn place")
	}
	if d.Angle.Set() || d.Surface.Set() {
		set, phi := n.Setup, n.Angle
		if d.Surface.Set() {
			set.Above = float64(d.Surface.V)
		}
		if d.Angle.Set() {
			phi = geom.Angle(d.Angle.V) * geom.Degree
		}
		f.Saddle, _ = set.SaddleAt(phi)
		s.solved("saddle height, as fitted", design.MM(f.Saddle)+" mm over the front", "what the action asks for with the neck as fitted")
	}
	n.Fitted = f
}
