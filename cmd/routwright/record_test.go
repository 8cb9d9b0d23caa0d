package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What the README shows of a set made again is what comes out; -update writes it.
func TestReadmeAfterCut(t *testing.T) {
	page, err := filepath.Abs("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	demo, err := os.ReadFile("../../testdata/millrace.toml")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	make := func(text string) (code int, out, errs string) {
		if err := os.WriteFile("guitar.toml", []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		var stdout, stderr bytes.Buffer
		code = run([]string{"routwright", "make", "guitar.toml", "-o", "guitar", "--paper", "A4"}, &stdout, &stderr)
		return code, stdout.String(), stderr.String()
	}
	edit := func(s string, pairs ...string) string {
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(s, pairs[i]) {
				t.Fatalf("the demo has no %q", pairs[i])
			}
			s = strings.Replace(s, pairs[i], pairs[i+1], 1)
		}
		return s
	}
	moved := []string{"at = 42 ", "at = 44 "}
	cut := []string{"depth = 19\ncut = {bit = \"pattern\"}", "depth = 19\ncut = {bit = \"pattern\", done = true}"}
	if code, out, errs := make(string(demo)); code != 0 || strings.Contains(out, "hanged") {
		t.Fatalf("%d\n%s%s", code, out, errs)
	}
	code, out, errs := make(edit(string(demo), moved...))
	_, changed, _ := strings.Cut(out, "\n\n")
	if *update {
		shown := indented(excerpt(t, string(readme), "<!-- changed -->", "An edge moved"))
		readme = bytes.Replace(readme, []byte(shown), []byte(indented(changed)), 1)
		if err := os.WriteFile(page, readme, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if shown := excerpt(t, string(readme), "<!-- changed -->", "An edge moved"); code != 0 || shown != changed {
		t.Errorf("%d %s\nREADME.md shows\n%s\nmade\n%s", code, errs, shown, changed)
	}
	make(string(demo))
	if code, out, errs = make(edit(string(demo), cut...)); code != 0 || !strings.HasSuffix(out, "\nNothing changed since the set that was in guitar.\n") {
		t.Errorf("%d %s%s", code, out, errs)
	}
	before, err := os.ReadFile(filepath.Join("guitar", manifestName))
	if err != nil {
		t.Fatal(err)
	}
	code, _, errs = make(edit(string(demo), append(moved, cut...)...))
	if shown := excerpt(t, string(readme), "<!-- stop -->", "<!-- end"); code != exitStop || !strings.HasPrefix(errs, shown) {
		t.Errorf("%d\nREADME.md shows\n%s\nmade\n%s", code, shown, errs)
	}
	if after, _ := os.ReadFile(filepath.Join("guitar", manifestName)); !bytes.Equal(before, after) {
		t.Error("the set did not stay as it was")
	}
}

// excerpt returns what stands indented in a text between two others, without its
// indent.
func excerpt(t *testing.T, text, from, to string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, from)
	shown, _, ok2 := strings.Cut(rest, to)
	if !ok || !ok2 {
		t.Fatalf("README.md has no %s … %s", from, to)
	}
	var b strings.Builder
	for _, l := range strings.Split(strings.Trim(shown, "\n"), "\n") {
		b.WriteString(strings.TrimPrefix(l, "    ") + "\n")
	}
	return b.String()
}

func indented(text string) string {
	return "    " + strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n    ") + "\n"
}
