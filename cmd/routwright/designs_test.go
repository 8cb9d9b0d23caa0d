package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"routwright/templates/check"
	"routwright/templates/sheet"
	"routwright/templates/table"
)

// Whole designs of different kinds build without a stop. Their parts, findings and
// sheets are those of the golden files beside them:
//
//	go test ./cmd/routwright -run Designs -update
func TestDesigns(t *testing.T) {
	names, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil || len(names) < 5 {
		t.Fatalf("%d designs, %v", len(names), err)
	}
	for _, name := range append(names, "../../testdata/millrace.toml") {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".toml"), func(t *testing.T) {
			t.Parallel()
			j, _, err := load(name, nil)
			if err != nil {
				t.Fatal(err)
			}
			fs := check.Run(j)
			var b bytes.Buffer
			for _, f := range fs {
				if f.Level == check.Stop {
					t.Errorf("%s: %s", f.Check, f.Message)
				}
				fmt.Fprintf(&b, "%s %s: %s\n", f.Level, f.Check, f.Message)
			}
			for _, q := range table.All(j, fs) {
				if q.Name == "parts" {
					if err := q.WriteCSV(&b); err != nil {
						t.Fatal(err)
					}
				}
			}
			for _, s := range sheet.All(j, "") {
				fmt.Fprintf(&b, "sheet %s %s\n", s.ID, sheet.Mark(s))
			}
			golden := filepath.Join("..", "..", "testdata", "designs", strings.TrimSuffix(filepath.Base(name), ".toml")+".golden")
			if *update {
				if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(string(want), b.String()); d != "" {
				t.Error(d)
			}
		})
	}
}
