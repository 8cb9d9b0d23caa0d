//go:build verify

package verify

import (
	"fmt"
	"image"
	"math"
	"sort"

	"routwright/geom"
)

// dpi of every picture; px is one pixel in mm.
const (
	dpi = 600
	px  = 25.4 / dpi
)

// line is a piece that a page should show, in mm from the paper's lower left
// corner.
type line struct {
	seg   geom.Seg
	width float64 // below 0: in the way, but not to be measured
	name  string  // of a ruler or cross; may be empty
}

// probe is a place where a line can be measured: nothing else lies near it.
type probe struct {
	at    geom.Point
	n     geom.Vec // unit, across the line
	half  float64  // length along the line that is averaged, each way
	width float64
	name  string
}

// Room round a probe, mm.
const (
	reach = 0.40 // how far across the line the ink is looked at
	clear = 0.58 // no other line nearer than this
)

// probes returns the measurable places of lines, at most most of them, spread
// evenly over the sheet's order. Words are not known here; measure notices them.
func probes(lines []line, most int) []probe {
	var all []probe
	for i, l := range lines {
		if l.width < 0 || l.seg.Length() < 1.2 {
			continue
		}
		for _, t := range [...]float64{0.06, 0.23, 0.405, 0.5, 0.66, 0.94} {
			p := l.seg.At(t)
			half := 0.3
			if l.seg.IsArc() {
				// A strip on an arc is bent by half²/2r; a third of that moves the middle.
				half = math.Min(half, math.Sqrt(0.006*l.seg.Radius))
			}
			ends := math.Min(p.Dist(l.seg.A), p.Dist(l.seg.B))
			if ends < half+0.1 || crowded(lines, i, p, math.Hypot(clear, half)) {
				continue
			}
			all = append(all, probe{p, l.seg.Tangent(t).Left(), half, l.width, l.name})
		}
	}
	if len(all) <= most {
		return all
	}
	var out []probe
	for i := 0; i < most; i++ {
		out = append(out, all[i*len(all)/most])
	}
	// The named ones (rulers, crosses) are always in.
	for _, p := range all {
		if p.name != "" {
			out = append(out, p)
		}
	}
	return out
}

func crowded(lines []line, self int, p geom.Point, room float64) bool {
	for i, l := range lines {
		if i == self || !l.seg.Bounds().Grow(room).Contains(p) {
			continue
		}
		if l.seg.Closest(p).Dist(p) < room+math.Abs(l.width)/2 {
			return true
		}
	}
	return false
}

// reading is what a probe measured.
type reading struct {
	probe
	off float64 // of the ink from its place, along n, mm
}

// measure reads every probe in a picture of a page h mm high. A probe on which
// other ink lies (words) is left out; a line that is not there is an error.
func measure(img *image.Gray, h float64, ps []probe) ([]reading, error) {
	var out []reading
	missing := 0
	var where geom.Point
	for _, p := range ps {
		off, ink, alone := across(img, h, p)
		switch {
		case ink < 0.3*p.width:
			missing++
			where = p.at
		case alone:
			out = append(out, reading{p, off})
		}
	}
	if missing > 0 {
		return out, fmt.Errorf("%d of %d lines are not there, one at %.2f, %.2f mm from the lower left", missing, len(ps), where.X, where.Y)
	}
	if len(out) < 4 || len(out) < len(ps)/3 {
		return out, fmt.Errorf("only %d of %d places could be measured", len(out), len(ps))
	}
	return out, nil
}

// across returns the middle of the ink across a line and its amount, both in mm,
// and whether it is the line's alone: none lies beside it, or, should the line
// lie elsewhere, its amount is the line's.
func across(img *image.Gray, h float64, p probe) (off, ink float64, alone bool) {
	const step = px / 4
	u := geom.Vec{X: p.n.Y, Y: -p.n.X}
	n := 0
	var sum, moment, beside float64
	for a := -p.half; a <= p.half; a += px / 2 {
		n++
		base := p.at.Add(u.Mul(a))
		for b := -reach; b <= reach; b += step {
			d := dark(img, h, base.Add(p.n.Mul(b)))
			sum += d
			moment += d * b
			if math.Abs(b) > p.width/2+0.1 {
				beside += d
			}
		}
	}
	if sum == 0 {
		return 0, 0, false
	}
	ink = sum * step / float64(n)
	right := math.Abs(ink-p.width) < 0.35*p.width+0.01
	alone = right && (beside*step/float64(n) < 0.003 || math.Abs(ink-p.width) < 0.1*p.width)
	return moment / sum, ink, alone
}

// dark returns how black the picture is at a place, 0 to 1, bilinear.
func dark(img *image.Gray, h float64, p geom.Point) float64 {
	x, y := p.X/px-0.5, (h-p.Y)/px-0.5
	i, j := math.Floor(x), math.Floor(y)
	fx, fy := x-i, y-j
	at := func(i, j int) float64 {
		if !(image.Point{i, j}.In(img.Rect)) {
			return 0
		}
		return 1 - float64(img.Pix[j*img.Stride+i])/255
	}
	a, b := int(i), int(j)
	return (at(a, b)*(1-fx)+at(a+1, b)*fx)*(1-fy) + (at(a, b+1)*(1-fx)+at(a+1, b+1)*fx)*fy
}

// spread is the outcome of one page.
type spread struct {
	places int
	x, y   float64    // largest less smallest error, mm, of lines up and across
	shift  geom.Vec   // mean error: the page as a whole, mm
	slant  float64    // largest less smallest error of the other lines, mm, shift taken off
	ruler  [2]float64 // error of the longest ruler across and up, mm
	length [2]float64 // and its length
}

func (s spread) worst() float64 {
	return math.Max(math.Max(s.x, s.y), math.Max(s.slant/2, math.Max(math.Abs(s.ruler[0]), math.Abs(s.ruler[1]))))
}

func (s spread) String() string {
	t := fmt.Sprintf("%4d places: across %.4f, up %.4f, slanted and curved ±%.4f mm", s.places, s.x, s.y, s.slant/2)
	for i, l := range s.length {
		if l > 0 {
			t += fmt.Sprintf("; ruler %s %.4f of %.3f", [2]string{"across", "up"}[i], l+s.ruler[i], l)
		}
	}
	return t
}

// summary takes readings together.
func summary(rs []reading) spread {
	s := spread{places: len(rs)}
	var xs, ys []float64
	for _, r := range rs {
		switch {
		case math.Abs(r.n.X) > 1-1e-9:
			xs = append(xs, r.off*r.n.X)
		case math.Abs(r.n.Y) > 1-1e-9:
			ys = append(ys, r.off*r.n.Y)
		}
	}
	s.x, s.shift.X = spreadOf(xs)
	s.y, s.shift.Y = spreadOf(ys)
	var rest []float64
	for _, r := range rs {
		if math.Abs(r.n.X) <= 1-1e-9 && math.Abs(r.n.Y) <= 1-1e-9 {
			rest = append(rest, r.off-r.n.Dot(s.shift))
		}
	}
	s.slant, _ = spreadOf(rest)
	for axis, u := range [2]geom.Vec{{X: 1}, {Y: 1}} {
		s.ruler[axis], s.length[axis] = longestRuler(rs, u)
	}
	return s
}

func spreadOf(v []float64) (width, mean float64) {
	if len(v) == 0 {
		return 0, 0
	}
	lo, hi := v[0], v[0]
	for _, x := range v {
		lo, hi, mean = math.Min(lo, x), math.Max(hi, x), mean+x/float64(len(v))
	}
	return hi - lo, mean
}

// longestRuler returns the error and the length between the outermost measured
// ticks of the rulers along u.
func longestRuler(rs []reading, u geom.Vec) (off, length float64) {
	by := map[string][]reading{}
	for _, r := range rs {
		if r.name != "" && math.Abs(r.n.Dot(u)) > 1-1e-9 {
			by[r.name] = append(by[r.name], r)
		}
	}
	for _, g := range by {
		along := func(r reading) float64 { return r.at.Sub(geom.Point{}).Dot(u) }
		sort.Slice(g, func(i, j int) bool { return along(g[i]) < along(g[j]) })
		a, b := g[0], g[len(g)-1]
		if l := along(b) - along(a); l > length {
			length, off = l, b.off*b.n.Dot(u)-a.off*a.n.Dot(u)
		}
	}
	return off, length
}
