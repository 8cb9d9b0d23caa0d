package book

import (
	"fmt"

	"routwright/render"
	"routwright/templates/job"
)

// glue lists what is glued: how large, how much, and what presses it.
func (b *writer) glue() render.Table {
	t := render.Table{Caption: fmt.Sprintf("Glue to spread, in a film of %s mm (150 to 200 g/m² of white glue, common practice), and clamps", mm(job.GlueFilm)), Tick: true,
		Head: []string{"joint", "count", "area of one, cm²", "glue in all, ml", "clamps for one", "how"}, Number: []bool{false, true, true, true, true}}
	for _, g := range b.j.GlueJoints() {
		t.Rows = append(t.Rows, []string{g.Name, fmt.Sprint(g.Count), fmt.Sprintf("%.0f", g.Area/100), fmt.Sprintf("%.1f", g.Ml), fmt.Sprint(g.Clamps), g.Rule})
	}
	return t
}
