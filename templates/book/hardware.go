package book

import (
	"fmt"
	"strconv"
	"strings"

	"routwright/render"
	"routwright/templates/part"
)

// hardware lists what is bought, as the design counts on it.
func (b *writer) hardware() render.Table {
	j := b.j
	t := render.Table{Caption: "Bought parts, mm, as the design counts on them: measure each in your hand", Tick: true, Head: []string{"what", "count", "measures"}, Number: []bool{false, true}}
	add := func(what string, n int, format string, args ...any) {
		t.Rows = append(t.Rows, []string{what, fmt.Sprint(n), fmt.Sprintf(format, args...)})
	}
	for _, p := range j.Design.Pickup {
		for _, q := range j.OfKind(part.Pickup) {
			if q.Name == p.Name.V && len(q.Solids) > 0 {
				c := q.Plan().Bounds()
				add("pickup "+p.Name.V+kindWords(p.Kind.V), 1, "goes into a cavity of %s × %s, %s deep", mm(c.W()), mm(c.H()), mm(q.Depth(j.Thickness)))
			}
		}
	}
	for _, c := range j.Controls {
		w := ""
		if c.Thread > 0 {
			w = fmt.Sprintf("thread %s long under %s of wood", mm(c.Thread), mm(c.Wood))
		}
		add(c.Kind+" "+c.Name, 1, "%s", w)
	}
	b.bridgeParts(add)
	if s := j.Shape; s != nil && len(s.Tuners) > 0 {
		add("tuners", len(s.Tuners), "hole %s through %s, post %s", mm(s.Spec.Head.Hole), mm(s.Spec.Head.Thickness), mm(s.Spec.Head.Post))
	}
	if s := j.Shape; s != nil && s.Rod != nil && s.Spec.Rod != nil {
		r := s.Spec.Rod
		what := "truss rod, pulls both ways"
		if r.Single {
			what = "truss rod, pulls one way"
		}
		add(what, 1, "%s long, channel %s × %s, turned at the %s", mm(s.Rod.Length), mm(r.Width), mm(r.Depth), r.Access)
	}
	if s, ok := j.BoardStock(); ok {
		h := ""
		if j.Neck != nil && j.Neck.Setup.Fret > 0 {
			h = fmt.Sprintf("%s high over the board; ", mm(j.Neck.Setup.Fret))
		}
		add("fret wire", s.Slots, "%s%.0f in all with 3 at each end, tang for a kerf of %s", h, s.Wire, mm(j.Board.Spec.Slot.Kerf))
		if n := j.Board; len(n.Strings) > 1 {
			add("nut", 1, "at least %s long, %d slots, the outer ones %s apart", mm(s.Nut), len(n.Strings), mm(n.Strings[0].Nut.Dist(n.Strings[len(n.Strings)-1].Nut)))
		}
	}
	if n := j.Neck; n != nil && n.Bolts != nil && n.Bolts.Plate > 0 {
		add("neck plate", 1, "%s thick, %d holes", mm(n.Bolts.Plate), len(n.Bolts.At))
	}
	if k := j.Jack; k != nil {
		add("jack, with its plate or cup", 1, "for a hole of %s", mm(k.D))
	}
	if j.Strap != nil {
		add("strap buttons", 2, "pilot holes %s, %s deep", mm(j.Strap.Pilot), mm(j.Strap.Depth))
	}
	if len(j.Pins) > 0 {
		var d []string
		for _, p := range j.Pins {
			d = append(d, p.Name+" "+mm(p.D))
		}
		add("dowels for the pins", len(j.Pins), "diameter %s", strings.Join(d, ", "))
	}
	for _, c := range j.Channels {
		if c.Found {
			add("wire through "+c.Name, 1, "%.0f of channel, and what hangs free at both ends", c.Path.Length())
		}
	}
	if len(j.Strings) > 0 {
		var w []string
		for _, r := range j.Strings {
			w = append(w, strconv.FormatFloat(r.String.Diameter, 'f', 2, 64))
		}
		add("strings", len(j.Strings), "%s, the highest first", strings.Join(w, ", "))
	}
	return t
}

func kindWords(kind string) string {
	if kind == "" {
		return ""
	}
	return ", " + kind
}

// bridgeParts adds the bridge and what belongs to it.
func (b *writer) bridgeParts(add func(what string, n int, format string, args ...any)) {
	j := b.j
	if r := j.Bridge; r != nil {
		add("bridge, "+r.Kind, 1, "saddles %s to %s over the front, travel %s, %d strings", mm(r.Height[0]), mm(r.Height[1]), mm(r.Travel), len(r.Lines))
	}
	for _, p := range j.OfKind(part.Post) {
		if len(p.Bores) > 0 {
			add(p.Name, len(p.Bores), "hole %s, %s deep", mm(p.Bores[0].D), mm(p.Bores[0].Length()))
		}
	}
	for _, p := range j.OfKind(part.StringHole) {
		n, d, deep := 0, 0.0, 0.0
		for _, h := range p.Bores {
			if !h.Through(j.Thickness) {
				n, d, deep = n+1, h.D, h.Length()
			}
		}
		if n > 0 {
			add("ferrules", n, "hole %s, %s deep", mm(d), mm(deep))
		}
	}
}

// weighed lists the hardware that the design gives a weight of.
func (b *writer) weighed() render.Table {
	t := render.Table{Caption: "Weighed, as the design says", Head: []string{"what", "g"}, Number: []bool{false, true}}
	for _, h := range b.j.Design.Hardware {
		t.Rows = append(t.Rows, []string{h.Name.V, fmt.Sprintf("%g", h.Grams.V)})
	}
	return t
}
