package record

import (
	"encoding/json"
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
	var rows [][]float64
	if err := json.Unmarshal(text, &rows); err != nil {
		return err
	}
	out := make(path, 0, len(rows))
	for i, r := range rows {
		for _, v := range r {
			if math.Abs(v) > farthest {
				return fmt.Errorf("segment %d of a path: %g is no place on a sheet", i+1, v)
			}
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
	if len(out) == 0 {
		return fmt.Errorf("a path without segments")
	}
	*p = out
	return nil
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
