package cut

import (
	"math"

	"routwright/geom"
)

// How a template is held down beside the router. Common practice: the pads of bar
// clamps are some 25 mm across and reach about 120 mm in from an edge; two at least,
// so that nothing turns about the one.
const (
	ClampFoot   = 25.0  // diameter of a clamp's pad, mm
	ClampThroat = 120.0 // from the middle of the pad to the edge that its bar goes round, at most, mm
	HoldClear   = 3.0   // from whatever holds to the sweep of the base, mm
	ScrewShank  = 5.0   // hole of a holding screw through the sheet, mm
	ScrewEdge   = 12.0  // from the middle of a screw to the edge of sheet and slab, and to a pin, mm
	ScrewWaste  = 8.0   // from the middle of a screw to the line of the finished body, mm

	holdApart = 80.0 // two places nearer than this hold no better than one, mm
)

// holdGrids are the whole mm from the datums in which places are told: the finer one
// where the coarser finds none.
var holdGrids = []float64{10, 5}

// Edge is an edge of the slab, seen from the front: the sense of +Y to the nut and +X
// to the right.
type Edge uint8

const (
	RightEdge Edge = iota
	NeckEdge
	LeftEdge
	TailEdge
)

// out returns the direction from the slab towards an edge.
func (e Edge) out() geom.Vec {
	return [...]geom.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}[e]
}

// Clamp is a place for a clamp's pad on a template, its bar going round an edge of
// the slab.
type Clamp struct {
	At    geom.Point
	Edge  Edge
	Reach float64 // from the middle of the pad to that edge, mm
}

// Bench is what a template lies on, and what nothing may stand on.
type Bench struct {
	Slab geom.Region // that carries the template
	// Off is what no pad and no screw may stand over: voids that are cut already.
	Off  geom.Region
	Body geom.Region // the finished body, that no screw may mark
	Pins []Pin
}

// hold is where something that holds a template may stand.
type hold struct {
	room  *geom.Index // for its middle; nil where there is none
	box   geom.Box
	sweep *geom.Index // what the base passes over
}

// newHold returns the room for something of the given diameter that stands on the
// sheet, over the slab, clear of the sweep, of the pins and of what may not be stood
// on.
func newHold(s Sweep, sheet geom.Region, b Bench, d float64) (h hold, err error) {
	under, err := s.Under()
	if err != nil {
		return h, err
	}
	var c geom.Calc
	room := c.Intersect(c.Offset(sheet, -d/2, geom.Round), c.Offset(b.Slab, -d/2, geom.Round))
	off := []geom.Region{c.Offset(under, d/2+HoldClear, geom.Round), c.Offset(b.Off, d/2, geom.Round)}
	for _, p := range b.Pins {
		off = append(off, geom.Region{geom.Circle(p.At, p.D/2+d/2+HoldClear)})
	}
	room = c.Subtract(room, off...)
	if err := c.Err(); err != nil {
		return h, err
	}
	if room.Empty() {
		return h, nil
	}
	return hold{geom.IndexOf(room), room.Bounds(), geom.IndexOf(under)}, nil
}

// places calls f with every place of a grid from the datums that has room.
func (h hold) places(grid float64, f func(p geom.Point)) {
	for y := math.Ceil(h.box.Min.Y/grid) * grid; y <= h.box.Max.Y; y += grid {
		for x := math.Ceil(h.box.Min.X/grid) * grid; x <= h.box.Max.X; x += grid {
			if p := geom.Pt(x, y); h.room.Contains(p) {
				f(p)
			}
		}
	}
}

// Clamps returns two places for clamps that hold a template of the given sheet down
// on the slab while the base goes over it: as far apart as there are, at unlike edges
// of the slab, each pad and its bar outside the sweep of the base by HoldClear, the
// pad wholly on the sheet with the slab under it, over no void and no pin. There are
// none, with a nil error, where two such places do not exist.
func Clamps(s Sweep, sheet geom.Region, b Bench) ([]Clamp, error) {
	h, err := newHold(s, sheet, b, ClampFoot)
	if err != nil || h.room == nil {
		return nil, err
	}
	for _, grid := range holdGrids {
		if best := h.clamps(b.Slab.Bounds(), grid); best != nil {
			return best, nil
		}
	}
	return nil, nil
}

func (h hold) clamps(slab geom.Box, grid float64) (best []Clamp) {
	at := [4][]Clamp{}
	h.places(grid, func(p geom.Point) {
		for e, reach := range [4]float64{slab.Max.X - p.X, slab.Max.Y - p.Y, p.X - slab.Min.X, p.Y - slab.Min.Y} {
			if reach <= ClampThroat && h.barClear(p, Edge(e).out(), reach) {
				at[e] = append(at[e], Clamp{p, Edge(e), reach})
			}
		}
	})
	most := holdApart
	for e := range at {
		for f := range at[:e] {
			for _, a := range at[e] {
				for _, b := range at[f] {
					if d := a.At.Dist(b.At); d > most+geom.Coincident || d > most-geom.Coincident && best != nil && a.Reach+b.Reach < best[0].Reach+best[1].Reach-geom.Coincident {
						best, most = []Clamp{b, a}, d
					}
				}
			}
		}
	}
	return best
}

// barClear reports whether the bar of a clamp, as wide as its pad, stays outside the
// sweep from the pad to the edge.
func (h hold) barClear(p geom.Point, out geom.Vec, reach float64) bool {
	const step = ClampFoot / 4
	for d := step; d < reach+step; d += step {
		q := p.Add(out.Mul(math.Min(d, reach)))
		if _, far := h.sweep.Closest(q); h.sweep.Contains(q) || far < ClampFoot/2+HoldClear {
			return false
		}
	}
	return true
}

// Screws returns two places for screws through a template into the waste of the slab,
// heads of the given diameter: as far apart as there are, outside the sweep of the
// base, of the finished body and of voids, away from edges and pins. There are none,
// with a nil error, where two such places do not exist.
func Screws(s Sweep, sheet geom.Region, b Bench, head float64) ([]geom.Point, error) {
	h, err := newHold(s, sheet, b, head)
	if err != nil || h.room == nil {
		return nil, err
	}
	var c geom.Calc
	inside := c.Intersect(c.Offset(sheet, -ScrewEdge, geom.Round), c.Offset(b.Slab, -ScrewEdge, geom.Round))
	if err := c.Err(); err != nil || inside.Empty() {
		return nil, err
	}
	for _, grid := range holdGrids {
		if best := h.screws(geom.IndexOf(inside), b, grid); best != nil {
			return best, nil
		}
	}
	return nil, nil
}

func (h hold) screws(in *geom.Index, b Bench, grid float64) (best []geom.Point) {
	body := geom.IndexOf(b.Body)
	var at []geom.Point
	h.places(grid, func(p geom.Point) {
		if !in.Contains(p) {
			return
		}
		if _, d := body.Closest(p); !b.Body.Empty() && (body.Contains(p) || d < ScrewWaste) {
			return
		}
		for _, pin := range b.Pins {
			if pin.At.Dist(p) < pin.D/2+ScrewEdge {
				return
			}
		}
		at = append(at, p)
	})
	most := holdApart
	for i, p := range at {
		for _, q := range at[:i] {
			if d := p.Dist(q); d > most+geom.Coincident {
				best, most = []geom.Point{q, p}, d
			}
		}
	}
	return best
}

// Prop is a strip that carries the sheet where it stands over an edge of the slab
// and the base passes: without it the sheet gives way.
type Prop struct {
	Edge     Edge
	Over     float64 // how far the sheet stands over that edge, mm
	From, To float64 // along the edge, from the datum that it is square to, mm
}

// Props returns where a sheet needs a strip of the slab's thickness under it: beyond
// each edge of the slab that the base passes over on the sheet.
func Props(s Sweep, sheet, slab geom.Region) ([]Prop, error) {
	under, err := s.Under()
	if err != nil {
		return nil, err
	}
	var c geom.Calc
	over := c.Intersect(c.Subtract(sheet, slab), under)
	if err := c.Err(); err != nil || over.Empty() {
		return nil, err
	}
	var out []Prop
	b, all := slab.Bounds(), sheet.Bounds()
	const far = 1e4 // mm, beyond any bench
	for e, width := range [4]float64{all.Max.X - b.Max.X, all.Max.Y - b.Max.Y, b.Min.X - all.Min.X, b.Min.Y - all.Min.Y} {
		if width < geom.Weld {
			continue
		}
		o := Edge(e).out()
		beyond := geom.Rect(b.Center().Add(geom.Vec{X: o.X * (b.W() + far) / 2, Y: o.Y * (b.H() + far) / 2}),
			math.Abs(o.X)*far+math.Abs(o.Y)*far, math.Abs(o.X)*far+math.Abs(o.Y)*far)
		piece := c.Intersect(over, geom.Region{beyond})
		if c.Err() != nil || piece.Empty() {
			continue
		}
		p, box := Prop{Edge: Edge(e), Over: width}, piece.Bounds()
		if p.From, p.To = box.Min.Y, box.Max.Y; o.X == 0 {
			p.From, p.To = box.Min.X, box.Max.X
		}
		out = append(out, p)
	}
	return out, c.Err()
}
