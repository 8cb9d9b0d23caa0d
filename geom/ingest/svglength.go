package ingest

import (
	"math"
	"strconv"
	"strings"

	"routwright/geom"
)

// pxPerUnit are the CSS pixels in each absolute unit (CSS Values and Units 3,
// 5.2): 96 to the inch.
var pxPerUnit = map[string]float64{
	"": 1, "px": 1, "in": 96, "mm": 96 / 25.4, "cm": 960 / 25.4, "q": 96 / 101.6, "pt": 96. / 72, "pc": 16,
}

const mmPerPx = 25.4 / 96

// length reads an SVG length in user units; a percentage is of whole.
func length(s string, whole float64) (v float64, unit string, ok bool) {
	s = strings.TrimSpace(s)
	i := numberEnd(s, 0)
	if i == 0 {
		return 0, "", false
	}
	v, err := strconv.ParseFloat(s[:i], 64)
	if err != nil || !isFinite(v) {
		return 0, "", false
	}
	unit = strings.ToLower(strings.TrimSpace(s[i:]))
	if unit == "%" {
		return v / 100 * whole, unit, true
	}
	k, ok := pxPerUnit[unit]
	return v * k, unit, ok
}

// numberEnd returns where the number of SVG's grammar that starts at s[i] ends,
// i when there is none. The grammar takes no "inf", "nan", hexadecimals or
// underscores, which strconv would.
func numberEnd(s string, i int) int {
	start := i
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	digits := 0
	for ; i < len(s) && isDigit(s[i]); i++ {
		digits++
	}
	if i < len(s) && s[i] == '.' {
		for i++; i < len(s) && isDigit(s[i]); i++ {
			digits++
		}
	}
	if digits == 0 {
		return start
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '+' || s[j] == '-') {
			j++
		}
		// "2em" and "3ex" are a number and a unit.
		if j < len(s) && isDigit(s[j]) {
			for i = j; i < len(s) && isDigit(s[i]); i++ {
			}
		}
	}
	return i
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// numbers reads a list of numbers parted by white space, commas or nothing but
// a sign.
func numbers(s string) (v []float64, ok bool) {
	for i := skipSeparator(s, 0); i < len(s); i = skipSeparator(s, i) {
		j := numberEnd(s, i)
		if j == i {
			return v, false
		}
		x, err := strconv.ParseFloat(s[i:j], 64)
		if err != nil || !isFinite(x) {
			return v, false
		}
		v = append(v, x)
		i = j
	}
	return v, true
}

func skipSeparator(s string, i int) int {
	for i < len(s) && (isSpace(s[i]) || s[i] == ',') {
		i++
	}
	return i
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' }

// viewport is the size, in user units, that percentages refer to.
type viewport struct{ w, h float64 }

// diagonal is what a percentage of neither width nor height refers to (SVG 1.1,
// 7.10).
func (v viewport) diagonal() float64 { return math.Sqrt((v.w*v.w + v.h*v.h) / 2) }

// viewBox returns the map from the user units of a viewBox to a viewport of the
// size w × h, by preserveAspectRatio (SVG 1.1, 7.8).
func (n *node) viewBox(w, h float64) (m geom.Affine, inner viewport, err error) {
	s, has := n.attr["viewBox"]
	if !has || strings.TrimSpace(s) == "none" {
		return geom.Identity, viewport{w, h}, nil
	}
	v, ok := numbers(s)
	if !ok || len(v) != 4 || !(v[2] > 0) || !(v[3] > 0) {
		return m, inner, n.at.errorf("viewBox is %q, must be four numbers: left, top, width and height, the last two above 0", s)
	}
	sx, sy := w/v[2], h/v[3]
	align, slice := "xMidYMid", false
	f := strings.Fields(strings.TrimPrefix(strings.TrimSpace(n.attr["preserveAspectRatio"]), "defer"))
	if len(f) > 0 {
		align = f[0]
		slice = len(f) > 1 && f[1] == "slice"
	}
	if align == "none" {
		return compose(stretch(sx, sy), shift(-v[0], -v[1])), viewport{v[2], v[3]}, nil
	}
	k := min(sx, sy)
	if slice {
		k = max(sx, sy)
	}
	part := map[string]float64{"Min": 0, "Mid": 0.5, "Max": 1}
	if len(align) != 8 || align[0] != 'x' || align[4] != 'Y' {
		return m, inner, n.at.errorf("preserveAspectRatio is %q, must be none or such as xMidYMid", align)
	}
	px, okx := part[align[1:4]]
	py, oky := part[align[5:8]]
	if !okx || !oky {
		return m, inner, n.at.errorf("preserveAspectRatio is %q, must be none or such as xMidYMid", align)
	}
	m = compose(shift((w-k*v[2])*px, (h-k*v[3])*py), stretch(k, k), shift(-v[0], -v[1]))
	return m, viewport{v[2], v[3]}, nil
}

// transform reads the transform attribute (SVG 1.1, 7.6).
func (n *node) transform() (geom.Affine, error) {
	m := geom.Identity
	if css := n.cssOnly("transform"); css != "" && css != "none" {
		return m, n.at.errorf("<%s> is moved by a CSS transform (%q), which is not read: save the drawing as plain SVG", n.name, css)
	}
	s := strings.TrimSpace(n.attr["transform"])
	bad := func(what string) (geom.Affine, error) {
		return m, n.at.errorf("transform %q: %s", n.attr["transform"], what)
	}
	for s != "" && s != "none" {
		name, rest, ok := strings.Cut(s, "(")
		if !ok {
			return bad("must be such as \"translate(10 20) rotate(30)\"")
		}
		args, rest, ok := strings.Cut(rest, ")")
		if !ok {
			return bad("a closing bracket is missing")
		}
		v, ok := numbers(args)
		if !ok {
			return bad("takes plain finite numbers only")
		}
		step, ok := transformStep(strings.Trim(name, " \t\r\n,"), v)
		if !ok {
			return bad("translate takes 1 or 2 numbers, scale 1 or 2, rotate 1 or 3, skewX and skewY 1, matrix 6")
		}
		m = compose(m, step)
		s = strings.Trim(rest, " \t\r\n,")
	}
	if o := strings.TrimSpace(n.style("transform-origin")); o != "" && m != geom.Identity {
		f := strings.Fields(o)
		x, ux, okx := length(f[0], 0)
		y, uy, oky := x, ux, len(f) > 1
		if oky {
			y, uy, oky = length(f[1], 0)
		}
		if !okx || !oky || ux == "%" || uy == "%" {
			return m, n.at.errorf("transform-origin %q is not read: save the drawing as plain SVG", o)
		}
		m = compose(shift(x, y), m, shift(-x, -y))
	}
	return m, nil
}

func transformStep(name string, v []float64) (geom.Affine, bool) {
	angle := func(d float64) geom.Angle { return geom.Angle(d) * geom.Degree }
	switch {
	case name == "matrix" && len(v) == 6:
		return geom.Affine(v), true
	case name == "translate" && len(v) == 1:
		return shift(v[0], 0), true
	case name == "translate" && len(v) == 2:
		return shift(v[0], v[1]), true
	case name == "scale" && len(v) == 1:
		return stretch(v[0], v[0]), true
	case name == "scale" && len(v) == 2:
		return stretch(v[0], v[1]), true
	case name == "rotate" && len(v) == 1:
		return turn(angle(v[0])), true
	case name == "rotate" && len(v) == 3:
		return compose(shift(v[1], v[2]), turn(angle(v[0])), shift(-v[1], -v[2])), true
	case name == "skewX" && len(v) == 1:
		return geom.Affine{1, 0, math.Tan(float64(angle(v[0]))), 1, 0, 0}, true
	case name == "skewY" && len(v) == 1:
		return geom.Affine{1, math.Tan(float64(angle(v[0]))), 0, 1, 0, 0}, true
	}
	return geom.Affine{}, false
}
