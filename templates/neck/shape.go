package neck

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Shape is a laid-out neck. Make it with New; its parts are read-only. The plan
// is seen from the front, in the plan frame of the board, the head laid flat
// about the line where it begins.
type Shape struct {
	Spec Spec

	Plan  geom.Path // neck and head in one
	Shaft geom.Path // from the heel's end to the line where the head begins
	Head  geom.Path // from that line to the tip
	Fold  geom.Seg  // that line, bass end first
	// Square are corners of the shaft that a round cutter leaves wood in: to be
	// made by hand.
	Square []geom.Point
	Tuners []Tuner    // by string, the highest first; nil for a paddle
	Bend   geom.Angle // that every string was asked to bend outward; 0 where the posts follow the edges
	Length float64    // from the nut to the furthest point of the head, mm

	Rod  *Channel // nil without one
	Side Side
}

// New lays a neck out, or returns Problems.
func New(s Spec) (*Shape, error) {
	var ps Problems
	s.check(&ps)
	if len(ps) > 0 {
		return nil, ps
	}
	sh := &Shape{Spec: s}
	sh.layPlan(&ps)
	if len(ps) == 0 {
		sh.laySide(&ps)
	}
	if len(ps) == 0 && s.Rod != nil {
		sh.layRod(&ps)
	}
	if len(ps) > 0 {
		return nil, ps
	}
	return sh, nil
}

// check refuses measures that contradict each other.
func (s *Spec) check(ps *Problems) {
	h, n := s.Head, len(s.Board.Strings)
	if got := h.Bass + h.Treble; h.Kind != Paddle && got != n {
		ps.add("head.sides", fmt.Sprintf("%d + %d tuners", h.Bass, h.Treble), fmt.Sprintf("%d in all, one a string", n), "count the strings of either side")
	}
	if h.Kind == InLine && h.Bass > 0 && h.Treble > 0 {
		ps.add("head.sides", fmt.Sprintf("%d + %d tuners in line", h.Bass, h.Treble), "all on one side", "write kind = \"split\", or put all on one side")
	}
	if h.Tilt > 0 && h.Thickness < LeastScarfed {
		ps.add("head.thickness", mm(h.Thickness)+" with a tilt", fmt.Sprintf("at least %s where a scarf is glued under it", mm(LeastScarfed)), "use a thicker head, or a stepped one")
	}
	if h.Tilt == 0 && h.Sweep < h.Step {
		ps.add("head.sweep", mm(h.Sweep), fmt.Sprintf("at least the step of %s", mm(h.Step)), "use a larger radius or a smaller step")
	}
	if s.Heel.Joint <= s.Heel.End {
		ps.add("heel.length", mm(s.Heel.Joint-s.Heel.End), "a heel that ends inside the body", "measure from the heel's end to the body's edge")
	}
	if s.Heel.Joint >= s.Board.First {
		ps.add("joint.fret", "the body's edge at or above the first fret", "a joint further down the neck", "name a higher fret")
	}
	for i, y := range []float64{s.Board.First, s.Board.Octave} {
		d := s.Back.Thickness[i] - s.Board.Thickness
		if d < LeastWood {
			ps.add("back.thickness", mm(s.Back.Thickness[i])+" with a board of "+mm(s.Board.Thickness), fmt.Sprintf("at least %s of wood under the board", mm(LeastWood)), "use a thicker neck or a thinner board")
		}
		if !(s.width(y) > 0) {
			ps.add("back", "no width at the frets", "a board that has a width", "check the board")
		}
	}
}

// Least measures in mm that New takes; common practice.
const (
	LeastScarfed = 11 // of a head that is scarfed on: 13 to 15 is usual
	LeastWood    = 5  // under the board at the frets
)

// width returns the width of the board at height y.
func (s *Spec) width(y float64) float64 { return xOf(s.Board.Treble, y) - xOf(s.Board.Bass, y) }

// layPlan lays out shaft, head and tuners.
func (sh *Shape) layPlan(ps *Problems) {
	s := &sh.Spec
	up := s.Board.Nut.B.Sub(s.Board.Nut.A).Unit().Left().Mul(s.Head.Behind)
	f := fold{geom.Line(s.Board.Nut.A.Add(up), s.Board.Nut.B.Add(up)), s.Head.Tilt}
	treble, sq1 := s.shaft(1, f)
	bass, sq2 := s.shaft(-1, f)
	f.line = geom.Line(bass[0].at, treble[0].at)
	sh.Fold, sh.Square = f.line, append(sq1, sq2...)
	sh.Shaft = loop(treble, bass, nil, 0, ps)
	rows := s.rows()
	if s.Head.Kind == Paddle {
		rows = nil
	}
	edges, ok := sh.layTuners(rows, f, ps)
	if !ok {
		return
	}
	h := s.Head
	if w := edges[0].B.X - edges[1].B.X; w < leastTip {
		field, cure := "head.widths", "widen the head"
		if h.Widths == nil {
			field, cure = "head.deflection", "let the strings bend further outward, or use a larger pitch"
		}
		ps.add(field, fmt.Sprintf("a head %s wide at its tip", mm(w)), fmt.Sprintf("at least %s, wide enough for its tuners", mm(leastTip)), cure)
		return
	}
	top := []corner{
		{edges[0].A, "head.shoulder_radius", h.ShoulderRadius}, {edges[0].B, "head.tip_radius", h.TipRadius},
		{edges[1].B, "head.tip_radius", h.TipRadius}, {edges[1].A, "head.shoulder_radius", h.ShoulderRadius},
	}
	treble[0].key, treble[0].r = "head.neck_radius", h.NeckRadius
	bass[0].key, bass[0].r = "head.neck_radius", h.NeckRadius
	sh.Plan = loop(treble, bass, top, h.Crown, ps)
	foot := func(at geom.Point, like []corner) []corner { // the head alone runs square off the neck's edge
		back := like[1].at.Sub(at).Unit().Mul(overlap)
		return []corner{like[0], {at: at.Add(back)}}
	}
	head := loop(foot(treble[0].at, treble), foot(bass[0].at, bass), top, h.Crown, ps)
	if len(*ps) > 0 {
		return
	}
	sh.Head = head
	for _, o := range []struct {
		name string
		path geom.Path
	}{{"outline", sh.Plan}, {"shaft", sh.Shaft}, {"head", sh.Head}} {
		if err := (geom.Region{o.path}).Check(); err != nil {
			ps.add("head", "an outline of the "+o.name+" that crosses itself", "a head that runs on from the neck", "check widths, shoulder and length: "+err.Error())
			return
		}
	}
	b := sh.Head.Bounds()
	sh.Length = b.Max.Y - s.Board.Nut.At(0.5).Y
	sh.walls(ps)
}

// overlap is how far the head's own outline reaches back past the line where it
// begins, mm, so that the cut on the face starts on the finished neck.
const overlap = 30

// layTuners places the posts, bending the strings as asked or as little as keeps
// the tuners apart, and returns the head's edges.
func (sh *Shape) layTuners(rows []row, f fold, ps *Problems) ([2]geom.Seg, bool) {
	s := &sh.Spec
	free := s.Head.Kind == Split && s.Head.Deflection == nil && s.Head.Widths == nil && len(rows) > 0
	bend := geom.Angle(0)
	if s.Head.Deflection != nil {
		bend = *s.Head.Deflection
	}
	for ; ; bend += 0.25 * geom.Degree {
		var own Problems
		edges, ok := s.place(rows, f, bend, &own)
		if !ok {
			*ps = append(*ps, own...)
			return edges, false
		}
		sh.Tuners, sh.Bend = s.tuners(rows, f), bend
		if !free || bend >= mostBend {
			return edges, true
		}
		apart, _, _, ok1 := Apart(sh.Tuners)
		pass, _, _, ok2 := Passing(sh.Tuners, s.Head.Post/2)
		if (!ok1 || apart >= bodyAir) && (!ok2 || pass >= PostAir) {
			return edges, true
		}
	}
}

const (
	mostBend = 10 * geom.Degree // the search for the least bend ends here; common practice
	bodyAir  = 1.0              // mm between the bodies of two tuners, for New's own placing
	// PostAir is the room in mm that a string wants beside another string's post.
	PostAir = 1.0
)

// walls measures the wood round each hole, and refuses one outside the head.
func (sh *Shape) walls(ps *Problems) {
	edge := geom.IndexOf(geom.Region{sh.Head})
	for i, t := range sh.Tuners {
		for _, o := range sh.Tuners[:i] {
			if d := t.Post.Dist(o.Post); d <= sh.Spec.Head.Hole {
				field, cure := "head.pitch", "use a larger pitch, or let the strings bend further outward"
				if sh.Spec.Head.Widths != nil {
					field, cure = "head.widths", "widen the head, or leave the widths out and let them follow the tuners"
				}
				ps.add(field, fmt.Sprintf("the holes of strings %d and %d, %s apart, run into each other", o.String, t.String, mm(d)), fmt.Sprintf("more than %s between their middles", mm(sh.Spec.Head.Hole)), cure)
				return
			}
		}
	}
	for i := range sh.Tuners {
		t := &sh.Tuners[i]
		_, d := edge.Closest(t.Post)
		if !edge.Contains(t.Post) {
			d = -d
		}
		t.Wall = d - sh.Spec.Head.Hole/2
		if t.Wall <= 0 {
			field, cure := "head.widths", "widen the head, or leave the widths out and let them follow the tuners"
			if sh.Spec.Head.Widths == nil {
				field, cure = "head.length", "lengthen the head"
			}
			ps.add(field, fmt.Sprintf("the hole of string %d breaks through the edge by %s", t.String, mm(-t.Wall)), fmt.Sprintf("a head wider than its tuners, with %s of wood round each hole", mm(sh.Spec.Head.Edge)), cure)
			return
		}
	}
}

// WidthAt returns the width of the neck under the board at height y, mm.
func (sh *Shape) WidthAt(y float64) float64 { return sh.Spec.width(y) }

// WoodAt returns how deep the back lies under the underside of the board at
// height y on the centre line, by the straight line through the two thicknesses.
func (sh *Shape) WoodAt(y float64) float64 { return sh.Spec.wood(y) }

func (s *Spec) wood(y float64) float64 {
	t := (y - s.Board.First) / (s.Board.Octave - s.Board.First)
	return s.Back.Thickness[0] + t*(s.Back.Thickness[1]-s.Back.Thickness[0]) - s.Board.Thickness
}

// ProfileAt returns the profile of the back at height y; its shoulder runs
// evenly between first fret and octave and stays beyond.
func (sh *Shape) ProfileAt(y float64) Profile {
	s := &sh.Spec
	t := math.Min(math.Max((y-s.Board.First)/(s.Board.Octave-s.Board.First), 0), 1)
	return Profile{Half: s.width(y) / 2, Depth: s.wood(y), Shoulder: s.Back.Shoulder[0] + t*(s.Back.Shoulder[1]-s.Back.Shoulder[0])}
}
