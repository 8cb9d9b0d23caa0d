package render

import (
	"errors"
	"fmt"
	"math"

	"routwright/geom"
)

// mirrored returns s as seen from the back: everything with a place across
// x = 0, words readable.
func (s Sheet) mirrored() Sheet {
	m := geom.MirrorX()
	s.Groups = moveGroups(s.Groups, m)
	s.Grain = m.Vec(s.Grain)
	s.Labels = append([]Label(nil), s.Labels...)
	for i := range s.Labels {
		s.Labels[i].At = m.Point(s.Labels[i].At)
	}
	s.Dims = append([]Dim(nil), s.Dims...)
	for i, d := range s.Dims {
		s.Dims[i].A, s.Dims[i].B, s.Dims[i].Along = m.Point(d.A), m.Point(d.B), m.Vec(d.Along)
	}
	s.Holes = append([]Hole(nil), s.Holes...)
	for i := range s.Holes {
		s.Holes[i].At = m.Point(s.Holes[i].At)
	}
	keep := s.Keep
	s.Keep = nil
	for _, k := range keep {
		s.Keep = append(s.Keep, geom.BoxOf(m.Point(k.Min), m.Point(k.Max)))
	}
	s.Waste = append([]Waste(nil), s.Waste...)
	for i := range s.Waste {
		s.Waste[i].Region = m.Region(s.Waste[i].Region)
	}
	s.Solids = append([]CutFace(nil), s.Solids...)
	for i, f := range s.Solids {
		s.Solids[i].Region = m.Region(f.Region)
		s.Solids[i].Angle = -f.angle()
	}
	return s
}

// moveGroups returns the image of groups. Words are moved, not mirrored.
func moveGroups(groups []Group, m geom.Transform) []Group {
	if groups == nil {
		return nil
	}
	out := make([]Group, len(groups))
	for i, g := range groups {
		shapes, texts := g.Shapes, g.Texts
		g.Shapes, g.Texts = nil, nil
		for _, s := range shapes {
			s.Path = m.Path(s.Path)
			g.Shapes = append(g.Shapes, s)
		}
		for _, t := range texts {
			g.Texts = append(g.Texts, moveText(t, m))
		}
		g.Groups = moveGroups(g.Groups, m)
		out[i] = g
	}
	return out
}

// moveText moves the place of t. Under a mirror the words run the other way from
// the mirrored place, so that they cover the image of what they covered, to the
// width of the letters, and stay readable.
func moveText(t Text, m geom.Transform) Text {
	u := m.Vec(t.Angle.Unit())
	if m.Mirrored() {
		u = u.Neg()
		t.Anchor = End - t.Anchor
	}
	t.At = m.Point(t.At)
	if t.Angle != 0 || m.Vec(geom.Vec{X: 1}).Y != 0 {
		t.Angle = u.Angle()
	}
	return t
}

// check returns every fault of the sheet that would make a wrong drawing.
func (s Sheet) check() error {
	var errs []error
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	var walk func(gs []Group)
	walk = func(gs []Group) {
		for _, g := range gs {
			for _, sh := range g.Shapes {
				if err := sh.Path.Check(); err != nil {
					bad("line %q (%s): %w", sh.ID, sh.Title, err)
				}
			}
			for _, t := range g.Texts {
				if !t.At.IsFinite() || !isFinite(t.Size) || !isFinite(float64(t.Angle)) {
					bad("text %q: its place is not a finite number", t.S)
				}
			}
			walk(g.Groups)
		}
	}
	walk(s.Groups)
	for _, l := range s.Labels {
		if !l.At.IsFinite() {
			bad("label %q: its place is not a finite number", l.S)
		}
	}
	for _, d := range s.Dims {
		if !d.A.IsFinite() || !d.B.IsFinite() || !isFinite(d.Along.Len()) {
			bad("dimension %q: a place is not a finite number", d.Text)
		}
	}
	if !isFinite(s.Grain.Len()) {
		bad("grain: its direction is not finite")
	}
	for _, h := range s.Holes {
		if !h.At.IsFinite() || !isFinite(h.D) || h.D <= 0 {
			bad("hole %q: its diameter is %v mm, it must be above 0, and its place finite", h.ID, h.D)
		}
	}
	for i, w := range s.Waste {
		for _, p := range w.Region {
			if err := p.Check(); err != nil {
				bad("hatched area %d: %w", i, err)
			} else if !p.Closed() {
				bad("hatched area %d: an edge is not closed", i)
			}
		}
	}
	for i, f := range s.Solids {
		for _, p := range f.Region {
			if err := p.Check(); err != nil {
				bad("cut face %d (%s): %w", i, f.Title, err)
			} else if !p.Closed() {
				bad("cut face %d (%s): an edge is not closed", i, f.Title)
			}
		}
		if !isFinite(float64(f.Angle)) {
			bad("cut face %d (%s): its hatching has no direction", i, f.Title)
		}
	}
	if b := s.extent(); len(errs) == 0 && max(b.W(), b.H()) > largestSheet {
		bad("it would be %.6g × %.6g mm; a sheet may be up to %d mm on a side", b.W(), b.H(), largestSheet)
	}
	return errors.Join(errs...)
}

// largestSheet is far more than any instrument, mm: larger means a wrong unit.
const largestSheet = 20000

// extent returns the box of everything that has a place.
func (s Sheet) extent() geom.Box {
	b := boundsOf(s.Groups)
	for _, l := range s.Labels {
		b = b.Extend(l.At)
	}
	for _, d := range s.Dims {
		b = b.Extend(d.A).Extend(d.B)
	}
	for _, h := range s.Holes {
		b = b.Union(geom.BoxOf(h.At).Grow(h.D / 2))
	}
	for _, w := range s.Waste {
		b = b.Union(w.Region.Bounds())
	}
	for _, f := range s.Solids {
		b = b.Union(f.Region.Bounds())
	}
	return b
}

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
