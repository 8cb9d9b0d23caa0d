package book

import (
	"fmt"
	"sort"

	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// lists is what must be on the bench.
func (b *writer) lists() render.Section {
	s := render.Section{ID: "lists", Title: "Lists", NewPage: true}
	s.Blocks = append(s.Blocks, b.cutList(), b.bits(), b.drills())
	if t := b.screws(); len(t.Rows) > 0 {
		s.Blocks = append(s.Blocks, t)
	}
	if v, ok := b.tables()["balance"]; ok {
		s.Blocks = append(s.Blocks, render.Table{Caption: "Mass and balance", Head: v.Head, Rows: v.Rows})
	}
	return s
}

// Left on rough pieces, mm. Common practice.
const (
	roughAlong = 20.0
	roughWide  = 10.0
	roughThick = 3.0
)

// cutList is the pieces of wood, rough and finished.
func (b *writer) cutList() render.Table {
	j := b.j
	t := render.Table{Caption: "Cut list", Tick: true, Head: []string{"piece", "wood", "rough", "finished", "grain"}}
	size := func(l, w, h float64) string { return fmt.Sprintf("%s × %s × %s", mm(l), mm(w), mm(h)) }
	wood := func(s string) string {
		if s == "" {
			return "not said"
		}
		return s
	}
	if !j.Blank.Empty() {
		o, f := j.Blank.Bounds(), j.Outline.Bounds()
		t.Rows = append(t.Rows, []string{"slab", wood(j.Design.Slab.Wood.V), size(o.H(), o.W(), j.Rough), size(f.H(), f.W(), j.Thickness), "along the strings"})
	}
	if k := j.Keys; k != nil && len(k.Poses) > 0 {
		tall := j.KeyBlank(len(k.Poses)) // trimmed once and resawn
		for _, h := range j.Jigs.Handles {
			if k.Of(j.Templates[h.Template].ID) != nil {
				tall += h.Waste // that its handle block is screwed to
				break
			}
		}
		t.Rows = append(t.Rows, []string{fmt.Sprintf("keys, one blank for %d", len(k.Poses)), wood(j.Design.Keys.Wood.V),
			size(k.Fit.Spec.Length+roughAlong, k.Fit.Spec.Ends+roughWide, tall), size(k.Fit.Spec.Length, k.Fit.Spec.Ends, k.Depth) + " each", "along the key, across the slab"})
	}
	for _, p := range j.OfKind(part.Cover) {
		c := p.Plan().Bounds()
		top, floor := p.Range()
		t.Rows = append(t.Rows, []string{"cover " + p.Name, "offcut beside the cavity", size(c.H()+roughAlong, c.W()+roughWide, floor-top+roughThick), size(c.H(), c.W(), floor-top), "along the strings"})
	}
	return t
}

// bits compares the bits that the templates ask for with the rack.
func (b *writer) bits() render.Table {
	t := render.Table{Caption: "Bits and what leads them", Tick: true, Head: []string{"bit", "for"}}
	var names []string
	use := map[string]string{}
	for _, q := range b.j.Templates {
		w := q.Tool.String()
		if _, ok := use[w]; !ok {
			names = append(names, w)
		} else {
			use[w] += ", "
		}
		use[w] += q.ID
	}
	for _, n := range names {
		t.Rows = append(t.Rows, []string{n, use[n]})
	}
	return t
}

// drills lists every diameter that is drilled, and whether the rack has it.
func (b *writer) drills() render.Table {
	t := render.Table{Caption: "Drills", Tick: true, Head: []string{"drill, mm", "holes", "deepest, mm", "at hand"}, Number: []bool{true, true, true}}
	type use struct {
		n    int
		deep float64
	}
	m := map[float64]*use{}
	var ds []float64
	for _, p := range b.j.Parts {
		if p.Adds {
			continue
		}
		for _, h := range p.Bores {
			if m[h.D] == nil {
				m[h.D] = &use{}
				ds = append(ds, h.D)
			}
			m[h.D].n++
			m[h.D].deep = max(m[h.D].deep, h.Length())
		}
	}
	sort.Float64s(ds)
	for _, d := range ds {
		t.Rows = append(t.Rows, []string{mm(d), fmt.Sprint(m[d].n), mm(m[d].deep), atHand(b.j, d, m[d].deep)})
	}
	return t
}

// drillNear is how much a drill at hand may differ from the hole asked for before
// it no longer serves, mm. Common practice: the next tenth.
const drillNear = 0.1

// atHand says whether the rack has a drill, or which comes nearest.
func atHand(j *job.Job, d, deep float64) string {
	r, _ := tool.NewRack(j.Design)
	near, off := 0.0, 1e9
	for _, k := range r.Drills() {
		o := k.D - d
		if o < 0 {
			o = -o
		}
		if o < off {
			near, off = k.D, o
		}
		if o <= drillNear && (k.Length == 0 || k.Length >= deep) {
			return "yes: " + mm(k.D)
		}
	}
	if off < 0.1*d { // within a tenth of the size a careful builder may decide
		return fmt.Sprintf("no; %s mm comes nearest", mm(near))
	}
	return "no"
}

// screws counts the pilot holes by what they are for.
func (b *writer) screws() render.Table {
	t := render.Table{Caption: "Screws and their holes", Tick: true, Head: []string{"what for", "count", "hole, mm"}, Number: []bool{false, true, true}}
	at := map[string]int{}
	for _, p := range b.j.OfKind(part.Screw) {
		for _, h := range p.Bores {
			k := p.Name + ": " + h.Words
			if i, ok := at[k]; ok {
				n := 0
				fmt.Sscan(t.Rows[i][1], &n)
				t.Rows[i][1] = fmt.Sprint(n + 1)
				continue
			}
			at[k] = len(t.Rows)
			t.Rows = append(t.Rows, []string{k, "1", mm(h.D)})
		}
	}
	return t
}
