package geom_test

import (
	"fmt"

	"routwright/geom"
)

// The largest cutter that clears a cavity completely, and the place that says
// so: the corner radius of 8 mm here, the waist of 12 mm there.
func ExampleLargestClearing() {
	plain := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 80, 40, 8)}
	r, _ := geom.LargestClearing(plain)
	fmt.Printf("%.1f mm cutter\n", 2*r)

	var c geom.Calc
	joined := c.Union(
		geom.Region{geom.Circle(geom.Pt(-40, 0), 20)},
		geom.Region{geom.Circle(geom.Pt(40, 0), 20)},
		geom.Region{geom.Rect(geom.Pt(0, 0), 80, 12)})
	r, at := geom.LargestClearing(joined)
	fmt.Printf("%.1f mm cutter, held at y = %.1f\n", 2*r, at.Y)
	// Output:
	// 16.0 mm cutter
	// 12.0 mm cutter, held at y = 0.0
}

// The smallest radius of a body: inside where a template's cutter must fit into
// a corner of the opening, outside where it runs round the body.
func ExampleTightestRadius() {
	body := geom.Region{{
		geom.ArcSweep(geom.Pt(0, 0), 40, 90*geom.Degree, 180*geom.Degree),
		geom.Line(geom.Pt(0, -40), geom.Pt(80, -40)),
		geom.Line(geom.Pt(80, -40), geom.Pt(80, 40)),
		geom.Line(geom.Pt(80, 40), geom.Pt(70, 40)),
		geom.ArcAbout(geom.Pt(50, 40), geom.Pt(70, 40), geom.Pt(30, 40), -1),
		geom.Line(geom.Pt(30, 40), geom.Pt(0, 40)),
	}}
	inside, outside := geom.TightestRadius(body)
	fmt.Printf("inside %.1f mm, outside %.1f mm\n", inside.Radius, outside.Radius)
	// Output: inside 0.0 mm, outside 20.0 mm
}

// Which of the cavities of a back come within 3 mm of each other.
func ExampleClosePairs() {
	cavities := []geom.Region{
		{geom.Rect(geom.Pt(0, 0), 40, 30)},
		{geom.Circle(geom.Pt(34, 0), 12)},
		{geom.Rect(geom.Pt(0, 60), 40, 30)},
	}
	for _, p := range geom.ClosePairs(cavities, 3) {
		fmt.Printf("%d and %d: %.1f mm at (%.0f, %.0f)\n", p.I, p.J, p.Dist, p.A.X, p.A.Y)
	}
	// Output: 0 and 1: 2.0 mm at (20, 0)
}

// The widest boring bit that stays inside a cavity: a triangle of sides 60, 80
// and 100 mm holds the circle of radius (60 + 80 − 100)/2.
func ExampleInscribedCircle() {
	d := geom.InscribedCircle(geom.Region{geom.Polygon(geom.Pt(0, 0), geom.Pt(80, 0), geom.Pt(0, 60))})
	fmt.Printf("radius %.3f mm at (%.2f, %.2f)\n", d.Radius, d.Center.X, d.Center.Y)
	// Output: radius 20.000 mm at (20.00, 20.00)
}

// The blank from which a round knob plate can be turned.
func ExampleEnclosingCircle() {
	d := geom.EnclosingCircle(geom.Stadium(geom.Pt(-30, 0), geom.Pt(30, 0), 10))
	fmt.Printf("radius %.3f mm\n", d.Radius)
	// Output: radius 40.000 mm
}

// Many questions about one outline: build the index once.
func ExampleIndex() {
	body := geom.IndexOf(geom.Region{geom.Circle(geom.Pt(0, 0), 160)})
	for _, pin := range []geom.Point{geom.Pt(0, 150), geom.Pt(120, 120)} {
		_, d := body.Closest(pin)
		fmt.Printf("inside %v, %.2f mm from the edge\n", body.Contains(pin), d)
	}
	// Output:
	// inside true, 10.00 mm from the edge
	// inside false, 9.71 mm from the edge
}
