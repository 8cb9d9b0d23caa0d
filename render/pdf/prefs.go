package pdf

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
)

var (
	rootRef   = regexp.MustCompile(`/Root (\d+) 0 R`)
	infoRef   = regexp.MustCompile(`/Info (\d+) 0 R`)
	sizeEntry = regexp.MustCompile(`/Size (\d+)`)
	startXref = regexp.MustCompile(`startxref\s+(\d+)`)
)

// preferUnscaled appends an incremental update (PDF 1.7, 7.5.6) that gives the
// catalog the viewer preferences /PrintScaling /None, one-sided, and paper by
// the page's size, so that viewers propose 100 %. The library cannot say that.
func preferUnscaled(b []byte) ([]byte, error) {
	tail := b[bytes.LastIndex(b, []byte("trailer"))+1:]
	root, size, prev := rootRef.FindSubmatch(tail), sizeEntry.FindSubmatch(tail), startXref.FindSubmatch(tail)
	if root == nil || size == nil || prev == nil {
		return nil, fmt.Errorf("the PDF library wrote a trailer that is not understood")
	}
	head := []byte("\n" + string(root[1]) + " 0 obj\n")
	start := bytes.LastIndex(b, head)
	if start < 0 {
		return nil, fmt.Errorf("the PDF library wrote no catalog")
	}
	end := bytes.Index(b[start:], []byte("endobj"))
	catalog := b[start+len(head) : start+end]
	open := bytes.Index(catalog, []byte("<<"))
	if open < 0 {
		return nil, fmt.Errorf("the PDF library wrote a catalog that is not understood")
	}
	out := append([]byte{}, b...)
	copy(out, "%PDF-1.7") // PrintScaling came with 1.6, PickTrayByPDFSize with 1.7
	if out[len(out)-1] != '\n' {
		out = append(out, '\n')
	}
	at := len(out)
	out = append(out, head[1:]...)
	out = append(out, catalog[:open+2]...)
	out = append(out, " /ViewerPreferences << /PrintScaling /None /Duplex /Simplex /PickTrayByPDFSize true >> "...)
	out = append(out, catalog[open+2:]...)
	out = append(out, "endobj\n"...)
	xref := len(out)
	info := ""
	if m := infoRef.FindSubmatch(tail); m != nil {
		info = " /Info " + string(m[1]) + " 0 R"
	}
	n, err := strconv.Atoi(string(root[1]))
	if err != nil {
		return nil, err
	}
	out = append(out, fmt.Sprintf("xref\n%d 1\n%010d 00000 n \ntrailer\n<< /Size %s /Root %d 0 R%s /Prev %s >>\nstartxref\n%d\n%%%%EOF\n",
		n, at, size[1], n, info, prev[1], xref)...)
	return out, nil
}
