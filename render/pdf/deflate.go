package pdf

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"fmt"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
)

// deflated returns a PDF as the library writes it with its streams compressed: the
// same bytes as by SetCompression(true), except that the streams are compressed
// on all processors, by compressors that are used again and again. The library
// makes one of more than a megabyte for every page.
//
// Compressed are the streams whose dictionary says nothing but their length, which
// are pages and palettes; the maps of letters have that, too, but the library leaves
// them plain in any case.
func deflated(b []byte) ([]byte, error) {
	objects, xref, err := objectsOf(b)
	if err != nil {
		return nil, err
	}
	packed := make([]*bytes.Buffer, len(objects))
	size := len(b)
	var next atomic.Int64
	var wg sync.WaitGroup
	errs := make([]error, len(objects))
	for range min(len(objects), runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(objects); i = int(next.Add(1)) - 1 {
				if o := objects[i]; o.plain != nil {
					packed[i], errs[i] = compress(o.plain)
				}
			}
		})
	}
	wg.Wait()
	for i, o := range objects {
		if errs[i] != nil {
			return nil, errs[i]
		}
		if o.plain != nil {
			size += packed[i].Len() - len(o.plain) + len("/Filter /FlateDecode ")
		}
	}
	out := bytes.NewBuffer(make([]byte, 0, size+64))
	out.Write(b[:objects[0].from])
	at := map[int]int{} // by number
	for i, o := range objects {
		at[o.number] = out.Len()
		if o.plain == nil {
			out.Write(b[o.from:o.to])
			continue
		}
		fmt.Fprintf(out, "%d 0 obj\n<</Filter /FlateDecode /Length %d>>\nstream\n", o.number, packed[i].Len())
		out.Write(packed[i].Bytes())
		out.Write(b[o.rest:o.to])
		buffers.Put(packed[i])
	}
	start := out.Len()
	// The table of places, line by line of 20 bytes, then the trailer.
	table := b[xref.from:]
	out.Write(table[:xref.first])
	for n := range xref.count {
		line := table[xref.first+20*n : xref.first+20*(n+1)]
		if place, ok := at[n]; ok {
			fmt.Fprintf(out, "%010d", place)
			line = line[10:]
		}
		out.Write(line)
	}
	tail := table[xref.first+20*xref.count:]
	m := startXref.FindSubmatchIndex(tail)
	if m == nil {
		return nil, fmt.Errorf("the PDF library wrote a trailer that is not understood")
	}
	out.Write(tail[:m[2]])
	out.WriteString(strconv.Itoa(start))
	out.Write(tail[m[3]:])
	return out.Bytes(), nil
}

// object is one object of a PDF, from its number to the next one.
type object struct {
	number   int
	from, to int
	plain    []byte // its stream where that is to be compressed
	rest     int    // after the stream
}

// table is the table of places: where it lies, where its first line begins, from
// there, and how many lines it has, one for each number from 0.
type table struct{ from, first, count int }

// objectsOf returns the objects of a PDF in the order in which they lie, and the
// table of their places.
func objectsOf(b []byte) ([]object, table, error) {
	bad := fmt.Errorf("the PDF library wrote a table of objects that is not understood")
	var x table
	end := bytes.LastIndex(b, []byte("startxref"))
	if end < 0 {
		return nil, x, bad
	}
	m := startXref.FindSubmatch(b[end:])
	if m == nil {
		return nil, x, bad
	}
	x.from, _ = strconv.Atoi(string(m[1]))
	if x.from <= 0 || x.from >= end {
		return nil, x, bad
	}
	head, lines, ok := bytes.Cut(b[x.from:end], []byte("\n0 "))
	if !ok || string(head) != "xref" {
		return nil, x, bad
	}
	count, lines, ok := bytes.Cut(lines, []byte("\n"))
	if !ok {
		return nil, x, bad
	}
	x.count, _ = strconv.Atoi(string(bytes.TrimSpace(count)))
	x.first = len("xref\n0 ") + len(count) + 1
	if x.count < 2 || len(lines) < 20*x.count {
		return nil, x, bad
	}
	var objects []object
	for n := 1; n < x.count; n++ {
		from, err := strconv.Atoi(string(lines[20*n : 20*n+10]))
		if err != nil || from <= 0 || from >= x.from {
			return nil, x, bad
		}
		objects = append(objects, object{number: n, from: from})
	}
	slices.SortFunc(objects, func(a, b object) int { return cmp.Compare(a.from, b.from) })
	for i := range objects {
		o := &objects[i]
		o.to = x.from
		if i+1 < len(objects) {
			o.to = objects[i+1].from
		}
		head := []byte(strconv.Itoa(o.number) + " 0 obj\n<</Length ")
		body := b[o.from:o.to]
		if !bytes.HasPrefix(body, head) {
			continue
		}
		length, after, ok := bytes.Cut(body[len(head):], []byte(">>\nstream\n"))
		l, err := strconv.Atoi(string(length))
		if !ok || err != nil || l > len(after) || !bytes.HasPrefix(after[l:], []byte("\nendstream\n")) || bytes.HasPrefix(after, []byte("/CIDInit ")) {
			continue
		}
		o.plain, o.rest = after[:l], o.to-len(after)+l
	}
	return objects, x, nil
}

// Compressors and their output, used again.
var (
	writers = sync.Pool{New: func() any {
		w, err := zlib.NewWriterLevel(nil, zlib.BestSpeed) // as the library
		if err != nil {
			panic(err) // the level is known to be right
		}
		return w
	}}
	buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}
)

func compress(plain []byte) (*bytes.Buffer, error) {
	out := buffers.Get().(*bytes.Buffer)
	out.Reset()
	w := writers.Get().(*zlib.Writer)
	defer writers.Put(w)
	w.Reset(out)
	if _, err := w.Write(plain); err != nil {
		return nil, err
	}
	return out, w.Close()
}
