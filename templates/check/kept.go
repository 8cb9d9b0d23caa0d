package check

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// cutAlready holds what the design asks for against what is in the wood.
func cutAlready(r Rule, j *job.Job) []Finding {
	out := otherHand(r, j)
	for _, l := range j.Locked {
		if f, bad := lockedOff(r, j, l); bad {
			out = append(out, f)
		}
	}
	out = append(out, pinsInBody(r, j)...)
	out = append(out, notOnRecord(r, j)...)
	return append(out, lostParts(r, j)...)
}

// otherHand tells a design whose hand was changed after something was cut.
func otherHand(r Rule, j *job.Job) []Finding {
	if j.Kept == nil || j.Kept.Hand == j.Hand() {
		return nil
	}
	for _, l := range j.Locked {
		if l.Held {
			return []Finding{r.finding(Stop, 0, 0, fmt.Sprintf("what is cut belongs to a %s-handed instrument, the design to a %s-handed one", j.Kept.Hand, j.Hand()),
				fmt.Sprintf("set hand = %q, or make the other one into a folder of its own", j.Kept.Hand), j.Design.Hand.At)}
		}
	}
	return nil
}

// lockedOff compares one part that is cut with what the design asks for.
func lockedOff(r Rule, j *job.Job, l job.Locked) (Finding, bool) {
	var words []string
	var most float64
	var at []Place
	for _, c := range part.Differ(l.Part, l.Asked) {
		if c.Measure() == 0 || c.By > r.Stop {
			words = append(words, c.Words(l.Part.Face, j.Thickness))
			at = append(at, Place{c.At, "farthest from what is cut"})
			most = math.Max(most, c.Measure())
		}
	}
	if len(words) == 0 {
		return Finding{}, false
	}
	return r.finding(Stop, most, r.Stop, fmt.Sprintf("%s is cut, and the design asks for another one: %s", l.Part, strings.Join(words, "; ")),
		"set the value back to what was cut; for a new piece of wood, take its cut = true away", l.At, at...), true
}

// pinsInBody tells a pin that is bored where the body or its pocket lies now: its
// hole would show, and it would be sawn off before the last template.
func pinsInBody(r Rule, j *job.Job) []Finding {
	if !j.Marked(job.PinsID) {
		return nil
	}
	var out []Finding
	for _, of := range append(j.OfKind(part.Body), j.OfKind(part.Pocket)...) {
		edge := geom.IndexOf(of.Plan())
		for _, p := range j.Pins {
			_, d := edge.Closest(p.At)
			if edge.Contains(p.At) {
				d = -d
			}
			if clear := d - p.D/2; clear < 0 {
				out = append(out, r.finding(Stop, -clear, 0, fmt.Sprintf("pin %s is bored where %s lies in this design: its hole reaches %s mm into it", p.Name, of, mm(-clear)),
					"set the outline or its place back to what it was when the pins were bored", of.At, Place{p.At, "pin " + p.Name}))
			}
		}
	}
	return out
}

// notOnRecord names the parts that are marked as cut and that no set holds.
func notOnRecord(r Rule, j *job.Job) []Finding {
	var names []string
	var at design.Pos
	for _, l := range j.Locked {
		if l.Held {
			continue
		}
		if names = append(names, l.Part.String()); at.IsZero() {
			at = l.At
		}
	}
	if len(names) == 0 {
		return nil
	}
	said, cure := "the set made before has none of them", "measure what is cut and write it into the design: from the next set on, that is what the wood is held to be"
	if j.Kept == nil {
		said, cure = "no set is at hand to hold them against", "name the set that they were cut from: routwright check FILE --set DIR; where there is none, "+cure
	}
	return []Finding{r.finding(Warn, float64(len(names)), 0, fmt.Sprintf("marked as cut, but %s: %s", said, strings.Join(names, ", ")), cure, at)}
}

// lostParts names what was marked as cut when the set was made, and is not now.
func lostParts(r Rule, j *job.Job) []Finding {
	if j.Kept == nil {
		return nil
	}
	var out []Finding
	for _, k := range j.Kept.Parts {
		if !k.Cut || j.Marked(k.ID) {
			continue
		}
		where := Place{k.Bounds().Center(), "what is cut"}
		if p, has := j.PartByID(k.ID); has {
			out = append(out, r.finding(Warn, 0, 0, fmt.Sprintf("%s was marked as cut when the set was made, and is not now: the next set forgets what was cut", k.Part),
				"write cut = true again, if it is the same piece of wood", p.At, where))
			continue
		}
		cure, at := "put it back under its own name, with cut = true; for a new piece of wood, make the set into another folder", design.Pos{}
		if l, ok := renamed(r, j, k.Part); ok {
			cure, at = fmt.Sprintf("%s lies where it lies: give that the name %q back", l.Part, k.Name), l.Part.At
		}
		out = append(out, r.finding(Stop, 0, 0, fmt.Sprintf("%s is cut, and the design no longer has it", k.Part), cure, at, where))
	}
	return out
}

// renamed returns the part that is marked as cut, is on no record, and is what a
// lost part was.
func renamed(r Rule, j *job.Job, lost part.Part) (job.Locked, bool) {
	for _, l := range j.Locked {
		if l.Held || l.Part.Kind != lost.Kind || l.Part.Face != lost.Face {
			continue
		}
		same := true
		for _, c := range part.Differ(lost, l.Part) {
			same = same && c.Measure() > 0 && c.By <= r.Stop
		}
		if same {
			return l, true
		}
	}
	return job.Locked{}, false
}
