package check_test

import (
	"flag"
	"os"
	"strings"
	"testing"

	"routwright/templates/check"
)

var update = flag.Bool("update", false, "rewrite the list of checks in DEVELOPERS.md")

// DEVELOPERS.md holds the list of checks as the registry gives it.
func TestList(t *testing.T) {
	t.Parallel()
	const name, head, tail = "../../DEVELOPERS.md", "<!-- checks -->\n", "<!-- end of checks -->"
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(b), head)
	_, after, ok2 := strings.Cut(rest, tail)
	if !ok || !ok2 {
		t.Fatalf("DEVELOPERS.md has no %q … %q", strings.TrimSpace(head), tail)
	}
	want := before + head + "\n" + check.List() + "\n" + tail + after
	if string(b) == want {
		return
	}
	if !*update {
		t.Fatal("DEVELOPERS.md does not hold the checks of today: go test ./templates/check -run List -update")
	}
	if err := os.WriteFile(name, []byte(want), 0o666); err != nil {
		t.Fatal(err)
	}
}
