package neck

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Tuner is one tuning machine at its place. Points are in the plane of the
// head's face, laid flat.
type Tuner struct {
	String int        // from the treble side, 1 first
	Post   geom.Point // middle of its hole
	Body   geom.Region
	// From and To are the string's ends between nut and post: it runs past the
	// post on the side of the centre line and touches it at To.
	From, To geom.Point
	// Deflection is how far the string bends at the nut, seen from the front,
	// positive outward.
	Deflection geom.Angle
	// Wall is the wood between hole and the nearest edge of the head.
	Wall float64
}

// row is the tuners of one side: +1 treble, −1 bass.
type row struct {
	side    float64
	strings []int // indices of Board.Strings, the nearest tuner first
	posts   []geom.Point
	along   geom.Vec // direction of the row away from the nut
}

// outward returns the unit vector square to dir that points to the row's side.
func (r row) outward(dir geom.Vec) geom.Vec {
	return geom.Vec{X: dir.Y, Y: -dir.X}.Mul(r.side)
}

// rows returns the two rows without their places, bass first. Strings go to
// either side from the outside in.
func (s *Spec) rows() []row {
	n := len(s.Board.Strings)
	bass, treble := row{side: -1}, row{side: 1}
	for i := 0; i < s.Head.Bass; i++ {
		bass.strings = append(bass.strings, n-1-i)
	}
	for i := 0; i < s.Head.Treble; i++ {
		treble.strings = append(treble.strings, i)
	}
	var out []row
	for _, r := range []row{bass, treble} {
		if len(r.strings) > 0 {
			out = append(out, r)
		}
	}
	return out
}

// heading returns the unit direction of a string from its saddle to the nut.
func heading(l geom.Seg) geom.Vec { return l.A.Sub(l.B).Unit() }

// follow places a row whose strings all bend outward by the same angle, in the
// plane of the face: the first and the last post exactly so, the others on the
// line between them at even pitch.
//
// A string that leaves the nut at N in direction u runs past the inside of a
// post of radius ρ whose middle is N + u·t + n·ρ, with n square to u, outward.
// The first post is that whose y lies First beyond N, the last that at
// (count − 1)·Pitch from it, a quadratic in t.
func (s *Spec) follow(r *row, bend geom.Angle) error {
	h := s.Head
	at := func(k int) (geom.Point, geom.Vec) {
		l := s.Board.Strings[r.strings[k]]
		u := heading(l).Rotate(bend * geom.Angle(-r.side))
		return l.A.Add(r.outward(u).Mul(h.Post / 2)), u
	}
	base, u := at(0)
	first := base.Add(u.Mul((s.Board.Strings[r.strings[0]].A.Y + h.First - base.Y) / u.Y))
	n := len(r.strings)
	r.along = geom.Vec{Y: 1}
	if n > 1 {
		base, u = at(n - 1)
		w, l := base.Sub(first), h.Pitch*float64(n-1)
		b := w.Dot(u)
		disc := b*b - w.Dot(w) + l*l
		if disc < 0 {
			return fmt.Errorf("%d tuners at a pitch of %s do not reach from string %d to string %d", n, mm(h.Pitch), r.strings[0]+1, r.strings[n-1]+1)
		}
		r.along = base.Add(u.Mul(math.Sqrt(disc) - b)).Sub(first).Unit()
	}
	r.line(first, h.Pitch)
	return nil
}

// line sets the posts from the first along the row.
func (r *row) line(first geom.Point, pitch float64) {
	r.posts = nil
	for k := range r.strings {
		r.posts = append(r.posts, first.Add(r.along.Mul(pitch*float64(k))))
	}
}

// tuners returns the tuners of placed rows, string 1 first, walls aside.
func (s *Spec) tuners(rows []row, fold fold) []Tuner {
	out := make([]Tuner, 0, len(s.Board.Strings))
	byString := map[int]Tuner{}
	for _, r := range rows {
		for k, i := range r.strings {
			byString[i] = s.tuner(r, r.posts[k], i, fold)
		}
	}
	for i := range s.Board.Strings {
		if t, ok := byString[i]; ok {
			out = append(out, t)
		}
	}
	return out
}

// tuner strings one post: the tangent from the nut to the inside of the post.
func (s *Spec) tuner(r row, post geom.Point, i int, fold fold) Tuner {
	l := s.Board.Strings[i]
	t := Tuner{String: i + 1, Post: post, From: l.A, To: post}
	w, rho := post.Sub(l.A), s.Head.Post/2
	if d := w.Len(); d > rho {
		turn := geom.Angle(math.Asin(rho/d) * r.side) // from the middle to the inside
		t.To = l.A.Add(w.Unit().Rotate(turn).Mul(math.Sqrt(d*d - rho*rho)))
	}
	u, v := heading(l), fold.plan(t.To).Sub(l.A)
	t.Deflection = geom.Angle(math.Atan2(u.Cross(v), u.Dot(v)) * -r.side)
	// The body lies across the row, from Inward of the post out to the edge.
	out := r.outward(r.along)
	half, outside := r.along.Mul(s.Head.Along/2), s.Head.Hole/2+s.Head.Edge
	a, b := post.Add(out.Mul(-s.Head.Inward)), post.Add(out.Mul(outside))
	p := geom.Polygon(a.Add(half.Neg()), b.Add(half.Neg()), b.Add(half), a.Add(half))
	if p.Area() < 0 {
		p = p.Reversed()
	}
	t.Body = geom.Region{p}
	return t
}

// Apart returns the least distance between the bodies of two tuners, and which
// they are by their strings; 0 where they overlap. ok is false for fewer than
// two.
func Apart(ts []Tuner) (d float64, a, b int, ok bool) {
	d = math.Inf(1)
	for i := range ts {
		for k := i + 1; k < len(ts); k++ {
			e, _, _ := geom.Distance(ts[i].Body, ts[k].Body)
			if ts[i].Body.Contains(ts[k].Post) {
				e = 0
			}
			if e < d {
				d, a, b, ok = e, ts[i].String, ts[k].String, true
			}
		}
	}
	return d, a, b, ok
}

// Passing returns the least room between a string and another string's post of
// radius rho, negative where it runs into it. ok is false for fewer than two.
func Passing(ts []Tuner, rho float64) (d float64, string, post int, ok bool) {
	d = math.Inf(1)
	for i := range ts {
		l := geom.Line(ts[i].From, ts[i].To)
		for k := range ts {
			if i == k {
				continue
			}
			if e := l.Closest(ts[k].Post).Dist(ts[k].Post) - rho; e < d {
				d, string, post, ok = e, ts[i].String, ts[k].String, true
			}
		}
	}
	return d, string, post, ok
}
