package render

import (
	"math"
	"sort"

	"routwright/geom"
)

// Measures of a dimension, mm, after ISO 129-1 and ISO 3098 (from memory of
// both): closed filled arrows of 15°, extension lines past the arrow, figures
// above the line, read from below or from the right.
const (
	dimText    = 2.5
	arrowLen   = 3.0
	arrowHalf  = 0.4 // half width at the foot: 3 · tan 7.5°
	dimFirst   = 8.0 // from the feature to the first dimension line
	dimStep    = 6.5 // from one dimension line to the next
	dimRows    = 28
	extGap     = 1.0 // between feature and extension line
	extPast    = 1.6 // extension line past the dimension line
	textAir    = 0.9 // between figures and their line
	wordAir    = 0.7 // kept free round every text
	arrowsTurn = 9.0 // under this length the arrows point inward from outside
)

// placedDim is one way to draw a dimension.
type placedDim struct {
	lines  []geom.Seg // extension lines first, the dimension line last
	main   geom.Seg
	arrows [][2]geom.Point // tip, foot
	text   Text
	cost   float64
}

// placeDims draws the dimensions, short ones first, so that they nest.
func (o *office) placeDims(dims []Dim) {
	order := make([]int, len(dims))
	for i := range order {
		order[i] = i
	}
	measure := func(d Dim) float64 {
		if d.Radial {
			return 0
		}
		if u := d.Along.Unit(); u != (geom.Vec{}) {
			return math.Abs(d.B.Sub(d.A).Dot(u))
		}
		return d.A.Dist(d.B)
	}
	sort.SliceStable(order, func(i, j int) bool { return measure(dims[order[i]]) < measure(dims[order[j]]) })
	for _, i := range order {
		d := dims[i]
		d.Text = o.written(d.Text)
		if best, ok := o.bestDim(d); ok {
			o.drawDim(d, best)
			continue
		}
		o.toNote(Label{S: d.Text, At: d.A.Lerp(d.B, 0.5)})
	}
}

func (o *office) bestDim(d Dim) (best placedDim, ok bool) {
	consider := func(p placedDim) {
		box := p.text.Box().Grow(wordAir)
		if (ok && p.cost >= best.cost) || !o.ink.clear(box) {
			return
		}
		for _, s := range p.lines {
			words, weight := o.ink.crossed(s.A, s.B)
			if words > 0 || s == p.main && box.Hits(s) {
				return
			}
			if s != p.main {
				weight /= 4 // extension lines may cross outlines
			}
			p.cost += weight
		}
		if !ok || p.cost < best.cost {
			best, ok = p, true
		}
	}
	if d.Radial {
		radialDims(d, consider)
		return best, ok
	}
	o.linearDims(d, func(cost float64) bool { return !ok || cost < best.cost }, consider)
	return best, ok
}

// linearDims offers the dimension line at growing distances on both sides, then
// outside of everything. A measure of most of the work belongs outside.
func (o *office) linearDims(d Dim, worth func(cost float64) bool, consider func(placedDim)) {
	u := d.Along.Unit()
	if u == (geom.Vec{}) {
		u = d.B.Sub(d.A).Unit()
	}
	if u == (geom.Vec{}) {
		u = geom.Vec{X: 1}
	}
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 { // read from below or from the right
		u = u.Neg()
	}
	n := u.Left()
	a, b := d.A, d.B
	if b.Sub(a).Dot(u) < 0 {
		a, b = b, a
	}
	rel := b.Sub(a).Dot(n) // a lies at 0, b at rel, along n
	offer := func(h, cost float64) {
		if !worth(cost) {
			return
		}
		for _, q := range linearDim(a, b, u, h, d.Text) {
			q.cost += cost
			consider(q)
		}
	}
	lo, hi := across(o.content, a, n)
	whole := b.Sub(a).Dot(u) > wholeShare*math.Abs(u.X*o.content.W()+u.Y*o.content.H())
	for row := 0; row < dimRows; row++ {
		off := float64(row) * dimStep
		if !whole {
			offer(max(0, rel)+dimFirst+off, dimFirst+off)
			offer(min(0, rel)-dimFirst-off, dimFirst+off+0.5)
		}
		offer(hi+dimFirst+off, dimFirst+off+(hi-max(0, rel))/3)
		offer(lo-dimFirst-off, dimFirst+off+(min(0, rel)-lo)/3+0.5)
	}
}

// wholeShare is the share of the work's size from which a measure is one of the
// whole work.
const wholeShare = 0.7

// across returns how far a box reaches along n, measured from p.
func across(b geom.Box, p geom.Point, n geom.Vec) (lo, hi float64) {
	c := (TextBox{O: b.Min, U: geom.Vec{X: 1}, W: b.W(), Hi: b.H()}).Corners()
	for i, q := range c {
		v := q.Sub(p).Dot(n)
		if i == 0 {
			lo, hi = v, v
		}
		lo, hi = min(lo, v), max(hi, v)
	}
	return lo, hi
}

// linearDim draws the dimension at height h along the normal over a: the figures
// in the middle where they fit, else past either end.
func linearDim(a, b geom.Point, u geom.Vec, h float64, s string) []placedDim {
	n := u.Left()
	p := a.Add(n.Mul(h))
	q := p.Add(u.Mul(b.Sub(a).Dot(u)))
	l, w := p.Dist(q), TextWidth(s, dimText, false)
	base := placedDim{lines: append(extension(a, p), extension(b, q)...)}
	inside := l >= arrowsTurn
	from, to := p, q
	if inside {
		base.arrows = [][2]geom.Point{{p, p.Add(u.Mul(arrowLen))}, {q, q.Add(u.Mul(-arrowLen))}}
	} else {
		from, to = p.Add(u.Mul(-2*arrowLen)), q.Add(u.Mul(2*arrowLen))
		base.arrows = [][2]geom.Point{{p, p.Add(u.Mul(-arrowLen))}, {q, q.Add(u.Mul(arrowLen))}}
	}
	finish := func(from, to geom.Point, at geom.Point, anchor Anchor, cost float64) placedDim {
		r := base
		r.main = geom.Line(from, to)
		r.lines = append(append([]geom.Seg(nil), base.lines...), r.main)
		r.text = Text{S: s, At: at.Add(n.Mul(textAir)), Size: dimText, Angle: u.Angle(), Anchor: anchor}
		r.cost = cost
		return r
	}
	if inside && w <= l-1 || w <= l-0.5 {
		out := []placedDim{finish(from, to, p.Lerp(q, 0.5), Middle, 0)}
		// Beside the middle, where a centre line runs through it.
		for i, shift := range [...]float64{w/2 + 1.5, w/2 + 6, w/2 + 14} {
			for j, sign := range [...]float64{1, -1} {
				if shift+w/2 < l/2-0.5 {
					c := p.Lerp(q, 0.5).Add(u.Mul(sign * shift))
					out = append(out, finish(from, to, c, Middle, 1+float64(i)+0.2*float64(j)))
				}
			}
		}
		return out
	}
	tail := 1.0 // the line runs on under the figures
	if inside {
		tail += 2
	}
	right := to.Add(u.Mul(tail + w))
	left := from.Add(u.Mul(-tail - w))
	return []placedDim{
		finish(from, right, right, End, 3),
		finish(left, to, left, Start, 3.5),
	}
}

// extension returns the extension line from a feature to its dimension line.
func extension(f, d geom.Point) []geom.Seg {
	u := d.Sub(f).Unit()
	if f.Dist(d) < extGap {
		return nil
	}
	return []geom.Seg{geom.Line(f.Add(u.Mul(extGap)), d.Add(u.Mul(extPast)))}
}

// radialDims offers a radius: the arrow at B from inside or from outside, then
// a short level line that carries the figures.
func radialDims(d Dim, consider func(placedDim)) {
	out := d.B.Sub(d.A).Unit()
	w := TextWidth(d.Text, dimText, false)
	for turn := -60; turn <= 60; turn += 15 {
		for _, reach := range [...]float64{7, 10, 14, 19, 25, 32} {
			for _, sign := range [2]float64{1, -1} {
				// The arrow line is radial; the knee lies on a slant from its foot.
				dir := out.Mul(sign)
				foot := d.B.Add(dir.Mul(arrowLen + 1))
				knee := foot.Add(dir.Rotate(geom.Angle(turn) * geom.Degree).Mul(reach - arrowLen))
				for _, side := range [2]float64{1, -1} {
					end := knee.Add(geom.Vec{X: side * (w + 1)})
					t := Text{S: d.Text, At: knee.Add(geom.Vec{X: side * 0.5, Y: textAir}), Size: dimText}
					if side < 0 {
						t.Anchor = End
					}
					cost := reach + math.Abs(float64(turn))/15
					if sign < 0 {
						cost += 4
					}
					if dir.X*side < -1e-9 {
						cost += 6 // doubles back
					}
					consider(placedDim{
						lines:  []geom.Seg{geom.Line(foot, knee), geom.Line(d.B.Add(dir.Mul(0.4)), foot), geom.Line(knee, end)},
						main:   geom.Line(knee, end),
						arrows: [][2]geom.Point{{d.B, d.B.Add(dir.Mul(arrowLen))}},
						text:   t, cost: cost,
					})
				}
			}
		}
	}
}

func (o *office) drawDim(d Dim, p placedDim) {
	title := "dimension: " + d.Text
	for _, s := range p.lines {
		if s.A.Dist(s.B) > geom.Coincident {
			o.line(&o.dims, s, Dimension, title)
		}
	}
	for _, a := range p.arrows {
		o.dims.Shapes = append(o.dims.Shapes, arrow(a[0], a[1]))
		o.ink.addSeg(geom.Line(a[0], a[1]), Dimension)
	}
	o.words(&o.dims, p.text)
}

// arrow returns a filled arrow head.
func arrow(tip, foot geom.Point) Shape {
	n := foot.Sub(tip).Unit().Left().Mul(arrowHalf)
	return Shape{Title: "arrow", Kind: Dimension, Fill: true, Path: geom.Polygon(tip, foot.Add(n), foot.Add(n.Neg()))}
}
