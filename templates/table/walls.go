package table

import (
	"routwright/templates/job"
	"routwright/templates/wall"
)

// farWall is the wood, in mm, that nobody needs listed: more than any rule asks
// for.
const farWall = 20

// walls lists the wood left between voids, faces and the finished edge, the
// thinnest first, with the two places that it stands between.
func walls(j *job.Job) Table {
	t := Table{Name: "walls", Head: []string{"between", "and", "wood", "x", "y", "z", "to_x", "to_y", "to_z"}}
	for _, w := range wall.Of(j, farWall) {
		t.Rows = append(t.Rows, []string{w.Between, w.And, num(w.D),
			num(w.A.X), num(w.A.Y), num(w.A.Z), num(w.B.X), num(w.B.Y), num(w.B.Z)})
	}
	return t
}
