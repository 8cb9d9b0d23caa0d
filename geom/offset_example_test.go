package geom_test

import (
	"fmt"

	"routwright/geom"
)

// The opening of a template for a cavity: a bush of 30 mm with a cutter of
// 12 mm keeps the wall 9 mm inside the template.
func ExampleCalc_Offset() {
	cavity := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 90, 40, 10)}
	var c geom.Calc
	opening := c.Offset(cavity, (30.0-12)/2, geom.Round)
	if c.Err() != nil {
		fmt.Println(c.Err())
		return
	}
	inside, _ := geom.TightestRadius(opening)
	b := opening.Bounds()
	fmt.Printf("%.1f × %.1f mm, %d segments, corner radius %.1f mm\n", b.W(), b.H(), opening.Segs(), inside.Radius)
	// Output: 108.0 × 58.0 mm, 8 segments, corner radius 19.0 mm
}

// A dumb-bell shrunk by more than half its neck comes apart.
func ExampleCalc_Offset_apart() {
	key := geom.Region{geom.Polygon(
		geom.Pt(-30, -12), geom.Pt(0, -4), geom.Pt(30, -12),
		geom.Pt(30, 12), geom.Pt(0, 4), geom.Pt(-30, 12))}
	var c geom.Calc
	fmt.Println(len(c.Offset(key, -3, geom.Round)), len(c.Offset(key, -5, geom.Round)), c.Err())
	// Output: 1 2 <nil>
}

// A wire channel: a cutter of 6 mm led along a bent line.
func ExampleCalc_OffsetPath() {
	line := geom.Polyline(geom.Pt(0, 0), geom.Pt(80, 0), geom.Pt(80, 50))
	var c geom.Calc
	channel := c.OffsetPath(line, 6.0/2)
	// 130 mm of line, 6 mm wide, and two half discs; the square that the outer
	// side of the bend lacks and the inner side counts twice: 9 − 9π/4 mm².
	fmt.Printf("%d loop, %.2f mm², %v\n", len(channel), channel.Area(), c.Err())
	// Output: 1 loop, 806.34 mm², <nil>
}

// A control cavity that two cutters cleared: first the large one, which leaves
// the corners, then the small one.
func ExampleCalc_Open() {
	cavity := geom.Region{geom.Rect(geom.Pt(0, 0), 90, 40)}
	var c geom.Calc
	for _, cutter := range []float64{19, 6.35} {
		cleared := c.Open(cavity, cutter/2)
		fmt.Printf("%5.2f mm cutter leaves %.2f mm²\n", cutter, cavity.Area()-cleared.Area())
	}
	// Output:
	// 19.00 mm cutter leaves 77.47 mm²
	//  6.35 mm cutter leaves 8.65 mm²
}

// A slot exactly as wide as its cutter is cleared, by the stated rule.
func ExampleCalc_Open_exactly() {
	slot := geom.Region{geom.Stadium(geom.Pt(0, 0), geom.Pt(60, 0), 6.35/2)}
	var c geom.Calc
	fmt.Printf("%.3f of %.3f mm²\n", c.Open(slot, 6.35/2).Area(), slot.Area())
	fmt.Printf("%d regions for its centre by Offset alone\n", len(c.Offset(slot, -6.35/2, geom.Round)))
	fmt.Printf("%.3f mm² with a cutter 0.1 mm wider\n", c.Open(slot, 6.45/2).Area())
	// Output:
	// 412.669 of 412.669 mm²
	// 0 regions for its centre by Offset alone
	// 0.000 mm² with a cutter 0.1 mm wider
}

// A cutter that runs round the outside of a body cannot enter a notch narrower
// than itself.
func ExampleCalc_Close() {
	body := geom.Region{geom.Polygon(
		geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 60),
		geom.Pt(54, 60), geom.Pt(54, 40), geom.Pt(46, 40), geom.Pt(46, 60), geom.Pt(0, 60))}
	var c geom.Calc
	left := c.Close(body, 12.7/2)
	// The cutter rests on both edges and reaches in by the segment of a circle
	// over a chord of 8 mm: 7.75 mm².
	fmt.Printf("%.2f mm² of the notch of 160 stay filled\n", left.Area()-body.Area())
	// Output: 152.25 mm² of the notch of 160 stay filled
}
