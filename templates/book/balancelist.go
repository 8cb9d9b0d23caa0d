package book

import (
	"strconv"

	"routwright/render"
)

// balance is the table of masses with as many digits as a balance in the shop shows.
func (b *writer) balance(head []string, rows [][]string) render.Table {
	t := render.Table{Caption: "Masses in g and places in mm, first guesses where the words say so", Head: head}
	for _, h := range head {
		t.Number = append(t.Number, h != "what" && h != "how")
	}
	for _, r := range rows {
		out := make([]string, len(r))
		for i, c := range r {
			out[i] = c
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
