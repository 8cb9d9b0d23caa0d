package outline

import (
	"fmt"
	"math"
	"strings"

	"routwright/geom"
)

// leastRows is how many readings a table of half widths needs: an end, two
// places and an end.
const leastRows = 4

// mostRows bounds a table: one reading a millimetre of a long body and more.
const mostRows = 2000

// HalfWidths returns a smooth closed outline through ruler readings: rows of y
// from the tail end, bass half width, treble half width, in mm, rising in y. The
// outline passes through every reading, counter-clockwise, bass side at −X, in
// the y of the table. A first or last row of two zeros closes that end rounded,
// square to the centre line; other ends are cut straight across, with corners
// that stay. Between readings it is Hobby's spline (geom.Hobby), as arcs within
// geom.CurveToArc.
//
// The error lists all rows that are wrong: not a number, negative, not rising,
// zero inside the body; or says where the outline crosses itself, which readings
// too far apart for a deep curve can cause.
func HalfWidths(rows [][3]float64) (geom.Path, error) {
	if err := checkRows(rows); err != nil {
		return nil, err
	}
	last := len(rows) - 1
	tail, neck := rounded(rows[0]), rounded(rows[last])
	var treble, bass []geom.Knot // both from the tail to the neck
	for i, r := range rows {
		if i == 0 && tail || i == last && neck {
			continue
		}
		treble = append(treble, geom.Knot{At: geom.Pt(r[2], r[0])})
		bass = append(bass, geom.Knot{At: geom.Pt(-r[1], r[0])})
	}
	cs, err := chain(treble, bass, end(rows[0], tail, 1), end(rows[last], neck, -1))
	if err != nil {
		return nil, err
	}
	p, err := geom.FitCubics(cs, geom.CurveToArc)
	if err != nil {
		return nil, err
	}
	if err := (geom.Region{p}).Check(); err != nil {
		return nil, fmt.Errorf("the outline through the readings crosses itself: %w; measure more places where it bends", err)
	}
	return p, nil
}

// rounded reports whether a row closes the outline.
func rounded(r [3]float64) bool { return r[1] == 0 && r[2] == 0 }

// end returns the knot of a rounded end, travelled in the direction x, nil of a
// straight one.
func end(r [3]float64, is bool, x float64) []geom.Knot {
	if !is {
		return nil
	}
	return []geom.Knot{{At: geom.Pt(0, r[0]), Dir: geom.Vec{X: x}}}
}

// chain returns the closed chain of cubics: up the treble side, down the bass
// side, straight across the ends that are not rounded.
func chain(treble, bass, tail, neck []geom.Knot) ([]geom.Cubic, error) {
	down := make([]geom.Knot, len(bass))
	for i, k := range bass {
		down[len(bass)-1-i] = k
	}
	up := append(append([]geom.Knot{}, tail...), treble...)
	up = append(up, neck...)
	switch {
	case len(tail) > 0 && len(neck) > 0:
		return geom.Hobby(append(up, down...), true)
	case len(neck) > 0:
		return closed(append(up, down...))
	case len(tail) > 0: // start at the neck's bass corner, so that the tail is inside
		return closed(append(append([]geom.Knot{}, down...), up...))
	}
	a, err := geom.Hobby(up, false)
	if err != nil {
		return nil, err
	}
	b, err := geom.Hobby(down, false)
	if err != nil {
		return nil, err
	}
	a = across(a, a[len(a)-1][3], b[0][0])
	return across(append(a, b...), b[len(b)-1][3], a[0][0]), nil
}

// closed returns the open curve through the knots and the line that closes it.
func closed(k []geom.Knot) ([]geom.Cubic, error) {
	cs, err := geom.Hobby(k, false)
	if err != nil {
		return nil, err
	}
	return across(cs, cs[len(cs)-1][3], cs[0][0]), nil
}

// across adds the line from a to b, if there is one.
func across(cs []geom.Cubic, a, b geom.Point) []geom.Cubic {
	if a == b {
		return cs
	}
	return append(cs, geom.Cubic{a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b})
}

// checkRows returns an error that lists everything wrong with a table.
func checkRows(rows [][3]float64) error {
	if n := len(rows); n < leastRows || n > mostRows {
		return fmt.Errorf("%d rows of half widths; allowed: %d to %d", n, leastRows, mostRows)
	}
	var bad []string
	say := func(i int, format string, a ...any) {
		bad = append(bad, fmt.Sprintf("row %d: ", i+1)+fmt.Sprintf(format, a...))
	}
	last := len(rows) - 1
	for i, r := range rows {
		switch {
		case !finite(r[0]) || !finite(r[1]) || !finite(r[2]):
			say(i, "%g, %g, %g: not numbers", r[0], r[1], r[2])
		case r[1] < 0 || r[2] < 0:
			say(i, "half widths of %g and %g mm; allowed: 0 or more, measured from the centre line", r[1], r[2])
		case i > 0 && !(r[0]-rows[i-1][0] > geom.Coincident):
			say(i, "y = %g mm after y = %g mm; allowed: rising from the tail end, each place once", r[0], rows[i-1][0])
		case i > 0 && i < last && (r[1] == 0 || r[2] == 0):
			say(i, "half widths of %g and %g mm; allowed: more than 0 between the ends", r[1], r[2])
		case math.Max(r[1], r[2]) > 1000 || math.Abs(r[0]) > 3000:
			// Wider and longer than any instrument that is held: a slip of units.
			say(i, "%g, %g, %g mm; allowed: half widths up to 1000 and places up to 3000 mm", r[0], r[1], r[2])
		}
	}
	if len(bad) > 0 {
		return fmt.Errorf("%s", strings.Join(bad, "\n"))
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
