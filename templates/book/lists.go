package book

import (
	"fmt"

	"routwright/render"
)

// lists is what must be on the bench.
func (b *writer) lists() render.Section {
	s := render.Section{ID: "lists", Title: "Lists", NewPage: true}
	add := func(id, title string, blocks ...render.Block) {
		var full []render.Block
		for _, q := range blocks {
			if t, ok := q.(render.Table); ok && len(t.Rows) == 0 {
				continue
			}
			full = append(full, q)
		}
		if len(full) > 0 {
			s.Sections = append(s.Sections, render.Section{ID: "list-" + id, Title: title, Blocks: full})
		}
	}
	add("wood", "Wood", b.cutList())
	add("sheet", "Sheet for templates and jigs", b.sheetGoods()...)
	add("bits", "Bits", b.bits())
	add("drills", "Drills", b.drills(), b.wasteDrills())
	add("hardware", "Hardware", b.hardware(), b.weighed())
	add("screws", "Screws and their holes", b.screws())
	add("glue", "Glue and clamps", b.glue())
	if v, ok := b.tables()["balance"]; ok {
		add("balance", "Mass and balance", b.balance(v.Head, v.Rows))
	}
	return s
}

// size prints length, width and thickness, mm.
func size(l, w, h float64) string { return fmt.Sprintf("%s × %s × %s", mm(l), mm(w), mm(h)) }
