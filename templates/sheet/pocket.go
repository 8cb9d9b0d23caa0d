package sheet

import "routwright/templates/job"

// pocketNotes say how the floor gets its slope, how the neck is tried, and what the
// fit leaves open.
func pocketNotes(j *job.Job) []string {
	n := j.Neck
	p := n.Pocket
	var out []string
	if w := p.SlopeWords(); w != "" {
		out = append(out, "Sloped floor: "+w+".")
	}
	out = append(out, "Cut a trial pocket in scrap first. To try the neck, saw the waste off square past the mouth of the pocket; the pins stay.")
	if w := p.SlideWords(); w != "" {
		out = append(out, upper(w)+".")
	}
	return out
}
