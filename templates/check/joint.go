package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/fretboard"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// saddleTravel measures what travel is left where each string wants its saddle.
func saddleTravel(r Rule, j *job.Job) []Finding {
	if j.Bridge == nil {
		return nil
	}
	var worst *Finding
	for i, l := range j.Bridge.Lines {
		spare := l.Spare()
		level, want, bad := r.below(spare)
		if !bad || worst != nil && worst.Got <= spare {
			continue
		}
		f := r.finding(level, spare, want, fmt.Sprintf("string %d wants its saddle %s mm behind the scale; the bridge reaches %s to %s mm, %s mm to spare", len(j.Bridge.Lines)-i, mm(l.Want), mm(l.From), mm(l.To), mm(spare)), "move the bridge along the strings (bridge.at), or use one with more travel", j.Design.Bridge.Table.At, Place{l.At, "saddle"})
		worst = &f
	}
	if worst == nil {
		return nil
	}
	return []Finding{*worst}
}

// linesApart compares the centre lines of neck and bridge at the bridge line.
func linesApart(r Rule, j *job.Job) []Finding {
	if j.Bridge == nil {
		return nil
	}
	neck := 0.0
	if j.Neck != nil && j.Neck.Fitted != nil {
		neck = j.Neck.Fitted.Aside
	}
	off := math.Abs(j.Bridge.Aside - neck)
	level, want := Warn, r.Warn
	switch {
	case off > r.Stop+geom.Coincident:
		level, want = Stop, r.Stop
	case off > r.Warn+geom.Coincident:
	default:
		return nil
	}
	return []Finding{r.finding(level, off, want, fmt.Sprintf("the middle of the bridge lies %s mm from the neck's centre line at the bridge line, more than %s", mm(off), mm(want)), "lay a string along the neck, and place the bridge by it (bridge.aside)", j.Design.Bridge.Table.At, Place{geom.Pt(j.Bridge.Aside, 0), "middle of the bridge"})}
}

// neckFloor measures the wood under the pocket of a bolted neck.
func neckFloor(r Rule, j *job.Job) []Finding {
	n := j.Neck
	if n == nil || n.Bolts == nil {
		return nil
	}
	left := j.Thickness - math.Max(n.Pocket.DepthEnd, n.Pocket.DepthJoint)
	level, want, bad := r.below(left)
	if !bad {
		return nil
	}
	return []Finding{r.finding(level, left, want, fmt.Sprintf("%s mm of wood stay under the neck pocket, less than %s: the screws pull through", mm(left), mm(want)), "use a thicker body or a thinner heel, or raise the board over the body", j.Design.Neck.Heel.Table.At, Place{geom.Pt(0, n.JointY), "deepest place of the pocket"})}
}

// boltTip measures the wood between the tips of the neck's screws and the playing
// surface, and from each screw to the channel of the rod.
func boltTip(r Rule, j *job.Job) []Finding {
	if j.Neck == nil || j.Neck.Bolts == nil {
		return nil
	}
	var out []Finding
	b := j.Neck.Bolts
	if level, want, bad := r.below(b.Over); bad {
		out = append(out, r.finding(level, b.Over, want, fmt.Sprintf("screws of %s mm leave %s mm between their tips and the playing surface, less than %s", mm(b.Length), mm(b.Over), mm(want)), "use shorter screws", b.At0, Place{b.At[0], "neck screw"}))
	}
	if gap, at, ok := boltToRod(j); ok {
		if level, want, bad := r.below(gap); bad {
			out = append(out, r.finding(level, gap, want, fmt.Sprintf("a screw of the neck comes within %s mm of the rod's channel, less than %s", mm(gap), mm(want)), "move the screws apart, use shorter ones, or end the rod before them", b.At0, Place{at, "neck screw"}))
		}
	}
	return out
}

// boltToRod returns the least distance from a screw of the neck to the channel of
// the rod, mm, and that screw. The channel is open to the board, and as deep below
// its underside as the rod asks for: a screw whose tip stays below it passes under
// it.
func boltToRod(j *job.Job) (float64, geom.Point, bool) {
	if j.Shape == nil || j.Shape.Rod == nil {
		return 0, geom.Point{}, false
	}
	b, c, rod := j.Neck.Bolts, j.Shape.Rod, j.Shape.Spec.Rod
	// From the tip up to the channel's floor; negative where the tip stands beside it.
	above := b.Over - j.Neck.Board - (rod.Depth + rod.Bow)
	least, at := math.Inf(1), geom.Point{}
	edge := geom.IndexOf(c.Plan)
	for _, q := range b.At {
		_, aside := edge.Closest(q)
		if edge.Contains(q) {
			aside = 0
		}
		aside = math.Max(0, aside-b.Pilot/2)
		if d := math.Hypot(aside, math.Max(0, above)); d < least {
			least, at = d, q
		}
	}
	return least, at, !math.IsInf(least, 1)
}

// stringHoles measures from the holes of the strings to voids and keys, and
// between two ferrules.
func stringHoles(r Rule, j *job.Job) []Finding {
	var out []Finding
	for _, p := range j.OfKind(part.StringHole) {
		for i, a := range p.Bores {
			for _, b := range p.Bores[i+1:] {
				if a.From.Flat() == b.From.Flat() {
					continue
				}
				if gap := a.From.Flat().Dist(b.From.Flat()) - (a.D+b.D)/2; gap < 0 && a.From.Z == b.From.Z {
					out = append(out, r.finding(Stop, gap, 0, fmt.Sprintf("%s and %s overlap by %s mm", a.Words, b.Words, mm(-gap)), "use narrower ferrules, or a wider spread", p.At, Place{a.From.Flat().Lerp(b.From.Flat(), 0.5), "ferrules"}))
				}
			}
		}
		body := space.Of(p)
		for _, v := range append(j.Voids(), j.OfKind(part.Recess)...) {
			g := body.Within(space.Of(v), r.Most())
			if level, want, bad := r.below(g.D); bad {
				out = append(out, r.finding(level, g.D, want, fmt.Sprintf("a string hole comes within %s mm of %s, less than %s", mm(g.D), v, mm(want)), "move the holes along the strings, or the other part", p.At, where(p, v, g, "string hole")...))
			}
		}
	}
	return out
}

// poles compares the outer strings with the outer poles of each pickup.
func poles(r Rule, j *job.Job) []Finding {
	if j.Board == nil || len(j.Board.Strings) < 2 {
		return nil
	}
	var out []Finding
	for _, p := range j.Design.Pickup {
		if !p.Poles.Set() || !p.From.Set() {
			continue
		}
		most, at := 0.0, geom.Point{}
		turn := -geom.Angle(p.Slant.V) * geom.Degree
		for i, l := range []fretboard.StringLine{j.Board.Bass(), j.Board.Treble()} {
			side := float64(2*i - 1)
			q := geom.Pt(0, float64(p.From.V)).Add(geom.Vec{X: side * float64(p.Poles.V) / 2}.Rotate(turn))
			x := l.At((q.Y - l.Nut.Y) / (l.Saddle.Y - l.Nut.Y)).X
			if off := math.Abs(x - q.X); off > most {
				most, at = off, q
			}
		}
		if most > r.Warn+geom.Coincident {
			if j.Design.Hand.V == "left" {
				at.X = -at.X
			}
			out = append(out, r.finding(Warn, most, r.Warn, fmt.Sprintf("an outer string passes %s mm from its pole of pickup %q, more than %s", mm(most), p.Name.V, mm(r.Warn)), "choose a pickup of another pole spread, or move it along the strings", p.Table.At, Place{at, "outer pole"}))
		}
	}
	return out
}
