package book

import (
	"fmt"

	"routwright/render"
	"routwright/templates/part"
)

// Left on rough pieces, mm. Common practice.
const (
	roughAlong = 20.0
	roughWide  = 10.0
	roughThick = 3.0
	roughBoard = 2.0 // of a fretboard, which is bought planed
)

// cutList is the pieces of wood, rough and finished.
func (b *writer) cutList() render.Table {
	j := b.j
	t := render.Table{Caption: "Cut list, mm: length along the grain × width × thickness", Tick: true, Head: []string{"piece", "wood", "rough", "finished", "grain"}}
	wood := func(s string) string {
		if s == "" {
			return "not said in the design"
		}
		return s
	}
	if !j.Blank.Empty() {
		o, f := j.Blank.Bounds(), j.Outline.Bounds()
		t.Rows = append(t.Rows, []string{"body", wood(j.Design.Slab.Wood.V), size(o.H(), o.W(), j.Rough), size(f.H(), f.W(), j.Thickness), "along the strings"})
	}
	if k := j.KeyStock(); k.Count > 0 {
		s := j.Keys.Fit.Spec
		t.Rows = append(t.Rows, []string{fmt.Sprintf("keys, one blank for %d", k.Count), wood(j.Design.Keys.Wood.V),
			size(k.Long, k.Wide, k.Tall), size(s.Length, s.Ends, j.Keys.Depth) + " each", "along the key, so across the slab's"})
	}
	for _, p := range j.OfKind(part.Cover) {
		c := p.Plan().Bounds()
		top, floor := p.Range()
		t.Rows = append(t.Rows, []string{"cover " + p.Name, "offcut of the slab", size(c.H()+roughAlong, c.W()+roughWide, floor-top+roughThick), size(c.H(), c.W(), floor-top), "along the strings"})
	}
	if n, ok := j.NeckStock(); ok {
		p := j.Shape.Plan.Bounds()
		what := "neck with its head"
		if j.Shape.Side.Scarf != nil {
			what = "neck, its head glued on at a scarf from the same length"
		}
		t.Rows = append(t.Rows, []string{what, wood(j.Design.Neck.Wood.V), size(n.Long, n.Wide, n.Deep), size(p.H(), p.W(), j.Shape.Side.Blank), "along the neck, straight, without runout"})
	}
	if s, ok := j.BoardStock(); ok {
		rough, done := size(s.Long+roughAlong, s.Wide+roughWide, s.Thick+roughBoard), size(s.Long, s.Wide, s.Thick)
		if s.Thick == 0 {
			rough, done = fmt.Sprintf("%s × %s × not said", mm(s.Long+roughAlong), mm(s.Wide+roughWide)), fmt.Sprintf("%s × %s × not said", mm(s.Long), mm(s.Wide))
		}
		t.Rows = append(t.Rows, []string{"fretboard", "not said in the design", rough, done + fmt.Sprintf(", %s wide at the nut", mm(s.Nut)), "along the strings"})
	}
	return t
}
