package render

import (
	"fmt"

	"routwright/geom"
)

// plan is a grid of windows over a drawing.
type plan struct {
	s       pageSetup
	d       Drawing
	ink     *ink      // of the whole drawing, to find room for words on flaps
	xs, ys  []float64 // where the windows start, drawing coordinates, ascending
	content [][]Group // what each window shows; nil when left out
	cost    float64
}

// cellAt is a place in the grid: column from the left, row from the bottom.
type cellAt struct{ col, row int }

func (s pageSetup) plan(d Drawing, across, up profile) *plan {
	p := &plan{s: s, d: d}
	b := d.Bounds
	var cx, cy float64
	p.xs, cx = seams(across, b.Min.X, b.Max.X, s.win.W(), s.overlap)
	p.ys, cy = seams(up, b.Min.Y, b.Max.Y, s.win.H(), s.overlap)
	p.cost = cx + cy
	return p
}

func (p *plan) count() int { return len(p.xs) * len(p.ys) }

// better reports whether p alone keeps clear what must be, or takes fewer pages than
// q, or as many with better
// seams.
func (p *plan) better(q *plan) bool {
	if a, b := p.cost >= keepClear, q.cost >= keepClear; a != b {
		return b
	}
	if p.count() != q.count() {
		return p.count() < q.count()
	}
	return p.cost < q.cost-1e-9
}

// window returns the part of the drawing that a page shows: from its start to
// overlap past the next start, or to the end of the drawing.
func (p *plan) window(c cellAt) geom.Box {
	x0, x1 := p.stretch(p.xs, c.col, p.d.Bounds.Max.X)
	y0, y1 := p.stretch(p.ys, c.row, p.d.Bounds.Max.Y)
	return geom.BoxOf(geom.Pt(x0, y0), geom.Pt(x1, y1))
}

func (p *plan) stretch(starts []float64, i int, end float64) (from, to float64) {
	if i+1 < len(starts) {
		end = min(end, starts[i+1]+p.s.overlap)
	}
	return starts[i], end
}

func (p *plan) index(c cellAt) int { return c.col + c.row*len(p.xs) }

// used reports whether there is a page at c.
func (p *plan) used(c cellAt) bool {
	return c.col >= 0 && c.row >= 0 && c.col < len(p.xs) && c.row < len(p.ys) && p.content[p.index(c)] != nil
}

// cells returns the pages in the order of print: from the top row down, from the
// left.
func (p *plan) cells() []cellAt {
	var out []cellAt
	for row := len(p.ys) - 1; row >= 0; row-- {
		for col := range p.xs {
			if c := (cellAt{col, row}); p.used(c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// name returns "B3": the row's letter from the top, the column's number.
func (p *plan) name(c cellAt) string {
	return rowName(len(p.ys)-1-c.row) + fmt.Sprint(c.col+1)
}

// rowName counts A … Z, AA, AB …
func rowName(i int) string {
	s := string(rune('A' + i%26))
	if i >= 26 {
		return rowName(i/26-1) + s
	}
	return s
}

// span returns "A1–C4".
func (p *plan) span() string {
	return p.name(cellAt{0, len(p.ys) - 1}) + "–" + p.name(cellAt{len(p.xs) - 1, 0})
}

// named returns "B3 of A1–C4", or the name alone where there is one page.
func (p *plan) named(name string) string {
	if p.count() == 1 {
		return name
	}
	return name + " of " + p.span()
}

// fill works out what each page shows and leaves out those that show nothing, as
// long as the rest still hangs together.
func (p *plan) fill() {
	p.ink = &ink{}
	p.ink.addGroups(p.d.Groups)
	p.content = make([][]Group, p.count())
	var blank []cellAt
	for row := range p.ys {
		for col := range p.xs {
			c := cellAt{col, row}
			g := cull(p.d.Groups, p.window(c))
			if g == nil {
				g = []Group{}
				blank = append(blank, c)
			}
			p.content[p.index(c)] = g
		}
	}
	for _, c := range blank {
		if g := p.content[p.index(c)]; p.count() > 1 {
			p.content[p.index(c)] = nil
			if !p.connected() {
				p.content[p.index(c)] = g
			}
		}
	}
}

// connected reports whether every page can be reached from every other over
// shared edges.
func (p *plan) connected() bool {
	cells := p.cells()
	if len(cells) == 0 {
		return false
	}
	seen := map[cellAt]bool{cells[0]: true}
	for todo := cells[:1:1]; len(todo) > 0; {
		c := todo[0]
		todo = todo[1:]
		for _, n := range [4]cellAt{{c.col + 1, c.row}, {c.col - 1, c.row}, {c.col, c.row + 1}, {c.col, c.row - 1}} {
			if p.used(n) && !seen[n] {
				seen[n] = true
				todo = append(todo, n)
			}
		}
	}
	return len(seen) == len(cells)
}

func (k *ink) addGroups(gs []Group) {
	for _, g := range gs {
		for _, s := range g.Shapes {
			k.addPath(s.Path, s.Kind)
		}
		for _, t := range g.Texts {
			k.addWord(t.Box())
		}
		k.addGroups(g.Groups)
	}
}

// cull returns what of gs shows in w; nil when nothing does. Lines are kept
// whole: the writers clip them.
func cull(gs []Group, w geom.Box) []Group {
	w = w.Grow(0.5) // the widest line's half, and more
	frame := TextBox{O: w.Min, U: geom.Vec{X: 1}, W: w.W(), Hi: w.H()}
	var out []Group
	for _, g := range gs {
		k := Group{ID: g.ID, Title: g.Title, Groups: cull(g.Groups, w)}
		for _, s := range g.Shapes {
			if inWindow(s, w) {
				k.Shapes = append(k.Shapes, s)
			}
		}
		for _, t := range g.Texts {
			if b := t.Box(); b.Overlaps(frame) {
				k.Texts = append(k.Texts, t)
			}
		}
		if len(k.Shapes)+len(k.Texts)+len(k.Groups) > 0 {
			out = append(out, k)
		}
	}
	return out
}

func inWindow(s Shape, w geom.Box) bool {
	b := s.Path.Bounds()
	if !b.Overlaps(w) {
		return false
	}
	if s.Fill || w.Holds(b) {
		return true
	}
	for _, seg := range s.Path {
		if segInBox(seg, w) {
			return true
		}
	}
	return false
}
