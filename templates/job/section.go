package job

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/design"
)

// Section is a line through which the body is drawn cut, from the left of the
// drawing to its right.
type Section struct {
	Name     string
	From, To geom.Point
	At       design.Pos
}

// leastSection is the shortest line of a section, mm: about the width of a
// dimension.
const leastSection = 10

// sections reads the lines that the builder names.
func (s *solver) sections() {
	for i, c := range s.d.Section {
		k := fmt.Sprintf("section %d", i+1)
		if !c.From.Set() || !c.To.Set() {
			s.fail(c.Table.At, k, "no place for the line", "from = [x, y] and to = [x, y]",
				"name both ends of the line to cut along")
			continue
		}
		from, to := c.From.V, c.To.V
		if d := from.Dist(to); d < leastSection {
			s.fail(c.To.At, k+".to", fmt.Sprintf("a line %s mm long", design.MM(d)),
				fmt.Sprintf("at least %d mm", leastSection), "move one end")
			continue
		}
		if s.Outline != nil && !meetsBody(s.Outline, from, to) {
			s.fail(c.From.At, k+".from", "a line that misses the body", "a line that crosses the outline",
				"places count from the centre line and the bridge line, seen from the front")
			continue
		}
		name := c.Name.V
		if name == "" {
			name = k
		}
		s.Sections = append(s.Sections, Section{Name: name, From: from, To: to, At: c.Table.At})
	}
}

// meetsBody reports whether the line between two points runs through the body.
func meetsBody(outline geom.Region, from, to geom.Point) bool {
	l := from.Dist(to)
	for _, c := range outline.Chords(from, to) {
		if c[0] < l && c[1] > 0 {
			return true
		}
	}
	return false
}
