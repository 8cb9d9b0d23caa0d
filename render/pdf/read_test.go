package pdf

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"routwright/geom"
)

// The reader of these tests knows as much of PDF as they need: objects by
// number, streams, and the path operators of a page (PDF 1.7, 7.3, 8.5).

var (
	objectStart = regexp.MustCompile(`(?m)^(\d+) 0 obj\s`)
	number      = regexp.MustCompile(`^-?\d+(\.\d+)?$`)
)

// readObjects returns the last version of each object.
func readObjects(b []byte) map[int]string {
	out := map[int]string{}
	for _, m := range objectStart.FindAllSubmatchIndex(b, -1) {
		n, _ := strconv.Atoi(string(b[m[2]:m[3]]))
		end := bytes.Index(b[m[1]:], []byte("endobj"))
		if end >= 0 {
			out[n] = string(b[m[1] : m[1]+end])
		}
	}
	return out
}

// ref returns the number of the object that a dictionary's entry points to.
func ref(t *testing.T, dict, entry string) int {
	t.Helper()
	m := regexp.MustCompile(`/` + entry + ` (\d+) 0 R`).FindStringSubmatch(dict)
	if m == nil {
		t.Fatalf("no %s in %s", entry, dict)
	}
	n, _ := strconv.Atoi(m[1])
	return n
}

// readPage is a page as read.
type readPage struct {
	object  int
	w, h    float64 // of the media box, mm
	content string
}

// readPages returns the pages in order.
func readPages(t *testing.T, b []byte) []readPage {
	t.Helper()
	objs := readObjects(b)
	trailer := string(b[bytes.LastIndex(b, []byte("trailer")):])
	tree := objs[ref(t, objs[ref(t, trailer, "Root")], "Pages")]
	kids := regexp.MustCompile(`/Kids \[([^\]]*)\]`).FindStringSubmatch(tree)
	if kids == nil {
		t.Fatalf("no /Kids in %s", tree)
	}
	var out []readPage
	for _, m := range regexp.MustCompile(`(\d+) 0 R`).FindAllStringSubmatch(kids[1], -1) {
		n, _ := strconv.Atoi(m[1])
		p := readPage{object: n, content: stream(t, objs[ref(t, objs[n], "Contents")])}
		box := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`).FindStringSubmatch(objs[n])
		if box == nil {
			box = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`).FindStringSubmatch(tree)
		}
		w, _ := strconv.ParseFloat(box[1], 64)
		h, _ := strconv.ParseFloat(box[2], 64)
		p.w, p.h = w/pt, h/pt
		out = append(out, p)
	}
	return out
}

func stream(t *testing.T, obj string) string {
	t.Helper()
	i := strings.Index(obj, "stream\n")
	if i < 0 {
		t.Fatalf("no stream in %.80q", obj)
	}
	r, err := zlib.NewReader(strings.NewReader(obj[i+len("stream\n"):]))
	if err != nil {
		t.Fatal(err)
	}
	b, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// figure is a drawn path: its points in mm on the page, curves by their ends
// and their middles, and the operator that painted it.
type figure struct {
	op   string
	clip geom.Box // empty: none
	at   []geom.Point
}

// figures runs the path operators of a page's content.
func figures(content string) []figure {
	type state struct {
		m    [6]float64
		clip geom.Box
	}
	var out []figure
	cur, stack := state{m: [6]float64{1, 0, 0, 1, 0, 0}}, []state{}
	var args []float64
	var f figure
	var clip geom.Box
	mm := func(x, y float64) geom.Point {
		m := cur.m
		return geom.Pt((m[0]*x+m[2]*y+m[4])/pt, (m[1]*x+m[3]*y+m[5])/pt)
	}
	for _, w := range strings.Fields(content) {
		if number.MatchString(w) {
			v, _ := strconv.ParseFloat(w, 64)
			args = append(args, v)
			continue
		}
		a := args
		switch w {
		case "q":
			stack = append(stack, cur)
		case "Q":
			cur, stack = stack[len(stack)-1], stack[:len(stack)-1]
		case "cm":
			m := cur.m
			cur.m = [6]float64{
				a[0]*m[0] + a[1]*m[2], a[0]*m[1] + a[1]*m[3], a[2]*m[0] + a[3]*m[2], a[2]*m[1] + a[3]*m[3],
				a[4]*m[0] + a[5]*m[2] + m[4], a[4]*m[1] + a[5]*m[3] + m[5],
			}
		case "m", "l":
			f.at = append(f.at, mm(a[0], a[1]))
		case "c":
			p := f.at[len(f.at)-1]
			c := geom.Cubic{p, mm(a[0], a[1]), mm(a[2], a[3]), mm(a[4], a[5])}
			f.at = append(f.at, c.At(0.5), c[3])
		case "re":
			clip = geom.BoxOf(mm(a[0], a[1]), mm(a[0]+a[2], a[1]+a[3]))
		case "W":
			cur.clip = clip
		case "S", "s", "f", "b", "B":
			f.op, f.clip = w, cur.clip
			out = append(out, f)
			f = figure{}
		case "n":
			f = figure{}
		}
		args = args[:0]
	}
	return out
}
