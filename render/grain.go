package render

import "routwright/geom"

const (
	grainLen  = 34.0 // mm
	grainHigh = 2 * labelText
	grainWord = "grain"
)

// placeGrain draws a double arrow along the grain where there is room for it:
// over the work from its lower corner, else beside it.
func (o *office) placeGrain(dir geom.Vec) {
	u := dir.Unit()
	if u == (geom.Vec{}) {
		return
	}
	if u.X < -1e-9 || u.X <= 1e-9 && u.Y < 0 { // read from below or from the right
		u = u.Neg()
	}
	const air = 3.0
	at := func(c geom.Point) TextBox {
		return TextBox{O: c.Add(u.Mul(-grainLen / 2)), U: u, W: grainLen, Lo: -1, Hi: grainHigh}
	}
	work := o.content
	const step = 7.0
	for y := work.Min.Y; y <= work.Max.Y; y += step {
		for x := work.Max.X; x >= work.Min.X; x -= step {
			if b := at(geom.Pt(x, y)); work.Holds(b.Bounds()) && o.ink.clear(b.Grow(air)) {
				o.drawGrain(geom.Pt(x, y), u, b)
				return
			}
		}
	}
	side := at(geom.Point{}).Bounds()
	for x := work.Max.X + side.W()/2 + air; ; x += step {
		c := geom.Pt(x, work.Min.Y+side.H()/2)
		if b := at(c); o.ink.clear(b.Grow(air)) {
			o.drawGrain(c, u, b)
			return
		}
	}
}

func (o *office) drawGrain(c geom.Point, u geom.Vec, b TextBox) {
	a, z := c.Add(u.Mul(-grainLen/2)), c.Add(u.Mul(grainLen/2))
	title := "direction of the grain"
	o.line(&o.labels, geom.Line(a, z), Dimension, title)
	for _, h := range [...]Shape{arrow(a, a.Add(u.Mul(1.5*arrowLen))), arrow(z, z.Add(u.Mul(-1.5*arrowLen)))} {
		h.Title = title
		o.labels.Shapes = append(o.labels.Shapes, h)
	}
	o.words(&o.labels, Text{S: grainWord, At: c.Add(u.Left().Mul(textAir)), Size: labelText, Angle: u.Angle(), Anchor: Middle})
	o.ink.addWord(b) // hatching keeps off
}
