package check

import (
	"fmt"
	"math"

	"routwright/templates/job"
)

// fretPlaces recomputes every slot another way and compares.
func fretPlaces(r Rule, j *job.Job) []Finding {
	if j.Board == nil {
		return nil
	}
	var out []Finding
	for _, e := range j.Board.SlotErrors() {
		if off := math.Abs(e.Off); off > r.Stop {
			out = append(out, r.finding(Stop, off, r.Stop, fmt.Sprintf("the slot of fret %g lies %.3f mm off its place", e.Fret, off), "this is a fault of the program: do not cut the slots, report it", j.Design.Strings.At))
		}
	}
	return out
}

// stringToEdge measures the outer strings against the board's edges at every
// fret.
func stringToEdge(r Rule, j *job.Job) []Finding {
	if j.Board == nil {
		return nil
	}
	var worst *Finding
	for _, g := range j.Board.EdgeGaps() {
		l, want, bad := r.below(g.MM)
		if bad && (worst == nil || g.MM < worst.Got) {
			f := r.finding(l, g.MM, want, fmt.Sprintf("string %d runs %s mm from the edge of the board at fret %g, less than %s", g.String, mm(g.MM), g.Fret, mm(want)), "widen the board or narrow the string spread", j.Design.Board.At)
			worst = &f
		}
	}
	if worst == nil {
		return nil
	}
	return []Finding{*worst}
}

// indexWeb measures the wood between neighbouring notches of the strip.
func indexWeb(r Rule, j *job.Job) []Finding {
	if j.Index == nil {
		return nil
	}
	l, want, bad := r.below(j.Index.Web)
	if !bad {
		return nil
	}
	d := j.Design.Board.Index
	at := d.Pin.At
	if at.IsZero() {
		at = j.Design.Board.At
	}
	got := max(j.Index.Web, 0)
	return []Finding{r.finding(l, got, want, fmt.Sprintf("the slotting jig keeps %s mm of wood between two of its places, less than %s, with a pin of %s mm", mm(got), mm(want), mm(j.Index.Spec.Pin)), "use a thinner pin, or stand the two pins of a carrier nearer the board", at)}
}

// scaleRuler reminds of the calibration.
func scaleRuler(r Rule, j *job.Job) []Finding {
	if j.Design.Print.Measured.Set() {
		return nil
	}
	return []Finding{r.finding(Note, 0, 0, "the printed rulers have not been measured yet", "print one page, measure both rulers, and write print.measured = [across, up] if they differ from 100 mm", j.Design.Print.At)}
}
