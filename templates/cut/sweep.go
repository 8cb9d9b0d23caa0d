package cut

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/limit"
)

// Sweep is where a router held by hand goes over a template, and how much of its
// round base is carried on the way. Seen from the front; mm.
type Sweep struct {
	Base float64 // diameter of the base
	// Centre is where the middle of the bit goes: anywhere in it inside an
	// opening, T ⊖ R; along its edge round a male template, T ⊕ R.
	Centre geom.Region
	Male   bool
	// Support is what carries the base: the upper face of the template. The work
	// lies lower by its thickness and carries nothing.
	Support geom.Region
}

// Overhang is the share of the base, 0 to 1, that nothing carries when the middle
// of the bit stands at a place.
type Overhang struct {
	Share float64
	At    geom.Point
}

// Proud is something that stands out of a template's upper face: a pin, a screw
// or a clamp.
type Proud struct {
	Words string
	At    geom.Point
	D     float64 // diameter, mm
}

// NewSweep returns the sweep of a base of the given diameter over t, from the
// shape that its maker makes. A free path has none, nor has a template without a
// sheet: no base rides on anything. An opening that the follower does not enter has
// an empty one.
func NewSweep(t Template, base float64) (Sweep, error) {
	if t.Free() || !(base > 0) || !t.Male && t.Blank.Empty() {
		return Sweep{}, nil
	}
	var c geom.Calc
	made := AsMade(&c, t.Shape, t.Male, t.InsideRadius)
	s := Sweep{Base: base, Male: t.Male}
	if t.Male {
		s.Centre, s.Support = c.Offset(made, t.Tool.GuideRadius(), geom.Round), made
	} else {
		s.Centre, s.Support = c.Offset(made, -t.Tool.GuideRadius(), geom.Round), c.Subtract(t.Blank, made)
	}
	if err := c.Err(); err != nil {
		return Sweep{}, fmt.Errorf("sweep of the base over template %q: %w", t.ID, err)
	}
	return s, nil
}

// Under returns all that the base passes over.
func (s Sweep) Under() (geom.Region, error) {
	var c geom.Calc
	if !s.Male {
		return c.Offset(s.Centre, s.Base/2, geom.Round), c.Err()
	}
	var rings []geom.Region
	for _, p := range s.Centre {
		rings = append(rings, c.OffsetPath(p, s.Base/2))
	}
	return c.Union(rings...), c.Err()
}

// Clear returns how far something that stands proud stays from the base, mm;
// negative where the base runs into it.
func (s Sweep) Clear(p Proud) float64 {
	if s.Centre.Empty() {
		return math.Inf(1)
	}
	edge := geom.IndexOf(s.Centre)
	_, d := edge.Closest(p.At)
	if !s.Male && edge.Contains(p.At) {
		d = 0
	}
	return d - p.D/2 - s.Base/2
}

// Hangs returns the share of the base that hangs over at p, exactly: the area of
// the base's disc less what of the support lies under it.
func (s Sweep) Hangs(p geom.Point) float64 {
	r := s.Base / 2
	return 1 - geom.DiscArea(geom.Disc{Center: p, Radius: r}, s.Support)/(math.Pi*r*r)
}

// Steps of the search for the worst place, as shares of the base's diameter. The
// share that hangs over changes by less than 4/π · step between two places.
const (
	sweepStep = 1.0 / 12
	sweepFine = 1.0 / 400
	sweepSame = 1e-6 // shares nearer than this are alike
)

// Worst returns the place where the greatest share of the base hangs over: it
// looks along the edge of the places for the middle, and inside it, and then
// closes in on the worst.
func (s Sweep) Worst() Overhang {
	w, _ := s.worst(math.Inf(1))
	return w
}

// worst is Worst, given up as soon as the share comes to enough: all is then false.
func (s Sweep) worst(enough float64) (w Overhang, all bool) {
	if s.Centre.Empty() || !(s.Base > 0) {
		return w, true
	}
	// No place nearer to the last one looked at than this share allows hangs over
	// more than the worst: it is passed over.
	var last Overhang
	looked := false
	look := func(p geom.Point) bool {
		if looked && last.Share+4/math.Pi/s.Base*p.Dist(last.At) < w.Share {
			return false
		}
		h := s.Hangs(p)
		last, looked = Overhang{h, p}, true
		if h <= w.Share+sweepSame {
			return false
		}
		w = last
		return true
	}
	step := s.Base * sweepStep
	for _, loop := range s.Centre {
		for _, e := range loop {
			n := math.Ceil(e.Length() / step)
			for i := 0.0; i < n; i++ {
				if look(e.At(i/n)) && w.Share >= enough {
					return w, false
				}
			}
		}
	}
	inside := geom.IndexOf(s.Centre)
	if !s.Male {
		b := s.Centre.Bounds()
		for x := b.Min.X + step; x < b.Max.X; x += step {
			for y := b.Min.Y + step; y < b.Max.Y; y += step {
				if p := geom.Pt(x, y); inside.Contains(p) && look(p) && w.Share >= enough {
					return w, false
				}
			}
		}
	}
	for step /= 2; step > s.Base*sweepFine; step /= 2 {
		for better := true; better; {
			better = false
			for i := range 8 {
				p := w.At.Add(geom.Angle(float64(i) * math.Pi / 4).Unit().Mul(step))
				if at, _ := inside.Closest(p); s.Male || !inside.Contains(p) {
					p = at
				}
				if look(p) {
					better = true
				}
			}
		}
	}
	return w, true
}

// SheetRound returns the rectangle that lies web mm round a box.
func SheetRound(b geom.Box, web float64) geom.Region {
	b = b.Grow(web)
	return geom.Region{geom.Rect(b.Center(), b.W(), b.H())}
}

// webStep is by how much a sheet is made wider at a time, mm.
const webStep = 5

// webWorth is what a wider sheet must carry more of the base to be worth it, as a
// share of the base's area, where no sheet carries enough.
const webWorth = 0.02

// Carried returns t on a sheet that carries a base of the given diameter: sheet
// tells its outline for a width of wood round the opening, least the narrowest
// that is tried. Where no width carries enough, because the opening itself is too
// large, ok is false and the sheet carries about as much as any does.
func Carried(t Template, base, least float64, sheet func(web float64) geom.Region) (on Template, ok bool, err error) {
	if t.Free() {
		return t, true, nil
	}
	on = t
	on.Blank = sheet(least)
	if t.Male {
		return on, true, nil
	}
	lowest := math.Inf(1)
	for web := least; web <= least+base/2; web += webStep {
		wider := t
		wider.Blank = sheet(web)
		s, err := NewSweep(wider, base)
		if err != nil {
			return t, false, err
		}
		// One that hangs over as much as the best so far needs no more looking.
		worst, all := s.worst(max(limit.BaseOverhang+sweepSame, lowest-webWorth))
		if !all {
			continue
		}
		share := worst.Share
		if share < lowest-webWorth {
			lowest, on = share, wider
		}
		if share <= limit.BaseOverhang {
			return wider, true, nil
		}
	}
	return on, false, nil
}
