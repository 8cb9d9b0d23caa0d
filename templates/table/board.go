package table

import (
	"strconv"

	"routwright/geom"
	"routwright/templates/job"
)

// markers lists the position markers of the board.
func markers(j *job.Job) Table {
	t := Table{Name: "markers", Head: []string{"fret", "x", "y", "diameter"}}
	for _, m := range j.Board.Markers(j.Markers) {
		t.Rows = append(t.Rows, []string{strconv.Itoa(m.Fret), num(m.At.X), num(m.At.Y), num(m.Diameter)})
	}
	return t
}

// seats lists the middles of the notches or holes of the slotting strip or
// carrier, in the order of the saw's work.
func seats(j *job.Job) Table {
	t := Table{Name: "slotting-strip", Head: []string{"at", "bass_x", "bass_y", "treble_x", "treble_y", "diameter"}}
	for _, s := range j.Index.Seats {
		row := []string{s.Name, "", "", "", "", num(j.Index.Spec.Pin + j.Index.Spec.Play)}
		for k, h := range s.Holes {
			if j.Design.Hand.V == "left" {
				h = geom.MirrorX().Point(h)
			}
			row[1+2*k], row[2+2*k] = num(h.X), num(h.Y)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
