package check

import (
	"fmt"

	"routwright/templates/fretboard"
	"routwright/templates/job"
)

// fretPlaces recomputes every slot another way and compares.
func fretPlaces(r Rule, j *job.Job) []Finding {
	if j.Board == nil {
		return nil
	}
	var out []Finding
	for _, o := range fretboard.Verify(*j.Board) {
		if o.Off > r.Stop {
			out = append(out, r.finding(Stop, o.Off, r.Stop, fmt.Sprintf("fret %d lies %.3f mm off its place", o.Fret, o.Off), "this is a fault of the program: report it", j.Design.Strings.At))
		}
	}
	return out
}

// scaleRuler reminds of the calibration.
func scaleRuler(r Rule, j *job.Job) []Finding {
	if j.Design.Print.Measured.Set() {
		return nil
	}
	return []Finding{r.finding(Note, 0, 0, "the printed rulers have not been measured yet", "print one page, measure both rulers, and write print.measured = [across, up] if they differ from 100 mm", j.Design.Print.At)}
}
