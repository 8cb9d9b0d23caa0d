package book

import (
	"fmt"
	"math"
	"strings"

	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/tool"
)

// bits compares the bits that the work asks for with the rack of the design: those of
// the templates, the edge bit, and the bit for the channel of the rod.
func (b *writer) bits() render.Table {
	t := render.Table{Caption: "Bits that the work asks for, against the rack of the design", Tick: true, Head: []string{"bit", "for", "must do", "at hand"}}
	type use struct {
		t     tool.Tool
		ids   []string
		reach float64
		deep  float64
	}
	var order []string
	uses := map[string]*use{}
	for i, q := range b.j.Templates {
		w := q.Tool.String()
		u := uses[w]
		if u == nil {
			u = &use{t: q.Tool}
			uses[w], order = u, append(order, w)
		}
		u.ids = append(u.ids, q.ID)
		r := b.j.Routing(i)
		if q.Male {
			r = b.j.Trim(i)
		}
		if n := len(r.Passes); n > 0 {
			deep := r.Passes[n-1].Depth
			u.deep, u.reach = math.Max(u.deep, deep), math.Max(u.reach, r.Setting(deep))
		}
	}
	for _, w := range order {
		u := uses[w]
		t.Rows = append(t.Rows, []string{w, strings.Join(u.ids, ", "), b.mustDo(u.t, u.deep, u.reach), b.bitAtHand(u.t, u.reach)})
	}
	for _, r := range [][]string{b.edgeBit(), b.rodBit()} {
		if r != nil {
			t.Rows = append(t.Rows, r)
		}
	}
	return t
}

// mustDo says what a bit of a template must be able to.
func (b *writer) mustDo(t tool.Tool, deep, reach float64) string {
	w := fmt.Sprintf("cut to %s mm deep, its tip up to %s mm below the base", mm(deep), mm(reach))
	if t.Guide == tool.Bush {
		w += ", through the bush"
	}
	return w
}

// bitAtHand says whether the rack of the design holds a bit, and whether it is long
// enough; a bit that the program assumed is never passed off as one at hand.
func (b *writer) bitAtHand(t tool.Tool, reach float64) string {
	for _, q := range b.j.Design.Bit {
		if q.Name.V != t.Bit {
			continue
		}
		switch {
		case t.Reach == 0:
			return fmt.Sprintf("in the rack; its reach is not given: measure that its tip can stand %s mm below the base", mm(reach))
		case t.Reach < reach:
			return fmt.Sprintf("in the rack, but too short: it reaches %s mm. A longer bit of the same diameter, a thinner template, or the template off once the bearing runs on the wall", mm(t.Reach))
		}
		return "in the rack"
	}
	return "not in the design: the program counts on it. Get it, or name your own under [[bit]]; " + b.otherBits(t)
}

// otherBits names what of the rack could replace a bit.
func (b *writer) otherBits(t tool.Tool) string {
	var w []string
	for _, q := range b.j.Design.Bit {
		if float64(q.D.V) <= t.Cutter+cut.Through {
			w = append(w, q.Name.V)
		}
	}
	if len(w) == 0 {
		return "no bit of the rack could replace it"
	}
	return strings.Join(w, " or ") + " could replace it, named under cut"
}

// edgeBit is the bit that rounds or chamfers the edge; nil with square edges.
func (b *writer) edgeBit() []string {
	e := b.j.Design.Body.Edge
	switch {
	case e.Roundover.Set():
		r := mm(float64(e.Roundover.V))
		return []string{"roundover bit, radius " + r + ", bearing at the tip", "edge", "profile of " + r + " mm", "not in the rack of templates: have it, or rasp and sand the edge to a gauge of that radius"}
	case e.Chamfer.Set():
		c := mm(float64(e.Chamfer.V))
		return []string{"chamfer bit, 45°, bearing at the tip", "edge", "chamfer of " + c + " mm", "not in the rack of templates: have it, or plane the chamfer to two lines"}
	}
	return nil
}

// rodNear is how far a bit may be from the width of the rod's channel, mm. Common
// practice: a rod wants to be laid in by hand, without play.
const rodNear = 0.1

// rodBit is the bit for the channel of the rod; nil without one.
func (b *writer) rodBit() []string {
	s := b.j.Shape
	if s == nil || s.Rod == nil || s.Spec.Rod == nil {
		return nil
	}
	w, deep := s.Spec.Rod.Width, s.Spec.Rod.Depth+s.Spec.Rod.Bow
	row := []string{"straight bit, d " + mm(w), "channel of the rod", fmt.Sprintf("cut to %s mm deep along a fence", mm(deep))}
	var same, less string
	widest := 0.0
	rack, _ := tool.NewRack(b.j.Design)
	for _, q := range rack.Bits() {
		d, l := float64(q.D.V), float64(q.Cut.V)
		if len(b.j.Design.Bit) == 0 || l > 0 && l < deep {
			continue
		}
		switch {
		case math.Abs(d-w) <= rodNear:
			same = q.Name.V
			if q.Bearing.Present {
				same += ", its bearing taken off or running above the wood"
			}
		case d < w && d > widest:
			less, widest = q.Name.V, d
		}
	}
	switch {
	case same != "":
		return append(row, "in the rack: "+same)
	case less != "":
		return append(row, fmt.Sprintf("missing; %s, d %s, could replace it: two passes, the fence moved by %s mm", less, mm(widest), mm(w-widest)))
	}
	return append(row, "missing; a narrower straight bit in two passes could replace it, the fence moved between them")
}
