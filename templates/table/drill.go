package table

import (
	"strconv"

	"routwright/templates/holes"
	"routwright/templates/job"
)

// drills lists every hole with its place from both datums and from the edges of
// the squared blank. x, y and z as everywhere: seen from the front, z down from
// the finished front. depth runs along the drill.
func drills(j *job.Job) Table {
	t := Table{Name: "drill", Head: []string{
		"hole", "for", "part", "from", "diameter", "depth", "ends", "starts_below_face", "lean_deg", "towards",
		"x", "y", "z", "from_bass_edge", "from_tail_edge", "end_x", "end_y", "end_z", "row", "pitch"}}
	l := holes.Of(j)
	for _, h := range l.Holes {
		ends := "blind"
		switch {
		case h.Through():
			ends = "through"
		case h.Into:
			ends = "in a void"
		}
		row, pitch := "", ""
		if h.Row > 0 {
			row, pitch = strconv.Itoa(h.Row), num(l.Rows[h.Row-1].Pitch)
		}
		b := h.Bore
		place := holes.PlaceOf(j, b.From.Flat())
		t.Rows = append(t.Rows, []string{strconv.Itoa(h.Number), h.Words, h.Part, h.From.String(), num(h.D), num(h.Depth), ends, num(h.Start),
			num(h.Lean.Degrees()), h.Toward, num(b.From.X), num(b.From.Y), num(b.From.Z), num(place.Bass), num(place.Tail),
			num(b.To.X), num(b.To.Y), num(b.To.Z), row, pitch})
	}
	return t
}
