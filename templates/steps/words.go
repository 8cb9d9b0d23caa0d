package steps

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/tool"
)

func mm(v float64) string { return design.MM(v) }

// place says where a point lies, from both datums, in words that hold for a
// left-handed instrument too.
func (b *builder) place(p geom.Point) string {
	side := "treble"
	if (p.X < 0) != (b.j.Design.Hand.V == "left") {
		side = "bass"
	}
	way := "towards the neck"
	if p.Y < 0 {
		way = "towards the tail"
	}
	across := fmt.Sprintf("%s mm to the %s side of the centre line", mm(math.Abs(p.X)), side)
	if math.Abs(p.X) < 0.005 { // below what is printed
		across = "on the centre line"
	}
	return fmt.Sprintf("%s, %s mm from the bridge line %s", across, mm(math.Abs(p.Y)), way)
}

// direction says which way the router is led, seen from above a hand-held
// router: against the turning of the bit.
func direction(t cut.Template) string {
	if t.Male {
		return "anticlockwise round the outside, seen from above (on a router table the other way)"
	}
	return "clockwise round the inside, seen from above"
}

// speed says how fast the bit may turn.
func speed(t tool.Tool) string {
	s, ok := t.Speed()
	if !ok {
		return "slow: no chart reaches this diameter; the bit's manual says"
	}
	return fmt.Sprintf("at most %s rpm by one published chart; others give %s to %s. The bit's own marking comes first", thousands(s.Most), thousands(s.Other[0]), thousands(s.Other[1]))
}

func thousands(n int) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%s,%03d", thousands(n/1000), n%1000)
}

// passTable lists the passes of a cut and what guides each.
func passTable(r cut.Routing) render.Table {
	t := render.Table{Caption: "Passes", Tick: true, Head: []string{"pass", "to depth, mm", "bite, mm", "the follower runs on"}, Number: []bool{true, true, true}}
	for i, p := range r.Passes {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), mm(p.Depth), mm(p.Bite), p.On.String()})
	}
	return t
}
