package check_test

import (
	"fmt"
	"testing"

	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
)

// full is a whole design in depth: edges, bevels, channels, jack, bridge.
func full() string {
	return sound + "\n[body.edge]\nroundover = 4\nbearing = 9.5\n[bridge]\nkind = \"fixed\"\n[jack]\nside = \"treble\"\ny = -30\n" +
		fmt.Sprintf(forearm, "bass", -30.0, 12.0, 55.0, "round") +
		"[[body.contour]]\nkind = \"belly\"\ny = 90\nreach = 60\nsection = \"round\"\n" +
		"[[channel]]\njoin = [\"tail\", \"control\"]\n[[channel]]\njoin = [\"neck\", \"control\"]\n"
}

func BenchmarkFull(b *testing.B) {
	d, err := design.Parse("full.toml", []byte(full()))
	if err != nil {
		b.Fatal(err)
	}
	b.Run("solve", func(b *testing.B) {
		for b.Loop() {
			if _, err := job.Solve(d, nil); err != nil {
				b.Fatal(err)
			}
		}
	})
	j, err := job.Solve(d, nil)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("check", func(b *testing.B) {
		for b.Loop() {
			check.Run(j)
		}
	})
}
