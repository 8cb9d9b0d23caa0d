// Package pdftest reads back the PDF files of this program, for tests: the pages
// and what their path operators draw (PDF 1.7, 7.3 and 8.5). It shares nothing
// with the writer.
package pdftest

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"routwright/geom"
)

const pt = 72 / 25.4 // points in a mm

// Page is a page as read.
type Page struct {
	Object  int     // its number
	W, H    float64 // of the media box, mm
	Content string  // operators
}

// Figure is a painted path: its points in mm on the page, curves by their ends
// and their middles, and how it was painted.
type Figure struct {
	Op     string   // the painting operator: S, s, f, b, B
	Width  float64  // of the stroke, mm
	Dashed bool     //
	Clip   geom.Box // empty: none
	Curved bool     // some piece is a curve
	At     []geom.Point
}

var (
	objectStart = regexp.MustCompile(`(?m)^(\d+) 0 obj\s`)
	reference   = regexp.MustCompile(`(\d+) 0 R`)
	kidsEntry   = regexp.MustCompile(`/Kids \[([^\]]*)\]`)
	mediaBox    = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	number      = regexp.MustCompile(`^-?\d+(\.\d+)?$`)
)

// Objects returns the last version of each object, by number.
func Objects(b []byte) map[int]string {
	out := map[int]string{}
	for _, m := range objectStart.FindAllSubmatchIndex(b, -1) {
		n, _ := strconv.Atoi(string(b[m[2]:m[3]]))
		if end := bytes.Index(b[m[1]:], []byte("endobj")); end >= 0 {
			out[n] = string(b[m[1] : m[1]+end])
		}
	}
	return out
}

// Ref returns the number of the object that a dictionary's entry points to, 0 if
// there is none.
func Ref(dict, entry string) int {
	m := regexp.MustCompile(`/` + entry + ` (\d+) 0 R`).FindStringSubmatch(dict)
	if m == nil {
		return 0
	}
	n, _ := strconv.Atoi(m[1])
	return n
}

// Catalog returns the root object as the last trailer names it.
func Catalog(b []byte) string {
	i := bytes.LastIndex(b, []byte("trailer"))
	if i < 0 {
		return ""
	}
	return Objects(b)[Ref(string(b[i:]), "Root")]
}

// Pages returns the pages in order.
func Pages(b []byte) ([]Page, error) {
	objs := Objects(b)
	tree := objs[Ref(Catalog(b), "Pages")]
	kids := kidsEntry.FindStringSubmatch(tree)
	if kids == nil {
		return nil, fmt.Errorf("no pages in %.80q", tree)
	}
	var out []Page
	for _, m := range reference.FindAllStringSubmatch(kids[1], -1) {
		n, _ := strconv.Atoi(m[1])
		content, err := inflate(objs[Ref(objs[n], "Contents")])
		if err != nil {
			return nil, err
		}
		box := mediaBox.FindStringSubmatch(objs[n])
		if box == nil {
			box = mediaBox.FindStringSubmatch(tree)
		}
		if box == nil {
			return nil, fmt.Errorf("object %d: a page without a media box", n)
		}
		w, _ := strconv.ParseFloat(box[1], 64)
		h, _ := strconv.ParseFloat(box[2], 64)
		out = append(out, Page{n, w / pt, h / pt, content})
	}
	return out, nil
}

func inflate(obj string) (string, error) {
	_, data, ok := strings.Cut(obj, "stream\n")
	if !ok {
		return "", fmt.Errorf("no stream in %.80q", obj)
	}
	r, err := zlib.NewReader(strings.NewReader(data))
	if err != nil {
		return "", err
	}
	b, err := io.ReadAll(r)
	return string(b), err
}

// state is what q keeps and Q restores.
type state struct {
	m      [6]float64
	clip   geom.Box
	width  float64
	dashed bool
}

// interpreter runs the operators of a page that draw paths.
type interpreter struct {
	state
	stack []state
	f     Figure
	rect  geom.Box
	out   []Figure
}

// Figures returns what the page paints, in order.
func (p Page) Figures() []Figure {
	in := interpreter{state: state{m: [6]float64{1, 0, 0, 1, 0, 0}}}
	var args []float64
	for _, w := range strings.Fields(p.Content) {
		if strings.HasPrefix(w, "[") { // the dash array is the only one
			in.dashed = w != "[]"
			args = args[:0]
			continue
		}
		if number.MatchString(w) {
			v, _ := strconv.ParseFloat(w, 64)
			args = append(args, v)
			continue
		}
		if strings.HasSuffix(w, "]") {
			continue
		}
		in.operator(w, args)
		args = args[:0]
	}
	return in.out
}

func (in *interpreter) mm(x, y float64) geom.Point {
	m := in.m
	return geom.Pt((m[0]*x+m[2]*y+m[4])/pt, (m[1]*x+m[3]*y+m[5])/pt)
}

func (in *interpreter) operator(op string, a []float64) {
	need := map[string]int{"cm": 6, "m": 2, "l": 2, "c": 6, "re": 4, "w": 1}
	if len(a) < need[op] {
		return // words of a text look like operators
	}
	switch op {
	case "q":
		in.stack = append(in.stack, in.state)
	case "Q":
		if n := len(in.stack); n > 0 {
			in.state, in.stack = in.stack[n-1], in.stack[:n-1]
		}
	case "cm":
		m := in.m
		in.m = [6]float64{
			a[0]*m[0] + a[1]*m[2], a[0]*m[1] + a[1]*m[3], a[2]*m[0] + a[3]*m[2], a[2]*m[1] + a[3]*m[3],
			a[4]*m[0] + a[5]*m[2] + m[4], a[4]*m[1] + a[5]*m[3] + m[5],
		}
	case "w":
		in.width = a[0] / pt
	case "m", "l":
		in.f.At = append(in.f.At, in.mm(a[0], a[1]))
	case "c":
		if len(in.f.At) > 0 {
			c := geom.Cubic{in.f.At[len(in.f.At)-1], in.mm(a[0], a[1]), in.mm(a[2], a[3]), in.mm(a[4], a[5])}
			in.f.At, in.f.Curved = append(in.f.At, c.At(0.5), c[3]), true
		}
	case "re":
		in.rect = geom.BoxOf(in.mm(a[0], a[1]), in.mm(a[0]+a[2], a[1]+a[3]))
	case "W":
		in.clip = in.rect
	case "S", "s", "f", "b", "B":
		if len(in.f.At) > 0 {
			in.f.Op, in.f.Width, in.f.Dashed, in.f.Clip = op, in.width, in.dashed, in.clip
			in.out = append(in.out, in.f)
		}
		in.f = Figure{}
	case "n":
		in.f = Figure{}
	}
}
