package table

import (
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/tool"
)

// rack lists the tools at hand; an empty cell was not given. d is what the
// templates are made for, nominal what the file says beside a test slot.
func rack(j *job.Job) Table {
	t := Table{Name: "rack", Head: []string{"tool", "name", "d", "nominal", "cutting_length", "shank", "reach", "bearing", "bearing_height", "plunge", "collar", "point"}}
	add := func(kind, name string, cells ...string) {
		t.Rows = append(t.Rows, append([]string{kind, name}, cells...))
	}
	r, _ := tool.NewRack(j.Design)
	nominal := map[string]string{}
	for _, b := range j.Design.Bit {
		if b.TestSlot.Set() {
			nominal[b.Name.V] = num(float64(b.D.V))
		}
	}
	for _, b := range r.Bits() {
		add("bit", b.Name.V, given(b.D), nominal[b.Name.V], given(b.Cut), given(b.Shank), given(b.Reach), given(b.Bearing.D), given(b.Bearing.Height), "", "", "")
	}
	for _, b := range j.Design.Bush {
		add("guide bush", b.Name.V, given(b.D), "", "", "", given(b.Reach), "", "", "", given(b.Collar), "")
	}
	for _, d := range r.Drills() {
		length := ""
		if d.Length > 0 {
			length = num(d.Length)
		}
		add(string(d.Kind), "", num(d.D), "", length, "", "", "", "", "", "", num(d.Point))
	}
	if w := j.Design.Router; w.Present {
		add("router base", "", given(w.Base), "", "", "", "", "", "", given(w.Plunge), "", "")
		if w.Outrigger.Set() {
			add("plate under the base", "", given(w.Outrigger), "", "", "", "", "", "", "", "", "")
		}
	}
	return t
}

// given prints a length of the file; nothing where there is none.
func given(v design.Val[design.Length]) string {
	if v.V == 0 {
		return ""
	}
	return num(float64(v.V))
}
