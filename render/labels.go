package render

import (
	"fmt"
	"math"
	"math/rand/v2"

	"routwright/geom"
)

const (
	labelText  = 2.5  // mm
	labelPitch = 4.2  // mm from line to line
	labelWrap  = 46.0 // mm; longer labels are offered on two or three lines, too
	leaderFrom = 3.2  // mm from the point; a text farther off gets a leader line
)

// spot is one place for a label.
type spot struct {
	texts  []Text
	box    TextBox // upright, round all the lines
	leader geom.Seg
	led    bool
	cost   float64
	reach  geom.Box // round the words with their air and the leader
}

// placeLabels finds room for all labels together: candidate places that are free
// of lines, words and dimensions, scored; a greedy choice; simulated annealing
// on the sum of the costs and of the conflicts between labels (after
// Christensen, Marks, Shieber, "An Empirical Study of Algorithms for
// Point-Feature Label Placement", 1995). What still has no place becomes a
// numbered note. The same input gives the same places.
func (o *office) placeLabels(labels []Label) {
	spots := make([][]spot, len(labels))
	for i, l := range labels {
		l.S = o.written(l.S)
		labels[i] = l
		spots[i] = o.spots(l)
	}
	for i, s := range settle(spots) {
		// The choice is checked once more against what has been drawn since, so
		// that a conflict that annealing left over is never drawn.
		if s < 0 || !o.fits(spots[i][s]) {
			if s = o.firstFit(spots[i]); s < 0 {
				o.toNote(labels[i])
				continue
			}
		}
		o.drawLabel(labels[i], spots[i][s])
	}
}

func (o *office) firstFit(spots []spot) int {
	best := -1
	for i, s := range spots {
		if (best < 0 || s.cost < spots[best].cost) && o.fits(s) {
			best = i
		}
	}
	return best
}

func (o *office) fits(s spot) bool {
	if !o.ink.clear(s.box.Grow(wordAir)) {
		return false
	}
	if !s.led {
		return true
	}
	words, _ := o.ink.crossed(s.leader.A, s.leader.B)
	return words == 0
}

var labelReach = [...]float64{1.6, 4, 7, 11, 16, 22, 29, 37, 46}

// enoughSpots is how many free places a label needs to choose from.
const enoughSpots = 14

// spots returns the free places for l, near ones first.
func (o *office) spots(l Label) []spot {
	var out []spot
	for v, lines := range labelShapes(l.S) {
		w, h := blockSize(lines)
		try := func(c geom.Point, cost float64) {
			s := makeSpot(l, c, lines, w, h)
			s.cost = cost + 1.5*float64(v)
			if !o.ink.clear(s.box.Grow(wordAir)) {
				return
			}
			if s.led {
				words, weight := o.ink.crossed(s.leader.A, s.leader.B)
				if words > 0 {
					return
				}
				s.cost += 3 + s.leader.Length()/2 + weight
			}
			if !o.content.Holds(s.box.Bounds()) {
				s.cost += 0.5
			}
			if o.ink.besideDim(s.box.Grow(2.2)) {
				s.cost += 6 // words on a dimension line read as its figures
			}
			s.reach = s.box.Grow(wordAir).Bounds()
			if s.led {
				s.reach = s.reach.Union(s.leader.Bounds())
			}
			out = append(out, s)
		}
		if l.clear == 0 {
			try(l.At, 0)
		}
		for _, r := range labelReach {
			if len(out) >= enoughSpots*(v+1) {
				break // farther ones would only cost time
			}
			ring(l.At, r+l.clear, w, h, try)
		}
	}
	return out
}

// ring offers places round at whose nearest edge is r away: beside it first,
// then above and below, then the corners, as a draughtsman would.
func ring(at geom.Point, r, w, h float64, try func(c geom.Point, cost float64)) {
	x, y, k := w/2+r, h/2+r, 0.7
	for _, c := range [...]struct{ x, y, cost float64 }{
		{x, 0, 0}, {-x, 0, 0.6}, {0, y, 0.8}, {0, -y, 1},
		{x, r, 0.3}, {x, -r, 0.5}, {-x, r, 0.7}, {-x, -r, 0.9},
		{w/2 + k*r, h/2 + k*r, 1}, {w/2 + k*r, -h/2 - k*r, 1.2}, {-w/2 - k*r, h/2 + k*r, 1.4}, {-w/2 - k*r, -h/2 - k*r, 1.6},
		{w / 4, y, 1.2}, {-w / 4, y, 1.3}, {w / 4, -y, 1.4}, {-w / 4, -y, 1.5},
	} {
		try(geom.Pt(at.X+c.x, at.Y+c.y), r+c.cost)
	}
}

// labelShapes returns s on one line and, when it is long, wrapped.
func labelShapes(s string) [][]string {
	out := [][]string{{s}}
	w := TextWidth(s, labelText, false)
	for n := 2.0; n <= 4 && w > labelWrap*0.8; n++ {
		if lines := wrap(s, w/n*1.15+4, labelText, false); len(lines) > len(out[len(out)-1]) {
			out = append(out, lines)
		}
	}
	if w > 3*labelWrap { // too long for one line on any sheet
		out = out[1:]
	}
	return out
}

func blockSize(lines []string) (w, h float64) {
	for _, l := range lines {
		w = max(w, TextWidth(l, labelText, false))
	}
	return w, float64(len(lines)-1)*labelPitch + labelText
}

// makeSpot sets the lines round the centre c. The leader runs from the point to
// the nearer end of the words, at half the height of the first or only line.
func makeSpot(label Label, c geom.Point, lines []string, w, h float64) spot {
	s, at := spot{}, label.At
	left := at.X < c.X-w/2
	right := at.X > c.X+w/2
	for i, l := range lines {
		t := Text{S: l, Size: labelText, Anchor: Start}
		t.At = geom.Pt(c.X-w/2, c.Y+h/2-labelText-float64(i)*labelPitch)
		switch {
		case right:
			t.At.X, t.Anchor = c.X+w/2, End
		case !left:
			t.At.X, t.Anchor = c.X, Middle
		}
		s.texts = append(s.texts, t)
	}
	lo, hi := 0.0, 0.0 // real reach of the letters, below and above the block
	for i, t := range s.texts {
		b := t.Box()
		if i == 0 {
			hi = b.Hi - labelText
		}
		lo = b.Lo
	}
	s.box = TextBox{O: geom.Pt(c.X-w/2, c.Y-h/2), U: geom.Vec{X: 1}, W: w, Lo: lo, Hi: h + hi}
	edge := geom.BoxOf(geom.Pt(c.X-w/2, c.Y-h/2), geom.Pt(c.X+w/2, c.Y+h/2))
	if edge.Gap(geom.BoxOf(at)) <= leaderFrom+label.clear {
		return s
	}
	const air = 0.9
	var end geom.Point
	switch mid := c.Y + h/2 - labelText/2; {
	case left:
		end = geom.Pt(c.X-w/2-air, mid)
	case right:
		end = geom.Pt(c.X+w/2+air, mid)
	case at.Y > c.Y:
		end = geom.Pt(c.X, c.Y+h/2+hi+air)
	default:
		end = geom.Pt(c.X, c.Y-h/2+lo-air)
	}
	s.led, s.leader = true, geom.Line(at.Add(end.Sub(at).Unit().Mul(label.clear)), end)
	return s
}

// clash is the price of two labels in conflict: more than any single place.
const clash = 400

func conflict(a, b *spot) float64 {
	if !a.reach.Overlaps(b.reach) {
		return 0 // most pairs: words of one do not even come near the other's
	}
	c := 0.0
	if a.box.Grow(wordAir).Overlaps(b.box) {
		c += clash
	}
	if a.led && b.box.Grow(wordAir).Hits(a.leader) || b.led && a.box.Grow(wordAir).Hits(b.leader) {
		c += clash
	}
	if a.led && b.led && cross(a.leader, b.leader) {
		c += clash / 4
	}
	return c
}

// cross reports whether two straight lines cross.
func cross(a, b geom.Seg) bool {
	side := func(s geom.Seg, p geom.Point) bool { return s.B.Sub(s.A).Cross(p.Sub(s.A)) > 0 }
	return side(a, b.A) != side(a, b.B) && side(b, a.A) != side(b, a.B)
}

// settle chooses a place for each label, −1 where it has none.
func settle(spots [][]spot) []int {
	pick := make([]int, len(spots))
	var movable []int
	cost := func(i, s int) float64 {
		c := spots[i][s].cost
		for j, t := range pick {
			if j != i && t >= 0 {
				c += conflict(&spots[i][s], &spots[j][t])
			}
		}
		return c
	}
	for i := range pick {
		pick[i] = -1
	}
	for i := range spots { // greedy
		best := math.Inf(1)
		for s := range spots[i] {
			if spots[i][s].cost >= best {
				continue
			}
			if c := cost(i, s); c < best {
				best, pick[i] = c, s
			}
		}
		if len(spots[i]) > 1 {
			movable = append(movable, i)
		}
	}
	anneal(spots, pick, movable, cost)
	return pick
}

// anneal improves pick. It stops early when every label has its best place and
// nothing clashes.
func anneal(spots [][]spot, pick, movable []int, cost func(i, s int) float64) {
	ideal := true
	for _, i := range movable {
		low := math.Inf(1)
		for _, s := range spots[i] {
			low = min(low, s.cost)
		}
		ideal = ideal && cost(i, pick[i]) <= low
	}
	if ideal || len(movable) < 2 {
		return
	}
	rnd := rand.New(rand.NewPCG(0x5eed, uint64(len(movable)))) // fixed: the same sheet each time
	for heat := 40.0; heat > 0.3; heat *= 0.93 {
		for n := 0; n < 6*len(movable); n++ {
			i := movable[rnd.IntN(len(movable))]
			s := rnd.IntN(len(spots[i]))
			if s == pick[i] {
				continue
			}
			if d := cost(i, s) - cost(i, pick[i]); d <= 0 || rnd.Float64() < math.Exp(-d/heat) {
				pick[i] = s
			}
		}
	}
	for moved, n := true, 0; moved && n < 20; n++ { // to the bottom of the valley
		moved = false
		for _, i := range movable {
			for s := range spots[i] {
				if s != pick[i] && spots[i][s].cost < cost(i, pick[i]) && cost(i, s) < cost(i, pick[i])-1e-9 {
					pick[i], moved = s, true
				}
			}
		}
	}
}

func (o *office) drawLabel(l Label, s spot) {
	if s.led {
		o.line(&o.labels, s.leader, Dimension, "leader to: "+l.S)
		end := dot(l.At)
		if l.clear > 0 {
			u := s.leader.B.Sub(s.leader.A).Unit()
			end = arrow(s.leader.A, s.leader.A.Add(u.Mul(min(arrowLen, s.leader.Length()))))
		}
		o.labels.Shapes = append(o.labels.Shapes, end)
	}
	o.words(&o.labels, s.texts...)
}

// dot ends a leader inside an outline (ISO 128-2).
func dot(p geom.Point) Shape {
	return Shape{Title: "end of a leader", Kind: Dimension, Fill: true, Path: geom.Circle(p, 0.45)}
}

// toNote gives l a number beside its point and puts its words into the list of
// numbered notes. The number is looked for ever farther out; beyond everything
// drawn there is always room.
func (o *office) toNote(l Label) {
	o.numbered = append(o.numbered, l.S)
	n := fmt.Sprintf("(%d)", len(o.numbered))
	o.remark(fmt.Sprintf("no room for the label %q: it is numbered note %s", l.S, n))
	mark := l
	mark.S = n
	spots := o.spots(mark)
	w, h := blockSize([]string{n})
	reach := o.content.Grow(20 + 8*float64(len(o.numbered)))
	for y := reach.Max.Y; y > reach.Min.Y; y -= labelPitch {
		for _, x := range [2]float64{reach.Min.X, reach.Max.X} {
			s := makeSpot(l, geom.Pt(x, y), []string{n}, w, h)
			s.cost = 500 + s.leader.Length()
			spots = append(spots, s)
		}
	}
	if i := o.firstFit(spots); i >= 0 {
		o.drawLabel(mark, spots[i])
		return
	}
	// Only a leader that would cross words is left: the list then says where.
	o.numbered[len(o.numbered)-1] = fmt.Sprintf("at x %s, y %s: %s", coordinate(l.At.X), coordinate(l.At.Y), l.S)
}

// coordinate writes a place on paper: two decimals (the table of decimals).
func coordinate(v float64) string {
	s := fmt.Sprintf("%.2f", v)
	switch {
	case s == "-0.00":
		return "0.00"
	case s[0] == '-':
		return "−" + s[1:]
	}
	return s
}
