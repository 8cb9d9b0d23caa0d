package render

import "routwright/geom"

// Scaled returns the sheet drawn k times as large: everything with a place
// moves, words and line widths stay. For pictures in a text, laid out Bare; the
// scale should be one of ISO 5455 (1:2, 1:5, 1:10 …) and be said beside it.
func (s Sheet) Scaled(k float64) Sheet {
	m := geom.Scale(k)
	s.Groups = moveGroups(s.Groups, m)
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
		s.Waste[i].Region = m.Region(s.Waste[i].Region)
	}
	return s
}
