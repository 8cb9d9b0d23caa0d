package sheet

import (
	"strings"

	"routwright/render"
	"routwright/templates/job"
)

// plugs draws where the plugs of the outline template are screwed on.
func plugs(j *job.Job) []render.Group {
	var out []render.Group
	for _, p := range j.Seats() {
		out = append(out, render.Group{ID: "plug-" + p.ID, Title: "plug in the " + p.String(),
			Shapes: shapes(p.Plan(), "plug-"+p.ID, "place of the plug that fills the "+p.String()+", not to be cut", render.Mark, LayerMark)})
	}
	return out
}

// plugNote says what the outline template gets its place from: its pins would lie in
// the waste that the saw takes away.
func plugNote(j *job.Job) string {
	var names []string
	for _, p := range j.Seats() {
		names = append(names, p.String())
	}
	if len(names) == 0 {
		return "This template has no pins: they would lie in the waste. Lay its centre line and bridge line on those of the slab."
	}
	return "This template has no pins: they would lie in the waste that the saw takes away. Screw plugs under it that fill " + strings.Join(names, " and ") + ", on the narrow lines."
}
