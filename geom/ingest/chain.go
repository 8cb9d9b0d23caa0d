package ingest

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
)

// fork is a place where more than two ends meet.
type fork struct {
	at   geom.Point
	ends int
}

// finish sorts the strokes of the canvas into closed loops and open paths:
// duplicates are dropped, loose ends as near as the canvas joins are joined,
// first within each layer, then across layers.
func (r *Result) finish(c *canvas) {
	tol, js := c.tol, c.joints
	strokes := r.dropCrumbs(r.dropTwins(c.strokes), tol)
	byLayer := map[string][]int{}
	var layers []string
	for i, s := range strokes {
		l := strings.Join(s.name.Layers, "\x00")
		if byLayer[l] == nil {
			layers = append(layers, l)
		}
		byLayer[l] = append(byLayer[l], i)
	}
	all := make([]stroke, 0, len(strokes))
	for _, l := range layers {
		var part []stroke
		for _, i := range byLayer[l] {
			part = append(part, strokes[i])
		}
		part, _ = chain(part, tol, &js)
		all = append(all, part...)
	}
	all, r.forks = chain(all, tol, &js)
	if js.n > 0 {
		r.notef("joined %d %s, at most %.2g mm apart, the widest at %s", js.n, plural(js.n, "pair of ends", "pairs of ends"), js.widest, r.coords(js.at))
	}
	for _, s := range all {
		if s.shut {
			r.Paths, r.Names = append(r.Paths, s.path), append(r.Names, s.name)
		} else {
			r.Open, r.Loose = append(r.Open, s.path), append(r.Loose, s.name)
		}
	}
}

// joints keeps account of the gaps that were closed.
type joints struct {
	n      int
	widest float64
	at     geom.Point
}

func (j *joints) add(at geom.Point, gap float64) {
	if gap <= geom.Coincident {
		return
	}
	if j.n++; gap > j.widest {
		j.widest, j.at = gap, at
	}
}

// dropTwins removes strokes drawn twice in the same place, in either direction.
func (r *Result) dropTwins(in []stroke) []stroke {
	type key [5]float64
	seen := map[key][]stroke{}
	out := in[:0:0]
	for _, s := range in {
		b, q := s.path.Bounds(), func(x float64) float64 { return math.Round(x * 1e4) }
		k := key{q(b.Min.X), q(b.Min.Y), q(b.Max.X), q(b.Max.Y), q(s.path.Length())}
		// The two diagonals of a box are alike so far.
		if hasTwin(seen[k], s) {
			continue
		}
		seen[k] = append(seen[k], s)
		out = append(out, s)
	}
	if n := len(in) - len(out); n > 0 {
		r.notef("%d %s drawn twice in the same place: one kept", n, plural(n, "piece is", "pieces are"))
	}
	return out
}

func hasTwin(list []stroke, s stroke) bool {
	back := s.path.Reversed()
	for _, t := range list {
		if len(t.path) != len(s.path) || t.shut != s.shut {
			continue
		}
		for _, p := range [2]geom.Path{s.path, back} {
			if samePath(t.path, p) || s.shut && samePath(t.path, startAt(p, t.path[0].A)) {
				return true
			}
		}
	}
	return false
}

// startAt returns the closed path p started at its vertex nearest to q.
func startAt(p geom.Path, q geom.Point) geom.Path {
	best := 0
	for i := range p {
		if p[i].A.Dist(q) < p[best].A.Dist(q) {
			best = i
		}
	}
	return p.From(best)
}

func samePath(p, q geom.Path) bool {
	for i := range p {
		if p[i].A.Dist(q[i].A) > 10*geom.Coincident || p[i].B.Dist(q[i].B) > 10*geom.Coincident ||
			p[i].At(0.5).Dist(q[i].At(0.5)) > 10*geom.Coincident {
			return false
		}
	}
	return true
}

// dropCrumbs removes open strokes no longer than tol: they would join an end to
// itself.
func (r *Result) dropCrumbs(in []stroke, tol float64) []stroke {
	out := in[:0:0]
	for _, s := range in {
		if s.shut || s.path.Length() > tol {
			out = append(out, s)
		}
	}
	if n := len(in) - len(out); n > 0 {
		r.notef("%d %s no longer than %g mm left out", n, plural(n, "line", "lines"), tol)
	}
	return out
}

// chain joins open strokes end to end where exactly two ends lie within tol of
// one another, and closes those that come back to their start. Ends of three or
// more strokes in one place are not joined but returned as forks.
func chain(in []stroke, tol float64, js *joints) (out []stroke, forks []fork) {
	// End 2i is the start of stroke i, 2i+1 its end.
	ends := make([]geom.Point, 2*len(in))
	open := make([]bool, len(in))
	for i := range in {
		s := &in[i]
		ends[2*i], ends[2*i+1] = s.path[0].A, s.path[len(s.path)-1].B
		// A stroke that comes back to its own start is a loop, whatever else
		// meets there.
		if !s.shut && ends[2*i].Dist(ends[2*i+1]) <= tol && s.path.Length() > 3*tol {
			s.path, s.shut = weldShut(s.path, js), true
		}
		open[i] = !s.shut
	}
	mate, forks := mates(ends, func(e int) bool { return open[e/2] }, tol)
	used := make([]bool, len(in))
	starts := make([]int, 0, 2*len(in))
	for e := range ends { // chains with a loose end first, from that end
		if open[e/2] && mate[e] < 0 {
			starts = append(starts, e)
		}
	}
	for e := range ends {
		starts = append(starts, e)
	}
	made := make(map[int]stroke) // by the first stroke of the file in it
	for _, e := range starts {
		if used[e/2] {
			continue
		}
		first := e / 2
		s, ids := in[e/2], []int{e / 2}
		if !open[e/2] {
			used[e/2], made[first] = true, s
			continue
		}
		s, ids = follow(in, mate, e, used, js)
		for _, i := range ids {
			first = min(first, i)
		}
		s.name = in[first].name
		made[first] = s
	}
	for i := range in {
		if s, ok := made[i]; ok {
			out = append(out, s)
		}
	}
	return out, forks
}

// follow walks from end e through the mates and returns the joined stroke and
// the strokes it is made of.
func follow(in []stroke, mate []int, e int, used []bool, js *joints) (s stroke, ids []int) {
	start := e
	for {
		i := e / 2
		used[i] = true
		ids = append(ids, i)
		p := in[i].path
		if e%2 == 1 {
			p = p.Reversed()
		}
		s.path = weld(s.path, p, js)
		e = mate[e^1] // through the stroke to its other end, and over
		if e < 0 {
			return s, ids
		}
		if used[e/2] {
			s.shut = e == start
			if s.shut {
				s.path = weldShut(s.path, js)
			}
			return s, ids
		}
	}
}

// weld appends q to p and makes the joint exact by moving the end of a line
// rather than of an arc.
func weld(p, q geom.Path, js *joints) geom.Path {
	if len(p) == 0 {
		return append(geom.Path(nil), q...)
	}
	n := len(p)
	p = append(p, q...)
	join(&p[n-1], &p[n], js)
	return p
}

func weldShut(p geom.Path, js *joints) geom.Path {
	join(&p[len(p)-1], &p[0], js)
	return p
}

func join(a, b *geom.Seg, js *joints) {
	js.add(a.B, a.B.Dist(b.A))
	if a == b {
		*a = withEnds(*a, a.A, a.A)
		return
	}
	if a.Turn == 0 && b.Turn != 0 {
		*a = withEnds(*a, a.A, b.A)
		return
	}
	*b = withEnds(*b, a.B, b.B)
}

// manyEnds is where counting the ends in one place stops.
const manyEnds = 20

// mates finds for each end the one other end within tol of it, -1 if there is
// none or more than one. Ends lie in a grid of cells of size tol.
func mates(ends []geom.Point, use func(int) bool, tol float64) (mate []int, forks []fork) {
	type cell [2]int64
	at := func(p geom.Point) cell { return cell{int64(math.Floor(p.X / tol)), int64(math.Floor(p.Y / tol))} }
	grid := map[cell][]int{}
	for e, p := range ends {
		if use(e) {
			grid[at(p)] = append(grid[at(p)], e)
		}
	}
	mate = make([]int, len(ends))
	for e := range mate {
		mate[e] = -1
	}
	told := map[int]bool{}
	var near []int
	look := func(e int, c cell) {
		for _, f := range grid[c] {
			if len(near) == manyEnds {
				return
			}
			if f != e && ends[f].Dist(ends[e]) <= tol {
				near = append(near, f)
			}
		}
	}
	for e, p := range ends {
		if !use(e) {
			continue
		}
		near = near[:0]
		c := at(p)
		for i := range int64(9) {
			look(e, cell{c[0] + i%3 - 1, c[1] + i/3 - 1})
		}
		switch {
		case len(near) == 1:
			mate[e] = near[0]
		case len(near) > 1 && !told[e]:
			forks = append(forks, fork{p, len(near) + 1})
			for _, f := range near {
				told[f] = true
			}
		}
	}
	for e, f := range mate { // both must agree
		if f >= 0 && mate[f] != e {
			mate[e] = -1
		}
	}
	return mate, forks
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// coords writes a point in the file's own sense of y.
func (r *Result) coords(p geom.Point) string {
	y := p.Y
	if r.yDown {
		y = -y
	}
	return fmt.Sprintf("(%.3f, %.3f)", p.X+0, y+0)
}
