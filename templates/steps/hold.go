package steps

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
)

// fact is one named line of a step.
func fact(name, format string, args ...any) render.Field {
	return render.Field{Name: name, Value: fmt.Sprintf(format, args...)}
}

// zeroDo is how the depth is set, in the order of the hands.
func zeroDo(t cut.Template, r cut.Routing) []string {
	if t.Free() {
		return []string{fmt.Sprintf("Set the machine's zero on the face of the work and its deepest place to %s mm.", mm(r.Wanted))}
	}
	return []string{
		"With the router unplugged, stand it beside the opening and let the bit down until its tip touches the template's upper face: there the scale of the depth stop reads 0.",
		fmt.Sprintf("Set the stop for each pass to the setting in the table of passes: template and depth together, %s mm for the last.", mm(r.Setting(r.Wanted))),
	}
}

// measureDo is how the depth is measured while the template still lies on the work.
func measureDo(r cut.Routing) string {
	if r.Template == 0 {
		return fmt.Sprintf("Measure the depth from the face at three places: %s mm.", mm(r.Wanted))
	}
	return fmt.Sprintf("Vacuum it out and measure from the template's upper face at three places, before the template comes off: %s mm.", mm(r.Setting(r.Wanted)))
}

// wasteDo is how the waste is drilled out, empty where nothing is drilled.
func (b *builder) wasteDo(i int, where string) []string {
	if b.bare {
		return nil
	}
	d := b.j.DrillOut(i)
	if len(d.Holes) == 0 {
		return nil
	}
	return []string{
		fmt.Sprintf("Lay a second print of the sheet %s, prick the crosses of the waste holes through it, and lift it.", where),
		"Bore the holes in the order of the table, the stop of the press set to the depth of each row as said under Waste, and brush the chips out.",
	}
}

// slips is what to do when a template moves.
func slips(t cut.Template) render.Field {
	if t.Pinned() {
		return fact("If it slips", "let go of nothing: switch off, wait for the bit to stop, lift the router. Lay the template on the pins again; a pin with play gets a thicker dowel. Never go on by eye")
	}
	return fact("If it slips", "switch off, wait for the bit to stop, lift the router. Lay the template on its lines again and look at the wall: what is cut too wide is filled with a strip of the same wood and cut again, or all is cut to a larger template")
}

// dowels says which pins are used, how long.
func (b *builder) dowels() []render.Field {
	j := b.j
	if len(j.Pins) == 0 {
		return nil
	}
	sheet := 0.0
	for _, t := range j.Templates {
		if t.Pinned() && !t.Free() {
			sheet = math.Max(sheet, t.Sheet)
		}
	}
	var w []string
	for _, p := range j.Pins {
		w = append(w, fmt.Sprintf("%s of %s mm", p.Name, mm(p.D)))
	}
	out := []render.Field{fact("Dowels", "pin %s: straight dowels that go in by hand without play", strings.Join(w, ", pin "))}
	if sheet > 0 {
		out = append(out, fact("Length", "%s mm, slab and template together, so that a dowel stands on the bench and ends flush with the template; %s mm once the slab is planed. Where the base passes over it, no more than flush", mm(j.Rough+sheet), mm(j.Thickness+sheet)))
	}
	return out
}

// edgesFact says where the two datum lines lie from the slab's edges.
func (b *builder) edgesFact() []render.Field {
	e, ok := b.j.Edges()
	if !ok {
		return nil
	}
	return []render.Field{fact("Lines", "%s", e.Words())}
}

// xy prints a place as the tables do.
func xy(p geom.Point) string { return fmt.Sprintf("%s, %s", mm(p.X), mm(p.Y)) }

// cm2 prints an area of mm² in whole square centimetres.
func cm2(a float64) string { return fmt.Sprintf("%.0f cm²", a/100) }

// ml prints a volume, never as nothing.
func ml(v float64) string { return fmt.Sprintf("%.1f ml", math.Max(v, 0.1)) }
