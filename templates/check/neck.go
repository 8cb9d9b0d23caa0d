package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/neck"
)

// rodWood tells how much wood the channel of the rod leaves under it.
func rodWood(r Rule, j *job.Job) []Finding {
	if j.Shape == nil || j.Shape.Rod == nil {
		return nil
	}
	w := j.Shape.Rod.Wood
	l, want, bad := r.below(w.MM)
	if !bad {
		return nil
	}
	f := r.finding(l, w.MM, want, fmt.Sprintf("%s mm of wood is left under the truss rod, %s, less than %s", mm(w.MM), w.By, mm(want)),
		"use a shallower or narrower rod, a thicker neck, or more shoulder (neck.back)", j.Design.Neck.Rod.At, Place{geom.Pt(0, w.Y), "least wood under the rod"})
	f.Template = job.NeckID
	return []Finding{f}
}

// tunersApart tells the tuners whose bodies overlap.
func tunersApart(r Rule, j *job.Job) []Finding {
	if j.Shape == nil {
		return nil
	}
	d, a, b, ok := neck.Apart(j.Shape.Tuners)
	if !ok || d > r.Stop {
		return nil
	}
	f := r.finding(Stop, d, r.Stop, fmt.Sprintf("the tuners of strings %d and %d overlap behind the head", a, b),
		"use a larger pitch, let the strings bend further outward, or stagger the sides", j.Design.Neck.Head.At, tunerPlace(j, a), tunerPlace(j, b))
	f.Template = headTemplate(j)
	return []Finding{f}
}

// tunerToEdge tells the hole with the least wood beside it.
func tunerToEdge(r Rule, j *job.Job) []Finding {
	if j.Shape == nil || len(j.Shape.Tuners) == 0 {
		return nil
	}
	t := j.Shape.Tuners[0]
	for _, o := range j.Shape.Tuners {
		if o.Wall < t.Wall {
			t = o
		}
	}
	l, want, bad := r.below(t.Wall)
	if !bad {
		return nil
	}
	f := r.finding(l, t.Wall, want, fmt.Sprintf("the hole of string %d's tuner keeps %s mm of wood to the edge of the head, less than %s", t.String, mm(t.Wall), mm(want)),
		"give more neck.head.edge, or a wider or longer head", j.Design.Neck.Head.At, Place{t.Post, "tuner's hole"})
	f.Template = headTemplate(j)
	return []Finding{f}
}

// nutBend tells the string that bends most at the nut.
func nutBend(r Rule, j *job.Job) []Finding {
	if j.Shape == nil {
		return nil
	}
	var worst neck.Tuner
	for _, t := range j.Shape.Tuners {
		if math.Abs(float64(t.Deflection)) > math.Abs(float64(worst.Deflection)) {
			worst = t
		}
	}
	a := math.Abs(worst.Deflection.Degrees())
	if a <= r.Warn+1e-9 {
		return nil
	}
	f := r.finding(Warn, a, r.Warn, fmt.Sprintf("string %d bends by %.1f° at the nut, more than %g°", worst.String, a, r.Warn),
		"set the posts nearer to the strings' own lines: a narrower head, or less neck.head.deflection", j.Design.Neck.Head.At, Place{worst.From, "string at the nut"})
	f.Template = headTemplate(j)
	return []Finding{f}
}

// stringPastPost tells the string that runs nearest to another one's post.
func stringPastPost(r Rule, j *job.Job) []Finding {
	if j.Shape == nil {
		return nil
	}
	d, s, p, ok := neck.Passing(j.Shape.Tuners, j.Shape.Spec.Head.Post/2)
	if !ok {
		return nil
	}
	l, want, bad := r.below(d)
	if !bad {
		return nil
	}
	words := fmt.Sprintf("string %d passes the post of string %d with %s mm of room, less than %s", s, p, mm(d), mm(want))
	if d < 0 {
		words = fmt.Sprintf("string %d runs into the post of string %d by %s mm", s, p, mm(-d))
	}
	f := r.finding(l, d, want, words, "let the strings bend less, or use a thinner post", j.Design.Neck.Head.At, tunerPlace(j, p))
	f.Template = headTemplate(j)
	return []Finding{f}
}

// headTemplate is the id of the template that shows the head.
func headTemplate(j *job.Job) string {
	if j.Shape.Spec.Head.Tilt > 0 {
		return job.HeadID
	}
	return job.NeckID
}

// tunerPlace is where the tuner of a string stands, on the head laid flat.
func tunerPlace(j *job.Job, s int) Place {
	for _, t := range j.Shape.Tuners {
		if t.String == s {
			return Place{t.Post, fmt.Sprintf("tuner of string %d", s)}
		}
	}
	return Place{}
}

// saddleHeight compares the height that the string needs with the saddles' range.
func saddleHeight(r Rule, j *job.Job) []Finding {
	lo, hi, ok := j.SaddleRange()
	if j.Neck == nil || j.Neck.ToSaddle == 0 || !ok {
		return nil
	}
	at, _ := j.Neck.SaddleAt(j.Neck.Angle)
	short := math.Min(at-lo, hi-at)
	if short >= r.Stop-1e-9 {
		return nil
	}
	return []Finding{r.finding(Stop, short, r.Stop, fmt.Sprintf("the saddles must stand %s mm over the front, and go from %s to %s mm", mm(at), mm(lo), mm(hi)),
		"change the neck angle or the height of the board over the body, or use another bridge", j.Design.Bridge.Table.At)}
}

// neckAngle tells a neck that leans the wrong way or very far.
func neckAngle(r Rule, j *job.Job) []Finding {
	if j.Neck == nil {
		return nil
	}
	a := j.Neck.Angle.Degrees()
	if a >= -1e-9 && a <= r.Warn+1e-9 {
		return nil
	}
	words, cure := fmt.Sprintf("the neck leans back by %.2f°, more than %g°", a, r.Warn), "raise the board over the body, or set the saddles lower"
	if a < 0 {
		words, cure = fmt.Sprintf("the neck leans forward by %.2f°", -a), "lower the board over the body, or set the saddles higher"
	}
	return []Finding{r.finding(Warn, a, r.Warn, words, cure, j.Design.Neck.At)}
}
