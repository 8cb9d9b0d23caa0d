package wood

import (
	_ "embed"
	"fmt"
	"math"
	"strings"
	"sync"
)

//go:embed pilots.csv
var pilotsCSV string

// PilotSource is where the pilot holes come from: two charts that disagree here
// and there, so that the larger hole of the two is taken. A screw in a hole a
// little wide holds a little less; one in a tight hole splits the wood.
const PilotSource = "two published wood screw charts, the larger hole where they differ"

const inch = 25.4 // mm, exactly

// Soft is the density in kg/m³ at 12 % moisture under which a wood takes the
// pilot holes of the charts' softwood column. Common practice: hard and soft go
// by the wood in hand, not by the botanist's word.
const Soft = 500

// ScrewDiameter returns the shank diameter in mm of a wood screw by its gauge
// number, 0.060 + 0.013 g inch (GNU units data file, screwgauge).
func ScrewDiameter(gauge int) float64 { return (0.060 + 0.013*float64(gauge)) * inch }

// pilot is the holes of one gauge in mm, 0 where no chart gives one.
type pilot struct{ hard, soft float64 }

var pilots = sync.OnceValue(func() map[int]pilot {
	all := map[int]pilot{}
	for _, r := range rows(pilotsCSV) {
		g := int(number(r["gauge"]))
		p := all[g]
		p.hard = math.Max(p.hard, fraction(r["hardwood_pilot"])*inch)
		p.soft = math.Max(p.soft, fraction(r["softwood_pilot"])*inch)
		all[g] = p
	}
	return all
})

// fraction reads a fraction such as 5/64; 0 for a blank.
func fraction(s string) float64 {
	a, b, ok := strings.Cut(s, "/")
	if !ok || number(b) == 0 {
		return 0
	}
	return number(a) / number(b)
}

// Pilot returns the diameter in mm of the pilot hole of a wood screw, rounded to
// a tenth, in a wood of the given density in kg/m³; a density of 0 counts as
// hard. The error names the gauges that the charts hold.
func Pilot(gauge int, density float64) (float64, error) {
	p, ok := pilots()[gauge]
	d := p.hard
	if density > 0 && density < Soft || d == 0 {
		d = p.soft
	}
	if !ok || d == 0 {
		return 0, fmt.Errorf("no pilot hole for gauge %d in the charts; they hold 4 to 12", gauge)
	}
	return math.Round(d*10) / 10, nil
}
