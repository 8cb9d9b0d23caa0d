// Package relief draws the height of a machined surface as a shaded picture. It
// works on a raster of depths and knows no file formats.
//
//	Field   depths on a square grid, looked at from above
//	Plane   a level or sloped surface
//	Shade   light from the upper left, with cast shadows
package relief

import (
	"math"
	"sort"

	"routwright/geom"
)

// Plane is a surface at depth Z + DX·x + DY·y mm below the face looked at.
type Plane struct{ Z, DX, DY float64 }

// Nothing is the depth where there is no material at all.
var Nothing = float32(math.Inf(1))

// Field holds depths below the face looked at, in mm, at the middles of the
// cells of a square grid: row by row, the uppermost first.
type Field struct {
	Left, Upper float64 // upper left corner of the grid, mm
	Step        float64 // side of a cell, mm
	W, H        int     // cells across and down
	Depth       []float32
	Tint        []uint8 // per cell: 0 for the body, else another material's number

	rows [][]float64 // crossings of the region at work, row by row
}

// New returns a field without material over a box, its cells of the given side
// in mm. The box grows to whole cells.
func New(b geom.Box, step float64) *Field {
	f := &Field{Left: b.Min.X, Upper: b.Max.Y, Step: step}
	f.W, f.H = int(math.Ceil(b.W()/step-1e-9)), int(math.Ceil(b.H()/step-1e-9))
	f.Depth, f.Tint = make([]float32, f.W*f.H), make([]uint8, f.W*f.H)
	for i := range f.Depth {
		f.Depth[i] = Nothing
	}
	f.rows = make([][]float64, f.H)
	return f
}

// At returns the middle of a cell.
func (f *Field) At(col, row int) geom.Point {
	return geom.Pt(f.Left+(float64(col)+0.5)*f.Step, f.Upper-(float64(row)+0.5)*f.Step)
}

// spans calls visit for every run of cells, from ≤ col < to, whose middles lie in
// r: each row is crossed with the edges, exactly for arcs, by the half-open rule.
func (f *Field) spans(r geom.Region, visit func(row, from, to int)) {
	lo, hi := f.H, -1
	for _, loop := range r {
		for _, s := range loop {
			for _, m := range monotone(s) {
				a, b := f.cross(m)
				lo, hi = min(lo, a), max(hi, b)
			}
		}
	}
	for row := max(lo, 0); row <= hi; row++ {
		xs := f.rows[row]
		sort.Float64s(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			from, to := f.column(xs[k]), f.column(xs[k+1])
			if from < to {
				visit(row, from, to)
			}
		}
		f.rows[row] = xs[:0]
	}
}

// column returns the first cell whose middle lies at or right of x.
func (f *Field) column(x float64) int {
	return min(max(int(math.Ceil((x-f.Left)/f.Step-0.5)), 0), f.W)
}

// rise is a piece of an edge along which y rises or falls throughout.
type rise struct {
	a, b geom.Point
	c    geom.Point
	r    float64 // 0 for a straight line
	side float64 // of an arc: +1 right of its centre, −1 left
}

// monotone splits a segment where it turns in y.
func monotone(s geom.Seg) []rise {
	if s.Turn == 0 {
		return []rise{{a: s.A, b: s.B}}
	}
	at := []float64{0}
	sweep := float64(s.Sweep())
	start := float64(s.A.Sub(s.Center).Angle())
	for k := -4; k <= 4; k++ { // every quarter turn up or down that the arc passes
		if t := (math.Pi/2 + float64(k)*math.Pi - start) / sweep; t > 1e-12 && t < 1-1e-12 {
			at = append(at, t)
		}
	}
	sort.Float64s(at)
	at = append(at, 1)
	out := make([]rise, 0, 3)
	for i := 1; i < len(at); i++ {
		m := rise{a: s.At(at[i-1]), b: s.At(at[i]), c: s.Center, r: s.Radius, side: 1}
		if s.At((at[i-1]+at[i])/2).X < s.Center.X {
			m.side = -1
		}
		out = append(out, m)
	}
	return out
}

// cross enters where a piece crosses the middles of rows, and returns which rows.
func (f *Field) cross(m rise) (first, last int) {
	y0, y1 := min(m.a.Y, m.b.Y), max(m.a.Y, m.b.Y)
	// Rows with y0 ≤ y < y1, y = Upper − (row + ½)·Step.
	first = int(math.Floor((f.Upper-y1)/f.Step-0.5)) + 1
	last = int(math.Floor((f.Upper-y0)/f.Step - 0.5))
	first, last = max(first, 0), min(last, f.H-1)
	for row := first; row <= last; row++ {
		y := f.Upper - (float64(row)+0.5)*f.Step
		var x float64
		if m.r == 0 {
			x = m.a.X + (m.b.X-m.a.X)*(y-m.a.Y)/(m.b.Y-m.a.Y)
		} else {
			d := y - m.c.Y
			x = m.c.X + m.side*math.Sqrt(max(0, m.r*m.r-d*d))
		}
		f.rows[row] = append(f.rows[row], x)
	}
	if first > last {
		return f.H, -1
	}
	return first, last
}

// Place puts material into r with its surface at the given depth, mm.
func (f *Field) Place(r geom.Region, depth float64) {
	f.spans(r, func(row, from, to int) {
		line := f.Depth[row*f.W : (row+1)*f.W]
		for i := from; i < to; i++ {
			line[i] = float32(depth)
		}
	})
}

// meets is how far a void may begin below the surface and still open it, mm.
const meets = 1e-4

// Sink cuts the void over r between two surfaces where it opens the surface that
// is there, and reports whether anything changed: a void that lies under wood is
// not seen. Where others open it later, Sink again.
func (f *Field) Sink(r geom.Region, top, floor Plane) bool {
	changed := false
	f.spans(r, func(row, from, to int) {
		p := f.At(from, row)
		t := top.Z + top.DX*p.X + top.DY*p.Y
		z := floor.Z + floor.DX*p.X + floor.DY*p.Y
		dt, dz := top.DX*f.Step, floor.DX*f.Step
		line := f.Depth[row*f.W : (row+1)*f.W]
		for i := from; i < to; i++ {
			if d := float64(line[i]); d < z && t <= d+meets && line[i] != float32(z) {
				line[i] = float32(z)
				changed = true
			}
			t += dt
			z += dz
		}
	})
	return changed
}

// SinkColumns is Sink for a void of any shape within a box: column returns the
// depths between which the upright line through a point lies in it.
func (f *Field) SinkColumns(b geom.Box, column func(geom.Point) (top, floor float64, ok bool)) bool {
	changed := false
	f.within(b, func(i int, p geom.Point) {
		t, z, ok := column(p)
		if d := float64(f.Depth[i]); ok && d < z && t <= d+meets && f.Depth[i] != float32(z) {
			f.Depth[i] = float32(z)
			changed = true
		}
	})
	return changed
}

// within calls visit for every cell whose middle lies in b.
func (f *Field) within(b geom.Box, visit func(i int, p geom.Point)) {
	if b.Empty() {
		return
	}
	x0, x1 := f.column(b.Min.X), f.column(b.Max.X)
	y0 := max(int(math.Ceil((f.Upper-b.Max.Y)/f.Step-0.5)), 0)
	y1 := min(int(math.Floor((f.Upper-b.Min.Y)/f.Step-0.5)), f.H-1)
	for row := y0; row <= y1; row++ {
		for col := x0; col < x1; col++ {
			visit(row*f.W+col, f.At(col, row))
		}
	}
}

// pieceLen is how long the pieces are into which an edge is cut, so that their
// boxes hug it, mm.
const pieceLen = 10

// Edge lowers the material along the edge of r: to profile(d) at a distance d
// from the edge, for d under width, where that lies deeper. The profile must not
// fall towards the edge.
func (f *Field) Edge(r geom.Region, width float64, profile func(d float64) float64) {
	for _, loop := range r {
		for _, s := range loop {
			n := int(math.Ceil(s.Length() / pieceLen))
			for k := 0; k < n; k++ {
				e := s
				e.A, e.B = s.At(float64(k)/float64(n)), s.At(float64(k+1)/float64(n))
				f.within(e.Bounds().Grow(width), func(i int, p geom.Point) {
					if f.Depth[i] == Nothing {
						return
					}
					if d := e.Closest(p).Dist(p); d < width {
						f.Depth[i] = max(f.Depth[i], float32(profile(d)))
					}
				})
			}
		}
	}
}

// Paint gives the cells of r whose surface lies between two others, on the upper
// one or below it and above the lower, another material's number.
func (f *Field) Paint(r geom.Region, top, floor Plane, tint uint8) {
	f.spans(r, func(row, from, to int) {
		for i := from; i < to; i++ {
			p := f.At(i, row)
			d := float64(f.Depth[row*f.W+i])
			if d > top.Z+top.DX*p.X+top.DY*p.Y-meets && d < floor.Z+floor.DX*p.X+floor.DY*p.Y-meets {
				f.Tint[row*f.W+i] = tint
			}
		}
	})
}

// Open makes cells at or below the given depth holes that one sees through.
func (f *Field) Open(depth float64) {
	for i, d := range f.Depth {
		if float64(d) >= depth-meets {
			f.Depth[i] = Nothing
		}
	}
}

// Below returns the volume in mm³ between the face and the surface, over the
// cells with material, and the area in mm² of these.
func (f *Field) Below() (volume, area float64) {
	n := 0
	for _, d := range f.Depth {
		if d != Nothing {
			volume += float64(d)
			n++
		}
	}
	cell := f.Step * f.Step
	return volume * cell, float64(n) * cell
}
