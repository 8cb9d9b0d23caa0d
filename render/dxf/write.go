package dxf

import (
	"bufio"
	"fmt"
	"io"
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
	// FlattenMM writes arcs and circles as straight pieces within this distance
	// of them; 0 keeps arcs.
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

// ScaleSquare is the side of the square that checks the scale, mm.
const ScaleSquare = 100

// scaleLayer holds the square that checks the scale.
const scaleLayer = "SCALE_CHECK"

// Write writes d. An error names a number that is not finite, or is the
// writer's own; nothing is written before the whole drawing was looked at.
func Write(w io.Writer, d render.Drawing, o Options) error {
	if !(o.FlattenMM >= 0) {
		return fmt.Errorf("flatten arcs within %g mm: 0 or more is possible", o.FlattenMM)
	}
	f := &file{w: bufio.NewWriterSize(w, 1<<16), opt: o, seen: map[string]bool{}}
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
	return f.w.Flush()
}

type file struct {
	w      *bufio.Writer // keeps the first error for Flush
	opt    Options
	err    error
	handle handle
	buf    []byte

	outlines []outline
	texts    []text
	layers   []layer
	bounds   geom.Box
	seen     map[string]bool // outlines by layer and geometry
}

// collect takes the lines and words of groups, in order.
func (f *file) collect(gs []render.Group) {
	for _, g := range gs {
		for _, s := range g.Shapes {
			f.shape(s)
		}
		if !f.opt.CutOnly {
			for _, t := range g.Texts {
				f.text(t, textLayer)
			}
		}
		f.collect(g.Groups)
	}
}

// shape takes one line, unless its layer holds the same one already: the same
// line twice would be cut twice. (Two layers are two operations, and may share
// a line.)
func (f *file) shape(s render.Shape) {
	if f.opt.CutOnly && !forCutter(s) || len(s.Path) == 0 || f.err != nil {
		return
	}
	o, err := newOutline(s, f.opt.FlattenMM)
	if err != nil {
		f.err = err
		return
	}
	if !o.circle && len(o.at) < 2 {
		return // all of it shorter than a cutter can follow
	}
	name := string(s.Layer)
	if name == "" {
		name = kindLayer(s.Kind)
	}
	o.layer = f.layer(name, s.Kind)
	if key := o.layer + " " + o.key(); !f.seen[key] {
		f.seen[key] = true
		f.outlines = append(f.outlines, o)
		f.bounds = f.bounds.Union(s.Path.Bounds())
	}
}

// forCutter reports whether s is a line to be cut, or one that a cutter is led
// along.
func forCutter(s render.Shape) bool {
	return (s.Kind == render.Cut || s.Led) && s.Layer != render.LegendLayer
}

// scaleSquare adds the square that checks the scale, left of the drawing.
func (f *file) scaleSquare(b geom.Box) {
	b = b.Union(f.bounds)
	const beside = 20 // mm clear of the drawing
	c := geom.Pt(b.Min.X-beside-ScaleSquare/2, b.Min.Y+ScaleSquare/2)
	f.shape(render.Shape{ID: "scale-check", Path: geom.Rect(c, ScaleSquare, ScaleSquare), Kind: render.Frame, Layer: scaleLayer})
	const size = 3.5
	// In plain letters: not every reader knows the codes of others.
	for i, s := range [2]string{"100 x 100 mm:", "measure this square first"} {
		f.text(render.Text{S: s, At: geom.Pt(c.X, c.Y-float64(i)*2*size), Size: size, Anchor: render.Middle}, scaleLayer)
	}
}

// number is a value with decimals of its own.
type number struct {
	v        float64
	decimals int
}

// append prints a number, never as −0. Readers of whole numbers are content
// with "0.0".
func (n number) append(b []byte) []byte {
	at := len(b)
	b = render.AppendFixed(b, n.v, n.decimals)
	for _, c := range b[at:] {
		if c > '0' && c <= '9' {
			return b
		}
	}
	return append(b[:at], "0.0"...)
}

// put writes pairs of group code and value: two lines each, the code in three
// columns as the format's own programs write it.
func (f *file) put(pairs ...any) {
	b := f.buf[:0]
	for i := 0; i+1 < len(pairs); i += 2 {
		code, _ := pairs[i].(int)
		if code < 100 {
			b = append(b, ' ')
		}
		if code < 10 {
			b = append(b, ' ')
		}
		b = append(strconv.AppendInt(b, int64(code), 10), '\n')
		switch v := pairs[i+1].(type) {
		case float64:
			b = number{v, coordDecimals}.append(b)
		case number:
			b = v.append(b)
		case handle:
			b = append(b, strings.ToUpper(strconv.FormatInt(int64(v), 16))...)
		case int:
			b = strconv.AppendInt(b, int64(v), 10)
		case string:
			b = append(b, v...)
		}
		b = append(b, '\n')
	}
	f.w.Write(b) // Flush returns the error
	f.buf = b
}

// handle is an object's number in the file, written in hexadecimal.
type handle int

func (f *file) next() handle { f.handle++; return f.handle }
