package render

import "routwright/geom"

// Scaled returns the sheet drawn k times as large: everything with a place
// moves, words and line widths stay. For pictures in a text, laid out Bare; the
// scale should be one of ISO 5455 (1:2, 1:5, 1:10 …) and be said beside it.
func (s Sheet) Scaled(k float64) Sheet {
	m := geom.Scale(k)
	s.Groups = moveGroups(s.Groups, m)
	joinGroups(s.Groups)
	s.Labels = append([]Label(nil), s.Labels...)
	for i := range s.Labels {
		s.Labels[i].At = m.Point(s.Labels[i].At)
	}
	s.Dims = append([]Dim(nil), s.Dims...)
	for i, d := range s.Dims {
		s.Dims[i].A, s.Dims[i].B = m.Point(d.A), m.Point(d.B)
	}
	s.Holes = append([]Hole(nil), s.Holes...)
	for i := range s.Holes {
		s.Holes[i].At, s.Holes[i].D = m.Point(s.Holes[i].At), k*s.Holes[i].D
	}
	s.Waste = append([]Waste(nil), s.Waste...)
	for i := range s.Waste {
		r := m.Region(s.Waste[i].Region)
		for k := range r {
			r[k] = joined(r[k])
		}
		s.Waste[i].Region = r
	}
	return s
}

// Extent returns the box of everything on the sheet that has a place, before words
// and dimensions are set.
func (s Sheet) Extent() geom.Box { return s.extent() }

// seen is the shortest piece of a line that is kept when a sheet is made smaller,
// mm: far below a pixel, far above where two points are one.
const seen = 1e-3

func joinGroups(gs []Group) {
	for _, g := range gs {
		for i := range g.Shapes {
			g.Shapes[i].Path = joined(g.Shapes[i].Path)
		}
		joinGroups(g.Groups)
	}
}

// joined returns p with pieces shorter than seen left out and the gaps closed by
// straight lines; p itself when there are none.
func joined(p geom.Path) geom.Path {
	short := func(e geom.Seg) bool { return e.Length() < seen }
	some := false
	for _, e := range p {
		some = some || short(e)
	}
	if !some || len(p) < 3 {
		return p
	}
	var out geom.Path
	for _, e := range p {
		if short(e) {
			continue
		}
		if n := len(out); n > 0 && out[n-1].B != e.A {
			out[n-1] = geom.Line(out[n-1].A, e.A)
		}
		out = append(out, e)
	}
	n := len(out)
	if n < 2 {
		return p
	}
	if p.Closed() && out[n-1].B != out[0].A {
		out[n-1] = geom.Line(out[n-1].A, out[0].A)
	}
	return out
}
