package part

import (
	"fmt"
	"math"
	"slices"

	"routwright/geom"
	"routwright/templates/design"
)

// Change is one way in which two states of a part differ. Lengths in mm.
type Change struct {
	What    What
	By      float64    // how far the edge or a hole moved, or by how much the depth or the drill changed
	At      geom.Point // where
	Was, Is float64    // depth below the finished front, diameter, or number of holes or surfaces
}

// What is what a Change is about.
type What uint8

const (
	Edge     What = iota // the edge of the plan
	Depth                // a floor or top, below the finished front
	Surfaces             // number of surfaces that the part is made of
	Place                // a hole, at either end of its axis
	Diameter             // of a hole
	Holes                // number of holes
)

// Measure returns by how much a part changed, mm; 0 where a number of holes or
// surfaces did, or the whole edge.
func (c Change) Measure() float64 {
	if c.What == Surfaces || c.What == Holes || math.IsInf(c.By, 1) {
		return 0
	}
	return c.By
}

// Words says how a part changed from what it was. Depths of a part of the back are
// counted from the back of a body so thick, mm.
func (c Change) Words(f Face, thickness float64) string {
	at := fmt.Sprintf("at x %s, y %s", design.MM(c.At.X), design.MM(c.At.Y))
	depth := func(z float64) string {
		if f == Back {
			z = thickness - z
		}
		return design.MM(z)
	}
	switch c.What {
	case Edge:
		if math.IsInf(c.By, 1) {
			return "edge drawn anew"
		}
		return fmt.Sprintf("edge moved by up to %s mm, %s", design.MM(c.By), at)
	case Depth:
		return fmt.Sprintf("depth %s in place of %s mm, %s", depth(c.Is), depth(c.Was), at)
	case Surfaces:
		return fmt.Sprintf("%g surfaces in place of %g", c.Is, c.Was)
	case Place:
		return fmt.Sprintf("hole moved by up to %s mm, %s", design.MM(c.By), at)
	case Diameter:
		return fmt.Sprintf("drill of %s in place of %s mm, %s", design.MM(c.Is), design.MM(c.Was), at)
	}
	return fmt.Sprintf("%g holes in place of %g", c.Is, c.Was)
}

// Differ returns what differs between two states of a part, the greatest first in
// each kind: where the edge of the plan moved farthest, either way; where floor or
// top lie most unlike; the hole that moved most and the one whose diameter changed
// most. Surfaces are compared in their order, a hole with the nearest that is for
// the same. What agrees to the last bit is left out, nothing else; a plan of
// n segments costs what geom.Farthest does, twice.
func Differ(was, is Part) []Change {
	var out []Change
	if d, at := EdgeMoved(plans(was), plans(is)); d > 0 {
		out = append(out, Change{What: Edge, By: d, At: at})
	}
	if len(was.Solids) != len(is.Solids) {
		a, b := float64(len(was.Solids)), float64(len(is.Solids))
		out = append(out, Change{What: Surfaces, By: math.Abs(a - b), At: middle(is), Was: a, Is: b})
	} else if c := deeper(was, is); c.By > 0 {
		out = append(out, c)
	}
	return append(out, holes(was, is)...)
}

// EdgeMoved returns how far two sets of curves are apart, mm, and where: the larger
// of the ways from each to the other. 0 where they are the same bit for bit, +Inf
// where one alone is empty.
func EdgeMoved(was, is geom.Region) (d float64, at geom.Point) {
	if slices.EqualFunc(was, is, func(a, b geom.Path) bool { return slices.Equal(a, b) }) {
		return 0, geom.Point{}
	}
	if was.Segs() == 0 || is.Segs() == 0 {
		return math.Inf(1), append(was, is...).Bounds().Center()
	}
	d, at, _ = geom.Farthest(is, was)
	if e, p, _ := geom.Farthest(was, is); e > d {
		d, at = e, p
	}
	return d, at
}

// plans returns the edges of all solids of a part.
func plans(p Part) geom.Region {
	if len(p.Solids) == 1 {
		return p.Solids[0].Plan
	}
	var all geom.Region
	for _, s := range p.Solids {
		all = append(all, s.Plan...)
	}
	return all
}

// middle returns a point of a part to show it by.
func middle(p Part) geom.Point { return p.Bounds().Center() }

// deeper compares the surfaces of two states that have the same number of them.
// They are planes, so that they differ most at a vertex, or where an arc bulges.
func deeper(was, is Part) (most Change) {
	for i, s := range was.Solids {
		t := is.Solids[i]
		for _, plan := range []geom.Region{s.Plan, t.Plan} {
			for _, loop := range plan {
				for _, e := range loop {
					for _, p := range [2]geom.Point{e.A, e.At(0.5)} {
						for _, z := range [2][2]float64{{s.Top.At(p), t.Top.At(p)}, {s.Floor.At(p), t.Floor.At(p)}} {
							if d := math.Abs(z[1] - z[0]); d > most.By {
								most = Change{What: Depth, By: d, At: p, Was: z[0], Is: z[1]}
							}
						}
					}
				}
			}
		}
	}
	return most
}

// holes compares the bores of two states.
func holes(was, is Part) []Change {
	pairs, gone, added := pairHoles(was.Bores, is.Bores)
	var moved, wider Change
	for _, p := range pairs {
		a, b := p[0], p[1]
		if d := math.Max(a.From.Dist(b.From), a.To.Dist(b.To)); d > moved.By {
			moved = Change{What: Place, By: d, At: b.From.Flat()}
		}
		if d := math.Abs(b.D - a.D); d > wider.By {
			wider = Change{What: Diameter, By: d, At: b.From.Flat(), Was: a.D, Is: b.D}
		}
	}
	var out []Change
	for _, c := range []Change{moved, wider} {
		if c.By > 0 {
			out = append(out, c)
		}
	}
	if gone+added > 0 {
		out = append(out, Change{What: Holes, By: float64(gone + added), At: middle(is), Was: float64(len(was.Bores)), Is: float64(len(is.Bores))})
	}
	return out
}

// pairHoles pairs each bore with the one that it was: the nearest of those that
// are for the same, then the nearest of what is left. gone and added are how many
// have no partner.
func pairHoles(was, is []Bore) (pairs [][2]Bore, gone, added int) {
	left, rest := slices.Clone(was), is
	for _, same := range []bool{true, false} {
		var over []Bore
		for _, b := range rest {
			best, least := -1, math.Inf(1)
			for i, a := range left {
				if d := a.From.Dist(b.From) + a.To.Dist(b.To); (a.Words == b.Words || !same) && d < least {
					best, least = i, d
				}
			}
			if best < 0 {
				over = append(over, b)
				continue
			}
			pairs = append(pairs, [2]Bore{left[best], b})
			left = slices.Delete(left, best, best+1)
		}
		rest = over
	}
	return pairs, len(left), len(rest)
}

// FromFace returns the part with depths counted from its own face of a body of the
// given thickness: those of the back are 0 on the back and negative in the wood.
func (p Part) FromFace(thickness float64) Part {
	if p.Face == Front {
		return p
	}
	p.Solids, p.Bores = slices.Clone(p.Solids), slices.Clone(p.Bores)
	for i := range p.Solids {
		p.Solids[i].Top.Z -= thickness
		p.Solids[i].Floor.Z -= thickness
	}
	for i := range p.Bores {
		p.Bores[i].From.Z -= thickness
		p.Bores[i].To.Z -= thickness
	}
	return p
}
