package render

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"routwright/geom"
)

// manual is a document with every kind of block, long enough for several pages.
func manual(t *testing.T) Document {
	t.Helper()
	d, err := Layout(Sheet{ID: "plate", Title: "Plate", Groups: []Group{{ID: "plate", Shapes: []Shape{{Path: geom.Rect(geom.Pt(0, 0), 400, 90)}}}}}, LayoutOptions{Bare: true})
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewGray(image.Rect(0, 0, 30, 20))
	img.SetGray(3, 4, color.Gray{200})
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	rows := make([][]string, 90)
	for i := range rows {
		rows[i] = []string{"screw", "8.5", strings.Repeat("a long remark on it ", i%9)}
	}
	words := strings.Repeat("Lay the plate on the pins and press it down. ", 30)
	return Document{Title: "Plate", Lead: "How to make a plate.", Sections: []Section{
		{ID: "one", Title: "First", Blocks: []Block{Para(words), Figure{Alt: "plate", Drawing: &d, Caption: "The plate, 1:1."}, Figure{Alt: "dot", PNG: b.Bytes(), WidthMM: 60}}},
		{ID: "two", Title: "Second", NewPage: true, Blocks: []Block{
			List{Items: []string{"one", words, "three"}, Tick: true}, List{Items: []string{"a", "b"}, Ordered: true},
			Facts{{Name: "Bit", Value: "6.35"}, {Name: "Depth", Value: words}}, Caution{"Stop", words},
			Table{Caption: "Screws", Head: []string{"what", "d", "remark"}, Rows: rows, Number: []bool{false, true}, Tick: true},
		}, Sections: []Section{{ID: "below", Title: "Below", Blocks: []Block{Para(strings.Repeat("W", 400))}}}},
	}}
}

func TestComposeStaysOnThePaper(t *testing.T) {
	for _, name := range []string{"A4", "Letter", "A5 148 x 210 mm"} {
		paper, err := ParsePaper(strings.TrimPrefix(name, "A5 "))
		if err != nil {
			t.Fatal(err)
		}
		pages, err := Compose(manual(t), paper)
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) < 4 {
			t.Errorf("%s: %d pages", name, len(pages))
		}
		for _, p := range pages {
			if b := boundsOf(p.Furniture); b.Min.X < composeMargin-1 || b.Min.Y < composeMargin-1 || b.Max.X > p.W-composeMargin+1 || b.Max.Y > p.H-composeMargin+4 {
				t.Errorf("%s, page %s: the words and lines cover %v", name, p.Name, b)
			}
		}
	}
	if _, err := Compose(manual(t), Paper{Name: "roll", W: 610}); err == nil {
		t.Error("a roll is no paper for a book")
	}
}

// No two words of a page overlap.
func TestComposeWordsKeepApart(t *testing.T) {
	paper, _ := ParsePaper("A4")
	pages, err := Compose(manual(t), paper)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		ts := p.Furniture[0].Texts
		for i, a := range ts {
			for _, b := range ts[:i] {
				if a.Box().Overlaps(b.Box()) {
					t.Errorf("page %s: %q lies on %q", p.Name, a.S, b.S)
				}
			}
		}
	}
}

// All words of the document are on the pages, in order.
func TestComposeKeepsEveryWord(t *testing.T) {
	paper, _ := ParsePaper("Letter")
	pages, err := Compose(manual(t), paper)
	if err != nil {
		t.Fatal(err)
	}
	var got strings.Builder
	for _, p := range pages {
		for _, w := range p.Furniture[0].Texts {
			got.WriteString(w.S)
		}
	}
	if n := strings.Count(got.String(), "W"); n != 400 {
		t.Errorf("%d of 400 letters of a word that is wider than the page", n)
	}
	if n := strings.Count(got.String(), "screw"); n != 90 {
		t.Errorf("%d of 90 rows", n)
	}
}
