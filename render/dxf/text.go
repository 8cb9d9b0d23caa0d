package dxf

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"routwright/geom"
	"routwright/render"
)

// textLayer holds the words. No line type is dashed there: dashes eat letters.
const textLayer = "TEXT"

// text is one line of words: from start to end, whatever letters a reader has.
type text struct {
	layer      string
	s          string // escaped
	start, end geom.Point
	size       float64
	angle      geom.Angle
}

// text takes a line of words.
func (f *file) text(t render.Text, on string) {
	s := Escape(t.S, f.textLimit())
	if s == "" || f.err != nil {
		return
	}
	if !t.At.IsFinite() || !(t.Size > 0) || math.IsInf(t.Size, 0) || math.IsNaN(float64(t.Angle)) || math.IsInf(float64(t.Angle), 0) {
		f.err = fmt.Errorf("text %q: its place, height or angle is not a finite number above 0", t.S)
		return
	}
	shown, _ := render.Written(t.S)
	w := render.TextWidth(shown, t.Size, t.Bold)
	u := t.Angle.Unit()
	start := t.At
	switch t.Anchor {
	case render.Middle:
		start = t.At.Add(u.Mul(-w / 2))
	case render.End:
		start = t.At.Add(u.Mul(-w))
	}
	x := text{layer: f.layer(on, render.Frame), s: s, start: start, end: start.Add(u.Mul(w)), size: t.Size, angle: t.Angle}
	f.texts = append(f.texts, x)
	up := u.Left().Mul(t.Size)
	f.bounds = f.bounds.Union(geom.BoxOf(x.start, x.end, x.start.Add(up), x.end.Add(up)))
}

// textBody writes the text as "fit": between two points, its letters as narrow
// or wide as that takes. A reader with other letters than ours then cannot run
// words into one another.
func (f *file) textBody(t text) {
	f.put(10, t.start.X, 20, t.start.Y, 30, 0.0, 40, t.size, 1, t.s)
	if t.angle != 0 {
		f.put(50, t.angle.Degrees())
	}
	f.put(7, "STANDARD", 72, 5, 11, t.end.X, 21, t.end.Y, 31, 0.0)
}

// textLimit is the longest string of the version, bytes (DXF reference, "Group
// codes": 255 characters, from R2000 on 2049).
func (f *file) textLimit() int {
	if f.opt.Version == R12 {
		return 255
	}
	return 2049
}

// Escape returns s for a text of at most limit bytes: every letter beyond ASCII
// as \U+XXXX, likewise \ and ^, which start codes; control characters and other
// breaks of a line as spaces. A longer text ends in "...".
func Escape(s string, limit int) string {
	var b strings.Builder
	const more = "..."
	cut := 0 // length at which "..." still fits
	for _, r := range s {
		e := escaped(r)
		if b.Len()+len(e) > limit {
			return b.String()[:cut] + more
		}
		if r == '%' && strings.HasSuffix(b.String(), "%") {
			e = " %" // %%d is a code
		}
		b.WriteString(e)
		if b.Len()+len(more) <= limit {
			cut = b.Len()
		}
	}
	return strings.TrimRight(b.String(), " ")
}

func escaped(r rune) string {
	switch {
	case unicode.IsControl(r), unicode.IsSpace(r):
		return " "
	case r == '\\', r == '^':
		return fmt.Sprintf(`\U+%04X`, r)
	case r < 0x7f:
		return string(r)
	case r > 0xffff: // the format holds four digits: UTF-16
		r -= 0x10000
		return fmt.Sprintf(`\U+%04X\U+%04X`, 0xd800+(r>>10), 0xdc00+(r&0x3ff))
	}
	return fmt.Sprintf(`\U+%04X`, r)
}
