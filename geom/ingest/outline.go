package ingest

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"routwright/geom"
)

// Outline returns the one outline that a drawing holds, or the one that
// opt.Pick names: closed, simple and counter-clockwise. The error says where it
// is open (both ends and the gap) or crosses itself, or which pieces there are
// to choose from. Coordinates in errors are millimetres as the file counts
// them: y down from the top left corner for SVG, y up otherwise.
func Outline(r Result, opt Options) (geom.Path, error) {
	at := Pos{File: r.file}
	all := r.pieces()
	if len(all) == 0 {
		return nil, at.errorf("the file holds no outline: no line or curve was found%s", r.because())
	}
	got := all
	if opt.Pick != "" {
		if got = pick(all, opt.Pick); len(got) == 0 {
			return nil, at.errorf("nothing is called %q; %s", opt.Pick, r.list(all))
		}
	}
	closed := 0
	for _, p := range got {
		if p.closed {
			closed++
		}
	}
	switch {
	case closed == 0:
		return nil, r.openError(got)
	case len(got) > 1 && opt.Pick != "":
		return nil, at.errorf("%q means %d pieces; %s", opt.Pick, len(got), r.list(got))
	case len(got) > 1:
		return nil, at.errorf("the file holds %d pieces where one outline is wanted; %s", len(got), r.list(got))
	}
	return r.sound(got[0])
}

// piece is one path of the result, open or closed, numbered in file order.
type piece struct {
	path   geom.Path
	name   Name
	closed bool
	number int
}

func (r *Result) pieces() []piece {
	var all []piece
	for i, p := range r.Paths {
		all = append(all, piece{path: p, name: r.Names[i], closed: true})
	}
	for i, p := range r.Open {
		all = append(all, piece{path: p, name: r.Loose[i]})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].name.Line < all[j].name.Line })
	for i := range all {
		all[i].number = i + 1
	}
	return all
}

// pick returns the pieces that s names: by id, else by layer, else by number or
// as the largest.
func pick(all []piece, s string) (got []piece) {
	for _, p := range all {
		if p.name.ID == s || p.name.Label == s {
			got = append(got, p)
		}
	}
	if got != nil {
		return got
	}
	for _, p := range all {
		for _, l := range p.name.Layers {
			if l == s {
				got = append(got, p)
				break
			}
		}
	}
	if got != nil {
		return got
	}
	for _, p := range all {
		if s == fmt.Sprintf("#%d", p.number) {
			return []piece{p}
		}
	}
	if s != "largest" {
		return nil
	}
	best := -1.0
	for _, p := range all {
		if a := math.Abs(p.path.Area()); p.closed && a > best {
			best, got = a, []piece{p}
		}
	}
	return got
}

// list says which pieces there are and how to choose.
func (r *Result) list(all []piece) string {
	var b strings.Builder
	b.WriteString("choose one by its id, its layer, its number (such as \"#1\") or \"largest\":")
	for i, p := range all {
		if i == 12 {
			fmt.Fprintf(&b, "\n  … and %d more", len(all)-i)
			break
		}
		fmt.Fprintf(&b, "\n  %s", r.describe(p))
	}
	return b.String()
}

func (r *Result) describe(p piece) string {
	var b strings.Builder
	fmt.Fprintf(&b, "#%d", p.number)
	if p.name.ID != "" {
		fmt.Fprintf(&b, " id %q", p.name.ID)
	}
	if len(p.name.Layers) > 0 {
		fmt.Fprintf(&b, " on layer %q", p.name.Layers[0])
	}
	if p.name.Line > 0 {
		fmt.Fprintf(&b, " (line %d)", p.name.Line)
	}
	kind, box := "closed", p.path.Bounds()
	if !p.closed {
		kind = "open"
	}
	fmt.Fprintf(&b, ": %.2f × %.2f mm, %s", box.W(), box.H(), kind)
	return b.String()
}

// because tells why a file may seem empty.
func (r *Result) because() string {
	if len(r.Notes) == 0 {
		return ""
	}
	return " (" + strings.Join(r.Notes, "; ") + ")"
}

// openError says where the pieces do not meet: each loose end with the nearest
// other one, the widest gaps last.
func (r *Result) openError(all []piece) error {
	type gap struct {
		a, b geom.Point
		d    float64
	}
	var ends []geom.Point
	for _, p := range all {
		ends = append(ends, p.path[0].A, p.path[len(p.path)-1].B)
	}
	var gaps []gap
	for len(ends) > 1 && len(ends) <= 400 { // closest pair first; few pieces
		bi, bj, best := 0, 1, math.Inf(1)
		for i := range ends {
			for j := i + 1; j < len(ends); j++ {
				if d := ends[i].Dist(ends[j]); d < best {
					bi, bj, best = i, j, d
				}
			}
		}
		gaps = append(gaps, gap{ends[bi], ends[bj], best})
		ends = append(append(append([]geom.Point(nil), ends[:bi]...), ends[bi+1:bj]...), ends[bj+1:]...)
	}
	at := Pos{File: r.file, Line: all[0].name.Line}
	var b strings.Builder
	if len(gaps) == 0 {
		fmt.Fprintf(&b, "\n  %d loose pieces, the first from %s to %s mm", len(all), r.coords(ends[0]), r.coords(ends[1]))
	}
	for i, g := range gaps {
		if i == 6 {
			fmt.Fprintf(&b, "\n  … and %d more", len(gaps)-i)
			break
		}
		fmt.Fprintf(&b, "\n  gap of %.3f mm from %s to %s mm", g.d, r.coords(g.a), r.coords(g.b))
	}
	for i, f := range r.forks {
		if i == 6 {
			break
		}
		fmt.Fprintf(&b, "\n  %d ends meet at %s mm, where two should", f.ends, r.coords(f.at))
	}
	if len(gaps) == 0 {
		return at.errorf("the outline is open in many places; draw it closed:%s", b.String())
	}
	return at.errorf("the outline is open in %d %s; draw it closed, or allow a wider joint:%s",
		len(gaps), plural(len(gaps), "place", "places"), b.String())
}

// sound returns the piece's path counter-clockwise if it is fit to cut.
func (r *Result) sound(p piece) (geom.Path, error) {
	at := Pos{File: r.file, Line: p.name.Line}
	path := p.path
	if err := path.Check(); err != nil {
		return nil, at.errorf("the outline is not sound: %v", err)
	}
	if q, n := crossings(path); n > 0 {
		more := ""
		if n > len(q) {
			more = fmt.Sprintf(" and %d more places", n-len(q))
		}
		var list []string
		for _, x := range q {
			list = append(list, r.coords(x))
		}
		return nil, at.errorf("the outline crosses or touches itself at %s mm%s; draw it as one simple loop", strings.Join(list, ", "), more)
	}
	a := path.Area()
	if a < 0 {
		path = path.Reversed()
	}
	if box := path.Bounds(); math.Abs(a) <= geom.Weld*(box.W()+box.H()) {
		return nil, at.errorf("the outline encloses no area (%.2f × %.2f mm)", box.W(), box.H())
	}
	// The kernel's own judge has the last word; the chords above only say where.
	if err := (geom.Region{path}).Check(); err != nil {
		return nil, at.errorf("the outline is not simple: %v (coordinates with y up)", err)
	}
	return path, nil
}
