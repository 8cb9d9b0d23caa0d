package neck

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Side is the neck's wood seen from the treble side, cut along the centre line:
// x is the depth below the underside of the board, the board's plane, and y runs
// along the board as in the plan. The head is drawn where it really stands.
type Side struct {
	Outline geom.Path // closed, counter-clockwise
	Back    geom.Path // from the heel's end to the head's tip, the part that is shaped
	// From and To are the y between which the back follows its profile: from the
	// hollow of the heel to that of the head.
	From, To float64
	Fold     geom.Point // where the head begins, on the front
	Face     geom.Seg   // straight part of the head's face, to its tip
	Scarf    *Scarf     // nil for a head that does not tilt
	Blank    float64    // depth of the blank that the whole side needs, mm
}

// Scarf is the glue line of a tilted head. It runs at the depth of the head's
// thickness under its face, parallel to it: the head, thinned first, is glued
// with its flat back on the sloped cut of the neck.
type Scarf struct {
	Line      geom.Seg // from the board's plane to the back of the blank
	Thickness float64  // of the blank where it is sawn, mm
	Length    float64  // of the cut, Thickness / sin tilt, mm
}

// hollow returns the arc of radius r that comes smoothly onto the line through l
// (in its direction) from p, which stands h ≤ r beside it, to the right. It meets
// the line √(r² − (r − h)²) beyond the foot of p.
func hollow(p geom.Point, l geom.Seg, r float64) (geom.Seg, bool) {
	u := l.B.Sub(l.A).Unit()
	right := u.Left().Neg()
	h := p.Sub(l.A).Dot(right)
	if h < 0 || h > r {
		return geom.Seg{}, false
	}
	foot := p.Add(right.Mul(-h))
	q := foot.Add(u.Mul(math.Sqrt(r*r - (r-h)*(r-h))))
	return geom.ArcAbout(q.Add(right.Mul(r)), p, q, -1), true
}

// least difference in depth that a hollow is drawn for, mm.
const leastHollow = 0.2

// laySide draws the side: heel, hollow, back, throat, head.
func (sh *Shape) laySide(ps *Problems) {
	s := &sh.Spec
	h, b := s.Heel, s.Back
	centre := geom.Line(geom.Pt(0, 0), geom.Pt(0, 1))
	fold := cross(sh.Fold, centre)
	sh.Side.Fold = geom.Pt(0, fold.Y)
	nut := cross(s.Board.Nut, centre).Y
	at := func(y float64) geom.Point { return geom.Pt(s.wood(y), y) }
	back := geom.Line(at(h.Joint), at(nut))

	// The heel, and from its foot onto the back.
	y := h.Joint + b.Foot
	foot := geom.Pt(h.Thickness, y)
	out := geom.Path{geom.Line(geom.Pt(h.Thickness, h.End), foot)}
	onto := at(y + blendLength)
	if off := h.Thickness - s.wood(y); off >= leastHollow {
		arc, ok := hollow(foot, back, b.Sweep)
		if !ok {
			ps.add("back.heel_radius", mm(b.Sweep), fmt.Sprintf("at least the %s by which the heel is thicker than the neck", mm(math.Ceil(off))), "use a larger radius")
			return
		}
		out = append(out, arc)
		onto = arc.B
	} else {
		out = append(out, geom.Line(foot, onto))
	}
	sh.Side.From = onto.Y

	head, face, ok := sh.headSide(nut, fold.Y, back, ps)
	if !ok {
		return
	}
	if head[0].A.Y <= onto.Y+1 {
		ps.add("back.heel_radius", mm(b.Sweep), "a hollow at the heel that ends before the head begins", "use smaller radii, or a joint further from the nut")
		return
	}
	sh.Side.To = head[0].A.Y
	if sh.Side.To < s.Board.First {
		ps.add("back.throat_radius", mm(b.Throat), "a hollow that begins beyond the first fret, where the thickness is asked for", "use a smaller radius, or less tilt or step")
		return
	}
	out = append(out, geom.Line(onto, head[0].A))
	out = append(out, head...)
	sh.Side.Back = out
	tip := out[len(out)-1].B
	all := append(geom.Path{geom.Line(geom.Pt(0, h.End), out[0].A)}, out...)
	all = append(all, geom.Line(tip, face[0].A))
	all = append(all, face...)
	sh.Side.Face = face[0].Reversed()
	sh.Side.Outline = append(all, geom.Line(sh.Side.Fold, geom.Pt(0, h.End)))
	if err := (geom.Region{sh.Side.Outline}).Check(); err != nil {
		ps.add("back", "a side that crosses itself", "heel, neck and head that run into each other", "check the thicknesses and radii: "+err.Error())
		return
	}
	box := sh.Side.Outline.Bounds()
	sh.Side.Blank = box.W()
	sh.scarf(fold.Y, ps)
}

// headSide returns the back of the head, from where it leaves the neck's back,
// and its face from the tip to the fold.
func (sh *Shape) headSide(nut, fold float64, back geom.Seg, ps *Problems) (head, face geom.Path, ok bool) {
	s := &sh.Spec
	h, th, r := s.Head, s.Head.Thickness, s.Back.Throat
	l := sh.Length - (fold - nut) // of the face
	f := geom.Pt(0, fold)
	if h.Tilt > 0 {
		sin, cos := math.Sincos(float64(h.Tilt))
		d, n := geom.Vec{X: sin, Y: cos}, geom.Vec{X: cos, Y: -sin}
		tip := f.Add(d.Mul(l))
		under := geom.Line(f.Add(n.Mul(th)), tip.Add(n.Mul(th)))
		g := cross(back, under)
		// The two lines meet at the angle between them; the arc's tangents reach
		// r·tan of half of it to either side.
		half := math.Acos(math.Min(1, back.B.Sub(back.A).Unit().Dot(d))) / 2
		reach := r * math.Tan(half)
		if reach > g.Dist(under.B) || g.Y <= s.Heel.Joint {
			ps.add("back.throat_radius", mm(r), "a hollow that fits between neck and head", "use a smaller radius")
			return nil, nil, false
		}
		a, b := g.Add(back.A.Sub(back.B).Unit().Mul(reach)), g.Add(d.Mul(reach))
		c := b.Add(n.Mul(r))
		if reach < geom.Coincident*10 {
			head = geom.Path{geom.Line(a, under.B)}
		} else {
			head = geom.Path{geom.ArcAbout(c, a, b, -1), geom.Line(b, under.B)}
		}
		return head, geom.Path{geom.Line(tip, f)}, true
	}
	// Stepped: the face lies at the step's depth, joined by an arc on the front.
	run := math.Sqrt(2*h.Sweep*h.Step - h.Step*h.Step)
	end, deep := fold+l, h.Step+th
	if run > l-leastTip {
		ps.add("head.sweep", mm(h.Sweep), "a curve down to the face that ends on the head", "use a smaller radius or a smaller step")
		return nil, nil, false
	}
	tip := geom.Pt(h.Step, end)
	if h.Step > geom.Coincident {
		t := geom.Pt(h.Step, fold+run)
		face = geom.Path{geom.Line(tip, t), geom.ArcAbout(geom.Pt(h.Step-h.Sweep, t.Y), t, f, -1)}
	} else {
		tip.X = 0
		face = geom.Path{geom.Line(tip, f)}
	}
	bottom := geom.Pt(deep, end)
	at := geom.Pt(s.wood(fold), fold)
	switch off := deep - at.X; {
	case off >= leastHollow: // the head is deeper: the hollow begins under the nut
		// Seen from the head down the back it is the hollow of a foot.
		down := geom.Line(back.B, back.A)
		arc, fits := mirroredHollow(geom.Pt(deep, fold), down, r)
		if !fits {
			ps.add("back.throat_radius", mm(r), fmt.Sprintf("at least the %s by which the head lies deeper than the neck's back", mm(math.Ceil(off))), "use a larger radius")
			return nil, nil, false
		}
		head = geom.Path{arc, geom.Line(arc.B, bottom)}
	case off <= -leastHollow: // the neck is deeper: a foot under the nut
		arc, fits := hollow(at, geom.Line(geom.Pt(deep, fold), bottom), r)
		if !fits || arc.B.Y > end-leastTip {
			ps.add("back.throat_radius", mm(r), fmt.Sprintf("at least the %s by which the neck lies deeper than the head's back, and no longer than the head", mm(math.Ceil(-off))), "use another radius")
			return nil, nil, false
		}
		head = geom.Path{arc, geom.Line(arc.B, bottom)}
	default:
		head = geom.Path{geom.Line(at, bottom)}
	}
	return head, face, true
}

// mirroredHollow returns the arc that leaves the line through l smoothly, against
// l's direction, and ends at p beside it on the left.
func mirroredHollow(p geom.Point, l geom.Seg, r float64) (geom.Seg, bool) {
	m := geom.MirrorX()
	a, ok := hollow(m.Point(p), m.Seg(l), r)
	if !ok {
		return geom.Seg{}, false
	}
	a = m.Seg(a).Reversed()
	return a, true
}

// scarf lays the glue line of a tilted head.
func (sh *Shape) scarf(fold float64, ps *Problems) {
	s := &sh.Spec
	if s.Head.Tilt == 0 {
		return
	}
	sin, cos := math.Sincos(float64(s.Head.Tilt))
	t := s.Back.Scarf
	most := math.Max(s.wood(sh.Side.From), s.wood(sh.Side.To))
	if t == 0 {
		t = math.Ceil(2*most) / 2
	}
	if t < most {
		ps.add("back.scarf_blank", mm(t), fmt.Sprintf("at least %s, the deepest of the neck's back", mm(math.Ceil(most*10)/10)), "use a thicker blank")
		return
	}
	start := geom.Pt(0, fold-s.Head.Thickness/sin)
	if start.Y <= sh.Side.From {
		ps.add("head.tilt", fmt.Sprintf("%.1f°", s.Head.Tilt.Degrees()), "a scarf that begins on the neck, clear of the heel", "tilt the head more")
		return
	}
	sh.Side.Scarf = &Scarf{geom.Line(start, geom.Pt(t, start.Y+t*cos/sin)), t, t / sin}
}
