package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/neck"
	"routwright/templates/part"
)

// Slack between two measures of the same thing, mm. Common practice: a ruler on
// an outline reads to half a millimetre, a rule held on the board to a tenth.
const (
	edgeSlack = 0.5
	ruleSlack = 0.1
)

// setup solves the neck angle, before the body is laid out: where the joint
// lies fixes where the outline goes when the file does not say it.
func (s *solver) setup() {
	n := s.d.Neck
	if !n.Present || s.Board == nil {
		return
	}
	s.Neck = &Neck{Glued: n.Join.V == "glued"}
	if !n.Join.Set() {
		s.assume("neck.join", "bolted", "it can be taken off and shimmed")
	}
	s.Neck.Board = s.length(s.d.Board.Thickness, "fretboard.thickness", defaultBoard, "measure the board in its middle")
	s.Neck.Scale = s.alongCentre(0)
	s.Neck.Setup.Fret = s.length(s.d.Board.Fret, "fretboard.fret_height", defaultFretHeight, "measure the wire's crown")
	s.Neck.Action = s.length(s.d.Strings.Action.Twelfth, "strings.action.fret_12", defaultAction, "1.5–2 for steel strings")
	s.Neck.Nut = s.length(s.d.Strings.Action.Nut, "strings.action.nut", defaultNutAction, "over the first fret's height")
	s.Neck.Setup.Saddle = s.saddleHeight()
	if n.Joint.Fret.Set() {
		s.Neck.Fret = n.Joint.Fret.V
		s.Neck.Joint = s.Neck.Scale - s.alongCentre(s.Neck.Fret)
		s.solveAngle()
	}
}

// alongCentre returns the distance in mm along the board from fret x to the
// bridge line on the centre line; fret 0 is the nut.
func (s *solver) alongCentre(x float64) float64 {
	f := s.Board.Spec.Tuning.Fraction(x)
	at := func(f float64) float64 {
		a, b := s.Board.Bass().At(f), s.Board.Treble().At(f)
		if a.X == b.X {
			return a.Y
		}
		return a.Lerp(b, -a.X/(b.X-a.X)).Y
	}
	return at(f) - at(1)
}

// saddleHeight returns the height that the neck is set for.
func (s *solver) saddleHeight() float64 {
	b := s.d.Bridge
	if b.Set.Set() {
		return float64(b.Set.V)
	}
	h := s.saddleRange()
	mid := (h[0] + h[1]) / 2
	s.solved("bridge.set_height", design.MM(mid)+" mm", "the middle of saddle_height, so that it can go both ways")
	return mid
}

// saddleRange returns the least and greatest height of the saddles' tops.
func (s *solver) saddleRange() [2]float64 {
	b := s.d.Bridge
	h := saddleHeights[s.bridgeKind()]
	if b.Height.Set() {
		h = [2]float64{float64(b.Height.V[0]), float64(b.Height.V[1])}
		if h[0] > h[1] {
			s.fail(b.Height.At, "bridge.saddle_height", fmt.Sprintf("[%s, %s]", design.MM(h[0]), design.MM(h[1])), "the lowest first, then the highest", "exchange them")
		}
	}
	return h
}

// bridgeKind returns the kind of bridge as a word of the design file.
func (s *solver) bridgeKind() string {
	if k := s.d.Bridge.Kind; k.Set() {
		return k.V
	}
	return "fixed"
}

// solveAngle solves the angle, or with a given angle the height, for the joint
// that s.Neck has. It returns whether there is one.
func (s *solver) solveAngle() bool {
	n, j := s.Neck, s.d.Neck.Joint
	if j.Surface.Set() && j.Above.Set() {
		if off := math.Abs(float64(j.Surface.V) - float64(j.Above.V) - n.Board); off > ruleSlack {
			s.fail(j.Surface.At, "neck.joint.surface_above", fmt.Sprintf("%s mm, over an underside at %s mm", design.MM(float64(j.Surface.V)), design.MM(float64(j.Above.V))), fmt.Sprintf("the board's %s mm between the two, within %s", design.MM(n.Board), design.MM(ruleSlack)), "give one of them, or measure the board again")
			return false
		}
	}
	high, ok := j.Surface.Set() || j.Above.Set(), false
	switch {
	case j.Angle.Set():
		ok = s.givenAngle(geom.Angle(j.Angle.V)*geom.Degree, high)
	case s.cutAngle() != nil:
		phi := *s.cutAngle()
		s.solved("neck angle", fmt.Sprintf("%.4f°", phi.Degrees()), "the floor of the pocket is cut so")
		if high = high || n.Glued; high && !j.Surface.Set() {
			s.length(j.Above, "neck.joint.above_body", 0, "underside of the board flush with the front")
		}
		ok = s.givenAngle(phi, high)
	case j.Surface.Set():
		n.Above = float64(j.Surface.V)
		got, err := neck.Solve(n.Setup)
		ok = s.takeAngle(got, err)
	case high || n.Glued:
		under := s.length(j.Above, "neck.joint.above_body", 0, "underside of the board flush with the front")
		set, got, err := neck.SolveUnder(n.Setup, under, n.Board)
		n.Setup = set
		ok = s.takeAngle(got, err)
	default:
		s.assume("neck.joint.angle", "0°", "a bolted neck lies level where the board may stand over the body")
		ok = s.givenAngle(0, false)
	}
	if !ok {
		return false
	}
	n.Under = n.Above - n.Board/math.Cos(float64(n.Angle))
	n.JointY = n.ToSaddle
	s.solved("joint to bridge line", fmt.Sprintf("%.3f mm on the body", n.ToSaddle), fmt.Sprintf("%.3f mm along the board at %.3f°", n.Scale-n.Joint, n.Angle.Degrees()))
	return true
}

// cutAngle returns the neck angle that the floor of the pocket has, where the pocket
// is cut; else nil.
func (s *solver) cutAngle() *geom.Angle {
	p, ok := s.held(part.Pocket, "neck-pocket", s.d.Neck.Heel.Cutter.Done)
	if !ok || len(p.Solids) != 1 {
		return nil
	}
	phi := geom.Angle(math.Atan(p.Solids[0].Floor.DY))
	return &phi
}

// givenAngle takes the angle of the file, or of the pocket as it is cut. With a height at the joint the saddle's
// height follows, else the height at the joint from the saddle's.
func (s *solver) givenAngle(phi geom.Angle, high bool) bool {
	n, j := s.Neck, s.d.Neck.Joint
	n.Angle = phi
	if high {
		n.Above = float64(j.Surface.V)
		if !j.Surface.Set() {
			n.Above = float64(j.Above.V) + n.Board/math.Cos(float64(phi))
		}
		h, to := n.SaddleAt(phi)
		if b := s.d.Bridge.Set; b.Set() && math.Abs(h-n.Setup.Saddle) > ruleSlack {
			at := j.Angle.At
			if !j.Angle.Set() { // as the pocket is cut
				at = s.d.Neck.Heel.Cutter.Done.At
			}
			s.fail(at, "neck.joint.angle", fmt.Sprintf("%.6g°, which brings the string to %s mm over the front at the bridge line", phi.Degrees(), design.MM(h)), fmt.Sprintf("the %s mm of bridge.set_height, within %s", design.MM(n.Setup.Saddle), design.MM(ruleSlack)), "leave one of neck.joint.angle, the height at the joint and bridge.set_height out: it is solved from the others")
			return false
		}
		n.Setup.Saddle, n.ToSaddle = h, to
		s.solved("saddle height", design.MM(h)+" mm over the front", "from the angle and the height at the joint")
		return true
	}
	n.Above = 0
	h, to := n.SaddleAt(phi)
	n.Above, n.ToSaddle = n.Setup.Saddle-h, to
	s.solved("neck.joint.above_body", design.MM(n.Above-n.Board/math.Cos(float64(phi)))+" mm", "underside of the board, from the saddle height and the angle")
	return true
}

// takeAngle takes the solved angle over.
func (s *solver) takeAngle(got neck.Solved, err error) bool {
	if err != nil {
		s.fail(s.d.Neck.Joint.At, "neck.joint", err.Error(), "a joint between the nut and the bridge, and heights that a neck can reach", "measure the joint, the board and the saddle height again")
		return false
	}
	s.Neck.Solved = got
	s.solved("neck angle", fmt.Sprintf("%.4f°", got.Angle.Degrees()), fmt.Sprintf("the string over the board at the joint, %s mm over the front, comes to the saddle at %s mm", design.MM(s.Neck.Above), design.MM(s.Neck.Setup.Saddle)))
	return true
}

// tail returns how far the tail end of an outline lies behind the bridge line.
// Without a measure the outline is laid so that its edge under the neck lies at
// the joint; p is the outline in any frame along the centre line.
func (s *solver) tail(p geom.Path) float64 {
	v := s.d.Body.Tail
	if v.Set() || s.Neck == nil || s.Neck.JointY == 0 {
		return s.length(v, "body.tail", defaultTail, "bridge line to the tail end of the outline")
	}
	top, ok := topOnCentre(p)
	if !ok {
		return s.length(v, "body.tail", defaultTail, "bridge line to the tail end of the outline")
	}
	t := top - p.Bounds().Min.Y - s.Neck.JointY
	s.solved("body.tail", design.MM(t)+" mm", fmt.Sprintf("fret %g lies over the body's edge", s.Neck.Fret))
	return t
}

// topOnCentre returns the greatest y at which a path crosses the centre line.
func topOnCentre(p geom.Path) (float64, bool) {
	b := p.Bounds()
	if !(b.Min.X < 0 && b.Max.X > 0) {
		return 0, false
	}
	// The path is closed and crosses x = 0: from above, the first point of it.
	d, at := math.Inf(1), geom.Point{}
	down := geom.Path{geom.Line(geom.Pt(0, b.Max.Y+1), geom.Pt(0, b.Min.Y-1))}
	for _, e := range p {
		dd, pa, _ := geom.SegDistance(e, down[0])
		if dd > geom.Coincident {
			continue
		}
		// A segment may cross the line twice: its highest crossing is looked for
		// from the upper end of the line.
		for _, q := range onCentre(e, pa) {
			if h := b.Max.Y - q.Y; h < d {
				d, at = h, q
			}
		}
	}
	return at.Y, !math.IsInf(d, 1)
}

// onCentre returns where a segment crosses x = 0; near is one such place.
func onCentre(e geom.Seg, near geom.Point) []geom.Point {
	out := []geom.Point{near}
	if !e.IsArc() || math.Abs(e.Center.X) >= e.Radius {
		return out
	}
	h := math.Sqrt(e.Radius*e.Radius - e.Center.X*e.Center.X)
	for _, y := range [2]float64{e.Center.Y + h, e.Center.Y - h} {
		if q := geom.Pt(0, y); e.Closest(q).Dist(q) <= geom.Coincident {
			out = append(out, q)
		}
	}
	return out
}

// meetEdge makes the joint and the laid-out body agree: without a fret of the joint
// it is solved from the body's edge, else the two must meet.
func (s *solver) meetEdge() {
	n := s.Neck
	if n == nil || s.Outline == nil {
		return
	}
	top, ok := math.Inf(-1), false
	for _, p := range s.Outline {
		if y, o := topOnCentre(p); o && y > top {
			top, ok = y, true
		}
	}
	j := s.d.Neck.Joint
	if !ok {
		s.fail(s.d.Body.At, "body", "an outline that the centre line does not cross", "an outline on the centre line", "place it with body.centre")
		return
	}
	if j.Fret.Set() {
		if off := top - n.JointY; n.JointY != 0 && math.Abs(off) > edgeSlack {
			s.fail(j.Fret.At, "neck.joint.fret", fmt.Sprintf("fret %g, which lies %.2f mm from the bridge line on the body; the body's edge on the centre line lies at %.2f mm", j.Fret.V, n.JointY, top), fmt.Sprintf("the same within %g mm", edgeSlack), fmt.Sprintf("leave out neck.joint.fret or body.tail and it is solved, or set body.tail = %s", design.MM(s.tailNow()+off)))
		}
		return
	}
	s.fretOver(top)
}

// tailNow returns where the tail end of the laid-out body lies behind the bridge
// line.
func (s *solver) tailNow() float64 { return -s.Outline.Bounds().Min.Y }

// fretOver solves the joint from the body's edge at y: the place on the board
// that lies over it, and the fret there.
func (s *solver) fretOver(y float64) {
	n := s.Neck
	if y <= 0 || y >= n.Scale {
		s.fail(s.d.Body.At, "body", fmt.Sprintf("an edge %.2f mm from the bridge line", y), "an edge between the bridge and the nut", "set body.tail")
		return
	}
	// The distance on the body falls as the joint moves to the bridge, by the
	// cosine of the angle: a few turns bring it to y.
	quiet := len(s.Assumed)
	n.Joint = n.Scale - y
	for range 30 {
		kept := s.Assumed
		if !s.solveAngle() {
			return
		}
		off := n.ToSaddle - y
		if math.Abs(off) < 1e-9 {
			break
		}
		s.Assumed = kept[:quiet]
		n.Joint += off
	}
	n.Fret = s.fretAt(n.Joint)
	s.solved("neck.joint.fret", fmt.Sprintf("%.3f", n.Fret), fmt.Sprintf("over the body's edge, %s mm from the bridge line", design.MM(y)))
}

// fretAt returns the fret, with its fraction, that lies d mm from the nut along
// the centre line.
func (s *solver) fretAt(d float64) float64 {
	lo, hi := 0.0, 200.0
	for range 100 {
		mid := (lo + hi) / 2
		if s.Neck.Scale-s.alongCentre(mid) < d {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
