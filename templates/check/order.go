package check

import (
	"errors"
	"fmt"
	"strings"

	"routwright/templates/job"
	"routwright/templates/steps"
)

// workOrder looks for an order of the steps that keeps what the design asks for.
func workOrder(r Rule, j *job.Job) []Finding {
	at := j.Design.Work.Order.At
	var out []Finding
	ss := steps.Bare(j)
	for _, m := range steps.Lacking(ss) {
		out = append(out, r.finding(Stop, 0, 0, fmt.Sprintf("the step %q needs %s, which no step makes", ss[m.Step].ID, m.Thing), "add what is missing to the design", at))
	}
	_, err := steps.Order(ss, j.Design.Work.Order.V)
	var ring *steps.CycleError
	var unknown *steps.UnknownError
	switch {
	case errors.As(err, &unknown):
		out = append(out, r.finding(Stop, 0, 0, err.Error(), "the steps are "+strings.Join(unknown.Known, ", "), at))
	case errors.As(err, &ring):
		out = append(out, r.finding(Stop, 0, 0, err.Error(), "leave that pair out of work.order", at))
	}
	return out
}
