package job

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// Of the legs and screws of a pickup; common practice, measure those in hand.
const (
	legsOver     = 16.0 // what the legs add to the pickup's length: 86–90 for 71
	legsWidth    = 18.0
	legsDepth    = 24.5 // 24–25
	pickupScrew  = 4    // gauge
	pickupScrewL = 12.7
)

// legs solves the recess for the legs or ears of a pickup: one slot across the
// whole cavity, of a depth and with a template of its own.
func (s *solver) legs(p design.Pickup, k, name string, length, room, corner float64, place geom.Transform) {
	if !p.Legs.Present {
		return
	}
	d, k := p.Legs, k+".legs"
	l := s.length(d.Length, k+".length", length-2*room+legsOver, "measure the pickup over its legs") + 2*room
	w := s.length(d.Width, k+".width", legsWidth, "measure a leg") + 2*room
	deep := s.length(d.Depth, k+".depth", legsDepth, "24–25: measure the legs and their screws")
	if d.Corner.Set() {
		corner = float64(d.Corner.V)
	}
	if l <= length {
		s.fail(d.Length.At, k+".length", design.MM(l-2*room)+" mm over the legs", fmt.Sprintf("more than the pickup's own %s mm", design.MM(length-2*room)), "measure over the legs, or leave them out")
		return
	}
	corner = min(corner, w/2)
	cutter := d.Cutter
	if !cutter.Bit.Set() && !cutter.Bush.Set() && !cutter.Free.V {
		cutter = p.Cutter
	}
	plan := geom.Region{place.Path(geom.RoundedRect(geom.Pt(0, 0), l, w, corner))}
	n := need(k+".cut", corner, deep, s.sheet)
	n.Try = both(n.Try, s.cuts(plan))
	t, err := s.rack.Pick(cutter, n, d.Table.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	if least := t.LeastCorner(s.rin); corner < least-geom.Coincident {
		s.fail(d.Table.At, k+".corner", design.MM(corner)+" mm", "at least "+design.MM(least)+" mm, for the bit and the template", "use a smaller bit, or wider legs")
		return
	}
	s.addVoid(s.settle(part.Part{
		ID: s.id("pickup " + name + " legs"), Name: name + " legs", Kind: part.Pickup, Face: part.Front, Group: "pickup " + name, At: d.Table.At,
		Solids: []part.Solid{{Plan: plan, Top: part.Level(0), Floor: part.Level(deep)}},
	}, d.Cutter.Done), t, "leg recess of pickup "+name)
}

// pickupScrews drills the screws that hold a pickup or its ears.
func (s *solver) pickupScrews(p design.Pickup, k, name string, from float64, place geom.Transform) {
	if !p.Screws.Set() {
		return
	}
	gauge := p.Screw.Gauge.Or(pickupScrew)
	if !p.Screw.Gauge.Set() {
		s.assume(k+".screw.gauge", fmt.Sprint(pickupScrew), "measure the screws")
	}
	long := s.length(p.Screw.Length, k+".screw.length", pickupScrewL, "measure the screws")
	pilot, err := wood.Pilot(gauge.V, s.pilotDensity())
	if err != nil {
		s.fail(p.Screw.Gauge.At, k+".screw.gauge", fmt.Sprint(gauge.V), err.Error(), "name a gauge of the charts")
		return
	}
	if from+long >= s.Thickness {
		s.fail(p.Screw.Length.At, k+".screw.length", fmt.Sprintf("%s mm from %s mm deep", design.MM(long), design.MM(from)), fmt.Sprintf("a tip above the back, %s mm", design.MM(s.Thickness)), "use shorter screws")
		return
	}
	holes := part.Part{ID: s.id("pickup screws " + name), Name: name, Kind: part.Screw, Face: part.Front, Group: "pickup " + name, At: p.Table.At}
	for _, q := range p.Screws.V {
		at := place.Point(q)
		holes.Bores = append(holes.Bores, part.Bore{From: part.Point{X: at.X, Y: at.Y, Z: from}, To: part.Point{X: at.X, Y: at.Y, Z: from + long}, D: pilot, Words: fmt.Sprintf("pickup screw, gauge %d, pilot", gauge.V)})
	}
	s.Parts = append(s.Parts, s.settle(holes, p.Screw.Cut))
}
