package check

import (
	"fmt"

	"routwright/templates/job"
)

// strapBalance compares the place of the upper strap button with the balance
// point of the whole instrument, along the strings.
func strapBalance(r Rule, j *job.Job) []Finding {
	if j.Strap == nil || j.Balance == nil {
		return nil
	}
	d := j.Strap.Upper.At.Y - j.Balance.At.Y
	if d >= r.Warn {
		return nil
	}
	return []Finding{r.finding(Warn, d, r.Warn, fmt.Sprintf("the upper strap button sits %s mm behind the balance point of the whole instrument, y %s mm: the head will sink", mm(-d), mm(j.Balance.At.Y)), "move the button towards the head, take lighter tuners, or a heavier body", j.Design.Strap.At, Place{j.Strap.Upper.At, "upper button"}, Place{j.Balance.At.Flat(), "balance point"})}
}
