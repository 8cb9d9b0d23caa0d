package book_test

import (
	"bufio"
	"os"
	"path"
	"slices"
	"strings"
	"testing"

	"routwright/render"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
)

// makeBook returns the book of a design after a change of its text, "a → b", if any.
func makeBook(t *testing.T, name, change string) render.Document {
	t.Helper()
	var edits []string
	if a, b, ok := strings.Cut(change, " → "); ok {
		edits = []string{a, b}
	}
	j := jobtest.File(t, strings.TrimPrefix(name, "testdata/"), edits...)
	doc, err := book.Of(book.Input{Job: j, Findings: check.Run(j), Sheets: sheet.All(j, "")})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// answers returns what a section says at a place: the values of a fact of that name,
// or all that stands in its lists ("Do"), tables, paragraphs or cautions, its
// subsections with it.
func answers(s render.Section, where string) []string {
	var out []string
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case render.Facts:
			for _, f := range b {
				if f.Name == where {
					out = append(out, f.Value)
				}
			}
		case render.List:
			if where == "Do" {
				out = append(out, b.Items...)
			}
		case render.Table:
			if where == "Table" {
				out = append(out, b.Caption, strings.Join(b.Head, " | "))
				for _, r := range b.Rows {
					out = append(out, strings.Join(r, " | "))
				}
			}
		case render.Para:
			if where == "Para" {
				out = append(out, string(b))
			}
		case render.Caution:
			if where == "Caution" {
				out = append(out, b.Text)
			}
		}
	}
	for _, q := range s.Sections {
		out = append(out, answers(q, where)...)
	}
	return out
}

// Every question that following the book raised is answered where testdata/walk.md
// says: in every step of that name.
func TestWalk(t *testing.T) {
	f, err := os.Open("../../testdata/walk.md")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var doc render.Document
	in, rows := "", 0
	for line := bufio.NewScanner(f); line.Scan(); {
		text := line.Text()
		if name, ok := strings.CutPrefix(text, "## "); ok {
			name, change, _ := strings.Cut(name, ", ")
			doc, in = makeBook(t, name, change), name
			continue
		}
		if in == "" || !strings.HasPrefix(text, "| ") || strings.HasPrefix(text, "| question |") {
			continue
		}
		cells := strings.Split(strings.Trim(text, "| "), " | ")
		if len(cells) != 4 {
			t.Errorf("%s: a row of %d cells: %s", in, len(cells), text)
			continue
		}
		rows++
		question, step, where, says := cells[0], cells[1], cells[2], cells[3]
		found := 0
		doc.Walk(func(s render.Section, _ int) {
			id, isStep := strings.CutPrefix(s.ID, "step-")
			if section, ok := strings.CutPrefix(step, "#"); ok {
				if s.ID != section {
					return
				}
			} else if ok, err := path.Match(step, id); !isStep || err != nil || !ok {
				return
			}
			found++
			got := answers(s, where)
			if !slices.ContainsFunc(got, func(a string) bool { return strings.Contains(a, says) }) {
				t.Errorf("%s: %s\n  %s of %s does not say %q, but %q", in, question, where, s.ID, says, got)
			}
		})
		if found == 0 {
			t.Errorf("%s: %s: there is no step %q", in, question, step)
		}
	}
	if rows < 100 {
		t.Errorf("%d questions were looked up", rows)
	}
}
