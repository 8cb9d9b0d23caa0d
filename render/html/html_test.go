package html

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
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
	rank, pictures, boxes, scripts, ids := 0, 0, 0, 0, map[string]bool{}
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
		case n == "script" && len(e.Attr) == 0:
			scripts++
		case n == "script" || n == "link" || n == "iframe":
			t.Errorf("an element %s", n)
		case n == "a" && !strings.HasPrefix(attr["href"], "#"):
			t.Errorf("a link to %s", attr["href"])
		}
	}
	if pictures != 2 || boxes != 2 || scripts != 1 {
		t.Errorf("%d pictures, %d boxes to tick, %d scripts; want 2, 2 and the one that keeps ticks", pictures, boxes, scripts)
	}
}

// A document without boxes needs no script.
func TestWriteNoScript(t *testing.T) {
	var b bytes.Buffer
	d := render.Document{Title: "A", Sections: []render.Section{{ID: "a", Title: "A", Blocks: []render.Block{render.Para("a")}}}}
	if err := Write(&b, d, draw); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "<script") {
		t.Error("a script without a box to tick")
	}
}

// A box keeps its name when the document grows before it, so that its tick stays,
// and gets another when its words change. Boxes of the same words differ.
func TestTickNames(t *testing.T) {
	names := func(items ...string) []string {
		var b bytes.Buffer
		d := render.Document{Title: "A", Sections: []render.Section{{ID: "a", Title: "A", Blocks: []render.Block{render.List{Tick: true, Items: items}}}}}
		if err := Write(&b, d, draw); err != nil {
			t.Fatal(err)
		}
		return regexp.MustCompile(`tick-[0-9a-f]{16}`).FindAllString(b.String(), -1)
	}
	short, long, other := names("cut"), names("mark", "cut", "cut"), names("cut twice")
	if len(short) != 1 || len(long) != 3 || len(other) != 1 {
		t.Fatalf("%v %v %v: want 1, 3 and 1 names", short, long, other)
	}
	if short[0] != long[1] || long[1] == long[2] || short[0] == other[0] {
		t.Errorf("names %v, %v, %v", short, long, other)
	}
}

// A table's rows lead to sections, and only to such as are there.
func TestTableLeads(t *testing.T) {
	d := render.Document{Title: "A", Sections: []render.Section{{ID: "a", Title: "A", Blocks: []render.Block{
		render.Table{Caption: "T", Head: []string{"x"}, Rows: [][]string{{"here"}, {"nowhere"}}, To: []string{"a"}}}}}}
	var b bytes.Buffer
	if err := Write(&b, d, draw); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), `<a href="#a">here</a>`) || strings.Contains(b.String(), ">nowhere</a>") {
		t.Error("the first row leads to no section, or the second to one")
	}
	d.Sections[0].Blocks[0] = render.Table{Caption: "T", Head: []string{"x"}, Rows: [][]string{{"there"}}, To: []string{"b"}}
	if err := Write(&b, d, draw); err == nil || !strings.Contains(err.Error(), `"b"`) {
		t.Errorf("a row that leads to no section: %v", err)
	}
}

// The smallest letters of a drawing say how small it may be shown.
func TestSmallest(t *testing.T) {
	d := render.Drawing{Bounds: geom.Box{Min: geom.Pt(0, 0), Max: geom.Pt(400, 90)},
		Groups: []render.Group{{Groups: []render.Group{{Texts: []render.Text{{S: "a", Size: 20}, {S: "b", Size: 10}}}}}}}
	if got, want := smallest(&d), render.FontSize(10, false); got != want {
		t.Errorf("smallest letters %v mm, want %v", got, want)
	}
	if got := smallest(&render.Drawing{}); got != 0 {
		t.Errorf("smallest letters of none: %v", got)
	}
}

func TestAbreast(t *testing.T) {
	small, large := render.Figure{WidthMM: 80}, render.Figure{WidthMM: 120}
	for _, c := range []struct {
		blocks []render.Block
		want   int
	}{
		{nil, 0}, {[]render.Block{small}, 1}, {[]render.Block{small, small, render.Para("")}, 2},
		{[]render.Block{large, small}, 0}, {[]render.Block{small, render.Figure{}}, 1},
	} {
		if got := abreast(c.blocks); got != c.want {
			t.Errorf("abreast(%v) = %d, want %d", c.blocks, got, c.want)
		}
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
