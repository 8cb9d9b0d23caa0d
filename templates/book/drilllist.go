package book

import (
	"fmt"
	"strings"

	"routwright/render"
	"routwright/templates/tool"
)

// drills lists every diameter that is drilled, and whether the rack has it.
func (b *writer) drills() render.Table {
	t := render.Table{Caption: "Drills that the work asks for, against the rack of the design", Tick: true, Head: []string{"drill, mm", "holes", "deepest, mm", "for", "at hand"}, Number: []bool{true, true, true}}
	r, _ := tool.NewRack(b.j.Design)
	for _, q := range b.j.DrillNeeds() {
		t.Rows = append(t.Rows, []string{mm(q.D), fmt.Sprint(q.Holes), mm(q.Deep), strings.Join(q.For, ", "), r.Hole(q.D, q.Deep, q.Fit).Words})
	}
	return t
}

// wasteDrills lists the drills of the plans for waste.
func (b *writer) wasteDrills() render.Table {
	t := render.Table{Caption: "Drills for waste, before the router", Tick: true, Head: []string{"drill", "holes", "for", "at hand"}, Number: []bool{false, true}}
	type use struct {
		n   int
		ids []string
		d   tool.Drill
	}
	var order []string
	uses := map[string]*use{}
	for i, q := range b.j.Templates {
		drills, count := b.j.DrillOut(i).Pieces()
		for k, d := range drills {
			u := uses[d.String()]
			if u == nil {
				u = &use{d: d}
				uses[d.String()], order = u, append(order, d.String())
			}
			u.n += count[k]
			u.ids = append(u.ids, q.ID)
		}
	}
	for _, w := range order {
		u := uses[w]
		hand := "in the rack"
		if len(u.d.Assumed) > 0 {
			hand = "assumed: " + strings.Join(u.d.Assumed, ", ")
		}
		t.Rows = append(t.Rows, []string{w, fmt.Sprint(u.n), strings.Join(u.ids, ", "), hand})
	}
	return t
}
