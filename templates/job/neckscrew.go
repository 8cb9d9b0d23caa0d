package job

import (
	"fmt"
	"math"

	"routwright/templates/design"
	"routwright/templates/wood"
)

// woodBolt solves the holes of a wood screw through the body into the heel.
func (s *solver) woodBolt(b *Bolts, gauge int, at design.Pos) bool {
	density := 0.0
	if w, err := wood.Lookup(s.d.Neck.Wood.V); err == nil {
		density = w.Density
	}
	pilot, err := wood.Pilot(gauge, density)
	if err != nil {
		s.fail(at, "neck.bolts.gauge", fmt.Sprint(gauge), err.Error(), "name a gauge of the charts")
		return false
	}
	b.Name = fmt.Sprintf("wood screw, gauge %d", gauge)
	b.Pilot = pilot
	b.Hole = math.Round((wood.ScrewDiameter(gauge)+boltClear)*10) / 10
	s.solved("neck.bolts hole", design.MM(b.Hole)+" mm in the body, "+design.MM(pilot)+" mm in the heel", wood.PilotSource+"; the shank runs free in the body, so that the screw draws the neck home")
	return true
}
