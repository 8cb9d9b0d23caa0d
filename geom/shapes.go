package geom

// Polygon returns the closed path through the points in order.
func Polygon(ps ...Point) Path {
	p := make(Path, len(ps))
	for i := range ps {
		p[i] = Line(ps[i], ps[(i+1)%len(ps)])
	}
	return p
}

// Polyline returns the open path through the points in order.
func Polyline(ps ...Point) Path {
	var p Path
	for i := 1; i < len(ps); i++ {
		p = append(p, Line(ps[i-1], ps[i]))
	}
	return p
}

// Rect returns the counter-clockwise rectangle w × h mm centred on c.
func Rect(c Point, w, h float64) Path {
	x, y := w/2, h/2
	return Polygon(Pt(c.X-x, c.Y-y), Pt(c.X+x, c.Y-y), Pt(c.X+x, c.Y+y), Pt(c.X-x, c.Y+y))
}

// RoundedRect returns the counter-clockwise rectangle w × h mm centred on c with
// corners of radius r, taken down to half the shorter side.
func RoundedRect(c Point, w, h, r float64) Path {
	x, y := w/2, h/2
	r = min(r, min(x, y))
	if r <= 0 {
		return Rect(c, w, h)
	}
	corner := [4]Point{{c.X + x - r, c.Y - y + r}, {c.X + x - r, c.Y + y - r}, {c.X - x + r, c.Y + y - r}, {c.X - x + r, c.Y - y + r}}
	out := [5]Vec{{0, -1}, {1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	var p Path
	for i, o := range corner {
		a, b := o.Add(out[i].Mul(r)), o.Add(out[i+1].Mul(r))
		if n := len(p); n > 0 && p[n-1].B.Dist(a) > Coincident {
			p = append(p, Line(p[n-1].B, a))
		} else if n > 0 {
			a = p[n-1].B
		}
		p = append(p, Seg{A: a, B: b, Center: o, Radius: r, Turn: 1})
	}
	if last := p[len(p)-1].B; last.Dist(p[0].A) > Coincident {
		p = append(p, Line(last, p[0].A))
	} else {
		p[len(p)-1].B = p[0].A
	}
	return p
}

// Circle returns the counter-clockwise circle about c, as two half circles.
func Circle(c Point, r float64) Path {
	a, b := Pt(c.X-r, c.Y), Pt(c.X+r, c.Y)
	return Path{{A: a, B: b, Center: c, Radius: r, Turn: 1}, {A: b, B: a, Center: c, Radius: r, Turn: 1}}
}

// Stadium returns the counter-clockwise slot of radius r round the line a–b.
func Stadium(a, b Point, r float64) Path {
	if a.Dist(b) < Coincident {
		return Circle(a, r)
	}
	n := b.Sub(a).Unit().Left().Mul(r)
	p, q, s, t := a.Add(n.Neg()), b.Add(n.Neg()), b.Add(n), a.Add(n)
	return Path{
		Line(p, q), {A: q, B: s, Center: b, Radius: r, Turn: 1},
		Line(s, t), {A: t, B: p, Center: a, Radius: r, Turn: 1},
	}
}
