package job

import (
	"sort"

	"routwright/templates/part"
	"routwright/templates/tool"
)

// DrillNeed is a drill that the job asks for.
type DrillNeed struct {
	D, Deep float64 // diameter, and the deepest hole, mm
	Holes   int
	For     []string // what the holes are, each once
	Fit     tool.Fit // the strictest of them
}

// DrillNeeds returns every drill that the steps ask for, the smallest first: of the
// bores of all parts, of the pins, of the heel, the tuners and the markers. Drills for
// waste are those of the plan for it.
func (j *Job) DrillNeeds() []DrillNeed {
	by := map[float64]*DrillNeed{}
	add := func(d, deep float64, n int, what string, fit tool.Fit) {
		if d <= 0 || n == 0 {
			return
		}
		q := by[d]
		if q == nil {
			q = &DrillNeed{D: d, Fit: fit}
			by[d] = q
		}
		q.Holes += n
		q.Deep = max(q.Deep, deep)
		q.Fit = min(q.Fit, fit)
		for _, w := range q.For {
			if w == what {
				return
			}
		}
		q.For = append(q.For, what)
	}
	for _, p := range j.Pins {
		add(p.D, j.Rough, 1, "pins", tool.Exact)
	}
	for _, p := range j.Parts {
		for _, h := range p.Bores {
			what, fit := boreFor(p, h)
			add(h.D, h.Length(), 1, what, fit)
		}
	}
	if n := j.Neck; n != nil && n.Bolts != nil {
		fit := tool.Pilot
		if j.Design.Neck.Bolts.Thread.V != "" {
			fit = tool.Exact // an insert
		}
		add(n.Bolts.Pilot, n.Bolts.Into, len(n.Bolts.At), "screws in the heel", fit)
	}
	if s := j.Shape; s != nil && len(s.Tuners) > 0 {
		add(s.Spec.Head.Hole, s.Spec.Head.Thickness, len(s.Tuners), "tuners", tool.Exact)
	}
	if j.Board != nil && j.Markers > 0 {
		add(j.Markers, markerDeep, len(j.Board.Markers(j.Markers)), "position markers", tool.Exact)
	}
	var out []DrillNeed
	for _, q := range by {
		out = append(out, *q)
	}
	sort.Slice(out, func(a, b int) bool { return out[a].D < out[b].D })
	return out
}

// markerDeep is how deep the holes of position markers are, mm. Common practice.
const markerDeep = 2.0

// boreFor says what a bore of a part is for, and what it asks of its drill.
func boreFor(p part.Part, h part.Bore) (string, tool.Fit) {
	switch p.Kind {
	case part.Channel:
		return "wire channels", tool.Wire
	case part.JackHole:
		return "jack", tool.Opened
	case part.Shaft:
		return "pots and switches", tool.Clear
	case part.Post:
		return "bridge posts", tool.Exact
	case part.Cover:
		return "screws in covers", tool.Clear
	case part.Seat, part.Cavity, part.Chamber:
		return string(p.Kind), tool.Opened
	case part.StringHole:
		if h.Length() < p.Bores[0].Length() || h.D > p.Bores[0].D {
			return "ferrules", tool.Exact
		}
		return "strings", tool.Clear
	case part.Screw:
		if p.Group == "neck" {
			return "screws of the neck, in the body", tool.Clear
		}
	}
	return "pilot holes: " + p.Name, tool.Pilot
}
