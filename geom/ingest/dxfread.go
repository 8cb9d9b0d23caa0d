package ingest

import (
	"math"
	"strconv"
	"strings"

	"routwright/geom"
)

// pair is one group of a DXF: a code and a value, on two lines.
type pair struct {
	code int
	s    string
	line int // of the value
}

// pairs walks the groups of an ASCII DXF.
type pairs struct {
	at   Pos
	text string
	line int
	held *pair // put back
}

// next returns the next group, ok false at the end of the text.
func (p *pairs) next() (g pair, ok bool, err error) {
	if p.held != nil {
		g, p.held = *p.held, nil
		return g, true, nil
	}
	code, ok := p.textLine()
	for ok && strings.TrimSpace(code) == "" && strings.TrimSpace(p.text) == "" {
		return g, false, nil // blank lines at the end
	}
	if !ok {
		return g, false, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(code))
	if err != nil || n < -10 || n > 1100 {
		return g, false, Pos{File: p.at.File, Line: p.line}.errorf("a group code is expected here, a whole number, not %q: the file is not a sound ASCII DXF", rest(strings.TrimSpace(code)))
	}
	value, ok := p.textLine()
	if !ok {
		return g, false, Pos{File: p.at.File, Line: p.line}.errorf("the file ends after a group code: it was cut off; save it again")
	}
	return pair{n, value, p.line}, true, nil
}

// textLine takes a line ended by LF, CR LF or CR.
func (p *pairs) textLine() (string, bool) {
	if p.text == "" {
		return "", false
	}
	p.line++
	i := strings.IndexAny(p.text, "\r\n")
	if i < 0 {
		s := p.text
		p.text = ""
		return s, true
	}
	s := p.text[:i]
	if strings.HasPrefix(p.text[i:], "\r\n") {
		i++
	}
	p.text = p.text[i+1:]
	return s, true
}

// entityDXF is one entity with its groups, and for a POLYLINE its vertices.
type entityDXF struct {
	kind string
	line int
	g    []pair
	sub  []entityDXF
}

// entity reads the groups up to the next code 0.
func (p *pairs) entity(start pair) (e entityDXF, err error) {
	e = entityDXF{kind: strings.ToUpper(strings.TrimSpace(start.s)), line: start.line}
	for {
		g, ok, err := p.next()
		if err != nil || !ok {
			return e, err
		}
		if g.code == 0 {
			p.held = &g
			break
		}
		if g.code < 1000 { // 1000 and above are notes of other programs
			e.g = append(e.g, g)
		}
	}
	if e.kind != "POLYLINE" {
		return e, nil
	}
	for {
		g, ok, err := p.next()
		if err != nil || !ok {
			return e, err
		}
		v, err := p.entity(g)
		if err != nil {
			return e, err
		}
		switch v.kind {
		case "VERTEX":
			e.sub = append(e.sub, v)
		case "SEQEND":
			return e, nil
		default:
			return e, Pos{File: p.at.File, Line: g.line}.errorf("the POLYLINE of line %d is not ended by SEQEND but by %s", e.line, v.kind)
		}
	}
}

// values reads the numbers of an entity and keeps the first error.
type values struct {
	e    *entityDXF
	file string
	err  error
}

func (v *values) failf(line int, format string, args ...any) {
	if v.err == nil {
		v.err = Pos{File: v.file, Line: line}.errorf(format, args...)
	}
}

// parse reads the number of one group.
func (v *values) parse(g pair) float64 {
	x, ok := decimal(strings.TrimSpace(g.s))
	if !ok {
		v.failf(g.line, "%s, group %d: %q is not a finite number", v.e.kind, g.code, rest(strings.TrimSpace(g.s)))
		return 0
	}
	return x
}

// num returns the number of the first group of the code, or def.
func (v *values) num(code int, def float64) float64 {
	for _, g := range v.e.g {
		if g.code == code {
			return v.parse(g)
		}
	}
	return def
}

// must is num for a group that the entity cannot do without.
func (v *values) must(code int) float64 {
	if !v.e.has(code) {
		v.failf(v.e.line, "%s without group %d", v.e.kind, code)
	}
	return v.num(code, 0)
}

// flags returns the whole number of a group, 0 if it is missing.
func (v *values) flags(code int) int {
	x := v.num(code, 0)
	if math.Abs(x) > 1<<30 {
		return 0
	}
	return int(x)
}

func (v *values) point(code int) geom.Point { return geom.Pt(v.must(code), v.must(code+10)) }

// points returns all points of the code, each x with the y that follows it.
func (v *values) points(code int) (ps []geom.Point) {
	for _, g := range v.e.g {
		switch {
		case g.code == code:
			ps = append(ps, geom.Point{X: v.parse(g), Y: math.NaN()})
		case g.code == code+10 && len(ps) > 0:
			ps[len(ps)-1].Y = v.parse(g)
		}
	}
	for _, p := range ps {
		if math.IsNaN(p.Y) {
			v.failf(v.e.line, "%s: a point has x but no y", v.e.kind)
			return nil
		}
	}
	return ps
}

func (v *values) all(code int) (xs []float64) {
	for _, g := range v.e.g {
		if g.code == code {
			xs = append(xs, v.parse(g))
		}
	}
	return xs
}

func (e *entityDXF) has(code int) bool {
	for _, g := range e.g {
		if g.code == code {
			return true
		}
	}
	return false
}

// text returns the text of the first group of the code.
func (e *entityDXF) text(code int) string {
	for _, g := range e.g {
		if g.code == code {
			return dxfText(g.s)
		}
	}
	return ""
}

// dxfText decodes \U+XXXX, as DXF writes letters outside its code page.
func dxfText(s string) string {
	s = latin1(strings.TrimSpace(s))
	if !strings.Contains(s, `\U+`) {
		return s
	}
	var b strings.Builder
	for {
		before, after, ok := strings.Cut(s, `\U+`)
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		n, err := strconv.ParseUint(after[:min(4, len(after))], 16, 32)
		if err != nil || len(after) < 4 {
			b.WriteString(`\U+`)
			s = after
			continue
		}
		b.WriteRune(rune(n))
		s = after[4:]
	}
}
