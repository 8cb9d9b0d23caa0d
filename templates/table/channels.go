package table

import "routwright/templates/job"

// channels is what is needed at the drill: where each goes in, how deep below the
// face that it comes from, at what angle and how far. Angles in degrees.
func channels(j *job.Job) Table {
	t := Table{Name: "channels", Head: []string{"channel", "drill", "from", "into", "face", "x", "y", "below_face", "angle_to_face", "x_out", "y_out", "depth_out", "length", "rim_behind", "clears_rim", "clears_chuck"}}
	for _, c := range j.Channels {
		if !c.Found {
			t.Rows = append(t.Rows, []string{c.Join[0] + " to " + c.Join[1], num(c.D), c.Join[0], c.Join[1], "no path", "", "", "", "", "", "", "", "", "", "", ""})
			continue
		}
		from, p := c.From(), c.Path
		rim, clear := "", ""
		if !from.Side && !from.Open && !from.Plate {
			rim, clear = num(p.Rim), num(p.RimClear(from, c.D))
		}
		chuck := ""
		if !from.Side && !from.Open {
			chuck = num(p.ChuckClear(from, j.DrillRules(c)))
		}
		t.Rows = append(t.Rows, []string{c.Name, num(c.D), from.Name, c.To().Name, from.Face.String(),
			num(p.From.X), num(p.From.Y), num(p.Entry), num(p.Angle(from).Degrees()),
			num(p.To.X), num(p.To.Y), num(p.To.Z), num(p.Length()), rim, clear, chuck})
	}
	return t
}
