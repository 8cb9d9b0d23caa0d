package job_test

import (
	"reflect"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"routwright/templates/design"
	"routwright/templates/job"
)

// With a memory the same jobs and the same errors come out as without, whatever
// was solved before, and from several goroutines.
func TestMemory(t *testing.T) {
	head := "design = 1\nunits = \"mm\"\n[body]\n"
	texts := []string{
		head + "family = \"lowland\"\n",
		head + "family = \"lowland\"\n[body.measures]\nlower = 330\n",
		head + "family = \"lowland\"\n[body.measures]\nlower = 331\n",
		head + "family = \"lowland\"\n[body.measures]\nlower = 3\n",
		head + "family = \"nowhere\"\n",
		head,
	}
	var m job.Memory
	var wg sync.WaitGroup
	for range 3 {
		for _, text := range texts {
			wg.Go(func() {
				d, err := design.Parse("g.toml", []byte(text))
				if err != nil {
					t.Error(err)
					return
				}
				want, err1 := job.Solve(d, nil)
				got, err2 := m.Solve(d, nil)
				if (err1 == nil) != (err2 == nil) || err1 != nil && err1.Error() != err2.Error() {
					t.Errorf("%s: %v without, %v with", text, err1, err2)
					return
				}
				if err1 == nil && !reflect.DeepEqual(want, got) {
					t.Errorf("%s: another job: %s", text, cmp.Diff(want.Assumed, got.Assumed))
				}
			})
		}
	}
	wg.Wait()
}
