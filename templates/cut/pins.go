package cut

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Where the pins go. Common practice: wood enough round a pin to hold it, room
// for the saw between a pin and the outline, and a base long enough that a
// pin's play of 0.1 mm turns a template by no more than 0.02° (0.1/250).
const (
	pinToOutline = 12.0  // from the middle of a pin to the finished outline
	pinToEdge    = 12.0  // from the middle of a pin to the edge of the blank
	pinToCrack   = 15.0  // from the middle of a pin to a crack
	pinBase      = 250.0 // least distance between the two
	pinUnlike    = 15.0  // least difference between their distances from the centre line
	pinSlant     = 30.0  // least difference between their places along it
	pinThinner   = 2.0   // the second pin is this much thinner than the first
	pinGrid      = 10.0  // places tried
	PinRoom      = 20.0  // template sheet round a pin
)

// SolvePins returns two pins in the waste between blank and outline, clear of
// the cracks: one on the bass side, one on the treble side, off the centre line
// by unlike amounts, at unlike places along it and of unlike diameters, so that
// no turned or flipped template seats. Of all pairs it takes the one that makes
// the template sheets smallest, each of which must hold one of the boxes and
// both pins; of equals the pair furthest apart.
func SolvePins(blank, outline geom.Region, cracks []geom.Path, sheets []geom.Box, d float64) ([]Pin, error) {
	bass, treble := pinSpots(blank, outline, cracks)
	best, far, at, found := 0.0, 0.0, [2]geom.Point{}, false
	for _, p := range bass {
		for _, q := range treble {
			if p.Dist(q) < pinBase || math.Abs(math.Abs(p.X)-math.Abs(q.X)) < pinUnlike || math.Abs(p.Y-q.Y) < pinSlant {
				continue
			}
			// Every pair is tried against every sheet: plain numbers, for speed.
			x0, x1 := min(p.X, q.X)-PinRoom, max(p.X, q.X)+PinRoom
			y0, y1 := min(p.Y, q.Y)-PinRoom, max(p.Y, q.Y)+PinRoom
			area := (x1 - x0) * (y1 - y0)
			if found && area*float64(1+len(sheets)) > best {
				continue // no sheet can be smaller than the pins' own box
			}
			for i := 0; i < len(sheets) && (!found || area <= best); i++ { // it only grows
				u := &sheets[i]
				area += (max(u.Max.X, x1) - min(u.Min.X, x0)) * (max(u.Max.Y, y1) - min(u.Min.Y, y0))
			}
			if l := p.Dist(q); !found || area < best || area == best && l > far {
				best, far, at, found = area, l, [2]geom.Point{p, q}, true
			}
		}
	}
	if !found {
		return nil, fmt.Errorf("no room for two locating pins in the waste: %.0f mm of wood are needed between the outline and the edge of the blank on the bass side and on the treble side, %.0f mm apart", pinToOutline+pinToEdge, pinBase)
	}
	return []Pin{{"P", at[0], d}, {"Q", at[1], d - pinThinner}}, nil
}

// pinSpots returns the places for a pin on a grid, on the bass and on the treble
// side.
func pinSpots(blank, outline geom.Region, cracks []geom.Path) (bass, treble []geom.Point) {
	b := blank.Bounds()
	edge, body := geom.IndexOf(blank), geom.IndexOf(outline)
	var lines []*geom.Index
	for _, c := range cracks {
		lines = append(lines, geom.IndexOf(geom.Region{c}))
	}
	clear := func(p geom.Point) bool {
		if !edge.Contains(p) || body.Contains(p) {
			return false
		}
		if _, d := edge.Closest(p); d < pinToEdge {
			return false
		}
		if _, d := body.Closest(p); d < pinToOutline {
			return false
		}
		for _, l := range lines {
			if _, d := l.Closest(p); d < pinToCrack {
				return false
			}
		}
		return true
	}
	for x := math.Ceil(b.Min.X/pinGrid) * pinGrid; x <= b.Max.X; x += pinGrid {
		for y := math.Ceil(b.Min.Y/pinGrid) * pinGrid; y <= b.Max.Y; y += pinGrid {
			switch p := geom.Pt(x, y); {
			case x == 0 || !clear(p):
			case x < 0:
				bass = append(bass, p)
			default:
				treble = append(treble, p)
			}
		}
	}
	return bass, treble
}

// Pose is a way to lay a template on the blank other than the right one.
type Pose struct {
	Words string
	Seats bool
	Miss  float64 // mm by which a pin misses its hole, or is too thick for it
	Askew float64 // degrees between the centre lines where the template seats
}

// Poses tries the wrong ways to lay a template on its two pins: the four
// motions that bring the holes to the pins or the template square to the blank.
func Poses(pins []Pin) []Pose {
	if len(pins) != 2 {
		return nil
	}
	p, q := pins[0], pins[1]
	v := q.At.Sub(p.At)
	// A flip across the centre line turns P–Q into (−dx, dy), across the bridge
	// line into (dx, −dy). Either hole may lie over either pin; the best shift
	// leaves half of the difference at each.
	miss := func(w geom.Vec) float64 { return math.Min(v.Sub(w).Len(), v.Add(w).Len()) / 2 }
	thick := math.Abs(p.D - q.D)
	lean := math.Abs(v.Angle().Degrees())
	if lean > 90 {
		lean = 180 - lean
	}
	return []Pose{
		{Words: "turned over about the centre line", Miss: miss(geom.Vec{X: -v.X, Y: v.Y})},
		{Words: "turned over end for end", Miss: miss(geom.Vec{X: v.X, Y: -v.Y})},
		{Words: "turned half round, the holes exchanged", Miss: thick, Seats: thick < 0.2},
		{Words: "turned over about the line through the pins", Seats: true, Askew: 2 * math.Min(lean, 90-lean)},
	}
}
