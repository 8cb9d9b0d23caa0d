package record

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"routwright/geom"
)

// path is a path as it stands in a record: a list of segments, each a list of
// numbers.
//
//	[x, y]                          straight line on to there
//	[x, y, cx, cy, r, turn]         arc on to there about (cx, cy), turn 1 or −1
//
// The first segment of a path, and one that does not start where the one before it
// ends, has its start before that: [x0, y0, x, y] or [x0, y0, x, y, cx, cy, r, turn].
type path geom.Path

// farthest bounds every number of a record, mm: far more than any guitar or sheet
// of stock measures.
const farthest = 1e5

// MarshalJSON writes the shortest digits that read back to the same bits.
func (p path) MarshalJSON() ([]byte, error) {
	b := make([]byte, 0, 48*len(p)+2)
	b = append(b, '[')
	for i, s := range p {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, '[')
		n := 0
		put := func(vs ...float64) error {
			for _, v := range vs {
				if !(math.Abs(v) <= farthest) {
					return fmt.Errorf("segment %d of a path: %g is no place on a sheet", i+1, v)
				}
				if n > 0 {
					b = append(b, ',')
				}
				n++
				b = strconv.AppendFloat(b, v, 'g', -1, 64)
			}
			return nil
		}
		var err error
		if i == 0 || !same(p[i-1].B, s.A) {
			err = put(s.A.X, s.A.Y)
		}
		if err == nil {
			err = put(s.B.X, s.B.Y)
		}
		if err == nil && s.Turn != 0 {
			err = put(s.Center.X, s.Center.Y, s.Radius, float64(s.Turn))
		}
		if err != nil {
			return nil, err
		}
		b = append(b, ']')
	}
	return append(b, ']'), nil
}

// same reports whether two points are one bit for bit, zeros with their signs.
func same(p, q geom.Point) bool {
	return math.Float64bits(p.X) == math.Float64bits(q.X) && math.Float64bits(p.Y) == math.Float64bits(q.Y)
}

// UnmarshalJSON reads a path. Whether it is a sound outline is asked of those that
// are worked with.
func (p *path) UnmarshalJSON(text []byte) error {
	out := make(path, 0, bytes.Count(text, []byte("["))) // one of them is the path's own
	l := listReader{text: text}
	l.open()
	var row [8]float64
	for i := 0; l.more(i > 0); i++ {
		r := row[:0]
		l.open()
		for n := 0; l.more(n > 0); n++ {
			v := l.number()
			if !(math.Abs(v) <= farthest) {
				return fmt.Errorf("segment %d of a path: %g is no place on a sheet", i+1, v)
			}
			r = append(r, v)
		}
		if l.bad {
			break
		}
		var s geom.Seg
		switch len(r) {
		case 4, 8:
			s.A, r = geom.Pt(r[0], r[1]), r[2:]
		case 2, 6:
			if i == 0 {
				return fmt.Errorf("segment 1 of a path starts nowhere")
			}
			s.A = out[i-1].B
		default:
			return fmt.Errorf("segment %d of a path has %d numbers, not 2, 4, 6 or 8", i+1, len(r))
		}
		s.B = geom.Pt(r[0], r[1])
		if len(r) == 6 {
			s.Center, s.Radius = geom.Pt(r[2], r[3]), r[4]
			if !(s.Radius > 0) {
				return fmt.Errorf("segment %d of a path is an arc of radius %g", i+1, s.Radius)
			}
			if s.Turn = int8(r[5]); s.Turn != 1 && s.Turn != -1 || float64(s.Turn) != r[5] {
				return fmt.Errorf("segment %d of a path turns by %g, not 1 or -1", i+1, r[5])
			}
		}
		out = append(out, s)
	}
	if l.bad {
		return fmt.Errorf("a path that is no list of lists of numbers, near %.20q", text[min(l.at, len(text)):])
	}
	if len(out) == 0 {
		return fmt.Errorf("a path without segments")
	}
	*p = out
	return nil
}

// listReader reads lists of numbers from text that is sound JSON: a record is mostly
// that, and it is read each time a set is made.
type listReader struct {
	text []byte
	at   int
	bad  bool
}

// next returns the next byte that is no space, 0 at the end.
func (l *listReader) next() byte {
	for ; l.at < len(l.text); l.at++ {
		switch c := l.text[l.at]; c {
		case ' ', '\t', '\n', '\r':
		default:
			return c
		}
	}
	return 0
}

// open takes the bracket that a list begins with.
func (l *listReader) open() {
	l.bad = l.bad || l.next() != '['
	l.at++
}

// more takes what stands before the next item, a comma after another one, and
// reports whether there is one; else it takes the closing bracket.
func (l *listReader) more(after bool) bool {
	if l.bad {
		return false
	}
	switch c := l.next(); {
	case c == ']':
		l.at++
		return false
	case after && c == ',':
		l.at++
	case after:
		l.bad = true
	}
	return !l.bad
}

// number takes a number.
func (l *listReader) number() float64 {
	l.next()
	from := l.at
	for l.at < len(l.text) && bytes.IndexByte([]byte("+-.eE0123456789"), l.text[l.at]) >= 0 {
		l.at++
	}
	v, err := strconv.ParseFloat(string(l.text[from:l.at]), 64)
	l.bad = l.bad || err != nil
	return v
}

func toPaths(r geom.Region) []path {
	out := make([]path, len(r))
	for i, p := range r {
		out[i] = path(p)
	}
	return out
}

func fromPaths(ps []path) geom.Region {
	if len(ps) == 0 {
		return nil
	}
	out := make(geom.Region, len(ps))
	for i, p := range ps {
		out[i] = geom.Path(p)
	}
	return out
}
