package render

import (
	"fmt"

	"routwright/geom"
)

// Measures of a ruler, mm. One base line, millimetres on its left side as one
// walks from 0, inches on its right. The figures stand beside the long ticks,
// over the short ones.
const (
	rulerSide   = 4.2 // each side of the base line
	rulerHeight = 2 * rulerSide
	rulerLead   = 1.0 // before the 0
	rulerTail   = 6.5 // after the last tick, for its figures
	rulerMin    = 30  // a shorter one is not worth measuring
)

// rulerLength returns the longest ruler in whole centimetres for the room.
func rulerLength(room float64) float64 {
	n := float64(int((room-rulerLead-rulerTail)/10)) * 10
	if n < rulerMin {
		return 0
	}
	return n
}

// ruler draws a ruler of whole centimetres from at along u, its base line on u.
func ruler(id string, at geom.Point, u geom.Vec, length float64) Group {
	g := Group{ID: id, Title: fmt.Sprintf("ruler, %.0f mm; must measure %.0f mm on paper", length, length)}
	n := u.Left()
	tick := func(along, h float64, title string) {
		p := at.Add(u.Mul(along))
		g.Shapes = append(g.Shapes, Shape{Title: title, Kind: Frame, Path: geom.Path{geom.Line(p, p.Add(n.Mul(h)))}})
	}
	figure := func(along, h float64, s string) {
		t := Text{S: s, At: at.Add(u.Mul(along + 0.55)).Add(n.Mul(h)), Size: MinText, Angle: u.Angle()}
		g.Texts = append(g.Texts, t)
	}
	g.Shapes = append(g.Shapes, Shape{Title: "base line of the ruler", Kind: Frame, Path: geom.Path{geom.Line(at, at.Add(u.Mul(length)))}})
	for i := 0; i <= int(length); i++ {
		switch {
		case i%10 == 0:
			tick(float64(i), rulerSide-0.1, fmt.Sprintf("%d mm", i))
			s := fmt.Sprint(i)
			if i == 0 {
				s = "0 mm"
			}
			figure(float64(i), rulerSide-0.1-MinText, s)
		case i%5 == 0:
			tick(float64(i), 1.5, "")
		default:
			tick(float64(i), 1.0, "")
		}
	}
	for i := 0; float64(i)*inch/8 <= length+1e-9; i++ {
		x := float64(i) * inch / 8
		switch {
		case i%8 == 0:
			tick(x, -(rulerSide - 0.1), fmt.Sprintf("%d in", i/8))
			s := fmt.Sprint(i / 8)
			if i == 0 {
				s = "0 in"
			}
			if x+0.55+TextWidth(s, MinText, false) <= length+rulerTail {
				figure(x, -(rulerSide - 0.1), s)
			}
		case i%4 == 0:
			tick(x, -1.5, "")
		default:
			tick(x, -1.0, "")
		}
	}
	return g
}

// scaleWords says how to check the print, in one line.
func scaleWords(across, up float64) string {
	if across == up || up == 0 {
		return fmt.Sprintf("Print at 100 %%, no fitting. Before use measure both rulers: 0 to %.0f must be %.0f mm.", across, across)
	}
	return fmt.Sprintf("Print at 100 %%, no fitting. Before use measure both rulers: %.0f and %.0f mm must be true.", across, up)
}
