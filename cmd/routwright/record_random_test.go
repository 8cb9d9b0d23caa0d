package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/record"
	"routwright/templates/sheet"
)

// Of random designs the record comes back as it was, and with every mark set the
// same design keeps every part and finds nothing to stop at. ROUTWRIGHT_RANDOM is
// how many, 12 without it; ROUTWRIGHT_SEED is where they start.
func TestRandomDesignsCut(t *testing.T) {
	n, first := 12, 1
	if v, err := strconv.Atoi(os.Getenv("ROUTWRIGHT_RANDOM")); err == nil {
		n = v
	}
	if v, err := strconv.Atoi(os.Getenv("ROUTWRIGHT_SEED")); err == nil {
		first = v
	}
	built, locked := 0, 0
	for seed := first; seed < first+n; seed++ {
		text := randomDesign(rand.New(rand.NewPCG(uint64(seed), 5)))
		parse := func() *design.Design {
			d, err := design.Parse("random.toml", []byte(text))
			if err != nil {
				return nil
			}
			return d
		}
		d := parse()
		if d == nil {
			continue
		}
		j, err := job.Solve(d, nil)
		if err != nil {
			continue
		}
		built++
		r := record.Of(j, sheet.All(j, ""))
		back := reread(t, seed, r)
		if d := cmp.Diff(r, back, cmpopts.EquateEmpty()); d != "" {
			t.Fatalf("seed %d: %s", seed, d)
		}
		if c := record.Compare(r, back); len(c.Changes) > 0 {
			t.Fatalf("seed %d: %+v", seed, c.Changes)
		}
		var texts [][]byte
		for range 2 {
			d := parse()
			markAll(reflect.ValueOf(d).Elem())
			k, err := job.SolveRound(&back.Kept, d, nil)
			if err != nil {
				t.Fatalf("seed %d: %v\n%s", seed, err, text)
			}
			for _, l := range k.Locked {
				was, ok := j.PartByID(l.Part.ID)
				if ok && (!cmp.Equal(l.Part.Solids, was.Solids, cmpopts.EquateEmpty()) || len(l.Part.Bores) == len(was.Bores) && !cmp.Equal(l.Part.Bores, was.Bores, cmpopts.EquateEmpty())) {
					t.Errorf("seed %d: %s did not stay", seed, l.Part)
				}
				locked++
			}
			for _, f := range check.Run(k) {
				if f.Check == "cut-already" {
					t.Errorf("seed %d: %s %s", seed, f.Level, f.Message)
				}
			}
			back = reread(t, seed, record.Of(k, sheet.All(k, "")))
			var b bytes.Buffer
			if err := back.Write(&b); err != nil {
				t.Fatal(err)
			}
			texts = append(texts, b.Bytes())
		}
		if !bytes.Equal(texts[0], texts[1]) {
			t.Errorf("seed %d: the record differs the second time", seed)
		}
		if t.Failed() {
			t.Fatalf("seed %d:\n%s", seed, text)
		}
	}
	t.Logf("%d of %d designs, %d parts kept", built, n, locked)
	if n >= 12 && (built < n/3 || locked < 10*built) {
		t.Errorf("%d of %d designs, %d parts: the trial looks at too little", built, n, locked)
	}
}

func reread(t *testing.T, seed int, r *record.Record) *record.Record {
	t.Helper()
	var b bytes.Buffer
	if err := r.Write(&b); err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	back, err := record.Read(b.Bytes())
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	return back
}

// markAll sets every mark of a design that says that something is cut.
func markAll(v reflect.Value) {
	switch v.Kind() {
	case reflect.Slice:
		for i := range v.Len() {
			markAll(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if m, ok := v.Field(i).Addr().Interface().(*design.Val[bool]); ok && (f.Tag.Get("toml") == "cut" || f.Name == "Done") {
				*m = design.Val[bool]{V: true, How: design.Given, At: design.Pos{File: "random.toml", Line: 1, Col: 1}}
				continue
			}
			if f.IsExported() {
				markAll(v.Field(i))
			}
		}
	}
}
