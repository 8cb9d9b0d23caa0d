package steps_test

import (
	"fmt"
	"strings"
	"testing"

	"routwright/templates/job/jobtest"
	"routwright/templates/steps"
)

// The order of every design works when it is replayed with the things that are
// there, and every step says with what, how deep, on which face, from which datum,
// what to do, and what can hurt.
func TestDesignsAreOrderedAndSaid(t *testing.T) {
	for name, j := range jobtest.Solved(t, "slab.toml") {
		if m := steps.Lacking(steps.Of(j)); len(m) > 0 {
			t.Errorf("%s: step %d lacks %s", name, m[0].Step, m[0].Thing)
		}
		ss, err := steps.Ordered(j)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		makers := map[steps.Thing]int{}
		for _, s := range ss {
			for _, m := range s.Makes {
				makers[m]++
			}
		}
		made, gone, ids := map[steps.Thing]int{}, map[steps.Thing]string{}, map[string]bool{}
		for _, s := range ss {
			for _, n := range s.Needs {
				if made[n] < makers[n] {
					t.Errorf("%s: %s comes before %s is there", name, s.ID, n)
				}
				if by := gone[n]; by != "" {
					t.Errorf("%s: %s needs %s, which %s took away", name, s.ID, n, by)
				}
			}
			for _, m := range s.Makes {
				made[m]++
			}
			for _, r := range s.Removes {
				gone[r] = s.ID
			}
			if ids[s.ID] {
				t.Errorf("%s: two steps %s", name, s.ID)
			}
			ids[s.ID] = true
			for what, words := range map[string]string{"title": s.Title, "face": s.Face, "datum": s.Datum, "tool": s.Tool, "depth": s.Depth, "caution": s.Caution, "text": strings.Join(s.Do, "")} {
				if strings.TrimSpace(words) == "" {
					t.Errorf("%s: step %s has no %s", name, s.ID, what)
				}
			}
			if !strings.Contains(s.Caution, "ollow the") && !strings.Contains(s.Caution, "rotection") && !strings.Contains(s.Caution, "first") && !strings.Contains(s.Caution, "hands") {
				t.Errorf("%s: the caution of %s defers to nobody: %s", name, s.ID, s.Caution)
			}
		}
	}
}

// Every template of a design is used by a step, and the one that saws the pins off
// comes after all that sit on them.
func TestEveryTemplateHasItsStep(t *testing.T) {
	for name, j := range jobtest.Solved(t, "slab.toml") {
		ss, err := steps.Ordered(j)
		if err != nil {
			t.Fatal(err)
		}
		at := map[string]int{}
		saw := -1
		for i, s := range ss {
			if s.Template != "" {
				at[s.Template] = i
			}
			if s.ID == "saw-outline" {
				saw = i
			}
		}
		for _, q := range j.Templates {
			i, ok := at[q.ID]
			if !ok {
				t.Errorf("%s: no step uses the template %s", name, q.ID)
				continue
			}
			if q.Pinned() && i > saw {
				t.Errorf("%s: %s sits on pins that are gone", name, q.ID)
			}
		}
	}
}

func ExampleOrder() {
	ss := []steps.Step{
		{ID: "saw", Removes: []steps.Thing{"the pins"}},
		{ID: "bore", Makes: []steps.Thing{"the pins"}},
		{ID: "rout", Needs: []steps.Thing{"the pins"}},
	}
	order, err := steps.Order(ss, nil)
	fmt.Println(order, err)
	_, err = steps.Order(ss, steps.Wish{"saw", "rout"})
	fmt.Println(err)
	// Output:
	// [1 2 0] <nil>
	// no order of the steps works: you ask for "saw" before "rout"; "rout" needs the pins, which "saw" takes away
}
