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

// signs says what x and y mean in a table, for the hand of the instrument.
func (b *builder) signs() string {
	side := "treble"
	if b.j.Design.Hand.V == "left" {
		side = "bass"
	}
	return "x from the centre line, + to the " + side + " side; y from the bridge line, + to the neck"
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

// passTable lists the passes of a cut: how deep in the wood, what the router is set
// to for it, and what guides it.
func passTable(r cut.Routing) render.Table {
	t := render.Table{Caption: "Passes", Tick: true, Head: []string{"pass", "depth in the wood, mm", "setting from the template, mm", "bite, mm", "the follower runs on"}, Number: []bool{true, true, true, true}}
	for i, p := range r.Passes {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), mm(p.Depth), mm(r.Setting(p.Depth)), mm(p.Bite), p.On.String()})
	}
	if r.Template == 0 { // the base, or the machine's zero, is on the work
		t.Head, t.Number = append(t.Head[:2:2], t.Head[3:]...), t.Number[1:]
		for i, row := range t.Rows {
			t.Rows[i] = append(row[:2:2], row[3:]...)
		}
	}
	return t
}
