package neck

import (
	"fmt"
	"math"

	"routwright/geom"
)

// corner is a corner of an outline that is still sharp, with the radius it gets
// and the key that asked for it.
type corner struct {
	at  geom.Point
	key string
	r   Radius
}

// Starting values of New, mm; common practice.
const (
	pastShoulder = 4  // from the shoulder's height to where the first tuner's wood begins
	pastTip      = 4  // from the last tuner's wood to the tip
	besideNut    = 2  // a head without tuners on one side is this much wider there than the nut
	blendLength  = 20 // over which heel and board run into each other
	// BlendMost is the most that heel and board may differ a side at the body's
	// edge to run into each other; more makes square shoulders, as a tenon has.
	BlendMost = 1.0
	leastTip  = 12 // of a head, across its tip
)

// xOf returns where the line through s has the height y.
func xOf(s geom.Seg, y float64) float64 {
	return s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
}

// cross returns where the lines through a and b cross; they must not be parallel.
func cross(a, b geom.Seg) geom.Point {
	d, e := a.B.Sub(a.A), b.B.Sub(b.A)
	return a.A.Add(d.Mul(b.A.Sub(a.A).Cross(e) / d.Cross(e)))
}

// shaft returns the corners of the neck from the fold on one side (+1 treble) down
// to the heel's end, and the corners that a bit cannot make sharp.
func (s *Spec) shaft(side float64, f fold) (down []corner, square []geom.Point) {
	edge := s.Board.Treble
	if side < 0 {
		edge = s.Board.Bass
	}
	h := s.Heel
	down = append(down, corner{at: cross(f.line, edge)})
	board, heel := xOf(edge, h.Joint), side*h.WidthJoint/2
	switch off := side * (heel - board); {
	case math.Abs(off) < 1e-3:
		down = append(down, corner{at: geom.Pt(board, h.Joint)})
	case math.Abs(off) <= BlendMost:
		y := h.Joint + blendLength
		down = append(down, corner{at: geom.Pt(xOf(edge, y), y)}, corner{at: geom.Pt(heel, h.Joint)})
	default:
		down = append(down, corner{at: geom.Pt(board, h.Joint)}, corner{at: geom.Pt(heel, h.Joint)})
		inner := heel // the corner that points into the wood
		if off > 0 {
			inner = board
		}
		square = append(square, geom.Pt(inner, h.Joint))
	}
	return append(down, corner{geom.Pt(side*h.WidthEnd/2, h.End), "heel.corner", Radius{h.Corner, true}}), square
}

// loop closes the corners of the treble side, read downward, and of the bass
// side into an outline, counter-clockwise, with top in between from treble to bass.
func loop(treble, bass, top []corner, crown float64, ps *Problems) geom.Path {
	var cs []corner
	cs = append(cs, bass[len(bass)-1])
	for i := len(treble) - 1; i >= 0; i-- {
		cs = append(cs, treble[i])
	}
	n := len(cs) // the crown runs from the middle pair of top
	cs = append(cs, top...)
	cs = append(cs, bass[:len(bass)-1]...)
	pts := make([]geom.Point, len(cs))
	for i, c := range cs {
		pts[i] = c.at
	}
	p := geom.Polygon(pts...)
	if i := n + len(top)/2 - 1; crown > 0 && len(top) > 0 {
		a, b := p[i].A, p[i].B
		m := a.Lerp(b, 0.5).Add(b.Sub(a).Unit().Left().Mul(-crown))
		p[i] = geom.ArcThrough(a, m, b)
	}
	return rounded(p, cs, ps)
}

// rounded rounds the corners of p. A radius that was given must fit; another
// gives way to what its sides hold.
func rounded(p geom.Path, cs []corner, ps *Problems) geom.Path {
	for i := len(p) - 1; i >= 0; i-- {
		c := cs[i]
		if c.r.R <= 0 {
			continue
		}
		r, before := c.r.R, p[(i+len(p)-1)%len(p)]
		if !c.r.Given {
			turn := math.Abs(math.Atan2(before.Tangent(1).Cross(p[i].Tangent(0)), before.Tangent(1).Dot(p[i].Tangent(0))))
			if t := math.Tan(turn / 2); t > 1e-6 {
				r = math.Min(r, 0.45*math.Min(before.Length(), p[i].Length())/t)
			}
		}
		q, err := p.Fillet(i, r)
		for n := 0; err != nil && !c.r.Given && n < 40; n++ {
			r *= 0.8
			q, err = p.Fillet(i, r)
		}
		if err != nil {
			if c.r.Given {
				ps.add(c.key, mm(c.r.R), "a radius that fits the sides of its corner", err.Error()+"; use a smaller radius")
			}
			continue
		}
		p = q
	}
	return p
}

// place places the rows and returns the head's two edges, treble first, each
// from the shoulder to the tip.
func (s *Spec) place(rows []row, f fold, bend geom.Angle, ps *Problems) (edges [2]geom.Seg, ok bool) {
	h, nutY := s.Head, s.Board.Nut.At(0.5).Y
	inset := h.Hole/2 + h.Edge
	withRow := h.Widths != nil && h.Deflection == nil && h.Kind == Split
	for i := range rows {
		r := &rows[i]
		if withRow {
			continue
		}
		if err := s.follow(r, f.flat(bend)); err != nil {
			ps.add("head.pitch", err.Error(), "a pitch that reaches from string to string", "use a larger pitch")
			return edges, false
		}
	}
	// Shoulder and tip, as far as the tuners leave them open.
	shoulder, tip := nutY+h.Shoulder, nutY+h.Length-h.Crown
	first, last := math.Inf(1), math.Inf(-1)
	for _, r := range rows {
		n := len(r.strings)
		a := s.Board.Strings[r.strings[0]].A.Y + h.First
		b := a + h.Pitch*float64(n-1)
		if !withRow {
			a, b = r.posts[0].Y, r.posts[n-1].Y
		}
		first, last = math.Min(first, a), math.Max(last, b)
	}
	low := math.Max(f.line.A.Y, f.line.B.Y)
	if h.Shoulder == 0 {
		shoulder = low + 25
		if len(rows) > 0 {
			shoulder = math.Max(low+8, first-inset-pastShoulder)
		}
	}
	if h.Length == 0 {
		tip = nutY + paddleLength
		if len(rows) > 0 {
			tip = last + inset + pastTip
		}
	} else if len(rows) > 0 && tip < last+h.Hole/2 {
		ps.add("head.length", mm(h.Length), fmt.Sprintf("at least %s for these tuners", mm(math.Ceil(last+inset+h.Crown-nutY))), "lengthen the head, or use a smaller pitch")
		return edges, false
	}
	if tip < shoulder+leastTip {
		ps.add("head.length", mm(tip+h.Crown-nutY), fmt.Sprintf("more than %s, past the shoulders", mm(shoulder+leastTip+h.Crown-nutY)), "lengthen the head, or bring the shoulders nearer to the nut")
		return edges, false
	}
	var known [2]bool // treble, bass
	which := func(side float64) int {
		if side > 0 {
			return 0
		}
		return 1
	}
	cut := func(l geom.Seg) geom.Seg {
		return geom.Line(geom.Pt(xOf(l, shoulder), shoulder), geom.Pt(xOf(l, tip), tip))
	}
	if h.Widths != nil && h.Kind != InLine {
		for i, side := range [2]float64{1, -1} {
			edges[i], known[i] = geom.Line(geom.Pt(side*h.Widths[0]/2, shoulder), geom.Pt(side*h.Widths[1]/2, tip)), true
		}
		if withRow {
			for i := range rows {
				r := &rows[i]
				e := edges[which(r.side)]
				r.along = e.B.Sub(e.A).Unit()
				in := r.outward(r.along).Mul(-inset)
				l := geom.Line(e.A.Add(in), e.B.Add(in))
				y := s.Board.Strings[r.strings[0]].A.Y + h.First
				r.line(geom.Pt(xOf(l, y), y), h.Pitch)
			}
		}
		return edges, true
	}
	for _, r := range rows {
		if !(r.along.Y > 0.1) {
			ps.add("head.pitch", mm(h.Pitch), "a row that runs on from the nut", "use a larger pitch")
			return edges, false
		}
		p := r.posts[0].Add(r.outward(r.along).Mul(inset))
		edges[which(r.side)], known[which(r.side)] = cut(geom.Line(p, p.Add(r.along))), true
	}
	for i, side := range [2]float64{1, -1} {
		if known[i] {
			continue
		}
		if h.Widths != nil { // in line: across from the row's edge, square to it
			e := edges[1-i]
			n := geom.Vec{X: e.B.Y - e.A.Y, Y: e.A.X - e.B.X}.Unit().Mul(side)
			edges[i] = cut(geom.Line(e.A.Add(n.Mul(h.Widths[0])), e.B.Add(n.Mul(h.Widths[1]))))
			continue
		}
		// Straight on, clear of the nut and of the last tuner.
		nut := s.Board.Nut.B.X
		if side < 0 {
			nut = s.Board.Nut.A.X
		}
		x := side*nut + besideNut
		for _, r := range rows {
			for _, p := range r.posts {
				x = math.Max(x, side*p.X+inset)
			}
		}
		edges[i] = geom.Line(geom.Pt(side*x, shoulder), geom.Pt(side*x, tip))
	}
	return edges, true
}

// paddleLength is the length of a plain paddle, mm: six tuners in line at the
// usual pitch fit. Common practice.
const paddleLength = 190
