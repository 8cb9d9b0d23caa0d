package steps

import (
	"fmt"
	"strings"
)

// Reason is why one step must come before another.
type Reason struct {
	Before, After int // indexes of steps
	Words         string
}

// Wish is an order that the builder asks for: each step before the next.
type Wish []string

// Reasons returns every reason why one step of ss must come before another:
//
//   - what makes a thing comes before what needs it or takes it away;
//   - what needs a thing comes before what takes it away.
func Reasons(ss []Step) []Reason {
	type users struct{ makes, needs, removes []int }
	of := map[Thing]*users{}
	var things []Thing // in the order of first use, so that the result is the same each time
	get := func(t Thing) *users {
		u, ok := of[t]
		if !ok {
			u = &users{}
			of[t], things = u, append(things, t)
		}
		return u
	}
	for i, s := range ss {
		for _, t := range s.Makes {
			u := get(t)
			u.makes = append(u.makes, i)
		}
		for _, t := range s.Needs {
			u := get(t)
			u.needs = append(u.needs, i)
		}
		for _, t := range s.Removes {
			u := get(t)
			u.removes = append(u.removes, i)
		}
	}
	var out []Reason
	add := func(a, b int, words string) {
		if a != b {
			out = append(out, Reason{a, b, words})
		}
	}
	for _, t := range things {
		u := of[t]
		for _, m := range u.makes {
			for _, n := range u.needs {
				add(m, n, fmt.Sprintf("%q makes %s, which %q needs", ss[m].ID, t, ss[n].ID))
			}
			for _, r := range u.removes {
				add(m, r, fmt.Sprintf("%q makes %s, which %q takes away", ss[m].ID, t, ss[r].ID))
			}
		}
		for _, n := range u.needs {
			for _, r := range u.removes {
				add(n, r, fmt.Sprintf("%q needs %s, which %q takes away", ss[n].ID, t, ss[r].ID))
			}
		}
	}
	return out
}

// Missing is a thing that a step needs and no step makes.
type Missing struct {
	Step  int
	Thing Thing
}

// Lacking returns what steps need and nothing makes.
func Lacking(ss []Step) []Missing {
	made := map[Thing]bool{}
	for _, s := range ss {
		for _, t := range s.Makes {
			made[t] = true
		}
	}
	var out []Missing
	for i, s := range ss {
		for _, t := range s.Needs {
			if !made[t] {
				out = append(out, Missing{i, t})
			}
		}
	}
	return out
}

// CycleError says that there is no order, and names the ring of reasons.
type CycleError struct {
	Steps []string // the ring, each before the next, the last before the first
	Why   []string
}

func (e *CycleError) Error() string {
	return fmt.Sprintf("no order of the steps works: %s", strings.Join(e.Why, "; "))
}

// UnknownError says that a wish names a step that there is not.
type UnknownError struct {
	Step  string
	Known []string
}

func (e *UnknownError) Error() string {
	return fmt.Sprintf("no step is called %q", e.Step)
}

// Order returns the steps of ss, by index, in an order that keeps every reason
// and the wishes. Among the steps that may come next it takes the earliest of
// ss, so that without reasons ss stays as it is. The error is *CycleError or
// *UnknownError. Cost grows with the reasons, at most the square of the steps.
func Order(ss []Step, wish Wish) ([]int, error) {
	reasons := Reasons(ss)
	at := map[string]int{}
	for i, s := range ss {
		at[s.ID] = i
	}
	for i, name := range wish {
		k, ok := at[name]
		if !ok {
			e := &UnknownError{Step: name}
			for _, s := range ss {
				e.Known = append(e.Known, s.ID)
			}
			return nil, e
		}
		if i > 0 {
			if prev := at[wish[i-1]]; prev != k {
				reasons = append(reasons, Reason{prev, k, fmt.Sprintf("you ask for %q before %q", wish[i-1], name)})
			}
		}
	}
	after := make([][]int, len(ss)) // indexes of reasons, by the step before
	waits := make([]int, len(ss))
	for i, r := range reasons {
		after[r.Before] = append(after[r.Before], i)
		waits[r.After]++
	}
	done := make([]bool, len(ss))
	order := make([]int, 0, len(ss))
	for len(order) < len(ss) {
		next := -1
		for i := range ss {
			if !done[i] && waits[i] == 0 {
				next = i
				break
			}
		}
		if next < 0 {
			return nil, ring(ss, reasons, done)
		}
		done[next] = true
		order = append(order, next)
		for _, r := range after[next] {
			waits[reasons[r].After]--
		}
	}
	return order, nil
}

// ring finds a shortest ring among the steps that are left, through the first of
// them that lies on one.
func ring(ss []Step, reasons []Reason, done []bool) error {
	out := make([][]int, len(ss))
	for i, r := range reasons {
		if !done[r.Before] && !done[r.After] {
			out[r.Before] = append(out[r.Before], i)
		}
	}
	var best []int
	for start := range ss {
		if done[start] {
			continue
		}
		if path := back(start, reasons, out); path != nil && (best == nil || len(path) < len(best)) {
			best = path
		}
	}
	e := &CycleError{}
	for _, r := range best {
		e.Steps = append(e.Steps, ss[reasons[r].Before].ID)
		e.Why = append(e.Why, reasons[r].Words)
	}
	return e
}

// back returns the shortest chain of reasons from start back to it, breadth
// first; nil when there is none.
func back(start int, reasons []Reason, out [][]int) []int {
	from := map[int]int{} // step → reason that led there
	queue := []int{start}
	for len(queue) > 0 {
		s := queue[0]
		queue = queue[1:]
		for _, r := range out[s] {
			to := reasons[r].After
			if to == start {
				path := []int{r}
				for s != start {
					path = append([]int{from[s]}, path...)
					s = reasons[from[s]].Before
				}
				return path
			}
			if _, seen := from[to]; !seen {
				from[to] = r
				queue = append(queue, to)
			}
		}
	}
	return nil
}
