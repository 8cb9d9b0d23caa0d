package sheet

import (
	"fmt"
	"strings"

	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
)

// passWords lists the passes of a cut and what carries the follower.
func passWords(t cut.Template, r cut.Routing) string {
	if r.Problem != "" {
		return "cannot be made: " + r.Problem
	}
	var to []string
	for _, p := range r.Passes {
		to = append(to, mm(p.Depth))
	}
	w := fmt.Sprintf("%d, to %s mm deep", len(to), strings.Join(to, ", "))
	if len(to) == 1 {
		w = "1, to the full depth at once"
	}
	if t.Free() {
		return w
	}
	if len(r.Passes) > 0 && r.Passes[0].On == cut.NotKnown {
		return w + "; what the bearing runs on is not known: measure the bit's cutting length and the bearing's height"
	}
	who := "bearing"
	if t.Tool.GuideOf != "" {
		who = "bush"
	}
	var off []string
	for i := 0; i < len(r.Passes); i++ {
		first, on := i, r.Passes[i].On
		for i+1 < len(r.Passes) && r.Passes[i+1].On == on {
			i++
		}
		switch {
		case on == cut.OnTemplate:
		case i > first:
			off = append(off, fmt.Sprintf("in passes %d to %d on %s", first+1, i+1, on))
		default:
			off = append(off, fmt.Sprintf("in pass %d on %s", i+1, on))
		}
	}
	if off == nil {
		return w + "; the " + who + " runs on the template"
	}
	return w + "; the " + who + " runs on the template, " + strings.Join(off, ", ")
}

// clearWords says how far the router's base reaches, and which pins it passes.
func clearWords(j *job.Job, i int) string {
	t, s := j.Templates[i], j.Sweeps[i]
	who := "base"
	if s.Base > j.Base {
		who = "plate under the base, which this large opening needs,"
	}
	w := fmt.Sprintf("the "+who+" of %s mm reaches %s mm past the edge of the opening: no screw or clamp stands proud there", mm(s.Base), mm(s.Base/2-t.Tool.GuideRadius()))
	var pins []string
	for _, p := range t.Pins {
		if s.Clear(cut.Proud{At: p.At, D: p.D}) < 0 {
			pins = append(pins, p.Name)
		}
	}
	switch len(pins) {
	case 0:
		return w
	case 1:
		return w + "; pin " + pins[0] + " lies there: cut it flush"
	}
	return w + "; pins " + strings.Join(pins, " and ") + " lie there: cut them flush"
}

// shopFields are the rows of a title block that tell how the cut is made.
func shopFields(j *job.Job, i int) []render.Field {
	t := j.Templates[i]
	f := []render.Field{{Name: "Feed", Value: t.Feed(j.ByHand)}}
	if !t.Male {
		f = append(f, render.Field{Name: "Passes", Value: passWords(t, j.Routing(i))})
	}
	if !t.Free() {
		f = append(f, render.Field{Name: "Setting", Value: j.SettingWords(i)})
	}
	if !t.Male && j.Sweeps[i].Base > 0 {
		f = append(f, render.Field{Name: "Keep clear", Value: clearWords(j, i)})
	}
	return append(f, holdFields(j, i)...)
}
