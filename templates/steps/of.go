package steps

import (
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/part"
)

// Of returns the steps of a job in the order in which they are usually done;
// Order puts them in one that is proved.
func Of(j *job.Job) []Step { return of(&builder{j: j}) }

// Bare returns the same steps without their tables: all that their order rests on,
// at a fraction of the cost.
func Bare(j *job.Job) []Step { return of(&builder{j: j, bare: true}) }

func of(b *builder) []Step {
	b.prepare()
	b.stabilise()
	b.thickness()
	b.neckWork()
	b.joint()
	b.rout(FrontWork, part.Front)
	b.drilling()
	b.rout(BackWork, part.Back)
	b.covers()
	b.covered()
	b.channels()
	b.shape()
	b.assembly()
	b.jigs()
	b.already()
	return b.ss
}

// builder collects the steps of a job.
type builder struct {
	j    *job.Job
	ss   []Step
	bare bool // no tables
}

func (b *builder) add(s Step) { b.ss = append(b.ss, s) }

// has reports whether the job has a part of one of the kinds.
func (b *builder) has(kinds ...part.Kind) bool {
	for _, k := range kinds {
		if len(b.j.OfKind(k)) > 0 {
			return true
		}
	}
	return false
}

// glued reports whether the neck is glued in rather than screwed on.
func (b *builder) glued() bool { return b.j.Design.Neck.Join.V == "glued" }

// template returns the index of the template of a part, −1 without one.
func (b *builder) template(id string) int {
	for i, t := range b.j.Templates {
		if t.ID == id {
			return i
		}
	}
	return -1
}

// body reports whether a template cuts the body or a piece of its own.
func ofBody(t cut.Template) bool { return !t.For.Adds || t.For.Kind == part.Body }

// Ordered returns the steps of a job in an order that works, with the builder's own
// wishes kept. The error is that of Order.
func Ordered(j *job.Job) ([]Step, error) {
	ss := Of(j)
	order, err := Order(ss, j.Design.Work.Order.V)
	if err != nil {
		return nil, err
	}
	out := make([]Step, len(ss))
	for i, k := range order {
		out[i] = ss[k]
	}
	return out, nil
}
