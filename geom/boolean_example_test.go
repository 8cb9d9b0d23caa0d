package geom_test

import (
	"fmt"

	"routwright/geom"
)

// Two cavities that share a wall and a channel between others become one.
func ExampleCalc_Union() {
	pickup := geom.Region{geom.Rect(geom.Pt(0, 0), 90, 40)}
	control := geom.Region{geom.Rect(geom.Pt(75, 0), 60, 40)}
	channel := geom.Region{geom.Stadium(geom.Pt(0, 10), geom.Pt(0, 60), 3)}
	var c geom.Calc
	r := c.Union(pickup, control, channel)
	// (90 + 60) × 40, and of the channel the 40 × 6 above the edge and half a disc.
	fmt.Printf("%d loop, %.2f mm², %v\n", len(r), r.Area(), c.Err())
	// Output: 1 loop, 6254.14 mm², <nil>
}

// A plate with two holes; cuts may overlap each other.
func ExampleCalc_Subtract() {
	plate := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 160, 100, 12)}
	var c geom.Calc
	left := c.Subtract(plate,
		geom.Region{geom.Rect(geom.Pt(-30, 0), 60, 40)},
		geom.Region{geom.Rect(geom.Pt(-10, 0), 60, 30)},
		geom.Region{geom.Circle(geom.Pt(50, 0), 10)})
	outer, holes := 0, 0
	for _, p := range left {
		if p.Area() > 0 {
			outer++
		} else {
			holes++
		}
	}
	fmt.Printf("%d outer loop, %d holes, %.1f mm²\n", outer, holes, left.Area())
	// Output: 1 outer loop, 2 holes, 12562.2 mm²
}

// What two cavities have in common is cut twice.
func ExampleCalc_Intersect() {
	front := geom.Region{geom.Circle(geom.Pt(0, 0), 20)}
	back := geom.Region{geom.Rect(geom.Pt(20, 0), 40, 60)}
	var c geom.Calc
	both := c.Intersect(front, back)
	fmt.Printf("%d segments, %.3f mm²\n", both.Segs(), both.Area()) // half a disc
	// Output: 3 segments, 628.319 mm²
}

// Where a part and what was cut differ.
func ExampleCalc_Xor() {
	part := geom.Region{geom.Rect(geom.Pt(0, 0), 60, 40)}
	var c geom.Calc
	cut := c.Open(part, 5)
	wrong := c.Xor(part, cut)
	fmt.Printf("%d places, %.3f mm²\n", len(wrong), wrong.Area()) // (4 − π)·5²
	// Output: 4 places, 21.460 mm²
}
