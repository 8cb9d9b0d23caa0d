package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/sheet"
	"routwright/templates/table"
)

var number = regexp.MustCompile(`-?\d+(\.\d+)?`)

// A slip of one number in a whole design never makes the program panic, nor draw what
// it cannot lay out: it is told as an error or a finding, or it builds. In a short
// run every seventh number is taken, in turn another value for each.
func TestSlipsOfOneNumber(t *testing.T) {
	step := 7
	if os.Getenv("ROUTWRIGHT_SLIPS") != "" {
		step = 1
	}
	names, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append(names, "../../testdata/millrace.toml") {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := string(src)
		for i, at := range number.FindAllStringIndex(text, -1) {
			if line := text[strings.LastIndexByte(text[:at[0]], '\n')+1 : at[0]]; i%step != 0 || strings.Contains(line, "#") || strings.Contains(line, "\"") {
				continue
			}
			was := text[at[0]:at[1]]
			for k, to := range []string{"0", "-" + was, was + "0", "0." + strings.TrimLeft(was, "-0."), "1e9"} {
				if step > 1 && (i/step)%5 != k {
					continue
				}
				slip(t, fmt.Sprintf("%s: %s → %s at byte %d", filepath.Base(name), was, to, at[0]), text[:at[0]]+to+text[at[1]:])
			}
		}
	}
}

// memory of the tests: most of their designs have the same body.
var memory job.Memory

// slip builds a design as far as it goes, in memory.
func slip(t *testing.T, what, text string) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s: panic: %v", what, p)
		}
	}()
	d, err := design.Parse("slip.toml", []byte(text))
	if err != nil {
		return
	}
	j, err := memory.Solve(d, nil)
	if err != nil {
		return
	}
	fs := check.Run(j)
	for _, f := range fs {
		if f.Check == "work-order" && len(d.Work.Order.V) == 0 {
			t.Errorf("%s: no order of the work: %s", what, f.Message)
		}
	}
	table.All(j, fs)
	sheets := sheet.All(j, "")
	for _, s := range sheets {
		if _, err := render.Layout(s, render.LayoutOptions{Bare: true}); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
	if w, _ := check.Worst(fs); w != check.Stop {
		if _, err := book.Of(book.Input{Job: j, Findings: fs, Sheets: sheets}); err != nil {
			t.Errorf("%s: book: %v", what, err)
		}
	}
}

// A design without one of its tables, or without all of one name, is refused with its
// place, or it builds: there is always an order of the work. In a short run it is the
// demo, and all tables of one name at a time.
func TestDesignsWithoutATable(t *testing.T) {
	var names []string
	whole := os.Getenv("ROUTWRIGHT_SLIPS") != ""
	if whole {
		var err error
		if names, err = filepath.Glob("../../testdata/designs/*.toml"); err != nil {
			t.Fatal(err)
		}
	}
	head := regexp.MustCompile(`(?m)^\[+([a-z_.]+)\]+`)
	for _, name := range append(names, "../../testdata/millrace.toml") {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := string(src)
		at := head.FindAllStringSubmatchIndex(text, -1)
		// without leaves out the tables that drop says, each with the tables below it.
		without := func(drop func(i int, key string) bool) string {
			out, gone := text[:at[0][0]], ""
			for i, m := range at {
				end := len(text)
				if i+1 < len(at) {
					end = at[i+1][0]
				}
				key := text[m[2]:m[3]]
				switch {
				case gone != "" && strings.HasPrefix(key, gone+"."):
				case drop(i, key):
					gone = key
				default:
					gone = ""
					out += text[m[0]:end]
				}
			}
			return out
		}
		done := map[string]bool{}
		for i, m := range at {
			key := text[m[2]:m[3]]
			if whole {
				slip(t, fmt.Sprintf("%s without table %d, %s", filepath.Base(name), i+1, key), without(func(k int, _ string) bool { return k == i }))
			}
			if !done[key] {
				done[key] = true
				slip(t, fmt.Sprintf("%s without any %s", filepath.Base(name), key), without(func(_ int, k string) bool { return k == key }))
			}
		}
	}
}
