package job_test

import (
	"fmt"
	"strings"
	"testing"

	"routwright/templates/design"
	"routwright/templates/job"
)

// crowded is a body with graduated keys to be placed on both faces of a long
// crack, among ten parts that stand in their way.
func crowded() string {
	var b strings.Builder
	s := strings.Replace(slab, "length = 50", "face = \"both\"\nlength = 50\ngraduated = [36, 44]", 1)
	b.WriteString(strings.Replace(s, "depth = 12", "depth = 21", 1)) // so deep that those of both faces meet
	b.WriteString("[[slab.crack]]\nfront = [[-70, -90], [-62, -20], [-74, 60], [-66, 150]]\nback = [[-64, -90], [-58, 0], [-70, 150]]\ntips = [\"first\", \"last\"]\n")
	b.WriteString("[[bit]]\nname = \"fine\"\nd = 4\ncut = 14\nbearing = {d = 4, height = 5}\n")
	b.WriteString("[[bit]]\nname = \"small\"\nd = 6.35\ncut = 25\nbearing = {d = 6.35, height = 5}\n")
	for i, at := range []float64{42, 88, 134} {
		fmt.Fprintf(&b, "[[pickup]]\nname = \"p%d\"\nkind = \"humbucker\"\nat = %g\nlength = 88\nwidth = 34\nroom = 0.75\ncorner = 6.4\ndepth = 12\ncut = {bit = \"small\"}\n", i+1, at)
	}
	for i, y := range []float64{-60, -10, 40} {
		fmt.Fprintf(&b, "[[cavity]]\nname = \"c%d\"\noutline = [[66, %[2]g], [106, %[2]g], [106, %[3]g], [66, %[3]g]]\ncorner = 9\ndepth = 15\ncut = {bit = \"small\"}\n", i+1, y, y+36)
	}
	for i, y := range []float64{-70, 20, 80, 140} {
		fmt.Fprintf(&b, "[[cavity]]\nname = \"w%d\"\noutline = [[-120, %[2]g], [-100, %[2]g], [-100, %[3]g], [-120, %[3]g]]\ncorner = 6\ndepth = 15\ncut = {bit = \"small\"}\n", i+1, y, y+24)
	}
	return b.String()
}

// BenchmarkGraduated solves a design with graduated keys on both faces.
func BenchmarkGraduated(b *testing.B) {
	d, err := design.Parse("t.toml", []byte(crowded()))
	if err != nil {
		b.Fatal(err)
	}
	var m job.Memory // of the outline: keys are to be measured
	j, err := m.Solve(d, nil)
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("%d keys of %d sizes", len(j.Keys.Poses), len(j.Keys.Sizes))
	for b.Loop() {
		if _, err := m.Solve(d, nil); err != nil {
			b.Fatal(err)
		}
	}
}
