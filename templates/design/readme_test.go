package design

import (
	"os"
	"strings"
	"testing"
)

// The README holds the reference of the design file as the types give it.
func TestReadme(t *testing.T) {
	const name, head, tail = "../../README.md", "<!-- reference -->\n", "<!-- end of reference -->"
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(b), head)
	_, after, ok2 := strings.Cut(rest, tail)
	if !ok || !ok2 {
		t.Fatalf("README.md has no %q … %q", strings.TrimSpace(head), tail)
	}
	want := before + head + "\n" + Reference() + "\n" + tail + after
	if string(b) == want {
		return
	}
	if !*update {
		t.Fatal("README.md does not hold the reference of today: go test ./templates/design -run Readme -update")
	}
	if err := os.WriteFile(name, []byte(want), 0o666); err != nil {
		t.Fatal(err)
	}
}
