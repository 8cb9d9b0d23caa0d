package ingest

import (
	"fmt"
	"io"
	"sort"
	"strings"

	"routwright/geom"
)

// SVG reads the outlines of an SVG drawing: paths and basic shapes with all
// their transforms, through <use> and <symbol>, without what is hidden or only
// defined. Styles, strokes and fills do not matter. The result has its origin at
// the top left corner of the page and +Y up, so all of a page lies at y ≤ 0.
func SVG(name string, r io.Reader, opt Options) (Result, error) {
	at := Pos{File: name}
	res := Result{file: name, yDown: true}
	if err := opt.check(at); err != nil {
		return res, err
	}
	b, err := slurp(at, r)
	if err != nil {
		return res, err
	}
	if isBinary(b) {
		return res, at.errorf("this is not an SVG drawing but a binary file%s", gzipHint(b))
	}
	root, byID, err := readTree(at, b)
	if err != nil {
		return res, err
	}
	w := walker{res: &res, byID: byID, skipped: map[string]int{}, canvas: canvas{tol: opt.join()}}
	for _, s := range applySheets(root) {
		res.notef("the style rule for %q may hide or move things and was not read: only plain classes, ids and elements are", rest(s))
	}
	if err := w.root(root, opt); err != nil {
		return res, err
	}
	w.report()
	res.finish(&w.canvas)
	return res, nil
}

func gzipHint(b []byte) string {
	if len(b) > 2 && b[0] == 0x1f && b[1] == 0x8b {
		return " (compressed): save it as plain SVG"
	}
	return ""
}

// walker draws a tree of elements.
type walker struct {
	res     *Result
	byID    map[string]*node
	canvas  canvas
	visited int
	skipped map[string]int // elements and attributes that were not read
	using   []*node        // the <use> chain, against loops
}

// scope is what an element inherits.
type scope struct {
	m      geom.Affine
	v      viewport
	layers []string
	hidden bool // visibility
	depth  int
}

// page returns the size of the drawing in CSS pixels and whether it states it in
// a unit of length. A size that is missing follows from the viewBox.
func (n *node) page() (w, h float64, stated bool, err error) {
	var size [2]float64
	var unit [2]string
	var known [2]bool
	for i, name := range [2]string{"width", "height"} {
		s := strings.TrimSpace(n.attr[name])
		v, u, ok := length(s, 0)
		if s != "" && s != "auto" && (!ok || v < 0) {
			return 0, 0, false, n.at.errorf("%s of the drawing is %q, must be a length such as \"430mm\"", name, rest(s))
		}
		size[i], unit[i], known[i] = v, u, ok && u != "%" && v > 0
	}
	if box, ok := n.box(); ok {
		switch {
		case known[0] && !known[1]:
			size[1], unit[1] = size[0]*box[3]/box[2], unit[0]
		case known[1] && !known[0]:
			size[0], unit[0] = size[1]*box[2]/box[3], unit[1]
		case !known[0]:
			size, unit = [2]float64{box[2], box[3]}, [2]string{}
		}
	}
	return size[0], size[1], !isPx(unit[0]) && !isPx(unit[1]), nil
}

// box returns the numbers of a sound viewBox.
func (n *node) box() (v []float64, ok bool) {
	v, ok = numbers(n.attr["viewBox"])
	return v, ok && len(v) == 4 && v[2] > 0 && v[3] > 0
}

// root settles the size of the drawing and draws it.
func (w *walker) root(n *node, opt Options) error {
	pw, ph, stated, err := n.page()
	if err != nil {
		return err
	}
	px := mmPerPx
	if opt.UnitRules && opt.Unit > 0 {
		px = opt.Unit
		if box, ok := n.box(); ok {
			pw, ph = box[2], box[3]
		}
	} else if !stated {
		w.res.notef("the drawing states no size in mm or inches: 1 px taken as 25.4/96 mm (CSS), the page as %.2f × %.2f mm", pw*px, ph*px)
	}
	m, v, err := n.viewBox(pw, ph)
	if err != nil {
		return err
	}
	s := scope{m: compose(stretch(px, -px), m), v: v}
	if t, err := n.transform(); err != nil {
		return err
	} else if t != geom.Identity { // SVG 2 allows it: outside the viewBox
		s.m = compose(stretch(px, -px), t, m)
	}
	return w.kids(n, s)
}

func isPx(unit string) bool { return unit == "" || unit == "px" || unit == "%" }

func (w *walker) kids(n *node, s scope) error {
	for _, k := range n.kids {
		if err := w.draw(k, s); err != nil {
			return err
		}
	}
	return nil
}

// draw draws one element.
func (w *walker) draw(n *node, s scope) error {
	if w.visited++; w.visited > maxElements || s.depth > maxDepth {
		return n.at.errorf("<use> elements multiply the drawing beyond %d elements", maxElements)
	}
	s.depth++
	if n.style("display") == "none" {
		return nil
	}
	if v := n.style("visibility"); v != "" && v != "inherit" {
		s.hidden = v != "visible"
	}
	if !drawn[n.name] {
		if leftOut[n.name] {
			w.skipped["<"+n.name+">"]++
		}
		return nil
	}
	t, err := n.transform()
	if err != nil {
		return err
	}
	s.m = compose(s.m, t)
	for _, a := range [2]string{"clip-path", "mask"} {
		if v := n.style(a); v != "" && v != "none" {
			w.skipped[a]++
		}
	}
	switch n.name {
	case "g", "a":
		return w.kids(n, s.inside(n))
	case "switch":
		return w.choose(n, s)
	case "svg":
		return w.inner(n, s, n.attr["width"], n.attr["height"])
	case "use":
		return w.use(n, s)
	}
	if s.hidden {
		return nil
	}
	return w.leaf(n, s)
}

// drawn are the elements that are drawn where they stand; leftOut those that
// are too, but hold no outline. Others only define something.
var (
	drawn = map[string]bool{
		"g": true, "a": true, "switch": true, "svg": true, "use": true, "path": true, "rect": true, "circle": true,
		"ellipse": true, "line": true, "polyline": true, "polygon": true,
	}
	leftOut = map[string]bool{"text": true, "image": true, "foreignObject": true, "video": true, "canvas": true}
)

// choose draws the first child of a <switch> that asks for nothing special.
func (w *walker) choose(n *node, s scope) error {
	for _, k := range n.kids {
		if k.attr["requiredFeatures"] == "" && k.attr["requiredExtensions"] == "" && k.attr["systemLanguage"] == "" {
			return w.draw(k, s)
		}
	}
	return nil
}

// inside returns the scope of the children of group n.
func (s scope) inside(n *node) scope {
	var names []string
	for _, l := range [2]string{n.label(), n.id()} {
		if l != "" {
			names = append(names, l)
		}
	}
	s.layers = append(names, s.layers...)
	return s
}

// inner draws a nested <svg> or a <symbol> in a viewport of its own.
func (w *walker) inner(n *node, s scope, width, height string) error {
	g := getter{n: n, v: s.v}
	x, y := g.length("x", s.v.w), g.length("y", s.v.h)
	size := func(text string, whole float64) float64 {
		if t := strings.TrimSpace(text); t == "" || t == "auto" {
			return whole
		}
		v, _, ok := length(text, whole)
		if !ok || v < 0 {
			g.err = n.at.errorf("<%s>: size %q must be a length that is not negative", n.name, rest(text))
		}
		return v
	}
	vw, vh := size(width, s.v.w), size(height, s.v.h)
	if g.err != nil || vw == 0 || vh == 0 {
		return g.err
	}
	m, v, err := n.viewBox(vw, vh)
	if err != nil {
		return err
	}
	s.m, s.v = compose(s.m, shift(x, y), m), v
	return w.kids(n, s.inside(n))
}

// use draws what a <use> element refers to (SVG 2, 5.6).
func (w *walker) use(n *node, s scope) error {
	ref := strings.TrimSpace(n.attr["href"])
	if !strings.HasPrefix(ref, "#") {
		w.skipped["<use> of another file"]++
		return nil
	}
	target := w.byID[ref[1:]]
	if target == nil {
		return n.at.errorf("<use> refers to %q, which is not in the file", rest(ref))
	}
	for _, u := range w.using {
		if u == target {
			return n.at.errorf("<use> of %q comes back to itself", rest(ref))
		}
	}
	g := getter{n: n, v: s.v}
	x, y := g.length("x", s.v.w), g.length("y", s.v.h)
	if g.err != nil {
		return g.err
	}
	s.m = compose(s.m, shift(x, y))
	s = s.inside(n)
	w.using = append(w.using, target)
	defer func() { w.using = w.using[:len(w.using)-1] }()
	if target.name == "symbol" || target.name == "svg" {
		t, err := target.transform()
		if err != nil {
			return err
		}
		s.m = compose(s.m, t)
		return w.inner(target, s, first(n.attr["width"], target.attr["width"]), first(n.attr["height"], target.attr["height"]))
	}
	return w.draw(target, s)
}

func first(a, b string) string {
	if strings.TrimSpace(a) != "" {
		return a
	}
	return b
}

// leaf draws a path or a shape.
func (w *walker) leaf(n *node, s scope) error {
	p := &pen{to: &w.canvas, m: s.m, name: Name{ID: n.id(), Label: n.label(), Layers: s.layers, Line: n.at.Line}}
	if det(s.m) == 0 {
		return n.at.errorf("<%s>: its transforms flatten it to nothing", n.name)
	}
	if n.name != "path" {
		return n.shape(p, s.v)
	}
	if css := n.cssOnly("d"); css != "" {
		return n.at.errorf("<path>: its data stands in a style (%q), which is not read: save the drawing as plain SVG", rest(css))
	}
	if d := strings.TrimSpace(n.attr["d"]); d == "" || d == "none" {
		return nil
	}
	if err := pathData(p, n.attr["d"]); err != nil {
		id := ""
		if n.id() != "" {
			id = fmt.Sprintf(" %q", n.id())
		}
		return n.at.errorf("<path>%s: %v", id, err)
	}
	return nil
}

// report turns what was skipped into notes.
func (w *walker) report() {
	var names []string
	for k := range w.skipped {
		names = append(names, k)
	}
	sort.Strings(names)
	for _, k := range names {
		switch n := w.skipped[k]; k {
		case "clip-path", "mask":
			w.res.notef("%d %s not applied: whole shapes were read", n, k)
		case "<text>":
			w.res.notef("%d <text> left out: turn letters into paths to cut them", n)
		default:
			w.res.notef("%d %s left out", n, k)
		}
	}
}
