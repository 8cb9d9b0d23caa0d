package table

import (
	"strconv"

	"routwright/templates/job"
)

// tuners lists the tuners' holes on the head laid flat, and how each string runs
// to its post.
func tuners(j *job.Job) Table {
	t := Table{Name: "tuners", Head: []string{"string", "x", "y", "from_nut", "hole", "bend_at_nut_deg", "wood_to_edge"}}
	n := j.Shape.Spec.Board.Nut.At(0.5).Y
	for _, e := range j.Shape.Tuners {
		t.Rows = append(t.Rows, []string{strconv.Itoa(e.String), num(e.Post.X), num(e.Post.Y), num(e.Post.Y - n),
			num(j.Shape.Spec.Head.Hole), num(e.Deflection.Degrees()), num(e.Wall)})
	}
	return t
}

// neckBack lists what the back of the neck measures at every whole fret between
// the hollow of the heel and that of the head: wood is the depth under the
// board, thickness the whole with the board, the radii those of the profile.
func neckBack(j *job.Job) Table {
	t := Table{Name: "neck-back", Head: []string{"fret", "from_nut", "width", "wood", "thickness", "fullness", "shoulder_radius", "crown_radius"}}
	sh := j.Shape
	n := sh.Spec.Board.Nut.At(0.5).Y
	for _, s := range j.Board.Slots {
		y := s.Line.At(0.5).Y
		if s.Partial || s.Fret < 1 || y < sh.Side.From || y > sh.Side.To {
			continue
		}
		p := sh.ProfileAt(y)
		shoulder, crown := p.Radii()
		t.Rows = append(t.Rows, []string{s.Name(), num(n - y), num(2 * p.Half), num(p.Depth), num(p.Depth + sh.Spec.Board.Thickness),
			num(p.Shoulder), num(shoulder), num(crown)})
	}
	return t
}
