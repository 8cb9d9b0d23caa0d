package job

import (
	"math"

	"routwright/geom"
	"routwright/templates/cut"
)

// railWidth is how wide the rails and the stop of the pocket jig are, mm; common
// practice: enough to clamp beside the router's base.
const railWidth = 60.0

// Rails is the jig that guides the router by the heel itself: two rails along the
// sides of the heel and a stop across its end.
type Rails struct {
	Pieces  []geom.Path // bass rail, treble rail, stop, as they lie on the body
	Opening geom.Region // between them, that the follower runs in
	Tool    int         // index of the pocket's template, whose tool it is
	// Shim is what stands between heel and rail while it is set, mm a side: the gap
	// and what the follower is larger than the cutter by. Negative: the follower is
	// smaller by more than the gap, and the rails cannot be set against the heel.
	Shim  float64
	Proof cut.Proof
}

// Rails returns the jig for the neck pocket; ok is false without a pocket that is
// led by a template. The error is that of the simulated cut.
func (j *Job) Rails() (r Rails, ok bool, err error) {
	n := j.Neck
	if n == nil || n.Pocket.ID == "" {
		return r, false, nil
	}
	i := -1
	for k, t := range j.Templates {
		if t.ID == n.Pocket.ID {
			i = k
		}
	}
	if i < 0 || j.Templates[i].Free() {
		return r, false, nil
	}
	t := j.Templates[i]
	p := n.Pocket
	k := t.Tool.Offset()
	tan, cos := math.Tan(float64(n.Heel.Taper())), math.Cos(float64(n.Heel.Taper()))
	r.Tool, r.Shim = i, p.Gap+p.Film+k
	// Half the width of the opening at the height y, and its two ends: past the mouth
	// and past the stop by the radius of the base, so that it never leaves the rails.
	half := func(y float64) float64 { return n.Heel.End/2 + p.Gap + p.Film + k/cos - tan*(y-p.EndY) }
	stop := p.EndY - k
	lo, hi := stop-j.Base/2-railWidth, n.JointY+pocketOpen+j.Base/2
	side := func(s float64) geom.Path {
		q := geom.Polygon(geom.Pt(s*half(lo), lo), geom.Pt(s*(half(lo)+railWidth), lo), geom.Pt(s*(half(lo)+railWidth), hi), geom.Pt(s*half(hi), hi))
		if q.Area() < 0 {
			q = q.Reversed()
		}
		return q
	}
	r.Pieces = []geom.Path{side(-1), side(1),
		geom.Polygon(geom.Pt(-half(stop-railWidth), stop-railWidth), geom.Pt(half(stop-railWidth), stop-railWidth), geom.Pt(half(stop), stop), geom.Pt(-half(stop), stop))}
	r.Opening = geom.Region{geom.Polygon(geom.Pt(-half(stop), stop), geom.Pt(half(stop), stop), geom.Pt(half(hi), hi), geom.Pt(-half(hi), hi))}
	// Past the body's edge the jig runs on: there the pocket of the template ends.
	jig := t
	jig.Shape, jig.InsideRadius = r.Opening, 0
	var c geom.Calc
	body := geom.Region{geom.Rect(geom.Pt(0, n.JointY-500), 400, 1000)}
	jig.For.Solids = append(jig.For.Solids[:0:0], jig.For.Solids...)
	jig.For.Solids[0].Plan = c.Intersect(t.For.Plan(), body)
	made := cut.Inside(&c, r.Opening, t.Tool)
	if err := c.Err(); err != nil {
		return r, false, err
	}
	jig.Shape = r.Opening
	r.Proof, err = cut.Prove(jig)
	if err != nil {
		return r, false, err
	}
	// The rails meet the stop square, so the corners come out at the cutter's radius:
	// tighter than a rounder heel asks for, which hurts nothing.
	var d geom.Calc
	wide, around := n.Heel.End/2+p.Gap+p.Film, 2*math.Max(p.Corner, p.Bit)+1
	corners := d.Union(geom.Region{geom.Rect(geom.Pt(-wide, p.EndY), around, around)}, geom.Region{geom.Rect(geom.Pt(wide, p.EndY), around, around)})
	r.Proof.Lost = d.Subtract(d.Intersect(r.Proof.Lost, body), corners)
	r.Proof.Cut = made
	return r, true, d.Err()
}
