package jobtest

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"routwright/templates/design"
	"routwright/templates/job"
)

// Path returns where a file of testdata lies.
func Path(name string) string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "..", "..", "..", "testdata", name)
}

// Designs returns the names below testdata of the designs that show everything, the
// demo last.
func Designs(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob(Path("designs/*.toml"))
	if err != nil || len(names) == 0 {
		t.Fatalf("%d designs, %v", len(names), err)
	}
	for i, n := range names {
		names[i] = "designs/" + filepath.Base(n)
	}
	return append(names, "millrace.toml")
}

// Solved returns Designs and the other files named, solved, by the last part of their
// name.
func Solved(t testing.TB, more ...string) map[string]*job.Job {
	t.Helper()
	out := map[string]*job.Job{}
	for _, n := range append(Designs(t), more...) {
		out[filepath.Base(n)] = File(t, n)
	}
	return out
}

// Source returns the text of a design of testdata, edited: old, new, old, new …
// An old text that it does not hold fails the test.
func Source(t testing.TB, name string, edits ...string) string {
	t.Helper()
	src, err := os.ReadFile(Path(name))
	if err != nil {
		t.Fatal(err)
	}
	text := string(src)
	for i := 0; i+1 < len(edits); i += 2 {
		if !strings.Contains(text, edits[i]) {
			t.Fatalf("%s does not hold %q", name, edits[i])
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return text
}

// File solves a design of testdata, edited as by Source.
func File(t testing.TB, name string, edits ...string) *job.Job {
	t.Helper()
	return Text(t, name, Source(t, name, edits...))
}

// Text solves the text of a design; name is what errors call it.
func Text(t testing.TB, name, text string) *job.Job {
	t.Helper()
	d, err := design.Parse(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Solve(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j
}
