package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"unicode"

	"routwright/geom"
	"routwright/render"
)

// widest is the widest arc that is written as one A command. SVG gives an arc by
// its ends, so that its centre is lost near half a turn: ends rounded by 5e-5 mm
// would move the middle of a half circle of radius 100 by 0.1 mm. At a third of a
// turn they move it by 1e-4.
const widest = 120.001 * geom.Degree

// path appends p as path data.
func (c *canvas) path(d []byte, p geom.Path) []byte {
	if len(p) == 0 {
		return d
	}
	d = c.point(append(d, 'M'), p[0].A)
	closed := p.Closed()
	for i, s := range p {
		if s.Turn == 0 {
			if i == len(p)-1 && closed {
				break // Z draws it
			}
			d = c.point(append(d, 'L'), s.B)
			continue
		}
		d = c.arc(d, s)
	}
	if closed {
		d = append(d, 'Z')
	}
	return d
}

func (c *canvas) arc(d []byte, s geom.Seg) []byte {
	n := int(math.Ceil(math.Abs(float64(s.Sweep())) / float64(widest)))
	for i := 1; i <= n; i++ {
		d = append(d, 'A')
		d = appendNum(d, s.Radius)
		d = append(d, ' ')
		d = appendNum(d, s.Radius)
		if s.Turn > 0 { // counter-clockwise with +Y up
			d = append(d, " 0 0 0 "...)
		} else {
			d = append(d, " 0 0 1 "...)
		}
		d = c.point(d, s.At(float64(i)/float64(n)))
	}
	return d
}

func (c *canvas) point(d []byte, p geom.Point) []byte {
	d = appendNum(d, p.X-c.ox)
	d = append(d, ' ')
	return appendNum(d, c.oy-p.Y)
}

// circle reports whether p is one whole circle.
func circle(p geom.Path) (o geom.Point, r float64, ok bool) {
	if len(p) == 0 || !p.Closed() {
		return o, 0, false
	}
	for _, s := range p {
		if s.Turn == 0 || s.Turn != p[0].Turn || s.Center.Dist(p[0].Center) > geom.Coincident {
			return o, 0, false
		}
	}
	return p[0].Center, p[0].Radius, true
}

// num writes v with the decimals of SVG, without trailing zeros, never −0.
func num(v float64) string { return string(appendNum(nil, v)) }

func appendNum(d []byte, v float64) []byte {
	from := len(d)
	d = render.AppendFixed(d, zero(v), decimals)
	if bytes.IndexByte(d[from:], '.') >= 0 {
		for d[len(d)-1] == '0' {
			d = d[:len(d)-1]
		}
		if d[len(d)-1] == '.' {
			d = d[:len(d)-1]
		}
	}
	return d
}

// attr writes an attribute, its value escaped: svgo does not escape attributes.
func attr(name, value string) string {
	var b strings.Builder
	b.WriteString(name)
	b.WriteString(`="`)
	_ = xml.EscapeText(&b, []byte(value)) // a Builder reports no error
	b.WriteByte('"')
	return b.String()
}

// clean puts control characters, which XML cannot hold, to spaces. (svgo escapes
// the rest.)
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, s)
}

// id returns name as an id: letters, digits, '-', '_' and '.', the first of
// them a letter or '_', unique in the file; "" stays "".
func (c *canvas) id(name string) string {
	if name == "" {
		return ""
	}
	id := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("-_.", r) {
			return r
		}
		return '-'
	}, name)
	if r := rune(id[0]); r == '-' || r == '.' || r >= '0' && r <= '9' {
		id = "_" + id
	}
	free := id
	for n := 2; c.ids[free]; n++ {
		free = fmt.Sprintf("%s-%d", id, n)
	}
	c.ids[free] = true
	return free
}

// finite returns an error that names the first number that is not finite.
func finite(size geom.Vec, groups ...[]render.Group) error {
	if !(size.X > 0 && size.Y > 0) || math.IsInf(size.X+size.Y, 0) {
		return fmt.Errorf("svg: a sheet of %v × %v mm cannot be written", size.X, size.Y)
	}
	for _, gs := range groups {
		for _, g := range gs {
			for _, s := range g.Shapes {
				for i, seg := range s.Path {
					if !seg.A.IsFinite() || !seg.B.IsFinite() || seg.Turn != 0 && (!seg.Center.IsFinite() || !(seg.Radius > 0)) {
						return fmt.Errorf("svg: line %q (%s): segment %d is not finite", s.ID, s.Title, i)
					}
				}
			}
			for _, t := range g.Texts {
				if !t.At.IsFinite() || !(t.Size > 0) || math.IsInf(t.Size, 0) || math.IsNaN(float64(t.Angle)) || math.IsInf(float64(t.Angle), 0) {
					return fmt.Errorf("svg: text %q: its place is not finite", t.S)
				}
			}
			if err := finite(size, g.Groups); err != nil {
				return err
			}
		}
	}
	return nil
}
