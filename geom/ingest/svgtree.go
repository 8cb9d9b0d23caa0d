package ingest

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
)

const (
	svgSpace    = "http://www.w3.org/2000/svg"
	xlinkSpace  = "http://www.w3.org/1999/xlink"
	maxElements = 300_000 // of one XML file, and drawn through <use>
	maxDepth    = 256     // elements in one another
	maxEntities = 1 << 20 // bytes that a file's own XML entities may add
)

// node is an element of the SVG namespace. Attributes are kept by local name;
// those of other namespaces by "space:name" with the last part of the space.
type node struct {
	name string
	attr map[string]string
	kids []*node
	text string            // of <style> only
	css  map[string]string // from style sheets, see applySheets
	at   Pos
}

// id returns the element's id, "" if it has none.
func (n *node) id() string { return n.attr["id"] }

// label returns the name that an editor shows for the element: an attribute
// named label of a namespace of its own.
func (n *node) label() string { return n.attr["*:label"] }

// readTree reads the SVG elements of b. Elements of other namespaces, which
// editors use for their own notes, are skipped with all they hold.
func readTree(at Pos, b []byte) (root *node, byID map[string]*node, err error) {
	d := xml.NewDecoder(bytes.NewReader(b))
	d.CharsetReader = charset
	byID = map[string]*node{}
	var stack []*node
	skip, count := 0, 0
	for {
		line, col := d.InputPos()
		here := Pos{at.File, line, col}
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, nil, xmlError(here, err)
		}
		switch t := tok.(type) {
		case xml.Directive:
			if d.Entity, err = entities(here, string(t), b); err != nil {
				return nil, nil, err
			}
		case xml.StartElement:
			if skip > 0 || t.Name.Space != svgSpace && t.Name.Space != "" {
				if root == nil {
					return nil, nil, here.errorf("this is not an SVG drawing: the first element is <%s> of %q", t.Name.Local, t.Name.Space)
				}
				skip++
				continue
			}
			n := newNode(here, t)
			if count++; count > maxElements {
				return nil, nil, here.errorf("more than %d elements: save the outline alone", maxElements)
			}
			if len(stack) >= maxDepth {
				return nil, nil, here.errorf("elements lie more than %d deep in one another", maxDepth)
			}
			if len(stack) > 0 {
				up := stack[len(stack)-1]
				up.kids = append(up.kids, n)
			} else if root == nil {
				if root = n; n.name != "svg" {
					return nil, nil, here.errorf("this is not an SVG drawing: the first element is <%s>, must be <svg>", n.name)
				}
			}
			if id := n.id(); id != "" && byID[id] == nil {
				byID[id] = n
			}
			stack = append(stack, n)
		case xml.CharData:
			if skip == 0 && len(stack) > 0 && stack[len(stack)-1].name == "style" {
				stack[len(stack)-1].text += string(t)
			}
		case xml.EndElement:
			if skip > 0 {
				skip--
			} else if len(stack) > 0 {
				stack = stack[:len(stack)-1]
			}
		}
	}
	if root == nil {
		return nil, nil, at.errorf("this is not an SVG drawing: it holds no <svg> element")
	}
	return root, byID, nil
}

func newNode(at Pos, t xml.StartElement) *node {
	n := &node{name: t.Name.Local, at: at, attr: make(map[string]string, len(t.Attr))}
	for _, a := range t.Attr {
		switch {
		case a.Name.Space == "":
			n.attr[a.Name.Local] = a.Value
		case a.Name.Space == xlinkSpace && a.Name.Local == "href":
			if _, has := n.attr["href"]; !has { // the plain one rules (SVG 2, 5.6)
				n.attr["href"] = a.Value
			}
		case a.Name.Local == "label":
			n.attr["*:label"] = a.Value
		}
	}
	return n
}

var entity = regexp.MustCompile(`<!ENTITY\s+([A-Za-z_][\w.-]*)\s+("[^"]*"|'[^']*')\s*>`)

// entities returns the plain internal entities of a document type: some editors
// write their namespaces so. Entities that call others are refused, and so is
// more than maxEntities bytes of expansion: such files swamp a reader.
func entities(at Pos, directive string, file []byte) (map[string]string, error) {
	m := map[string]string{}
	total := 0
	for _, g := range entity.FindAllStringSubmatch(directive, 1000) {
		name, value := g[1], g[2][1:len(g[2])-1]
		if strings.ContainsAny(value, "&%<") {
			return nil, at.errorf("XML entity %q calls others or holds markup: not read; save the drawing as plain SVG", name)
		}
		m[name] = value
		total += len(value) * bytes.Count(file, []byte("&"+name+";"))
		if total > maxEntities {
			return nil, at.errorf("XML entities would add more than %d bytes: not read; save the drawing as plain SVG", maxEntities)
		}
	}
	return m, nil
}

func xmlError(at Pos, err error) error {
	var s *xml.SyntaxError
	if errors.As(err, &s) {
		at.Line, at.Col = s.Line, 0
		if strings.Contains(s.Msg, "unexpected EOF") {
			return at.errorf("the file ends in the middle of an element: it was cut off; save it again")
		}
		return at.errorf("not well-formed XML: %s", s.Msg)
	}
	return at.errorf("cannot be read as XML: %v", err)
}

// charset serves the XML declarations that are still met; UTF-16 was already
// decoded by its byte order mark.
func charset(label string, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "utf-8", "utf8", "us-ascii", "ascii", "utf-16", "utf-16le", "utf-16be":
		return in, nil
	case "iso-8859-1", "latin1", "windows-1252":
		b, err := io.ReadAll(in)
		if err != nil {
			return nil, err
		}
		return strings.NewReader(latin1(string(b))), nil
	}
	return nil, fmt.Errorf("encoding %q is not known: save the file as UTF-8", label)
}
