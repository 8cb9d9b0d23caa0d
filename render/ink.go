package render

import (
	"math"

	"routwright/geom"
)

// ink is what already lies on a sheet: lines in a grid of square cells, and the
// boxes of words. It answers whether a new text is free.
type ink struct {
	lines []line
	cells map[cell][]int32
	seen  []uint32 // per line: the last query that looked at it
	query uint32
	words []word
}

type line struct {
	seg  geom.Seg
	kind Kind
}

type word struct {
	box    TextBox
	bounds geom.Box
}

type cell struct{ x, y int32 }

// cellSize is about the size of a label, so that a query visits few cells.
const cellSize = 12 // mm

func cellsOf(b geom.Box) (lo, hi cell) {
	f := func(v float64) int32 { return int32(math.Floor(v / cellSize)) }
	return cell{f(b.Min.X), f(b.Min.Y)}, cell{f(b.Max.X), f(b.Max.Y)}
}

func (k *ink) addPath(p geom.Path, kind Kind) {
	for _, s := range p {
		k.addSeg(s, kind)
	}
}

// addSeg enters s in every cell that it passes, a long line piece by piece.
func (k *ink) addSeg(s geom.Seg, kind Kind) {
	if k.cells == nil {
		k.cells = map[cell][]int32{}
	}
	i := int32(len(k.lines))
	k.lines = append(k.lines, line{s, kind})
	k.seen = append(k.seen, 0)
	n := int(math.Ceil(s.Length()/(2*cellSize))) + 1
	last := cell{math.MinInt32, 0}
	for j := 0; j < n; j++ {
		piece := s
		piece.A, piece.B = s.At(float64(j)/float64(n)), s.At(float64(j+1)/float64(n))
		lo, hi := cellsOf(piece.Bounds())
		for x := lo.x; x <= hi.x; x++ {
			for y := lo.y; y <= hi.y; y++ {
				if c := (cell{x, y}); c != last {
					k.cells[c] = append(k.cells[c], i)
					last = c
				}
			}
		}
	}
}

func (k *ink) addWord(b TextBox) { k.words = append(k.words, word{b, b.Bounds()}) }

// near calls f once for each line whose cells b touches, until f says stop.
func (k *ink) near(b geom.Box, f func(line) (stop bool)) {
	k.query++
	lo, hi := cellsOf(b)
	for x := lo.x; x <= hi.x; x++ {
		for y := lo.y; y <= hi.y; y++ {
			for _, i := range k.cells[cell{x, y}] {
				if k.seen[i] == k.query {
					continue
				}
				k.seen[i] = k.query
				if f(k.lines[i]) {
					return
				}
			}
		}
	}
}

// clear reports whether no line passes through b and no word overlaps it.
func (k *ink) clear(b TextBox) bool { return !k.onWord(b) && !k.onLine(b) }

func (k *ink) onWord(b TextBox) bool {
	bounds := b.Bounds()
	for _, w := range k.words {
		if w.bounds.Overlaps(bounds) && w.box.Overlaps(b) {
			return true
		}
	}
	return false
}

func (k *ink) onLine(b TextBox) bool {
	hit := false
	k.near(b.Bounds(), func(l line) bool {
		hit = b.Hits(l.seg)
		return hit
	})
	return hit
}

// crossed counts what a new straight line p–q would cross: words, and lines by
// the weight of their kind. Lines that it runs along within 0.8 mm count, too,
// unless they lie exactly on one another, as extension lines do. What only meets
// its ends does not count.
func (k *ink) crossed(p, q geom.Point) (words int, weight float64) {
	const meet = 0.3
	if p.Dist(q) <= 2*meet {
		return 0, 0
	}
	u := q.Sub(p).Unit()
	p, q = p.Add(u.Mul(meet)), q.Add(u.Mul(-meet))
	l := p.Dist(q)
	s := geom.Line(p, q)
	b := s.Bounds()
	for _, w := range k.words {
		if w.bounds.Overlaps(b) && w.box.Hits(s) {
			words++
		}
	}
	body := TextBox{O: p, U: u, W: l}
	k.near(b, func(o line) bool {
		along := o.seg.Turn == 0 && math.Abs(o.seg.Tangent(0).Cross(u)) < 0.05
		switch {
		case along && o.kind == Dimension && math.Abs(u.Cross(o.seg.A.Sub(p))) < geom.Coincident:
		case along && body.Grow(0.8).Hits(o.seg):
			weight += 4 * crossWeight(o.kind)
		case body.Hits(o.seg):
			weight += crossWeight(o.kind)
		}
		return false
	})
	return words, weight
}

// besideDim reports whether a dimension line passes through b.
func (k *ink) besideDim(b TextBox) bool {
	hit := false
	k.near(b.Bounds(), func(l line) bool {
		hit = l.kind == Dimension && b.Hits(l.seg)
		return hit
	})
	return hit
}

// crossWeight says how much a leader or dimension line that crosses a line of
// this kind disturbs, in mm of extra leader that would be as bad.
func crossWeight(k Kind) float64 {
	switch k {
	case Cut, Edge:
		return 6
	case Dimension:
		return 10
	}
	return 3
}
