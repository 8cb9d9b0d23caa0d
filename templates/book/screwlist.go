package book

import (
	"fmt"
	"strings"

	"routwright/render"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// screws lists the screws by what they are for, each with its hole.
func (b *writer) screws() render.Table {
	t := render.Table{Caption: "Screws, mm. Pilot holes of wood screws: " + wood.PilotSource, Tick: true,
		Head: []string{"for", "count", "screw", "hole", "deep"}, Number: []bool{false, true, false, true, true}}
	type row struct {
		what  string
		n     int
		hole  float64
		deep  float64
		words string
	}
	var rows []row
	for _, p := range b.j.OfKind(part.Screw) {
		for _, h := range p.Bores {
			words := screwWords(h.Words)
			found := false
			for i := range rows {
				if q := &rows[i]; q.what == p.Name && q.words == words && q.hole == h.D {
					q.n, q.deep, found = q.n+1, max(q.deep, h.Length()), true
				}
			}
			if !found {
				rows = append(rows, row{p.Name, 1, h.D, h.Length(), words})
			}
		}
	}
	for _, r := range rows {
		if n := b.j.Neck; n != nil && n.Bolts != nil && strings.HasPrefix(r.words, "neck screw") {
			r.what, r.words = "neck, through the body", "runs free"
		}
		t.Rows = append(t.Rows, []string{r.what, fmt.Sprint(r.n), r.words, mm(r.hole), mm(r.deep)})
	}
	if n := b.j.Neck; n != nil && n.Bolts != nil {
		k := n.Bolts
		t.Rows = append(t.Rows, []string{"neck, in the heel", fmt.Sprint(len(k.At)), fmt.Sprintf("%s, %s long under the head", k.Name, mm(k.Length)), mm(k.Pilot), mm(k.Into)})
	}
	return t
}

// screwWords drops the number of a hole from its words, which counting says.
func screwWords(w string) string {
	if i := strings.LastIndex(w, ", "); i > 0 && strings.HasPrefix(w, "strap button") {
		return w[:i]
	}
	return w
}
