package render

import (
	"fmt"
	"strings"
	"testing"

	"routwright/geom"
)

// Whatever stands before them, a heading is never the last on a page, nor the
// caption or the head of a table.
func TestComposeKeepsTogether(t *testing.T) {
	d, err := Layout(Sheet{ID: "plate", Title: "Plate", Groups: []Group{{ID: "plate", Shapes: []Shape{{Path: geom.Rect(geom.Pt(0, 0), 90, 90)}}}}}, LayoutOptions{Bare: true})
	if err != nil {
		t.Fatal(err)
	}
	paper, _ := ParsePaper("A4")
	blocks := []Block{
		Figure{Alt: "plate", Drawing: &d, Caption: "The plate."},
		Table{Caption: "Holes", Head: []string{"hole", strings.Repeat("where it lies ", 12)}, Rows: [][]string{{"1", strings.Repeat("from the line ", 20)}, {"2", "there"}}},
		List{Items: []string{"Lay it down."}, Tick: true},
		Facts{{Name: "Bit", Value: "6.35"}, {Name: "Face", Value: "front"}},
		Caution{"Stop", strings.Repeat("Mind the edge. ", 30)},
		Para("Press it down."),
	}
	for i, b := range blocks {
		for n := range 60 {
			doc := Document{Title: "Plate", Sections: []Section{
				{ID: "lead", Title: "Lead", Blocks: []Block{List{Items: make([]string, n)}, Para(strings.Repeat("word ", 30*n))}},
				{ID: "outer", Title: "Outer", Sections: []Section{{ID: "inner", Title: "Inner", Blocks: []Block{b}}}},
			}}
			pages, err := Compose(doc, paper)
			if err != nil {
				t.Fatal(err)
			}
			for k, p := range pages[:len(pages)-1] {
				last := Text{At: geom.Pt(0, 1e9)}
				for _, w := range p.Furniture[0].Texts {
					if w.At.Y < last.At.Y {
						last = w
					}
				}
				for _, q := range p.Pictures {
					if q.At.Min.Y < last.At.Y {
						last = Text{}
					}
				}
				if last.Bold && (last.Size > bodySize || last.S == "Holes" || strings.Contains(last.S, "where it lies")) {
					t.Error(fmt.Sprintf("block %d after %d lines: page %d ends with %q", i, n, k+1, last.S))
				}
			}
		}
	}
}
