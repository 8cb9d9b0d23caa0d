package html

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
)

func sample(t *testing.T) render.Document {
	t.Helper()
	d, err := render.Layout(render.Sheet{ID: "plate", Groups: []render.Group{{ID: "plate", Shapes: []render.Shape{{Path: geom.Rect(geom.Pt(0, 0), 400, 90)}}}}}, render.LayoutOptions{Bare: true})
	if err != nil {
		t.Fatal(err)
	}
	return render.Document{Title: "Plate <1>", Lead: "How & why.", Sections: []render.Section{
		{ID: "one", Title: "First", Blocks: []render.Block{
			render.Para("a < b"), render.Caution{Word: "Stop", Text: "Eyes."},
			render.List{Items: []string{"x"}, Tick: true}, render.List{Items: []string{"y"}, Ordered: true},
			render.Facts{{Name: "Bit", Value: "6.35 mm"}},
			render.Table{Caption: "Drills", Head: []string{"d", "for"}, Rows: [][]string{{"3", "wire"}}, Number: []bool{true}, Tick: true},
			render.Figure{Alt: "the plate", Drawing: &d, Caption: "1:1"}, render.Figure{Alt: "dots", PNG: []byte("png"), WidthMM: 80},
		}, Sections: []render.Section{{ID: "below", Title: "Below"}}},
	}}
}

func draw(w io.Writer, d render.Drawing) error {
	_, err := fmt.Fprintf(w, "<svg>%s</svg>", d.ID)
	return err
}

// The file is well formed, its headings go down one rank at a time, every
// picture has words, every box a label, and nothing points outside.
func TestWriteIsSound(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample(t), draw); err != nil {
		t.Fatal(err)
	}
	dec := xml.NewDecoder(&b)
	dec.Strict, dec.Entity = true, xml.HTMLEntity
	rank, pictures, boxes, ids := 0, 0, 0, map[string]bool{}
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		if id := attr["id"]; id != "" {
			if ids[id] {
				t.Errorf("two elements of id %q", id)
			}
			ids[id] = true
		}
		switch n := e.Name.Local; {
		case len(n) == 2 && n[0] == 'h' && n[1] >= '1' && n[1] <= '6':
			if r := int(n[1] - '0'); r > rank+1 {
				t.Errorf("a heading of rank %d follows one of rank %d", r, rank)
			} else {
				rank = r
			}
		case n == "img":
			pictures++
			if attr["alt"] == "" || !strings.HasPrefix(attr["src"], "data:") {
				t.Errorf("picture %v", attr)
			}
		case n == "input":
			boxes++
		case n == "script" || n == "link" || n == "iframe":
			t.Errorf("an element %s", n)
		case n == "a" && !strings.HasPrefix(attr["href"], "#"):
			t.Errorf("a link to %s", attr["href"])
		}
	}
	if pictures != 2 || boxes != 2 {
		t.Errorf("%d pictures, %d boxes to tick; want 2 and 2", pictures, boxes)
	}
}

func TestWriteTheSame(t *testing.T) {
	var a, b bytes.Buffer
	if err := errors.Join(Write(&a, sample(t), draw), Write(&b, sample(t), draw)); err != nil {
		t.Fatal(err)
	}
	if a.String() != b.String() {
		t.Error("two files of the same document")
	}
}

func TestWriteRefuses(t *testing.T) {
	d := sample(t)
	d.Sections = append(d.Sections, d.Sections[0])
	if err := Write(io.Discard, d, draw); err == nil || !strings.Contains(err.Error(), `"one"`) {
		t.Errorf("two sections of one id: %v", err)
	}
	bad := errors.New("no ink")
	if err := Write(io.Discard, sample(t), func(io.Writer, render.Drawing) error { return bad }); !errors.Is(err, bad) {
		t.Errorf("a picture that cannot be drawn: %v", err)
	}
}
