package book

import (
	"strconv"
	"strings"

	"routwright/render"
	"routwright/templates/wood"
)

// balance is the table of masses with as many digits as a balance in the shop shows.
func (b *writer) balance(head []string, rows [][]string) render.Table {
	t := render.Table{Caption: "Masses in g, places in mm, hanging in degrees, head up is +; first guesses where the words say so. Densities: " + wood.Source}
	for _, h := range head {
		t.Number = append(t.Number, h != "what" && h != "how")
		word, _, _ := strings.Cut(h, "_") // the unit is in the caption
		t.Head = append(t.Head, word)
	}
	for _, r := range rows {
		out := make([]string, len(r))
		for i, c := range r {
			out[i] = strings.ReplaceAll(strings.TrimSuffix(c, "; "+wood.Source), "hangs_deg", "the angle")
			if v, err := strconv.ParseFloat(c, 64); err == nil {
				out[i] = strconv.FormatFloat(v, 'f', 0, 64)
				if out[i] == "-0" {
					out[i] = "0"
				}
			}
		}
		t.Rows = append(t.Rows, out)
	}
	return t
}
