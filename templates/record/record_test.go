package record_test

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/record"
	"routwright/templates/sheet"
)

// demos are the designs that the project is tested with.
func demos(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil || len(names) < 5 {
		t.Fatal(names, err)
	}
	return append(names, "../../testdata/millrace.toml", "../../testdata/slab.toml", "../../testdata/weirhouse.toml")
}

// solveText solves a design whose files lie in dir.
func solveText(t testing.TB, kept *job.Kept, text, dir string) *job.Job {
	t.Helper()
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.SolveRound(kept, d, func(name string) (io.ReadCloser, error) { return os.Open(filepath.Join(dir, name)) })
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func read(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func written(t testing.TB, r *record.Record) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := r.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sameBits compares numbers by their bits, so that −0 is not 0.
var sameBits = cmp.Options{
	cmp.Comparer(func(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }),
}

// A record comes back bit for bit, on every design, and writes the same bytes again.
func TestRoundTrip(t *testing.T) {
	for _, name := range demos(t) {
		j := solveText(t, nil, read(t, name), filepath.Dir(name))
		r := record.Of(j, sheet.All(j, ""))
		text := written(t, r)
		back, err := record.Read(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if d := cmp.Diff(r, back, sameBits); d != "" {
			t.Errorf("%s: (-made +read)\n%s", name, d)
		}
		if !bytes.Equal(written(t, back), text) {
			t.Errorf("%s: other bytes when written again", name)
		}
		if d := record.Compare(r, back); len(d.Changes) > 0 || d.Same == 0 {
			t.Errorf("%s: %d changes, %d the same", name, len(d.Changes), d.Same)
		}
		t.Logf("%s: %d bytes, %d templates, %d sheets", filepath.Base(name), len(text), len(r.Templates), len(r.Sheets))
	}
}
