package render

import (
	"math"
	"sort"

	"routwright/geom"
)

const (
	hatchPitch = 3.5 // mm between lines; wide enough to draw over in pencil
	// hatchBand is how far hatching runs in from each edge of a large area
	// (ISO 128-3 lets it be kept to a zone along the contour).
	hatchBand = 14
	hatchAir  = 1.2 // mm kept free round words
)

// hatching says how an area is hatched.
type hatching struct {
	angle geom.Angle
	band  float64 // mm; lines longer than two and a half are drawn at their ends only; 0 never
}

var wasteHatch = hatching{angle: 45 * geom.Degree, band: hatchBand}

// angle returns the angle of a cut face's hatching.
func (f CutFace) angle() geom.Angle {
	if f.Angle == 0 {
		return 45 * geom.Degree
	}
	return f.Angle
}

// hatched returns the lines of a cut face.
func (f CutFace) hatched(words []word) []Shape {
	var out []Shape
	for _, p := range hatch(f.Region, hatching{angle: f.angle()}, words) {
		out = append(out, Shape{Title: f.Title, Path: p, Kind: Solid})
	}
	return out
}

// hatch returns the hatch lines of r, cut exactly at its edges, kept off the
// words.
func hatch(r geom.Region, h hatching, words []word) geom.Region {
	u := h.angle.Unit()
	n := u.Left()
	var out geom.Region
	for _, row := range hatchRows(r, u, n) {
		for j := 0; j+1 < len(row.ts); j += 2 {
			for _, iv := range bands(row.ts[j], row.ts[j+1], h.band) {
				for _, free := range offWords(row.o, u, iv, words) {
					if free[1]-free[0] > 0.5 {
						out = append(out, geom.Path{geom.Line(row.o.Add(u.Mul(free[0])), row.o.Add(u.Mul(free[1])))})
					}
				}
			}
		}
	}
	return out
}

// hatchRow is one hatch line: its origin and where it enters and leaves.
type hatchRow struct {
	o  geom.Point
	ts []float64
}

// hatchRows crosses the region with lines along u, a pitch apart along n.
func hatchRows(r geom.Region, u, n geom.Vec) []hatchRow {
	rows := map[int][]geom.Seg{}
	lo, hi := math.MaxInt, math.MinInt
	for _, p := range r {
		for _, s := range p {
			a, b := span(s, n)
			for i := int(math.Floor(a / hatchPitch)); float64(i)*hatchPitch <= b; i++ {
				rows[i] = append(rows[i], s)
				lo, hi = min(lo, i), max(hi, i)
			}
		}
	}
	var out []hatchRow
	for i := lo; i <= hi && lo <= hi; i++ {
		// A line that only touches a corner or an arc may count it once by
		// rounding: the same line a hair further on does not touch.
		for _, nudge := range [...]float64{0, 0.013, 0.027} {
			row := hatchRow{o: geom.Point{}.Add(n.Mul(float64(i)*hatchPitch + nudge))}
			for _, s := range rows[i] {
				row.ts = append(row.ts, crossings(row.o, u, s)...)
			}
			if len(row.ts)%2 == 0 {
				sort.Float64s(row.ts)
				out = append(out, row)
				break
			}
		}
	}
	return out
}

// span returns the least and the greatest n·p over s, exactly: a flat arc has its
// centre far away.
func span(s geom.Seg, n geom.Vec) (lo, hi float64) {
	b := geom.Rotate(-n.Angle()).Seg(s).Bounds()
	return b.Min.X, b.Max.X
}

func bands(a, b, band float64) [][2]float64 {
	if band == 0 || b-a <= 2.5*band {
		return [][2]float64{{a, b}}
	}
	return [][2]float64{{a, a + band}, {b - band, b}}
}

// offWords takes the stretches under words out of iv.
func offWords(o geom.Point, u geom.Vec, iv [2]float64, words []word) [][2]float64 {
	free := [][2]float64{iv}
	line := geom.Line(o.Add(u.Mul(iv[0])), o.Add(u.Mul(iv[1])))
	b := line.Bounds()
	for _, w := range words {
		if !w.bounds.Grow(hatchAir).Overlaps(b) {
			continue
		}
		t := w.box.Grow(hatchAir)
		c := t.Corners()
		var ts []float64
		for i := range c {
			ts = append(ts, crossings(o, u, geom.Line(c[i], c[(i+1)%4]))...)
		}
		if len(ts) != 2 {
			continue
		}
		free = cutOut(free, min(ts[0], ts[1]), max(ts[0], ts[1]))
	}
	return free
}

func cutOut(ivs [][2]float64, a, b float64) [][2]float64 {
	var out [][2]float64
	for _, iv := range ivs {
		if b <= iv[0] || a >= iv[1] {
			out = append(out, iv)
			continue
		}
		if a > iv[0] {
			out = append(out, [2]float64{iv[0], a})
		}
		if b < iv[1] {
			out = append(out, [2]float64{b, iv[1]})
		}
	}
	return out
}
