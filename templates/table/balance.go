package table

import (
	"fmt"

	"routwright/templates/design"
	"routwright/templates/job"
)

// balanceTable lists every piece with its weight and place, the whole, how it
// hangs, and what changes would do. Angles in degrees, the head up when positive.
func balanceTable(j *job.Job) Table {
	b := j.Balance
	t := Table{Name: "balance", Head: []string{"what", "how", "mass_g", "x", "y", "depth", "hangs_deg"}}
	hang := func(v float64, ok bool) string {
		if !ok {
			return ""
		}
		return num(v)
	}
	for _, e := range b.Things {
		t.Rows = append(t.Rows, []string{e.Name, e.How, num(e.Mass), num(e.At.X), num(e.At.Y), num(e.At.Z), ""})
	}
	t.Rows = append(t.Rows, []string{"the whole", "sum", num(b.Mass), num(b.At.X), num(b.At.Y), num(b.At.Z), hang(b.Hang.Degrees(), b.Hangs)})
	if s := j.Strap; s != nil {
		t.Rows = append(t.Rows,
			[]string{"upper strap button", fmt.Sprintf("%s mm nearer the head than the balance point", design.MM(s.Upper.At.Y-b.At.Y)), "", num(s.Upper.At.X), num(s.Upper.At.Y), num(s.Upper.Z), ""},
			[]string{"tail strap button", "", "", num(s.Tail.At.X), num(s.Tail.At.Y), num(s.Tail.Z), ""})
	}
	if j.Strap != nil {
		t.Rows = append(t.Rows, []string{"held level", fmt.Sprintf("the upper button carries %.0f %% of the weight", 100*b.Share), "", "", "", "", num(0)})
	}
	if b.Level > 0 {
		t.Rows = append(t.Rows, []string{"hangs level", fmt.Sprintf("where the shoulder carries a strap of %s mm %s mm from the upper button; hangs_deg is with its middle on a hook", design.MM(b.Strap), design.MM(b.Level)), "", "", "", "", num(0)})
	}
	for _, c := range b.Changes {
		t.Rows = append(t.Rows, []string{c.Words, "what it would do", num(c.Mass), "", num(c.Y), "", hang(c.Hang.Degrees(), c.Hangs)})
	}
	return t
}
