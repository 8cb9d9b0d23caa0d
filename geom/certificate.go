package geom

import (
	"fmt"
	"math"
)

// keepsDistance is the certificate of an offset: nil if the places on the edge of
// o where an error would show lie d from the edge of r, round joins no farther.
// For exact attempts those are the nodes and a place between each two of them; a
// curve that meets nothing is its own proof. What a fallback made is measured.
func (c *Calc) keepsDistance(r, o Region, d float64, j Join, try attempt) error {
	if try.fallback() {
		return c.measured(r, o, d, j, try)
	}
	if c.marks = c.arr.marks(c.marks[:0]); len(c.marks) == 0 {
		return nil
	}
	return c.marksKeep(IndexOf(r), d, j, try)
}

// measured is the certificate of an offset by steps or a fallback: every vertex of
// o and the middle of every segment must lie d from the edge of r, and on the right
// side of it.
func (c *Calc) measured(r, o Region, d float64, j Join, try attempt) error {
	c.marks = c.marks[:0]
	for _, p := range o {
		for k := range p {
			c.marks = append(c.marks, p[k].A, p[k].middle())
		}
	}
	x := IndexOf(r)
	for _, p := range c.marks {
		if x.Contains(p) != (d < 0) {
			return topologyError{p, "the result lies on the wrong side of what is given"}
		}
	}
	return c.marksKeep(x, d, j, try)
}

// marksKeep holds the distances of the marks from the edge of a region against d.
func (c *Calc) marksKeep(x *Index, d float64, j Join, try attempt) error {
	least, most := math.Abs(d)-certified, math.Abs(d)+Weld
	if try.flatten {
		least, most = math.Abs(d)-2*flattenError, math.Abs(d)+2*flattenError
	}
	if j.MitreLimit > 0 {
		most = math.Inf(1)
	}
	reach := least + 2*Budget
	for _, p := range c.marks {
		_, d2 := x.closest(p, reach*reach)
		switch far := math.Sqrt(d2); {
		case far >= least && far <= most:
		case !try.spurs:
			return errShortcut
		default:
			return topologyError{p, fmt.Sprintf("the result lies %.9f mm from what is given", far)}
		}
	}
	return nil
}

// certified is how much nearer than the asked distance a place on the result may
// lie: OffsetSlack, and as much again for nodes that were merged.
const certified = 2 * OffsetSlack

// agrees is the certificate of a boolean: nil if places of the plane just beside
// the edges, on either side, are in o exactly if the regions given say so, and if no
// segment was lost on the way. Nothing else is taken from the arrangement that made
// o but places to look at: the windings are counted over the loops as they were
// given.
//
// Looked at are a place on every loop of the result, on the loops given and on the
// chains between nodes, kept or not: fewPlaces and one for each placeShare
// segments in all; where there are more, an even selection. A loop too many, lost or
// turned is found if it is looked at. A place of which another edge
// is too near to tell is exchanged for one nearby. O(n) with a small constant.
func (c *Calc) agrees(t *task, o Region, try attempt) error {
	if n := o.Segs(); n != c.arr.made && !try.flatten {
		return topologyError{t.anyPlace(), fmt.Sprintf("the result has %d segments of %d that were found", n, c.arr.made)}
	}
	q := &c.ask
	q.collect(t, o, &c.arr, try)
	for round := 0; len(q.places) > 0 && round < len(besides); round++ {
		q.set(besides[round], try, len(c.arr.segs))
		for k, g := range t.groups {
			for _, r := range g {
				q.put(r, func(p *probe, w int16) { p.w[k] += w })
			}
		}
		q.put(o, func(p *probe, w int16) { p.got += w })
		left := q.places[:0]
		for i := range q.probes {
			p := &q.probes[i]
			switch {
			case p.near:
				if n := len(left); n == 0 || left[n-1] != q.places[i/2] {
					left = append(left, q.places[i/2])
				}
			case t.in(p.w) != (p.got == 1) || p.got < 0 || p.got > 1:
				if !c.arr.droppedAt(Rotate(try.turn).Point(p.at)) {
					return topologyError{p.at, fmt.Sprintf("the result and the regions given disagree: its loops go %d times round", p.got)}
				}
			}
		}
		q.places = left
	}
	return nil
}

// anyPlace returns a vertex of the regions given.
func (t *task) anyPlace() Point {
	for _, g := range t.groups {
		for _, r := range g {
			for _, p := range r {
				if len(p) > 0 {
					return p[0].A
				}
			}
		}
	}
	return Point{}
}

// besides are the ways to look beside a segment: where along it, and how many
// margins off.
var besides = []struct{ t, off float64 }{{0.5, 5}, {0.31, 50}, {0.73, 500}}

// sure is how near to an edge, in mm, a place may lie and not be asked about: the
// tolerance of the nodes on both of two curves that meet at a slope of a fifth or
// more, as the families of the tests found sufficient.
const sure = 20 * Coincident

// So many places are looked at, and one more for each placeShare segments: that
// costs a tenth of the operation, up to a quarter for the smallest (BenchmarkCertificate).
const (
	fewPlaces  = 16
	placeShare = 128
)

// inquiry asks regions how often their loops go round some places. The places
// are sorted into strips, so that a segment is only held against those it may
// pass: with few places, most segments are done with after one look.
type inquiry struct {
	places []Seg
	probes []probe
	first  []int32 // strip → its first probe + 1
	busy   []int32 // strip → how many strips before it have probes in them or within the margin
	margin float64
	y0     float64
	scale  float64 // strips a mm
	end    float64 // number of strips
}

// probe is a place, what the regions given and the result say about it, and
// whether an edge is too near to tell.
type probe struct {
	at   Point
	next int32 // probe of the strip + 1
	w    winding
	got  int16
	near bool
}

// collect chooses segments to look beside.
func (q *inquiry) collect(t *task, o Region, a *arrangement, try attempt) {
	q.places = q.places[:0]
	most := fewPlaces + len(a.segs)/placeShare
	q.loops(o, most/2)
	for _, g := range t.groups {
		for _, r := range g {
			q.loops(r, max(1, most/4/(len(t.groups[0])+len(t.groups[1]))))
		}
	}
	back := Rotate(-try.turn)
	step := max(1, len(a.chains)/max(1, most-len(q.places)))
	for i := 0; i < len(a.chains); i += step {
		c := &a.chains[i]
		s, _ := a.piece(c, c.n/2)
		if try.turn != 0 {
			q.places = append(q.places, back.Seg(*s))
		} else {
			q.places = append(q.places, *s)
		}
	}
}

// loops chooses a segment of each loop of r, or of as many as most.
func (q *inquiry) loops(r Region, most int) {
	step := max(1, (len(r)+most-1)/most)
	for i := 0; i < len(r); i += step {
		if p := r[i]; len(p) > 0 {
			s := p[0]
			for _, k := range [2]int{len(p) / 3, 2 * len(p) / 3} {
				if p[k].A.Dist(p[k].B) > s.A.Dist(s.B) {
					s = p[k]
				}
			}
			q.places = append(q.places, s)
		}
	}
}

// set puts a probe on either side of each place, and makes the strips, not many
// for few segments.
func (q *inquiry) set(beside struct{ t, off float64 }, try attempt, segs int) {
	q.margin = sure
	if try.flatten {
		q.margin = 3 * flattenError
	}
	q.probes = q.probes[:0]
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range q.places {
		s := &q.places[i]
		var p Point
		if beside.t == 0.5 {
			p = s.middle()
		} else {
			p = s.At(beside.t)
		}
		v := s.B.Sub(s.A).Left()
		if s.Turn != 0 {
			v = p.Sub(s.Center)
		}
		v = v.Unit().Mul(beside.off * q.margin)
		q.probes = append(q.probes, probe{at: p.Add(v)}, probe{at: p.Add(v.Neg())})
		lo, hi = min(lo, p.Y-math.Abs(v.Y)), max(hi, p.Y+math.Abs(v.Y))
	}
	n := min(stripsOfProbe*len(q.probes), 2+segs)
	q.first, q.busy = grown(q.first, n+2), grown(q.busy, n+3)
	clear(q.first)
	clear(q.busy)
	q.y0 = lo - 2*q.margin
	q.end = float64(n)
	q.scale = q.end / (hi - lo + 4*q.margin)
	for i := range q.probes {
		p := &q.probes[i]
		k := q.at(p.at.Y)
		p.next, q.first[k] = q.first[k], int32(i)+1
		for lo, hi := q.at(p.at.Y-q.margin), q.at(p.at.Y+q.margin); lo <= hi; lo++ {
			q.busy[lo+1] = 1
		}
	}
	for k := 1; k < len(q.busy); k++ {
		q.busy[k] += q.busy[k-1]
	}
}

// stripsOfProbe is the number of strips for each probe: enough that most are free.
const stripsOfProbe = 16

// at returns the strip of a height: 0 for all below, the last for all above.
func (q *inquiry) at(y float64) int {
	f := (y - q.y0) * q.scale
	if f < 0 {
		return 0
	}
	if f >= q.end {
		return len(q.first) - 1
	}
	return int(f) + 1
}

// put counts the loops of r round the probes.
func (q *inquiry) put(r Region, count func(*probe, int16)) {
	for _, p := range r {
		if len(p) == 0 {
			continue
		}
		from := q.at(p[0].A.Y)
		for i := range p {
			s := &p[i]
			to := q.at(s.B.Y)
			lo, hi := from, to
			if lo > hi {
				lo, hi = hi, lo
			}
			if from = to; s.Turn != 0 {
				more := int(min(s.bulgeBound()*q.scale, q.end)) + 1
				lo, hi = max(0, lo-more), min(hi+more, len(q.first)-1)
			}
			if q.busy[hi+1] > q.busy[lo] {
				q.pass(s, count)
			}
		}
	}
}

// pass holds a segment against the probes in its strips.
func (q *inquiry) pass(s *Seg, count func(*probe, int16)) {
	b := bounds{s.A.X, s.A.Y, s.B.X, s.B.Y}
	if b.x0 > b.x1 {
		b.x0, b.x1 = b.x1, b.x0
	}
	if b.y0 > b.y1 {
		b.y0, b.y1 = b.y1, b.y0
	}
	if s.Turn != 0 {
		b = b.grow(s.bulgeBound())
	}
	b = b.grow(q.margin)
	for k, last := q.at(b.y0), q.at(b.y1); k <= last; k++ {
		for i := q.first[k]; i > 0; {
			p := &q.probes[i-1]
			i = p.next
			if p.at.Y < b.y0 || p.at.Y > b.y1 || p.at.X > b.x1 {
				continue
			}
			if w := s.windingOf(p.at); w != 0 {
				count(p, int16(w))
			}
			if p.at.X >= b.x0 && s.Closest(p.at).Dist(p.at) < q.margin {
				p.near = true
			}
		}
	}
}

// bulgeBound returns a bound of how far an arc keeps from its chord: half the
// chord up to a half turn.
func (s *Seg) bulgeBound() float64 {
	v := s.B.Sub(s.A)
	if v.Cross(s.Center.Sub(s.A))*float64(s.Turn) < 0 {
		return 2 * s.Radius
	}
	return (math.Abs(v.X) + math.Abs(v.Y)) / 2
}
