package dxf

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"routwright/geom"
	"routwright/render"
)

// Version of the format.
type Version uint8

const (
	R2000 Version = iota
	R12
)

// Options of a file. The zero Options is R2000 with true arcs and everything.
type Options struct {
	Version Version
	// FlattenMM writes arcs as straight pieces within this distance of them; 0
	// keeps arcs.
	FlattenMM float64
	// CutOnly writes the cut lines alone, for a cutter: no words, no datums, no
	// scale square.
	CutOnly bool
}

// Decimals of the file: with four decimals of bulge an arc of radius 300 over a
// chord of 10 comes back as 301.2 (measured).
const (
	coordDecimals = 6
	bulgeDecimals = 9
)

// least is the shortest segment written, mm: cutters stumble over shorter ones.
const least = 1e-4

// ScaleSquare is the side of the square that checks the scale, mm.
const ScaleSquare = 100

// Write writes d. An error names a number that is not finite, or is the
// writer's own.
func Write(w io.Writer, d render.Drawing, o Options) error {
	f := &file{w: bufio.NewWriter(w), opt: o}
	f.collect(d.Groups)
	if !o.CutOnly {
		f.scaleSquare(d.Bounds)
	}
	if f.err != nil {
		return f.err
	}
	if o.Version == R12 {
		f.r12()
	} else {
		f.r2000()
	}
	if f.err != nil {
		return f.err
	}
	return f.w.Flush()
}

// polyline is an outline as it is written.
type polyline struct {
	layer  string
	kind   render.Kind
	closed bool
	at     []geom.Point
	bulge  []float64 // of the piece from each vertex
}

type text struct {
	layer string
	render.Text
}

type file struct {
	w      *bufio.Writer
	opt    Options
	err    error
	handle int

	lines  []polyline
	texts  []text
	layers []layer
	bounds geom.Box
	seen   map[string]bool
}

type layer struct {
	name string
	kind render.Kind
}

// collect takes the lines and words of groups, in order.
func (f *file) collect(gs []render.Group) {
	for _, g := range gs {
		for _, s := range g.Shapes {
			f.shape(s)
		}
		if !f.opt.CutOnly {
			for _, t := range g.Texts {
				l := f.layer("TEXT", render.Frame)
				f.texts = append(f.texts, text{l, t})
				f.bounds = f.bounds.Extend(t.At)
			}
		}
		f.collect(g.Groups)
	}
}

// kindLayers names the layer of a line that asks for none.
var kindLayers = map[render.Kind]string{
	render.Cut: "CUT", render.Mark: "MARK", render.Centre: "CENTRE", render.Hidden: "HIDDEN",
	render.Dimension: "DIMENSION", render.Hatch: "WASTE", render.Frame: "FRAME",
}

func (f *file) shape(s render.Shape) {
	if f.opt.CutOnly && s.Kind != render.Cut || len(s.Path) == 0 {
		return
	}
	name := string(s.Layer)
	if name == "" {
		name = kindLayers[s.Kind]
	}
	p := polyline{kind: s.Kind, closed: s.Path.Closed()}
	if f.opt.FlattenMM > 0 {
		p.at = s.Path.Flatten(f.opt.FlattenMM)
		p.bulge = make([]float64, len(p.at))
	} else {
		for _, e := range s.Path {
			p.at, p.bulge = append(p.at, e.A), append(p.bulge, e.Bulge())
		}
		if !p.closed {
			p.at, p.bulge = append(p.at, s.Path[len(s.Path)-1].B), append(p.bulge, 0)
		}
	}
	p.dropShort()
	if len(p.at) < 2 {
		return
	}
	key := fmt.Sprint(p.closed)
	for i, v := range p.at {
		if !v.IsFinite() || math.IsNaN(p.bulge[i]) || math.IsInf(p.bulge[i], 0) {
			f.err = fmt.Errorf("line %q: a coordinate is not a finite number", s.ID)
			return
		}
		key += coord(v.X) + "," + coord(v.Y) + "," + number(p.bulge[i], bulgeDecimals) + ";"
	}
	if f.seen == nil {
		f.seen = map[string]bool{}
	}
	if f.seen[name+key] { // the same line twice would be cut twice
		return
	}
	f.seen[name+key] = true
	p.layer = f.layer(name, s.Kind)
	f.lines = append(f.lines, p)
	f.bounds = f.bounds.Union(s.Path.Bounds())
}

// dropShort leaves out vertices nearer than least to the one before.
func (p *polyline) dropShort() {
	at, bulge := p.at[:0:0], p.bulge[:0:0]
	for i, v := range p.at {
		if n := len(at); n > 0 && v.Dist(at[n-1]) < least {
			bulge[n-1] = p.bulge[i]
			continue
		}
		at, bulge = append(at, v), append(bulge, p.bulge[i])
	}
	if n := len(at); p.closed && n > 1 && at[n-1].Dist(at[0]) < least {
		at, bulge = at[:n-1], bulge[:n-1]
	}
	p.at, p.bulge = at, bulge
}

// layer returns a layer's name as the format allows it, and keeps it.
func (f *file) layer(name string, k render.Kind) string {
	name = LayerName(name)
	for _, l := range f.layers {
		if l.name == name {
			return name
		}
	}
	f.layers = append(f.layers, layer{name, k})
	return name
}

// LayerName returns s in the letters that every version allows: A–Z, 0–9, $, _
// and -, at most 31 of them.
func LayerName(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '$', r == '_', r == '-':
			return r
		}
		return '_'
	}, s)
	if len(s) > 31 {
		s = s[:31]
	}
	if s == "" {
		s = "0"
	}
	return s
}

// scaleSquare adds the square that checks the scale, left of the drawing.
func (f *file) scaleSquare(b geom.Box) {
	b = b.Union(f.bounds)
	const beside = 20 // mm clear of the drawing
	c := geom.Pt(b.Min.X-beside-ScaleSquare/2, b.Min.Y+ScaleSquare/2)
	f.shape(render.Shape{ID: "scale-check", Path: geom.Rect(c, ScaleSquare, ScaleSquare), Kind: render.Frame, Layer: "SCALE_CHECK"})
	f.texts = append(f.texts, text{f.layer("SCALE_CHECK", render.Frame), render.Text{
		S: "100 x 100 mm: measure this square first", At: geom.Pt(c.X-ScaleSquare/2+5, c.Y), Size: 4,
	}})
}

// Escape returns s for a text: control characters left out, everything beyond
// ASCII as \U+XXXX, % doubled where it would start a code.
func Escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case r == '\\':
			b.WriteString(`\U+005C`)
		case r < 0x7f:
			b.WriteRune(r)
		case r > 0xffff: // the format holds four digits
			r -= 0x10000
			fmt.Fprintf(&b, `\U+%04X\U+%04X`, 0xd800+(r>>10), 0xdc00+(r&0x3ff))
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	return strings.ReplaceAll(b.String(), "%%", "% %")
}

func coord(v float64) string { return number(v, coordDecimals) }

func number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return "0.0"
	}
	return s
}

// put writes pairs of group code and value.
func (f *file) put(pairs ...any) {
	for i := 0; i+1 < len(pairs); i += 2 {
		v := pairs[i+1]
		switch x := v.(type) {
		case float64:
			v = coord(x)
		case handle:
			v = strings.ToUpper(strconv.FormatInt(int64(x), 16))
		}
		if _, err := fmt.Fprintf(f.w, "%3d\n%v\n", pairs[i], v); err != nil && f.err == nil {
			f.err = err
		}
	}
}

// handle is an object's number in the file, written in hexadecimal.
type handle int

func (f *file) next() handle { f.handle++; return handle(f.handle) }
