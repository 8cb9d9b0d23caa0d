package sheet

import (
	"math"
	"sort"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/wall"
)

// farWall is the wood, in mm, that nobody needs measured: thicker than any body.
const farWall = 60

// besideMark is how far beside a corner the wood is measured, mm: far less than
// is printed, far more than Coincident.
const besideMark = 1e-4

// dims measures the wood that is left: the thickness of the body and each wall,
// upright and level, where it is thinnest.
func (c *cutFace) dims(j *job.Job) []render.Dim {
	box := c.whole.Bounds()
	x := box.Max.X
	out := []render.Dim{{A: geom.Pt(x, -j.Thickness), B: geom.Pt(x, 0), Along: geom.Vec{Y: 1}, Text: mm(j.Thickness)}}
	met := c.meetings()
	out = append(out, c.walls(geom.Vec{Y: 1}, met, j.Thickness)...)
	return append(out, c.walls(geom.Vec{X: 1}, met, farWall)...)
}

// meetings reports which voids of the section are one: walls between them are
// lips of an opening, not walls.
func (c *cutFace) meetings() map[[2]int]bool {
	out := map[[2]int]bool{}
	for i, a := range c.voids {
		for k, b := range c.voids[:i] {
			d, _, _ := geom.Distance(a.region, b.region)
			if d < wall.Opens || a.Group != "" && a.Group == b.Group {
				out[[2]int{i, k}], out[[2]int{k, i}] = true, true
			}
		}
	}
	return out
}

// depth returns how deep a void is cut from its own face, in this plane, mm.
func (c *cutFace) depth(j *job.Job, v piece) float64 {
	deep := 0.0
	for _, x := range marks([]piece{v}, func(p geom.Point) float64 { return p.X }) {
		for _, o := range v.region.Chords(geom.Pt(x, overFace), geom.Pt(x, 0)) {
			d := o[1] - overFace
			if v.Face == part.Back {
				d = j.Thickness + overFace - o[0]
			}
			deep = math.Max(deep, d)
		}
	}
	return deep
}

// marks returns the places of a region, along X or Y, between which its edges run
// without corners: its corners, the middles and the extremes of its arcs.
func marks(rs []piece, along func(geom.Point) float64) []float64 {
	var out []float64
	for _, p := range rs {
		for _, loop := range p.region {
			for _, s := range loop {
				m := along(s.A)
				out = append(out, m-besideMark, m+besideMark)
				if s.Turn != 0 {
					b := s.Bounds()
					out = append(out, along(s.At(0.5)), along(b.Min), along(b.Max), along(s.Center))
				}
			}
		}
	}
	sort.Float64s(out)
	return out
}

// walls measures the wood along a direction, from void to void and to the
// outside, each pair where it is thinnest. As thick as far counts as no wall.
func (c *cutFace) walls(u geom.Vec, met map[[2]int]bool, far float64) []render.Dim {
	least := map[[2]int]render.Dim{}
	size := map[[2]int]float64{}
	var pairs [][2]int
	across := func(p geom.Point) float64 { return u.Cross(geom.Vec(p)) }
	for _, m := range marks(append(c.voids[:len(c.voids):len(c.voids)], piece{region: c.whole}), across) {
		o := geom.Point{}.Add(u.Left().Mul(m))
		for _, w := range c.whole.Chords(o, o.Add(u)) {
			p, q := o.Add(u.Mul(w[0])), o.Add(u.Mul(w[1]))
			a, b := c.at(p.Add(u.Mul(-2*besideMark))), c.at(q.Add(u.Mul(2*besideMark)))
			key, l := [2]int{a, b}, w[1]-w[0]
			if a == b || met[key] || c.openEnd(p) || c.openEnd(q) || l > far-besideMark || l < wall.Opens {
				continue
			}
			if was, ok := size[key]; ok && l >= was-besideMark {
				continue
			} else if !ok {
				pairs = append(pairs, key)
			}
			size[key], least[key] = l, render.Dim{A: p, B: q, Along: u, Text: mm(l)}
		}
	}
	sort.Slice(pairs, func(i, k int) bool {
		a, b := least[pairs[i]].A, least[pairs[k]].A
		if a.X != b.X {
			return a.X < b.X
		}
		return a.Y < b.Y
	})
	var out []render.Dim
	for _, p := range pairs {
		out = append(out, least[p])
	}
	return out
}

// openEnd reports whether only the section ends at p, not the wood.
func (c *cutFace) openEnd(p geom.Point) bool {
	return math.Abs(p.X) < geom.Coincident && c.goesOn(-1) || math.Abs(p.X-c.length) < geom.Coincident && c.goesOn(1)
}

// at returns the number of the void at p, −1 outside of all.
func (c *cutFace) at(p geom.Point) int {
	for i, v := range c.voids {
		if v.region.Contains(p) {
			return i
		}
	}
	return -1
}
