package steps

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// replay is a check of its own: it walks through an order with the set of things
// that are there and watches that each step finds what it needs.
func replay(ss []Step, order []int) error {
	have := map[Thing]int{} // makers still to come are counted down
	for _, s := range ss {
		for _, t := range s.Makes {
			have[t]++
		}
	}
	made, gone := map[Thing]int{}, map[Thing]bool{}
	seen := map[int]bool{}
	for _, i := range order {
		if seen[i] {
			return fmt.Errorf("step %q comes twice", ss[i].ID)
		}
		seen[i] = true
		for _, t := range ss[i].Needs {
			switch {
			case gone[t]:
				return fmt.Errorf("step %q needs %q, which is gone", ss[i].ID, t)
			case made[t] < have[t]:
				return fmt.Errorf("step %q needs %q, which is not finished", ss[i].ID, t)
			}
		}
		for _, t := range ss[i].Makes {
			made[t]++
		}
		for _, t := range ss[i].Removes {
			gone[t] = true
		}
	}
	if len(order) != len(ss) {
		return fmt.Errorf("%d of %d steps", len(order), len(ss))
	}
	return nil
}

// random returns steps that have an order: things are made early and taken
// away late in a hidden order, then the steps are shuffled.
func random(rnd *rand.Rand) []Step {
	n := 2 + rnd.IntN(30)
	ss := make([]Step, n)
	for i := range ss {
		ss[i].ID = fmt.Sprint("s", i)
	}
	for t := range 1 + rnd.IntN(2*n) {
		thing := Thing(fmt.Sprint("t", t))
		maker := rnd.IntN(n)
		ss[maker].Makes = append(ss[maker].Makes, thing)
		last := maker
		for k := maker + 1; k < n; k++ {
			if rnd.IntN(4) == 0 {
				ss[k].Needs = append(ss[k].Needs, thing)
				last = k
			}
		}
		if k := last + rnd.IntN(n-last); k > maker && rnd.IntN(2) == 0 {
			ss[k].Removes = append(ss[k].Removes, thing)
		}
	}
	rnd.Shuffle(n, func(a, b int) { ss[a], ss[b] = ss[b], ss[a] })
	return ss
}

func TestOrderOfRandomSteps(t *testing.T) {
	for seed := range uint64(500) {
		ss := random(rand.New(rand.NewPCG(seed, 3)))
		order, err := Order(ss, nil)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if err := replay(ss, order); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
	}
}

// A wish is kept where it can be, and refused only where a reason, or a chain of
// them, says the opposite.
func TestOrderKeepsWishes(t *testing.T) {
	kept, refused := 0, 0
	for seed := range uint64(300) {
		rnd := rand.New(rand.NewPCG(seed, 4))
		ss := random(rnd)
		a, b := rnd.IntN(len(ss)), rnd.IntN(len(ss))
		if a == b {
			continue
		}
		order, err := Order(ss, Wish{ss[a].ID, ss[b].ID})
		var cycle *CycleError
		switch {
		case err == nil:
			kept++
			if err := replay(ss, order); err != nil {
				t.Fatal(err)
			}
			for _, i := range order {
				if i == a {
					break
				}
				if i == b {
					t.Fatalf("seed %d: %q comes before %q", seed, ss[b].ID, ss[a].ID)
				}
			}
		case errors.As(err, &cycle):
			refused++
			if !reaches(Reasons(ss), b, a) {
				t.Fatalf("seed %d: refused without a reason: %v", seed, err)
			}
			if !strings.Contains(err.Error(), "you ask for") {
				t.Errorf("seed %d: the wish is not named: %v", seed, err)
			}
		default:
			t.Fatal(err)
		}
	}
	if kept == 0 || refused == 0 {
		t.Errorf("%d kept, %d refused: the test looks at one case only", kept, refused)
	}
}

func reaches(rs []Reason, from, to int) bool {
	seen := map[int]bool{from: true}
	for grew := true; grew; {
		grew = false
		for _, r := range rs {
			if seen[r.Before] && !seen[r.After] {
				seen[r.After], grew = true, true
			}
		}
	}
	return seen[to]
}

func TestOrderNamesTheRing(t *testing.T) {
	ss := []Step{
		{ID: "saw", Removes: []Thing{"the pins"}},
		{ID: "bore", Makes: []Thing{"the pins"}},
		{ID: "rout", Needs: []Thing{"the pins"}},
	}
	order, err := Order(ss, nil)
	if err != nil || fmt.Sprint(order) != "[1 2 0]" {
		t.Errorf("%v, %v", order, err)
	}
	_, err = Order(ss, Wish{"saw", "rout"})
	want := `no order of the steps works: you ask for "saw" before "rout"; "rout" needs the pins, which "saw" takes away`
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	_, err = Order(ss, Wish{"saw", "plane"})
	var unknown *UnknownError
	if !errors.As(err, &unknown) || unknown.Step != "plane" || len(unknown.Known) != 3 {
		t.Errorf("unknown step: %v", err)
	}
	if m := Lacking(append(ss, Step{ID: "glue", Needs: []Thing{"glue"}})); len(m) != 1 || m[0].Thing != "glue" {
		t.Errorf("lacking: %v", m)
	}
}
