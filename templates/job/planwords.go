package job

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
)

// PlaceWords says where a point lies from both datums: "150 treble, 110 from the
// bridge line"; from the middle of a key for a template that is laid on it.
func (j *Job) PlaceWords(t cut.Template, p geom.Point) string {
	if !t.Pinned() {
		return fmt.Sprintf("x %s, y %s from the middle", design.MM(p.X+0), design.MM(p.Y+0))
	}
	return fmt.Sprintf("%s, %s from the bridge line", j.CentreWords(p), design.MM(p.Y+0))
}

// CentreWords says how far a point lies from the centre line, on which side.
func (j *Job) CentreWords(p geom.Point) string {
	side := "treble"
	if (p.X < 0) != (j.Design.Hand.V == "left") {
		side = "bass"
	}
	if w := design.MM(math.Abs(p.X)); w != "0" {
		return w + " " + side
	}
	return "the centre line"
}

// EdgeWords names an edge of the slab.
func (j *Job) EdgeWords(e cut.Edge) string {
	left := j.Design.Hand.V == "left"
	switch {
	case e == cut.NeckEdge:
		return "the neck end"
	case e == cut.TailEdge:
		return "the tail end"
	case (e == cut.LeftEdge) != left:
		return "the bass edge"
	}
	return "the treble edge"
}

// HoldWords says how the template with index i is held down; empty for a free path.
func (j *Job) HoldWords(i int) string {
	t, h := j.Templates[i], j.HoldOf(i)
	switch {
	case t.Free():
		return ""
	case len(h.Given) > 0:
		return fmt.Sprintf("with the %d screws or clamps that the design places", len(h.Given))
	case len(h.Clamps) > 0:
		var w []string
		for n, c := range h.Clamps {
			w = append(w, fmt.Sprintf("%d at %s, round %s of the slab", n+1, j.PlaceWords(t, c.At), j.EdgeWords(c.Edge)))
		}
		return fmt.Sprintf("two clamps, pads of at most %s mm: %s; pads and bars stay %s mm outside the sweep of the base", design.MM(cut.ClampFoot), strings.Join(w, "; "), design.MM(cut.HoldClear))
	case len(h.Screws) > 0:
		var w []string
		for n, p := range h.Screws {
			w = append(w, fmt.Sprintf("%d at %s", n+1, j.PlaceWords(t, p)))
		}
		return fmt.Sprintf("two screws through the sheet into the waste outside the body, heads of at most %s mm: %s; no two clamps reach in beside the sweep of the base", design.MM(defaultScrewHead), strings.Join(w, "; "))
	case t.Male:
		return "double-sided tape on a clean face, pressed down in a vice: " + h.Tape
	}
	return "double-sided tape under the whole sheet: " + h.Tape
}

// TipWords says where most of the router's base hangs over and whether it tips;
// empty where no router is led by hand over the template.
func (j *Job) TipWords(i int) string {
	t, s := j.Templates[i], j.Sweeps[i]
	if t.Free() || t.Male && !j.ByHand || s.Base == 0 {
		return ""
	}
	w := s.Worst()
	who := "base"
	if s.Base > j.Base {
		who = "plate under the base"
	}
	out := fmt.Sprintf("at most %.0f %% of the %s of %s mm hangs over, where the bit stands at %s", 100*w.Share, who, design.MM(s.Base), j.PlaceWords(t, w.At))
	o := j.Jigs.Outrigger
	switch {
	case w.Share > limit.BaseOverhang && o != nil && !o.Given && o.over(i):
		return out + fmt.Sprintf(": it tips. Screw a plate of %s mm or more under the base", design.MM(o.D))
	case w.Share > limit.BaseOverhang:
		return out + ": it tips. No plate at hand helps: leave wood standing in the middle until last"
	case s.Base > j.Base:
		return out + fmt.Sprintf("; the base of %s mm alone would tip", design.MM(j.Base))
	}
	return out + fmt.Sprintf("; up to %.0f %% it does not tip", 100*limit.BaseOverhang)
}

// PropWords says where the sheet of a template wants a strip under it; empty where
// the slab carries it.
func (j *Job) PropWords(i int) string {
	var out []string
	for _, p := range j.HoldOf(i).Props {
		along := fmt.Sprintf("%s to %s mm from the bridge line", design.MM(math.Floor(p.From)), design.MM(math.Ceil(p.To)))
		if p.Edge == cut.NeckEdge || p.Edge == cut.TailEdge {
			along = fmt.Sprintf("%s to %s", j.CentreWords(geom.Pt(math.Floor(p.From), 0)), j.CentreWords(geom.Pt(math.Ceil(p.To), 0)))
		}
		out = append(out, fmt.Sprintf("%s mm over %s, along it %s", design.MM(p.Over), j.EdgeWords(p.Edge), along))
	}
	if out == nil {
		return ""
	}
	return fmt.Sprintf("the sheet stands %s: lay a strip as thick as the slab under it there, or the base dips", strings.Join(out, "; "))
}

// DrillWords says what the stops of the holes for waste count from, in which order
// they are bored, and what they take.
func (j *Job) DrillWords(i int) string {
	t, d := j.Templates[i], j.DrillOut(i)
	if len(d.Holes) == 0 {
		return ""
	}
	face := "the finished " + t.For.Face.String()
	if t.For.Kind == part.Recess {
		face = "the face as it lies, before planing"
	}
	if j.Plate(t.For) > 0 {
		face = "the face as it lies, before its plate"
	}
	w := fmt.Sprintf("Bore them in this order, W1 first: then every point stands in wood. The stop is the depth of the rim below %s; the point ends %s mm or more above the floor.", face, design.MM(cut.DrillFloor))
	if d.Start > 0 {
		w += fmt.Sprintf(" The holes begin on the floor of the rebate, %s mm below that face: set the stop from the face, or from that floor and less by as much.", design.MM(d.Start))
	}
	return w + fmt.Sprintf(" They take %.0f %% of the area and %.0f %% of the wood, and stay %s mm inside the line.", 100*d.Share, 100*d.Volume, design.MM(d.Margin))
}
