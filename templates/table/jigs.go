package table

import (
	"strconv"

	"routwright/geom"
	"routwright/templates/jig"
	"routwright/templates/job"
	"routwright/templates/limit"
)

// jigs lists what is computed of each jig: what it claims, with what is asked for
// where something is. Lengths in mm, angles in degrees, overhang as a share of the base.
func jigs(j *job.Job) Table {
	t := Table{Name: "jigs", Head: []string{"sheet", "measure", "value", "asked"}}
	add := func(sheet, what string, v float64, asked ...float64) {
		want := ""
		if len(asked) > 0 {
			want = num(asked[0])
		}
		t.Rows = append(t.Rows, []string{sheet, what, num(v), want})
	}
	for _, h := range j.Jigs.Handles {
		id := jig.HandleID + j.Templates[h.Template].ID
		b := h.Block.Bounds()
		add(id, "block, long", b.W())
		add(id, "block, wide", b.H())
		add(id, "least from a knob to the cutter", h.HandClear, limit.HandClear)
		add(id, "least from the edge of the block to the cutter", h.RimClear)
	}
	if o := j.Jigs.Outrigger; o != nil {
		add(jig.OutriggerID, "diameter", o.D, o.Rule)
		for _, e := range o.Over {
			name := j.Templates[e.Template].ID
			add(jig.OutriggerID, "overhang of the plate, "+name, e.With.Share, limit.BaseOverhang)
			add(jig.OutriggerID, "overhang of the base alone, "+name, e.Alone.Share, limit.BaseOverhang)
		}
	}
	if c := j.Jigs.Neck; c != nil {
		for i, s := range c.Slices {
			n := "slice " + strconv.Itoa(i+1)
			add(jig.NeckCaulID, n+", tall over the crown", s.Tall)
			add(jig.NeckCaulID, n+", sagitta", s.Sagitta)
			add(jig.NeckCaulID, n+", most off the frets and the cork", s.Off, c.Cork*limit.CorkGives)
		}
	}
	if c := j.Jigs.Cauls; c != nil {
		for i, e := range c.Two {
			n := "caul " + strconv.Itoa(i+1)
			add(jig.EdgeCaulID, n+", least to the body", e.Fit.Min, e.Gap)
			add(jig.EdgeCaulID, n+", most to the body", e.Fit.Max, e.Gap)
			add(jig.EdgeCaulID, n+", clamp off square to the edge", e.Skew.Degrees(), limit.CaulSkew)
		}
	}
	for _, c := range j.Channels {
		if c.Guided() {
			g := j.Guide(c)
			add(jig.GuideID+c.ID, "tilt", g.Angle.Degrees())
			add(jig.GuideID+c.ID, "bore off square to the tilted end", (g.Square() - 90*geom.Degree).Degrees(), 0)
			add(jig.GuideID+c.ID, "from the tilted end to the entry", g.Lead)
			add(jig.GuideID+c.ID, "least wood round the bore", g.Wall)
		}
	}
	if e := j.Jigs.Cradle; e != nil {
		add(jig.CradleID, "most from the hollow to the outline", e.Fit.Max, 0)
		add(jig.CradleID, "bore off square to the edge", e.Skew.Degrees(), 0)
		add(jig.CradleID, "bush from either face", j.Thickness/2)
	}
	return t
}
