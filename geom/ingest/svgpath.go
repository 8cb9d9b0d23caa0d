package ingest

import (
	"fmt"
	"math"
	"strconv"

	"routwright/geom"
)

// pathData draws SVG path data (SVG 1.1, 8.3; SVG 2, 9.3). The error says at
// which character, from 1.
func pathData(p *pen, d string) error {
	s := pathScanner{d: d, pen: p}
	for s.space(); s.i < len(d) && s.err == nil; s.space() {
		c := d[s.i]
		if !s.seen && c != 'M' && c != 'm' {
			return s.failf("path data must start with M")
		}
		if !isCommand(c) {
			return s.failf("%q is not a path command", rest(d[s.i:]))
		}
		s.i++
		s.seen = true
		s.command(c)
	}
	if s.err == nil {
		p.flush(false)
		if p.err != nil {
			s.failf("%v", p.err)
		}
	}
	return s.err
}

// pathScanner walks path data. at is the current point, from the start of the
// sub-path, ctrl the last control point, all in user units.
type pathScanner struct {
	d              string
	i              int
	pen            *pen
	at, from, ctrl geom.Point
	last           byte // the command before, in capitals
	seen           bool
	err            error
}

func isCommand(c byte) bool {
	switch c {
	case 'M', 'm', 'Z', 'z', 'L', 'l', 'H', 'h', 'V', 'v', 'C', 'c', 'S', 's', 'Q', 'q', 'T', 't', 'A', 'a':
		return true
	}
	return false
}

// command draws one command letter with all its argument groups.
func (s *pathScanner) command(c byte) {
	rel, up := c >= 'a', c&^0x20
	if up == 'Z' {
		s.pen.shut()
		s.at, s.last = s.from, 'Z'
		s.check()
		return
	}
	for first := true; first || s.more(); first = false {
		if s.last == 'Z' && up != 'M' { // goes on from where it closed
			s.pen.move(s.at)
		}
		s.group(up, rel)
		if s.check(); s.err != nil {
			return
		}
		if s.last = up; up == 'M' { // further pairs are lines
			up = 'L'
		}
	}
}

// group draws one argument group of the command up.
func (s *pathScanner) group(up byte, rel bool) {
	o := geom.Vec{}
	if rel {
		o = geom.Vec{X: s.at.X, Y: s.at.Y}
	}
	p0 := s.at
	switch up {
	case 'M':
		s.at = s.point(o)
		s.from = s.at
		s.draw(func() { s.pen.move(s.at) })
	case 'L':
		s.at = s.point(o)
		s.draw(func() { s.pen.line(s.at) })
	case 'H':
		s.at.X = s.number() + o.X
		s.draw(func() { s.pen.line(s.at) })
	case 'V':
		s.at.Y = s.number() + o.Y
		s.draw(func() { s.pen.line(s.at) })
	case 'C', 'S':
		c1 := s.smooth('C', 'S')
		if up == 'C' {
			c1 = s.point(o)
		}
		s.ctrl = s.point(o)
		s.at = s.point(o)
		s.draw(func() { s.pen.cubic(c1, s.ctrl, s.at) })
	case 'Q', 'T':
		c := s.smooth('Q', 'T')
		if up == 'Q' {
			c = s.point(o)
		}
		s.ctrl, s.at = c, s.point(o)
		s.draw(func() { s.pen.quad(p0, c, s.at) })
	case 'A':
		rx, ry, phi := s.number(), s.number(), s.number()
		large, sweep := s.flag(), s.flag()
		s.at = s.point(o)
		s.draw(func() { arcTo(s.pen, p0, s.at, rx, ry, phi, large, sweep) })
	}
}

// smooth returns the mirror image of the last control point, or the current
// point after a command of another kind.
func (s *pathScanner) smooth(a, b byte) geom.Point {
	if s.last == a || s.last == b {
		return s.at.Add(s.at.Sub(s.ctrl))
	}
	return s.at
}

func (s *pathScanner) draw(f func()) {
	if s.err == nil {
		f()
	}
}

func (s *pathScanner) check() {
	if s.err == nil && s.pen.err != nil {
		s.failf("%v", s.pen.err)
	}
}

func (s *pathScanner) space() {
	for s.i < len(s.d) && isSpace(s.d[s.i]) {
		s.i++
	}
}

// separator skips white space with at most one comma in it.
func (s *pathScanner) separator() {
	s.space()
	if s.i < len(s.d) && s.d[s.i] == ',' {
		s.i++
		s.space()
	}
}

// more reports whether another number follows.
func (s *pathScanner) more() bool {
	s.separator()
	return s.i < len(s.d) && numberEnd(s.d, s.i) > s.i
}

func (s *pathScanner) number() float64 {
	s.separator()
	if s.err != nil {
		return 0
	}
	j := numberEnd(s.d, s.i)
	if j == s.i {
		s.failf("a number is missing before %q", rest(s.d[s.i:]))
		return 0
	}
	v, err := strconv.ParseFloat(s.d[s.i:j], 64)
	if err != nil || !isFinite(v) {
		s.failf("number %q is out of range", rest(s.d[s.i:j]))
		return 0
	}
	s.i = j
	return v
}

// flag reads 0 or 1, which need no separator after them: "a1 1 0 01 1 1".
func (s *pathScanner) flag() bool {
	s.separator()
	if s.err != nil {
		return false
	}
	if s.i >= len(s.d) || s.d[s.i] != '0' && s.d[s.i] != '1' {
		s.failf("an arc flag must be 0 or 1, not %q", rest(s.d[s.i:]))
		return false
	}
	s.i++
	return s.d[s.i-1] == '1'
}

func (s *pathScanner) point(o geom.Vec) geom.Point {
	x := s.number()
	return geom.Pt(x+o.X, s.number()+o.Y)
}

func (s *pathScanner) failf(format string, args ...any) error {
	if s.err == nil {
		s.err = fmt.Errorf("path data, character %d: %s", s.i+1, fmt.Sprintf(format, args...))
	}
	return s.err
}

// rest returns the first few characters of s for a message.
func rest(s string) string {
	if s == "" {
		return "the end"
	}
	if r := []rune(s[:min(len(s), 64)]); len(r) > 12 {
		return string(r[:12]) + "…"
	}
	return s
}

// arcTo draws the elliptical arc from p to q. The centre follows from the ends
// by SVG 2, appendix B.2.4; radii too small are scaled up by B.2.5.
func arcTo(pen *pen, p, q geom.Point, rx, ry, degrees float64, large, sweep bool) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if p == q {
		return
	}
	if rx == 0 || ry == 0 {
		pen.line(q)
		return
	}
	phi := geom.Angle(math.Mod(degrees, 360)) * geom.Degree
	h := p.Sub(q).Mul(0.5).Rotate(-phi) // (x1', y1')
	hx, hy := h.X/rx, h.Y/ry            // on the unit circle's plane
	l := hx*hx + hy*hy
	k := 0.0
	if l > 1 {
		rx, ry = rx*math.Sqrt(l), ry*math.Sqrt(l)
		hx, hy = hx/math.Sqrt(l), hy/math.Sqrt(l)
	} else {
		k = math.Sqrt(max(0, (1-l)/l))
	}
	if large == sweep {
		k = -k
	}
	cx, cy := k*hy, -k*hx // the centre, of the unit circle's plane, from the middle
	u, v := geom.Vec{X: rx}.Rotate(phi), geom.Vec{Y: ry}.Rotate(phi)
	c := p.Lerp(q, 0.5).Add(u.Mul(cx)).Add(v.Mul(cy))
	a := geom.Vec{X: hx - cx, Y: hy - cy}
	b := geom.Vec{X: -hx - cx, Y: -hy - cy}
	d := math.Atan2(a.Cross(b), a.Dot(b))
	switch {
	case sweep && d < 0:
		d += 2 * math.Pi
	case !sweep && d > 0:
		d -= 2 * math.Pi
	}
	pen.ellipse(geom.Ellipse{Center: c, U: u, V: v, Start: a.Angle(), Sweep: geom.Angle(d)})
	pen.settle(q)
}
