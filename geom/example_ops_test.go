package geom_test

import (
	"fmt"

	"routwright/geom"
)

// A pocket 60 × 40 mm with corners of 5 mm, cut with a bit of 6.35 mm: where the
// bit's centre runs.
func ExampleCalc_Offset() {
	var c geom.Calc
	pocket := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 60, 40, 5)}
	centre := c.Offset(pocket, -6.35/2, geom.Round)
	if err := c.Err(); err != nil {
		fmt.Println(err)
		return
	}
	b := centre.Bounds()
	fmt.Printf("%.2f × %.2f mm, %d segments\n", b.W(), b.H(), centre.Segs())
	// Output: 53.65 × 33.65 mm, 8 segments
}

// Two cavities that share a wall are one opening.
func ExampleCalc_Union() {
	var c geom.Calc
	a := geom.Region{geom.Rect(geom.Pt(0, 0), 40, 20)}
	b := geom.Region{geom.Rect(geom.Pt(30, 0), 20, 10)}
	u := c.Union(a, b)
	fmt.Printf("%d loop, %.0f mm²\n", len(u), u.Area())
	// Output: 1 loop, 1000 mm²
}
