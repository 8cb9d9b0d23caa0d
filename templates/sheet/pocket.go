package sheet

import (
	"fmt"
	"math"

	"routwright/templates/job"
)

// pocketNotes say how the floor gets its slope, how the neck is tried, and what the
// fit leaves open.
func pocketNotes(j *job.Job) []string {
	n := j.Neck
	p := n.Pocket
	var out []string
	if p.Fall() != 0 {
		out = append(out, fmt.Sprintf("Sloped floor: rout level on the pins down to %s mm, the depth at the end wall. Then lay two strips, wedges that fall by %s mm over %s mm, thick end towards the bridge, on the template and let the bearing run on the wall already cut: the floor then falls to %s mm at the body's edge.", mm(p.DepthEnd), mm(p.Fall()), mm(p.Length), mm(p.DepthJoint)))
	}
	out = append(out, "Cut a trial pocket in scrap first. To try the neck, saw the waste off square past the mouth of the pocket; the pins stay.")
	if !math.IsInf(p.Slide, 1) {
		out = append(out, fmt.Sprintf("The gap of %s mm a side lets this taper slide by %s mm: push the neck to the end wall, which sets the scale.", mm(p.Gap), mm(p.Slide)))
	}
	return out
}
