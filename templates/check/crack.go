package check

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
)

// crackOf returns the crack nearest to a point, on the face of the key, and the
// point of it that is nearest.
func crackOf(j *job.Job, p geom.Point, f part.Face) (crack geom.Path, at geom.Point, d float64) {
	d = math.Inf(1)
	for _, c := range j.Cracks {
		line := c.Front
		if f == part.Back && c.Back != nil || line == nil {
			line = c.Back
		}
		for _, s := range line {
			if q := s.Closest(p); q.Dist(p) < d {
				crack, at, d = line, q, q.Dist(p)
			}
		}
	}
	return crack, at, d
}

// keyOnCrack measures how far the middle of each waist lies from its crack. The
// crack may not leave the middle third of the waist.
func keyOnCrack(r Rule, j *job.Job) []Finding {
	if j.Keys == nil {
		return nil
	}
	var out []Finding
	for _, k := range j.Keys.Poses {
		crack, at, d := crackOf(j, k.At, k.Face)
		if crack == nil {
			continue
		}
		l, want := Warn, r.Warn
		if most := j.Keys.Sizes[k.Size].Fit.Spec.Waist / 6; d > most {
			l, want = Stop, most
		} else if d <= r.Warn {
			continue
		}
		out = append(out, r.finding(l, d, want, fmt.Sprintf("the crack runs %s mm beside the middle of the waist of key %q, more than %s", mm(d), k.Name, mm(want)), "move the key onto the crack", k.Pos, Place{at, "crack"}))
	}
	return out
}

// keySquare measures the angle between each key's axis and the square of its
// crack, taken over the length that the key spans.
func keySquare(r Rule, j *job.Job) []Finding {
	if j.Keys == nil {
		return nil
	}
	var out []Finding
	for _, k := range j.Keys.Poses {
		crack, _, _ := crackOf(j, k.At, k.Face)
		if crack == nil {
			continue
		}
		dir := heading(crack, k.At, j.Keys.Sizes[k.Size].Fit.Spec.Length/2)
		off := math.Abs(math.Mod(math.Abs((k.Turn-dir).Degrees()), 180) - 90)
		if off > r.Warn {
			out = append(out, r.finding(Warn, off, r.Warn, fmt.Sprintf("key %q stands %s° off square to the crack, more than %s°", k.Name, mm(off), mm(r.Warn)), "turn the key square to the crack", k.Pos, Place{k.At, "key"}))
		}
	}
	return out
}

// heading returns the direction of a crack between the points nearest to
// distance half on both sides of p.
func heading(crack geom.Path, p geom.Point, half float64) geom.Angle {
	var first, last geom.Point
	found := false
	for _, s := range crack {
		for i := 0; i <= 20; i++ { // a twentieth of a piece between two measured points
			q := s.At(float64(i) / 20)
			if q.Dist(p) > half {
				continue
			}
			if !found {
				first, found = q, true
			}
			last = q
		}
	}
	if !found || first.Dist(last) < geom.Coincident {
		s := crack[0]
		return s.B.Sub(s.A).Angle()
	}
	return last.Sub(first).Angle()
}

func keyToKey(r Rule, j *job.Job) []Finding {
	var out []Finding
	ks := j.OfKind(part.Recess)
	for i, a := range ks {
		for _, b := range ks[i+1:] {
			if !a.SharesDepth(b) {
				continue
			}
			d, pa, _ := geom.Distance(a.Plan(), b.Plan())
			if l, want, bad := r.below(d); bad {
				out = append(out, r.finding(l, d, want, fmt.Sprintf("%s and %s have %s mm of wood between them, less than %s", a, b, mm(d), mm(want)), "move them apart, or leave one out", b.At, Place{pa, "key to key"}))
			}
		}
	}
	return out
}

// tipCovered measures from each true tip of a crack to the nearest key.
func tipCovered(r Rule, j *job.Job) []Finding {
	var out []Finding
	for i, c := range j.Design.Slab.Crack {
		if i >= len(j.Cracks) {
			continue
		}
		line := j.Cracks[i].Front
		if line == nil {
			line = j.Cracks[i].Back
		}
		v := line.Vertices()
		for _, tip := range c.Tips.V {
			p := v[0]
			if tip == "last" {
				p = v[len(v)-1]
			}
			d := math.Inf(1)
			for _, k := range j.OfKind(part.Recess) {
				for _, loop := range k.Plan() {
					for _, s := range loop {
						d = math.Min(d, s.Closest(p).Dist(p))
					}
				}
				if k.Plan().Contains(p) {
					d = 0
				}
			}
			if d > r.Warn {
				got := fmt.Sprintf("%s mm from the nearest key", mm(d))
				if math.IsInf(d, 1) {
					d, got = slabLength(j), "without any key near it"
				}
				out = append(out, r.finding(Warn, d, r.Warn, fmt.Sprintf("the %s tip of crack %d is %s: at most %s mm", tip, i+1, got, mm(r.Warn)), "place a key nearer the tip, so that the crack does not run on", c.Tips.At, Place{p, "tip"}))
			}
		}
	}
	return out
}

// slabLength is what stands for "no key at all" where a distance is printed: the
// length of the slab, further than any key could be.
func slabLength(j *job.Job) float64 { return j.Blank.Bounds().H() }

// crackBare tells the stretches of a crack that the program left without a key,
// and what blocks them.
func crackBare(r Rule, j *job.Job) []Finding {
	if j.Keys == nil {
		return nil
	}
	var out []Finding
	for _, b := range j.Keys.Bare {
		why := "no further key has room beside those placed"
		if b.By != "" && b.Need == 0 {
			why = b.By + " is in the way"
		} else if b.By != "" {
			why = fmt.Sprintf("%s is in the way: %s mm to it, %s needed", b.By, mm(b.Have), mm(b.Need))
		}
		out = append(out, r.finding(Note, b.To-b.From, 0, fmt.Sprintf("crack %d is bare%s for %s mm, from %s to %s mm along it: %s", b.Crack, map[part.Face]string{part.Back: " on the back"}[b.Face], mm(b.To-b.From), mm(b.From), mm(b.To), why), "move what is in the way, or use shorter keys", j.Design.Keys.At, Place{b.At, "bare crack"}))
	}
	return out
}

// keyPlaced tells of each key that the program placed why it stands there.
func keyPlaced(r Rule, j *job.Job) []Finding {
	if j.Keys == nil {
		return nil
	}
	var out []Finding
	for _, k := range j.Keys.Poses {
		if k.Why != "" {
			cure := "to keep it there, or to move it, write it as a [[key]] of its own"
			if k.Cut {
				cure = "nothing: it stays, and further keys are placed round it"
			}
			out = append(out, r.finding(Note, 0, 0, fmt.Sprintf("key %q at x %s, y %s, %s°: %s", k.Name, mm(k.At.X), mm(k.At.Y), mm(k.Turn.Degrees()), k.Why), cure, k.Pos, Place{k.At, "key"}))
		}
	}
	return out
}
