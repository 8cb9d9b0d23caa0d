package job

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/outline"
	"routwright/templates/part"
)

// body solves the outline, in one of its three ways, and places it: its tail
// end lies Tail behind the bridge line.
func (s *solver) body() {
	b := s.d.Body
	var p geom.Path
	switch {
	case b.File.Set():
		p = s.outlineFile(b.File)
	case b.HalfWidths.Set():
		rows := make([][3]float64, len(b.HalfWidths.V))
		for i, r := range b.HalfWidths.V {
			rows[i] = [3]float64{float64(r[0]), float64(r[1]), float64(r[2])}
		}
		q, err := outline.HalfWidths(rows)
		if err != nil {
			s.fail(b.HalfWidths.At, "body.half_widths", err.Error(), "rows [y, bass, treble] that rise from the tail end", "measure again the rows that are named")
		}
		p = q
	default:
		p = s.outlineFamily(b)
	}
	if p == nil {
		return
	}
	tail := s.tail(p)
	low := p.Bounds().Min.Y
	s.Outline = geom.Region{geom.Translate(geom.Vec{Y: -tail - low}).Path(p)}
	if err := s.Outline.Check(); err != nil {
		s.fail(b.At, "body", err.Error(), "an outline that does not cross itself", "move the measures that meet there")
		s.Outline = nil
		return
	}
	s.Parts = append(s.Parts, part.Part{
		ID: s.id("body"), Name: s.Name, Kind: part.Body, Adds: true, At: b.At,
		Solids: []part.Solid{{Plan: s.Outline, Top: part.Level(0), Floor: part.Level(s.Thickness)}},
	})
}

func (s *solver) outlineFamily(b design.Body) geom.Path {
	m := map[string]float64{}
	for k, v := range b.Measures {
		m[k] = float64(v.V)
	}
	family := b.Family.V
	if !b.Family.Set() {
		family = outline.Families()[0].Name
		s.assume("body.family", family, "no outline was given")
	}
	p, used, err := s.memory.outline(family, m)
	if err != nil {
		for _, e := range outline.Problems(err) {
			at, key := b.Family.At, "body.family"
			if v, ok := b.Measures[e.Measure]; ok {
				at, key = v.At, "body.measures."+e.Measure
			}
			s.fail(at, key, e.Given, e.Allowed, e.Cure)
		}
		return nil
	}
	for _, u := range used {
		if !u.Given {
			s.assume("body.measures."+u.Measure, design.MM(u.Value)+" mm", "default of the family "+family)
		}
	}
	return p
}

// cracks takes over the cracks as measured.
func (s *solver) cracks() {
	for i, c := range s.d.Slab.Crack {
		k := fmt.Sprintf("slab.crack %d", i+1)
		front, back := s.crackLine(c.Front, k+" front"), s.crackLine(c.Back, k+" back")
		if front == nil && back == nil {
			if c.Front.Set() || c.Back.Set() {
				continue // what is wrong with it is told
			}
			s.fail(c.At, k, "no usable points", "front = [[x, y], …] with two points or more", "measure the crack")
			continue
		}
		s.Cracks = append(s.Cracks, Crack{front, back, c.At})
	}
}

func (s *solver) crackLine(v design.Val[[]geom.Point], key string) geom.Path {
	if !v.Set() {
		return nil
	}
	if len(v.V) < 2 {
		s.fail(v.At, key, fmt.Sprintf("%d points", len(v.V)), "two points or more", "measure the crack's ends")
		return nil
	}
	for i := 1; i < len(v.V); i++ {
		if v.V[i].Dist(v.V[i-1]) < 0.1 { // no rule reads finer
			s.fail(v.At, key, fmt.Sprintf("points %d and %d at the same place", i, i+1), "points at least 0.1 mm apart", "drop one of them")
			return nil
		}
	}
	p := geom.Polyline(v.V...)
	if i, k, at := crossing(p); i > 0 {
		s.fail(v.At, key, fmt.Sprintf("the piece after point %d meets the one after point %d at x %s, y %s", i, k, design.MM(at.X), design.MM(at.Y)), "points in order along one crack that does not cross itself", "put the points in order, or measure a branch as a crack of its own")
		return nil
	}
	return p
}

// crossing returns two pieces of a line, by the points before them counted from 1,
// that meet where they should not; 0 without any. A piece that turns straight back
// over the one before it meets it too.
func crossing(p geom.Path) (i, k int, at geom.Point) {
	for a := range p {
		if a > 0 && p[a-1].Tangent(1).Dot(p[a].Tangent(0)) < -1+1e-9 {
			return a, a + 1, p[a].A
		}
		for b := a + 2; b < len(p); b++ {
			if d, q, _ := geom.SegDistance(p[a], p[b]); d < geom.Coincident {
				return a + 1, b + 1, q
			}
		}
	}
	return 0, 0, geom.Point{}
}

// offSlab is how far a point of a crack may lie outside the slab, mm: what a ruler
// laid to the edge is read to. Common practice.
const offSlab = 1

// cracksInSlab refuses cracks that leave the slab.
func (s *solver) cracksInSlab() {
	if s.Blank == nil {
		return
	}
	edge := geom.IndexOf(s.Blank)
	for i, c := range s.d.Slab.Crack {
		for _, l := range []struct {
			v    design.Val[[]geom.Point]
			face string
		}{{c.Front, "front"}, {c.Back, "back"}} {
			for k, p := range l.v.V {
				if _, d := edge.Closest(p); d > offSlab && !edge.Contains(p) {
					b := s.Blank.Bounds()
					s.fail(l.v.At, fmt.Sprintf("slab.crack %d %s", i+1, l.face), fmt.Sprintf("point %d at x %s, y %s, %s mm outside the slab", k+1, design.MM(p.X), design.MM(p.Y), design.MM(d)),
						fmt.Sprintf("points inside the slab: x %s to %s, y %s to %s", design.MM(b.Min.X), design.MM(b.Max.X), design.MM(b.Min.Y), design.MM(b.Max.Y)), "measure the point again, or give the slab's size with slab.blank")
					break
				}
			}
		}
	}
}

// blank solves the squared slab.
func (s *solver) blank() {
	if s.Outline == nil {
		return
	}
	b := s.Outline.Bounds()
	if v := s.d.Slab.Blank; v.Set() {
		h, w := float64(v.V[0]), float64(v.V[1])
		if h < b.H() || w < b.W() {
			s.fail(v.At, "slab.blank", fmt.Sprintf("%s × %s mm", design.MM(h), design.MM(w)), fmt.Sprintf("at least the outline, %s × %s mm", design.MM(b.H()), design.MM(b.W())), "use a larger slab or a smaller outline")
			return
		}
		s.Blank = geom.Region{geom.Rect(geom.Pt(0, b.Center().Y), w, h)}
	} else {
		b = b.Grow(blankMargin)
		s.Blank = geom.Region{geom.Rect(b.Center(), b.W(), b.H())}
		s.assume("slab.blank", fmt.Sprintf("%s × %s mm", design.MM(b.H()), design.MM(b.W())), "the outline with room for the pins")
	}
}

// bodyTemplate adds the template of the outline. It sits on a plug in a cavity,
// since the pins lie in the waste that the saw takes away.
func (s *solver) bodyTemplate() {
	if s.Outline == nil {
		return
	}
	body := s.Parts[0]
	n := need("body.cut", tightest(s.Outline), s.Thickness, s.sheet)
	n.Blind, n.Try = false, nil // the outline is cut through, and sawn first: no pass is deep in the wood
	t, err := s.rack.Pick(s.d.Body.Cutter, n, s.d.Body.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	var c geom.Calc
	male := cut.MaleFor(&c, s.Outline, t)
	if err := c.Err(); err != nil {
		s.fail(s.d.Body.At, "body", err.Error(), "an outline that a template can be made for", "change the measures")
		return
	}
	s.Templates = append(s.Templates, cut.Template{
		ID: body.ID, Name: "body outline", For: body, Male: true, Shape: male, Blank: male,
		Sheet: s.sheet, InsideRadius: s.rin, Tool: t,
	})
	if t.Why != "" {
		s.solved("body.cut.bit", t.Bit, t.Why)
	}
}
